package passes

import (
	"math"
	"slices"
	"sync"

	"borewright/process"
	"borewright/process/pass"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// ending is one way to end a visit: a semi-finish that leaves depth, the
// finish, and where the edge can take what is left a spring pass at the same
// setting.
type ending struct {
	*Planner
	*lastTables
	pick   pass.Pick
	depth  int        // of lastPasses.depths
	made   float64    // radius that the semi-finish leaves
	time   float64    // one pass
	price  pass.Price // of the finish
	passes float64    // what both passes cost with their stops, and the price of the finish
	least  float64    // that it costs, whatever goes before: that, and the least that its semi-finish costs for chatter

	*worked // nil: not yet
}

// worked is what is worked out of an ending that is not too dear.
type worked struct {
	last       pass.Cut           // the finish
	stroke     setup.Stroke       // of the finish
	semiStroke setup.Stroke       // of the semi-finish
	alone      bool               // the finish alone can land the size
	sprung     float64            // what a spring pass costs besides at the least
	short      float64            // by how much it misses the limit that it is nearest to, times; of those that were judged
	unsure     float64            // that it costs besides at the least: that the size is missed, or a spring pass
	spring     func() *springPass // with one after it; nil: that cannot be cut
}

func (r *Planner) newEnding(t *lastTables, pick pass.Pick, depth int, made float64) ending {
	return ending{Planner: r, lastTables: t, pick: pick, depth: depth, made: made, time: r.MinutesOf(t.t.Feeds[0], pick.RPM, r.Visit.LastOut)}
}

// costs works out what it costs at the least. thin: its semi-finish may be lighter than the finish.
func (e *ending) costs(thin bool) {
	in, out := e.t.Split(e.pick, e.Aim-e.made)
	e.price = e.t.LastPrice(e.pick, in, out)
	e.passes = 2*(e.time+e.Job.Limits.HoldMinutes) + e.honeMinutes + e.price.Chatter
	e.least = e.passes + e.leastSemi(thin)
}

// work works out what of it counts, the cheap limits first.
func (e *ending) work() {
	e.worked = &worked{last: e.t.Cut(0, e.Aim-e.made, e.pick, e.Aim), stroke: e.t.Stroke(0, e.pick.At(e.Aim), e.Aim), unsure: math.Inf(1)}
	e.last.Sings = e.sings(e.last)
	e.spring, e.short = sync.OnceValue(e.springPass), e.CutVerdict(e.last).Ratio
	if rough := e.Ra(e.last.Feed, e.Job.Cutter.NoseRadius.MM(), e.pick.At(e.Aim), setup.In); e.last.Sings > 1+1e-9 || rough > e.Visit.Ra.MM()*(1+1e-9) {
		e.spring = func() *springPass { return nil } // which makes it no better
		return
	}
	e.sprung = e.time + e.price.Chatter + e.miss
	if e.unsure = e.sprung; e.short > 1+1e-9 { // which costs less to work out than its doubt
		return
	}
	e.last = e.Swung(e.last)
	doubt, half := e.LeastBehind(e.last)
	alone := e.LastVerdict(e.last, 0, doubt, half)
	e.Chips(&alone, e.last)
	if e.alone, e.short = alone.OK(), alone.Ratio; e.alone {
		e.unsure = math.Min(e.unsure, pass.MissPrice(doubt, half))
	}
}

// sings is how far a last pass is past the margin at which it is refused, exactly where the
// table may not tell on which side it is: a spring pass is shallower than its first step.
func (e *ending) sings(c pass.Cut) float64 {
	x := e.Sings(e.t.Stability(0, c, e.LastLand()))
	if x > 0.7 && x < 1.4 {
		x = e.Sings(e.StabilityOf(c, e.LastLand()))
	}
	return x
}

// besides is what it costs besides at the least, before it is known whether a spring pass can be cut.
func (e *ending) besides() float64 {
	if e.worked == nil {
		e.work()
	}
	return e.unsure
}

// lands is whether any passes can go before it: by all that does not hang on them. spring:
// it may cost a spring pass, too.
func (e *ending) lands(spring bool) bool {
	if e.worked == nil {
		e.work()
	}
	if e.alone || !spring || e.spring() == nil {
		return e.alone
	}
	e.unsure = e.time + e.price.Chatter + pass.MissPrice(e.again.LeastBehind(e.spring().again))
	return true
}

// lighter is whether a semi-finish to a radius would be lighter than the finish that it
// rehearses.
func (r *Planner) lighter(n *node, made float64) bool { return made-n.radius < r.Aim-made-1e-9 }

// thin is whether so little was found to be cut behind a way that a semi-finish may be
// lighter than the finish.
func (r *Planner) thin(n *node, w *chain) bool {
	return (w.from == nil || w.last.kind == schedule.Witness) && r.Thin(r.Aim-n.radius, r.light)
}

// semiPrice is what the chance of chatter costs a semi-finish that takes so much, in minutes.
func (e *ending) semiPrice(depth float64) float64 {
	if e.Visit.LastOut.By != process.FeedOut {
		return e.t.Chatter(e.pick, depth, 0)
	}
	in, out := e.before().Split(e.pick, depth)
	return e.t.Chatter(e.pick, in, out)
}

// leastSemi is the least of that, whatever it takes. thin: it may be lighter than the finish.
func (e *ending) leastSemi(thin bool) float64 {
	depth := e.Aim - e.made - 1e-9
	if thin {
		depth = 0
	}
	return e.t.LeastChatter(e.pick, depth)
}

// semiFits is whether a semi-finish from a node to a radius is one that may be cut.
func (r *Planner) semiFits(n *node, made float64) bool {
	depth := made - n.radius
	if depth <= 0 || !r.beyondBand(n.radius, made) || depth > pass.SemiMost+1e-9 || depth > r.DepthMost*(1+1e-9) {
		return false
	}
	return !r.lighter(n, made) || slices.ContainsFunc(n.ways, func(w *chain) bool { return r.thin(n, w) })
}

// after tries the ending behind every way to a node, without and with a spring pass. The
// semi-finish is alike for all of them.
func (e *ending) after(best *chain, n *node) *chain {
	r := e.Planner
	if !r.semiFits(n, e.made) {
		return best
	}
	depth := e.made - n.radius
	more := e.passes + pass.Unusual(depth, r.Aim-e.made)
	dear := func(cost float64) bool { return best != nil && cost+more+e.unsure > best.cost+1e-9 }
	if dear(n.least) {
		return best
	}
	before := e.before()
	if before.Far(e.pick, depth) {
		return best
	}
	if more += e.semiPrice(depth); dear(n.least) {
		return best
	}
	if e.semiStroke.In == nil {
		e.semiStroke = before.Stroke(0, e.pick.At(r.Aim), r.Aim)
	}
	semi := before.Cut(0, depth, e.pick, e.made)
	semi.Left = r.Aim - e.made
	v := r.semi.Semi(&semi)
	if !v.OK() {
		return best
	}
	semi = r.semi.Swung(semi)
	for _, w := range n.ways {
		cost := w.cost + r.gearPrice(w, e.pick)
		if e.pick.RPM > r.turned(w) {
			cost += e.price.Faster
		}
		if w.passes+2 > r.Job.Limits.PassesMost || dear(cost) {
			continue
		}
		if r.lighter(n, e.made) && !r.thin(n, w) {
			continue
		}
		if w.from != nil && depth < 2*r.FeedMarks(w.last.feed) { // it must cut below the feed marks it finds
			continue
		}
		best = e.behind(best, w, n.radius, semi, v, cost+more)
	}
	return best
}

// behind tries it behind one way, from a radius, after a semi-finish with its verdict.
func (e *ending) behind(best *chain, w *chain, radius float64, semi pass.Cut, v pass.Verdict, cost float64) *chain {
	r := e.Planner
	tip := w.tip
	if semi.Moves = w.passes; r.Anew { // honed before it
		semi.Moves, tip = 0, 0
	}
	if r.Opens(&v, semi, tip); !v.OK() {
		return best
	}
	alone, spring, doubt, half := e.alone, e.springsBehind(best, semi, cost), 0.0, 0.0
	if alone {
		doubt, half = r.FinishDoubt(e.last, semi, 0)
		alone = doubt <= half*(1+1e-9)
	}
	if !alone && !spring { // however round the way leaves it
		return best
	}
	rMostSemi := e.semiStroke.Left(radius, w.rMost, e.made)
	s := &chain{from: w, passes: w.passes + 1, rMost: rMostSemi, last: step{
		kind: schedule.SemiFinish, made: e.made, depth: e.made - radius, feed: semi.Feed, pick: e.pick, rMostAfter: rMostSemi, honed: r.asked}}
	if alone {
		rMostLast := e.stroke.Left(e.made, rMostSemi, r.Aim)
		left := rMostLast - r.Aim
		doubt += left
		if r.Behind(e.last, e.last, semi, left, doubt, half).OK() {
			n := &chain{cost: cost + pass.MissPrice(doubt, half), rMost: rMostLast, from: s, passes: s.passes + 1,
				last: step{kind: schedule.Finish, made: r.Aim, depth: r.Aim - e.made, feed: e.last.Feed, pick: e.pick, rMostAfter: rMostLast}}
			if e.wins(n, best) {
				best = n
			}
		}
	}
	if spring {
		if n := e.withSpring(s, semi, rMostSemi, cost); n != nil && e.wins(n, best) {
			best = n
		}
	}
	return best
}

// springsBehind is whether a spring pass may land the size behind a semi-finish for less than the
// best so far, however round that leaves the bore.
func (e *ending) springsBehind(best *chain, semi pass.Cut, cost float64) bool {
	if best != nil && cost+e.time+e.price.Chatter >= best.cost || e.spring() == nil {
		return false
	}
	doubt, half := e.again.FinishDoubt(e.spring().again, semi, 0)
	return doubt <= half*(1+1e-9)
}

// wins is whether a whole chain beats the best so far.
func (e *ending) wins(n, best *chain) bool { return best == nil || n.cost < best.cost-1e-9 }
