package plan_test

import (
	"strings"

	"borewright/process/fact"
	. "borewright/process/plan"
	"borewright/sheets/words"
)

// said is what a person reads of facts of a plan, a line each.
func said(p *Plan, facts ...fact.Fact) string {
	return strings.Join(words.In(p.Job.Units).Sentences(facts), "\n")
}
