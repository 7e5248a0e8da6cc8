package source

import (
	"bytes"
	"strings"
	"testing"
)

// A file of more than 5 MB is no job, and is not read.
func TestTooLarge(t *testing.T) {
	for size, want := range map[int]string{5 << 20: "", 5<<20 + 1: "the file is 5.0 MB"} {
		var p Problems
		f := Parse(bytes.Repeat([]byte("\n"), size), &p)
		var got string
		if err := p.Err(); err != nil {
			got = err.Error()
		}
		if !strings.Contains(got, want) || (got == "") != (want == "") || (f == nil) != (want != "") {
			t.Errorf("%d bytes: %q", size, got)
		}
	}
}

// A table may begin with the first byte of a file, and its place is its line's
// first character that is no blank.
func TestTableOnTheFirstLine(t *testing.T) {
	for text, want := range map[string]Pos{"[bar]\nfeed = 1\n": {1, 1}, "\n  [bar]\nfeed = 1\n": {2, 3}} {
		var p Problems
		f := Parse([]byte(text), &p)
		if f == nil || f.At["bar"] != want || f.At["bar.feed"] != (Pos{want.Line + 1, 1}) {
			t.Errorf("%q: %v, %v", text, f, p.Err())
		}
	}
}

func TestNearest(t *testing.T) {
	for _, row := range []struct {
		written string
		want    string
	}{
		{"diamter", "diameter"}, {"lenght", "length"}, {"NAME", "name"}, {"from ", "from"}, {"zzz", ""}, {"foo", ""}, {"fom", "from"}, {strings.Repeat("x", 50), ""},
	} {
		if got := Nearest(row.written, []string{"name", "from", "to", "diameter", "length"}); got != row.want {
			t.Errorf("Nearest(%q) = %q, want %q", row.written, got, row.want)
		}
	}
	if d := Distance([]rune("ab"), []rune("ba")); d != 1 {
		t.Errorf("a swap counts %d", d)
	}
}
