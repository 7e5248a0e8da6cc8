package words

import (
	"strconv"

	"borewright/process/fact"
	"borewright/process/landing"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// ofPasses are the words of process/passes.
var ofPasses = map[fact.Kind]entry{
	// After "limited by".
	schedule.AtNextFeed:     text("{1}, at the next feed up ({2:bare} a rev)"),
	schedule.IfDeeper:       text("{1}, if cut {2} deeper"),
	schedule.ByDepth:        text("depth of cut: {1} allowed {2}"),
	schedule.ForWitness:     text("its purpose: a light cut that shows the axis, in a band from {1:bare} to {2}; the feed ends there"),
	schedule.ByFinishFeed:   text("the feed of the finish: fed alike, the spring measured here is the spring to come"),
	schedule.ByFinishSet:    text("the setting of the finish: a second cut without touching it, to take what the bar sprang off"),
	schedule.ByStock:        text("the stock: a deeper or faster cut here would save no pass"),
	schedule.ByQuiet:        text("chatter: the bar is likelier to sing at the next feed up ({1:bare} a rev)"),
	schedule.ByMachineFeeds: text("the machine's feeds: it has none faster that the job allows"),

	// After "limited by" and after "stopped by".
	schedule.LimitDepth:     text("depth of cut: {1}, {2} allowed {3}"),
	schedule.LimitNose:      text("nose radius: a feed of {1}, {2} of it allowed"),
	schedule.LimitSpring:    text("spring: {1} on diameter, {2} allowed"),
	schedule.LimitStays:     text("what must stay for the next passes: with the spring it may come out {1} larger on diameter, {2} can be spared"),
	schedule.LimitChip:      text("chip: {1} thick on average, the edge rubs below {2}{?; {3}}"),
	schedule.LimitMove:      text("setting: the cutter is opened by {1} on diameter, {2} is the least that can be set"),
	schedule.LimitRub:       text("chip: the edge rubs at depths below {1}, this is {2}{?; {3}}"),
	schedule.LimitPower:     text("power: {1}, the spindle has {2:bare}"),
	schedule.LimitTorque:    text("torque: {1}, the spindle has {2:bare}"),
	schedule.LimitStress:    text("bar stress: {1}, {2:bare} allowed"),
	schedule.LimitRa:        text("roughness: Ra {1}, {2} asked for{?; {3}}"),
	schedule.LimitRoundness: text("roundness: {1} out of round, {2} asked for"),
	schedule.LimitSing:      text("chatter: at best, with an edge worn by one pass, the bar stays quiet to a chip {1} times as wide as this one, and 0.5 is the least for a finish that is to be planned (limits.sing = true plans it all the same)"),
	schedule.LimitSize:      text("size: known to ±{1} on diameter after the last measurement, ±{2} is what the limits leave"),

	schedule.RaByMarks: text("that is what nose and feed leave{?: it takes a feed of {1} or less}{?, or a nose radius of {2} or more}"),
	schedule.RaByHone:  text("that is by the hone of the edge, rounded to {1}: the crests of the feed marks stay standing{?. It takes a rounding of {2} or less}"),
	schedule.RaByMetal: func(f fact.Fact) string {
		if f.Nth(3) == nil {
			return "{1} comes no finer than that, whatever the edge, because grains are torn out of it: bore it to that, and hone it"
		}
		return "{1} comes no finer than that with {2}, because grains are torn out of it; {3:or}; or hone it after boring"
	},
	schedule.RaWith:     text("with {1} it can come to Ra {2}"),
	schedule.RaWithToo:  text("with {1} to Ra {2}"),
	schedule.ThinByHone: text("that is by the hone of the edge, rounded to {1}{?: it takes {2} or less}"),

	schedule.DepthByJob:      text("by the job"),
	schedule.DepthByOverhang: text("for a bar {1:bare} diameters out"),
	schedule.DepthByRunOut:   text("by the run-out at the blind end"),

	schedule.NoCleanUp:    text("it does not clean up: the old bore reaches {1} about the true axis, the limits end at {2}"),
	schedule.NoFeed:       text("no feed of the machine is within the job's feed_most"),
	schedule.NoRunOut:     text("the run-out at the closed end is {1} deep, which leaves a nose radius of {2} no room to cut: a smaller nose radius, or a deeper run-out (relief)"),
	schedule.TooThin:      text("only {1} is left on diameter, and the edge rubs below {2}: no cut can be planned for it; hone or lap it to size, or ask whether the size found is taken"),
	schedule.ThinForTwo:   text("only {1} is to be cut on diameter, and a semi-finish and a finish by this edge take {2} at the least: below that it rubs, and the size cannot be foretold"),
	schedule.TooMany:      text("it takes {1} passes, {2} allowed"),
	schedule.NotRound:     text("roundness: {1} of the old shape would be left and the spindle makes {3}, {2} asked for"),
	schedule.TurnsOut:     text("roundness: the spindle alone leaves a bore {1} out of round (runout_error of the machine), {2} asked for: no pass can promise it. Measure the spindle, or bore on a mill that turns truer"),
	schedule.JournalsOut:  text("roundness: journals and bearings of the line bar alone leave a bore {1} out of round (bar.inboard.journal_error), {2} asked for: no pass can promise it. Measure them, or fit rounder ones"),
	schedule.TogetherThin: text("a pass that one of them needs does not cut in another"),
	schedule.TogetherPast: text("its {1} pass would not keep a limit ({2})"),
	schedule.TogetherMiss: text("it may come out {1:bare} to {2}, and {3:bare} to {4} is asked for"),
	schedule.NoOrder:      text("no order of passes keeps every limit"),
	schedule.NearestPass:  text("the {1} pass that comes nearest ({2} deep, {3} a rev, {4}) is stopped by {5}"),
	schedule.PassOfFinish: text("finish"),
	schedule.PassOfRough:  text("rough"),

	schedule.TooFast:  text("{1}: the machine's slowest speed, {2}, is faster than {3} likes at this diameter"),
	schedule.Chatters: chatters,
	schedule.OnePass:  text("{1}"),
	schedule.PassesTo: text("{1} to {2}"),
	schedule.NoCure:   text("no slower speed, smaller nose radius or keener edge helps much"),
	schedule.Cures:    text("each alone, in pass {1}: {2:;}"),
	schedule.OffBush: func(f fact.Fact) string {
		return "in " + passesOf(f) + " {1} the bar does not touch its outboard bearing: it moves {2} there at the most, and half of the clearance is {3}. The plan takes the bearing as doing nothing there"
	},
	schedule.BuildsUp: func(f fact.Fact) string {
		return "in " + passesOf(f) + " {1}, at {2} at the slowest, metal builds up on the edge ({3}): it tears the bore, and breaks out of the edge as it comes off. Look at the edge at every stop, and cut with oil; high-speed steel stands so slow a cut better (common practice)"
	},
	schedule.NoWitness:   text("there is too little stock for a witness cut of its own: look at the first cut as if it were one"),
	schedule.SpringsMore: text("pass {1} springs {2} on diameter, {3} is allowed: moved on by whole graduations the cutter lands nothing lighter"),
	schedule.PastLimit:   text("pass {1} is past a limit ({2}), because nothing else lands by whole graduations"),
	schedule.MovesLittle: text("pass {1} opens the cutter by {2} on diameter only, because nothing else lands: gauge what the setting comes to before it cuts"),
	schedule.Closes:      text("pass {1} closes the cutter by {2} on diameter, because nothing else lands: go back past the figure and come up to it, so that the play of the screw lies as before"),

	schedule.HoldIs:          text("stop {1} min{?, measure: {2}}{?; then: {3:begin}.}"),
	schedule.GaugeEnds:       text("diameter at both ends, two clock positions: expect {1..2}"),
	schedule.GaugeWhereCut:   text("diameter in the band, two clock positions: expect {1..2} where it cut{?, up to {3} across where it stayed bare}"),
	schedule.AgainstLimits:   text("limits {1..2:limits}, Ra {3}, roundness {4}"),
	schedule.WhereMarked:     text("where round the clock the cutter marked and where it did not"),
	schedule.WallToDatum:     text("wall or pitch from the band to the datum at 12, 3, 6, 9 o'clock"),
	schedule.GaugeRested:     text("go on with the next bore; when the casting has rested, gauge it again and enter that"),
	schedule.LeaveSetUp:      text("leave the set-up standing until the bore is accepted"),
	schedule.BandMustBeTrue:  text("go on only if the band stands true to the line of bores. If it does not, move the work and take the witness cut again"),
	schedule.ShiftAll:        text(springSeen + "Where the bore came out larger than {2}, set the next pass smaller by as much, to the nearest {3}; where it came out smaller, set the next pass larger by as much"),
	schedule.ShiftByShare:    text(springSeen + "Where the bore came out larger than {2}, set the next pass smaller by {3} the difference, to the nearest {4}; where it came out smaller, set the next pass larger by that"),
	schedule.Shift:           text("set the next pass smaller by {2} what the bore is over {1}, larger by {2} what it is under, to the nearest {3}"),
	schedule.HalfGraduation:  text("half graduation"),
	schedule.ShiftMiddle:     text(springSeen + "Of each bore of the setting take how far it came out over the middle of its sizes, less where under; set the next pass smaller by {2} the middle between the most and the least of these, to the nearest {3}"),
	schedule.RestedAll:       text("gauge all bores of the setting; when the casting has rested, gauge them again and enter that"),
	schedule.KeepNextSetting: text(springSeen + "Keep the next setting: the finish springs so little that what was found here does not carry over"),

	schedule.OutDrawn:      text("the line that the tip leaves is cut away by the next pass"),
	schedule.OutKeepsLine:  text("drawn along the wall, pass {1} would leave a line to {2}, and the next pass may leave the bore at {3}"),
	schedule.LineMayStay:   text("pass {1} was drawn out along the wall and left a line to {2}: after pass {3}, which may leave the bore at {4}, it can still show. Gauge beside it"),
	schedule.OutLine:       text("the job allows a line along the bore"),
	schedule.OutShifted:    text("moved off the wall after an oriented stop, the tip leaves no line and cuts nothing more"),
	schedule.OutByHand:     text("moved off the wall, the tip leaves no line and cuts nothing more"),
	schedule.OutAsked:      text("the job asks for it"),
	schedule.OutNoStop:     text("the control has no oriented stop, so the tip cannot be moved off the wall"),
	schedule.OutTight:      text("only {1} between bar and bore: too tight to move the tip off the wall"),
	schedule.OutInOutboard: text("the outboard bearing holds the bar, so the tip cannot be moved off the wall"),
	schedule.NoShift:       text("the job has the tip moved off the wall (way_out = \"shift\"), and it cannot be: {1}"),

	schedule.HoneFirst:  text("hone the edge or change the bit: not honed, its land is worn to about {1} and the bore comes out about {2} smaller{?; {3}}"),
	schedule.HoneDull:   text("its land would be over {1}"),
	schedule.HoneLimit:  text("worn, pass {1} breaks a limit ({2})"),
	schedule.HoneBreaks: text("pass {1} breaks a limit ({2:name})"),
	schedule.HonePays:   text("it saves more than it takes"),
	schedule.SetAnew:    text("honing takes the tip back, so set it anew over the bar"),

	schedule.DoubtSetting:     text("setting the cutter"),
	schedule.DoubtGauge:       text("bore gauge"),
	schedule.DoubtTemperature: text("temperature"),
	schedule.DoubtSpring:      text("spring from cut to cut"),
	schedule.DoubtForce:       text("forces, after measuring"),
	schedule.DoubtWear:        text("how far the edge is worn"),
	schedule.DoubtTaper:       text("taper along the bore"),
	schedule.DoubtShape:       text("out of round: old shape, spindle"),
	schedule.DoubtWayOut:      text("the way out cuts or rubs"),
}

const springSeen = "spring seen = setting minus size found; planned {1}. "

func chatters(f fact.Fact) string {
	return passesOf(f) + " {1} will sing by the figures near {3}: {2}. {4:begin}. Stop at the first note: a bore that has chattered holds no size"
}

// passesOf is the word before the passes that a fact names first.
func passesOf(f fact.Fact) string {
	if list := fact.AsList(f.Nth(1)); len(list) == 1 && list[0].Kind == schedule.OnePass {
		return "pass"
	}
	return "passes"
}

// upTo99 is the place of a margin: one far from the edge is not told to the
// hundredth.
func upTo99(f fact.Fact, n int) string {
	return unless(f, n, 99, "over 99")
}

// ofSetup are the words of process/setup.
var ofSetup = map[fact.Kind]entry{
	setup.ChatterIs: func(f fact.Fact) string { return "{1}" + likelier(f) + ", near {3}: {2}; below 1 it sings" },
	setup.Margins: func(f fact.Fact) string {
		return "quiet to a chip " + upTo99(f, 1) + " times as wide as this one with a new edge, " + upTo99(f, 2) + " times with a worn one"
	},
	setup.Quiet:       text("quiet"),
	setup.MayChatter:  text("may sing"),
	setup.WillChatter: text("will sing"),
	setup.SlowerSpeed: text("at {2} {1}"),
	setup.SmallerNose: text("with a nose radius of {2} {1}"),
	setup.KeenerRake:  text("with {2} of rake {1}"),
}

// likelier is on which side of the edge a cut that may sing stands at the middle of what damps it, as
// passes are weighed by.
func likelier(f fact.Fact) string {
	voice, _ := f.Nth(1).(fact.Fact)
	margins, _ := f.Nth(2).(fact.Fact)
	low, _ := fact.AsFigure(margins.Nth(1))
	high, _ := fact.AsFigure(margins.Nth(2))
	switch stands := (setup.Stability{Margin: [2]float64{low.Value, high.Value}}); {
	case voice.Kind != setup.MayChatter:
		return ""
	case stands.Middle() >= 1:
		return ", likelier quiet"
	}
	return ", likelier than not"
}

// ifQuiet is the condition of a chance: nothing where the bar is quiet.
func ifQuiet(f fact.Fact, n int) string {
	if v, ok := f.Nth(n).(fact.Fact); ok && v.Kind == setup.Quiet {
		return ""
	}
	return " if the bar stays quiet (it {" + strconv.Itoa(n) + "})"
}

// ofLanding are the words of process/landing.
var ofLanding = map[fact.Kind]entry{
	landing.Unmeasured: func(f fact.Fact) string {
		return inHundred(f, 1) + drawn(f, 3) + " in 100" + ifQuiet(f, 2)
	},
	landing.Measured: func(f fact.Fact) string {
		return inHundred(f, 1) + drawn(f, 4) + " in 100" + ifQuiet(f, 3) + ", measured before the last cut; " + inHundred(f, 2) + drawn(f, 5) + " unmeasured"
	},
	landing.IfQuiet:   text("the bar stays quiet"),
	landing.ByForce:   text("cutting force"),
	landing.ByFeed:    text("feed force by itself"),
	landing.ByRoot:    text("spindle stiffness"),
	landing.ByStood:   text("where the cutter stood before"),
	landing.ByWork:    text("temperature of the work"),
	landing.ByBar:     text("temperature of the bar"),
	landing.ByWayOut:  text("the way out cuts or rubs"),
	landing.BySetting: text("setting the cutter"),
	landing.BySpring:  text("spring that does not repeat"),
	landing.ByWear:    text("how far the edge is worn"),
	landing.ByGauge:   text("gauge"),
}

// InHundred prints a chance in percent.
func (w Words) InHundred(chance float64) string {
	f := fact.New(fact.Written, fact.Figure(qty.KindChance.Of(chance)))
	return w.fill(inHundred(f, 1), f)
}

// inHundred is the place of a chance: none is promised beyond 99.9 in 100.
func inHundred(f fact.Fact, n int) string {
	return unless(f, n, 0.9995, "over 99.9")
}

// drawn is the place of what a chance is off by at most because trials are drawn: left out
// where it moves the decimal that is printed by no more than one.
func drawn(f fact.Fact, n int) string {
	if x, ok := fact.AsFigure(f.Nth(n)); ok && x.Value < 0.0015 {
		return ""
	}
	return " ± {" + strconv.Itoa(n) + ":bare}"
}

// unless is the place of figure n, bare, or what stands for one over the most.
func unless(f fact.Fact, n int, most float64, over string) string {
	if x, _ := fact.AsFigure(f.Nth(n)); x.Value > most {
		return over
	}
	return "{" + strconv.Itoa(n) + ":bare}"
}
