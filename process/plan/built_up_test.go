package plan_test

import (
	"strings"
	"testing"

	. "borewright/process/plan"
	"borewright/sheets/words"
)

// Carbide that cuts steel at less than 40 m/min (common practice, no source) is told to build metal up, with the slowest
// speed of the passes; high-speed steel is not, nor is iron, nor carbide at a usual speed.
func TestSlowCarbideBuildsUp(t *testing.T) {
	for _, x := range []struct {
		metal, cutter string
		speed         float64 // ft/min
		want          bool
	}{
		{"steel-4140", "carbide", 90, true},
		{"steel-4140", "hss", 60, false}, {"gray-iron-200hb", "carbide", 90, false}, {"steel-4140", "carbide", 240, false},
	} {
		d := drawn{units: "in", bore: 4, bar: 3, out: 3, stock: 0.1, metal: x.metal, cutter: x.cutter, machine: "cnc-110mm", it: 9, ra: 125, nose: 0.031, setBy: "increment", speed: x.speed, limits: "sing = true\n"}
		p := Attempt(load(t, d.text()), nil)
		if !p.Feasible {
			t.Errorf("%+v: %s", x, said(p, p.Reasons[0].What))
			continue
		}
		all := strings.Join(words.In(p.Job.Units).Sentences(p.Cautions), "\n")
		if strings.Contains(all, "metal builds up on the edge") != x.want {
			t.Errorf("%+v: %s", x, all)
		}
		if v := p.Bores[0].Visits[0].Passes[0]; x.want && v.Speed.At(v.Expected) > 40 {
			t.Errorf("%+v: told at %v m/min", x, v.Speed.At(v.Expected))
		}
	}
}
