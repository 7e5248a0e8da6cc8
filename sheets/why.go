package sheets

import (
	"fmt"
	"io"

	"borewright/process/plan"
)

// WriteWhy prints how a plan stands to the rules of thumb of the trade, at most
// 80 columns: each choice that leaves a rule with the reason, and how many keep
// theirs.
func WriteWhy(w io.Writer, p *plan.Plan) error {
	t := &printer{}
	kept, bore, visit := 0, -1, -1
	for _, y := range p.Why() {
		if y.Because == "" {
			kept++
			continue
		}
		if y.Bore != bore || y.Visit != visit {
			bore, visit = y.Bore, y.Visit
			x := p.Bores[bore]
			t.line("")
			t.hang("", "  ", fmt.Sprintf("Why: %s, %s", clean(x.Station.Name), clean(x.Visits[visit].Title)))
		}
		where := "the visit"
		if y.Pass > 0 {
			where = fmt.Sprintf("pass %d", y.Pass)
		}
		t.hang("  ", "    ", fmt.Sprintf("%s: here %s.", where, clean(y.Here)))
		t.hang("    rule: ", "          ", clean(y.Rule))
		t.hang("    why:  ", "          ", clean(y.Because))
	}
	t.line("")
	t.hang("", "  ", fmt.Sprintf("%d other choices keep the rule of thumb.", kept))
	_, err := io.WriteString(w, t.b.String())
	return err
}
