package sleeve

import (
	"borewright/process/fact"
	"borewright/process/fit"
)

// What stops a sleeve, or is to mind of it.
const (
	NoSleeve       fact.Kind = "sleeve.none"              // the job has no table for it
	HubAssumed     fact.Kind = "sleeve.hub.assumed"       // metal around the housing, least and most
	AxisUnstated   fact.Kind = "sleeve.axis.unstated"     // how far off the finished axis can stand
	GoesTight      fact.Kind = "sleeve.part.tight"        // by how much at work
	ComesLoose     fact.Kind = "sleeve.part.loose"        // by how much at work
	NoLoad         fact.Kind = "sleeve.load.unstated"     // method
	ShortOfLoad    fact.Kind = "sleeve.load.short"        // method, times the load, times wanted
	FlangeClosed   fact.Kind = "sleeve.way.flange closed" // the flange, the station that is closed
	FarEndClosed   fact.Kind = "sleeve.way.closed"        // outside, station and its diameter, the station that is closed
	NarrowBothEnds fact.Kind = "sleeve.way.narrow"        // outside, station and its diameter, that from the far end
	FromTheFarEnd  fact.Kind = "sleeve.way.far_end"       // outside, station and its diameter
)

// What the order of work that is not taken would need.
const (
	MillStopped   fact.Kind = "sleeve.other.stopped"     // why
	MillWouldTake fact.Kind = "sleeve.other.visit"       // passes, minutes, size low and high, Ra
	MillNeeds     fact.Kind = "sleeve.other.mill_needs"  // what; nothing: what was said before
	LatheNeeds    fact.Kind = "sleeve.other.lathe_needs" // what; nothing: what was said before
	LatheAsWell   fact.Kind = "sleeve.other.lathe"       // no arguments
	NeedLimits    fact.Kind = "sleeve.need.limits"       // apart, where they are, lathe to hold, where it is counted on, closure differs by
	NeedLocation  fact.Kind = "sleeve.need.location"     // of, where is asked for
	NeedRoundness fact.Kind = "sleeve.need.roundness"    // of, where is asked for
)

// What the part that goes in finds.
const (
	Clear        fact.Kind = "sleeve.clear"          // least, most
	Tight        fact.Kind = "sleeve.tight"          // least, most
	TightToLoose fact.Kind = "sleeve.tight_to_loose" // most tight, most loose
	PartNotKnown fact.Kind = "sleeve.part.not_known" // asked for
	MeasurePart  fact.Kind = "sleeve.part.measure"   // what it finds, asked for
	TryPart      fact.Kind = "sleeve.part.try"       // what it finds, asked for
)

// What a joint is worked out for.
const (
	ForPress fact.Kind = "sleeve.joint.press" // fit, friction, least and most
	ForBond  fact.Kind = "sleeve.joint.bond"  // compound, its strength here, least and most, gap, least and most
)

// The visits of a sleeve, and what is done before and after them.
const (
	HousingVisit  fact.Kind = "sleeve.visit.housing"  // no arguments
	InsideVisit   fact.Kind = "sleeve.visit.inside"   // no arguments
	MakeToHousing fact.Kind = "sleeve.after.make"     // no arguments
	MeasureAtHome fact.Kind = "sleeve.after.measure"  // limits
	SleeveSigned  fact.Kind = "sleeve.before.signed"  // no arguments
	MeasureInside fact.Kind = "sleeve.before.measure" // inside expected, least and most
	HomeSize      fact.Kind = "sleeve.home.size"      // expected, least and most
	HomeLimits    fact.Kind = "sleeve.home.limits"    // limits
	EnterHome     fact.Kind = "sleeve.home.enter"     // no arguments
	LineUpAfresh  fact.Kind = "sleeve.before.line_up" // no arguments
)

// Features of the sleeve and its housing: what each is, and how it is made.
const (
	LeadInOfNose   fact.Kind = "sleeve.detail.lead_in"
	NoseOfSleeve   fact.Kind = "sleeve.detail.nose"
	MouthOfHousing fact.Kind = "sleeve.detail.mouth"
	ReachOfSeat    fact.Kind = "sleeve.detail.reach"
	BothEnds       fact.Kind = "sleeve.detail.inside"
	VentBlind      fact.Kind = "sleeve.detail.vent"
	Ends           fact.Kind = "sleeve.detail.ends"
	OilGrooves     fact.Kind = "sleeve.detail.grooves"
	OilHoles       fact.Kind = "sleeve.detail.holes"

	MouthClean    fact.Kind = "sleeve.how.mouth_clean" // bevel
	MouthBroken   fact.Kind = "sleeve.how.mouth"       // bevel
	NoseChamfer   fact.Kind = "sleeve.how.nose"        // bevel
	SeatDeep      fact.Kind = "sleeve.how.deep"        // how deep the seat begins
	SeatDeepBlind fact.Kind = "sleeve.how.deep blind"  // the same
	InsideChamfer fact.Kind = "sleeve.how.inside"      // bevel
	VentGroove    fact.Kind = "sleeve.how.vent"        // depth
	EndsShort     fact.Kind = "sleeve.how.ends"        // how far under the face
	EndsStandOut  fact.Kind = "sleeve.how.stands_out"  // by how much, near end and far end
	Grooves       fact.Kind = "sleeve.how.grooves"     // depth, wall, how far from the ends
	HolesAtHome   fact.Kind = "sleeve.how.holes_home"  // wall
	HolesOnBench  fact.Kind = "sleeve.how.holes_bench" // wall, larger by
)

// The sequence on the lathe.
const (
	LatheRough      fact.Kind = "sleeve.lathe.rough"   // over and under
	LatheSlack      fact.Kind = "sleeve.lathe.slack"   // no arguments
	LatheFinish     fact.Kind = "sleeve.lathe.finish"  // limits of the inside
	LatheBore       fact.Kind = "sleeve.lathe.bore"    // limits of the inside, what is left, least and most
	LatheOutside    fact.Kind = "sleeve.lathe.outside" // to what, runout
	ByTheFit        fact.Kind = "sleeve.lathe.by_fit"  // limits of the outside
	LessThanHousing fact.Kind = "sleeve.lathe.less"    // limits of the difference
	MoreThanHousing fact.Kind = "sleeve.lathe.more"    // limits of the difference
	LatheLength     fact.Kind = "sleeve.lathe.length"  // limits
	LatheMeasure    fact.Kind = "sleeve.lathe.measure" // no arguments
)

func method(m fit.Method) fact.Arg { return fact.Name(m.String()) }
