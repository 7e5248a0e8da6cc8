package sheets

import (
	"errors"
	"io"

	"borewright/process/plan"
	"borewright/sheets/page"
)

// ErrNoSleeve is the answer where no bore of a job is sleeved.
var ErrNoSleeve = errors.New("no bore of this job is sleeved")

// WriteSleeves prints the sleeves of a plan for the terminal, at most 80
// columns: what stops the plan, then for each sleeve the repair, the lathe's
// sheet, and fit and assembly.
func WriteSleeves(w io.Writer, p *plan.Plan) error {
	b := newBuilder(p)
	if !b.Plan.Feasible {
		b.sheet.Stamp = page.NotProven
		b.sheet.Add("What stops this plan, and what would free it", b.stops()...)
	}
	before := len(b.sheet.Sections)
	b.eachSleeve(b.repair, b.lathe, b.assembled)
	if len(b.sheet.Sections) == before && b.Plan.Feasible {
		return ErrNoSleeve
	}
	b.sheet.Kind = "Sleeve"
	b.sheet.Number()
	b.sheet.Clean()
	return b.sheet.WriteText(w)
}
