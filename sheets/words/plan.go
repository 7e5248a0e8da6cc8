package words

import (
	"borewright/process/fact"
	"borewright/process/plan"
)

// ofPlan are the words of process/plan.
var ofPlan = map[fact.Kind]entry{
	plan.OfStation:  text("{1}: {2}"),
	plan.OfVisit:    text("{1}, {2}: {3}"),
	plan.OfBores:    text("{1}: {2}"),
	plan.Station:    text("{1}"),
	plan.ForLimit:   text("limited by {1}{?; a bar {2:bare} diameters out takes {3} of the depth that a short one does}"),
	plan.ForChatter: text("slowed for a bar {1:bare} diameters out: a slow edge rubs chatter out ({2})"),
	plan.NoPlan:     text("There is no plan."),
}
