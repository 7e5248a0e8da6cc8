package passes

import (
	"math"

	"borewright/process/schedule"
)

// A spring pass goes through once more at the setting of the finish and takes
// what the bar sprang off. It costs a pass and no stop. It makes the bore
// rounder (what one pass leaves is left once more) and smaller in doubt, since
// the spring that remains is that of the light second cut. It is only tried
// where the edge can still cut so little: below that it rubs, glazes the bore
// and takes nothing.

// springPass is a finish that aims short, and the spring pass after it that lands the
// size:
//
//	S = r + a₁ + push(a₁),  a₂ + push(a₂) = push(a₁),  r + a₁ + a₂ = aim
type springPass struct {
	first, second float64 // taken by each
	finish, again cutAt
}

// springPass is that of an ending; nil where it cannot be cut whatever goes before.
func (e *ending) springPass() *springPass {
	r := e.Planner
	whole := r.aim - e.made
	first, second := whole, 0.0
	for range 6 { // a₂ is a small share of a₁: converges at once
		in, out := e.stroke.Take(e.stroke.SettingFor(e.made, e.made+first), e.made+first)
		was := second
		if second = in + out; second < r.LeastDepth() { // less is left for it after a smaller first
			return nil
		}
		if first = whole - second; math.Abs(second-was) < 1e-9 {
			break
		}
	}
	if first <= 0 {
		return nil
	}
	finish := e.t.cut(0, first, e.pick, r.aim, r.v.LastOut)
	again := e.t.cut(0, second, e.pick, r.aim, r.v.LastOut)
	finish.sings = math.Max(e.last.sings, r.sings(e.t.stability(0, finish, r.lastLand())))
	again.sings = math.Max(finish.sings, r.sings(e.t.stability(0, again, r.lastLand())))
	v := r.lastVerdict(again, 0, 0, 1)
	if r.chips(&v, finish); !v.ok() {
		return nil
	}
	return &springPass{first, second, finish, again}
}

// withSpring is the ending with a spring pass, or nil where it cannot be cut.
func (e *ending) withSpring(s *chain, semi cutAt, rMostSemi, minutes, cost float64) *chain {
	r := e.Planner
	spring := e.spring()
	if spring == nil || s.passes+2 > r.Job.Limits.PassesMost {
		return nil
	}
	finish, again, made := spring.finish, spring.again, e.made+spring.first
	rMostFirst := e.stroke.Left(e.made, rMostSemi, made)
	rMostLast := e.stroke.Left(made, rMostFirst, r.aim)
	if v := r.springVerdict(finish, again, semi, rMostLast-r.aim); !v.ok() {
		return nil
	}
	doubt, half := r.finishDoubt(again, semi, rMostLast-r.aim)
	minutes += e.time
	cost += e.time + e.chatterPrice + missMinutes*missChance(doubt, half)
	f := &chain{from: s, passes: s.passes + 1, rMost: rMostFirst, last: step{
		kind: schedule.Finish, made: made, depth: spring.first, feed: finish.feed, pick: e.pick, rMostAfter: rMostFirst}}
	return &chain{minutes: minutes, cost: cost, rMost: rMostLast, from: f, passes: f.passes + 1, last: step{
		kind: schedule.Spring, made: r.aim, depth: spring.second, feed: finish.feed, pick: e.pick, rMostAfter: rMostLast}}
}

// springVerdict judges a finish that is followed by a spring pass: the finish
// may spring as a semi-finish may, the last cut may not.
func (r *Planner) springVerdict(finish, again, semi cutAt, left float64) verdict {
	doubt, half := r.finishDoubt(again, semi, left)
	v := r.lastVerdict(again, left, doubt, half)
	r.springs(&v, finish, r.Job.Limits.SpringRough)
	r.chips(&v, finish)
	finish.radius -= again.depth
	r.opens(&v, finish, r.tipAfter(semi))
	return v
}
