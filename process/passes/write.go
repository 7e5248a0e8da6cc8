package passes

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// write works the chosen chain out exactly and fills in the visit's passes,
// numbered from first.
func (r *Planner) write(steps []step, first int) {
	rLeast, rMost := r.rLeast, r.rMost
	stands := r.Visit.Stands.At
	if r.fixed == nil {
		r.wears = r.wearing(steps)
	}
	for i, set := range r.settings(steps) {
		r := r.in(i)
		if r.wears[i].Honed {
			stands = 0
		}
		p := r.pass(stands, set, rLeast, rMost, steps, i)
		p.N, p.Edge, p.Land = first+i, r.wears[i], r.landOf(i)
		stands = set
		c := r.planned(p)
		p.Stability = r.StabilityOf(c, p.Land)
		stroke, made := r.strokeOf(p), rLeast+p.Depth.MM()+p.OutDepth.MM() // where it cut
		most := stroke.Left(rLeast, rMost, made)
		p.Hone = r.hone(p, steps, i, rLeast, made)
		p.OutOfRound = qty.FromMM(most - made + r.Uneven(c))
		r.size(p, c, i, made, most)
		rLeast, rMost = pass.Bored(p.Kind, stroke, rLeast, rMost, made)
		r.Visit.Passes = append(r.Visit.Passes, *p)
	}
}

// pass works one step out, cut with the cutter set so, from where it stood.
func (r *Planner) pass(from, setting qty.Diameter, rLeast, rMost float64, steps []step, i int) *schedule.Pass {
	st := steps[i]
	out, stroke := r.Visit.OutAfter(st.kind), r.strokeFor(st)
	p := &schedule.Pass{
		Kind:    st.kind,
		Out:     out,
		Setting: setting, Set: r.SetOf(from, setting),
		Feed: qty.FromMM(st.feed), Speed: qty.RevPerMin(st.pick.RPM),
	}
	depth, second := stroke.Take(p.Setting.MM()/2, rLeast)
	c := r.CutOf(stroke, depth, second, st.feed, st.pick, st.made)
	f := c.Force
	p.Depth, p.OutDepth, p.OutRadial = qty.FromMM(depth), qty.FromMM(second), qty.Force(c.Back.Radial)
	p.Cutting = p.Speed.At(p.Setting)
	p.CuttingForce, p.FeedForce, p.RadialForce = qty.Force(f.Cutting), qty.Force(f.Feed), qty.Force(f.Radial)
	p.Spring, p.SpringIn = qty.FromMM(r.Spring(c)), qty.FromMM(2*stroke.In(depth))
	p.Power = qty.Power(f.Cutting * float64(p.Cutting) / 60)
	p.Torque = qty.Torque(f.Cutting * p.Setting.MM() / 2000)
	p.Stress = r.Stress(f, st.made, setup.In)
	p.Ra = qty.FromMM(r.RoughnessOf(c))
	p.Minutes = r.MinutesOf(st.feed, st.pick.RPM, p.Out)
	if st.kind == schedule.Witness {
		p.Minutes = r.WitnessMinutes(st.feed, st.pick.RPM, p.Out)
		b := r.Band()
		b.Bare = r.Bare(b, r.st, rLeast+depth+second)
		p.Band = &b
	}
	p.Taper = qty.FromMM(r.Taper(c))
	p.Limits = r.limitsOf(steps, i, rLeast, depth+second, r.Opened(p, from))
	p.LimitedBy = r.boundBy(st, depth+second, rLeast, steps, i)
	return p
}

// strokeOf is the stroke of a planned pass.
func (r *Planner) strokeOf(p *schedule.Pass) setup.Stroke {
	return r.StrokeAt(p.Feed.MM(), float64(p.Cutting), p.Setting.MM()/2, p.Out)
}

// planned is a planned pass as the limits see it.
func (r *Planner) planned(p *schedule.Pass) pass.Cut {
	pick := pass.Pick{RPM: float64(p.Speed), Speed: float64(p.Cutting)}
	return r.CutOf(r.strokeOf(p), p.Depth.MM(), p.OutDepth.MM(), p.Feed.MM(), pick, p.Setting.MM()/2)
}

// after is the bore that a pass leaves, its least and its most radius.
func (r *Planner) after(p *schedule.Pass, rLeast, rMost float64) (float64, float64) {
	return pass.Bored(p.Kind, r.strokeOf(p), rLeast, rMost, rLeast+p.Depth.MM()+p.OutDepth.MM())
}

// size is what the gauge should say after a pass and how far it may be out.
// Before the first measured pass the spring is only as well known as the force
// model; the finish follows a measured cut.
func (r *Planner) size(p *schedule.Pass, c pass.Cut, i int, rLeast, rMost float64) {
	expected := rLeast + rMost // two-point diameter of a bore that far out of round, in the middle
	swing := r.SwingsOf(c)
	below, above := r.Blind(c, r.wears.Moves(i))
	if before := r.measuredBefore(); before >= 0 && p.Kind >= schedule.Spring {
		was := r.in(before)
		below = r.WearTaper(c) + r.DoubtMeasured(was.SwingsOf(was.planned(&r.Visit.Passes[before])), swing, r.wears.Moves(before))
		above = below
	} else if p.Kind >= schedule.Spring {
		below = r.WearTaper(c) + r.DoubtLearned(swing)
		above = below
	}
	more := p.Taper.MM()/2 + r.AcrossOf(p, c)
	if p.Band != nil { // it is gauged where it cut
		expected, more = 2*rLeast, p.Taper.MM()/2+r.Across(c)
	}
	u := r.Job.Units
	p.Expected = qty.Diameter(u.Round(qty.FromMM(expected)))
	p.Low = qty.Diameter(u.Round(qty.FromMM(expected - below - more - r.Rubs(c))))
	p.High = qty.Diameter(u.Round(qty.FromMM(expected + above + more)))
}

// measuredBefore is which of the passes so far was measured last and has a spring
// that counts for those after it; -1: none.
func (r *Planner) measuredBefore() int {
	for i := len(r.Visit.Passes) - 1; i >= 0; i-- {
		if r.Visit.Passes[i].Kind == schedule.SemiFinish {
			return i
		}
	}
	return -1
}

// judge holds a pass against its limits, cut to another depth or at another feed.
func (r *Planner) judge(steps []step, i int, rLeast, depth, feed float64) pass.Verdict {
	st := steps[i]
	gather := r.Gather
	cut := func(n int, depth, radius float64, moves int) pass.Cut {
		st, r := steps[n], r.in(n)
		c := r.CutFor(depth, feed, st.pick, radius, r.Visit.OutAfter(st.kind))
		c.Moves = moves
		if st.kind >= schedule.Spring {
			c.Sings = r.Sings(r.StabilityOf(c, r.LastLand()))
		}
		return r.Swung(c)
	}
	c := cut(i, depth, rLeast+depth, r.wears.Moves(i))
	c.Left = r.Aim - c.Radius
	left := math.Max(0, st.rMostAfter-st.made)
	before := func(i int) pass.Cut { return cut(i, steps[i].depth, steps[i].made, r.wears.Moves(i)) }
	from := r.Visit.Stands.At.MM()
	switch {
	case i < len(r.wears) && r.wears[i].Honed: // set anew
		from = 0
	case i > 0:
		from = r.in(i - 1).TipAfter(before(i - 1))
	}
	r = r.in(i)
	r.Gather = gather
	switch {
	case st.kind == schedule.Rough:
		v := r.RoughVerdict(c)
		r.Opens(&v, c, from)
		return v
	case st.kind == schedule.Witness || st.kind == schedule.SemiFinish:
		v := r.SemiVerdict(c)
		r.Opens(&v, c, from)
		return v
	case i == 0 && len(steps) > 1: // the size is that after the spring pass
		again := steps[1]
		return r.OnlySprung(c, cut(1, again.depth, r.Aim, r.wears.Moves(0)), math.Max(0, again.rMostAfter-again.made), 0)
	case i == 0:
		return r.OnlyVerdict(c, left, r.Missed(c, left))
	case i == 1 && st.kind == schedule.Spring:
		doubt, half := r.OnlyDoubt(c, left, r.Missed(c, left))
		return r.LastVerdict(c, left, doubt, half)
	case st.kind == schedule.Spring && i > 1:
		doubt, half := r.FinishDoubt(c, before(i-2), left)
		return r.LastVerdict(c, left, doubt, half)
	case i < len(steps)-1: // the size is that after the spring pass
		again := steps[i+1]
		return r.SpringVerdict(c, cut(i+1, again.depth, r.Aim, r.wears.Moves(i)), before(i-1), math.Max(0, again.rMostAfter-again.made))
	}
	return r.FinishVerdict(c, before(i-1), left)
}

// limitsOf are the limits that a pass keeps, the nearest first, each once. opened: how far the
// cutter is opened for it, as it is set.
func (r *Planner) limitsOf(steps []step, i int, rLeast, depth, opened float64) []schedule.Limit {
	var all []pass.Verdict
	r.Gather = &all
	r.judge(steps, i, rLeast, depth, steps[i].feed)
	r.Gather = nil
	for n := range all {
		if v := &all[n]; v.By == schedule.LimitMove {
			v.Limit, v.Ratio = opened, v.Value/opened
		}
	}
	slices.SortStableFunc(all, func(a, b pass.Verdict) int { return cmp.Compare(b.Ratio, a.Ratio) })
	var out []schedule.Limit
	seen := map[fact.Kind]bool{}
	for _, v := range all {
		if !seen[v.By] && !math.IsInf(v.Ratio, 1) {
			out = append(out, schedule.Limit{What: r.LimitOf(v), Used: v.Ratio})
		}
		seen[v.By] = true
	}
	return out
}

// boundBy says what kept the pass from being quicker: what the next feed up,
// or a deeper cut, would have run into.
func (r *Planner) boundBy(st step, depth, rLeast float64, steps []step, i int) fact.Fact {
	switch st.kind {
	case schedule.Witness:
		b := r.Band()
		return fact.New(schedule.ForWitness, fact.Figure(b.From), fact.Figure(b.To))
	case schedule.SemiFinish:
		return fact.New(schedule.ByFinishFeed)
	case schedule.Spring:
		return fact.New(schedule.ByFinishSet)
	}
	judge := func(depth, feed float64) pass.Verdict { return r.judge(steps, i, rLeast, depth, feed) }
	for _, feed := range r.Feeds {
		if feed <= st.feed*(1+1e-9) {
			continue
		}
		if v := judge(depth, feed); !v.OK() {
			return fact.New(schedule.AtNextFeed, r.LimitOf(v), fact.MM(feed))
		}
		if st.kind == schedule.Rough && r.Quieter(depth, st.feed, feed, st.pick, rLeast+depth, r.Visit.RoughOut) {
			return fact.New(schedule.ByQuiet, fact.MM(feed))
		}
		break
	}
	if st.kind == schedule.Rough {
		_, pitch := r.GridFor(r.rLeast, r.Aim)
		if v := judge(depth+pitch, st.feed); !v.OK() {
			return fact.New(schedule.IfDeeper, r.LimitOf(v), fact.MM(pitch))
		}
		return fact.New(schedule.ByStock)
	}
	return fact.New(schedule.ByMachineFeeds)
}
