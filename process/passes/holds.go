package passes

import (
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// slipRate is how often a cutter is set wrong outright, by a turn of the dial or a
// digit: 3 in 100. A hold catches it. Common practice, no source.
const slipRate = 0.03

// holds puts stops to measure where they pay: after the witness cut, because
// the set-up is judged by it; after the last pass, because the bore is; and
// before the last pass when what the stop saves in missed bores is worth more
// than its minutes.
func (r *Planner) holds() {
	ps := r.Visit.Passes
	for i := range ps {
		p := &ps[i]
		switch {
		case i == len(ps)-1 && r.Visit.Part == schedule.Roughing:
			then := schedule.GaugeRested
			if r.fixed != nil {
				then = schedule.RestedAll
			}
			p.Hold = r.hold(fact.New(then), gauge(p))
		case i == len(ps)-1:
			p.Hold = r.lastHold(p)
		case p.Kind == schedule.Witness:
			p.Hold = r.witnessHold(p)
		case p.Kind == schedule.SemiFinish && r.pays():
			p.Hold = r.measuredHold(p)
		case p.Kind == schedule.SemiFinish:
			r.unmeasured()
		}
	}
}

// pays is whether measuring before the last pass is worth its time.
func (r *Planner) pays() bool {
	b := r.Visit.Budget
	if b == nil || r.fixed != nil { // one stop is for all bores of the setting
		return true
	}
	saved := (b.Chance - b.Blind + slipRate) * pass.MissMinutes
	return saved > r.Job.Limits.HoldMinutes || b.Blind < 0.9973 // three sigma
}

// unmeasured states the last passes as they are when nothing is measured before
// them.
func (r *Planner) unmeasured() {
	r.Visit.Budget = r.Visit.Budget.Unmeasured()
	for i := range r.Visit.Passes {
		p := &r.Visit.Passes[i]
		if p.Kind != schedule.Finish && p.Kind != schedule.Spring {
			continue
		}
		u := r.Job.Units
		r := r.in(i)
		c := r.planned(p)
		below, above := r.Blind(c, r.wears.moves(i))
		more := p.Taper.MM()/2 + r.across(p, c)
		p.Low = qty.Diameter(u.Round(p.Expected.Length() - qty.FromMM(below+more+r.Rubs(c))))
		p.High = qty.Diameter(u.Round(p.Expected.Length() + qty.FromMM(above+more)))
	}
}

// gauge is the measuring that every hold asks for.
func gauge(p *schedule.Pass) fact.Fact {
	return fact.New(schedule.GaugeEnds, fact.Figure(p.Low.Length()), fact.Figure(p.High.Length()))
}

func (r *Planner) lastHold(p *schedule.Pass) *schedule.Hold {
	return r.hold(fact.New(schedule.LeaveSetUp), gauge(p), fact.New(schedule.AgainstLimits,
		fact.Figure(r.Visit.Limits.Low), fact.Figure(r.Visit.Limits.High), fact.Figure(qty.Roughness(r.Visit.Ra)), fact.Figure(r.Visit.Roundness)))
}

func (r *Planner) witnessHold(p *schedule.Pass) *schedule.Hold {
	var bare fact.Arg
	if p.Band.Bare > p.High { // else the window where it cut holds it
		bare = fact.Figure(p.Band.Bare.Length())
	}
	return r.hold(fact.New(schedule.BandMustBeTrue), fact.New(schedule.WhereMarked), fact.New(schedule.WallToDatum),
		fact.New(schedule.GaugeWhereCut, fact.Figure(p.Low.Length()), fact.Figure(p.High.Length()), bare))
}

// measuredHold says what to do with the size found: shift the next setting by
// the share that makes the most of it, to what can be set. By increment that is all
// but what the gauge is unsure of and a heavier cut springs more than the finish will.
// Set anew, what the setting missed this time it will not miss alike the next.
func (r *Planner) measuredHold(p *schedule.Pass) *schedule.Hold {
	gain := 1.0
	if r.Visit.Budget != nil {
		gain = r.Visit.Budget.Gain
	}
	spring, expected, step := fact.Figure(qty.Fine(p.Spring)), fact.Figure(p.Expected.Length()), fact.Figure(qty.Plain(r.Job.ReadsTo()))
	if r.ByIncrement() {
		step = fact.New(schedule.HalfGraduation)
	}
	switch {
	case r.fixed != nil && gain >= 0.05:
		return r.hold(fact.New(schedule.ShiftMiddle, spring, fact.Value(qty.KindRatio, gain), step), gauge(p))
	case gain >= 0.95:
		return r.hold(fact.New(schedule.ShiftAll, spring, expected, step), gauge(p))
	case gain < 0.05: // so little spring that what is found here does not carry over
		return r.hold(fact.New(schedule.KeepNextSetting, spring), gauge(p))
	}
	return r.hold(fact.New(schedule.ShiftByShare, spring, expected, fact.Value(qty.KindRatio, gain), step), gauge(p))
}

func (r *Planner) hold(then fact.Fact, measure ...fact.Fact) *schedule.Hold {
	return &schedule.Hold{Minutes: r.Job.Limits.HoldMinutes, Measure: measure, Then: then}
}
