package plan_test

import (
	"testing"

	. "borewright/process/plan"
	"borewright/process/schedule"
)

// TestOldWallIsNotCorrectedFor: a semi-finish that is the first cut in a bore worn to one side does not reach all
// of the old wall. What is gauged then is wider than what it cut, as is expected, and the finish is not set by it:
// measuring never makes its size less sure.
func TestOldWallIsNotCorrectedFor(t *testing.T) {
	p := Make(load(t, `units = "mm"
number = "T-23"
revision = "A"
title = "worn to one side"
machine = "hbm-4in"
material = "steel-1045"
station = [ { name = "seat", from = 58.825, to = 86.352, diameter = 321.789, swept = true } ]
[[bore]]
station = "seat"
repair = "sleeve"
finish = { diameter = 293.024, fit = "H10" }
ra = 1.6
wear = [ { depth = 72.588, at = [ 0, 90, 180, 270 ], radius = [ 160.894, 160.897, 160.998, 160.897 ] } ]
[bar]
steps = [ { diameter = 28.575, length = 116.832 } ]
feed_by = "table"
[cutter]
material = "carbide-coated"
nose_radius = 0.4
lead = 75
set_by = "over_bar"
least = 17.145
most = 439.536
[sleeve]
material = "steel-1026"
outside = 322.0
hold = "press"
fit = "H7/r6"
`))
	v := p.Bores[0].Visits[0]
	if len(v.Passes) == 0 || v.Passes[0].Kind != schedule.SemiFinish || v.Passes[0].Setting >= v.StartMost {
		t.Fatal("the semi-finish reaches all of the old wall")
	}
	if b := v.Budget; b.Chance < b.Blind-b.Error-b.BlindError {
		t.Errorf("%.4f in 1 land measured, %.4f unmeasured", b.Chance, b.Blind)
	}
}
