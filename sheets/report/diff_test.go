package report

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/process/field"
	"borewright/process/field/si"
	"borewright/process/qty"
)

// A figure that changed by less than the usual decimals must not print as
// "3.1496 -> 3.1496".
func TestFiguresToldApart(t *testing.T) {
	for _, tc := range []struct {
		a, b field.Value
		want string
	}{
		{field.FigureOf(qty.Diameter(80_000_000)), field.FigureOf(qty.Diameter(80_000_400)), "Ø80.0000 mm -> Ø80.0004 mm"},
		{field.FigureOf(qty.KindFeed.Of(0.1)), field.FigureOf(qty.KindFeed.Of(0.12)), "0.100 mm/rev -> 0.120 mm/rev"},
		{field.FigureOf(qty.Roughness(1600)), field.FigureOf(qty.Roughness(1603)), "1.6 µm -> 1.603 µm"},
		{field.None(), field.NumberOf(90, "°"), "none -> 90°"},
		{field.NumberOf(1.1e-5, "1/K"), field.NumberOf(1.2e-5, "1/K"), "1.1e-05 1/K -> 1.2e-05 1/K"},
	} {
		u := qty.Metric
		if got := valueIn(u, tc.a, tc.b) + " -> " + valueIn(u, tc.b, tc.a); got != tc.want {
			t.Errorf("got %s, want %s", got, tc.want)
		}
	}
}

// An inch reviewer reads the units of the inch trade, JSON stays SI. By hand: 1 ksi
// = 6.894757 MPa, 1 ft·lb = 1.355818 N·m, 1 lbf = 4.448222 N, 1 hp = 745.6999 W,
// 1 lb/in³ = 27679.90 kg/m³ (NIST SP 811, appendix B), °F = 1.8 °C + 32; 1 µm/N is
// 39.37008 µin on 0.2248089 lbf, and µm/(m·K) over 1.8 is µin/(in·°F).
func TestInchReviewerReadsInches(t *testing.T) {
	for _, tc := range []struct {
		v    float64
		unit string
		want string
	}{
		{205000, "MPa", "29730 ksi"}, {900, "N·m", "663.8 ft·lb"}, {2000, "N", "449.6 lbf"}, {11000, "W", "14.75 hp"},
		{7850, "kg/m³", "0.2836 lb/in³"}, {70, "°C", "158 °F"}, {2, "K", "3.6 °F"}, {0.1, "µm/N", "17.51 µin/lbf"},
		{300, "N/µm", "1713000 lbf/in"}, {12, "µm/m·K", "6.667 µin/(in·°F)"}, {1160, "N/mm²", "1160 N/mm²"}, // kc1.1 is for a chip of 1 mm
	} {
		v := field.NumberOf(tc.v, tc.unit)
		if got := valueIn(qty.Inches, v, field.None()); got != tc.want {
			t.Errorf("%g %s: %s, want %s", tc.v, tc.unit, got, tc.want)
		}
		data, err := si.Write(sideOf(side(qty.Inches, v)), nil)
		var d struct {
			Number float64
			Unit   string
		}
		if err != nil || json.Unmarshal(data, &d) != nil || d.Number != tc.v || d.Unit != tc.unit {
			t.Errorf("%g %s in JSON: %s", tc.v, tc.unit, data)
		}
	}
	a, b := field.NumberOf(205000, "MPa"), field.NumberOf(205001, "MPa")
	if x, y := valueIn(qty.Inches, a, b), valueIn(qty.Inches, b, a); x == y {
		t.Errorf("%s twice", x)
	}
}

// sideOf is one side of a change as a page.
type sideOf func(d *field.Desc)

func (s sideOf) Describe(d *field.Desc) { s(d) }

// Our hunks against GNU diff, byte for byte, on texts whose shortest script is
// unique; and against GNU patch on any texts.
func TestUnifiedAgainstDiff(t *testing.T) {
	bin, err := exec.LookPath("diff")
	if err != nil {
		t.Skip("no diff here")
	}
	var many []string
	for i := range 40 {
		many = append(many, fmt.Sprintf("line %d", i+1))
	}
	join := func(s []string) string { return strings.Join(s, "\n") + "\n" }
	with := func(at map[int]string) string {
		s := slices.Clone(many)
		for i, x := range at {
			s[i] = x
		}
		return join(s)
	}
	for _, tc := range []struct{ why, old, new string }{
		{"one line", with(nil), with(map[int]string{19: "changed"})},
		{"first and last line", with(nil), with(map[int]string{0: "a", 39: "b"})},
		{"six lines between: one hunk", with(nil), with(map[int]string{10: "a", 17: "b"})},
		{"seven lines between: two hunks", with(nil), with(map[int]string{10: "a", 18: "b"})},
		{"from nothing", "", "one\ntwo\n"},
		{"to nothing", "one\n", ""},
		{"no line end at the end", "one\ntwo", "one\nthree"},
		{"a line end added", "one\ntwo", "one\ntwo\n"},
		{"CR LF", "one\r\ntwo\r\n", "one\r\nthree\r\n"},
		{"lines added", with(nil), with(map[int]string{5: "line 6\nx\ny"})},
	} {
		dir := t.TempDir()
		a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
		write(t, a, tc.old)
		write(t, b, tc.new)
		want, _ := exec.Command(bin, "-u", "--label", "a", "--label", "b", a, b).Output()
		if got := unified("a", "b", []byte(tc.old), []byte(tc.new)); got != string(want) {
			t.Errorf("%s:\ngot\n%s\nwant\n%s", tc.why, got, want)
		}
		if got := visible(string(want)); got != string(want) {
			t.Errorf("%s: made visible, it changed:\n%s", tc.why, got)
		}
	}
}

func TestUnifiedAgainstPatch(t *testing.T) {
	bin, err := exec.LookPath("patch")
	if err != nil {
		t.Skip("no patch here")
	}
	dir := t.TempDir()
	text := rapid.Custom(func(t *rapid.T) string {
		s := strings.Join(rapid.SliceOfN(rapid.SampledFrom([]string{"N10", "G1 Z-45. F.1", "", "-- dashes", "+ plus", "ü"}), 0, 30).Draw(t, "lines"), "\n")
		if s != "" && rapid.Bool().Draw(t, "ended") {
			s += "\n"
		}
		return s
	})
	rapid.Check(t, func(rt *rapid.T) {
		old, new := text.Draw(rt, "old"), text.Draw(rt, "new")
		d := unified("a", "b", []byte(old), []byte(new))
		if (d == "") != (old == new) {
			rt.Fatalf("diff %q for %q and %q", d, old, new)
		}
		if d == "" || old == "" || new == "" { // patch creates and deletes files in these cases
			return
		}
		file := filepath.Join(dir, "file")
		write(t, file, old)
		cmd := exec.Command(bin, "--silent", "--fuzz=0", "--posix", file)
		cmd.Stdin = strings.NewReader(d)
		if out, err := cmd.CombinedOutput(); err != nil {
			rt.Fatalf("%v %s\n%s", err, out, d)
		}
		if got, _ := os.ReadFile(file); string(got) != new {
			rt.Fatalf("patched to %q, want %q\n%s", got, new, d)
		}
	})
}

func write(t *testing.T, path, s string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(s), 0o666); err != nil {
		t.Fatal(err)
	}
}

// Texts that are too long to compare say so instead of taking minutes.
func TestUnifiedGuards(t *testing.T) {
	long := []byte(strings.Repeat("x\n", diffLinesMost))
	if d := unified("a", "b", long, append([]byte("y\n"), long...)); !strings.Contains(d, "too long") || strings.Count(d, "\n") != 1 {
		t.Errorf("%.100q", d)
	}
	if d := unified("a", "b", []byte("a\x00"), []byte("b")); !strings.Contains(d, "not text") {
		t.Errorf("%.100q", d)
	}
}

func TestVisible(t *testing.T) {
	if got, want := visible("+a\x1b[31m\x07\u009b\u202e\xff\tb\r\n-\rc\n"), "+a^[[31m^G???\tb\r\n-^Mc\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// All lines different is the slowest case for a diff; it must stay bearable
// at the longest text that is let through.
func BenchmarkUnifiedAllDifferent(b *testing.B) {
	var x, y strings.Builder
	for i := range diffLinesMost / 2 {
		fmt.Fprintf(&x, "N%d X%d.\n", i, i)
		fmt.Fprintf(&y, "N%d Y%d.\n", i, i)
	}
	for b.Loop() {
		unified("a", "b", []byte(x.String()), []byte(y.String()))
	}
}
