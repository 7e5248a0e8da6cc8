package rs274

import "borewright/process/qty"

// Axes is a set of axes.
type Axes uint16

// The axes of ISO 841: three slides, three rotations, three second slides.
const (
	X Axes = 1 << iota
	Y
	Z
	U
	V
	W
	A
	B
	C
)

// axisOf is the bit of an axis letter, 0 for any other.
func axisOf(letter byte) Axes {
	switch {
	case letter >= 'X' && letter <= 'Z':
		return X << (letter - 'X')
	case letter >= 'U' && letter <= 'W':
		return U << (letter - 'U')
	case letter >= 'A' && letter <= 'C':
		return A << (letter - 'A')
	}
	return 0
}

// Position is where the tool stands relative to the work. An axis outside
// Known has not been commanded yet: its number is 0 and means nothing.
type Position struct {
	X, Y, Z, U, V, W qty.Length
	A, B, C          float64 // degrees
	Known            Axes
}

// Has reports whether all the axes have been commanded.
func (p Position) Has(a Axes) bool { return p.Known&a == a }

// Linear is a linear axis by its letter; 0 for any other letter.
func (p Position) Linear(letter byte) qty.Length {
	if l := p.linear(axisOf(letter)); l != nil {
		return *l
	}
	return 0
}

func (p *Position) linear(a Axes) *qty.Length {
	switch a {
	case X:
		return &p.X
	case Y:
		return &p.Y
	case Z:
		return &p.Z
	case U:
		return &p.U
	case V:
		return &p.V
	case W:
		return &p.W
	}
	return nil
}

func (p *Position) rotary(a Axes) *float64 {
	switch a {
	case A:
		return &p.A
	case B:
		return &p.B
	case C:
		return &p.C
	}
	return nil
}

// Moved gives the axes in which two positions differ, or of which only one is
// known.
func (p Position) Moved(q Position) Axes {
	m := p.Known ^ q.Known
	for a := X; a <= W; a <<= 1 {
		if *p.linear(a) != *q.linear(a) {
			m |= a
		}
	}
	for a := A; a <= C; a <<= 1 {
		if *p.rotary(a) != *q.rotary(a) {
			m |= a
		}
	}
	return m
}

// Kind is what happens in an event.
type Kind uint8

// The kinds of event.
const (
	Move Kind = iota
	Dwell
	Stop         // M0; M1 with Event.Optional
	SpindleOn    // M3, M4, and the restart that G86 and G88 make
	SpindleOff   // M5, and the stop that G86 and G88 make
	Orient       // M19
	Coolant      // M7, M8, M9: Event.Code
	Gear         // M40 to M45: Event.Code
	ToolChange   // M6
	LengthOffset // G43, G49, where it changes: Event.Code is H, 0: none
	Return       // G28 and G53, to where the program does not know: Event.Code and Axes
	Message      // a comment: Event.Text
	End          // M2, M30: Event.Code
)

func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return "unknown"
}

var kindNames = [...]string{"move", "dwell", "stop", "spindle on", "spindle off", "orient", "coolant", "spindle range", "tool change", "length offset", "return", "message", "end"}

// Motion is the way of a move.
type Motion uint8

// The ways. A rapid move of more than one axis need not be a straight line.
const (
	Rapid Motion = iota
	Feed
	Arc
)

func (m Motion) String() string { return [...]string{"rapid", "feed", "arc"}[min(m, Arc)] }

// Spindle is the state of the spindle.
type Spindle uint8

// The states.
const (
	Off          Spindle = iota // stopped at any angle
	Clockwise                   // M3, seen from the spindle toward the work
	Counter                     // M4
	OrientedStop                // M19: stopped at the machine's fixed angle
)

// Turning reports whether the spindle turns.
func (s Spindle) Turning() bool { return s == Clockwise || s == Counter }

func (s Spindle) String() string {
	return [...]string{"off", "clockwise", "counter-clockwise", "oriented"}[min(s, OrientedStop)]
}

// Event is one thing that the machine does, and the state it does it in.
type Event struct {
	Kind Kind
	Line int // of the block
	N    int // block number, -1: none

	From, To Position // equal where nothing moves

	// Move.
	Motion    Motion
	Feed      qty.Length // feed and arc: a minute or, with PerRev, a revolution
	PerRev    bool
	Plane     int        // arc: 17, 18 or 19
	Center    Position   // arc: the two axes of the plane; return by G53: the machine's own positions
	Radius    qty.Length // arc: at its start
	Clockwise bool       // arc: G2
	Angle     float64    // arc: turned through, radians, above 0; orient: degrees, -1 where none is named
	Cycle     int        // 81 to 89: the event is a step of a cycle; 0: written out

	// State, after the event.
	Spindle Spindle
	Speed   float64 // S in force, rev/min; 0: never given
	Units   qty.Unit
	Length  int  // H of the length offset in force; 0: none
	Offset  int  // work offset 54 to 59, a label; 0: none named
	Program int  // O number; 0: none
	Deleted bool // the block begins with /

	Seconds  float64 // dwell; 0 where only Revs is known
	Revs     float64 // dwell: turns of the spindle; 0 where it stands
	Optional bool    // stop: M1
	Axes     Axes    // return: those that go
	Code     int     // return: 28 or 53, as on the rapid move on its way; coolant, spindle range and end: the M number; tool change: T
	Text     string  // message
	Shown    bool    // message: written as (MSG, ...)
	Comment  string  // the comments of the block, on every event of it
}
