package passes

import (
	"math"

	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// settings are those of a chain, each such that a hand can make it. A setting exceeds
// the size to be made by the spring, and what one pass leaves too much or too little
// the next one takes. Where the origin floats it is moved until the finish is met.
func (r *Planner) settings(steps []step) []qty.Diameter {
	if r.fixed != nil {
		return r.fixed
	}
	last := len(steps) - 1
	if last >= 0 && steps[last].kind == schedule.Spring {
		last--
	}
	l := r.Lattice(last >= 0 && r.wears[0].Honed, last+1)
	var out []qty.Diameter
	for range 6 {
		out = out[:0]
		rLeast, rMost := r.rLeast, r.rMost
		for i, st := range steps {
			r := r.in(i)
			stroke := r.strokeFor(st)
			made := st.made
			if st.kind == schedule.Finish && i == len(steps)-1 { // aim with the middle of what is left uneven
				made -= (stroke.Left(rLeast, rMost, made) - made) / 2
			}
			set := qty.Diameter(r.Job.Units.Round(qty.FromMM(2 * stroke.SettingFor(rLeast, made))))
			switch {
			case st.kind == schedule.Spring: // nothing is touched
				set = out[i-1]
			case l.Floats && i == last:
			default:
				if i == last {
					l.Step = l.Finest
				}
				from := r.Visit.Stands.At
				if i > 0 {
					from = out[i-1]
				}
				if r.wears[i].Honed { // set anew
					from = 0
				}
				set = r.settable(l.Near(set, r.Job.Units), from, stroke, steps, i, rLeast)
			}
			out = append(out, set)
			in, out2 := stroke.Take(set.MM()/2, rLeast)
			made = rLeast + in + out2
			rLeast, rMost = pass.Bored(st.kind, stroke, rLeast, rMost, made)
		}
		if !l.Floats {
			return out
		}
		// Once the finish lies on the lattice that it is the origin of, all do.
		l.Floats = out[last].Length() != l.Origin
		l.Origin = out[last].Length()
	}
	return out
}

// strokeFor is the stroke of a step.
func (r *Planner) strokeFor(st step) setup.Stroke {
	return r.StrokeAt(st.feed, st.pick.At(st.made), st.made, r.Visit.OutAfter(st.kind))
}

// settable is the nearest of the settings that a hand can make which keeps the limits of the
// pass, opens the cutter from where it stands, and leaves a finish that keeps its own; where
// none does, the one that is past them least.
func (r *Planner) settable(on [4]qty.Diameter, from qty.Diameter, stroke setup.Stroke, steps []step, i int, rLeast float64) qty.Diameter {
	best, least := on[0], math.Inf(1)
	for _, set := range on {
		in, second := stroke.Take(set.MM()/2, rLeast)
		if in <= 0 {
			continue
		}
		past := r.nears(steps, i, rLeast, in+second)
		if move := (set.Minus(from) + r.Job.Round(0.001, 0.0001)).MM(); from > 0 && !r.AnyMove && move < r.LeastMove() { // but for what is printed
			past = math.Max(past, r.LeastMove()/math.Max(move, 1e-9))
		}
		if past <= 1+1e-9 {
			return set
		}
		if past < least {
			best, least = set, past
		}
	}
	return best
}

// nears is how near a step cut so deep comes to its limits, and a finish after it to its own: above
// 1 is past them.
func (r *Planner) nears(steps []step, i int, rLeast, depth float64) float64 {
	st := steps[i]
	cut := func(st step, depth, radius float64) pass.Cut {
		c := r.CutFor(depth, st.feed, st.pick, radius, r.Visit.OutAfter(st.kind))
		c.Moves = r.wears.Moves(i)
		return c
	}
	c := cut(st, depth, rLeast+depth)
	c.Left = r.Aim - c.Radius
	switch st.kind {
	case schedule.Rough:
		return r.RoughVerdict(c).Ratio
	case schedule.SemiFinish:
		near := r.SemiVerdict(c).Ratio
		if i+1 < len(steps)-1 { // a spring pass takes up what differs
			return near
		}
		next := steps[i+1]
		return math.Max(near, r.FinishVerdict(cut(next, r.Aim-c.Radius, r.Aim), c, math.Max(0, next.rMostAfter-next.made)).Ratio)
	}
	return 0
}

// spared is the chain of least cost that keeps so many times as far from a limit as a pass
// went past it, and twice as much again to spare; nil: there is none. anyMove: it moves
// the cutter by little.
func (r *Planner) spared(at *schedule.Pass, l schedule.Limit, origin *chain, start float64) (best *chain, anyMove bool) {
	job, setUp, less := *r.Job, *r.Setup, *r
	setUp.Job, less.Setup = &job, &setUp
	most := &job.Limits.SpringRough
	if at.Kind >= schedule.Spring {
		job.Limits.SpringFinish, job.Limits.SpringUsual = r.Visit.SpringMost(&job.Limits), false
		most = &job.Limits.SpringFinish
	}
	switch times := 1 + 3*(l.Used-1); l.What.Kind {
	case schedule.LimitSpring:
		*most = qty.FromMM(most.MM() / times)
	case schedule.LimitRub:
		less.Thicker = times
	default:
		return nil, false
	}
	best = less.find(origin, start)
	return best, less.AnyMove
}
