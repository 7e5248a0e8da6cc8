package report

import (
	"borewright/process/revision"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"borewright/process/qty"
	"pgregory.net/rapid"
)

// A figure that changed by less than the usual decimals must not print as
// "3.1496 -> 3.1496".
func TestFiguresToldApart(t *testing.T) {
	for _, tc := range []struct {
		a, b revision.Figure
		want string
	}{
		{revision.Figure{Is: revision.FigureSize, Length: 80_000_000}, revision.Figure{Is: revision.FigureSize, Length: 80_000_400}, "Ø80.0000 mm -> Ø80.0004 mm"},
		{revision.Figure{Is: revision.FigureFeed, Length: 100_000}, revision.Figure{Is: revision.FigureFeed, Length: 120_000}, "0.100 mm/rev -> 0.120 mm/rev"},
		{revision.Figure{Is: revision.FigureRa, Length: 1600}, revision.Figure{Is: revision.FigureRa, Length: 1603}, "1.6 µm -> 1.603 µm"},
		{revision.Figure{}, revision.Figure{Is: revision.FigureNumber, Number: 90, Text: "°"}, "none -> 90°"},
		{revision.Figure{Is: revision.FigureNumber, Number: 1.1e-5, Text: "1/K"}, revision.Figure{Is: revision.FigureNumber, Number: 1.2e-5, Text: "1/K"}, "1.1e-05 1/K -> 1.2e-05 1/K"},
	} {
		u := qty.Metric
		if got := figure(u, tc.a, tc.b) + " -> " + figure(u, tc.b, tc.a); got != tc.want {
			t.Errorf("got %s, want %s", got, tc.want)
		}
	}
}

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
