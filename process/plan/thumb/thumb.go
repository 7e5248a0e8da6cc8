// Package thumb holds the choices of a plan against the rules of thumb of the trade, and explains
// each that leaves its rule. It plans nothing.
package thumb

import (
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/ways"
)

// Why is one choice of the plan held against a rule of thumb.
type Why struct {
	Bore, Visit, Pass int       // indexes into the plan; Pass is the pass's number, 0: the whole visit
	Rule              fact.Fact // the rule of thumb, with its source
	Here              fact.Fact // what the plan does
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

// Of holds every choice of a feasible plan against the rules of thumb of the
// trade and explains each that leaves its rule.
func Of(p *plan.Plan) []Why {
	var out []Why
	for i := range p.Bores {
		for k := range p.Bores[i].Visits {
			w := ruleCheck{p: p.For(i, k), v: &p.Bores[i].Visits[k], bore: i, visit: k}
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
	p           *plan.Plan
	v           *plan.Visit
	bore, visit int
	out         []Why
}

func (w *ruleCheck) add(pass int, rule, here, because fact.Fact) {
	w.out = append(w.out, Why{Bore: w.bore, Visit: w.visit, Pass: pass, Rule: rule, Here: here, Because: because})
}

func (w *ruleCheck) visitWide() {
	job := w.p.Job
	if len(w.v.Passes) == 0 {
		return
	}
	var because fact.Fact
	if !w.v.Bar.Held && setup.Beyond(w.v.Overhang, job.Limits.Overhang) {
		step := job.Bar.Steps[setup.SlenderStep(job.Bar.Steps)].Diameter
		most := min(ways.Narrowest(job), w.v.Start)
		bar := fact.New(plan.NoFatter, fact.Figure(most.Length()))
		if fat := most - qty.Diameter(4*job.Limits.ChipRoom); fat > step {
			bar = fact.New(plan.FatterPasses, fact.Figure(job.Units.Down(fat.Length())))
		}
		because = fact.New(plan.ForDepth, bar)
	}
	w.add(0, fact.New(plan.RuleStandsOut, fact.Figure(qty.KindCount.Of(job.Limits.Overhang))), fact.New(plan.HereDiameters, fact.Value(qty.KindRatio, w.v.Overhang)), because)
	w.quiet()
	w.honed()
	n := 0
	for _, q := range w.v.Passes {
		if q.Kind == schedule.Spring {
			n++
		}
	}
	because = fact.Fact{}
	switch {
	case n > 0:
	case w.measured() == nil:
		because = fact.New(plan.ForLittleSpring)
	default:
		because = fact.New(plan.ForHold)
	}
	w.add(0, fact.New(plan.RuleSpringPass), fact.New(plan.HereSpringPasses, fact.Count(n)), because)
}

// quiet says over what ranges chatter was judged, and how the pass that is nearest to
// it stands.
func (w *ruleCheck) quiet() {
	worst := &w.v.Passes[0]
	land := worst.Land
	for i := range w.v.Passes {
		q := &w.v.Passes[i]
		land.Least, land.Most = min(land.Least, q.Land.Least), max(land.Most, q.Land.Most)
		if q.Stability.Margin[0] < worst.Stability.Margin[0] {
			worst = q
		}
	}
	var because fact.Fact
	if worst.Stability.Chatter() != setup.Quiet {
		because = fact.New(plan.ForPass, fact.Count(worst.N), worst.Stability.Fact())
	}
	m, damping := w.v.Material, w.v.Bar.Damping
	fine := func(mm float64) fact.Arg { return fact.Figure(qty.Fine(qty.FromMM(mm))) }
	w.add(0, fact.New(plan.RuleQuiet), fact.New(plan.HereDamped, fact.Value(qty.KindNumber, damping[0]), fact.Value(qty.KindNumber, damping[1]), fine(land.Least), fine(land.Most),
		fact.Value(qty.KindIndentation, m.Indentation[0]), fact.Value(qty.KindIndentation, m.Indentation[1]), fact.Value(qty.KindCount, m.Hardness)), because)
}

// honed says where the edge is honed, or how far it is worn where it is not.
func (w *ruleCheck) honed() {
	rule := fact.New(plan.RuleHone, fact.MM(setup.RoughLand), fact.MM(setup.FinishLand))
	never := true
	for i := range w.v.Passes {
		q := &w.v.Passes[i]
		if q.Hone == nil {
			continue
		}
		never = false
		var because fact.Fact
		if q.Hone.Why.Kind != schedule.HoneDull {
			because = q.Hone.Why
		}
		w.add(0, rule, fact.New(plan.HereHoned, fact.Count(q.N), fact.MM(q.Hone.Worn)), because)
	}
	if end := w.v.Passes[len(w.v.Passes)-1].Edge.After; never && end.Likely > 0 {
		w.add(0, rule, fact.New(plan.HereNotHoned, fact.MM(end.Likely), fact.Value(qty.KindCutLength, end.Metres)), fact.Fact{})
	}
}

// measured is the pass before the last that is stopped after to measure.
func (w *ruleCheck) measured() *schedule.Pass {
	for i := range w.v.Passes {
		if q := &w.v.Passes[i]; q.Kind == schedule.SemiFinish && q.Hold != nil {
			return q
		}
	}
	return nil
}

func (w *ruleCheck) pass(i int) {
	q := &w.v.Passes[i]
	judge := func(rule fact.Kind, x, lo, hi float64, less, more fact.Fact) {
		var because fact.Fact
		switch {
		case x < lo*0.999:
			because = less
		case x > hi*1.001:
			because = more
		}
		w.add(q.N, fact.New(rule, fact.MM(lo), fact.MM(hi)), fact.New(plan.HereLength, fact.MM(x)), because)
	}
	feed, depth, limit := q.Feed.MM(), q.Depth.MM(), fact.New(plan.ForLimit, q.LimitedBy)
	switch q.Kind {
	case schedule.Rough:
		judge(plan.RuleRough, depth, ruleRoughLeast, ruleRoughMost, w.slender(q), limit)
		judge(plan.RuleRoughFeed, feed, ruleRoughFeedLeast, ruleFeedTop, limit, limit)
	case schedule.SemiFinish:
		judge(plan.RuleSemiFinish, 2*depth, ruleSemiLeast, ruleSemiMost, fact.New(plan.ForRehearsal), limit)
	case schedule.Finish:
		rule, lo, hi := plan.RuleCarbide, ruleCarbLeast, ruleCarbMost
		if w.p.Job.Cutter.Material.Class == "hss" {
			rule, lo, hi = plan.RuleHSS, ruleHSSLeast, ruleHSSMost
		}
		judge(rule, 2*depth, lo, hi, fact.New(plan.ForLightCut, fact.Figure(qty.Fine(q.Spring))), fact.New(plan.ForFewerPasses))
		judge(plan.RuleFinishFeed, feed, ruleFeedLeast, ruleFeedMost, limit, fact.New(plan.ForThickerChip))
	}
	if q.Kind != schedule.Spring && q.Kind != schedule.Witness {
		w.speed(q)
	}
}

// slender adds to what limits a pass that a long bar takes lighter cuts, where it
// does.
func (w *ruleCheck) slender(q *schedule.Pass) fact.Fact {
	share := setup.DepthShare(w.v.Overhang, w.v.Bar.Held)
	if share == 1 {
		return fact.New(plan.ForLimit, q.LimitedBy)
	}
	return fact.New(plan.ForLimit, q.LimitedBy, fact.Figure(qty.KindRatio.Of(w.v.Overhang)), fact.Figure(qty.KindShare.Of(share)))
}

func (w *ruleCheck) speed(q *schedule.Pass) {
	job := w.p.Job
	band := w.v.Material.Speeds[job.Cutter.Material.Class]
	lo, hi := band.Finish[0], band.Finish[1]
	if q.Kind == schedule.Rough {
		lo, hi = band.Rough[0], band.Rough[1]
	}
	if hi == 0 {
		return
	}
	var because fact.Fact
	switch {
	case q.Cutting < lo:
		because = fact.New(plan.ForChatter, fact.Figure(qty.KindRatio.Of(w.v.Overhang)), q.Stability.Fact())
	case q.Cutting > hi:
		because = fact.New(plan.ForSlowestSpeed)
	}
	w.add(q.N, fact.New(plan.RuleSpeed, fact.Name(job.Cutter.Material.Name), fact.Name(w.v.Material.Name), fact.Figure(lo), fact.Figure(hi), fact.Name(band.Source)),
		fact.New(plan.HereSpeed, fact.Figure(q.Cutting), fact.Figure(qty.KindCount.Of(float64(q.Speed)))), because)
}
