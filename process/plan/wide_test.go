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

// TestWideLimitsAllowMoreSpring: 0.0008 in of spring takes a second cut at the same setting where the limits
// are 0.0045 in apart. Where the job states no spring a quarter of them is allowed (common practice, no
// source), and the cut is not made; what is stated is kept. By hand: IT9 of 8.24 in (209.3 mm) is 115 µm
// (ISO 286-1 table 1), a quarter of it 28.75 µm.
func TestWideLimitsAllowMoreSpring(t *testing.T) {
	left, stated := Attempt(load(t, wideJob), nil), Attempt(load(t, strings.Replace(wideJob, "[cutter]", "[limits]\nspring_finish = 0.0008\n[cutter]", 1)), nil)
	if !left.Feasible || !stated.Feasible {
		t.Fatal(left.Reasons, stated.Reasons)
	}
	last := func(p *Plan) schedule.Pass { v := p.Bores[0].Visits[0]; return v.Passes[len(v.Passes)-1] }
	if last(left).Kind == schedule.Spring || last(stated).Kind != schedule.Spring || left.Minutes > stated.Minutes-20 {
		t.Errorf("left out: %v, %.0f min; stated: %v, %.0f min", last(left).Kind, left.Minutes, last(stated).Kind, stated.Minutes)
	}
	if s := last(left).Spring; s < qty.FromMM(0.0203) || s > qty.FromMM(0.02875) {
		t.Errorf("the finish springs %v mm", s.MM())
	}
	if s := last(stated).Spring; s > qty.FromInches(0.0008)+qty.Micrometre/10 {
		t.Errorf("stated, it springs %v mm", s.MM())
	}
	for _, f := range last(left).Limits {
		if f.What.Kind == schedule.LimitSpring && f.Used > 1 {
			t.Errorf("spring used %.3f", f.Used)
		}
	}
}
