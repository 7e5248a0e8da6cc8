package post

import (
	"fmt"
	"math"
	"strings"

	"borewright/post/sum"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/storage"
)

// size prints a length in the job's units, which are those of its gauges.
func (j *job) size(l qty.Length) string {
	return j.p.Job.Units.Format(l) + " " + j.p.Job.Units.String()
}

// limits prints limits of size, rounded inward: a limit is never widened.
func (j *job) limits(low, high qty.Diameter) string {
	unit := 10 * qty.Thou / 100 // 0.0001 in
	if j.p.Job.Units == qty.Metric {
		unit = qty.Micrometre
	}
	up := -shallower(-low.Length(), unit)
	down := shallower(high.Length(), unit)
	return fmt.Sprintf("dia %s to %s", j.p.Job.Units.Format(up), j.size(down))
}

// header says what the program is, where its zero is, and what to mind.
func (j *job) header() {
	job, v := j.p.Job, j.visit
	j.sayf("%s rev %s: %s", job.Number, job.Revision, job.Title)
	j.sayf("Bore %s, visit %d of %d: %s", j.bore.Station.Name, v.N, j.bore.Works(), j.words.Say(v.Title))
	if len(j.bores) > 1 {
		j.sayf("Cut through at the same setting: %s.", j.others())
	}
	j.say(sum.Remark(noSum)) // the true one when all is written
	if j.c.Remarks == storage.ShortRemarks {
		j.say("Bar from the spindle nose: " + j.bar())
		return
	}
	j.sayf("Machine: %s", job.Machine.Name)
	spelled := map[qty.Unit]string{qty.Inches: "inch", qty.Metric: "mm"}
	if j.c.Units == job.Units {
		j.sayf("Units: %s, in words and in text.", spelled[j.c.Units])
	} else {
		j.sayf("Units: words of the program in %s, sizes in text in %s.", spelled[j.c.Units], spelled[job.Units])
	}
	j.say("Zero: X0 Y0 on the true axis of the bores.")
	j.sayf("%c0 at the face that the spindle enters, %c plus away from the work.", j.axis, j.axis)
	j.sayf("%c feeds: %s. Positions are of the tip, relative to the work.", j.axis, job.Bar.FeedBy)
	j.sayf("Clear plane outside the work: %c%s %s. Moves to X0 Y0 and all stops are made there%s.", j.axis, j.c.Units.Format(j.home), j.c.Units, j.further())
	j.sayOffAxis()
	switch alone := ""; {
	case j.tool > 0:
		if len(j.homes()) == 0 {
			alone = " Bar out of the work first: the slides do not go home before it."
		}
		j.sayf("Tool: T%d is this bar, called once at the start by M6.%s", j.tool, alone)
	case j.c.Tool > 0:
		j.say("Tool: none is called. The bar runs in " + map[bool]string{true: "two bearings", false: "an outboard support"}[job.Bar.Inboard != nil] + " and is put in by hand.")
	}
	if j.length > 0 {
		j.sayf("Length offset: H%d, from the gauge line to the tip, %s by the job. Measure it on this bar as it is held: "+
			"a bar held by its stickout has another length each time it is clamped.", j.length, j.size(j.p.Job.Bar.CutterAt-j.p.Job.QuillOut()+j.c.GaugeLine))
	}
	if homes := j.homes(); len(homes) > 0 {
		to := ""
		for i, at := range j.c.HomeAt {
			to += map[bool]string{true: ", to ", false: " and "}[i == 0] + j.c.Units.Format(at)
		}
		j.sayf("At the start and at the end the slides go home by %s: %s%s. The way must be clear.", j.c.HomeWord, inTurn(homes), to)
	}
	j.sayPlaces()
	if step := j.c.RestartStep; step > 0 {
		first, last := v.Passes[0].N, v.Passes[len(v.Passes)-1].N
		j.sayf("Restart marks: the stop before a pass is N%d times its number, pass %d at N%d to pass %d at N%d.", step, first, first*step, last, last*step)
	}
	j.say("Bar from the spindle nose: " + j.bar())
	j.say("Cutter: " + j.cutter())
	switch {
	case j.wet:
		j.sayf("Coolant: %s while a pass cuts, M9 before each stop.", j.c.Coolant)
	case j.c.Coolant != 0:
		j.sayf("Coolant: none. %s is cut dry with this cutter.", j.visit.Material.Called())
	}
	j.sayLine()
	for _, s := range j.each(func(v *plan.Visit) []fact.Fact { return v.Before }) {
		j.say("Before: " + s)
	}
	j.sayf("Passes: %d. %s", len(v.Passes), j.must())
	for i := range v.Passes {
		p := &v.Passes[i]
		end := ""
		if p.Hold != nil {
			end = ", then hold and measure"
		}
		if p.Band != nil {
			end = ", feed ends at " + j.size(j.written(p.Band.To)) + end
		}
		if gear, _ := gearFor(j.c, p.Speed); gear != nil {
			end = " in range " + gear.Word.String() + end
		}
		feed, speed := j.feedAndSpeed(p)
		j.sayf("%d %s: set dia %s, depth %s radial, feed %s/rev, S%.6g%s", p.N, p.Kind, job.Units.Format(p.Setting.Length()),
			j.depthOf(i), job.Units.Format(feed), speed, end)
	}
	j.say("Retract: " + j.retract())
	for _, s := range []string{
		"CAUTION: prove out above the work first, in single block, with the rapid turned down.",
		"CAUTION: check clamping of the work, the bar and the cutter. Guards shut before the spindle turns.",
		"CAUTION: no hand or gauge in the bore unless the spindle is stopped and held. Chips are sharp: no bare hands.",
		"CAUTION: the person at the machine decides. Local codes and shop rules come first.",
	} {
		j.say(s)
	}
	switch {
	case job.Bar.Inboard != nil:
		j.say("CAUTION: the bar runs in two bearings, turned by a driver that floats. Both must be lined up, and X0 Y0 set, before the driver is coupled. The cutter stays between them.")
	case job.Bar.Outboard != nil:
		j.say("CAUTION: the bar runs in an outboard support. X0 Y0 must be set, and the support lined up, before the bar goes in.")
	}
	for _, s := range j.cautions() {
		j.say("CAUTION: " + s)
	}
}

// sayPlaces says where the other slide and the table stand, and whether the program puts
// them there.
func (j *job) sayPlaces() {
	by := " The program puts it there once, before the first pass, the spindle stopped and the tip at the clear plane."
	if len(j.homes()) > 0 {
		by = " The program puts it there once, at the start, from where the slides are at home."
	}
	if other := j.p.Job.OtherLetter(); other != 0 && j.c.OtherSlide != process.OtherUnsaid {
		how := by
		if j.other == 0 {
			how = " Put it there and clamp it before the start."
		}
		j.sayf("Other slide: %s stands at %s0, %s.%s It never moves in a pass.", other, other, j.words.Say(j.p.Job.OtherStands()), how)
	}
	if j.c.TableWord != 0 {
		how := by + " The corners of the work swing: way clear all round."
		if j.table == 0 {
			how = " Turn and clamp it before the bar goes in."
		}
		j.sayf("Table: at %s%d, where the face of depth 0 looks at the spindle.%s", j.c.TableWord, j.p.Job.TableAngle(), how)
	}
}

// inTurn are the letters of slides, one after the other.
func inTurn(letters []byte) string {
	var s []string
	for _, l := range letters {
		s = append(s, string(l))
	}
	return strings.Join(s, ", then ")
}

// written is a length as the control's decimals leave it: the header tells what
// the words say, not what they were rounded from.
func (j *job) written(l qty.Length) qty.Length {
	w, err := j.d.Length(j.axis, l, j.c.Units)
	if err != nil {
		return l // the block that needs it says so
	}
	return w.Length(j.c.Units)
}

// feedAndSpeed are the feed a revolution and the speed of a pass as written.
func (j *job) feedAndSpeed(p *schedule.Pass) (qty.Length, float64) {
	_, speed, err := speedWord(j.d, p.Speed)
	if err != nil {
		return p.Feed, float64(p.Speed)
	}
	w, err := feedWord(j.d, j.c, p.Feed, speed)
	switch {
	case err != nil:
		return p.Feed, speed
	case j.c.FeedPerRev:
		return w.Length(j.c.Units), speed
	}
	return qty.Length(math.Round(float64(w.Length(j.c.Units)) / speed)), speed
}

// must says what the visit has to land.
func (j *job) must() string {
	l := j.visit.Limits
	if l.Low <= 0 || l.High < l.Low {
		return ""
	}
	s := "Finish size: "
	if j.visit.Part == schedule.Roughing {
		s = "Rough size: "
	}
	s += j.limits(l.Low, l.High)
	if l.Fit != "" {
		s += ", " + l.Fit
	}
	return s
}

func (j *job) bar() string {
	b := j.p.Job.Bar
	var s []string
	for _, t := range b.Steps {
		one := fmt.Sprintf("dia %s x %s", j.p.Job.Units.Format(t.Diameter.Length()), j.size(t.Length))
		if t.Material.Name != "" {
			one += " " + t.Material.Name
		}
		s = append(s, one)
	}
	text := strings.Join(s, ", ")
	if b.Name != "" {
		text = b.Name + ": " + text
	}
	return fmt.Sprintf("%s; tip at %s", text, j.size(b.CutterAt))
}

func (j *job) cutter() string {
	c := j.p.Job.Cutter
	s := fmt.Sprintf("nose radius %s, lead %.4g deg, rake %.4g deg", j.size(c.NoseRadius), c.Lead, c.Rake)
	if c.Material != nil {
		s = c.Material.Name + ", " + s
	}
	if c.Name != "" {
		s = c.Name + ": " + s
	}
	return s
}

// further says which stops are further out than the clear plane.
func (j *job) further() string {
	if j.hold <= j.home {
		return ""
	}
	return fmt.Sprintf(", but for those to measure and the next after each, at %c%s", j.axis, j.c.Units.Format(j.hold))
}

// sayOffAxis says how a bar that does not pass on the axis goes in.
func (j *job) sayOffAxis() {
	if j.off == 0 {
		return
	}
	sign, at := "plus", ""
	if j.off < 0 {
		sign = "minus"
	}
	if j.c.OrientWord != 0 {
		at = fmt.Sprintf(" at %d deg", j.c.OrientAngle)
	}
	j.sayf("Way in and out: oriented stop%s, bar moves to %c %s by %s at the clear plane, back to X0 Y0 at %c%s %s. Before the first run check by hand that the tip stops at %s.",
		at, j.aside, sign, j.size(j.written(j.off).Abs()), j.axis, j.c.Units.Format(-j.level), j.c.Units, j.c.TipAtStop)
}

// retract says how the cutter comes out.
func (j *job) retract() string {
	why := ""
	if n := len(j.visit.Passes); n > 0 {
		why = j.words.Say(j.visit.Passes[n-1].Out.Why)
	}
	if j.shift == 0 && len(j.stretches()) > 1 {
		return "feed out with the spindle turning, at rapid from bore to bore, stop, then rapid. " + why
	}
	if j.shift == 0 {
		return "feed out with the spindle turning, stop, then rapid. " + why
	}
	sign := "plus"
	if j.shift < 0 {
		sign = "minus"
	}
	at := ""
	if j.c.OrientWord != 0 {
		at = fmt.Sprintf(" at %d deg", j.c.OrientAngle)
	}
	return fmt.Sprintf("oriented stop%s, bar moves to %c %s by %s, off the wall. Before the first run check by hand that the tip stops at %s. %s",
		at, j.aside, sign, j.size(j.written(j.shift).Abs()), j.c.TipAtStop, why)
}

// sayCutter says at the stop before pass i what to set.
func (j *job) sayCutter(i int) {
	p, all := &j.visit.Passes[i], j.visit.Passes
	j.sayf("---- PASS %d, %d of %d: %s", p.N, i+1, len(all), p.Kind)
	if f := j.p.Job.Seen; f != nil {
		j.sayf("Only with the %s face at the spindle.", *f)
	}
	if i > 0 && all[i-1].Hold != nil {
		j.sayf("Only if the hold after pass %d found %s.", all[i-1].N, j.found(i-1))
	}
	if p.Hone != nil {
		j.say(j.words.Sentence(p.Hone.Fact()))
	}
	if i > 0 && all[i-1].Setting == p.Setting {
		j.sayf("Leave cutter at dia %s: same setting again.", j.size(p.Setting.Length()))
	} else {
		j.sayf("Set cutter to dia %s, spring allowed for.", j.size(p.Setting.Length()))
	}
	for _, s := range j.expects(i) {
		j.sayf("Expect %s after this pass.", s)
	}
	j.say("Lock the cutter, tools out, guards shut. Then start: spindle turns, tool moves.")
}

// expected is what the gauge should say after a pass.
func (j *job) expected(p *schedule.Pass) string {
	return fmt.Sprintf("dia %s to %s", j.p.Job.Units.Format(p.Low.Length()), j.size(p.High.Length()))
}

// sayHold says at the stop after a pass what to measure.
func (j *job) sayHold(i int) {
	p := &j.visit.Passes[i]
	j.sayf("---- HOLD after pass %d: measure before anything else is cut.", p.N)
	if len(j.bores) > 1 {
		j.sayf("Gauge all %d: %s, %s.", len(j.bores), j.bore.Station.Name, j.others())
	}
	for _, f := range j.measures(i) {
		j.say(f)
	}
	full := j.c.Remarks == storage.FullRemarks
	if full && j.p.Job.Bar.Outboard == nil {
		room := "move table or bar away by hand, bar out of the work first"
		if j.hold > j.home {
			room = fmt.Sprintf("the tip stands at %c%s %s", j.axis, j.c.Units.Format(j.hold), j.c.Units)
		}
		j.sayf("Room for the gauge: %s. The program goes back to the clear plane, then to X0 Y0.", room)
	}
	if full && j.p.Job.Bar.Inboard != nil {
		j.say("The bar stays in its bearings: gauge beside it, or draw it out by hand and put it back as it was marked.")
	}
	if !p.Hold.Asks(schedule.GaugeEnds, schedule.GaugeWhereCut) { // which say it
		for _, s := range j.expects(i) {
			j.sayf("Expect %s.", s)
		}
	}
	if s := j.must(); full && s != "" {
		j.say(s + ".")
	}
	if j.again(p) {
		j.sayf("Once more: the spring pass stands again in blocks with /. Block delete on skips it, off takes it; choose by the switch before the start, and not again before the next stop. "+
			"It takes dia %s at most: only where the bore measured under dia %s.", j.size(j.p.Job.Units.Up(p.Spring)), j.size(j.p.Job.Units.Down(j.visit.Limits.High.Length()-p.Spring)))
	}
	if full && !p.Hold.Then.None() {
		j.say("Then: " + j.words.Sentence(p.Hold.Then))
	}
	j.say("Outside the size expected: do not go on. Enter the sizes and plan the rest anew.")
}
