package passes

import (
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// offBush is the caution for the passes in which the bar does not touch its outboard
// bearing; nothing where it does.
func (r *Planner) offBush() fact.Fact {
	var off []int
	var most float64
	for i := range r.Visit.Passes {
		p, r := &r.Visit.Passes[i], r.in(i)
		if b, play := r.Bush(r.planned(p).Force, p.Setting.MM()/2, setup.In); play && b.Idle {
			off, most = append(off, p.N), max(most, b.Moves)
		}
	}
	if len(off) == 0 {
		return fact.Fact{}
	}
	return fact.New(schedule.OffBush, fact.List(schedule.Runs(off)...), fact.FineMM(most), fact.Figure(qty.Fine(r.Job.Bar.Outboard.Clearance/2)))
}
