package sheets

import (
	"errors"
	"fmt"
	"io"

	"borewright/process/plan"
)

// ErrNoSleeve is the answer where no bore of a job is sleeved.
var ErrNoSleeve = errors.New("no bore of this job is sleeved")

// WriteSleeves prints the sleeves of a plan for the terminal, at most 80
// columns: what stops the plan, then for each sleeve the repair, the lathe's
// sheet, and fit and assembly.
func WriteSleeves(w io.Writer, p *plan.Plan) error {
	b := newBuilder(p)
	if !b.plan.Feasible {
		b.sheet.Stamp = notProven
		b.sheet.section("What stops this plan, and what would free it", stops(b.plan)...)
	}
	before := len(b.sheet.Sections)
	for i := range b.plan.Bores {
		b.sleeve(i)
	}
	if len(b.sheet.Sections) == before && b.plan.Feasible {
		return ErrNoSleeve
	}
	b.sheet.Kind = "Sleeve"
	for i := range b.sheet.Sections {
		s := &b.sheet.Sections[i]
		s.Title = fmt.Sprintf("%d. %s", i+1, s.Title)
	}
	b.sheet.eachText(func(s *string) { *s = clean(*s) })
	return b.sheet.WriteText(w)
}
