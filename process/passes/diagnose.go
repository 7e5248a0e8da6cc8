package passes

import (
	"fmt"
	"math"

	"borewright/process/qty"
)

// diagnose says why no chain was found: the limit that the best imaginable
// pass misses by least.
func (r *Planner) diagnose(origin *chain, start float64) string {
	if why := r.nearestFinish(); why != "" {
		return why
	}
	if why := r.nearestRough(start); why != "" {
		return why
	}
	// Each pass is possible, the chain is not: see what it lacks.
	job := *r.Job
	wide := *r
	bare := *r.Setup
	bare.Job = &job
	wide.Setup = &bare
	job.Limits.PassesMost = 1000
	if best := wide.search(origin, start); best != nil {
		return fmt.Sprintf("it takes %d passes, %d allowed", best.passes, r.Job.Limits.PassesMost)
	}
	v := *r.v
	wide.v = &v
	v.Roundness = qty.Metre
	if best := wide.search(origin, start); best != nil {
		return fmt.Sprintf("roundness: %s of the old shape would be left, %s asked for",
			r.Job.Units.Say(qty.FromMM(best.rMost-r.aim)), r.Job.Units.Say(r.v.Roundness))
	}
	return "no order of passes keeps every limit"
}

// nearestFinish judges the last pass at its best: a twin cut measured before
// it and nothing left of the old shape.
func (r *Planner) nearestFinish() string {
	best := verdict{ratio: math.Inf(1)}
	var at cutAt
	pick := r.finish[0]
	for _, feed := range r.feeds {
		for _, depth := range finishDepths {
			c := cutAt{depth: depth, feed: feed, pick: pick, force: r.forceAt(depth, feed, pick.speed), radius: r.aim}
			if v := r.finishVerdict(c, c, 0); v.ratio < best.ratio {
				best, at = v, c
			}
		}
	}
	if best.ok() {
		return ""
	}
	return r.atBest("finish", best, at)
}

func (r *Planner) nearestRough(start float64) string {
	_, pitch := r.gridFor(start, r.aim)
	best := verdict{ratio: math.Inf(1)}
	var at cutAt
	pick := r.rough[0]
	steps := max(10, int(math.Min(r.depth, r.aim-start)/pitch))
	for _, feed := range r.feeds {
		for k := 1; k <= steps; k++ {
			depth := float64(k) * pitch
			c := cutAt{depth: depth, feed: feed, pick: pick, force: r.forceAt(depth, feed, pick.speed), radius: start + depth}
			if v := r.roughVerdict(c); v.ratio < best.ratio {
				best, at = v, c
			}
		}
	}
	if best.ok() {
		return ""
	}
	return r.atBest("rough", best, at)
}

func (r *Planner) atBest(kind string, v verdict, c cutAt) string {
	u := r.Job.Units
	return fmt.Sprintf("the %s pass that comes nearest (%s deep, %s a rev, %.0f rev/min) is stopped by %s",
		kind, u.Say(qty.FromMM(c.depth)), u.Say(qty.FromMM(c.feed)), c.pick.rpm, r.words(v))
}
