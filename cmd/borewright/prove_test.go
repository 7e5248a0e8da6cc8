package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"borewright/cmd/jobfile"
	"borewright/post/verify"
	"borewright/process/plan"
)

// TestProveReports holds what prove prints of our programs, and of one that
// came back spoiled, to golden/prove. Nothing is wider than 80 columns.
func TestProveReports(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	const winch = "lock-winch/job.toml"
	for _, c := range []struct {
		golden, program, job string
		edit                 []string // old and new, all of them
		flags                []string
		exit                 int
	}{
		{"winch-housing.txt", "lock-winch/WG-204-C-idler-1.nc", winch, nil, nil, exitDone},
		{"winch-sleeve.json", "lock-winch/WG-204-C-idler-2.nc", winch, nil, []string{"--json"}, exitDone},
		{"gear-case-web.txt", "gear-case/PM-31-A-middle-web-1-finish.nc", "gear-case/job.toml", nil, nil, exitDone},
		{"winch-spoiled.txt", "lock-winch/WG-204-C-idler-1.nc", winch, []string{
			"N270 G1 Z-16.9373", "N270 G0 Z-16.9573", // a rapid to the blind bottom
			"N350 M0\n", "", // the stop before pass 3
			"N410 G0 Z-14.3750", "N410 G0 Z14.3750", // a sign
			" M3\n", "0 M3\n",
			"N890 G1 Z-16.9373 F0.0050", "N890 G1 Z-16.9373 F0.5000",
			"N930 G0 X-0.0390", "N930 G0 X0.0390", // toward the tip
		}, nil, exitNo},
		{"winch-spoiled.html", "lock-winch/WG-204-C-idler-1.nc", winch, []string{
			"N270 G1 Z-16.9373", "N270 G0 Z-16.9573", "N350 M0\n", "", "N410 G0 Z-14.3750", "N410 G0 Z14.3750", " M3\n", "0 M3\n",
			"N890 G1 Z-16.9373 F0.0050", "N890 G1 Z-16.9373 F0.5000", "N930 G0 X-0.0390", "N930 G0 X0.0390", "N20 G54", "N20 G54\nT1",
		}, []string{"--html"}, exitNo},
		{"gear-case-web.html", "gear-case/PM-31-A-middle-web-1-finish.nc", "gear-case/job.toml", nil, []string{"--html"}, exitDone},
		{"winch-spoiled.json", "lock-winch/WG-204-C-idler-2.nc", winch, []string{"N120 G4 P0", "N120 G4 P30"}, []string{"--json"}, exitNo},
	} {
		data, err := os.ReadFile(filepath.Join(root, "golden", c.program))
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		for i := 0; i < len(c.edit); i += 2 {
			if !strings.Contains(text, c.edit[i]) {
				t.Fatalf("%s: the program has no %q any more", c.golden, c.edit[i])
			}
			text = strings.ReplaceAll(text, c.edit[i], c.edit[i+1])
		}
		if err := os.WriteFile("floor.nc", []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		if code := run(append([]string{"prove", "floor.nc", filepath.Join(root, "testdata", "jobs", c.job)}, c.flags...), strings.NewReader(""), &out, &errs); code != c.exit || errs.Len() > 0 {
			t.Errorf("%s: exit %d, want %d\n%s", c.golden, code, c.exit, errs.String())
		}
		got := out.String()
		for line := range strings.Lines(got) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > 80 && strings.HasSuffix(c.golden, ".txt") {
				t.Errorf("%s: a line of %d: %s", c.golden, n, line)
			}
		}
		name := filepath.Join(root, "golden", "prove", c.golden)
		if os.Getenv("UPDATE_GOLDEN") != "" {
			if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s: golden (-) and got (+) differ; UPDATE_GOLDEN=1 rewrites:\n%s", c.golden, diff)
		}
	}
}

// A file that is named as another visit's program is said to be, and not proven.
func TestProveSaysAnotherVisitsName(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(root, "golden", "lock-winch", "WG-204-C-idler-1.nc"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for name, exit := range map[string]int{"WG-204-C-idler-1.nc": exitDone, "other.nc": exitDone, "WG-204-C-idler-2.nc": exitNo, "wg-204-c-IDLER-2.NC": exitNo} {
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		code := run([]string{"prove", name, filepath.Join(root, "testdata", "jobs", "lock-winch", "job.toml")}, strings.NewReader(""), &out, &errs)
		if code != exit || (exit == exitNo) != strings.Contains(strings.Join(strings.Fields(out.String()), " "), "name says idler, visit 2, and the program is idler, visit 1") {
			t.Errorf("%s: exit %d\n%.600s%s", name, code, out.String(), errs.String())
		}
		os.Remove(name)
	}
}

// What prove --html draws is what the program says, to scale: feeds and stops by the
// program's own words, findings by the report's, all where the tip stands by its words, places by the ruler under them.
func TestProofIsDrawnToScale(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	job := filepath.Join(root, "testdata", "jobs", "lock-winch", "job.toml")
	good, err := os.ReadFile(filepath.Join(root, "golden", "lock-winch", "WG-204-C-idler-1.nc"))
	if err != nil {
		t.Fatal(err)
	}
	texts := regexp.MustCompile(`<text x="([-0-9.]+)" y="([-0-9.]+)" font-size="([0-9.]+)"([^>]*)>([^<]*)</text>`)
	thick := regexp.MustCompile(`<path d="M([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)" stroke-width="0.8"`)
	feed := regexp.MustCompile(`(?m)^N\d+ G1 Z(-[0-9.]+)`)
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, edit := range [][2]string{{"", ""}, {"G1 Z-16.9373 F0.0100", "G1 Z-15.5000 F0.0100"}, {"N20 G54", "N20 G54\nG91\nG90"},
		{"G1 Z-16.9373 F0.0120", "G1 Z-16.9373 F0.1200"}, {"N320 G0 Z2.0000", "N320 G0 Z2.0000 S99"}} {
		program := strings.Replace(string(good), edit[0], edit[1], 1)
		if err := os.WriteFile("floor.nc", []byte(program), 0o644); err != nil {
			t.Fatal(err)
		}
		var out, doc, errs bytes.Buffer
		run([]string{"prove", "--html", "floor.nc", job}, strings.NewReader(""), &out, &errs)
		run([]string{"prove", "--json", "floor.nc", job}, strings.NewReader(""), &doc, &errs)
		var report struct{ Findings []struct{ Line int } }
		if err := json.Unmarshal(doc.Bytes(), &report); err != nil || errs.Len() > 0 {
			t.Fatal(err, errs.String())
		}
		svg := out.String()
		svg = svg[strings.Index(svg, "<svg"):strings.LastIndex(svg, "</svg>")]
		var zero, ten float64 // of the ruler, in inches
		squares, discs := map[string]bool{}, map[string]bool{}
		for _, m := range texts.FindAllStringSubmatch(svg, -1) {
			x, size, how, text := number(m[1]), m[3], m[4], m[5]
			switch {
			case strings.HasPrefix(text, "line "):
				discs[text] = true
			case size == "2.19": // numbers in squares, and in discs
				squares[text] = squares[text] || !strings.Contains(how, "bold")
			case text == "0":
				zero = x
			case text == "10":
				ten = x
			}
		}
		if !(ten > zero) {
			t.Fatalf("%q: no ruler", edit)
		}
		stops := strings.Count(program, " M0\n")
		for k := 1; k <= stops; k++ {
			if !squares[fmt.Sprint(k)] {
				t.Errorf("%q: stop %d is not drawn", edit, k)
			}
		}
		for _, f := range report.Findings {
			if !discs[fmt.Sprintf("line %d", f.Line)] {
				t.Errorf("%q: the finding of line %d is not drawn", edit, f.Line)
			}
		}
		if len(report.Findings) == 0 && len(discs) > 0 {
			t.Errorf("%q: findings are drawn where there are none: %v", edit, discs)
		}
		feeds, drawn := feed.FindAllStringSubmatch(program, -1), thick.FindAllStringSubmatch(svg, -1)
		if drawn = drawn[:len(drawn)-1]; len(drawn) != len(feeds) { // the last is the legend's
			t.Fatalf("%q: %d feeds drawn of %d", edit, len(drawn), len(feeds))
		}
		for i, m := range drawn {
			depth := func(s string) float64 { return 10 * (number(s) - zero) / (ten - zero) }
			if from, to := depth(m[1]), depth(m[3]); math.Abs(from-14.375) > 0.01 || math.Abs(to+number(feeds[i][1])) > 0.01 {
				t.Errorf("%q: feed %d is drawn from %.4f to %.4f in, the program ends it at %s", edit, i+1, from, to, feeds[i][1])
			}
		}
		for _, wrong := range drawnElsewhere(t, svg, program, zero, (ten-zero)/10) {
			t.Errorf("%q: %s", edit, wrong)
		}
	}
}

// drawnElsewhere goes through a program of the winch by its words and says which rapids, stops
// and findings are not drawn where its tip stands, and whether the bar, 2.25 in by 17.5 in, is
// to one scale, mm for an inch, along and across. zero is where depth 0 stands on paper.
func drawnElsewhere(t *testing.T, svg, program string, zero, scale float64) (wrong []string) {
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	said := func(format string, a ...any) { wrong = append(wrong, fmt.Sprintf(format, a...)) }
	path := `<path d="M([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)" stroke-width=`
	dashed := regexp.MustCompile(path+`"0.3" stroke-dasharray="1.6 0.9"`).FindAllStringSubmatch(svg, -1)
	dashed = dashed[:len(dashed)-1] // the last is the legend's
	feeds := regexp.MustCompile(path+`"0.8"`).FindAllStringSubmatch(svg, -1)
	pointed := regexp.MustCompile(path+`"0.18"`).FindAllStringSubmatch(svg, -1)
	named := regexp.MustCompile(`>line (\d+)</text>`).FindAllStringSubmatch(svg, -1)
	squares := regexp.MustCompile(`<text x="([-0-9.]+)" y="[-0-9.]+" font-size="2.19"[^>]*text-anchor="middle">(\d+)</text>`).FindAllStringSubmatch(svg, -1)
	word := regexp.MustCompile(`^N\d+ G([01]) Z(-?[0-9.]+)`)
	rapids, cuts, at, known := 0, 0, 0.0, false
	tip, heights := []float64{-2}, map[int]string{} // after each line; how far down the paper its move is drawn
	for i, line := range strings.Split(program, "\n") {
		if m := word.FindStringSubmatch(line); m != nil {
			to := -number(m[2])
			switch {
			case m[1] == "1":
				heights[i+1] = feeds[cuts][2]
				cuts++
			case known && to != at:
				if rapids < len(dashed) {
					heights[i+1] = dashed[rapids][2]
					if from, end := (number(dashed[rapids][1])-zero)/scale, (number(dashed[rapids][3])-zero)/scale; math.Abs(from-at) > 0.01 || math.Abs(end-to) > 0.01 {
						said("the rapid of line %d is drawn from %.3f to %.3f in, it goes from %.3f to %.3f", i+1, from, end, at, to)
					}
				}
				rapids++
			}
			at, known = to, true
		} else if !known {
			at = -2 // nowhere yet: the clear plane
		}
		tip = append(tip, at)
	}
	for _, m := range regexp.MustCompile(path+`"(0\.8|0\.3)"( stroke-dasharray="[^"]*")?/>`).FindAllStringSubmatch(svg, -1) { // those of the legend too
		x0, x1, y, feeds := number(m[1]), number(m[3]), number(m[2]), m[5] == "0.8"
		if m[2] != m[4] || math.Abs(x1-x0) <= 3 {
			continue // a step from row to row, or too short for an arrow
		}
		if feeds == (m[6] != "") {
			said("%s: a feed is one line, a rapid dashed", m[0])
		}
		pointed := false
		for _, a := range regexp.MustCompile(`<path d="M([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)Z" fill="(#[0-9a-f]+)" stroke-width="0.25"`).FindAllStringSubmatch(svg, -1) {
			point, back := number(a[1]), number(a[3])
			if math.Abs(number(a[2])-y) < 0.02 && math.Abs((point+back)/2-(x0+x1)/2) < 0.02 && a[3] == a[5] && (point > back) == (x1 > x0) && (a[7] == "#000000") == feeds {
				pointed = true
			}
		}
		if !pointed {
			said("the move from %.2f to %.2f at %.2f down the paper has no arrow in its middle that points its way, black for a feed and white for a rapid", x0, x1, y)
		}
	}
	if rapids != len(dashed) {
		said("%d rapids are drawn of %d", len(dashed), rapids)
	}
	if len(pointed) != len(named) {
		said("%d findings have a line to their place, of %d", len(pointed), len(named))
		return wrong
	}
	for i, m := range pointed {
		n := int(number(named[i][1]))
		if x := (number(m[1]) - zero) / scale; math.Abs(x-tip[n]) > 0.01 || heights[n] != "" && heights[n] != m[2] {
			said("the finding of line %d is drawn at depth %.3f in, at %s down the paper; the tip stands at %.3f in, its move at %q", n, x, m[2], tip[n], heights[n])
		}
	}
	for _, m := range squares[:len(squares)-1] { // every stop is made at the clear plane; those at one place stand side by side
		if side := (zero - 2*scale - 2.4 - number(m[1])) / 3.8; side < -0.01 || math.Abs(side-math.Round(side)) > 0.01 {
			said("stop %s is drawn %.2f mm off its place", m[2], 3.8*side)
		}
	}
	toScale := false
	for _, m := range regexp.MustCompile(`<path d="M([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)L[^"]*Z"`).FindAllStringSubmatch(svg, -1) {
		long, thick := number(m[3])-number(m[1]), number(m[6])-number(m[2])
		toScale = toScale || math.Abs(long-17.5*scale) < 0.05 && math.Abs(thick-2.25*scale) < 0.05
	}
	if !toScale {
		said("no bar of 2.25 in by 17.5 in at %.3f mm to the inch", scale)
	}
	return wrong
}

// An edit that does no harm is proven, and said to be one; sheet, program, plan.json
// and record speak of the same sums.
func TestSums(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(root, "testdata", "jobs", "lock-winch", "job.toml")
	t.Chdir(t.TempDir())
	said := func(exit int, args ...string) string {
		var out, errs bytes.Buffer
		if code := run(args, strings.NewReader(""), &out, &errs); code != exit {
			t.Fatalf("%v: exit %d: %s%s", args, code, out.String(), errs.String())
		}
		return strings.Join(strings.Fields(out.String()), " ")
	}
	said(exitDone, "make", job, "--no-pdf", "-o", "out")
	read := func(name string) string {
		data, err := os.ReadFile(filepath.Join("out", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	program, sheet := read("WG-204-C-idler-1.nc"), strings.Join(strings.Fields(read("sheet.txt")), " ")
	sum := regexp.MustCompile(`\(CHECK SUM (.{9})\)`).FindStringSubmatch(program)[1]
	line := regexp.MustCompile(`\n *"check_sum": "(.{9})",`)
	planned := line.FindStringSubmatch(read("plan.json"))[1]
	// A plan's sum is that of its plan.json less the line that carries it and the one that
	// says what made it.
	made := regexp.MustCompile(`\n *"made_by": ".*",`)
	n := crc32.ChecksumIEEE([]byte(made.ReplaceAllString(line.ReplaceAllString(read("plan.json"), ""), "")))
	if want := fmt.Sprintf("%04X-%04X", n>>16, n&0xffff); planned != want {
		t.Errorf("plan.json carries %s, it is %s", planned, want)
	}
	record := said(exitNo, "record", job)
	for _, want := range []string{"WG-204-C-idler-1.nc (check sum " + sum + ")", "(check sum " + planned + ", of plan.json)"} {
		ofPlan := strings.HasPrefix(want, "(") // no program has cut anything yet
		if !strings.Contains(sheet, want) || strings.Contains(record, want) != ofPlan {
			t.Errorf("sheet or record do not say %q:\n%.1500s\n%.1500s", want, sheet, record)
		}
	}
	for i, c := range []struct{ old, new, says string }{
		{"", "", "Check sum of this file " + sum + ", as it was written. Check sum of the plan " + planned + "."},
		{"\n", "\r\n", "Check sum of this file " + sum + ", as it was written."},
		{"N40 M0", "N40 M0\nM1", "Check sum of the program as written is " + sum + "; this file's is "},
		{"(CHECK SUM " + sum + ")\n", "", "Check sum of this file " + sum + "; it states none."},
	} {
		text := program
		if c.old != "" {
			text = strings.ReplaceAll(program, c.old, c.new)
		}
		if err := os.WriteFile("floor.nc", []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		out := said(exitDone, "prove", "floor.nc", job)
		if !strings.Contains(out, c.says) || strings.Contains(out, "edited after it was written") != (i == 2) {
			t.Errorf("%q: %.600s", c.new, out)
		}
	}
}

// Two jobs never share a folder, whatever their names make of it.
func TestMakeKeepsJobsApart(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	job, err := os.ReadFile(filepath.Join(root, "testdata", "jobs", "lock-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	number := regexp.MustCompile(`(?m)^number( *)=.*$`)
	revision := regexp.MustCompile(`(?m)^revision( *)=.*$`)
	for i, c := range []struct {
		number, revision string
		exit             int
	}{
		{"A-B", "C", exitDone}, {"A", "B-C", exitWrong}, {"A-B", "C", exitDone},
		{"A/B", "C", exitWrong}, {"A-B", "/C", exitWrong}, {"A B", "C", exitWrong}, // other signs, the same folder
		{"Å-B", "C", exitDone}, // another letter, a folder of its own
	} {
		text := revision.ReplaceAllString(number.ReplaceAllString(string(job), `number = "`+c.number+`"`), `revision = "`+c.revision+`"`)
		if err := os.WriteFile("job.toml", []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		if code := run([]string{"make", "job.toml", "--no-pdf"}, strings.NewReader(""), &out, &errs); code != c.exit || (c.exit == exitWrong) != strings.Contains(errs.String(), `holds the plan of job "A-B", revision "C"`) {
			t.Errorf("%d: exit %d: %s", i, code, errs.String())
		}
	}
}

// BenchmarkProve is the proof of an example's program against its plan; the
// planning, which prove does as well, is counted by BenchmarkProveCommand.
func BenchmarkProve(b *testing.B) {
	b.Chdir("../..")
	job, err := jobfile.Load("testdata/jobs/lock-winch/job.toml")
	if err != nil {
		b.Fatal(err)
	}
	p := plan.Make(job)
	text, err := jobfile.ReadProgram("golden/lock-winch/WG-204-C-idler-1.nc")
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if r := verify.Check(text, "", p, 0, 0); !r.Proven {
			b.Fatal(r.Findings)
		}
	}
}

// BenchmarkProveCommand is prove as a user runs it, without the start of a
// process: load, plan, identify, replay, print.
func BenchmarkProveCommand(b *testing.B) {
	b.Chdir("../..")
	for b.Loop() {
		var out, errs bytes.Buffer
		args := []string{"prove", "golden/lock-winch/WG-204-C-idler-1.nc", "testdata/jobs/lock-winch/job.toml"}
		if code := run(args, strings.NewReader(""), &out, &errs); code != exitDone {
			b.Fatal(errs.String())
		}
	}
}
