package words

import (
	"borewright/process/clearance"
	"borewright/process/fact"
)

// ofClearance are the words of process/clearance: the bar on its way.
var ofClearance = map[fact.Kind]entry{
	clearance.IsClear:         text("clear"),
	clearance.IsTight:         text("tight"),
	clearance.DoesNotPass:     text("does not pass"),
	clearance.TheNose:         text("spindle nose"),
	clearance.TheQuill:        text("quill"),
	clearance.TheCutter:       text("cutter"),
	clearance.TheStep:         text("step {1}"),
	clearance.WhileGoingIn:    text("going in"),
	clearance.WhileCutting:    text("cutting"),
	clearance.WhileComingOut:  text("coming out"),
	clearance.EntersOnAxis:    text("on the axis"),
	clearance.EntersShifted:   text("bar shifted"),
	clearance.SetInside:       text("put in inside"),
	clearance.NeverEnters:     text("no way"),
	clearance.AtPlace:         text("pass {1}, {2}, tip at {3}"),
	clearance.RunsIntoBottom:  text("{1}, {2}, would run {3} into the bottom of {4} ({5})"),
	clearance.NearBottom:      text("{1}, {2}, comes to {3} from the bottom of {4}; at least {5} is wanted ({6})"),
	clearance.NearFace:        text("{1}, {2}, comes to {3} from the face of {4}, which it does not pass; at least {5} is wanted ({6})"),
	clearance.LittleRoom:      text("{1}, {2}, has {3} on radius in {4}; at least {5} is wanted ({6})"),
	clearance.TooLarge:        text("{1}, {2}, does not pass {3}: {4} too large on radius ({5})"),
	clearance.CutterNeverIn:   text("pass {1}: the cutter, set to {2}, passes {3} neither on the axis nor with the bar shifted{? ({5})}, and the {4} open in front of the bore is too short to put it in by hand"),
	clearance.NoseTooNear:     text("with the quill right in the tip already stands past where feed begins: stand the nose {1} further off"),
	clearance.QuillTooShort:   text("the quill would have to come out {1}, {2} more than it can"),
	clearance.NoOrientedStop:  text("off the axis needs an oriented stop, which the control does not have"),
	clearance.HeldOutboard:    text("the outboard bearing holds the bar on the axis"),
	clearance.NoRoomToReturn:  text("there is no room to come back to the axis between {1} and {2}: {3} more length is needed in front of {2}"),
	clearance.NoSuchBore:      text("station number {1} of {2} is to be bored"),
	clearance.NotAStation:     text(`station "{1}": from {2} to {3}, diameter {4}, relief {5}; it must end deeper than it begins and be open`),
	clearance.StationsOverlap: text(`station "{1}" begins at {2}, before "{3}" ends at {4}; give them inward and apart`),
	clearance.BehindBlind:     text(`station "{1}" is blind, and "{2}" lies behind it`),
	clearance.NoSteps:         text("the bar has no steps"),
	clearance.TooNarrowOff: func(f fact.Fact) string {
		tip, _ := fact.AsName(f.Nth(2))
		bar, _ := fact.AsName(f.Nth(3))
		if tip == bar {
			return "off the axis bar and tip together need {1} more on diameter in {2}"
		}
		return "off the axis the tip in {2} and the bar in {3} need {1} more on radius between them"
	},
	clearance.NotAStep:     text("step {1} of the bar: diameter {2}, length {3}"),
	clearance.CutterOffBar: text("the cutter stands at {1} of a bar of {2}"),
	clearance.NotASpindle:  text("spindle nose {1}, quill {2}, travel {3}, standoff {4}"),
	clearance.NoPass:       text("no pass is given"),
	clearance.NotAPass:     text("pass {1}: set to {2}, bore {3}, from {4} to {5}, retract shift {6}"),
	clearance.NotAShift:    text("tip at {1}, unsure {2}: no numbers"),
}
