package passes

import (
	"math"

	"borewright/process/pass"
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
	finish, again pass.Cut
}

// springPass is that of an ending; nil where it cannot be cut whatever goes before.
func (e *ending) springPass() *springPass {
	r := e.Planner
	if r.again == nil {
		return nil
	}
	whole := r.Aim - e.made
	first, second := e.stroke.Again(e.made, whole)
	if first <= 0 || second < r.LeastDepth() {
		return nil
	}
	by, again := r.again, e.over().Sprung(e.stroke.SettingFor(e.made, e.made+first), e.made+first, e.pick) // by then the edge is worn further, and takes less
	second = again.Depth + again.Second
	if first = whole - second; second < r.LeastDepth() || first <= 0 { // a bar so thin that no setting holds it
		return nil
	}
	finish := e.t.Cut(0, first, e.pick, r.Aim)
	finish.Sings = math.Max(e.last.Sings, e.sings(finish))
	again.Sings = math.Max(finish.Sings, e.sings(again))
	again = by.Swung(again)
	doubt, half := by.LeastBehind(again)
	if v := r.SpringAlone(finish, again, 0, doubt, half); !v.OK() || r.custom.Leaves(first, r.custom.Finish) {
		return nil
	}
	return &springPass{first, second, finish, again}
}

// withSpring is the ending with a spring pass, or nil where it cannot be cut.
func (e *ending) withSpring(s *chain, semi pass.Cut, rMostSemi, cost float64) *chain {
	r := e.Planner
	spring := e.spring()
	if spring == nil || s.passes+2 > r.Job.Limits.PassesMost {
		return nil
	}
	finish, again, made := spring.finish, spring.again, e.made+spring.first
	rMostFirst := e.stroke.Left(e.made, rMostSemi, made)
	rMostLast := e.stroke.Left(made, rMostFirst, r.Aim)
	left, opens := rMostLast-r.Aim, finish
	opens.Radius -= again.Depth
	doubt, half := r.again.FinishDoubt(again, semi, left)
	if !r.Behind(again, opens, semi, left, doubt, half).OK() {
		return nil
	}
	cost += e.time + e.price.Chatter + pass.MissPrice(doubt, half)
	f := &chain{from: s, passes: s.passes + 1, rMost: rMostFirst, last: step{
		kind: schedule.Finish, made: made, depth: spring.first, feed: finish.Feed, pick: e.pick, rMostAfter: rMostFirst}}
	return &chain{cost: cost, rMost: rMostLast, from: f, passes: f.passes + 1, last: step{
		kind: schedule.Spring, made: r.Aim, depth: spring.second, feed: finish.Feed, pick: e.pick, rMostAfter: rMostLast}}
}
