package repair

import (
	"strings"

	"borewright/process/plan"
	"borewright/process/remedy"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// Ways is the paragraph of the ways to repair a bore, by its own figures.
func Ways(p *plan.Plan, b plan.Bore) *page.Paragraph {
	w := words.In(p.Job.Units)
	var out []string
	for _, way := range remedy.Ways(p, b) {
		s := w.Sentence(way.Says)
		if way.Taken {
			s = "As planned: " + w.Say(way.Says) + "."
		}
		out = append(out, s)
	}
	return &page.Paragraph{Text: strings.Join(out, " ") + " The shop and the drawing say which; a job file of its own works another out."}
}
