package pass

import (
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Gauge is the measuring that every hold asks for.
func Gauge(p *schedule.Pass) fact.Fact {
	return fact.New(schedule.GaugeEnds, fact.Figure(p.Low.Length()), fact.Figure(p.High.Length()))
}

// LastHold is the stop after the last pass.
func (r *Judge) LastHold(p *schedule.Pass) *schedule.Hold {
	return r.Hold(fact.New(schedule.LeaveSetUp), Gauge(p), fact.New(schedule.AgainstLimits,
		fact.Figure(r.Visit.Limits.Low), fact.Figure(r.Visit.Limits.High), fact.Figure(qty.Roughness(r.Visit.Ra)), fact.Figure(r.Visit.Roundness)))
}

// WitnessHold is the stop after a witness cut.
func (r *Judge) WitnessHold(p *schedule.Pass) *schedule.Hold {
	var bare fact.Arg
	if p.Band.Bare > p.High { // else the window where it cut holds it
		bare = fact.Figure(p.Band.Bare.Length())
	}
	return r.Hold(fact.New(schedule.BandMustBeTrue), fact.New(schedule.WhereMarked), fact.New(schedule.WallToDatum),
		fact.New(schedule.GaugeWhereCut, fact.Figure(p.Low.Length()), fact.Figure(p.High.Length()), bare))
}

// MeasuredHold says what to do with the size found: shift the next setting by
// the share that makes the most of it, to what can be set. By increment that is all
// but what the gauge is unsure of and a heavier cut springs more than the finish will.
// Set anew, what the setting missed this time it will not miss alike the next.
func (r *Judge) MeasuredHold(p *schedule.Pass) *schedule.Hold {
	gain := 1.0
	if r.Visit.Budget != nil {
		gain = r.Visit.Budget.Gain
	}
	spring, expected, step := fact.Figure(qty.Fine(p.Spring)), fact.Figure(p.Expected.Length()), fact.Figure(qty.Plain(r.Job.ReadsTo()))
	if r.ByIncrement() {
		step = fact.New(schedule.HalfGraduation)
	}
	switch {
	case len(r.Visit.Together) > 0 && gain >= 0.05:
		return r.Hold(fact.New(schedule.ShiftMiddle, spring, fact.Value(qty.KindRatio, gain), step), Gauge(p))
	case gain >= 0.95:
		return r.Hold(fact.New(schedule.ShiftAll, spring, expected, step), Gauge(p))
	case gain < 0.05: // so little spring that what is found here does not carry over
		return r.Hold(fact.New(schedule.KeepNextSetting, spring), Gauge(p))
	}
	return r.Hold(fact.New(schedule.ShiftByShare, spring, expected, fact.Value(qty.KindRatio, gain), step), Gauge(p))
}

// Hold is a stop to measure, and what is done then.
func (r *Judge) Hold(then fact.Fact, measure ...fact.Fact) *schedule.Hold {
	return &schedule.Hold{Minutes: r.Job.Limits.HoldMinutes, Measure: measure, Then: then}
}

// slipRate is how often a cutter is set wrong outright, by a turn of the dial or a
// digit: 3 in 100. A hold catches it. Common practice, no source.
const slipRate = 0.03

// Pays is whether measuring before the last pass is worth its time.
func (r *Judge) Pays() bool {
	b := r.Visit.Budget
	if b == nil || len(r.Visit.Together) > 0 { // one stop is for all bores of the setting
		return true
	}
	saved := (b.Chance - b.Blind + slipRate) * MissMinutes
	return saved > r.Job.Limits.HoldMinutes || b.Blind < 0.9973 // three sigma
}
