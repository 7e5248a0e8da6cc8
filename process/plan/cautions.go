package plan

import (
	"slices"

	"borewright/process"
	"borewright/process/doubt"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/setup"
	"borewright/process/ways"
)

// mindTools are the things to mind about a bar with its cutter, whatever it cuts. They are said of
// that bar and cutter where visits are cut with others besides, and not at all where none is cut
// with these.
func (p *Plan) mindTools(t *process.Tools, s *setup.Setup) []fact.Fact {
	if p.how > untried {
		return nil
	}
	all, asked := p.Job.AllTools(), doubt.Of(s.Job)
	list := asked
	if slices.Contains(all, t) {
		list = append(barCautions(s), asked...)
	}
	for i, f := range list {
		if len(all) > 1 && (i < len(list)-len(asked) || doubt.OfTools(f.Kind)) {
			list[i] = fact.New(OfTools, fact.Name(p.Job.Using(t).ToolsCalled()), f)
		}
	}
	return list
}

// barCautions are those of the bar itself.
func barCautions(s *setup.Setup) []fact.Fact {
	var out []fact.Fact
	if !s.Held && setup.Beyond(s.Overhang, s.Job.Limits.Overhang) {
		out = append(out, fact.New(StandsOut, fact.Value(qty.KindRatio, s.Overhang), fact.Value(qty.KindRatio, s.Job.Limits.Overhang)))
	}
	if o := s.Job.Bar.Outboard; o != nil && !s.Held {
		out = append(out, fact.New(OffBearing, fact.Figure(o.Clearance)))
	}
	if what := place.Hangs(s); !what.None() {
		out = append(out, what)
	}
	return out
}

// tooLong says why a bar is too slender to be planned for at all, or nothing. The
// trade's rule for a quiet cut is 4 diameters in steel; with light cuts shops
// reach twice that and a little more; at three times the rule a plain bar sings
// at every speed and feed. Common practice, no source.
func tooLong(s *setup.Setup) fact.Fact {
	most := 3 * rule(s)
	if s.Held || !setup.Beyond(s.Overhang, most) {
		return fact.Fact{}
	}
	return fact.New(BarTooLong, fact.Value(qty.KindRatio, s.Overhang), fact.Figure(qty.KindCount.Of(most)))
}

// rule is the trade's overhang rule for the bar's slender step.
func rule(s *setup.Setup) float64 {
	return s.Job.Bar.Steps[setup.SlenderStep(s.Job.Bar.Steps)].Material.Reach
}

// longMinutes is how long the cutter may be in the cut before a shop asks whether the job
// is set up as it should be: half a shift. Common practice, no source.
const longMinutes = 240

// longCutting says of a plan that cuts for longer what would shorten it.
func (p *Plan) longCutting() fact.Fact {
	cuts := 0.0
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			for _, q := range v.Passes {
				cuts += q.Minutes
			}
		}
	}
	if !p.Feasible || cuts <= longMinutes {
		return fact.Fact{}
	}
	how := fact.New(NothingShortens)
	if w, ok := ways.Quicker(p.asked(), p.outcome()); ok {
		how = fact.New(Shortens, w.Change, fact.Figure(qty.KindWholeMinutes.Of(w.Minutes)))
	}
	return fact.New(LongCutting, fact.Figure(qty.KindWholeMinutes.Of(cuts)), how)
}
