package passes

import (
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// diagnose says why no chain was found: the limit that the best imaginable
// pass misses by least.
func (r *Planner) diagnose(origin *chain, start float64) fact.Fact {
	finish := pass.Far()
	for _, feed := range r.Feeds {
		for _, by := range r.finishers(feed, false) {
			finish = by.NearestFinish(finish, feed, r.finish)
		}
	}
	if !finish.OK() {
		return r.Refused(schedule.PassOfFinish, finish)
	}
	if why := r.ThinForTwo(start); !why.None() {
		return why
	}
	if rough := r.NearestRough(start, r.rough[0]); !rough.OK() {
		return r.Refused(schedule.PassOfRough, rough)
	}
	if r.plan.Untold {
		return fact.New(schedule.NoOrder)
	}
	// Each pass is possible, the chain is not: see what it lacks.
	job, setUp, wide := *r.Job, *r.Setup, *r
	setUp.Job, wide.Setup = &job, &setUp
	job.Limits.PassesMost = 1000
	if best := wide.search(origin, start); best != nil {
		return fact.New(schedule.TooMany, fact.Count(best.passes), fact.Count(r.Job.Limits.PassesMost))
	}
	v := *r.Visit
	wide.Visit = &v
	v.Roundness = qty.Metre
	if best := wide.search(origin, start); best != nil {
		turns := r.Job.Runout()
		return fact.New(schedule.NotRound, fact.MM(best.rMost-r.Aim), fact.Figure(r.Visit.Roundness), fact.Figure(turns))
	}
	return fact.New(schedule.NoOrder)
}

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
