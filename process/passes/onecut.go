package passes

import (
	"borewright/process/pass"
	"borewright/process/schedule"
)

// lastOne tries to finish from a measured bore at one setting, without and with a spring
// pass: the spring is known from the cuts before it.
func (r *Planner) lastOne(best *chain, t *lastTables, pick pass.Pick, w *chain, radius float64) *chain {
	depth := r.Aim - radius
	if depth <= 0 || !r.beyondBand(radius, r.Aim) || depth > r.DepthMost*(1+1e-9) || depth > pass.SemiMost {
		return best
	}
	e := r.newEnding(t, pick, 0, radius)
	e.costs(false)
	e.work()
	cost := w.cost + e.time + r.Job.Limits.HoldMinutes + r.honeMinutes + e.price.Chatter + r.gearPrice(w, pick)
	if pick.RPM > r.turned(w) {
		cost += e.price.Faster
	}
	aside := r.Aside(e.stroke, radius, r.Aim)
	add := func(by *Planner, before *chain, kind schedule.Kind, c pass.Cut, depth, more float64) *chain {
		rMost := e.stroke.Left(r.Aim-depth, before.rMost, r.Aim)
		doubt, half := by.OnlyDoubt(c, rMost-r.Aim, aside)
		return &chain{cost: cost + more + pass.MissPrice(doubt, half), rMost: rMost, from: before, passes: before.passes + 1,
			last: step{kind: kind, made: r.Aim, depth: depth, feed: c.Feed, pick: pick, rMostAfter: rMost, honed: r.asked && before == w}}
	}
	if n := add(r, w, schedule.Finish, e.last, depth, 0); r.OnlyVerdict(e.last, n.rMost-r.Aim, aside).OK() && e.wins(n, best) {
		best = n
	}
	s := e.spring()
	if s == nil || w.passes+2 > r.Job.Limits.PassesMost {
		return best
	}
	made := radius + s.first
	f := &chain{from: w, passes: w.passes + 1, rMost: e.stroke.Left(radius, w.rMost, made)}
	f.last = step{kind: schedule.Finish, made: made, depth: s.first, feed: e.last.Feed, pick: pick, rMostAfter: f.rMost, honed: r.asked}
	s.finish.Radius, aside = made, r.Aside(e.stroke, radius, made)
	if n := add(r.again, f, schedule.Spring, s.again, s.second, e.time+e.price.Chatter); r.OnlySprung(s.finish, s.again, n.rMost-r.Aim, aside).OK() && e.wins(n, best) {
		best = n
	}
	return best
}
