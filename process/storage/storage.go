// Package storage is how a control keeps programs, by property: the keys that say so.
package storage

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
	FileName        string // pattern; "": as usual
	FileNameMost    int    // characters before the ending; 0: no bound
	FileCapitals    bool
	FileExtension   string // "" or "none": none
	OneFile         bool   // all programs of a plan in one file, told apart by their O words
}

// Parts of a file's name that a pattern puts together.
const (
	NumberPart   = "{number}"
	RevisionPart = "{revision}"
	BorePart     = "{bore}"
	VisitPart    = "{visit}"
	ProgramPart  = "{program}"
)

// Describe says what the keys of the storage are; they stand among those of the control.
func (s *Storage) Describe(d *field.Desc) {
	field.Word(d, &s.LineEnd, "line_end", EndLF, EndCRLF, EndCR).Otherwise("LF is written, LF and CRLF are read").Example(`"CRLF"`).
		Says("the characters that end a line of the program: line feed (LF), carriage return (CR), or both; where it is stated, a program with others is not proven")
	d.Count(&s.Leader, "leader").Default("0").Span("0..2000").Example("100").
		Says("blank (NUL) characters before the program, as at the start of a tape, where 10 of them are 1 in (25.4 mm); they are written, and read over wherever they stand")
	d.Count(&s.Trailer, "trailer").Default("0").Span("0..2000").Example("100").Says("blank (NUL) characters behind the program")
	field.Word(d, &s.Remarks, "remarks", FullRemarks, ShortRemarks, NoRemarks).Default("full").Example(`"short"`).
		Says("how much the program says in comments. full: all that the operator needs; short: job, visit and bar, and at each stop the setting, what to expect and what to do; none: nothing. What is left out stands on the sheet, and prove lists it")
	d.Text(&s.FileName, "file_name").Otherwise("{number}-{revision}-{bore}-{visit}").Example(`"{number}{visit}"`).
		Says("what a program's file is called: letters, digits, - and _, and in braces the job's number and revision, the bore, the visit, the program number ({program})")
	d.Count(&s.FileNameMost, "file_name_most").Default("0").Span("0..100").Example("8").
		Says("characters that the name may have before its ending; the bore's name is cut short first, then the job's number. 0: no bound").ZeroIsNone()
	d.Flag(&s.FileCapitals, "file_capitals").Default("false").Example("true").Says("the name is written in capitals")
	d.Text(&s.FileExtension, "file_extension").Default("nc").Example(`"tap"`).Says(`the ending of the name, up to 8 letters and digits; "none": none`)
	d.Flag(&s.OneFile, "one_file").Default("false").Example("true").
		Says("the programs of all visits stand in one file, one behind the other, told apart by their O words: it needs program_number. In the name {visit} is then all, or which measurements the plan goes by")
}
