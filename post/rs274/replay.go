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

// Interpreter holds the modal state of a control while blocks are replayed.
type Interpreter struct {
	d      Dialect
	emit   func(Event) error
	err    error // from emit
	faults *faultList
	c      codes
	said   uint16 // what is faulted once a program

	line, n int
	comment string
	deleted bool

	pos       Position
	motion    int64 // tenths of the code; -1: none yet
	units     qty.Unit
	increment bool
	perRev    bool
	plane     int
	back      int // 98, 99; 0: not said
	feed      Word
	fed       bool // F holds
	speed     float64
	spindle   Spindle
	tool      int
	offset    int
	program   int
	ended     bool
	cycle     cycle

	unitsSaid, distanceSaid, feedModeSaid, planeSaid bool
}

// NewInterpreter begins as a control after power on, when nothing is known.
func NewInterpreter(d Dialect, emit func(Event) error) *Interpreter {
	return &Interpreter{d: d.settled(), emit: emit, faults: &faultList{}, motion: -1, plane: 17, n: -1}
}

func (p *Interpreter) fault(col int, what, want string) {
	p.faults.add(Fault{Line: p.line, Col: col, What: what, Want: want})
}

// once faults what would be repeated at every block.
func (p *Interpreter) once(bit uint16, col int, what, want string) {
	if p.said&bit == 0 {
		p.said |= bit
		p.fault(col, what, want)
	}
}

const (
	saidUnits = 1 << iota
	saidDistance
	saidFeedMode
	saidPlane
	saidReturn
	saidEnd
)

// send fills in the state and hands the event over.
func (p *Interpreter) send(e *Event) {
	if p.err != nil {
		return
	}
	e.Line, e.N, e.Comment, e.Deleted = p.line, p.n, p.comment, p.deleted
	if e.Kind != Move {
		e.From, e.To = p.pos, p.pos
	}
	e.Spindle, e.Speed, e.Units, e.Offset, e.Program = p.spindle, p.speed, p.units, p.offset, p.program
	p.err = p.emit(*e)
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
	for m := p.c.have; m != 0; m &= m - 1 {
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
	if w := p.take('S'); w != nil {
		p.speed = max(w.Value, 0)
	}
	if w := p.take('T'); w != nil {
		p.tool = int(w.Digits)
	}
}

func (p *Interpreter) codeText(g group) string {
	return string(p.c.word[g].Letter) + p.c.word[g].Text
}

// machine takes tool change, spindle and coolant.
func (p *Interpreter) machine() {
	if p.c.in[changing] >= 0 {
		p.spindle = Off
		p.send(&Event{Kind: ToolChange, Code: p.tool})
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
		kind := SpindleOff
		if p.spindle = Off; t == 190 {
			p.spindle, kind = OrientedStop, Orient
		}
		if p.motionBeside() {
			p.fault(p.c.word[turning].Col, p.codeText(turning)+" beside a motion", "a block of its own: readers differ in which comes first")
		}
		p.send(&Event{Kind: kind})
	}
	if t := p.c.in[coolant]; t >= 0 {
		p.send(&Event{Kind: Coolant, Code: int(t / 10)})
	}
}

// motionBeside reports whether the block moves an axis.
func (p *Interpreter) motionBeside() bool {
	m := p.c.have & axisBits
	if p.c.dwell {
		m &^= 1 << (p.d.DwellWord - 'A')
	}
	return m != 0
}

// Axis letters, as bits of codes.have.
const (
	rotaryBits = 1 | 1<<('B'-'A') | 1<<('C'-'A') // A is bit 0
	axisBits   = 1<<('X'-'A') | 1<<('Y'-'A') | 1<<('Z'-'A') | 1<<('U'-'A') | 1<<('V'-'A') | 1<<('W'-'A') | rotaryBits
)

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
	if p.c.in[lengthOffset] == 430 && p.take('H') == nil {
		p.fault(p.c.word[lengthOffset].Col, "G43 without H", "H that names the length offset")
	}
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
	case 20, 300:
		p.ended, p.spindle = true, Off
		p.send(&Event{Kind: End, Code: int(t / 10)})
	}
}
