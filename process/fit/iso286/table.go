package iso286

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"borewright/process/qty"
)

//go:embed tables/grades.txt
var gradesText string

//go:embed tables/deviations.txt
var deviationsText string

// kind says which part a row of the deviation table speaks of.
type kind int

const (
	hole kind = iota
	shaft
	delta
)

func (k kind) String() string { return [...]string{"hole", "shaft", "delta"}[k] }

// grade is a standard tolerance grade: -1 is IT01, 0 is IT0, 1 to 18.
type grade int

const (
	leastGrade grade = -1
	mostGrade  grade = 18
)

func (g grade) String() string {
	if g == leastGrade {
		return "IT01"
	}
	return "IT" + strconv.Itoa(int(g))
}

// digits is the grade as a class writes it: "7" in "H7", "01" in "h01".
func (g grade) digits() string { return g.String()[2:] }

// parseGrade reads "IT7" (prefix "IT") or "7" (prefix "").
func parseGrade(s, prefix string) (grade, bool) {
	d, ok := strings.CutPrefix(s, prefix)
	if !ok {
		return 0, false
	}
	for g := leastGrade; g <= mostGrade; g++ {
		if g.digits() == d {
			return g, true
		}
	}
	return 0, false
}

// cell is a tolerance with the letter of its note; note 0 is an empty cell.
type cell struct {
	value qty.Length
	note  byte
}

// span is a size range: over the first, up to and including the second.
type span struct{ over, upto qty.Diameter }

func (s span) has(d qty.Diameter) bool { return d > s.over && d <= s.upto }

type gradeRow struct {
	span
	cells [mostGrade - leastGrade + 1]cell
}

type deviationRow struct {
	span
	from, to grade
	which    string // as explained at the top of the file
	value    qty.Length
	note     byte
	first    bool // an exception, taken before the other rows
}

type rowKey struct {
	kind   kind
	letter string
}

// tables is both files, read once. note is keyed by file and letter together:
// the letters of the deviation file are stored with the high bit set.
type tables struct {
	grades     []gradeRow
	deviations map[rowKey][]deviationRow
	note       map[byte]string
}

// data reads the embedded files on first use. They are part of the program: a
// fault in them is ours, and a test reads them, so it panics.
var data = sync.OnceValue(func() *tables {
	t := &tables{deviations: map[rowKey][]deviationRow{}, note: map[byte]string{}}
	if err := t.read(gradesText, 0, t.readGrade); err != nil {
		panic("fit: tables/grades.txt: " + err.Error())
	}
	if err := t.read(deviationsText, 0x80, t.readDeviation); err != nil {
		panic("fit: tables/deviations.txt: " + err.Error())
	}
	return t
})

func (t *tables) read(text string, high byte, row func(f []string) error) error {
	for n, line := range strings.Split(text, "\n") {
		f := strings.Fields(line)
		switch {
		case len(f) == 0 || f[0] == "#":
		case f[0] == "note":
			_, what, _ := strings.Cut(line, " | ")
			head, _, _ := strings.Cut(line, " |")
			t.note[f[1][0]|high] = what + " (" + strings.Join(strings.Fields(head)[2:], " ") + ")"
		default:
			if err := row(f); err != nil {
				return fmt.Errorf("line %d: %w", n+1, err)
			}
		}
	}
	return nil
}

func (t *tables) readGrade(f []string) error {
	if len(f) != 3+int(mostGrade-leastGrade)+1 {
		return fmt.Errorf("%d columns", len(f))
	}
	var r gradeRow
	var err error
	if r.span, err = readSpan(f[1], f[2]); err != nil {
		return err
	}
	for i, s := range f[3:] {
		if s == "-" {
			continue
		}
		n := len(s) - 1
		v, err := microns(s[:n])
		if err != nil {
			return err
		}
		r.cells[i] = cell{v, s[n]}
	}
	t.grades = append(t.grades, r)
	return nil
}

func (t *tables) readDeviation(f []string) error {
	if len(f) != 8 {
		return fmt.Errorf("%d columns", len(f))
	}
	key := rowKey{map[string]kind{"hole": hole, "hole!": hole, "shaft": shaft, "delta": delta}[f[0]], f[1]}
	r := deviationRow{which: f[5], note: f[7][0] | 0x80, first: f[0] == "hole!"}
	var err error
	if r.span, err = readSpan(f[2], f[3]); err != nil {
		return err
	}
	from, to, ok := strings.Cut(f[4], "-")
	if !ok {
		to = from
	}
	var ok1, ok2 bool
	r.from, ok1 = parseGrade(from, "")
	r.to, ok2 = parseGrade(to, "")
	if !ok1 || !ok2 {
		return fmt.Errorf("grades %q", f[4])
	}
	if r.value, err = microns(f[6]); err != nil {
		return err
	}
	t.deviations[key] = append(t.deviations[key], r)
	return nil
}

func readSpan(over, upto string) (span, error) {
	a, err := strconv.Atoi(over)
	if err != nil {
		return span{}, err
	}
	b, err := strconv.Atoi(upto)
	mm := qty.Diameter(qty.Millimetre)
	return span{qty.Diameter(a) * mm, qty.Diameter(b) * mm}, err
}

// microns reads a figure of the tables, which have half a µm at the finest and
// tenths in IT01 to IT2: exact in nanometres.
func microns(s string) (qty.Length, error) {
	v, err := strconv.ParseFloat(s, 64)
	return qty.FromMM(v / 1000), err
}

// SizeRange is the range of nominal sizes of ISO 286-1, over the one and up to
// and including the other, that a size belongs to; false beyond the standard.
func SizeRange(d qty.Diameter) (over, upto qty.Diameter, ok bool) {
	for _, r := range data().grades {
		if r.has(d) {
			return r.over, r.upto, true
		}
	}
	return 0, 0, false
}

// find gives the one row for a letter at a size and grade.
func (t *tables) find(k kind, letter string, d qty.Diameter, g grade) (deviationRow, bool) {
	var found deviationRow
	ok := false
	for _, r := range t.deviations[rowKey{k, letter}] {
		if r.has(d) && r.from <= g && g <= r.to && (!ok || r.first) {
			found, ok = r, true
		}
	}
	return found, ok
}

// tolerance gives the cell of the grade table.
func tolerance(d qty.Diameter, g grade) (cell, error) {
	if g >= 14 && d <= qty.Diameter(qty.Millimetre) {
		return cell{}, fmt.Errorf("ISO 286 has no %v up to 1 mm; use IT01 to IT13", g)
	}
	for _, r := range data().grades {
		if !r.has(d) {
			continue
		}
		if c := r.cells[g-leastGrade]; c.note != 0 {
			return c, nil
		}
		return cell{}, fmt.Errorf("ISO 286 has no %v over 500 mm; use IT1 to IT18", g)
	}
	return cell{}, checkSize(d)
}
