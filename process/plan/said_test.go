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

// freed is what a person reads of the ways out of what stops a plan first.
func freed(p *Plan) string {
	var out []string
	for _, w := range p.Free() {
		out = append(out, words.In(p.Job.Units).Say(w.Fact()))
	}
	return strings.Join(out, "\n")
}
