package record

import "borewright/process/fact"

// SleeveHome is the title of what is measured when a sleeve finished on the lathe
// is home.
const SleeveHome fact.Kind = "record.sleeve home"

// What a record holds that is not as asked.
const (
	OfVisit            fact.Kind = "record.of visit" // station, visit, what is so
	DeviatesOpen       fact.Kind = "record.deviates open"
	DeviatesUnfinished fact.Kind = "record.deviates unfinished" // passes left
	DeviatesOver       fact.Kind = "record.deviates over"       // least and most found, by
	DeviatesUnder      fact.Kind = "record.deviates under"      // the same
	DeviatesRa         fact.Kind = "record.deviates ra"         // found, asked for
	DeviatesRound      fact.Kind = "record.deviates round"      // found, asked for
	DeviatesClearance  fact.Kind = "record.deviates clearance"  // least and most found, least and most asked for
)

// A pass that is not there to be entered.
const (
	NoPass      fact.Kind = "record.no pass" // pass, station, what is left there
	NothingLeft fact.Kind = "record.nothing left"
	PassesLeft  fact.Kind = "record.passes left" // list of PassLeft
	PassLeft    fact.Kind = "record.pass left"   // number, kind
)

// What looks like a slip. Sizes are printed as lengths.
const (
	ASlip        fact.Kind = "record.slip"          // what looks wrong, what was meant
	SprangMore   fact.Kind = "record.sprang more"   // spring by the sizes, spring planned
	ReadApart    fact.Kind = "record.read apart"    // by
	NotExpected  fact.Kind = "record.not expected"  // size, least and most expected
	Measured     fact.Kind = "record.measured"      // pass, least and most found
	OutOfOrder   fact.Kind = "record.out of order"  // pass, pass with a stop, its kind
	SetOtherwise fact.Kind = "record.set otherwise" // setting, as planned
	CannotBe     fact.Kind = "record.cannot be"     // size, of the bore before, setting
	Impossible   fact.Kind = "record.impossible"    // size
	Smaller      fact.Kind = "record.smaller"       // size, of the bore before
	Larger       fact.Kind = "record.larger"        // size, setting
	MarksNotSaid fact.Kind = "record.marks not said"
	MarkedBare   fact.Kind = "record.marked and bare" // clock position
)

// What was probably meant, or what to look at.
const (
	MixedUnits    fact.Kind = "record.mixed units"    // how to write it, or what it would be
	SwappedDigits fact.Kind = "record.swapped digits" // what it would be
	PointOff      fact.Kind = "record.point off"      // what it would be
	WriteIt       fact.Kind = "record.write it"       // text to enter, its unit
	WouldBe       fact.Kind = "record.would be"       // size
	WasAndSet     fact.Kind = "record.was and set"    // size of the bore before, setting
	IsItPass      fact.Kind = "record.is it pass"     // pass
	IsThatSo      fact.Kind = "record.is that so"
	LeftOut       fact.Kind = "record.left out"
	LookForSlip   fact.Kind = "record.look for slip"
	TooFarHome    fact.Kind = "record.too far home"
	GaugeHome     fact.Kind = "record.gauge home"
	Replaces      fact.Kind = "record.replaces"
	NoShrinking   fact.Kind = "record.no shrinking"
	LookAtSetting fact.Kind = "record.look at setting"
	GaugeAgain    fact.Kind = "record.gauge again"
	SayMarks      fact.Kind = "record.say marks"
	MarkedOrBare  fact.Kind = "record.marked or bare"
)
