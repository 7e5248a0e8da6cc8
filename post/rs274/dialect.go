package rs274

import (
	"cmp"
	"fmt"
	"slices"

	"borewright/process/qty"
)

// Numbers says how a control reads the number of a length, feed or arc word.
// G, M, N, O, S, T, H, D and L words are whole numbers in every dialect.
type Numbers int

// The ways of reading.
const (
	PointMust    Numbers = iota // decimal point programming: a word without a point is a fault (0 apart)
	PointMay                    // a number without a point is a whole number
	DropLeading                 // fixed format of Whole.Part places, leading zeros left out, no point
	DropTrailing                // fixed format, trailing zeros left out
	AllDigits                   // fixed format, every zero written
)

// Fixed reports whether the place of the point is implied.
func (n Numbers) Fixed() bool { return n >= DropLeading }

// Zeros says which zeros of a number with a decimal point are written.
type Zeros int

// The zeros. A reader takes the first three alike.
const (
	UsualZeros Zeros = iota // one before the point where nothing else is, all behind it
	NoLeading               // X.5000
	NoTrailing              // X0.5
	AllZeros                // every place of Whole.Part: X000.5000
)

// Need says whether a thing must, may or must not stand in a program.
type Need int

// The needs.
const (
	Optional Need = iota
	Required
	Refused
)

// Features are what a control may lack.
type Features uint16

// The features.
const (
	Comments     Features = 1 << iota // ( )
	BlockNumbers                      // N words
	PerRev                            // G95
	Cycles                            // G81 to G89
	ReturnWords                       // G98, G99
	Oriented                          // M19
	BlockDelete                       // /
	GearWords                         // M40 to M45
	Returns                           // G28, G53
)

// DwellUnit is what the number of a dwell word counts.
type DwellUnit int

// The units of a dwell.
const (
	Seconds      DwellUnit = iota
	Milliseconds           // whole numbers, without a point
	Revolutions
)

// UnitsWords says which pair of codes chooses inch and mm.
type UnitsWords int

// The pairs.
const (
	AnyUnits UnitsWords = iota
	G20G21              // G20 inch, G21 mm
	G70G71              // G70 inch, G71 mm (EIA RS-274-D)
)

// LineEnd is what ends a line.
type LineEnd int

// The line ends.
const (
	AnyEnd  LineEnd = iota // a line feed, with or without a carriage return before it
	EndLF                  // a line feed alone
	EndCRLF                // carriage return and line feed
	EndCR                  // a carriage return alone
)

func (e LineEnd) String() string {
	return [...]string{"LF or CR LF", "LF", "CR LF", "CR"}[min(max(e, AnyEnd), EndCR)]
}

// Dialect is what one control takes. The zero value is decimal point
// programming with any number of decimals, lines of 256 characters, every
// feature, and dwell by G4 P in seconds.
type Dialect struct {
	Numbers     Numbers
	Whole, Part int // places before and after the point, at most; 0 outside fixed format: any number
	Zeros       Zeros
	UnitsWords  UnitsWords
	DwellUnit   DwellUnit
	DwellWord   byte // of G4: 'P' (also when 0), 'X' or 'F'; cycles always dwell by P
	LineMost    int  // longest block in characters, without the line end; 0: 256
	Percent     Need // % alone on the first and the last line
	Lacks       Features
	Spaces      bool // printing: one space between words
	LowerCase   bool // letters of words may be small
	LineEnd     LineEnd
	OrientWord  byte // of the angle beside M19: 'S' or 'R'; 0: none is read there
	Plain       bool // comments hold capitals, digits, spaces and + - . , / alone

	DeleteOn    bool // replay: the block delete switch is on, blocks with / are skipped
	HandsAtStop Axes // replay: after M0 nobody knows where they stand, because hands may have moved them
}

const (
	lineDefault = 256
	lineHard    = 4096 // a longer line is a fault and its words are not read
	faultsMost  = 200  // kept per program, so that memory stays bounded
	digitsMost  = 15   // a number of 15 digits is exact in a float64
)

// Check tells what is wrong with a dialect.
func (d Dialect) Check() error {
	switch {
	case d.Numbers < PointMust || d.Numbers > AllDigits:
		return fmt.Errorf("dialect: numbers %d is not a way of reading numbers", d.Numbers)
	case d.Part < 0 || d.Part > 6 || d.Whole < 0 || d.Whole > 6:
		return fmt.Errorf("dialect: %d.%d places; 0 to 6 on either side of the point are taken", d.Whole, d.Part)
	case d.Zeros < UsualZeros || d.Zeros > AllZeros:
		return fmt.Errorf("dialect: zeros %d is not a way of writing numbers", d.Zeros)
	case d.Zeros == AllZeros && (d.Whole == 0 || d.Part == 0):
		return fmt.Errorf("dialect: all zeros need places on both sides of the point, not %d.%d", d.Whole, d.Part)
	case d.Numbers.Fixed() && (d.Whole == 0 || d.Part == 0):
		return fmt.Errorf("dialect: fixed format needs places on both sides of the point, not %d.%d", d.Whole, d.Part)
	case d.DwellWord != 0 && d.DwellWord != 'P' && d.DwellWord != 'X' && d.DwellWord != 'F':
		return fmt.Errorf("dialect: dwell word %q; P, X or F is taken", d.DwellWord)
	case d.LineEnd < AnyEnd || d.LineEnd > EndCR:
		return fmt.Errorf("dialect: line end %d; LF, CR LF and CR are taken", d.LineEnd)
	case d.LineMost < 0 || d.LineMost > lineHard:
		return fmt.Errorf("dialect: longest line %d; 0 (256) to %d is taken", d.LineMost, lineHard)
	}
	return nil
}

// complete fills what was left out and mends what Check refuses, so that a
// reader cannot be made to fail by its dialect.
func (d Dialect) complete() Dialect {
	if d.Numbers < PointMust || d.Numbers > AllDigits {
		d.Numbers = PointMust
	}
	d.Whole, d.Part = min(max(d.Whole, 0), 6), min(max(d.Part, 0), 6)
	if d.Numbers.Fixed() && d.Whole+d.Part == 0 {
		d.Whole, d.Part = 4, 3
	}
	if d.Zeros == AllZeros && (d.Whole == 0 || d.Part == 0) {
		d.Zeros = UsualZeros
	}
	if d.DwellWord != 'X' && d.DwellWord != 'F' {
		d.DwellWord = 'P'
	}
	if d.LineEnd < AnyEnd || d.LineEnd > EndCR {
		d.LineEnd = AnyEnd
	}
	if d.LineMost <= 0 || d.LineMost > lineHard {
		d.LineMost = lineDefault
	}
	return d
}

func (d Dialect) lacks(f Features) bool { return d.Lacks&f != 0 }

// unitsCode is the G code that chooses u.
func (d Dialect) unitsCode(u qty.Unit) int64 {
	switch {
	case d.UnitsWords == G70G71 && u == qty.Inches:
		return 70
	case d.UnitsWords == G70G71:
		return 71
	case u == qty.Inches:
		return 20
	}
	return 21
}

// Fault is one thing that is wrong with a program: where (counted from 1;
// Col is in characters), what was found and what would be right.
type Fault struct {
	Line, Col  int
	What, Want string
}

// Error gives "line:column: what; want".
func (f Fault) Error() string {
	s := fmt.Sprintf("%d:%d: %s", f.Line, f.Col, f.What)
	if f.Want != "" {
		s += "; " + f.Want
	}
	return s
}

// faultList keeps the first faultsMost faults and counts the others.
type faultList struct {
	list    []Fault
	dropped int
	last    int // line of the last one dropped
}

func (l *faultList) add(f Fault) {
	if len(l.list) >= faultsMost {
		l.dropped, l.last = l.dropped+1, f.Line
		return
	}
	l.list = append(l.list, f)
}

// sorted gives the faults by place, with a closing one where some were left out.
func (l *faultList) sorted() []Fault {
	out := slices.Clone(l.list)
	slices.SortStableFunc(out, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
	if l.dropped > 0 {
		out = append(out, Fault{Line: l.last, Col: 1, What: fmt.Sprintf("%d more faults are not shown", l.dropped), Want: "mend the first ones and read again"})
	}
	return out
}
