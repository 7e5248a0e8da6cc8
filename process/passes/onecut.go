package passes

import "borewright/process/schedule"

// lastOne tries to finish from a measured bore in one cut: the spring is known
// from the cuts before it.
func (r *Planner) lastOne(best *chain, t *table, pick speedPick, w *chain, radius float64) *chain {
	depth := r.aim - radius
	if depth <= 0 || depth > r.depth*(1+1e-9) || depth > semiMost {
		return best
	}
	minutes := w.minutes + r.minutesOf(t.Feeds[0], pick.rpm, r.v.LastOut) + r.Job.Limits.HoldMinutes + r.honeMinutes()
	c := t.cut(0, depth, pick, r.aim, r.v.LastOut)
	rMost := t.stroke(0, pick.at(r.aim), r.aim, r.v.LastOut).Left(radius, w.rMost, r.aim)
	s := t.stability(0, c, r.lastLand())
	c.sings = r.sings(s)
	if !r.onlyVerdict(c, rMost-r.aim).ok() {
		return best
	}
	doubt, half := r.onlyDoubt(c, rMost-r.aim)
	cost := w.cost + minutes - w.minutes + t.price(0, c) + missMinutes*missChance(doubt, half)
	if pick.rpm > r.turned(w) {
		cost += r.fasterPrice(s)
	}
	if best != nil && cost > best.cost-1e-9 {
		return best
	}
	return &chain{minutes: minutes, cost: cost, rMost: rMost, from: w, passes: w.passes + 1, last: step{
		kind: schedule.Finish, made: r.aim, depth: depth, feed: c.feed, pick: pick, rMostAfter: rMost, honed: r.asked}}
}

// onlyVerdict judges a last pass that follows a measurement and no semi-finish
// of its own.
func (r *Planner) onlyVerdict(c cutAt, left float64) verdict {
	doubt, half := r.onlyDoubt(c, left)
	v := r.lastVerdict(c, left, doubt, half)
	r.chips(&v, c)
	from := r.v.Stands.At.MM()
	if r.anew {
		from = 0
	}
	r.opens(&v, c, from)
	return v
}

func (r *Planner) onlyDoubt(c cutAt, left float64) (doubt, half float64) {
	return r.doubtLearned(r.swings(c)) + r.taper(c)/2 + r.wearTaper(c) + left + r.unread() + r.rubs(c), r.v.Limits.High.Minus(r.v.Limits.Low).MM() / 2
}
