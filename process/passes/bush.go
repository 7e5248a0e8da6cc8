package passes

import (
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// uneven is by how much the play of an outboard bearing makes a bore out of round,
// radial: the bar stands differently in its bush as the tip goes round.
func (r *Planner) uneven(c cutAt) float64 {
	b, _ := r.Bush(c.force, c.radius, setup.In)
	if c.fed {
		b, _ = r.Bush(c.back, c.radius, setup.Out)
	}
	return b.Uneven
}

// offBush is the caution for the passes in which the bar does not touch its outboard
// bearing; nothing where it does.
func (r *Planner) offBush() fact.Fact {
	var off []int
	var most float64
	for i := range r.v.Passes {
		p, r := &r.v.Passes[i], r.in(i)
		if b, play := r.Bush(r.planned(p).force, p.Setting.MM()/2, setup.In); play && b.Idle {
			off, most = append(off, p.N), max(most, b.Moves)
		}
	}
	if len(off) == 0 {
		return fact.Fact{}
	}
	return fact.New(schedule.OffBush, fact.List(schedule.Runs(off)...), fine(most), fact.Figure(qty.Fine(r.Job.Bar.Outboard.Clearance/2)))
}
