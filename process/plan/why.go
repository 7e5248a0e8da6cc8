package plan

import (
	"fmt"

	"borewright/process/fact"
	"borewright/process/passes"
	"borewright/process/qty"
)

// Why is one choice of the plan held against a rule of thumb.
type Why struct {
	Bore, Visit, Pass int       // indexes into the plan; Pass is the pass's number, 0: the whole visit
	Rule              string    // the rule of thumb, with its source
	Here              string    // what the plan does
	Because           fact.Fact // why, where it leaves the rule; nothing: it keeps it
}

// Figures of the rules of thumb, radial or on diameter as the rule has it, mm.
// Sources stand in the rules' words.
const (
	ruleRoughLeast, ruleRoughMost   = 1.5, 5.0
	ruleSemiLeast, ruleSemiMost     = 0.4, 1.0 // on diameter
	ruleFeedLeast, ruleFeedMost     = 0.05, 0.15
	ruleHSSLeast, ruleHSSMost       = 0.1, 0.4 // finish stock on diameter
	ruleCarbLeast, ruleCarbMost     = 0.2, 0.5
	ruleRoughFeedLeast, ruleFeedTop = 0.25, 0.64
)

// Why holds every choice of a feasible plan against the rules of thumb of the
// trade and explains each that leaves its rule.
func (p *Plan) Why() []Why {
	var out []Why
	for i := range p.Bores {
		for k := range p.Bores[i].Visits {
			w := ruleCheck{p: p, v: &p.Bores[i].Visits[k], bore: i, visit: k}
			w.visitWide()
			for n := range w.v.Passes {
				w.pass(n)
			}
			out = append(out, w.out...)
		}
	}
	return out
}

type ruleCheck struct {
	p           *Plan
	v           *Visit
	bore, visit int
	out         []Why
}

func (w *ruleCheck) add(pass int, rule, here string, because fact.Fact) {
	w.out = append(w.out, Why{Bore: w.bore, Visit: w.visit, Pass: pass, Rule: rule, Here: here, Because: because})
}

func (w *ruleCheck) visitWide() {
	job := w.p.Job
	if len(w.v.Passes) == 0 {
		return
	}
	because := ""
	if job.Bar.Outboard == nil && w.v.Overhang > job.Limits.Overhang {
		because = "the bore is as deep as it is; cuts are lighter and slower for it, and spring is allowed for in every setting. "
		u := job.Units
		step := job.Bar.Steps[passes.SlenderStep(job.Bar.Steps)].Diameter
		most := min(narrowest(job), w.v.Start)
		if fat := most - qty.Diameter(4*job.Limits.ChipRoom); fat > step {
			because += fmt.Sprintf("A bar up to %s would pass with room for chips, and springs less as the fourth power of its diameter", u.Say(u.Down(fat.Length())))
		} else {
			because += fmt.Sprintf("The bores on the way, %s at the narrowest, leave no room for a fatter one", u.Say(most.Length()))
		}
	}
	w.add(0, fmt.Sprintf("a plain bar stands out no more than %.0f diameters (two workshop articles; handbooks agree)", job.Limits.Overhang),
		fmt.Sprintf("%.1f diameters", w.v.Overhang), written(because))
	because = ""
	n := 0
	for _, q := range w.v.Passes {
		if q.Kind == passes.Spring {
			n++
		}
	}
	if n == 0 {
		because = "a spring pass would cost more minutes than it saves in doubt: the spring is measured at the hold and allowed for in the setting"
		if w.measured() == nil {
			because = "the bar springs so little that the setting alone lands the size"
		}
	}
	w.add(0, "the last cut is gone over again at the same setting (common practice, no source)", fmt.Sprintf("%d spring passes", n), written(because))
}

// measured is the pass before the last that is stopped after to measure.
func (w *ruleCheck) measured() *passes.Pass {
	for i := range w.v.Passes {
		if q := &w.v.Passes[i]; q.Kind == passes.SemiFinish && q.Hold != nil {
			return q
		}
	}
	return nil
}

func (w *ruleCheck) pass(i int) {
	q := &w.v.Passes[i]
	u := w.p.Job.Units
	mm := func(x float64) string { return u.Say(qty.FromMM(x)) }
	rng := func(lo, hi float64) string { return u.Format(qty.FromMM(lo)) + " to " + mm(hi) }
	judge := func(rule string, x, lo, hi float64, here string, less, more fact.Fact) {
		var because fact.Fact
		switch {
		case x < lo*0.999:
			because = less
		case x > hi*1.001:
			because = more
		}
		w.add(q.N, rule, here, because)
	}
	feed, depth, limit := q.Feed.MM(), q.Depth.MM(), fact.New(ForLimit, q.LimitedBy)
	switch q.Kind {
	case passes.Rough:
		judge("a roughing cut takes "+rng(ruleRoughLeast, ruleRoughMost)+" a side where the bar is no longer than 4 diameters (from memory)",
			depth, ruleRoughLeast, ruleRoughMost, mm(depth), w.slender(q), limit)
		judge("roughing feeds are "+rng(ruleRoughFeedLeast, ruleFeedTop)+" a rev (one workshop table)", feed, ruleRoughFeedLeast, ruleFeedTop, mm(feed),
			limit, limit)
	case passes.SemiFinish:
		judge("a semi-finish leaves the finish "+rng(ruleSemiLeast, ruleSemiMost)+" on diameter to work in with it (from memory)",
			2*depth, ruleSemiLeast, ruleSemiMost, mm(2*depth),
			written("it rehearses the finish: the nearer to the finish's own cut, the better its spring foretells the finish's"), limit)
	case passes.Finish:
		lo, hi, what := ruleCarbLeast, ruleCarbMost, "carbide"
		if w.p.Job.Cutter.Material.Class == "hss" {
			lo, hi, what = ruleHSSLeast, ruleHSSMost, "high-speed steel"
		}
		judge(fmt.Sprintf("a finish with %s takes %s on diameter (from memory)", what, rng(lo, hi)), 2*depth, lo, hi, mm(2*depth),
			written(fmt.Sprintf("a lighter cut springs less, %s on diameter here, and what is not known of the spring is a share of it; the edge still cuts at this depth", u.Say(qty.Fine(q.Spring)))),
			written("fewer passes, and the limits leave room for the spring"))
		judge("finishing feeds are "+rng(ruleFeedLeast, ruleFeedMost)+" a rev (from memory)", feed, ruleFeedLeast, ruleFeedMost, mm(feed),
			limit, written("the roughness asked for allows it, and a thicker chip is quieter"))
	}
	if q.Kind != passes.Spring && q.Kind != passes.Witness {
		w.speed(q)
	}
}

// slender adds to what limits a pass that a long bar takes lighter cuts, where it
// does.
func (w *ruleCheck) slender(q *passes.Pass) fact.Fact {
	share := passes.DepthShare(w.v.Overhang, w.p.Job.Bar.Outboard != nil)
	if share == 1 {
		return fact.New(ForLimit, q.LimitedBy)
	}
	return fact.New(ForLimit, q.LimitedBy, fact.Figure(qty.KindRatio.Of(w.v.Overhang)), fact.Figure(qty.KindShare.Of(share)))
}

func (w *ruleCheck) speed(q *passes.Pass) {
	job := w.p.Job
	band := w.v.Material.Speeds[job.Cutter.Material.Class]
	lo, hi := band.Finish[0], band.Finish[1]
	if q.Kind == passes.Rough {
		lo, hi = band.Rough[0], band.Rough[1]
	}
	if hi == 0 {
		return
	}
	u := job.Units
	var because fact.Fact
	switch {
	case q.Cutting < lo:
		because = fact.New(ForChatter, fact.Figure(qty.KindRatio.Of(w.v.Overhang)), q.Stability.Fact())
	case q.Cutting > hi:
		because = written("the machine has no slower speed, or the job asks for this one")
	}
	w.add(q.N, fmt.Sprintf("%s in %s cuts at %s (%s)", job.Cutter.Material.Name, w.v.Material.Name, u.SayRange(lo, hi), band.Source),
		fmt.Sprintf("%s, %.0f rev/min", u.Say(q.Cutting), float64(q.Speed)), because)
}
