package passes

import (
	"math"
	"slices"

	"borewright/process/pass"
	"borewright/process/setup"
)

// Barred is whether no passes need be searched for: no last pass keeps a limit, whatever goes before it.
// short is by how much the nearest misses it, times; 0: no figure says. The edges are those of a search.
func (r *Planner) Barred() (short float64, barred bool) {
	if why := r.never(); !why.None() || r.Measured { // of a bore that was measured one pass may be enough
		return 0, !why.None()
	}
	if short = r.LandsNever(); short > pass.PastMost {
		return short, true
	}
	wide := *r
	wide.custom = pass.Custom{AnyCut: true, LeftOut: new(bool), Finish: r.custom.Finish}
	short = math.Inf(1)
	for _, found := range slices.Compact([]setup.Flank{r.FlankFound(), {}}) { // it may be honed first
		worn := wide.guess(found, r.rLeast)
		for _, ends := range [][]lastEdge{{{before: found}}, {worn, {worn.before, true, worn.anew}}} {
			wide.ends = ends
			for _, e := range wide.newLast(r.rLeast).cheapest {
				if e.lands(true) || e.short <= pass.PastMost {
					return 0, false
				}
				short = math.Min(short, e.short)
			}
		}
	}
	return short, true
}
