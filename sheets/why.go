package sheets

import (
	"fmt"
	"io"

	"borewright/process/plan"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// WriteWhy prints how a plan stands to the rules of thumb of the trade, at most
// 80 columns: each choice that leaves a rule with the reason, and how many keep
// theirs.
func WriteWhy(w io.Writer, p *plan.Plan) error {
	t, speak := &page.Printer{}, words.In(p.Job.Units)
	kept, bore, visit := 0, -1, -1
	for _, y := range p.Why() {
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
	t.Line("")
	t.Hang("", "  ", fmt.Sprintf("%d other choices keep the rule of thumb.", kept))
	_, err := t.WriteTo(w)
	return err
}
