package sheets

import (
	"errors"
	"io"

	"borewright/process/plan"
	"borewright/sheets/page"
	"borewright/sheets/repair"
)

// ErrNoSleeve is the answer where no bore of a job is sleeved.
var ErrNoSleeve = errors.New("no bore of this job is sleeved")

// WriteSleeves prints the sleeves of a plan for the terminal, at most 80
// columns: what stops the plan, then for each sleeve the repair, the lathe's
// sheet, and fit and assembly; with why, the other ways to repair the bore as well.
func WriteSleeves(w io.Writer, p *plan.Plan, why bool) error {
	b := newBuilder(p)
	b.part = SleevePart
	if !b.Plan.Feasible {
		b.Sheet.Stamp = page.NotFeasible
		b.Sheet.Add("What stops this plan, and what would free it", b.stops()...)
	}
	before := len(b.Sheet.Sections)
	b.eachSleeve(b.repair, b.lathe, b.assembled)
	for _, x := range b.Plan.Bores {
		if why && x.Sleeve != nil {
			b.Sheet.Add(b.BoreTitle(x)+", ways to repair it", repair.Ways(p, x))
		}
	}
	if len(b.Sheet.Sections) == before && b.Plan.Feasible {
		return ErrNoSleeve
	}
	b.Sheet.Kind = "Sleeve"
	b.Sheet.Number()
	b.Sheet.Clean()
	return b.Sheet.WriteText(w)
}
