package plan_test

import (
	"math"
	"testing"

	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/turns"
)

// TestHalfTurn holds what is not known of a bore that is cut from the far face to plane
// geometry: a turn that comes out by φ too much moves a point at Δz from the centre of the
// table across by φ·Δz, and what is unknown alone adds as squares.
func TestHalfTurn(t *testing.T) {
	job := shipped(t, "swing-bridge/far.toml")
	machine := *job.Machine
	job.Machine = &machine
	machine.IndexPlace, machine.IndexAngle = qty.Millimetre/50, 0.05
	for _, depth := range []float64{0, 60, 350, 700} {
		want := math.Sqrt(0.02*0.02 + 0.00005*0.00005*(depth-350)*(depth-350))
		if got := place.HalfTurn(job, qty.FromMM(depth)).MM(); math.Abs(got-want) > 1e-6 {
			t.Errorf("at %g: ± %g, want ± %g", depth, got, want)
		}
	}
	// One bore swept at 640 tells no lean. What the near line-up left (0.03 mrad) and the turn
	// lean the line by on the way to the middle of the seat at 30, besides what the sweep
	// does not tell.
	lean := func(angle float64) float64 {
		machine.IndexAngle = angle
		p := plan.Make(job)
		if !p.Feasible {
			t.Fatal(p.Reasons)
		}
		return p.LineUp.UnsureAt("bridge seat").MM()
	}
	small, large := lean(1e-9), lean(0.2)
	if more := math.Sqrt(large*large - small*small); math.Abs(more-0.2e-3*(640-30)) > 0.002 {
		t.Errorf("± %.4f with a turn of 0.2 mrad, ± %.4f with none: %.4f more, want %.4f", large, small, more, 0.2e-3*610)
	}
	job.Bores[0].Face = 0
	if near := lean(0.2); math.Abs(near-small) > 1e-6 {
		t.Errorf("from the near face ± %g, want ± %g", near, small)
	}
}

// TestHalfTurnIsSaid: what was swept from the far face, or that nothing was.
func TestHalfTurnIsSaid(t *testing.T) {
	kinds := func(p *plan.Plan) map[fact.Kind]fact.Fact {
		m := map[fact.Kind]fact.Fact{}
		for _, c := range p.Cautions {
			m[c.Kind] = c
		}
		return m
	}
	job := shipped(t, "swing-bridge/far.toml")
	said := kinds(plan.Make(job))
	if said[turns.Swept].None() || said[turns.Safely].None() || !said[turns.Only].None() {
		t.Errorf("swept: %v", said)
	}
	job.Sweeps = nil
	said = kinds(plan.Make(job))
	only := said[turns.Only]
	if only.None() || !said[turns.Swept].None() {
		t.Fatalf("not swept: %v", said)
	}
	// 350 mm from the table's centre at the face: √(0.015² + (0.04·0.350)²) = 0.0205
	if within, ok := fact.AsFigure(only.Nth(2)); !ok || math.Abs(within.Value-0.021) > 1e-9 {
		t.Errorf("not swept: %v", only)
	}
	if said := kinds(plan.Make(shipped(t, "swing-bridge/near.toml"))); !said[turns.Safely].None() {
		t.Error("the near face speaks of a turn")
	}
}
