package plan

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/passes"
	"borewright/process/qty"
)

// barCautions are the things to mind about the bar, whatever it cuts.
func barCautions(s *passes.Setup) []string {
	var out []string
	if s.Job.Bar.Outboard == nil && s.Overhang > s.Job.Limits.Overhang {
		out = append(out, fmt.Sprintf("The bar stands out %.1f times its diameter; the trade's rule for it is %.1f. Expect to feel for chatter, and trust the gauge before the dial.",
			s.Overhang, s.Job.Limits.Overhang))
	}
	if what := hangs(s); what != "" {
		out = append(out, what)
	}
	out = append(out, s.Job.Doubts()...)
	return out
}

// hangs tells how far the bar hangs at the most, or "" where it matters to no
// bore.
func hangs(s *passes.Setup) string {
	const least = 0.003 // mm: less is within any line-up; common practice, no source
	u := s.Job.Units
	say := func(mm float64) string { return u.Say(qty.FromMM(mm)) }
	var most, from float64
	var at process.Station
	for _, b := range s.Job.Bores {
		st := s.Job.Stations[b.Station]
		if h := s.Droop(st.To); math.Abs(h) > math.Abs(most) {
			most, from, at = h, s.Droop(st.From), st
		}
	}
	switch {
	case math.Abs(most) <= least:
		return ""
	case s.Job.Bar.FeedBy != process.QuillFeed:
		return fmt.Sprintf("The bar hangs %s at the cutter by its own weight: the bore comes out true, but that much below the spindle's line.", say(math.Abs(most)))
	case most-from <= least:
		return fmt.Sprintf("Bar and quill hang %s at the cutter by their own weight at the far end of %s: the bore comes out that much below the spindle's line.", say(most), at.Name)
	}
	return fmt.Sprintf("Bar and quill hang by their own weight, and more the further the quill is out: %s at the cutter at the near end of %s, %s at its far end. The bore comes out that much below the spindle's line and leans down by the difference; table feed does not do that.",
		say(from), at.Name, say(most))
}

// tooLong says why a bar is too slender to be planned for at all, or "". The
// trade's rule for a quiet cut is 4 diameters in steel; with light cuts shops
// reach twice that and a little more; at three times the rule a plain bar sings
// at every speed and feed. Common practice, no source.
func tooLong(s *passes.Setup) string {
	most := 3 * rule(s)
	if s.Job.Bar.Outboard != nil || s.Overhang <= most {
		return ""
	}
	return fmt.Sprintf("the bar stands out %.1f times its diameter; beyond %.0f no cut of a plain bar can be relied on", s.Overhang, most)
}

// rule is the trade's overhang rule for the bar's slender step.
func rule(s *passes.Setup) float64 {
	return s.Job.Bar.Steps[passes.SlenderStep(s.Job.Bar.Steps)].Material.Reach
}
