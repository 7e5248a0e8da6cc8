package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/sheets/words"
)

// visitOf gives the indices of a visit by its station's name and number. An
// empty name, a zero number or an empty part means "the only one"; where there are more it is
// an error that lists them.
func visitOf(p *plan.Plan, station string, visit int, part string) (bore, v int, err error) {
	var fit [][2]int
	for _, x := range p.Find(station, visit) {
		if part == "" || part == p.Bores[x[0]].Visits[x[1]].Part.String() {
			fit = append(fit, x)
		}
	}
	if len(fit) == 1 {
		return fit[0][0], fit[0][1], nil
	}
	list := ""
	for _, x := range p.Find("", 0) {
		b := &p.Bores[x[0]]
		w := &b.Visits[x[1]]
		of := ""
		if b.Works() < len(b.Visits) {
			of = " --part " + w.Part.String()
		}
		list += fmt.Sprintf("\n  --station %q --visit %d%s   %s", b.Station.Name, w.N, of, words.In(p.Job.Units).Say(w.Title))
	}
	if len(fit) == 0 {
		return 0, 0, fmt.Errorf("no such visit; the job has:%s", list)
	}
	return 0, 0, fmt.Errorf("which visit? the job has:%s", list)
}

// torn is what is to be said of an entry of the results that was cut short, where the output has
// not the cautions of the plan.
func torn(p *plan.Plan) []string {
	return words.In(p.Job.Units).Sentences(slices.DeleteFunc(slices.Clone(p.Cautions), func(c fact.Fact) bool { return c.Kind != plan.TornEntry }))
}

// sayTorn says it beside the output.
func sayTorn(cmd *cobra.Command, p *plan.Plan) {
	for _, said := range torn(p) {
		fmt.Fprintln(cmd.ErrOrStderr(), said)
	}
}
