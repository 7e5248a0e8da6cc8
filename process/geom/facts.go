package geom

import (
	"borewright/process/fact"
	"borewright/process/qty"
)

// What the answers are called where they are printed.
const (
	IsClear     fact.Kind = "geom.clear"
	IsTight     fact.Kind = "geom.tight"
	DoesNotPass fact.Kind = "geom.does-not-pass"

	ToTheLeft  fact.Kind = "geom.left"
	ToTheRight fact.Kind = "geom.right"
	Upward     fact.Kind = "geom.up"
	Downward   fact.Kind = "geom.down"

	WithTheClock    fact.Kind = "geom.clockwise"
	AgainstTheClock fact.Kind = "geom.counterclockwise"

	AtNearEnd fact.Kind = "geom.near-end"
	AtFarEnd  fact.Kind = "geom.far-end"

	TheNose   fact.Kind = "geom.nose"
	TheQuill  fact.Kind = "geom.quill"
	TheCutter fact.Kind = "geom.cutter"
	TheStep   fact.Kind = "geom.step" // its number, from 1

	WhileGoingIn   fact.Kind = "geom.going-in"
	WhileCutting   fact.Kind = "geom.cutting"
	WhileComingOut fact.Kind = "geom.coming-out"

	EntersOnAxis  fact.Kind = "geom.enters-on-axis"
	EntersShifted fact.Kind = "geom.enters-shifted"
	SetInside     fact.Kind = "geom.set-inside"
	NeverEnters   fact.Kind = "geom.never-enters"
)

// Fact is the answer to be printed.
func (v Verdict) Fact() fact.Fact { return named(v, IsClear, IsTight, DoesNotPass) }

// Fact is the direction to be printed; nothing for Still.
func (d Direction) Fact() fact.Fact {
	return named(d, "", ToTheLeft, ToTheRight, Upward, Downward)
}

// Fact is the sense of turning to be printed; nothing for Untouched.
func (r Rotation) Fact() fact.Fact { return named(r, "", WithTheClock, AgainstTheClock) }

// Fact is the end to be printed; nothing for NoEnd.
func (e End) Fact() fact.Fact { return named(e, "", AtNearEnd, AtFarEnd) }

// Fact is the phase to be printed.
func (p Phase) Fact() fact.Fact { return named(p, WhileGoingIn, WhileCutting, WhileComingOut) }

// Fact is the way to be printed.
func (w Way) Fact() fact.Fact {
	return named(w, EntersOnAxis, EntersShifted, SetInside, NeverEnters)
}

// Fact is the part to be printed.
func (p Part) Fact() fact.Fact {
	switch p {
	case Nose:
		return fact.New(TheNose)
	case Quill:
		return fact.New(TheQuill)
	case Cutter:
		return fact.New(TheCutter)
	}
	return fact.New(TheStep, fact.Count(int(p)+1))
}

// named is the kind of a value; nothing where it has none.
func named[T ~int](v T, kinds ...fact.Kind) fact.Fact {
	if v < 0 || int(v) >= len(kinds) || kinds[v] == "" {
		return fact.Fact{}
	}
	return fact.New(kinds[v])
}

// What is to be said of a line-up.
const (
	// TiltAssumed is what the tilt rests on where no sweep shows it.
	TiltAssumed fact.Kind = "geom.tilt-assumed"
	// ThreeReadings: the station that was swept at three places.
	ThreeReadings fact.Kind = "geom.three-readings"
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

// What blocks a bar on its way to a bore. place is a fact AtPlace.
const (
	AtPlace        fact.Kind = "geom.at-place"         // number of the pass, phase, depth of the tip
	RunsIntoBottom fact.Kind = "geom.runs-into-bottom" // part, its diameter, overlap, station, place
	NearBottom     fact.Kind = "geom.near-bottom"      // part, its diameter, room, station, room needed, place
	NearFace       fact.Kind = "geom.near-face"        // the same
	LittleRoom     fact.Kind = "geom.little-room"      // the same
	TooLarge       fact.Kind = "geom.too-large"        // part, its diameter, station, overlap, place
	CutterNeverIn  fact.Kind = "geom.cutter-never-in"  // number of the pass, setting, open length in front of the bore
	NoseTooNear    fact.Kind = "geom.nose-too-near"    // how much further off it must stand
	QuillTooShort  fact.Kind = "geom.quill-too-short"  // how far it would come out, how much more than it can
)

// What is wrong with a bar and its line of bores.
const (
	NoSuchBore      fact.Kind = "geom.no-such-bore"     // number of the station, how many there are
	NotAStation     fact.Kind = "geom.not-a-station"    // name, from, to, diameter, relief
	StationsOverlap fact.Kind = "geom.stations-overlap" // name, from, name of the one before, its end
	BehindBlind     fact.Kind = "geom.behind-blind"     // name, name of the one behind
	NoSteps         fact.Kind = "geom.no-steps"
	NotAStep        fact.Kind = "geom.not-a-step"     // number, diameter, length
	CutterOffBar    fact.Kind = "geom.cutter-off-bar" // where it stands, length of the bar
	NotASpindle     fact.Kind = "geom.not-a-spindle"  // nose, quill, travel, standoff
	NoPass          fact.Kind = "geom.no-pass"
	NotAPass        fact.Kind = "geom.not-a-pass"  // number, setting, bore before, from, to, retract shift
	NotAShift       fact.Kind = "geom.not-a-shift" // where the tip points in degrees, uncertainty
)

// Arguments from mm, degrees and mrad.

func length(mm float64) fact.Arg   { return fact.Figure(qty.FromMM(mm)) }
func plain(mm float64) fact.Arg    { return fact.Figure(qty.Plain(qty.FromMM(mm))) }
func diameter(mm float64) fact.Arg { return fact.Figure(qty.DiameterMM(mm)) }
func degrees(deg float64) fact.Arg { return fact.Figure(qty.KindAngle.Of(deg)) }
func slope(mrad float64) fact.Arg  { return fact.Figure(qty.KindSlope.Of(mrad)) }

// Why says what blocks; nothing when nothing does.
func (r *Reach) Why() []fact.Fact {
	var out []fact.Fact
	for _, g := range r.Gaps {
		if g.Verdict == Blocked {
			out = append(out, g.why())
		}
	}
	for _, e := range r.Entries {
		if e.Way() == NoWay && e.Bare {
			out = append(out, fact.New(CutterNeverIn, fact.Count(e.N), diameter(e.Setting), length(e.Open)))
		}
	}
	if r.NoseBack > 0 {
		out = append(out, fact.New(NoseTooNear, length(r.NoseBack)))
	}
	if r.QuillShort > 0 {
		out = append(out, fact.New(QuillTooShort, length(r.QuillOut), length(r.QuillShort)))
	}
	return out
}

// why says how a place blocks.
func (g Gap) why() fact.Fact {
	part, size, name, room := g.Part.Fact(), diameter(g.Diameter), fact.Name(g.Name), length(g.Clearance)
	over, need := length(-g.Clearance), length(g.Need.Least)
	at := fact.New(AtPlace, fact.Count(g.N), g.Phase.Fact(), length(g.Tip))
	switch {
	case g.Bottom && g.Clearance < 0:
		return fact.New(RunsIntoBottom, part, size, over, name, at)
	case g.Bottom:
		return fact.New(NearBottom, part, size, room, name, need, at)
	case g.Axial:
		return fact.New(NearFace, part, size, room, name, need, at)
	case g.Clearance < 0:
		return fact.New(TooLarge, part, size, name, over, at)
	}
	return fact.New(LittleRoom, part, size, room, name, need, at)
}
