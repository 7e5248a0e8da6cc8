package process

import "borewright/process/field"

// LineEnd is what ends the lines of a program.
type LineEnd int

// The line ends; the first is not said: written as LF, and LF and CR LF are read.
const (
	AnyEnd LineEnd = iota
	EndLF
	EndCRLF
	EndCR
)

func (e LineEnd) String() string { return [...]string{"", "LF", "CRLF", "CR"}[e] }

// Remarks is how much a program says in comments.
type Remarks int

// How much.
const (
	FullRemarks  Remarks = iota
	ShortRemarks         // job, visit and bar; at each stop the setting, what to expect and the orders
	NoRemarks
)

func (r Remarks) String() string { return [...]string{"full", "short", "none"}[r] }

// Storage says how a control stores programs, by property.
type Storage struct {
	LineEnd         LineEnd
	Leader, Trailer int // NUL characters before and behind the program
	Remarks         Remarks
}

// Describe says what the keys of the storage are; they stand among those of the control.
func (s *Storage) Describe(d *field.Desc) {
	field.Word(d, &s.LineEnd, "line_end", EndLF, EndCRLF, EndCR).Otherwise("LF is written, LF and CRLF are read").Example(`"CRLF"`).
		Says("the characters that end a line of the program: line feed (LF), carriage return (CR), or both; where it is stated, a program with others is not proven")
	d.Count(&s.Leader, "leader").Default("0").Span("0..2000").Example("100").
		Says("blank (NUL) characters before the program, as at the start of a tape, where 10 of them are 1 in (25.4 mm); they are written, and read over wherever they stand")
	d.Count(&s.Trailer, "trailer").Default("0").Span("0..2000").Example("100").Says("blank (NUL) characters behind the program")
	field.Word(d, &s.Remarks, "remarks", FullRemarks, ShortRemarks, NoRemarks).Default("full").Example(`"short"`).
		Says("how much the program says in comments. full: all that the operator needs; short: job, visit and bar, and at each stop the setting, what to expect and what to do; none: nothing. What is left out stands on the sheet, and prove lists it")
}
