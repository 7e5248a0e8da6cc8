package rs274

import "fmt"

// dwell takes G4.
func (p *Interpreter) dwell() {
	if !p.c.dwell {
		return
	}
	w := p.take(p.d.DwellWord)
	if w == nil {
		p.fault(1, "G4 without "+string(p.d.DwellWord), string(p.d.DwellWord)+" that says how long")
		return
	}
	if p.c.in[motion] >= 0 || p.motionBeside() {
		p.fault(w.Col, "G4 beside a motion", "the dwell in a block of its own")
	}
	p.wait(w, 0)
}

// wait sends a dwell of the word's number.
func (p *Interpreter) wait(w *Word, cycle int) {
	if w.Digits < 0 {
		p.fault(w.Col, fmt.Sprintf("%c%s is negative", w.Letter, w.Text), "a dwell of 0 or longer")
		return
	}
	e := Event{Kind: Dwell, Cycle: cycle}
	turns := p.speed / 60 // a second
	if !p.spindle.Turning() {
		turns = 0
	}
	switch p.d.DwellUnit {
	case Revolutions:
		e.Revs = w.Value
		if turns > 0 {
			e.Seconds = e.Revs / turns
		} else {
			p.fault(w.Col, "a dwell in revolutions while the spindle stands", "the spindle turning: it never ends")
		}
	case Milliseconds:
		e.Seconds = w.Value / 1000
		e.Revs = e.Seconds * turns
	default:
		e.Seconds = w.Value
		e.Revs = e.Seconds * turns
	}
	p.send(&e)
}
