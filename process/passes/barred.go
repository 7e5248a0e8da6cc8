package passes

import (
	"math"

	"borewright/process/pass"
	"borewright/process/setup"
)

// Barred is whether something stands against the visit whatever passes are searched for: a limit that
// no last pass keeps, whatever goes before it. short is by how much the nearest misses it, times; 0
// where that is no figure. The edges are those that a search begins with.
func (r *Planner) Barred() (short float64, barred bool) {
	if why := r.never(); !why.None() || r.Measured { // of a bore that was measured one pass may be enough
		return 0, !why.None()
	}
	if short = r.LandsNever(); short > pass.PastMost {
		return short, true
	}
	wide := *r
	wide.custom = pass.Custom{AnyCut: true, LeftOut: new(bool), Finish: r.custom.Finish}
	flanks := []setup.Flank{r.FlankFound()}
	if flanks[0].Likely >= littleWear { // it may be honed first
		flanks = append(flanks, setup.Flank{})
	}
	short = math.Inf(1)
	for _, found := range flanks {
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
