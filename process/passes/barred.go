package passes

import (
	"math"
	"slices"

	"borewright/process/pass"
	"borewright/process/setup"
)

// Barred is whether no passes need be searched for: no last pass keeps a limit, whatever goes before it, or no rough comes
// near enough to one. short is by how much the nearest misses it, times; 0: no figure says. The edges are those of a search.
func (r *Planner) Barred() (short float64, barred bool) {
	if why := r.Never(r.rLeast, r.rMost, r.st); !why.None() || r.Measured { // of a bore that was measured one pass may be enough
		return 0, !why.None()
	}
	if short = r.LandsNever(); short > pass.PastMost {
		return short, true
	}
	wide := *r
	wide.custom = pass.Custom{AnyCut: true, LeftOut: new(bool), Finish: r.custom.Finish}
	near, lands := r.rLeast >= r.LastFrom(), false
	short = math.Inf(1)
	for _, found := range slices.Compact([]setup.Flank{r.FlankFound(), {}}) { // it may be honed first
		worn := wide.guess(found, r.rLeast)
		for _, ends := range [][]lastEdge{{{before: found}}, {worn, {worn.before, true, worn.anew}}} {
			near = near || wide.with(setup.Wear{Mean: ends[0].before}, false).newRoughs(&chain{}, r.rLeast, r.Aim).reaches(r.LastFrom())
			wide.ends = ends
			for _, e := range wide.newLast(r.rLeast, false).cheapest {
				if lands = lands || e.lands(true) || e.short <= pass.PastMost; lands {
					short = 0
					break
				}
				short = math.Min(short, e.short)
			}
			if near && lands {
				return 0, false
			}
		}
	}
	return short, true
}
