package passes

import (
	"borewright/process/pass"
	"borewright/process/schedule"
)

// lastOne tries to finish from a measured bore in one cut: the spring is known
// from the cuts before it.
func (r *Planner) lastOne(best *chain, t *pass.Table, pick pass.Pick, w *chain, radius float64) *chain {
	depth := r.Aim - radius
	if depth <= 0 || !r.beyondBand(radius, r.Aim) || depth > r.DepthMost*(1+1e-9) || depth > semiMost {
		return best
	}
	minutes := w.minutes + r.MinutesOf(t.Feeds[0], pick.RPM, r.Visit.LastOut) + r.Job.Limits.HoldMinutes + r.honeMinutes()
	c := t.Cut(0, depth, pick, r.Aim)
	rMost := t.Stroke(0, pick.At(r.Aim), r.Aim).Left(radius, w.rMost, r.Aim)
	s := t.Stability(0, c, r.LastLand())
	c.Sings = r.Sings(s)
	if !r.OnlyVerdict(c, rMost-r.Aim).OK() {
		return best
	}
	doubt, half := r.OnlyDoubt(c, rMost-r.Aim)
	cost := w.cost + minutes - w.minutes + t.Price(0, c) + pass.MissPrice(doubt, half) + r.gearPrice(w, pick)
	if pick.RPM > r.turned(w) {
		cost += r.FasterPrice(s)
	}
	if best != nil && cost > best.cost-1e-9 {
		return best
	}
	return &chain{minutes: minutes, cost: cost, rMost: rMost, from: w, passes: w.passes + 1, last: step{
		kind: schedule.Finish, made: r.Aim, depth: depth, feed: c.Feed, pick: pick, rMostAfter: rMost, honed: r.asked}}
}
