package passes

import (
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
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
