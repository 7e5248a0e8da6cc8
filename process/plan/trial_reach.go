package plan

import (
	"fmt"
	"strings"

	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/qty"
)

// trialReach is what stops the bar of a trial as text; it goes with trialWords.
func trialReach(u qty.Unit, f fact.Fact) string {
	s := map[fact.Kind]string{
		clearance.TheNose: "spindle nose", clearance.TheQuill: "quill", clearance.TheCutter: "cutter", clearance.TheStep: "step {1}",
		clearance.WhileGoingIn: "going in", clearance.WhileCutting: "cutting", clearance.WhileComingOut: "coming out",
		clearance.AtPlace:        "pass {1}, {2}, tip at {3}",
		clearance.RunsIntoBottom: "{1}, {2}, would run {3} into the bottom of {4} ({5})",
		clearance.NearBottom:     "{1}, {2}, comes to {3} from the bottom of {4}; at least {5} is wanted ({6})",
		clearance.NearFace:       "{1}, {2}, comes to {3} from the face of {4}, which it does not pass; at least {5} is wanted ({6})",
		clearance.LittleRoom:     "{1}, {2}, has {3} on radius in {4}; at least {5} is wanted ({6})",
		clearance.TooLarge:       "{1}, {2}, does not pass {3}: {4} too large on radius ({5})",
		clearance.CutterNeverIn:  "pass {1}: the cutter, set to {2}, passes neither on the axis nor with the bar shifted, and the {3} open in front of the bore is too short to put it in by hand",
		clearance.NoseTooNear:    "with the quill right in the tip already stands past where feed begins: stand the nose {1} further off",
		clearance.QuillTooShort:  "the quill would have to come out {1}, {2} more than it can",

		place.BarDoesNotPass: "the bar does not pass: {1}. The largest plain bar that passes is {2}, and the shortest stickout to the tip {3}.",
		place.TooLongAhead:   "the bar does not pass: {1}. What stands ahead of the tip has to be {2} shorter; a bar of another diameter does not help.",
		place.NoBarPasses:    "the bar does not pass: {1}. No bar passes this line with room for chips.",
		place.SpindleFollows: "the bar does not pass: {1}. The spindle itself could follow: no bar is too short.",
		place.TravelTooShort: "the slide that feeds ({1}) would have to travel {2}, and has {3}",
		place.CutterTooLarge: `the cutter, set to {1}, does not pass "{2}" on the axis`,
		place.CutterHasNoWay: "{1}; it does not pass with the bar shifted either, and nowhere in front of the bore is there room to put it in by hand",
		place.ShiftedBy:      "{1} to {2} while the tip goes from {3} to {4}",
	}[f.Kind]
	if f.Kind == place.CutterByHand {
		var can []string
		if f.Nth(2) != nil {
			can = append(can, "enter with the spindle stopped and the bar shifted away from the tip by {2}")
		}
		if f.Nth(3) != nil {
			can = append(can, "be put in inside, where the line is open from {3} to {4} deep")
		}
		s = "{1}; it could " + strings.Join(can, ", or ") + ", which is work for the sheet and not for a program: plan it on a mill without control"
	}
	for i := range f.Args {
		arg := f.Nth(i + 1)
		said, _ := fact.AsName(arg)
		if q, ok := fact.AsFigure(arg); ok {
			said = u.Say(q)
			if f.Kind == place.ShiftedBy && i%2 == 0 || f.Kind == place.CutterByHand && i == 2 {
				said = u.Bare(q)
			}
		}
		var all []string
		for _, g := range fact.AsList(arg) {
			all = append(all, trialReach(u, g))
		}
		between := "; "
		if f.Kind == place.CutterByHand {
			between = ", then "
		}
		s = strings.ReplaceAll(s, fmt.Sprintf("{%d}", i+1), said+strings.Join(all, between))
	}
	return s
}
