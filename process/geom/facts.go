package geom

import (
	"borewright/process/fact"
)

// What the answers are called where they are printed.
const (
	ToTheLeft  fact.Kind = "geom.left"
	ToTheRight fact.Kind = "geom.right"
	Upward     fact.Kind = "geom.up"
	Downward   fact.Kind = "geom.down"

	WithTheClock    fact.Kind = "geom.clockwise"
	AgainstTheClock fact.Kind = "geom.counterclockwise"

	AtNearEnd fact.Kind = "geom.near-end"
	AtFarEnd  fact.Kind = "geom.far-end"
)

// Fact is the direction to be printed; nothing for Still.
func (d Direction) Fact() fact.Fact {
	return fact.Named(d, "", ToTheLeft, ToTheRight, Upward, Downward)
}

// Fact is the sense of turning to be printed; nothing for Untouched.
func (r Rotation) Fact() fact.Fact { return fact.Named(r, "", WithTheClock, AgainstTheClock) }

// Fact is the end to be printed; nothing for NoEnd.
func (e End) Fact() fact.Fact { return fact.Named(e, "", AtNearEnd, AtFarEnd) }

// What is to be said of a line-up.
const (
	// TiltAssumed is what the tilt rests on where no sweep shows it.
	TiltAssumed fact.Kind = "geom.tilt-assumed"
	// ThreeReadings: the station that was swept at three places.
	ThreeReadings fact.Kind = "geom.three-readings"
	// OneSided: station, depth, clock positions that nothing was swept between.
	OneSided fact.Kind = "geom.one-sided"
	// LobesAsOffset: station, depth, how many lobes the places take for an offset.
	LobesAsOffset fact.Kind = "geom.lobes-as-offset"
	// OffOneLine: how many times the uncertainty was raised.
	OffOneLine fact.Kind = "geom.off-one-line"
	// TiltUnsure: ± of the tilt that was swept, ± of a machined face.
	TiltUnsure fact.Kind = "geom.tilt-unsure"
)

// What is wrong with sweeps and with what they are lined up by.
const (
	NoBoreSwept      fact.Kind = "geom.no-bore-swept"
	SweepsContradict fact.Kind = "geom.sweeps-contradict"
	NoLine           fact.Kind = "geom.no-line"
	NegativeDoubt    fact.Kind = "geom.negative-doubt"
	NotATarget       fact.Kind = "geom.not-a-target"   // station
	NoSuchTarget     fact.Kind = "geom.no-such-target" // number of the station, how many there are
	NotATable        fact.Kind = "geom.not-a-table"    // depth of the centre, distance of the stop
	PacksInverted    fact.Kind = "geom.packs-inverted" // depths of the near one and the far one

	// SweepRefused: station, depth, one of those below.
	SweepRefused     fact.Kind = "geom.sweep-refused"
	UnlikeLengths    fact.Kind = "geom.unlike-lengths"     // clock positions, readings
	UnderThree       fact.Kind = "geom.under-three"        // readings
	NoCircleSwept    fact.Kind = "geom.no-circle-swept"    // diameter
	NotADial         fact.Kind = "geom.not-a-dial"         // stylus angle, droop, out-of-round
	NotADialReading  fact.Kind = "geom.not-a-dial-reading" // its number
	ClocksTooNear    fact.Kind = "geom.clocks-too-near"
	OffsetOverRadius fact.Kind = "geom.offset-over-radius" // offset
)

// What is wrong with readings of a worn bore.
const (
	TooFewReadings fact.Kind = "geom.too-few-readings" // given, needed
	NotAReading    fact.Kind = "geom.not-a-reading"    // its number, radius, clock position in degrees
	ReadingsOnLine fact.Kind = "geom.readings-on-line"
	OpenInside     fact.Kind = "geom.open-inside"
	OpenZone       fact.Kind = "geom.open-zone"
	NoDepthRead    fact.Kind = "geom.no-depth-read"
	NotADepth      fact.Kind = "geom.not-a-depth"   // its number
	AtThatDepth    fact.Kind = "geom.at-that-depth" // depth, one of those above
)

// Arguments from mm, degrees and mrad.
