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

func TestNearest(t *testing.T) {
	for _, row := range []struct {
		written string
		want    string
	}{
		{"diamter", "diameter"}, {"lenght", "length"}, {"NAME", "name"}, {"from ", "from"}, {"zzz", ""}, {strings.Repeat("x", 50), ""},
	} {
		if got := Nearest(row.written, []string{"name", "from", "to", "diameter", "length"}); got != row.want {
			t.Errorf("Nearest(%q) = %q, want %q", row.written, got, row.want)
		}
	}
	if d := Distance([]rune("ab"), []rune("ba")); d != 1 {
		t.Errorf("a swap counts %d", d)
	}
}
