package passes

import (
	"math"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// diagnose says why no chain was found: the limit that the best imaginable
// pass misses by least.
func (r *Planner) diagnose(origin *chain, start float64) fact.Fact {
	if why := r.nearestFinish(); !why.None() {
		return why
	}
	if why := r.nearestRough(start); !why.None() {
		return why
	}
	// Each pass is possible, the chain is not: see what it lacks.
	job := *r.Job
	wide := *r
	bare, pl := *r.Setup, *r.Planning
	bare.Job, pl.Setup = &job, &bare
	wide.Planning = &pl
	job.Limits.PassesMost = 1000
	if best := wide.search(origin, start); best != nil {
		return fact.New(schedule.TooMany, fact.Count(best.passes), fact.Count(r.Job.Limits.PassesMost))
	}
	v := *r.v
	wide.v = &v
	v.Roundness = qty.Metre
	if best := wide.search(origin, start); best != nil {
		return fact.New(schedule.NotRound, mm(best.rMost-r.aim), fact.Figure(r.v.Roundness))
	}
	return fact.New(schedule.NoOrder)
}

// nearestFinish judges the last pass at its best: a twin cut measured before
// it and nothing left of the old shape.
func (r *Planner) nearestFinish() fact.Fact {
	best := verdict{ratio: math.Inf(1)}
	var at cutAt
	for _, feed := range r.Feeds {
		for _, by := range r.finishers(feed, false) {
			for _, pick := range r.finish {
				for _, depth := range finishDepths {
					c := by.finishAt(depth, feed, pick)
					if v := by.finishVerdict(c, c, 0); v.ratio < best.ratio {
						best, at = v, c
					}
				}
			}
		}
	}
	if best.ok() {
		return fact.Fact{}
	}
	return r.nearest(schedule.PassOfFinish, best, at)
}

func (r *Planner) nearestRough(start float64) fact.Fact {
	_, pitch := r.gridFor(start, r.aim)
	best := verdict{ratio: math.Inf(1)}
	var at cutAt
	pick := r.rough[0]
	steps := max(10, int(math.Min(r.depth, r.aim-start)/pitch))
	for _, feed := range r.Feeds {
		for k := 1; k <= steps; k++ {
			depth := float64(k) * pitch
			c := r.cutFor(depth, feed, pick, start+depth, r.v.RoughOut)
			if v := r.roughVerdict(c); v.ratio < best.ratio {
				best, at = v, c
			}
		}
	}
	if best.ok() {
		return fact.Fact{}
	}
	return r.nearest(schedule.PassOfRough, best, at)
}

func (r *Planner) nearest(kind fact.Kind, v verdict, c cutAt) fact.Fact {
	return fact.New(schedule.NearestPass, fact.New(kind), mm(c.depth), mm(c.feed), of(qty.KindSpindleSpeed, c.pick.rpm), r.limit(v))
}
