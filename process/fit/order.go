package fit

import (
	"borewright/process/fact"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

// Step is one step of the order of work. At a hold point nothing goes on
// before the measurement is written down and found good.
type Step struct {
	Text fact.Fact
	Hold bool
}

// steps writes the order of work for the option taken (in place, when neither
// lands).
func (in SleeveInput) steps(r SleeveResult) []Step {
	var out []Step
	do := func(k fact.Kind, args ...fact.Arg) { out = append(out, Step{Text: fact.New(k, args...)}) }
	hold := func(k fact.Kind, args ...fact.Arg) { out = append(out, Step{Text: fact.New(k, args...), Hold: true}) }

	o := r.BoredHere
	if r.Choice == FinishBefore {
		o = r.FinishedBefore
	}
	if in.Found[0] > 0 {
		do(HousingBored, fact.Size(in.Found[0]), fact.Size(in.Found[1]))
	} else {
		do(BoreHousing, fact.Size(r.HousingLow), fact.Size(r.HousingHigh))
		hold(MeasureHousing)
	}
	turn := fact.New(TurnByLimits, fact.Size(r.OutsideLow), fact.Size(r.OutsideHigh))
	if in.Match > 0 {
		to := fact.New(TurnAbout, fact.Size(r.OutsideLow), fact.Size(r.OutsideHigh))
		if low, high, ok := in.ForHousing(r.Clearance); ok {
			to = fact.New(TurnToThisOne, fact.Size(low), fact.Size(high))
		}
		over := r.Clearance.Interference()
		turn = fact.New(TurnOver, fact.Figure(over.Least), fact.Figure(over.Most), to)
		if r.Clearance.Least > 0 {
			turn = fact.New(TurnUnder, fact.Figure(r.Clearance.Least), fact.Figure(r.Clearance.Most), to)
		}
	}
	do(TurnSleeve, turn, fact.Size(o.Inside[0]), fact.Size(o.Inside[1]))
	if in.Bond == nil {
		do(StepLeadIn, r.LeadIn.Why)
		over := r.Clearance.Interference()
		hold(MeasureOver, fact.Figure(over.Least), fact.Figure(over.Most))
		if in.Press.Blind {
			do(StepVent)
		}
		do(StepAssemble, possible(r.Assembled.Ways))
		do(StepTap)
		w := in.Press.Hub.Wall
		hold(MeasureClosed, fact.Figure(o.Closure.Least), fact.Figure(o.Closure.Most),
			unless(o.Uneven == 0, fact.Figure(o.Uneven)), unless(o.Uneven == 0 || !w.Read, fact.Figure(qty.KindClock.Of(w.At))))
	} else {
		hold(MeasureUnder, fact.Figure(r.Clearance.Least), fact.Figure(r.Clearance.Most))
		do(StepBond)
		hold(StepStrength)
	}
	if o.Order == BoreInPlace {
		do(StepBoreInPlace, fact.Figure(o.Stock.Least), fact.Figure(o.Stock.Most))
	}
	hold(MeasureFinished, fact.Size(in.BoreLow), fact.Size(in.BoreHigh))
	return out
}

// larger is how much the housing as measured stands over its high limit, where the
// sleeve is turned to it; on diameter.
func (in SleeveInput) larger(high qty.Diameter) qty.Length {
	if in.Match <= 0 {
		return 0
	}
	return max(0, in.Found[1].Minus(high))
}

// ForHousing is what the outside is turned to for the housing as measured: its
// middle less the clearance. False where it was not measured, or where the
// sleeve is made by limits alone.
func (in SleeveInput) ForHousing(clearance iso286.Range) (low, high qty.Diameter, ok bool) {
	if in.Found[0] <= 0 || in.Match <= 0 {
		return 0, 0, false
	}
	middle := in.Found[0].Plus(in.Found[1].Minus(in.Found[0]) / 2)
	return middle.Plus(-clearance.Most), middle.Plus(-clearance.Least), true
}

// possible lists the methods that can be; nil where none can.
func possible(ways []Assembly) fact.Arg {
	var out []fact.Fact
	for _, w := range ways {
		if w.Possible {
			out = append(out, fact.New(MethodNamed, fact.Name(w.Method.String())))
		}
	}
	return fact.List(out...)
}
