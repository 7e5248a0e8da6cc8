package rs274

import (
	"math/bits"

	"borewright/process/qty"
)

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
	angle     float64 // beside M19 in the block under way; -1: none
	spindle   Spindle
	tool      int
	length    int // H of the length offset; 0: none
	offset    int
	program   int
	ended     bool
	cycle     cycle

	unitsSaid, distanceSaid, feedModeSaid, planeSaid bool
}

// NewInterpreter begins as a control after power on, when nothing is known.
func NewInterpreter(d Dialect, emit func(Event) error) *Interpreter {
	return &Interpreter{d: d.complete(), emit: emit, faults: &faultList{}, motion: -1, plane: 17, n: -1, angle: -1}
}

// cycle is what carries over within an unbroken run of one cycle.
type cycle struct {
	z, r, p        Word
	hasZ, hasR, ok bool
	hasP           bool
	back           int // G98 or G99 of the run
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
	e.Spindle, e.Speed, e.Units, e.Offset, e.Length, e.Program = p.spindle, p.speed, p.units, p.offset, p.length, p.program
	p.err = p.emit(*e)
}

// get takes a word that the block has a use for.
func (p *Interpreter) get(letter byte) *Word {
	if i := letter - 'A'; p.c.have>>i&1 != 0 {
		return p.c.words[i]
	}
	return nil
}

// take is get, and marks the word as used.
func (p *Interpreter) take(letter byte) *Word {
	i := letter - 'A'
	if p.c.have>>i&1 == 0 {
		return nil
	}
	p.c.have &^= 1 << i
	return p.c.words[i]
}

func (p *Interpreter) codeText(g group) string {
	return string(p.c.word[g].Letter) + p.c.word[g].Text
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

// firstAxis is the first axis word by column.
func (p *Interpreter) firstAxis() *Word {
	var first *Word
	for m := p.c.have & axisBits; m != 0; m &= m - 1 {
		if w := p.c.words[bits.TrailingZeros32(m)]; first == nil || w.Col < first.Col {
			first = w
		}
	}
	return first
}

func (p *Interpreter) takeAxes() {
	p.c.have &^= axisBits
}
