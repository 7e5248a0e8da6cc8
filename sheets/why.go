package sheets

import (
	"fmt"
	"io"

	"borewright/process/plan"
	"borewright/process/plan/thumb"
	"borewright/sheets/card"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// writeLimits lists every limit of every pass, the nearest first, with how much of it
// the pass takes.
func writeLimits(t *page.Printer, p *plan.Plan, speak words.Words) {
	for i := range p.Bores {
		x := &p.Bores[i]
		for k := range x.Visits {
			v := &x.Visits[k]
			if len(v.Passes) == 0 {
				continue
			}
			t.Line("")
			t.Hang("", "  ", fmt.Sprintf("Limits: %s, %s", page.Clean(x.Station.Name), page.Clean(speak.Say(v.Title))))
			for _, q := range v.Passes {
				t.Hang("  ", "    ", fmt.Sprintf("pass %d (%s), and how much of each limit it takes:", q.N, q.Kind))
				if q.Hone != nil {
					t.Hang("    before: ", "            ", page.Clean(card.HoneSaid(speak, q.Hone)))
				}
				t.Hang("    edge: ", "          ", card.WornSaid(p.Job.Units, q))
				for _, l := range q.Limits {
					t.Hang(fmt.Sprintf("    %4.0f %%  ", 100*l.Used), "            ", page.Clean(speak.Say(l.What)))
				}
			}
		}
	}
}

// WriteWhy prints how a plan stands to the rules of thumb of the trade, at most
// 80 columns: each choice that leaves a rule with the reason, every limit of each
// pass, and how many choices keep their rule.
func WriteWhy(w io.Writer, p *plan.Plan) error {
	t, speak := &page.Printer{}, words.In(p.Job.Units)
	kept, bore, visit := 0, -1, -1
	for _, y := range thumb.Of(p) {
		if y.Because.None() {
			kept++
			continue
		}
		if y.Bore != bore || y.Visit != visit {
			bore, visit = y.Bore, y.Visit
			x := p.Bores[bore]
			t.Line("")
			t.Hang("", "  ", fmt.Sprintf("Why: %s, %s", page.Clean(x.Station.Name), page.Clean(speak.Say(x.Visits[visit].Title))))
		}
		where := "the visit"
		if y.Pass > 0 {
			where = fmt.Sprintf("pass %d", y.Pass)
		}
		t.Hang("  ", "    ", fmt.Sprintf("%s: here %s.", where, page.Clean(speak.Say(y.Here))))
		t.Hang("    rule: ", "          ", page.Clean(speak.Say(y.Rule)))
		t.Hang("    why:  ", "          ", page.Clean(speak.Say(y.Because)))
	}
	writeLimits(t, p, speak)
	t.Line("")
	t.Hang("", "  ", fmt.Sprintf("%d other choices keep the rule of thumb.", kept))
	_, err := t.WriteTo(w)
	return err
}
