package card

import (
	"fmt"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// Edge says how far the edge is worn in a visit, and before which pass it is honed.
func (b Hand) Edge(v plan.Visit) []page.KeyValue {
	var kv []page.KeyValue
	land := func(mm float64) string { return b.U.Bare(qty.FromMM(mm)) }
	for i := 0; i < len(v.Passes); {
		first, j := &v.Passes[i], i+1
		for j < len(v.Passes) && v.Passes[j].Hone == nil {
			j++
		}
		last, found := &v.Passes[j-1].Edge.After, ""
		switch at := first.Edge.Before.Likely; {
		case first.Hone != nil:
			found = "honed"
		case v.Flank != nil && v.Flank.From != "" && at > 0:
			found = "worn to about " + b.U.Say(qty.FromMM(at)) + " as it comes from the " + v.Flank.From
		case at > 0:
			found = "worn to " + b.U.Say(qty.FromMM(at)) + " as the job says"
		default:
			found = "new, or honed as the visit begins"
		}
		if last.Most > 0 {
			kv = append(kv, page.KV("Edge", fmt.Sprintf("%s: %s; land worn to about %s %s (%s to %s) by the end", head.Passes(first, &v.Passes[j-1]), found,
				land(last.Likely), b.U, land(last.Least), land(last.Most))))
		}
		i = j
	}
	for i := range v.Passes {
		if p := &v.Passes[i]; p.Hone != nil {
			kv = append(kv, page.KV("Hone", fmt.Sprintf("before pass %d, about %s: %s", p.N, qty.KindTime.Say(p.Hone.Minutes), HoneSaid(b.Words, p.Hone))))
		}
	}
	return kv
}

// HoneSaid is why the edge is honed, and what comes of it if not.
func HoneSaid(speak words.Words, h *schedule.Hone) string {
	return speak.Say(h.Why) + ". " + speak.Sentence(h.Fact())
}

// EdgeFirst is how the cutter is to be as the first pass is cut: sharp, or as worn as the plan
// has it.
func (b Hand) EdgeFirst() string {
	if q := b.Plan.First(); q != nil && q.Hone == nil && b.U.Round(qty.FromMM(q.Edge.Before.Likely)) > 0 {
		return "Cutter's edge as found: land worn to about " + b.U.Say(qty.FromMM(q.Edge.Before.Likely)) + ", not chipped"
	}
	return "Cutter sharp"
}

// WornSaid says how far the edge is worn in a pass, and since when.
func WornSaid(u qty.Unit, q schedule.Pass) string {
	land := func(mm float64) qty.Figure { return qty.Fine(qty.FromMM(mm)) }
	return fmt.Sprintf("land worn to about %s half way through (%s), %s of cut since it was honed by the end", u.Say(land(q.Edge.Mean.Likely)),
		u.SayRange(land(q.Edge.Before.Least), land(q.Edge.After.Most)), u.Say(qty.KindCutLength.Of(q.Edge.After.Metres)))
}
