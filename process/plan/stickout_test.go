package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
)

// clampedJob is an open bore behind a wall; %s: the wall's diameter, the bar.
const clampedJob = `
units = "mm"
number = "T-7"
revision = "-"
title = "a bar clamped at any length"
machine = "cnc-110mm"
material = "gray-iron-200hb"
station = [
  { name = "wall", from = 0, to = 40, diameter = %s },
  { name = "far", from = 260, to = 295, diameter = 80 },
]
[[bore]]
station = "far"
repair = "rebore"
finish = { diameter = 81, fit = "H7" }
[bar]
%s
[cutter]
material = "carbide"
nose_radius = 0.8
least = 66
most = 100
`

// clamped reads and plans it.
func clamped(t *testing.T, wall, bar string) *Plan {
	t.Helper()
	job, err := files.Job("job.toml", []byte(fmt.Sprintf(clampedJob, wall, bar)), nil)
	if err != nil {
		t.Fatal(err)
	}
	return Make(job)
}

// hasRoom is whether a plan's bar passes with the room along it that is wanted.
func hasRoom(p *Plan) bool {
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			for _, g := range v.Reach.Gaps {
				if g.Axial && g.Clearance < g.Need.Wanted {
					return false
				}
			}
		}
	}
	return p.Passes()
}

// A bar that can be clamped at any length stands out by the least of whole 5 mm at which it
// reaches with the room wanted: every other length is planned with a bar that is so long. What the
// table says of one alone is the cantilever's L³/3EI (Euler–Bernoulli, any handbook), with E of
// steel 207 GPa, and its minutes are those of that bar.
func TestShortestThatReaches(t *testing.T) {
	p := clamped(t, "95", `steps = [ { diameter = 60, length = 400 } ]
stickout = [252, 420]`)
	if !p.Feasible || len(p.Job.Stickouts) != 4 {
		t.Fatalf("feasible %v, %d stickouts", p.Feasible, len(p.Job.Stickouts))
	}
	got := p.Job.Bar.CutterAt.MM()
	if q := p.Job.Bar.Stickout(); q != p.Job.Bar.CutterAt || len(p.Job.Bar.Steps) != 1 {
		t.Errorf("the bar is %v long, its tip at %v", q, p.Job.Bar.CutterAt)
	}
	lengths := []float64{295, 305, 300, 252, 255, 260, 280, 290, 310}
	for _, l := range lengths[:slow.Rounds(t, "bars of other lengths", len(lengths), 2)] {
		fixed := clamped(t, "95", fmt.Sprintf("steps = [ { diameter = 60, length = %g } ]", l))
		if does := hasRoom(fixed); does != (l >= got) {
			t.Errorf("at %g has room: %v, and %g is chosen", l, does, got)
		}
	}
	i := math.Pi / 64 * math.Pow(60, 4)
	for n, s := range p.Job.Stickouts {
		l := s.ToTip.MM()
		if want := l * l * l / (3 * 207e3 * i) * 1e3; math.Abs(s.Alone/want-1) > 1e-9 {
			t.Errorf("at %g the bar alone gives %g µm/N, by L³/3EI %g", l, s.Alone, want)
		}
		fixed := clamped(t, "95", fmt.Sprintf("steps = [ { diameter = 60, length = %g } ]", l))
		if v := fixed.Bores[0].Visits[0]; fixed.Feasible != s.Feasible || fixed.Minutes != s.Minutes || v.Compliance[1] != s.Give || s.Give <= s.Alone {
			t.Errorf("at %g: %+v; a bar so long takes %g min and gives %g", l, s, fixed.Minutes, v.Compliance[1])
		}
		last := p.Bores[0].Visits[0].Passes
		if spring := 2 * float64(last[len(last)-1].RadialForce) * s.Give / 1e3; math.Abs(s.Spring.MM()-spring) > 0.00051 {
			t.Errorf("at %g the finish springs %v, by its force %g", l, s.Spring.MM(), spring)
		}
		if n > 0 && s.ToTip <= p.Job.Stickouts[n-1].ToTip {
			t.Errorf("row %d is no longer than the one before", n)
		}
	}
}

// The quill is drawn out where the bar then gives less: not where the wall stops it as it stops the
// nose. Drawn out, it is the first of the steps, and the plan is that of a bar which is written so.
func TestQuillDrawnOut(t *testing.T) {
	slow.Test(t, "three choices of a stickout")
	bar := "steps = [ { diameter = 60, length = 400 } ]\nstickout = [200, 420]\nquill_out = 150"
	if p := clamped(t, "95", bar); p.Job.Bar.Drawn != 0 || len(p.Job.Bar.Steps) != 1 {
		t.Errorf("the quill is drawn out %v before a wall that it does not pass", p.Job.Bar.Drawn)
	}
	p := clamped(t, "125", bar)
	if p.Job.Bar.Drawn == 0 || p.Job.QuillOut() != p.Job.Bar.Drawn {
		t.Fatalf("the quill is drawn out %v", p.Job.Bar.Drawn)
	}
	first := p.Job.Stickouts[0]
	for _, s := range p.Job.Stickouts {
		if s.Give < first.Give {
			t.Errorf("drawn out %v the cutter gives %g, as chosen %g", s.Quill, s.Give, first.Give)
		}
	}
	out, l := p.Job.Bar.Drawn.MM(), p.Job.Bar.Steps[1].Length.MM()
	q := clamped(t, "125", fmt.Sprintf("steps = [ { diameter = 110, length = %g }, { diameter = 60, length = %g } ]", out, l))
	if !hasRoom(p) || q.Minutes != p.Minutes || q.Bores[0].Visits[0].Compliance != p.Bores[0].Visits[0].Compliance {
		t.Errorf("%g min with a give of %v; written as steps %g with %v", p.Minutes, p.Bores[0].Visits[0].Compliance, q.Minutes, q.Bores[0].Visits[0].Compliance)
	}
}

// Where no length reaches, the longest is taken and the plan says what stops it.
func TestNoStickoutReaches(t *testing.T) {
	p := clamped(t, "95", "steps = [ { diameter = 60, length = 240 } ]\nstickout = [200, 280]")
	if p.Feasible || p.Job.Bar.CutterAt != 280*qty.Millimetre || len(p.Job.Stickouts) != 1 || p.Job.Stickouts[0].Why.None() {
		t.Errorf("feasible %v at %v: %+v", p.Feasible, p.Job.Bar.CutterAt, p.Job.Stickouts)
	}
}

// A job that says where its bar of the list has its tip has it clamped there.
func TestStatedStickoutIsKept(t *testing.T) {
	list := "units = \"mm\"\n[[bar]]\nname = \"long\"\nsteps = [ { diameter = 90, length = 60 }, { diameter = 60, length = 340 } ]\ncutter_at = 390\nstickout = [250, 420]\n"
	read := func(keys string) (*process.Job, error) {
		text := strings.Replace(fmt.Sprintf(clampedJob, "125", "name = \"long\"\n"+keys), "[[bore]]", "bars = \"rack.toml\"\n[[bore]]", 1)
		return files.Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(list), nil })
	}
	job, err := read("cutter_at = 350")
	if err != nil {
		t.Fatal(err)
	}
	p := Make(job)
	if b := p.Job.Bar; !p.Feasible || p.Job.Stickouts != nil || b.CutterAt != 350*qty.Millimetre || b.Stickout() != 360*qty.Millimetre || b.Steps[0].Length != 60*qty.Millimetre {
		t.Errorf("feasible %v: %+v, %v", p.Feasible, b, p.Job.Stickouts)
	}
	if _, err := read("cutter_at = 200"); err == nil || !strings.Contains(err.Error(), "from 240 mm to 410 mm") {
		t.Errorf("a tip at 200: %v", err)
	}
	if job, err = read(""); err != nil {
		t.Fatal(err)
	}
	if b := Make(job).Job.Bar; b.Stickout()-b.CutterAt != 10*qty.Millimetre || b.CutterAt >= 350*qty.Millimetre {
		t.Errorf("left open the tip stands at %v of %v", b.CutterAt, b.Stickout())
	}
}
