package limits

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"borewright/process/fit/standard"
)

// 50 H7 is +25/0, p6 +42/+26 µm; 2 in stands in the range over 50 to 80 mm,
// where H7 is +30/0 and s6 (to 65 mm) +72/+53 µm: ISO 286-2:2010 Tables 6, 24
// and 28 (from memory; the tables of process/fit name where each was seen).
func TestReportInBothUnits(t *testing.T) {
	for text, want := range map[string][]string{
		"50 H7/p6":       {"50.000 to 50.025 mm   (0 / +25 µm)", "1 to 42 µm tight", "1.96851 to 1.96948 in   (0 / +0.00098 in)", "0.00004 to 0.00165 in tight"},
		"2.0000in H7/s6": {"2.00000 to 2.00118 in", "0.00091 to 0.00283 in tight", "50.853 to 50.872 mm   (+53 / +72 µm)", "23 to 72 µm tight"},
		"2.5in H7/k6":    {"0.00083 in tight to 0.00110 in loose", "21 µm tight to 28 µm loose"},
		"2.125 RC4":      {"2.12260 to 2.12380 in   (−0.00240 / −0.00120 in)", "0.00120 to 0.00420 in loose", "53.9750 to 54.0207 mm", "30.48 to 106.68 µm loose", "means         close running"},
		"50mm FN2":       {"50mm FN2   (ANSI B4.1, H7/s6, sizes over 1.58 up to 1.97 in)", "medium drive"},
		"80 g6":          {"79.971 to 79.990 mm   (−29 / −10 µm)", "(−0.00114 / −0.00039 in)"},
	} {
		f, err := standard.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		got := Report(f)
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

func TestSketch(t *testing.T) {
	for text, want := range map[string]string{
		"50 H7/p6": `
50 H7/p6   (ISO 286-1, sizes over 30 up to 50 mm)

µm            0          +10         +20         +30         +40         +50
              ┼───────────┴───────────┴───────────┴───────────┴───────────┴
hole  H7      ███████████████████████████████
shaft p6      │                              ████████████████████

hole  H7      50.000 to 50.025 mm   (0 / +25 µm)
shaft p6      50.026 to 50.042 mm   (+26 / +42 µm)
interference  1 to 42 µm tight, on diameter
`,
		"3.3750in H7/k6": `
3.3750in H7/k6   (ISO 286-1, sizes over 80 up to 120 mm)

0.0001 in     0      +2      +4      +6      +8      +10     +12     +14
              ┼───────┴───────┴───────┴───────┴───────┴───────┴───────┴
hole  H7      ████████████████████████████████████████████████████████
shaft k6      │    ███████████████████████████████████

hole  H7      3.37500 to 3.37637 in   (0 / +0.00138 in)
shaft k6      3.37512 to 3.37598 in   (+0.00012 / +0.00098 in)
transition    0.00098 in tight to 0.00126 in loose, on diameter
`,
		"30 js6": `
30 js6   (ISO 286-1, sizes over 18 up to 30 mm)

µm           −8     −6     −4     −2      0     +2     +4     +6     +8
              ┴──────┴──────┴──────┴──────┼──────┴──────┴──────┴──────┴
shaft js6          ███████████████████████████████████████████████

shaft js6     29.9935 to 30.0065 mm   (−6.5 / +6.5 µm)
`,
	} {
		f, err := standard.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := "\n" + Sketch(f); got != want {
			t.Errorf("%s:%s\nwant%s", text, got, want)
		}
	}
}

func TestDocument(t *testing.T) {
	f, err := standard.Parse("50 H7/p6")
	if err != nil {
		t.Fatal(err)
	}
	compact := func(f standard.Fit) string {
		data, err := WriteJSON(f)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := json.Compact(&b, data); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	want := `{"fit":"50 H7/p6","standard":"ISO 286","means":"locational interference: rigid and in line, without great pressure on the bore","nominal_mm":50,"hole":{"upper_um":25,"lower_um":0},"shaft":{"upper_um":42,"lower_um":26},"clearance_um":{"min":-42,"max":-1}}`
	if j := compact(f); j != want {
		t.Error(j)
	}
	f, _ = standard.Parse("30 js6")
	if j := compact(f); j != `{"fit":"30 js6","standard":"ISO 286","nominal_mm":30,"shaft":{"upper_um":6.5,"lower_um":-6.5}}` {
		t.Error(j)
	}
}

// However long its figures, a drawing keeps to 80 columns.
func FuzzSketch(f *testing.F) {
	for _, s := range []string{"50 H7/p6", `2" H7`, "Ø30 g6", "1 h01", "3150 H18/c13", "0.0001in H7", "19.69 LC11", "0.05 LT1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := standard.Parse(s)
		if err != nil {
			return
		}
		for _, line := range strings.Split(Sketch(r), "\n") {
			if utf8.RuneCountInString(line) > 80 {
				t.Errorf("%q: %d columns: %s", s, utf8.RuneCountInString(line), line)
			}
		}
	})
}

// Every class of ANSI B4.1 and every pair of ISO 286 says what it is for, and says nothing
// that its limits contradict.
func TestEveryFitSaysWhatItIsFor(t *testing.T) {
	said := map[string]string{}
	for _, text := range []string{"2 RC1", "2 RC9", "2 LC1", "2 LC11", "2 LT1", "2 LT6", "2 LN1", "2 LN3", "2 FN1", "2 FN5",
		"50 H7/g6", "50 G7/h6", "50 H7/k6", "50 K7/h6", "50 H7/p6", "50 P7/h6", "50 H7/s6", "50 H11/c11", "50 F7/g6", "50 P7/p6", "2 H7/p6", "500 H7/n6", "50 H11/u6", "50 H7/za8"} {
		f, err := standard.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := f.Clearance()
		m := meaning(f)
		tight := strings.Contains(m, "drive") || strings.Contains(m, "force") || strings.HasPrefix(m, "interference") || strings.Contains(m, "locational interference")
		runs := strings.Contains(m, "running") || strings.Contains(m, "sliding:") || strings.Contains(m, "clearance")
		if m == "" || tight && c.Most > 0 && f.Class == "" || tight && c.Least > 0 || runs && c.Least < 0 {
			t.Errorf("%s, %v to %v: %q", text, c.Least, c.Most, m)
		}
		said[text] = m
	}
	for a, b := range map[string]string{"50 H7/g6": "50 G7/h6", "50 H7/k6": "50 K7/h6", "50 H7/p6": "50 P7/h6"} { // the same fit by hole and by shaft
		if said[a] != said[b] {
			t.Errorf("%s is %q and %s is %q", a, said[a], b, said[b])
		}
	}
}
