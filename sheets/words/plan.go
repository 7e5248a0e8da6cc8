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

	plan.Rebore:        text("rebore to size"),
	plan.BarUnknown:    text("the bar cannot be worked out: {1}"),
	plan.BarTooLong:    text("the bar stands out {1:bare} times its diameter; beyond {2} no cut of a plain bar can be relied on"),
	plan.WallTooThin:   text("boring to {1} leaves {2} of the wall of {3}; {4} is the least for {5} (common practice): {6}, or metal built up outside and the new wall stated"),
	plan.SmallerSize:   text("a smaller size"),
	plan.SmallerSleeve: text("a smaller sleeve outside"),

	plan.StandsOut:       text("the bar stands out {1:bare} times its diameter; the trade's rule for it is {2:bare}. Expect to feel for chatter, and trust the gauge before the dial"),
	plan.BarHangs:        text("the bar hangs {1} at the cutter by its own weight: the bore comes out true, but that much below the spindle's line"),
	plan.OffBearing:      text("the bar never reaches the wall of its outboard bearing, which has {1} of clearance: the plan takes it as a bar that ends in the air. A closer bush would hold it"),
	plan.LineHangs:       text("the bar hangs {1} at the cutter by its own weight, as far as its play lets it: the bore comes out true, but that much below the line of its bearings"),
	plan.LineStands:      text("the weight of what overhangs its bearings lifts the bar {1} at the cutter: the bore comes out true, but that much above the line of the bearings"),
	plan.QuillHangs:      text("bar and quill hang {1} at the cutter by their own weight at the far end of {2}: the bore comes out that much below the spindle's line"),
	plan.QuillLeans:      text("bar and quill hang by their own weight, and more the further the quill is out: {1} at the cutter at the near end of {2}, {3} at its far end. The bore comes out that much below the spindle's line and leans down by the difference; table feed does not do that"),
	plan.LongCutting:     text("the cutter is in the cut for {1}, which is long for a bore: {2}"),
	plan.Shortens:        text("{1} would bring the job to {2} in all, the most of the changes tried one at a time"),
	plan.NothingShortens: text("no other edge, bar or hold on it that was tried alone makes it quicker by more than a little"),
	plan.TornEntry:       text("{1}:{2}: the last entry was not written whole and is not counted: enter it again; what is left of it is then kept in a file beside"),
	plan.AllFinished:     text("every bore of the job is finished: nothing is left to cut"),

	plan.RuleStandsOut:    text("a plain bar stands out no more than {1} diameters (two workshop articles; handbooks agree)"),
	plan.RuleSpringPass:   text("the last cut is gone over again at the same setting (common practice, no source)"),
	plan.RuleHone:         text("the edge is honed before its flank is worn by {1}, in the last passes by {2} (from memory)"),
	plan.RuleQuiet:        text("a cut counts as quiet where it is so at the least of all that damps it"),
	plan.RuleRough:        text("a roughing cut takes {1..2} a side where the bar is no longer than 4 diameters (from memory)"),
	plan.RuleRoughFeed:    text("roughing feeds are {1..2} a rev (one workshop table)"),
	plan.RuleSemiFinish:   text("a semi-finish leaves the finish {1..2} on diameter to work in with it (from memory)"),
	plan.RuleCarbide:      text("a finish with carbide takes {1..2} on diameter (from memory)"),
	plan.RuleHSS:          text("a finish with high-speed steel takes {1..2} on diameter (from memory)"),
	plan.RuleFinishFeed:   text("finishing feeds are {1..2} a rev (from memory)"),
	plan.RuleSpeed:        text("{1} in {2} cuts at {3..4} ({5})"),
	plan.HereDiameters:    text("{1:bare} diameters"),
	plan.HereSpringPasses: text("{1} spring passes"),
	plan.HereHoned:        text("honed before pass {1}, which it would cut worn by {2}"),
	plan.HereNotHoned:     text("not honed: worn by {1} at the end, after {2} of cut"),
	plan.HereDamped:       text("damping of the bar {1} to {2}, land of the edge {3..4}, pressed back by {5..6} (hardness {7} HB)"),
	plan.HereLength:       text("{1}"),
	plan.HereSpeed:        text("{1}, {2} rev/min"),
	plan.ForDepth:         text("the bore is as deep as it is; cuts are lighter and slower for it, and spring is allowed for in every setting. {1:begin}"),
	plan.FatterPasses:     text("a bar up to {1} would pass with room for chips, and springs less as the fourth power of its diameter"),
	plan.NoFatter:         text("the bores on the way, {1} at the narrowest, leave no room for a fatter one"),
	plan.ForPass:          text("pass {1} {2}"),
	plan.ForHold:          text("a spring pass would cost more minutes than it saves in doubt: the spring is measured at the hold and allowed for in the setting"),
	plan.ForLittleSpring:  text("the bar springs so little that the setting alone lands the size"),
	plan.ForRehearsal:     text("it rehearses the finish: the nearer to the finish's own cut, the better its spring foretells the finish's"),
	plan.ForLightCut:      text("a lighter cut springs less, {1} on diameter here, and what is not known of the spring is a share of it; the edge still cuts at this depth"),
	plan.ForFewerPasses:   text("fewer passes, and the limits leave room for the spring"),
	plan.ForThickerChip:   text("the roughness asked for allows it, and a thicker chip is quieter"),
	plan.ForSlowestSpeed:  text("the machine has no slower speed, or the job asks for this one"),
}
