package measured

import (
	"borewright/process/fact"
)

// Entries that cannot be taken.
const (
	NothingBored fact.Kind = "measured.nothing bored" // place of the entry
	NoSleeve     fact.Kind = "measured.no sleeve"     // place, station
	NoVisit      fact.Kind = "measured.no visit"      // place, station, visits that it has, visit of the entry
	NoSize       fact.Kind = "measured.no size"       // place, least and most found, station, size as it was, size aimed at, pass
)

// What is learned, and what is not.
const (
	Springs      fact.Kind = "measured.springs" // material, how much, factor, doubt of it, cuts
	AsPredicted  fact.Kind = "measured.as predicted"
	MorePredict  fact.Kind = "measured.more"          // share
	LessPredict  fact.Kind = "measured.less"          // share
	OtherTooling fact.Kind = "measured.other tooling" // station, pass
	CameLarger   fact.Kind = "measured.came larger"   // station, pass, by
	CameSmaller  fact.Kind = "measured.came smaller"  // station, pass, by, the most that the bar springs
	SemiNext     fact.Kind = "measured.semi next"     // one of the two
	TooFewCuts   fact.Kind = "measured.too few cuts"  // how many
	TooAlike     fact.Kind = "measured.too alike"
)

// Where a visit stands.
const (
	AtStation     fact.Kind = "measured.at station"    // station, what is so
	AtPass        fact.Kind = "measured.at pass"       // station, pass, what is so
	TheRest       fact.Kind = "measured.the rest"      // title of the visit, pass that was measured last
	BandStands    fact.Kind = "measured.band stands"   // the same, where the last pass marked a band and the bore stands as it was behind it
	Stands        fact.Kind = "measured.stands"        // station, visit, least and most found, pass, left on diameter, the old bore
	OldCleansUp   fact.Kind = "measured.old cleans up" // size it reaches about the true axis
	OldStays      fact.Kind = "measured.old stays"     // the same
	InAlready     fact.Kind = "measured.in already"    // station, pass, its kind, least and most found
	TooLarge      fact.Kind = "measured.too large"     // station, pass, least and most found, high limit, over by, what is needed
	TurnLarger    fact.Kind = "measured.turn larger"   // station, pass, least and most found, high limit, over by
	BiggerSleeve  fact.Kind = "measured.bigger sleeve"
	MatchSleeve   fact.Kind = "measured.match sleeve"
	AnotherSleeve fact.Kind = "measured.another sleeve"
	OnlySleeve    fact.Kind = "measured.only a sleeve"
	SleeveHome    fact.Kind = "measured.sleeve home"    // station, least and most found
	HomeTooLarge  fact.Kind = "measured.home too large" // station, least and most found, high limit
	AtTwenty      fact.Kind = "measured.at twenty"      // station, pass, temperatures of work and gauge, the reference, least and most at it
	WorkWarm      fact.Kind = "measured.work warm"      // station, the gauge reads larger by, the reference
	WorkCold      fact.Kind = "measured.work cold"      // the same, smaller by
	HomeTooSmall  fact.Kind = "measured.home too small" // station, least and most found, low limit
)

// The marks of a witness cut against the readings of the worn bore.
const (
	MarksElsewhere fact.Kind = "measured.marks elsewhere"
	MarksAgree     fact.Kind = "measured.marks agree"    // clock positions, to
	MarksDisagree  fact.Kind = "measured.marks disagree" // where, one of the next two
	MarksTell      fact.Kind = "measured.marks tell"     // moves
	MarksTooFew    fact.Kind = "measured.marks too few"
	MoveByMarks    fact.Kind = "measured.move by marks"  // slide and sign, by, spindle goes, work goes, graduations and what one is (by hand)
	MarkedOutside  fact.Kind = "measured.marked outside" // clock position, by
	BareInside     fact.Kind = "measured.bare inside"    // clock position, by
)
