package plan

import "borewright/process/fact"

// Where in the plan something is so.
const (
	OfStation  fact.Kind = "plan.of station"  // name of the station, what is so
	OfVisit    fact.Kind = "plan.of visit"    // name of the station, title of the visit, what is so
	OfBores    fact.Kind = "plan.of bores"    // list of stations (Station), what is so
	Station    fact.Kind = "plan.station"     // name
	ForLimit   fact.Kind = "plan.for limit"   // what bound a pass; stickout over diameter, share of the depth that such a bar takes
	ForChatter fact.Kind = "plan.for chatter" // stickout over diameter, how the pass stands
	NoPlan     fact.Kind = "plan.none"        // there is no plan
)

// written is what is not a fact of its own yet.
func written(s string) fact.Fact { return fact.AsWritten(s) }
