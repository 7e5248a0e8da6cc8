package main

import (
	"fmt"

	"borewright/process/plan"
	"borewright/sheets/words"
)

// visitOf gives the indices of a visit by its station's name and number. An
// empty name or a zero number means "the only one"; where there are more it is
// an error that lists them.
func visitOf(p *plan.Plan, station string, visit int) (bore, v int, err error) {
	fit := p.Find(station, visit)
	if len(fit) == 1 {
		return fit[0][0], fit[0][1], nil
	}
	list := ""
	for _, x := range p.Find("", 0) {
		b := &p.Bores[x[0]]
		w := &b.Visits[x[1]]
		list += fmt.Sprintf("\n  --station %q --visit %d   %s", b.Station.Name, w.N, words.In(p.Job.Units).Say(w.Title))
	}
	if len(fit) == 0 {
		return 0, 0, fmt.Errorf("no such visit; the job has:%s", list)
	}
	return 0, 0, fmt.Errorf("which visit? the job has:%s", list)
}
