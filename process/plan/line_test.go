package plan_test

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// TestLineBarKnowsNoSpindle: a bar that two bearings carry and a floating driver turns cuts
// alike in a spindle that is soft and turns out of true; its journals and bearings are what
// its bore gets, and bearings half as stiff spring more.
func TestLineBarKnowsNoSpindle(t *testing.T) {
	last := func(change func(*process.Job, *process.Machine, *process.Inboard)) (round, spring float64) {
		job := shipped(t, "wheel-shaft/job.toml")
		job.Bores = job.Bores[:1]
		machine, in := *job.Machine, *job.Bar.Inboard
		job.Machine, job.Bar.Inboard = &machine, &in
		change(job, &machine, &in)
		p := plan.Make(job)
		if !p.Feasible {
			t.Fatal(p.Reasons)
		}
		passes := p.Bores[0].Visits[0].Passes
		q := passes[len(passes)-1]
		return q.OutOfRound.MM(), q.Spring.MM()
	}
	round, spring := last(func(*process.Job, *process.Machine, *process.Inboard) {})
	if r, s := last(func(_ *process.Job, m *process.Machine, _ *process.Inboard) {
		m.Runout, m.Radial, m.Tilt = 15*qty.Micrometre, m.Radial/20, m.Tilt/20
	}); r != round || s != spring {
		t.Errorf("a worse spindle: %g out of round, %g spring; %g and %g before", r, s, round, spring)
	}
	if r, _ := last(func(_ *process.Job, _ *process.Machine, in *process.Inboard) { in.Journals += 2 * qty.Micrometre }); math.Abs(r-round-0.002) > 2e-4 {
		t.Errorf("journals 0.002 worse: %g out of round, %g before", r, round)
	}
	if _, s := last(func(_ *process.Job, _ *process.Machine, in *process.Inboard) { in.Stiffness /= 4 }); !(s > spring) {
		t.Errorf("a bearing a quarter as stiff springs %g, %g before", s, spring)
	}
}
