package passes

import (
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// holds puts stops to measure where they pay: after the witness cut, because
// the set-up is judged by it; after the last pass, because the bore is; and
// before the last pass when what the stop saves in missed bores, by the chance of
// landing, is worth more than its minutes.
func (r *Planner) holds(w *way) {
	if r.plan.Trials && len(r.Visit.Passes) > 0 && r.Visit.Part != schedule.Roughing {
		if w.budget == nil {
			w.budget = r.landing().Budget(r.Job.Units)
		}
		r.Visit.Budget = w.budget
		r.Visit.Budget.Voice = fact.New(r.Visit.Voice())
	}
	ps := r.Visit.Passes
	for i := range ps {
		p := &ps[i]
		switch {
		case i == len(ps)-1 && r.Visit.Part == schedule.Roughing:
			then := schedule.GaugeRested
			if len(r.Visit.Together) > 0 {
				then = schedule.RestedAll
			}
			p.Hold = r.Hold(fact.New(then), pass.Gauge(p))
		case i == len(ps)-1:
			p.Hold = r.LastHold(p)
		case p.Kind == schedule.Witness:
			p.Hold = r.WitnessHold(p)
		case p.Kind == schedule.SemiFinish && r.Pays():
			p.Hold = r.MeasuredHold(p)
		case p.Kind == schedule.SemiFinish:
			r.unmeasured()
		}
	}
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
		below, above := r.Blind(c, r.wears.Moves(i))
		more := p.Taper.MM()/2 + r.AcrossOf(p, c)
		p.Low = qty.Diameter(u.Round(p.Expected.Length() - qty.FromMM(below+more+r.Rubs(c))))
		p.High = qty.Diameter(u.Round(p.Expected.Length() + qty.FromMM(above+more)))
	}
}
