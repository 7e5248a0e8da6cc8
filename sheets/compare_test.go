package sheets

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/revision"
	"borewright/process/schedule"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/report"
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

// TestNoTableOfNoPasses: a plan that was stopped before any pass was found prints no head of a table.
func TestNoTableOfNoPasses(t *testing.T) {
	p := stopped()
	p.Bores[0].Visits[0].Passes = nil
	var b bytes.Buffer
	if err := WritePasses(&b, p); err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(b.Bytes(), []byte("rev/")) || !bytes.Contains(b.Bytes(), []byte("NOT FEASIBLE: ")) {
		t.Error(b.String())
	}
}

// TestDeepestCutsHaveOneNote: passes that are as deep as is allowed have one note, whatever each would come to
// a little deeper.
func TestDeepestCutsHaveOneNote(t *testing.T) {
	p := winch()
	v := &p.Bores[0].Visits[0]
	v.Passes = slices.Clone(v.Passes)
	for i := range v.Passes[:3] {
		v.Passes[i].LimitedBy = fact.New(schedule.IfDeeper, fact.New(schedule.LimitDepth, fact.Figure(inch(0.0306+float64(i)/5000)), fact.Figure(inch(0.03)), fact.New(schedule.DepthByOverhang, fact.Figure(qty.KindRatio.Of(10)))), fact.Figure(inch(0.001)))
	}
	var b bytes.Buffer
	if err := WritePasses(&b, p); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), "limited by depth of cut: 0.0300 in allowed"); n != 1 {
		t.Errorf("%d notes:\n%s", n, &b)
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

func revisionOf(name string, p *plan.Plan, programs ...report.File) report.Revision {
	var b bytes.Buffer
	var names []string
	for _, f := range programs {
		names = append(names, f.Name)
	}
	_ = Build(p, WithPrograms(names...)).WriteText(&b)
	return report.Revision{Name: name, Plan: p, Programs: programs, Sheet: b.Bytes()}
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
	v.Passes[1].LimitedBy = fact.AsWritten("the feed that was asked for")
	before.Job.Bores[0].Ra = qty.FromMicroInches(125)
	before.Minutes = 133

	old, now := pump(), pump()
	old.Job.Revision = "1"
	old.Bores[0].Visits[0].Passes[2].Speed = 280
	front := "%\nN10 G21\nN20 G90 G95\nN30 S280 M3\nN40 G0 Z2.\nN50 G1 Z-45. F0.1\nN60 M19\nN70 G0 X-0.3\nN80 G0 Z2.\nN90 M30\n%\n"
	rear := "%\nN10 G21\nN90 M30\n%\n"

	for _, tc := range []struct {
		file     string
		old, new report.Revision
	}{
		{"compare-winch.txt", revisionOf("B", before), revisionOf("C", winch())},
		{"compare-pump.txt", revisionOf("1", old, report.File{Name: "P-17-1-front.ngc", Data: []byte(front)}, report.File{Name: "P-17-rear.ngc", Data: []byte(rear)}),
			revisionOf("2", now, report.File{Name: "P-17-2-front.ngc", Data: []byte(strings.Replace(front, "S280", "S320", 1))}, report.File{Name: "P-17-rear.ngc", Data: []byte(rear)})},
		{"compare-stopped.txt", report.Revision{Name: "C", Plan: winch()}, report.Revision{Name: "D", Plan: stopped()}},
	} {
		for file, all := range map[string]bool{tc.file: true, strings.Replace(tc.file, "compare-", "compare-brief-", 1): false} {
			var b bytes.Buffer
			differ, err := report.WriteCompare(&b, tc.old, tc.new, all)
			if err != nil || !differ {
				t.Fatal(file, differ, err)
			}
			golden(t, file, b.Bytes())
		}
	}
}

func TestCompareSame(t *testing.T) {
	var b bytes.Buffer
	r := revisionOf("C", winch())
	differ, err := report.WriteCompare(&b, r, r, true)
	if differ || err != nil || !strings.Contains(b.String(), "No difference") {
		t.Errorf("%v %v\n%s", differ, err, b.String())
	}
	// A word in the sheet alone is a difference too.
	other := r
	other.Sheet = append(slices.Clone(r.Sheet), "x\n"...)
	if differ, _ := report.WriteCompare(&b, r, other, true); !differ {
		t.Error("another sheet is no difference?")
	}
	other = r
	other.Programs = []report.File{{Name: "empty.ngc", Data: nil}}
	if differ, _ := report.WriteCompare(&b, r, other, true); !differ {
		t.Error("a program more is no difference?")
	}
}

// Two setups laid over each other, to scale: what has not moved lies line on line, and
// what has moved stands off by its way over the scale. The bar is made 12 mm longer, so
// that the nose stands 12 mm further out.
func TestSetupsLaidOverEachOther(t *testing.T) {
	moved := winch()
	moved.Job.Bar.Steps[1].Length += qty.FromMM(12)
	moved.Job.Bar.CutterAt += qty.FromMM(12)
	stroke := regexp.MustCompile(`<path d="M([^"]*)" stroke-width="([0-9.]+)"( stroke-dasharray="3 0.75")?/>`)
	lines := func(a, b *plan.Plan) (scale float64, old, new [][]float64) {
		f := figure.Overlay(head.Of(a), head.Of(b)).Items[0]
		if n, err := fmt.Sscanf(f.Caption, "Both setups at depth, scale 1:%g", &scale); n != 1 {
			t.Fatal(f.Caption, err)
		}
		for _, m := range stroke.FindAllStringSubmatch(f.Scene.SVG("x"), -1) {
			var at []float64
			for _, s := range strings.FieldsFunc(m[1], func(r rune) bool { return strings.ContainsRune("LZ ", r) }) {
				x, err := strconv.ParseFloat(s, 64)
				if err != nil {
					t.Fatal(m[1])
				}
				at = append(at, x)
			}
			switch {
			case m[3] != "":
				old = append(old, at)
			case m[2] == "0.5":
				new = append(new, at)
			}
		}
		return scale, old, new
	}
	_, old, new := lines(winch(), winch())
	if key := len(old) - 1; len(old) < 8 || len(new) != len(old) || !reflect.DeepEqual(old[:key], new[:key]) { // the last is the key below
		t.Errorf("a setup over itself: %d and %d lines, not line on line", len(old), len(new))
	}
	scale, old, new := lines(winch(), moved)
	if len(old) != len(new) {
		t.Fatal(len(old), len(new))
	}
	off := 0
	for i := range old[:len(old)-1] {
		for k := range old[i] {
			if d := old[i][k] - new[i][k]; math.Abs(d) > 0.006 {
				off++
				if math.Abs(d-12/scale) > 0.011 {
					t.Errorf("line %d moved by %.2f mm on paper, 12 mm at 1:%g are %.2f", i, d, scale, 12/scale)
				}
			}
		}
	}
	if off < 6 {
		t.Errorf("%d points moved: nose and flange of the bar are more", off)
	}
}
