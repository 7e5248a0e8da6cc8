package rs274

import (
	"fmt"
	"io"
	"math/bits"
	"strings"

	"borewright/process/qty"
)

// Replay reads a program and hands what the machine would do to emit, in
// order. Faults come sorted by place; where there are any, the events are a
// best guess and must not be trusted. err is that of r or of emit, which ends
// the replay. Memory does not grow with the program.
func Replay(r io.Reader, d Dialect, emit func(Event) error) (faults []Fault, err error) {
	s := NewScanner(r, d)
	p := NewInterpreter(d, emit)
	p.faults = s.faults
	for s.Scan() {
		if err := p.Block(s.Block()); err != nil {
			return s.Faults(), err
		}
	}
	if s.Err() == nil {
		p.Close(s.line)
	}
	return s.Faults(), s.Err()
}

// Block replays one block. The error is that of emit. The order of the words
// within the block is that of NISTIR 6556, 3.8; where other readers take the
// block in another order, and it matters, it is a fault.
func (p *Interpreter) Block(b *Block) error {
	if p.err != nil || b.Delete && p.d.DeleteOn {
		return p.err
	}
	p.line, p.n, p.deleted, p.comment = b.Line, b.Number(), b.Delete, ""
	for i, c := range b.Comments {
		if i == 0 {
			p.comment = strings.TrimSpace(c.Text)
		} else {
			p.comment += " " + strings.TrimSpace(c.Text)
		}
	}
	if p.ended {
		if len(b.Words) > 0 {
			p.once(saidEnd, b.Words[0].Col, "words after the end of the program", "nothing after M2 or M30")
		}
		return nil
	}
	for _, c := range b.Comments {
		p.send(&Event{Kind: Message, Text: strings.TrimSpace(c.Text), Shown: c.Message})
	}
	if len(b.Words) == 0 {
		return p.err
	}
	p.gather(b)
	p.take('N')
	if w := p.take('O'); w != nil {
		p.program = int(w.Digits)
	}
	p.feedWords()
	p.machine()
	p.dwell()
	p.modes()
	p.move()
	for m := p.c.have; m != 0 && !p.c.strange; m &= m - 1 { // a code that is not known may have a use for them
		w := p.c.words[bits.TrailingZeros32(m)]
		p.fault(w.Col, fmt.Sprintf("%c%s has no use in this block", w.Letter, w.Text), "the code that it belongs to, or nothing")
	}
	p.stop()
	return p.err
}

// Close says what a program lacks at its end, at the given line.
func (p *Interpreter) Close(line int) {
	p.line = max(line, 1)
	if !p.ended {
		p.fault(1, "the program has no end", "M30 or M2 in its last block")
	}
}

// feedWords takes the feed mode, F, S and T.
func (p *Interpreter) feedWords() {
	if t := p.c.in[feedMode]; t >= 0 {
		if per := t == 950; per != p.perRev || !p.feedModeSaid {
			p.perRev, p.fed = per, false // an F of the other mode is a stale number
		}
		p.feedModeSaid = true
	}
	if !p.c.dwell || p.d.DwellWord != 'F' {
		if w := p.take('F'); w != nil {
			p.feed, p.fed = *w, w.Digits > 0
			if w.Digits <= 0 {
				p.fault(w.Col, "F"+w.Text+" is no feed", "a feed above 0")
			}
			if p.c.in[units] >= 0 {
				p.fault(w.Col, "F beside "+p.codeText(units), "units in a block before F: readers differ in which comes first")
			}
		}
	}
	if w := p.take('S'); w != nil && p.d.OrientWord == 'S' && p.c.in[turning] == 190 {
		p.angle = w.Value
	} else if w != nil {
		p.speed = max(w.Value, 0)
	}
	if w := p.take('T'); w != nil {
		p.tool = int(w.Digits)
	}
}

// machine takes tool change, spindle and coolant.
func (p *Interpreter) machine() {
	if p.c.in[changing] >= 0 {
		p.spindle = Off
		p.send(&Event{Kind: ToolChange, Code: p.tool})
	}
	if t := p.c.in[gear]; t >= 0 {
		if p.c.in[turning] >= 0 {
			p.fault(p.c.word[gear].Col, p.codeText(gear)+" beside "+p.codeText(turning), "a block of its own: readers differ in which comes first")
		}
		p.send(&Event{Kind: Gear, Code: int(t / 10)})
	}
	switch t := p.c.in[turning]; t {
	case 30, 40:
		if p.speed <= 0 {
			p.fault(p.c.word[turning].Col, p.codeText(turning)+" without a speed", "S above 0 with it or before it")
		}
		p.spindle = Clockwise
		if t == 40 {
			p.spindle = Counter
		}
		p.send(&Event{Kind: SpindleOn})
	case 50, 190:
		e := Event{Kind: SpindleOff}
		if p.spindle = Off; t == 190 {
			p.spindle, e.Kind, e.Angle = OrientedStop, Orient, p.angle
			if p.d.OrientWord == 'R' {
				if w := p.take('R'); w != nil {
					e.Angle = w.Value
				}
			}
			p.angle = -1
		}
		if p.motionBeside() {
			p.fault(p.c.word[turning].Col, p.codeText(turning)+" beside a motion", "a block of its own: readers differ in which comes first")
		}
		p.send(&e)
	}
	if t := p.c.in[coolant]; t >= 0 {
		p.send(&Event{Kind: Coolant, Code: int(t / 10)})
	}
}

// modes takes the groups that only set a state.
func (p *Interpreter) modes() {
	if t := p.c.in[plane]; t >= 0 {
		p.plane, p.planeSaid = int(t/10), true
	}
	if t := p.c.in[units]; t >= 0 {
		u := qty.Metric
		if t == 200 || t == 700 {
			u = qty.Inches
		}
		if p.unitsSaid && u != p.units {
			p.fed = false // the number would stay and mean another feed
		}
		p.units, p.unitsSaid = u, true
	}
	p.lengthen()
	if t := p.c.in[workSystem]; t >= 0 {
		if at := int(t / 10); at != p.offset {
			if p.offset != 0 || p.pos.Known != 0 {
				p.pos = Position{} // numbers of one zero say nothing in another
			}
			p.offset = at
		}
	}
	if t := p.c.in[distance]; t >= 0 {
		p.increment, p.distanceSaid = t == 910, true
	}
	if t := p.c.in[cycleReturn]; t >= 0 {
		p.back = int(t / 10)
	}
}

// lengthen takes G43 and G49. The length moves the numbers of Z by what the program does
// not know (from memory of NISTIR 6556: along Z).
func (p *Interpreter) lengthen() {
	t := p.c.in[lengthOffset]
	if t < 0 {
		return
	}
	h := 0
	if t == 430 {
		w := p.take('H')
		if w == nil {
			p.fault(p.c.word[lengthOffset].Col, "G43 without H", "H that names the length offset")
			return
		}
		h = int(w.Digits)
	}
	if h == p.length {
		return
	}
	p.length = h
	p.send(&Event{Kind: LengthOffset, Code: h})
	p.pos.Z, p.pos.Known = 0, p.pos.Known&^Z
}

// move takes the motion group and the axis words.
func (p *Interpreter) move() {
	t := p.c.in[motion]
	if t >= 0 {
		if t != p.motion || t < 810 {
			p.cycle = cycle{}
		}
		p.motion = t
	}
	axes := p.motionBeside()
	switch {
	case p.c.home != nil:
		p.goHome(t)
		return
	case !axes:
		if t >= 810 || t == 20 || t == 30 {
			p.fault(p.c.word[motion].Col, p.codeText(motion)+" without an axis word", "where it goes: X, Y or Z")
		}
		return
	case p.c.dwell:
		p.takeAxes()
		return // faulted by dwell
	case p.motion < 0:
		p.fault(p.firstAxis().Col, "a motion without a code", "G0 or G1 first: no control starts with one that can be trusted")
		p.takeAxes()
		return
	case p.motion == 800:
		p.fault(p.firstAxis().Col, "axis words after G80", "G0 or G1 before them")
		p.takeAxes()
		return
	}
	if !p.unitsSaid {
		p.once(saidUnits, p.firstAxis().Col, "a position before the units", p.unitsWant())
	}
	if !p.distanceSaid {
		p.once(saidDistance, p.firstAxis().Col, "a position before G90 or G91", "G90 in the first block: absolute")
	}
	switch {
	case p.motion <= 10:
		p.straight()
	case p.motion <= 30:
		p.arc()
	default:
		p.runCycle()
	}
}

func (p *Interpreter) unitsWant() string {
	inch, mm := Dialect.unitsCode(p.d, qty.Inches), Dialect.unitsCode(p.d, qty.Metric)
	return fmt.Sprintf("G%d (inch) or G%d (mm) in the first block", inch, mm)
}

// stop takes M0, M1, M2 and M30, which come last.
func (p *Interpreter) stop() {
	t := p.c.in[stopping]
	switch t {
	case 0, 10:
		if p.spindle.Turning() {
			p.fault(p.c.word[stopping].Col, p.codeText(stopping)+" with the spindle turning",
				"M5 in a block before it: some controls leave the spindle on")
			p.spindle = Off
		}
		p.send(&Event{Kind: Stop, Optional: t == 10})
		if t == 0 {
			p.pos.Known &^= p.d.HandsAtStop
		}
	case 20, 300:
		p.ended, p.spindle = true, Off
		p.send(&Event{Kind: End, Code: int(t / 10)})
	}
}
