package words

import (
	"borewright/process/fact"
	"borewright/process/record"
)

// ofRecord are the words of process/record.
var ofRecord = map[fact.Kind]entry{
	record.SleeveHome: text("the sleeve, finished on the lathe, in its place"),

	record.OfVisit:            text("{1}, visit {2}: {3}"),
	record.DeviatesOpen:       text("nothing was measured"),
	record.DeviatesUnfinished: text("not finished, {1} {1:pass|passes} left"),
	record.DeviatesOver:       text("{1..2}, {3} over the high limit"),
	record.DeviatesUnder:      text("{1..2}, {3} under the low limit"),
	record.DeviatesRa:         text("Ra {1}, {2} asked for"),
	record.DeviatesRound:      text("{1} out of round on radius, {2} asked for"),
	record.DeviatesClearance:  text("clearance {1..2}, {3..4} asked for"),

	record.NoPass:      text(`there is no pass {1} left at "{2}"; {3}`),
	record.NothingLeft: text("nothing is left to cut there"),
	record.PassesLeft:  text("left are {1}"),
	record.PassLeft:    text("{1} {2}"),

	record.ASlip:        text("{1}; {2}"),
	record.SprangMore:   text("the bar would have sprung {1}, and {2} was planned"),
	record.ReadApart:    text("the readings lie {1} apart"),
	record.NotExpected:  text("{1} is not what was expected, {2..3}"),
	record.Measured:     text("pass {1} was measured already: {2..3}"),
	record.OutOfOrder:   text("pass {1} is out of order: after pass {2} ({3}) there is a hold point, and nothing was entered for it"),
	record.SetOtherwise: text("the cutter is said to have been set to {1}, planned was {2}"),
	record.CannotBe:     text("{1} cannot be: the bore was {2} before, and the cutter was set to {3}"),
	record.Impossible:   text("{1} cannot be"),
	record.Smaller:      text("{1} is smaller than the bore was before, {2}"),
	record.Larger:       text("{1} is larger than the cutter was set to, {2}"),
	record.MarkedBare:   text("{1} is said to be marked and to be bare"),
	record.MarksNotSaid: text("where round the clock the witness cut marked is not said"),

	record.MixedUnits:    text("inch and mm mixed up? {1:begin}"),
	record.SwappedDigits: text("two digits changed places? {1:begin}"),
	record.PointOff:      text("the point one place off? {1:begin}"),
	record.WriteIt:       text(`write "{1}" for a size in {2}`),
	record.WouldBe:       text("it would be {1}"),
	record.WasAndSet:     text("the bore was {1} before, and the cutter was set to {2}"),
	record.IsItPass:      text("is it pass {1} that was cut?"),
	record.IsThatSo:      text("is that so?"),
	record.LeftOut:       text("was the pass before it left out, or did the cutter slip back?"),
	record.LookForSlip:   text("look for a slip in one of them, for chips under the gauge, or for taper"),
	record.TooFarHome:    text("no sleeve moves that far: read it again"),
	record.GaugeHome:     text("gauge again, both parts at one temperature"),
	record.Replaces:      text("entered again, the new figures take the place of the old ones"),
	record.NoShrinking:   text("a bore does not shrink: gauge again"),
	record.LookAtSetting: text("look at the setting, for a built-up edge, and at the gauge's master"),
	record.MarkedOrBare:  text("say one of the two: bare where any of the old wall shows there"),
	record.SayMarks:      text("say where it marked and where not (marked and bare, as 12,6,9): it shows whether the line-up is true"),
	record.GaugeAgain:    text("gauge again; if it is so, the rest is planned from it"),
}
