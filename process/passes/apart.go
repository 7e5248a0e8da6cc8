package passes

import (
	"math"

	"borewright/process/qty"
)

// Roughing apart. Where all bores of a job are roughed before one is finished, the chain
// of roughing passes ends at the last node of the grid that leaves what is to stay for after the
// rest. What the passes then cost is known; what they leave the old shape is taken by the
// finish, which is planned from the bore that they leave.

// roughed is the chain of least cost from the bore as it stands to the size that is roughed to;
// nil: there is none.
func (r *Planner) roughed(first *chain, start, before float64) *chain {
	to := r.Visit.RoughTo.MM()/2 + 1e-9
	grid, _ := r.GridFor(start, to)
	if len(grid) == 0 {
		return nil
	}
	goal := grid[len(grid)-1]
	g := r.newRoughs(func(least []float64, radius float64, _ []float64) {
		for n := range least {
			least[n] = math.Inf(1)
			if radius >= goal {
				least[n] = 0
			}
		}
	}, first, start, to)
	for _, most := range within(g.least, before) {
		var best *chain
		for _, list := range g.ways(most)[len(g.grid)-1] {
			for _, c := range list {
				if c != nil && (best == nil || c.cost < best.cost) {
					best = c
				}
			}
		}
		if best != nil {
			return best
		}
	}
	return nil
}

// Leaves is the bore that the planned passes leave, smallest and largest.
func (r *Planner) Leaves() [2]qty.Diameter {
	rLeast, rMost := r.rLeast, r.rMost
	for i := range r.Visit.Passes {
		rLeast, rMost = r.in(i).after(&r.Visit.Passes[i], rLeast, rMost)
	}
	return [2]qty.Diameter{qty.DiameterMM(2 * rLeast), qty.DiameterMM(2 * max(rLeast, rMost))}
}
