package page

import (
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// Columns is the longest line of the text face. Old printers that have 80
// columns break the line after the 80th, so two are left free.
const Columns = 78

// WriteText prints the sheet as plain text of at most 80 columns, UTF-8 with
// little beyond ASCII: Ø, ±, µ, ° and what the job's author wrote.
func (s *Sheet) WriteText(w io.Writer) error { return s.write(w, nil) }

// WriteASCII prints the sheet for printers that know ASCII only: Ø becomes
// "dia", µ "u", ± "+/-", and letters lose their marks.
func (s *Sheet) WriteASCII(w io.Writer) error { return s.write(w, toASCII) }

func (s *Sheet) write(w io.Writer, fold func(string) string) error {
	t := &Printer{fold: fold}
	t.Rule("=")
	t.Ends(strings.ToUpper(s.Kind), s.Job)
	t.Hang("", "", s.Title)
	if s.Stamp != "" {
		t.Line("")
		t.Hang("*** ", "*** ", s.Stamp+": do not cut from this paper")
	}
	t.Rule("=")
	for _, sec := range s.Sections {
		t.Line("")
		right := s.Job
		if s.Stamp != "" {
			right = "*** " + s.Stamp + " ***  " + right
		}
		t.Ends(sec.Title, right)
		t.Rule("-")
		t.Blocks(sec.Blocks)
		t.Line("")
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}

// Blocks prints what can be said without a drawing, a line apart but under a
// heading.
func (t *Printer) Blocks(all []Block) {
	said := sayable(all)
	for i, b := range said {
		if _, underHead := said[max(0, i-1)].(*Heading); i > 0 && !underHead {
			t.Line("")
		}
		t.Block(b)
	}
}

// Section prints blocks under a title, a line apart.
func (t *Printer) Section(title string, blocks []Block) {
	t.Line("")
	t.Block(&Heading{title})
	t.Blocks(blocks)
}

// sayable leaves out the drawings that have no words, and with them a heading
// that heads nothing else.
func sayable(blocks []Block) []Block {
	var out []Block
	for i, b := range blocks {
		if mute(b) {
			continue
		}
		if _, head := b.(*Heading); head && i+1 < len(blocks) && mute(blocks[i+1]) {
			if i+2 == len(blocks) {
				continue
			}
			if _, next := blocks[i+2].(*Heading); next {
				continue
			}
		}
		out = append(out, b)
	}
	return out
}

// mute is whether a block has nothing to say where nothing can be drawn.
func mute(b Block) bool {
	f, ok := b.(*Figures)
	return ok && !f.worded()
}

// Printer lays blocks out in lines. All text passes through put, which folds
// it, so that widths are measured on what is printed.
type Printer struct {
	b    strings.Builder
	fold func(string) string // nil: as it is
}

// Put is a text as it will be printed: its Columns is what counts.
func (t *Printer) Put(s string) string {
	s = Clean(s)
	if t.fold != nil {
		s = t.fold(s)
	}
	return s
}

// WriteTo writes what was printed.
func (t *Printer) WriteTo(w io.Writer) (int64, error) {
	n, err := io.WriteString(w, t.b.String())
	return int64(n), err
}

// Raw prints a text as it stands, lines and all.
func (t *Printer) Raw(s string) { t.b.WriteString(s) }

// Line prints one line.
func (t *Printer) Line(s string) {
	t.b.WriteString(strings.TrimRight(s, " "))
	t.b.WriteByte('\n')
}

// Rule prints a line of one character.
func (t *Printer) Rule(of string) { t.Line(strings.Repeat(of, Columns)) }

// Hang prints text wrapped, first in front of its first line and rest in front
// of the others.
func (t *Printer) Hang(first, rest, text string) {
	n := Columns - max(runes(first), runes(rest))
	for i, l := range wrap(t.Put(text), n) {
		if i == 0 {
			t.Line(first + l)
		} else {
			t.Line(rest + l)
		}
	}
}

// Ends prints one text at the left end of a line and one at the right, on two
// lines where they do not fit on one.
func (t *Printer) Ends(left, right string) {
	l, r := t.Put(left), t.Put(right)
	if gap := Columns - runes(l) - runes(r); gap >= 2 {
		t.Line(l + strings.Repeat(" ", gap) + r)
		return
	}
	t.Hang("", "   ", left)
	for _, s := range wrap(r, Columns) {
		t.Line(strings.Repeat(" ", Columns-runes(s)) + s)
	}
}

// Block prints one block.
func (t *Printer) Block(b Block) {
	switch b := b.(type) {
	case *Heading:
		t.Hang("", "", b.Text)
		t.Line(strings.Repeat("-", min(Columns, runes(t.Put(b.Text)))))
	case *Paragraph:
		if b.Strong {
			t.Hang("  ! ", "    ", b.Text)
		} else {
			t.Hang("", "", b.Text)
		}
	case *KeyValues:
		t.keyValues(b)
	case *Table:
		t.table(b)
	case *Checklist:
		for _, s := range b.Items {
			t.Hang("[ ] ", "    ", s)
		}
	case *Blanks:
		t.blanks(b)
	case *Cautions:
		for _, s := range b.Items {
			t.Hang("  ! ", "    ", s)
		}
	case *Figures:
		for _, f := range b.Items {
			words := slices.Concat(f.Words, f.Instead)
			if len(words) > 0 {
				t.Hang("", "  ", f.Caption+" (drawn in the printed sheet):")
			}
			for _, s := range words {
				t.Hang("  ", "  ", s)
			}
		}
	}
}

// keyValues prints values under each other; a key too long for the column has
// a line of its own.
func (t *Printer) keyValues(b *KeyValues) {
	const most = 24
	col := 0
	for _, kv := range b.Items {
		if n := runes(t.Put(kv.Key)); n <= most {
			col = max(col, n)
		}
	}
	rest := strings.Repeat(" ", col+2)
	for _, kv := range b.Items {
		k := t.Put(kv.Key)
		if runes(k) > col {
			t.Hang("", "  ", kv.Key)
			t.Hang(rest, rest, kv.Value)
			continue
		}
		t.Hang(Pad(k, col)+"  ", rest, kv.Value)
	}
}

// blanks prints "label ______ unit" as many to a line as fit, every line
// filled by its rules.
func (t *Printer) blanks(b *Blanks) {
	const least = 10 // underscores: three decimals by hand
	cost := func(x Blank) int {
		n := runes(t.Put(x.Label)) + 1 + least
		if x.Unit != "" {
			n += 1 + runes(t.Put(x.Unit))
		}
		return n
	}
	for i := 0; i < len(b.Items); {
		used, j := cost(b.Items[i]), i+1
		for ; j < len(b.Items) && used+2+cost(b.Items[j]) <= Columns; j++ {
			used += 2 + cost(b.Items[j])
		}
		if used > Columns { // one alone, too long: label above, rule below
			t.Hang("", "  ", b.Items[i].Label)
			t.Hang(strings.Repeat("_", least)+" ", strings.Repeat(" ", least+1), b.Items[i].Unit+" ")
			i = j
			continue
		}
		spare := min((Columns-used)/(j-i), 24)
		var parts []string
		for _, x := range b.Items[i:j] {
			s := t.Put(x.Label) + " " + strings.Repeat("_", least+spare)
			if x.Unit != "" {
				s += " " + t.Put(x.Unit)
			}
			parts = append(parts, s)
		}
		if i > 0 { // room to write
			t.Line("")
		}
		t.Line(strings.Join(parts, "  "))
		i = j
	}
}

// wrap breaks text into lines of at most n runes, at spaces where there are
// any. It gives at least one line.
func wrap(s string, n int) []string {
	n = max(n, 1)
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(s) {
		w := runes(word)
		if used > 0 && used+1+w <= n {
			line, used = line+" "+word, used+1+w
			continue
		}
		if used > 0 {
			lines = append(lines, line)
		}
		for w > n {
			r := []rune(word)
			lines, word = append(lines, string(r[:n])), string(r[n:])
			w -= n
		}
		line, used = word, w
	}
	return append(lines, line)
}

func runes(s string) int { return utf8.RuneCountInString(s) }

// Pad is a text with spaces behind it, n characters wide or as wide as it is.
func Pad(s string, n int) string {
	return s + strings.Repeat(" ", max(0, n-runes(s)))
}

func padLeft(s string, n int) string {
	return strings.Repeat(" ", max(0, n-runes(s))) + s
}
