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
	g := r.newRoughs(first, start, to)
	if len(g.grid) == 0 || !g.reaches(g.grid[len(g.grid)-1]) {
		return nil
	}
	goal := g.grid[len(g.grid)-1]
	g.bound(func(least []float64, n *node, _ []float64) {
		if n.radius >= goal {
			clear(least)
		}
	}, g.once(goal))
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

// once is what one pass to a radius costs at the least, whether it can be cut or not; +Inf where it is too deep.
func (g *roughs) once(radius float64) float64 {
	least := math.Inf(1)
	for speed, pick := range g.rough {
		if radius-g.start <= g.DepthMost {
			least = math.Min(least, g.first.cost+g.gearPrice(g.first, pick)+g.cheapest(g.entry(radius-g.start), speed, least))
		}
	}
	return least
}

// Leaves is the bore that the planned passes leave, smallest and largest.
func (r *Planner) Leaves() [2]qty.Diameter {
	rLeast, rMost := r.rLeast, r.rMost
	for i := range r.Visit.Passes {
		rLeast, rMost = r.in(i).after(&r.Visit.Passes[i], rLeast, rMost)
	}
	return [2]qty.Diameter{qty.DiameterMM(2 * rLeast), qty.DiameterMM(2 * max(rLeast, rMost))}
}
