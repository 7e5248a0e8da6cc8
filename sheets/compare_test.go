package sheets

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/revision"
)

func TestPassesGolden(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"passes-winch.txt": winch(), "passes-pump.txt": pump(), "passes-stopped.txt": stopped()} {
		var b bytes.Buffer
		if err := WritePasses(&b, p); err != nil {
			t.Fatal(err)
		}
		golden(t, name, b.Bytes())
	}
}

// The sheet is the same to the byte every time, and building it changes
// nothing in the plan.
func TestDeterministic(t *testing.T) {
	p := winch()
	var first, second bytes.Buffer
	for _, w := range []*bytes.Buffer{&first, &second} {
		if err := Build(p).WriteText(w); err != nil {
			t.Fatal(err)
		}
	}
	if first.String() != second.String() {
		t.Error("two sheets of one plan differ")
	}
	if c := revision.Compare(p, winch()); len(c) > 0 {
		t.Errorf("building a sheet changed its plan: %v", c)
	}
}

func revisionOf(name string, p *plan.Plan, programs ...File) Revision {
	var b bytes.Buffer
	var names []string
	for _, f := range programs {
		names = append(names, f.Name)
	}
	_ = Build(p, WithPrograms(names...)).WriteText(&b)
	return Revision{Name: name, Plan: p, Programs: programs, Sheet: b.Bytes()}
}

func TestCompareGolden(t *testing.T) {
	before := winch()
	before.Job.Revision = "B"
	before.Job.Sleeve.Fit = "H7/s6"
	before.Job.Bar.Steps[1].Length = inch(16.5)
	v := &before.Bores[0].Visits[1]
	v.Passes = slices.Delete(v.Passes, 1, 2) // no spring pass yet
	v.Passes[0].Hold = nil
	v.Passes[1].N = 6
	v.Passes[1].Setting = inchD(3.1512)
	v.Passes[1].Feed = inch(0.006)
	v.Passes[1].LimitedBy = "the feed that was asked for"
	before.Job.Bores[0].Ra = qty.FromMicroInches(125)
	before.Minutes = 133

	old, now := pump(), pump()
	old.Job.Revision = "1"
	old.Bores[0].Visits[0].Passes[2].Speed = 280
	front := "%\nN10 G21\nN20 G90 G95\nN30 S280 M3\nN40 G0 Z2.\nN50 G1 Z-45. F0.1\nN60 M19\nN70 G0 X-0.3\nN80 G0 Z2.\nN90 M30\n%\n"
	rear := "%\nN10 G21\nN90 M30\n%\n"

	for _, tc := range []struct {
		file     string
		old, new Revision
	}{
		{"compare-winch.txt", revisionOf("B", before), revisionOf("C", winch())},
		{"compare-pump.txt", revisionOf("1", old, File{Name: "P-17-1-front.ngc", Data: []byte(front)}, File{Name: "P-17-rear.ngc", Data: []byte(rear)}),
			revisionOf("2", now, File{Name: "P-17-2-front.ngc", Data: []byte(strings.Replace(front, "S280", "S320", 1))}, File{Name: "P-17-rear.ngc", Data: []byte(rear)})},
		{"compare-stopped.txt", Revision{Name: "C", Plan: winch()}, Revision{Name: "D", Plan: stopped()}},
	} {
		var b bytes.Buffer
		differ, err := WriteCompare(&b, tc.old, tc.new)
		if err != nil || !differ {
			t.Fatal(tc.file, differ, err)
		}
		golden(t, tc.file, b.Bytes())
	}
}

func TestCompareSame(t *testing.T) {
	var b bytes.Buffer
	r := revisionOf("C", winch())
	differ, err := WriteCompare(&b, r, r)
	if differ || err != nil || !strings.Contains(b.String(), "No difference") {
		t.Errorf("%v %v\n%s", differ, err, b.String())
	}
	// A word in the sheet alone is a difference too.
	other := r
	other.Sheet = append(slices.Clone(r.Sheet), "x\n"...)
	if differ, _ := WriteCompare(&b, r, other); !differ {
		t.Error("another sheet is no difference?")
	}
	other = r
	other.Programs = []File{{Name: "empty.ngc", Data: nil}}
	if differ, _ := WriteCompare(&b, r, other); !differ {
		t.Error("a program more is no difference?")
	}
}

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
