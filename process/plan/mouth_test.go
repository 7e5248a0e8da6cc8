package plan_test

import (
	"math"
	"testing"

	"borewright/process"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/setup"
	"borewright/process/sleeve"
)

const tide = "tide-pump/job.toml"

// slenderTide is the tide pump on a bar of 40 mm that stands out 330 mm.
func slenderTide(t *testing.T) *process.Job {
	t.Helper()
	j := shipped(t, tide)
	j.Bar.Steps[1].Diameter, j.Bar.Steps[1].Length = qty.DiameterMM(40), qty.FromMM(330)
	j.Bar.CutterAt, j.Bar.Stands = j.Bar.Stickout(), [2]qty.Length{}
	return j
}

// The stout bar of the tide pump is told nothing of its lead-in; on a slender one counterbore
// and lead-in are likelier to sing than not, and the card's visit says so.
func TestBroadEdgesSing(t *testing.T) {
	count := func(p *Plan) (n int) {
		for _, f := range p.CautionsOf(0, 0) {
			if f.Kind == sleeve.MouthMaySing {
				n++
			}
		}
		return n
	}
	p := made(t, tide)
	if n := count(p); !p.Feasible || n != 0 {
		t.Errorf("feasible %v, %d cautions of a bar that is stout", p.Feasible, n)
	}
	p = Make(slenderTide(t))
	if n := count(p); !p.Feasible || n != 2 {
		t.Errorf("feasible %v, %d cautions, two cuts sing: %v", p.Feasible, n, p.CautionsOf(0, 0))
	}
}

// A straight edge meets a motion of the tip over its whole length: each mm of it, beyond the
// nose, is as stiff as the last; and the edge of a lead-in, nearly along the axis, is several times as stiff against
// it as a square one that takes as much on the radius.
func TestBroadEdgeIsStiffByItsLength(t *testing.T) {
	s, err := setup.New(shipped(t, tide))
	if err != nil {
		t.Fatal(err)
	}
	regen := func(angle, depth float64) float64 {
		e, err := s.Broad(angle).Edge(s.Job.Material, 45, 0, qty.FromMM(10))
		if err != nil {
			t.Fatal(err)
		}
		return e.Stiffness(depth, 0.1, 160, setup.In).Regen
	}
	if a, b := regen(20, 2)-regen(20, 1), regen(20, 3)-regen(20, 2); math.Abs(a/b-1) > 0.01 {
		t.Errorf("a mm adds %.1f N/mm, the next %.1f", a, b)
	}
	if is := regen(20, 1) / regen(90, 1); is < 3 {
		t.Errorf("a broad edge is only %.2f times as stiff as a square one", is)
	}
	if was := s.Job.Cutter.Lead; was == 20 || s.Job.Cutter.NoseRadius != qty.FromMM(0.8) {
		t.Errorf("the job's own cutter is changed: %v", s.Job.Cutter)
	}
}
