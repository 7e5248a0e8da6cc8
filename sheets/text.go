package sheets

import (
	"io"
	"strings"
	"unicode/utf8"
)

// width is the longest line of the text face. Old printers that have 80
// columns break the line after the 80th, so two are left free.
const width = 78

// WriteText prints the sheet as plain text of at most 80 columns, UTF-8 with
// little beyond ASCII: Ø, ±, µ, ° and what the job's author wrote.
func (s *Sheet) WriteText(w io.Writer) error { return s.write(w, nil) }

// WriteASCII prints the sheet for printers that know ASCII only: Ø becomes
// "dia", µ "u", ± "+/-", and letters lose their marks.
func (s *Sheet) WriteASCII(w io.Writer) error { return s.write(w, toASCII) }

func (s *Sheet) write(w io.Writer, fold func(string) string) error {
	t := &printer{fold: fold}
	t.rule("=")
	t.ends(strings.ToUpper(s.Kind), s.Job)
	t.hang("", "", s.Title)
	if s.Stamp != "" {
		t.line("")
		t.hang("*** ", "*** ", s.Stamp+" - do not cut from this paper")
	}
	t.rule("=")
	for _, sec := range s.Sections {
		t.line("")
		right := s.Job
		if s.Stamp != "" {
			right = "*** " + s.Stamp + " ***  " + right
		}
		t.ends(sec.Title, right)
		t.rule("-")
		t.blocks(sec.Blocks)
		t.line("")
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}

// blocks prints what can be said without a drawing, a line apart but under a
// heading.
func (t *printer) blocks(all []Block) {
	said := sayable(all)
	for i, b := range said {
		if _, underHead := said[max(0, i-1)].(*Heading); i > 0 && !underHead {
			t.line("")
		}
		t.block(b)
	}
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

// printer lays blocks out in lines. All text passes through put, which folds
// it, so that widths are measured on what is printed.
type printer struct {
	b    strings.Builder
	fold func(string) string // nil: as it is
}

func (t *printer) put(s string) string {
	s = clean(s)
	if t.fold != nil {
		s = t.fold(s)
	}
	return s
}

func (t *printer) line(s string) {
	t.b.WriteString(strings.TrimRight(s, " "))
	t.b.WriteByte('\n')
}

func (t *printer) rule(of string) { t.line(strings.Repeat(of, width)) }

// hang prints text wrapped, first in front of its first line and rest in front
// of the others.
func (t *printer) hang(first, rest, text string) {
	n := width - max(runes(first), runes(rest))
	for i, l := range wrap(t.put(text), n) {
		if i == 0 {
			t.line(first + l)
		} else {
			t.line(rest + l)
		}
	}
}

// ends prints one text at the left end of a line and one at the right, on two
// lines where they do not fit on one.
func (t *printer) ends(left, right string) {
	l, r := t.put(left), t.put(right)
	if gap := width - runes(l) - runes(r); gap >= 2 {
		t.line(l + strings.Repeat(" ", gap) + r)
		return
	}
	t.hang("", "   ", left)
	for _, s := range wrap(r, width) {
		t.line(strings.Repeat(" ", width-runes(s)) + s)
	}
}

func (t *printer) block(b Block) {
	switch b := b.(type) {
	case *Heading:
		t.hang("", "", b.Text)
		t.line(strings.Repeat("-", min(width, runes(t.put(b.Text)))))
	case *Paragraph:
		if b.Strong {
			t.hang("  ! ", "    ", b.Text)
		} else {
			t.hang("", "", b.Text)
		}
	case *KeyValues:
		t.keyValues(b)
	case *Table:
		t.table(b)
	case *Checklist:
		for _, s := range b.Items {
			t.hang("[ ] ", "    ", s)
		}
	case *Blanks:
		t.blanks(b)
	case *Cautions:
		for _, s := range b.Items {
			t.hang("  ! ", "    ", s)
		}
	case *Figures:
		for _, f := range b.Items {
			if len(f.Words) > 0 {
				t.hang("", "  ", f.Caption+" (drawn in the printed sheet):")
			}
			for _, s := range f.Words {
				t.hang("  ", "  ", s)
			}
		}
	}
}

// keyValues prints values under each other; a key too long for the column has
// a line of its own.
func (t *printer) keyValues(b *KeyValues) {
	const most = 24
	col := 0
	for _, kv := range b.Items {
		if n := runes(t.put(kv.Key)); n <= most {
			col = max(col, n)
		}
	}
	rest := strings.Repeat(" ", col+2)
	for _, kv := range b.Items {
		k := t.put(kv.Key)
		if runes(k) > col {
			t.hang("", "  ", kv.Key)
			t.hang(rest, rest, kv.Value)
			continue
		}
		t.hang(pad(k, col)+"  ", rest, kv.Value)
	}
}

// blanks prints "label ______ unit" as many to a line as fit, every line
// filled by its rules.
func (t *printer) blanks(b *Blanks) {
	const least = 10 // underscores: three decimals by hand
	cost := func(x Blank) int {
		n := runes(t.put(x.Label)) + 1 + least
		if x.Unit != "" {
			n += 1 + runes(t.put(x.Unit))
		}
		return n
	}
	for i := 0; i < len(b.Items); {
		used, j := cost(b.Items[i]), i+1
		for ; j < len(b.Items) && used+2+cost(b.Items[j]) <= width; j++ {
			used += 2 + cost(b.Items[j])
		}
		if used > width { // one alone, too long: label above, rule below
			t.hang("", "  ", b.Items[i].Label)
			t.hang(strings.Repeat("_", least)+" ", strings.Repeat(" ", least+1), b.Items[i].Unit+" ")
			i = j
			continue
		}
		spare := min((width-used)/(j-i), 24)
		var parts []string
		for _, x := range b.Items[i:j] {
			s := t.put(x.Label) + " " + strings.Repeat("_", least+spare)
			if x.Unit != "" {
				s += " " + t.put(x.Unit)
			}
			parts = append(parts, s)
		}
		if i > 0 { // room to write
			t.line("")
		}
		t.line(strings.Join(parts, "  "))
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

func pad(s string, n int) string {
	return s + strings.Repeat(" ", max(0, n-runes(s)))
}

func padLeft(s string, n int) string {
	return strings.Repeat(" ", max(0, n-runes(s))) + s
}
