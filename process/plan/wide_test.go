package plan_test

import (
	"strings"
	"testing"

	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// wideJob is a bore of H9 behind a cover, bored with a bar that springs by more than 0.0008 in.
const wideJob = `units = "in"
number = "T-21"
revision = "A"
title = "Test of wide limits"
machine = "hbm-4in"
material = "stainless-304"
station = [
  { name = "cover", from = 0, to = 1, diameter = 8.84, swept = true },
  { name = "seat", from = 10.008, to = 16.2092, diameter = 7.74, wall = 1.9 },
]
[[bore]]
station = "seat"
repair = "rebore"
finish = { diameter = 8.24, fit = "H9" }
ra = 125
wear = [
  { depth = 11.2482, at = [0, 90, 180, 270], radius = [3.87, 3.8931, 3.9084, 3.8854] },
  { depth = 14.969, at = [0, 90, 180, 270], radius = [3.87, 3.8931, 3.9084, 3.8854] },
]
[bar]
steps = [ { diameter = 4, length = 18 } ]
[cutter]
material = "hss"
nose_radius = 0.031
lead = 75
set_by = "increment"
most = 9.476
[[sweep]]
station = "cover"
depth = 0.1
at = [0, 90, 180, 270]
dial = [0, 0.0004, 0.001, 0.0006]
`

// halfJob is a bore of H10 with so little stock that two cuts must do: a steel bar ten diameters out
// springs by more than a quarter of the limits, and by less than half of them.
const halfJob = `units = "mm"
number = "T-22"
revision = "A"
title = "Test of half the limits"
machine = "hbm-5in"
material = "steel-1045"
station = [{ name = "a", from = 247.65, to = 342.9, diameter = 63.5 }]
[[bore]]
station = "a"
repair = "rebore"
finish = { diameter = 63.627, fit = "H10" }
ra = 3.1
[bar]
steps = [{ diameter = 38.1, length = 381 }]
[cutter]
material = "hss"
nose_radius = 0.787
set_by = "increment"
least = 57.15
most = 76.327
`

// TestWideLimitsAllowMoreSpring: 0.0008 in of spring takes a second cut at the same setting where the limits
// are 0.0045 in apart. Where the job states no spring half of them is allowed (common practice, no source),
// and the cut is not made; what is stated is kept. By hand, ISO 286-1 table 1: IT9 of 8.24 in (209.3 mm) is
// 115 µm, half of it 57.5 µm; IT10 of 63.6 mm is 120 µm, a quarter of it 30 and half of it 60 µm.
func TestWideLimitsAllowMoreSpring(t *testing.T) {
	for _, c := range []struct {
		job, stated string
		most        qty.Length // as stated
		least, half float64    // mm of spring where nothing is stated
	}{
		{wideJob, "spring_finish = 0.0008", qty.FromInches(0.0008), 0.0203, 0.0575},
		{halfJob, "spring_finish = 0.03", qty.FromMM(0.03), 0.030, 0.060},
	} {
		left, stated := Attempt(load(t, c.job), nil), Attempt(load(t, strings.Replace(c.job, "[cutter]", "[limits]\n"+c.stated+"\n[cutter]", 1)), nil)
		if !left.Feasible || !stated.Feasible {
			t.Fatal(left.Reasons, stated.Reasons)
		}
		last := func(p *Plan) schedule.Pass { v := p.Bores[0].Visits[0]; return v.Passes[len(v.Passes)-1] }
		if last(left).Kind == schedule.Spring || last(stated).Kind != schedule.Spring || left.Minutes > stated.Minutes-20 {
			t.Errorf("left out: %v, %.0f min; %s: %v, %.0f min", last(left).Kind, left.Minutes, c.stated, last(stated).Kind, stated.Minutes)
		}
		if s := last(left).Spring.MM(); s < c.least || s > c.half {
			t.Errorf("the finish springs %v mm", s)
		}
		if high := left.Bores[0].Visits[0].Limits.High; last(left).Setting > high.Plus(qty.Micrometre) {
			t.Errorf("the cutter is set to %v mm, the high limit is %v", last(left).Setting.MM(), high.MM())
		}
		if s := last(stated).Spring; s > c.most+qty.Micrometre/10 {
			t.Errorf("%s: it springs %v mm", c.stated, s.MM())
		}
		for _, f := range last(left).Limits {
			if f.What.Kind == schedule.LimitSpring && f.Used > 1 {
				t.Errorf("spring used %.3f", f.Used)
			}
		}
	}
}
