package passes

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// setOf is what a hand does to come from one setting to the next; from is 0 where
// nothing is known to move on from.
func (r *Planner) setOf(from, to qty.Diameter) schedule.Set {
	s, m := schedule.Set{}, r.Job.Machine
	if r.ByIncrement() && from > 0 {
		s.From = from
		by := float64(to.Minus(from)) / float64(m.SetDial)
		half := 2 * int(math.Round(by))
		// Settings are rounded to what is printed, which need not be graduations.
		if off := math.Abs(by-float64(half/2)) * float64(m.SetDial); off > float64(r.Job.Round(0.001, 0.0001)) {
			half = int(math.Round(2 * by))
		}
		if m.DialTurn > 0 {
			whole := int(2 * m.DialTurn / m.SetDial)
			s.Turns, half = half/whole, half%whole
		}
		s.Graduations = float64(half) / 2
		return s
	}
	if r.Job.Cutter.SetBy != process.Preset {
		s.OverBar = r.Job.Units.Round(r.Job.OverBarAndTip(to))
	}
	return s
}

// lattice is the settings that hands can make: origin, and whole steps from there.
type lattice struct {
	origin, step qty.Length
	floats       bool // the origin may lie anywhere: it is chosen for the finish
}

// lattice is that of the visit. By increment it is whole graduations from where the
// cutter stands, or from a first setting that is chosen so that the finish is met;
// over the bar what the last figure of a micrometer gives.
func (r *Planner) lattice() lattice {
	switch r.Job.Cutter.SetBy {
	case process.Increment:
		return lattice{r.Visit.Stands.At.Length(), r.Job.Machine.SetDial, r.Visit.Stands.At == 0}
	case process.OverBar:
		return lattice{-r.Job.Cutter.Bar.Length(), r.Job.ReadsTo(), false}
	}
	return lattice{step: r.Job.ReadsTo()}
}

// near are the settings of the lattice on either side of one, the nearer first, as u
// prints them.
func (l lattice) near(d qty.Diameter, u qty.Unit) [2]qty.Diameter {
	steps := math.Floor(float64(d.Length()-l.origin) / float64(l.step))
	low := qty.Diameter(u.Round(l.origin + qty.Length(steps)*l.step))
	high := qty.Diameter(u.Round(l.origin + qty.Length(steps+1)*l.step))
	if high.Minus(d) < d.Minus(low) {
		return [2]qty.Diameter{high, low}
	}
	return [2]qty.Diameter{low, high}
}

// settings are those of a chain, each such that a hand can make it. A setting exceeds
// the size to be made by the spring, and what one pass leaves too much or too little
// the next one takes. Where the origin floats it is moved until the finish is met.
func (r *Planner) settings(steps []step) []qty.Diameter {
	l := r.lattice()
	last := len(steps) - 1
	if last >= 0 && steps[last].kind == schedule.Spring {
		last--
	}
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
			case l.floats && i == last:
			default:
				if i == last && r.ByIncrement() { // the last move is read as finely as it can be
					l.step = r.Job.ReadsTo()
				}
				set = r.settable(l.near(set, r.Job.Units), stroke, steps, i, rLeast)
			}
			out = append(out, set)
			in, out2 := stroke.Take(set.MM()/2, rLeast)
			made = rLeast + in + out2
			rLeast, rMost = bored(st.kind, stroke, rLeast, rMost, made)
		}
		if !l.floats {
			return out
		}
		// Once the finish lies on the lattice that it is the origin of, all do.
		l.floats = out[last].Length() != l.origin
		l.origin = out[last].Length()
	}
	return out
}

// strokeFor is the stroke of a step.
func (r *Planner) strokeFor(st step) setup.Stroke {
	return r.StrokeAt(st.feed, st.pick.At(st.made), st.made, r.Visit.OutAfter(st.kind))
}

// settable is the nearer of two settings that a hand can make, or the other where only
// that keeps the limits of the pass and leaves a finish that keeps its own.
func (r *Planner) settable(on [2]qty.Diameter, stroke setup.Stroke, steps []step, i int, rLeast float64) qty.Diameter {
	for _, set := range on {
		in, second := stroke.Take(set.MM()/2, rLeast)
		if in > 0 && r.keeps(steps, i, rLeast, in+second) {
			return set
		}
	}
	return on[0]
}

// keeps is whether a step cut so deep keeps its limits, and a finish after it its own.
func (r *Planner) keeps(steps []step, i int, rLeast, depth float64) bool {
	st := steps[i]
	cut := func(st step, depth, radius float64) pass.Cut {
		c := r.CutFor(depth, st.feed, st.pick, radius, r.Visit.OutAfter(st.kind))
		c.Moves = r.wears.moves(i)
		return c
	}
	c := cut(st, depth, rLeast+depth)
	c.Left = r.Aim - c.Radius
	switch st.kind {
	case schedule.Rough:
		return r.RoughVerdict(c).OK()
	case schedule.SemiFinish:
		if !r.SemiVerdict(c).OK() {
			return false
		}
		next := steps[i+1]
		if i+1 < len(steps)-1 { // a spring pass takes up what differs
			return true
		}
		return r.FinishVerdict(cut(next, r.Aim-c.Radius, r.Aim), c, math.Max(0, next.rMostAfter-next.made)).OK()
	}
	return true
}

// overSprung is the spring of the last pass where the bar is softest, as its setting leaves it,
// on what the job allows, and how many times that it is: by whole graduations it may be cut
// deeper than was searched for. 0 times: it keeps its limit, or is rounded past it by no more
// than half a hundredth.
func (r *Planner) overSprung() (spring fact.Fact, times float64) {
	if len(r.Visit.Passes) == 0 {
		return fact.Fact{}, 0
	}
	for _, l := range r.Visit.Passes[len(r.Visit.Passes)-1].Limits {
		if l.What.Kind == schedule.LimitSpring && l.Used > 1.005 {
			return l.What, l.Used
		}
	}
	return fact.Fact{}, 0
}

// sprungLess is the chain of least cost whose last pass springs so many times less than it
// may, and twice as much again to spare; nil: there is none. anyMove: it moves the cutter by
// little.
func (r *Planner) sprungLess(times float64, origin *chain, start float64) (best *chain, anyMove bool) {
	job, setUp, less := *r.Job, *r.Setup, *r
	setUp.Job, less.Setup = &job, &setUp
	job.Limits.SpringFinish = qty.FromMM(r.Job.Limits.SpringFinish.MM() / (1 + 3*(times-1)))
	best = less.find(origin, start)
	return best, less.AnyMove
}

// closing is the caution where the cutter is closed, or hardly moved, because nothing
// else lands.
func (r *Planner) closing() fact.Fact {
	from := r.Visit.Stands.At
	for i := range r.Visit.Passes {
		p := &r.Visit.Passes[i]
		if move := p.Setting.Minus(from).MM(); from > 0 && p.Kind != schedule.Spring && !p.Edge.Honed && move < r.LeastMove()-1e-6 {
			kind := schedule.MovesLittle
			if move <= 0 {
				kind = schedule.Closes
			}
			return fact.New(kind, fact.Count(p.N), fact.Figure(qty.Fine(p.Setting.Minus(from).Abs())))
		}
		from = p.Setting
	}
	return fact.Fact{}
}
