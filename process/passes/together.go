package passes

import (
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Bores of one line that are cut through at one setting. The cutter is set once for a pass and
// goes through all of them, so setting, feed and speed are the same in each, while spring, wear
// and size are each bore's own. A chain is searched for from the smallest and the largest that
// is found of all of them, with the bar as it stands in one of them; then every bore is
// judged by its own bar, shape and edge with the settings of that chain. Each bore leads once,
// and the cheapest chain that keeps the limits in all is taken. Its last setting is moved so
// that the sizes that come out lie about the size aimed at.

// Together is the planning of such bores, in the order in which they are cut.
type Together []*Planner

// shared is a chain as it cuts each of the bores.
type shared struct {
	sets  []qty.Diameter
	steps [][]step          // of each bore
	wears []setup.ChainWear // in each bore
	cost  float64
}

// Plan finds the passes of all visits, numbered from first, or says why there are none that
// keep the limits in all of them: at is the bore that stands against it, by its index, -1 where
// it is none of them alone.
func (t Together) Plan(first int) (why fact.Fact, at int) {
	for i, r := range t {
		if why := r.Never(r.rLeast, r.rMost, r.st); !why.None() {
			return why, i
		}
	}
	var best *shared
	at = -1
	for lead := range t {
		s, no, stands := t.led(lead)
		switch {
		case s != nil && (best == nil || s.cost < best.cost):
			best = s
		case s == nil && at < 0:
			why, at = no, stands
		}
	}
	if best == nil {
		return why, at
	}
	for i, r := range t {
		r.fixed, r.wears, r.Visit.Passes = best.sets, best.wears[i], nil
		r.write(best.steps[i], first)
		r.holds(&way{})
		if i > 0 {
			r.Once((r.Visit.Clear - t[i-1].Visit.End).MM())
		}
	}
	for i, r := range t {
		if why := r.Misses(); !why.None() {
			return why, i
		}
	}
	return fact.Fact{}, -1
}

// led is the chain that one of the bores leads, or why there is none, and in which bore.
func (t Together) led(lead int) (s *shared, why fact.Fact, at int) {
	env := *t[lead]
	for _, r := range t {
		env.rLeast, env.rMost = min(env.rLeast, r.rLeast), max(env.rMost, r.rMost)
	}
	origin := &chain{rMost: env.rMost, tip: env.Visit.Stands.At.MM()}
	best := env.find(origin, env.rLeast)
	if best == nil {
		env.AnyMove, why = true, fact.New(schedule.NoOrder)
		if !env.plan.Brief && !env.plan.Untold { // else nobody reads why the bores are planned apart
			why = env.diagnose(origin, env.rLeast)
		}
		return nil, why, lead
	}
	steps := best.steps()
	s = &shared{cost: best.cost}
	aim := len(steps) - 1
	if aim > 0 && steps[aim].kind == schedule.Spring {
		aim--
	}
	for range 3 {
		s.steps = nil
		for range t {
			s.steps = append(s.steps, slices.Clone(steps))
		}
		s.wears = t.wearing(s.steps)
		env.wears = s.wears[lead]
		s.sets = env.settings(steps)
		off := t.follow(s)
		if math.IsNaN(off) {
			return nil, fact.New(schedule.TogetherThin), -1
		}
		if steps[aim].kind < schedule.Finish && steps[aim].kind != schedule.Spring || math.Abs(off) < 1e-4 {
			break
		}
		for i := aim; i < len(steps); i++ {
			steps[i].made -= off
		}
	}
	for i, r := range t {
		by := *r
		by.wears = s.wears[i]
		rLeast := r.rLeast
		for n, st := range s.steps[i] {
			if v := by.judge(s.steps[i], n, rLeast, st.depth, st.feed); v.Ratio > pass.PastMost {
				return nil, fact.New(schedule.TogetherPast, fact.Name(st.kind.String()), r.LimitOf(v)), i
			}
			rLeast = st.made
		}
	}
	return s, fact.Fact{}, -1
}

// follow works out what the settings of a chain make of each bore, and how far the middle of
// the sizes that come out, of the smallest and the largest bore, lies over the size aimed at, mm
// of radius. NaN: a pass does not cut in one of them.
func (t Together) follow(s *shared) (off float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for i, r := range t {
		by := *r
		by.wears = s.wears[i]
		rLeast, rMost := r.rLeast, r.rMost
		for n := range s.steps[i] {
			st := &s.steps[i][n]
			in := by.in(n)
			stroke := in.strokeFor(*st)
			first, second := stroke.Take(s.sets[n].MM()/2, rLeast)
			if !(first > 0) {
				return math.NaN()
			}
			st.depth = first + second
			st.made = rLeast + st.depth
			st.rMostAfter = stroke.Left(rLeast, rMost, st.made)
			rLeast, rMost = pass.Bored(st.kind, stroke, rLeast, rMost, st.made)
		}
		mid := (rLeast + rMost) / 2
		low, high = min(low, mid), max(high, mid)
	}
	return (low+high)/2 - t[0].Aim
}

// wearing is the edge in each pass of a chain, bore by bore: it goes on from one to the next,
// and is honed in front of the first alone.
func (t Together) wearing(steps [][]step) (out []setup.ChainWear) {
	var runs [][]setup.Run
	for i, r := range t {
		runs = append(runs, r.runs(steps[i]))
	}
	for _, w := range t[0].Through(t[0].FlankFound(), runs) {
		out = append(out, w)
	}
	return out
}
