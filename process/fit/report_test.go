package fit

import (
	"strings"
	"testing"
)

// 50 H7 is +25/0, p6 +42/+26 µm; 2 in stands in the range over 50 to 80 mm,
// where H7 is +30/0 and s6 (to 65 mm) +72/+53 µm: ISO 286-2:2010 Tables 6, 24
// and 28 (from memory; the tables of this package name where each was seen).
func TestReportInBothUnits(t *testing.T) {
	for text, want := range map[string][]string{
		"50 H7/p6":       {"50.000 to 50.025 mm   (0 / +25 µm)", "1 to 42 µm tight", "1.96851 to 1.96948 in   (0 / +0.00098 in)", "0.00004 to 0.00165 in tight"},
		"2.0000in H7/s6": {"2.00000 to 2.00118 in", "0.00091 to 0.00283 in tight", "50.853 to 50.872 mm   (+53 / +72 µm)", "23 to 72 µm tight"},
		"2.5in H7/k6":    {"0.00083 in tight to 0.00110 in loose", "21 µm tight to 28 µm loose"},
		"80 g6":          {"79.971 to 79.990 mm   (−29 / −10 µm)", "(−0.00114 / −0.00039 in)"},
	} {
		d, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		f, err := d.Resolve()
		if err != nil {
			t.Fatal(err)
		}
		got, err := Report(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: no %q in\n%s", text, w, got)
			}
		}
		for line := range strings.Lines(got) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 80 {
				t.Errorf("%s: %d columns: %s", text, n, line)
			}
		}
	}
}
