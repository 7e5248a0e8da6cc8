package words

import (
	"borewright/process/fact"
	"borewright/process/measured"
)

// ofMeasured are the words of process/measured.
var ofMeasured = map[fact.Kind]entry{
	measured.NothingBored: text("{1}: nothing is bored at that station"),
	measured.NoSleeve:     text(`{1}: "fitted" is said of a sleeve, and none goes in at "{2}"`),
	measured.NoVisit:      text(`{1}: "{2}" has {3} visits; the entry is for visit {4}`),
	measured.NoSize:       text(`{1}: {2..3} is no size of "{4}", which was {5} and is to become {6}; enter pass {7} again with the right figures`),

	measured.Springs:      text("{1}: the bar springs {2} (factor {3}, ±{4}, from {5} {5:measured cut|measured cuts})"),
	measured.AsPredicted:  text("as predicted"),
	measured.MorePredict:  text("{1} more than predicted"),
	measured.LessPredict:  text("{1} less than predicted"),
	measured.OtherTooling: text("{1}, pass {2} was cut with another bar, cutter or machine than the job names now: nothing is learned from its spring"),
	measured.CameLarger:   text("{1}, pass {2} came out {3} larger than the cutter was set to. That is no spring, and nothing is learned from it: look at the setting, the edge and the gauge before anything else is cut"),
	measured.CameSmaller:  text("{1}, pass {2} came out {3} smaller than the cutter was set to, and the bar cannot spring {4}. Nothing is learned from it: look at the setting, the lock of the cutter and the gauge before anything else is cut"),
	measured.SemiNext:     text("{1}. Till a cut is understood none is the last: a semi-finish comes next, and is measured before the finish"),
	measured.TooFewCuts:   text("{1} {1:cut|cuts} cannot tell force and nose apart; 3 with unlike bars may"),
	measured.TooAlike:     text("the bars are too much alike, or the measurements too few, to tell force and nose apart"),

	measured.AtStation:     text("{1}: {2}"),
	measured.AtPass:        text("{1}, pass {2}: {3}"),
	measured.TheRest:       text("{1}, the rest after pass {2}"),
	measured.BandStands:    text("{1}, visit {2}: the band that pass {5} marked stands at {3..4}, and behind it the bore is as it was{?; {6} is left on diameter to the size aimed at}{?, and {7}}"),
	measured.Stands:        text("{1}, visit {2}, stands at {3..4} after pass {5}{?; {6} is left on diameter to the size aimed at}{?, and {7}}"),
	measured.OldCleansUp:   text("the old bore reaches {1} about the true axis: it cleans up"),
	measured.OldStays:      text("the old bore reaches {1} about the true axis: it does not clean up"),
	measured.InAlready:     text("{1}, pass {2}, a {3} pass, already stands within the limits ({4..5}): look at its roughness; no cut is planned after it"),
	measured.TooLarge:      text("{1}, pass {2} found {3..4}, and the limits end at {5}: it is {6} too large; {7}"),
	measured.TurnLarger:    text("{1}, pass {2} found {3..4}, and the limits end at {5}: the sleeve is turned to the housing as measured, {6} larger than by the limits. A sleeve that was made by the limits does not fit it"),
	measured.BiggerSleeve:  text("a bigger sleeve is needed"),
	measured.MatchSleeve:   text("a bigger sleeve is needed, or one that is turned to this housing as measured (sleeve.match above 0)"),
	measured.AnotherSleeve: text("the sleeve has to come out and another go in"),
	measured.OnlySleeve:    text("only a sleeve brings it back, unless the customer takes the size as it is"),
	measured.SleeveHome:    text("{1}: the sleeve is in and measures {2..3}"),
	measured.HomeTooLarge:  text("{1}, the sleeve, in its place, measures {2..3}, and the limits end at {4}: it has to come out and another go in"),
	measured.AtTwenty:      text("{1}, pass {2}, was gauged in work of {3} with a gauge of {4}: at {5} it measures {6..7}"),
	measured.WorkWarm:      text("{1} gauges {2} larger than at {3}, by the temperatures of work and gauge: what follows is for work as warm as that, and its limits, settings and gauge figures are so much over the drawing's. Let it cool, and gauge again, where it cannot be kept so"),
	measured.WorkCold:      text("{1} gauges {2} smaller than at {3}, by the temperatures of work and gauge: what follows is for work as cold as that, and its limits, settings and gauge figures are so much under the drawing's. Let it warm up, and gauge again, where it cannot be kept so"),
	measured.HomeTooSmall:  text("{1}, the sleeve, in its place, measures {2..3}, and the limits begin at {4}: hone it, or bore it in place (sleeve.finish)"),

	measured.MarksElsewhere: text("the marks of the witness cut stand at clock positions where no radius was read: they confirm nothing"),
	measured.MarksAgree:     text("the witness cut confirms the line-up: its marks agree with the readings at all {1} clock positions, to {2}"),
	measured.MarksDisagree:  text("the witness cut does not confirm the line-up: {1}; {2}. Take the witness cut again before anything deeper"),
	measured.MarksTell:      text("move, by all its marks, {1}, and sweep again"),
	measured.MarksTooFew:    text("its marks do not tell what to move: sweep again, and move the work by that"),
	measured.MoveByMarks:    text("{1} {2} (the spindle goes {3}, or the work {4}{?; {5} × {6} on the dial})"),
	measured.MarkedOutside:  text("it marked at {1}, where the readings put the wall {2} outside of the cutter"),
	measured.BareInside:     text("it left {1} bare, where the readings put the wall {2} inside of the cutter"),
}
