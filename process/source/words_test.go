package source

import (
	"strings"
	"testing"
)

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
