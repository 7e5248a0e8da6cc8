package report

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/sergi/go-diff/diffmatchpatch"
)

const (
	contextLines = 3
	// Beyond these a line-by-line comparison takes long and nobody reads it.
	diffBytesMost = 1 << 20
	diffLinesMost = 20_000
)

// unified compares two texts line by line and gives a unified diff that
// `patch` takes, or "" when they are the same. Texts that are too long, or no
// texts, get one line that says that they differ.
func unified(oldName, newName string, old, new []byte) string {
	if bytes.Equal(old, new) {
		return ""
	}
	a, b := lines(old), lines(new)
	switch {
	case bytes.IndexByte(old, 0) >= 0 || bytes.IndexByte(new, 0) >= 0:
		return fmt.Sprintf("%s and %s differ; they are not text.\n", oldName, newName)
	case len(old)+len(new) > diffBytesMost || len(a)+len(b) > diffLinesMost:
		return fmt.Sprintf("%s (%d lines) and %s (%d lines) differ; too long to show line by line.\n", oldName, len(a), newName, len(b))
	}
	var out strings.Builder
	fmt.Fprintf(&out, "--- %s\n+++ %s\n", oldName, newName)
	script := edits(a, b)
	for from := 0; from < len(script); {
		from = nextChange(script, from)
		if from == len(script) {
			break
		}
		to := hunkEnd(script, from)
		writeHunk(&out, script, max(0, from-contextLines), to)
		from = to
	}
	return out.String()
}

// lines splits a text after its line ends, which stay.
func lines(data []byte) []string {
	s := strings.SplitAfter(string(data), "\n")
	if s[len(s)-1] == "" {
		s = s[:len(s)-1]
	}
	return s
}

// edit is one line of the script that leads from the old text to the new.
type edit struct {
	op       byte // ' ', '-' or '+'
	text     string
	old, new int // lines of each text before this one
}

// edits is the shortest script, in whole lines. The library compares strings
// of runes, so every distinct line becomes a rune; its timeout is off, because
// with it the answer depends on the machine.
func edits(a, b []string) []edit {
	dmp := diffmatchpatch.New()
	dmp.DiffTimeout = 0
	ra, rb, _ := dmp.DiffLinesToRunes(strings.Join(a, ""), strings.Join(b, ""))
	var out, added []edit
	i, j := 0, 0
	flush := func() { // removed lines come before added ones
		out, added = append(out, added...), nil
	}
	for _, d := range dmp.DiffMainRunes(ra, rb, false) {
		for range []rune(d.Text) {
			switch d.Type {
			case diffmatchpatch.DiffDelete:
				out = append(out, edit{op: '-', text: a[i]})
				i++
			case diffmatchpatch.DiffInsert:
				added = append(added, edit{op: '+', text: b[j]})
				j++
			default:
				flush()
				out = append(out, edit{op: ' ', text: a[i]})
				i, j = i+1, j+1
			}
		}
	}
	flush()
	i, j = 0, 0
	for k := range out {
		out[k].old, out[k].new = i, j
		if out[k].op != '+' {
			i++
		}
		if out[k].op != '-' {
			j++
		}
	}
	return out
}

func nextChange(s []edit, from int) int {
	for from < len(s) && s[from].op == ' ' {
		from++
	}
	return from
}

// hunkEnd finds where the hunk that begins with the change at from ends: after
// its context, unless the next change begins within or right behind it.
func hunkEnd(s []edit, from int) int {
	for {
		for from < len(s) && s[from].op != ' ' {
			from++
		}
		next := nextChange(s, from)
		if next == len(s) || next-from > 2*contextLines {
			return min(from+contextLines, len(s))
		}
		from = next
	}
}

func writeHunk(out *strings.Builder, s []edit, from, to int) {
	var old, new int
	for _, e := range s[from:to] {
		if e.op != '+' {
			old++
		}
		if e.op != '-' {
			new++
		}
	}
	fmt.Fprintf(out, "@@ -%s +%s @@\n", hunkRange(s[from].old, old), hunkRange(s[from].new, new))
	for _, e := range s[from:to] {
		out.WriteByte(e.op)
		out.WriteString(e.text)
		if !strings.HasSuffix(e.text, "\n") {
			out.WriteString("\n\\ No newline at end of file\n")
		}
	}
}

// hunkRange is "first,count"; ",1" is left out, and an empty range names the
// line before it.
func hunkRange(before, n int) string {
	switch n {
	case 0:
		return fmt.Sprintf("%d,0", before)
	case 1:
		return fmt.Sprint(before + 1)
	}
	return fmt.Sprintf("%d,%d", before+1, n)
}

// visible makes a diff safe to print on a terminal: control characters but tab
// and line ends are shown as ^X, broken UTF-8 as "?". Clean text, a line end of
// CR LF included, is not touched, so the diff can still be applied.
func visible(s string) string {
	var b strings.Builder
	s = strings.ToValidUTF8(s, "?")
	for i, r := range s {
		switch {
		case r == '\n' || r == '\t' || r == '\r' && strings.HasPrefix(s[i:], "\r\n"):
			b.WriteRune(r)
		case r < ' ':
			b.WriteString("^" + string('@'+r))
		case r == 0x7f:
			b.WriteString("^?")
		case r >= 0x80 && r < 0xa0 || r == '\u2028' || r == '\u2029' || r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069':
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Lines compares two texts line by line, as a unified diff that is safe to
// print.
func Lines(oldName, newName string, old, new []byte) string {
	return visible(unified(oldName, newName, old, new))
}
