package place

import (
	"borewright/process/fact"
)

// What is to be said of sweeps and of the line-up.
const (
	// DoubtfulDial: number of the sweep, station, clock position, what the dial
	// read there, what the other readings suggest. DoubtfulOnFace: the same.
	DoubtfulDial   fact.Kind = "place.doubtful-dial"
	DoubtfulOnFace fact.Kind = "place.doubtful-on-face"
	// SweepsDisagree: list of SweepOffLine, number of the worst, how many bore
	// sweeps there are where they are too few to tell.
	SweepsDisagree fact.Kind = "place.sweeps-disagree"
	// SweepOffLine: number of the sweep, station, depth, how far off.
	SweepOffLine fact.Kind = "place.sweep-off-line"
	// WitnessMustShow: station, how much its ends may differ, ± of the tilt, its
	// length.
	WitnessMustShow fact.Kind = "place.witness-must-show"
	// ParallelAssumed: station, ± of its place.
	ParallelAssumed fact.Kind = "place.parallel-assumed"
	// TurnedBy: sense of turning, angle. ShimmedBy: end, slope.
	TurnedBy  fact.Kind = "place.turned-by"
	ShimmedBy fact.Kind = "place.shimmed-by"
	// FarToMove: how far the line stands off the spindle, what is usual at the most.
	// FarToTilt: how far it leans, what is usual at the most.
	FarToMove fact.Kind = "place.far-to-move"
	FarToTilt fact.Kind = "place.far-to-tilt"
	// NoLineUp: what is wrong with the sweeps.
	NoLineUp fact.Kind = "place.no-line-up"
)

// What is to be said of a bush in the work: its station, the share of its place that the cutter
// follows, how far it may be off the line, how far the cutter aside.
const (
	InBush      fact.Kind = "place.in-bush"
	InBoredBush fact.Kind = "place.in-bored-bush"
)

// What is to be said of a worn bore.
const (
	AcrossWithOffset fact.Kind = "place.across-with-offset" // offset stated
	AcrossOnly       fact.Kind = "place.across-only"
	OwnAxisUnknown   fact.Kind = "place.own-axis-unknown" // list of DepthRead
	DepthRead        fact.Kind = "place.depth-read"       // depth
	ByRadiiAlone     fact.Kind = "place.by-radii-alone"   // one of those below
	WornOffLine      fact.Kind = "place.worn-off-line"    // off, clock position, price of the true axis
	WornAndLeaning   fact.Kind = "place.worn-and-leaning" // lean, list of OwnEndAt, price of the true axis
	OwnEndAt         fact.Kind = "place.own-end-at"       // off, clock position, depth
	OffNoGain        fact.Kind = "place.off-no-gain"      // off, clock position
	StandsTrue       fact.Kind = "place.stands-true"
	NoGain           fact.Kind = "place.no-gain"
	// DoubtfulReading: station, depth, clock position, radius, what the others
	// suggest.
	DoubtfulReading fact.Kind = "place.doubtful-reading"
	// ShadowLikely: station, chance, size of the last pass, size that does in 19 bores
	// of 20, the next sleeve outside that does (none: no sleeve), list of what to read.
	ShadowLikely fact.Kind = "place.shadow-likely"
	ReadPlaces   fact.Kind = "place.read-places" // how many clock positions
	ReadNearEnd  fact.Kind = "place.read-near-end"
	ReadFarEnd   fact.Kind = "place.read-far-end"
	// Unread: list of those below.
	Unread       fact.Kind = "place.unread"
	SizeNotKnown fact.Kind = "place.size-not-known"
	MostBetween  fact.Kind = "place.most-between" // size that does in 19 bores of 20
	MostCarried  fact.Kind = "place.most-carried" // the same, how far to the near end and the far end
	LobesHidden  fact.Kind = "place.lobes-hidden" // how many lobes, how high they may stand on radius
	ReadBesides  fact.Kind = "place.read-besides" // list of what to read
	GougeUnseen  fact.Kind = "place.gouge-unseen"
	GougeInBand  fact.Kind = "place.gouge-in-band"
	// NoCleanUp: what is wrong with the readings.
	NoCleanUp fact.Kind = "place.no-clean-up"
)

// What is to be said of a bar on its way. why is a list of what blocks.
const (
	BarDoesNotPass   fact.Kind = "place.bar-does-not-pass"  // why, largest plain bar, shortest stickout
	TooLongAhead     fact.Kind = "place.too-long-ahead"     // why, how much shorter
	NoCutterPasses   fact.Kind = "place.no-cutter-passes"   // why
	NoBarPasses      fact.Kind = "place.no-bar-passes"      // why
	SpindleFollows   fact.Kind = "place.spindle-follows"    // why
	TravelTooShort   fact.Kind = "place.travel-too-short"   // axis, travel needed, travel there is
	QuillCannotClear fact.Kind = "place.quill-cannot-clear" // depth of the tip with the quill home, where it must go, standoff that would do
	BringFirst       fact.Kind = "place.bring-first"        // list of Quoted stations
	Quoted           fact.Kind = "place.quoted"             // a name
	TightPlace       fact.Kind = "place.tight-place"        // part, room, station, room that is comfortable
	NoReach          fact.Kind = "place.no-reach"           // what is wrong
	BarUnusable      fact.Kind = "place.bar-unusable"       // bar of the list, what is wrong with it
	SetsOnly         fact.Kind = "place.sets-only"          // least and most that the cutter sets to
)

// How a cutter that is too large on the axis comes in. fails is a fact
// CutterTooLarge, shifts a list of ShiftedBy.
const (
	CutterTooLarge fact.Kind = "place.cutter-too-large"  // setting, station
	CutterHasNoWay fact.Kind = "place.cutter-has-no-way" // fails
	CutterByHand   fact.Kind = "place.cutter-by-hand"    // fails, shifts, from and to of the open length, why no program takes it in; what is not there does not do
	EnterByProgram fact.Kind = "place.enter-by-program"  // fails, shift, depth at which the bar comes back to its axis, clock position of the tip
	RoomOffAxis    fact.Kind = "place.room-off-axis"     // list of those below, clock position of the tip, how far the cutter may stand out beside its tip
	RoomBothSides  fact.Kind = "place.room-both-sides"   // station, room at the tip, room behind the bar
	RoomAtTip      fact.Kind = "place.room-at-tip"       // station, room
	RoomBehind     fact.Kind = "place.room-behind"       // station, room
	EnterOffAxis   fact.Kind = "place.enter-off-axis"    // fails, shifts
	EnterBare      fact.Kind = "place.enter-bare"        // fails, depth to bring it to, from and to of the open length
	ThreadBare     fact.Kind = "place.thread-bare"       // the same
	ShiftedBy      fact.Kind = "place.shifted-by"        // least, most, depths of the tip from and to
)

// failed is what an error of geom is about.
func failed(err error) fact.Fact {
	f, _ := fact.Of(err)
	return f
}

// Metal round a bore.
const (
	WallTooThin   fact.Kind = "plan.wall too thin" // size bored to, metal left, wall, least, metal, what instead
	SmallerSize   fact.Kind = "plan.smaller size"
	SmallerSleeve fact.Kind = "plan.smaller sleeve"
)
