package post

import (
	"fmt"

	"borewright/process/plan"
)

// visitName is the part of a file name that tells visits apart: the visit's
// number, and the pass after which a plan for the rest takes over, or, where the
// visit is not begun, how many measurements the plan goes by: its settings have
// changed with them. No program ever has the name of the one it takes the place
// of, because a control keeps its programs in one flat store.
func visitName(p *plan.Plan, v plan.Visit, index int) string {
	n := v.N
	if n == 0 {
		n = index + 1
	}
	if v.Behind > 0 {
		return fmt.Sprintf("%d-after-%d", n, v.Behind)
	}
	if p.Findings != nil {
		return fmt.Sprintf("%d-measured-%d", n, p.Findings.Entries)
	}
	return fmt.Sprint(n)
}
