package passes

import (
	"math"

	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// diagnose says why no chain was found: the limit that the best imaginable
// pass misses by least.
func (r *Planner) diagnose(origin *chain, start float64) fact.Fact {
	if why := r.nearestFinish(); !why.None() {
		return why
	}
	if why := r.ThinForTwo(start); !why.None() {
		return why
	}
	if why := r.nearestRough(start); !why.None() {
		return why
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

// nearestFinish judges the last pass at its best: a twin cut measured before
// it and nothing left of the old shape.
func (r *Planner) nearestFinish() fact.Fact {
	best := pass.Verdict{Ratio: math.Inf(1)}
	var at pass.Cut
	for _, feed := range r.Feeds {
		for _, by := range r.finishers(feed, false) {
			for _, pick := range r.finish {
				for _, depth := range pass.FinishDepths {
					c := by.FinishAt(depth, feed, pick)
					if v := by.FinishVerdict(c, c, 0); v.Ratio < best.Ratio {
						best, at = v, c
					}
				}
			}
		}
	}
	if best.OK() {
		return fact.Fact{}
	}
	return r.nearest(schedule.PassOfFinish, best, at)
}

func (r *Planner) nearestRough(start float64) fact.Fact {
	_, pitch := r.GridFor(start, r.Aim)
	best := pass.Verdict{Ratio: math.Inf(1)}
	var at pass.Cut
	pick := r.rough[0]
	steps := max(10, int(math.Min(r.DepthMost, r.Aim-start)/pitch))
	for _, feed := range r.Feeds {
		for k := 1; k <= steps; k++ {
			depth := float64(k) * pitch
			c := r.CutFor(depth, feed, pick, start+depth, r.Visit.RoughOut)
			c.Left = r.Aim - start // as if it were the first of many
			if v := r.RoughVerdict(c); v.Ratio < best.Ratio {
				best, at = v, c
			}
		}
	}
	if best.OK() {
		return fact.Fact{}
	}
	return r.nearest(schedule.PassOfRough, best, at)
}

func (r *Planner) nearest(kind fact.Kind, v pass.Verdict, c pass.Cut) fact.Fact {
	r.Visit.Short = v.Ratio
	return fact.New(schedule.NearestPass, fact.New(kind), fact.MM(c.Depth), fact.MM(c.Feed), fact.Value(qty.KindSpindleSpeed, c.Pick.RPM), r.StoppedBy(v, c))
}
