package passes

import (
	"fmt"

	"borewright/process/qty"
)

// slipRate is how often a cutter is set wrong outright, by a turn of the dial or a
// digit: 3 in 100. A hold catches it. Common practice, no source.
const slipRate = 0.03

// holds puts stops to measure where they pay: after the witness cut, because
// the set-up is judged by it; after the last pass, because the bore is; and
// before the last pass when what the stop saves in missed bores is worth more
// than its minutes.
func (r *Planner) holds() {
	ps := r.v.Passes
	for i := range ps {
		p := &ps[i]
		switch {
		case i == len(ps)-1:
			p.Hold = r.lastHold(p)
		case p.Kind == Witness:
			p.Hold = r.witnessHold(p)
		case p.Kind == SemiFinish && r.pays():
			p.Hold = r.measuredHold(p)
		case p.Kind == SemiFinish:
			r.unmeasured()
		}
	}
}

// pays is whether measuring before the last pass is worth its time.
func (r *Planner) pays() bool {
	b := r.v.Budget
	if b == nil {
		return true
	}
	saved := (b.Chance - b.Blind + slipRate) * missMinutes
	return saved > r.Job.Limits.HoldMinutes || b.Blind < 0.9973 // three sigma
}

// unmeasured states the last passes as they are when nothing is measured before
// them.
func (r *Planner) unmeasured() {
	r.v.Budget.Chance, r.v.Budget.Gain = r.v.Budget.Blind, 0
	for i := range r.v.Passes {
		p := &r.v.Passes[i]
		if p.Kind != Finish && p.Kind != Spring {
			continue
		}
		u := r.Job.Units
		doubt := r.doubtBlind(p.Spring.MM()) + p.Taper.MM()/2 + p.OutOfRound.MM()
		p.Low = qty.Diameter(u.Round(p.Expected.Length() - qty.FromMM(doubt)))
		p.High = qty.Diameter(u.Round(p.Expected.Length() + qty.FromMM(doubt)))
	}
}

// gauge is the line that every hold asks for.
func (r *Planner) gauge(p *Pass) string {
	u := r.Job.Units
	return fmt.Sprintf("diameter at both ends, two clock positions: expect %s to %s",
		u.Format(p.Low.Length()), u.Say(p.High.Length()))
}

func (r *Planner) lastHold(p *Pass) *Hold {
	u := r.Job.Units
	return &Hold{
		Minutes: r.Job.Limits.HoldMinutes,
		Measure: []string{
			r.gauge(p),
			fmt.Sprintf("limits %s, Ra %s, roundness %s", u.SayLimits(r.v.Limits.Low, r.v.Limits.High), u.Say(qty.Roughness(r.v.Ra)), u.Say(r.v.Roundness)),
		},
		Then: "Leave the set-up standing until the bore is accepted.",
	}
}

func (r *Planner) witnessHold(p *Pass) *Hold {
	return &Hold{
		Minutes: r.Job.Limits.HoldMinutes,
		Measure: []string{
			"where round the clock the cutter marked and where it did not",
			"wall or pitch from the witness band to the datum, at 12, 3, 6 and 9 o'clock",
			r.gauge(p) + " where it cut",
		},
		Then: "Do not go on unless the band stands true to the line of bores; move the work and take it again.",
	}
}

// measuredHold says what to do with the size found: shift the next setting by
// the share that makes the most of it. Not by all: what the setting missed this
// time it will not miss alike the next, and a heavier cut springs more than the
// finish will.
func (r *Planner) measuredHold(p *Pass) *Hold {
	u := r.Job.Units
	then := fmt.Sprintf("Spring seen = setting minus size found; planned %s. ", u.Say(qty.Fine(p.Spring)))
	gain := 1.0
	if r.v.Budget != nil {
		gain = r.v.Budget.Gain
	}
	switch {
	case gain >= 0.95:
		then += fmt.Sprintf("Where the bore came out larger than %s, set the next pass smaller by as much; where smaller, larger.", u.Say(p.Expected.Length()))
	case gain < 0.05:
		then += "Keep the next setting: the finish springs so little that what was found here does not carry over."
	default:
		then += fmt.Sprintf("Where the bore came out larger than %s, set the next pass smaller by %.1f times the difference; where smaller, larger.",
			u.Say(p.Expected.Length()), gain) // in an inch shop, tenths are 0.0001 in
	}
	return &Hold{Minutes: r.Job.Limits.HoldMinutes, Measure: []string{r.gauge(p)}, Then: then}
}
