package post

import (
	"bytes"
	"fmt"

	"borewright/post/rs274"
	"borewright/post/sum"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/storage"
)

// program writes the blocks in their order.
func (j *job) program() {
	if j.oword > 0 {
		j.line(&rs274.Block{Words: []rs274.Word{rs274.Whole('O', j.oword)}})
	}
	j.header()
	j.safeStart()
	j.goHome()
	if j.tool > 0 {
		j.block(rs274.Whole('T', j.tool), m(6))
	}
	if len(j.homes()) > 0 {
		j.place()
	}
	for i := range j.visit.Passes {
		j.sayCutter(i)
		j.restart(j.visit.Passes[i].N)
		j.stop()
		j.called = true
		j.safeStart()
		if j.length > 0 {
			j.block(g(43), rs274.Whole('H', j.length))
		}
		if i == 0 && len(j.homes()) == 0 && (j.other != 0 || j.table != 0) {
			j.block(g(0), j.at(j.axis, j.home))
			j.place()
		}
		j.cut(&j.visit.Passes[i])
		if p := &j.visit.Passes[i]; p.Hold != nil {
			if j.hold > j.home {
				j.block(g(0), j.at(j.axis, j.hold))
			}
			j.sayHold(i)
			j.stop()
			if j.again(p) {
				j.once(p)
			}
		}
	}
	j.mouth()
	j.ending()
	j.sum()
}

// again reports that a pass stands once more, in blocks with /.
func (j *job) again(p *schedule.Pass) bool {
	return j.c.SpringAgain != 0 && p.Kind == schedule.Spring && p.Hold != nil
}

// once writes a spring pass once more, as it was, with its two stops.
func (j *job) once(p *schedule.Pass) {
	j.sayf("---- PASS %d AGAIN: %s, only with block delete off.", p.N, p.Kind)
	j.sayf("Leave cutter at dia %s: same setting again.", j.size(p.Setting.Length()))
	j.say("Lock the cutter, tools out, guards shut. Then start: spindle turns, tool moves.")
	j.delete = true
	j.stop()
	j.safeStart()
	if j.length > 0 {
		j.block(g(43), rs274.Whole('H', j.length))
	}
	j.cut(p)
	if j.hold > j.home {
		j.block(g(0), j.at(j.axis, j.hold))
	}
	j.sayf("---- HOLD after pass %d again: measure before anything else is cut.", p.N)
	if s := j.must(); s != "" {
		j.say(s + ".")
	}
	j.stop()
	j.delete = false
}

// noSum stands where the check sum will.
const noSum = "0000-0000"

// sum writes the check sum into the remark that carries it.
func (j *job) sum() {
	text := j.out.Bytes()
	if _, rest, found := bytes.Cut(text, []byte("("+sum.Remark(noSum)+")")); found {
		at := len(text) - len(rest) - 1 - len(noSum)
		copy(text[at:], sum.Of(text))
	}
}

// safeStart sets every modal group that could be left over. It stands again
// after each stop at which the operator may have done other work.
func (j *job) safeStart() {
	codes := []int{17, 21, 40, 49}
	if j.length > 0 && j.called { // G43 takes its place: the length is never let go in front of the work
		codes = codes[:3]
	}
	if j.c.Units == qty.Inches {
		codes[1] = 20
	}
	if j.d.UnitsWords == rs274.G70G71 {
		codes[1] += 50 // G70 inch, G71 mm; both pairs rise from inch to mm
	}
	if j.c.Cycles {
		codes = append(codes, 80)
	}
	codes = append(codes, 90)
	if j.c.FeedPerRev {
		codes = append(codes, 95)
	} else {
		codes = append(codes, 94)
	}
	if j.c.ReturnWords {
		codes = append(codes, 98)
	}
	j.codes(codes...)
	if j.c.WorkOffset != 0 {
		j.codes(int(j.c.WorkOffset))
	}
}

// homes are the letters of the slides that go home, in order; none where the bar runs in
// an outboard support, which it would be drawn out of.
func (j *job) homes() (letters []byte) {
	if j.c.HomeWord == 0 || j.p.Job.Bar.Outboard != nil {
		return nil
	}
	for _, a := range j.c.HomeAxes {
		letters = append(letters, map[process.HomeAxis]byte{process.HomeFeed: j.axis, process.HomeX: 'X', process.HomeY: 'Y'}[a])
	}
	return letters
}

// goHome sends the slides home, one after the other, straight from where they stand: in
// G90 a G28 goes by way of a position, which at the start may lie anywhere.
func (j *job) goHome() {
	for i, letter := range j.homes() {
		if j.c.HomeWord == 53 {
			j.block(g(53), g(0), j.at(letter, j.c.HomeAt[i]))
		} else {
			j.block(g(91), g(28), j.at(letter, 0))
		}
	}
	if j.c.HomeWord == 28 && len(j.homes()) > 0 {
		j.block(g(90))
	}
}

// place moves the other slide to its zero and the table to its angle, spindle stopped and
// bar out of the work.
func (j *job) place() {
	if j.other != 0 {
		j.block(g(0), j.at(j.other, 0))
	}
	if j.table != 0 {
		w, err := j.d.Number(j.table, int64(j.p.Job.TableAngle()), 0)
		j.fail(NoWord, err)
		j.block(g(0), w)
	}
}

// stop is M9 where there is coolant, M5 and M0, each on its own: controls differ in
// whether M0 stops spindle and coolant.
func (j *job) stop() {
	if j.c.Coolant != 0 {
		j.block(m(9))
	}
	j.block(m(5))
	j.block(m(0))
}

// cut is one pass: in by rapid as far as the tip is clear, through by feed,
// and out as the plan's retract says.
func (j *job) cut(p *schedule.Pass) {
	s, speed, err := speedWord(j.d, p.Speed)
	f := rs274.Word{}
	if err == nil {
		f, err = feedWord(j.d, j.c, p.Feed, speed)
	}
	var gear *process.GearRange
	if err == nil {
		gear, err = gearFor(j.c, p.Speed)
	}
	if err != nil {
		j.fail(NoWord, fmt.Errorf("pass %d: %w", p.N, err))
		return
	}
	// A geared step may be a little slower than the word that calls it.
	slow := min(speed, float64(p.Speed))
	x0, y0 := j.at('X', 0), j.at('Y', 0)
	if gear != nil {
		j.block(m(int(gear.Word)))
	}
	if j.off != 0 {
		j.comeIn(s)
	} else {
		j.block(s, m(3))
		j.block(g(0), j.at(j.axis, j.home))
		j.block(g(0), x0, y0)
		j.block(g(0), j.deep(j.clear))
	}
	if j.wet {
		j.block(m(int(j.c.Coolant)))
	}
	switch {
	case p.Out.By == process.ShiftOut:
		j.feedThrough(p, f)
		j.dwell(p, slow)
		j.coolantOff()
		if j.c.Remarks == storage.FullRemarks {
			j.say("Retract by oriented stop: tip at " + j.c.TipAtStop.String() + ", bar moves the other way.")
		}
		j.block(m(5))
		j.orient()
		j.block(g(0), j.at(j.aside, j.shift))
		if j.off != 0 {
			j.comeOut()
			return
		}
		j.block(g(0), j.at(j.axis, j.home))
		j.block(g(0), x0, y0)
	case j.inCycle(p, x0, y0, f, slow):
		j.fedOut()
	default:
		j.feedThrough(p, f)
		j.dwell(p, slow)
		j.feedBack(f)
		j.fedOut()
	}
}

// fedOut brings the bar out of the work when the cutter has been fed out of the bore.
func (j *job) fedOut() {
	j.coolantOff()
	j.block(m(5))
	if j.off != 0 {
		j.orient()
		j.comeOut()
		return
	}
	j.block(g(0), j.at(j.axis, j.home))
}

// comeIn brings the cutter in off the axis, and starts the spindle where the bar has come
// back to it. start is the speed.
func (j *job) comeIn(start rs274.Word) {
	j.block(g(0), j.at(j.axis, j.home))
	j.block(g(0), j.at('X', 0), j.at('Y', 0))
	if j.c.Remarks == storage.FullRemarks {
		j.say("In off the axis, spindle stopped: tip at " + j.c.TipAtStop.String() + ", bar moves the other way.")
	}
	j.block(m(5))
	j.orient()
	j.block(g(0), j.at(j.aside, j.off))
	j.block(g(0), j.deep(j.level))
	j.block(g(0), j.at('X', 0), j.at('Y', 0))
	j.block(start, m(3))
	if j.level != j.clear {
		j.block(g(0), j.deep(j.clear))
	}
}

// comeOut brings the bar out of the work off the axis, as it came in, the spindle stopped
// at its angle.
func (j *job) comeOut() {
	j.block(g(0), j.deep(j.level))
	if j.c.Remarks == storage.FullRemarks {
		j.say("Out off the axis, the way it came in.")
	}
	j.block(g(0), j.at(j.aside, j.off))
	j.block(g(0), j.at(j.axis, j.home))
	j.block(g(0), j.at('X', 0), j.at('Y', 0))
}

// orient stops the spindle at its angle, with the angle where the control has a word for
// it, and waits until it is at rest.
func (j *job) orient() {
	words := []rs274.Word{m(19)}
	switch j.c.OrientWord {
	case 'S':
		words = []rs274.Word{rs274.Whole('S', j.c.OrientAngle), m(19)}
	case 'R':
		w, err := j.d.Number('R', int64(j.c.OrientAngle), 0)
		j.fail(NoWord, err)
		words = []rs274.Word{w, m(19)}
	}
	j.block(words...)
	if j.c.OrientSettle > 0 {
		w, err := secondsWord(j.d, j.d.DwellWord, j.c.OrientSettle)
		j.fail(NoWord, err)
		j.block(g(4), w)
	}
}

// coolantOff ends the coolant of a pass.
func (j *job) coolantOff() {
	if j.wet {
		j.block(m(9))
	}
}

// endOf is where the feed of a pass ends.
func (j *job) endOf(p *schedule.Pass) qty.Length {
	if p.Band != nil {
		return p.Band.To
	}
	return j.end
}

// dwell is one full turn at a closed end, so that the bottom is cut all round. A witness
// cut does not get there.
func (j *job) dwell(p *schedule.Pass, speed float64) {
	if !j.last().bore.Station.Blind || p.Band != nil {
		return
	}
	w, err := dwellWord(j.d, j.d.DwellWord, speed)
	j.fail(NoWord, err)
	j.block(g(4), w)
}

// inCycle cuts and feeds out by G85, or G89 at a closed end, where the control
// has cycles, the feed axis is the one that they run along, and the block fits
// the line. G86 is never written: it leaves by a rapid move in contact.
func (j *job) inCycle(p *schedule.Pass, x0, y0, f rs274.Word, speed float64) bool {
	if len(j.stretches()) > 1 || !j.c.Cycles || j.axis != 'Z' || j.wrong != nil {
		return false
	}
	words := []rs274.Word{g(85), x0, y0, j.deep(j.endOf(p)), j.at('R', -j.clear)}
	if j.last().bore.Station.Blind && p.Band == nil {
		w, err := dwellWord(j.d, 'P', speed)
		if err != nil {
			return false
		}
		words[0] = g(89)
		words = append(words, w)
	}
	before := j.number
	b := &rs274.Block{Delete: j.delete, Words: j.numbered(append(words, f))}
	if _, err := rs274.Format(b, j.d); err != nil {
		j.number = before
		return false
	}
	j.line(b)
	j.block(g(80))
	return true
}

// ending leaves the spindle stopped and the tool outside.
func (j *job) ending() {
	if j.c.Remarks == storage.FullRemarks {
		for _, s := range j.each(func(v *plan.Visit) []fact.Fact { return v.After }) {
			j.say("Then: " + s)
		}
	}
	if homes := j.homes(); len(homes) > 0 {
		j.sayf("Now the slides go home: %s. Way clear, hands off.", inTurn(homes))
	}
	if j.c.Coolant != 0 {
		j.block(m(9))
	}
	j.block(m(5))
	if last := &j.visit.Passes[len(j.visit.Passes)-1]; last.Hold == nil || j.hold <= j.home { // else it stands further out
		j.block(g(0), j.at(j.axis, j.home))
	}
	j.goHome()
	if j.length > 0 {
		j.block(g(49))
	}
	j.block(m(30))
}
