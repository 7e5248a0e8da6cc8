package plan

import (
	"slices"

	"borewright/process/fact"
	"borewright/process/place"
)

// remark is a caution of a visit and the visits that it holds for.
type remark struct {
	of   []string // stations
	at   [][2]int // indices of bore and visit
	what fact.Fact
}

// remark notes a caution of one visit of a bore, by their indices in the job: what is
// true of several is said once. Facts that read the same are the same.
func (p *Plan) remark(w *work, visit int, what fact.Fact) {
	at, station := [2]int{w.i, visit}, w.Station.Name
	for i := range p.remarks {
		if r := &p.remarks[i]; fact.Reads(p.Job.Units, r.what, what) {
			if r.at = append(r.at, at); !slices.Contains(r.of, station) {
				r.of = append(r.of, station)
			}
			return
		}
	}
	p.remarks = append(p.remarks, remark{[]string{station}, [][2]int{at}, what})
}

// sayRemarks adds them to the cautions, by name where there is more than one
// bore: passes are numbered from 1 in each.
func (p *Plan) sayRemarks() {
	for i := range p.remarks {
		r := &p.remarks[i]
		if len(p.Job.Bores) > 1 {
			var of []fact.Fact
			for _, name := range r.of {
				of = append(of, fact.New(Station, fact.Name(name)))
			}
			r.what = fact.New(OfBores, fact.List(of...), r.what)
		}
		p.Cautions = append(p.Cautions, r.what)
	}
}

// CautionsOf gives the cautions that one visit's program carries: those of the
// job, of its bar and cutter, and its own. bore and visit are indices of Bores and its Visits.
func (p *Plan) CautionsOf(bore, visit int) []fact.Fact {
	var out []fact.Fact
	for _, c := range p.Cautions {
		of, cutWith := c.Nth(1), p.Job.Using(p.Bores[bore].Visits[visit].Tools).ToolsCalled()
		if p.minded.Elsewhere(p.Job.Units, p.Bores[bore].Bore.Face, c) || c.Kind == OfTools && of != fact.Name(cutWith) ||
			(c.Kind == OfStation || place.OfBore(c)) && of != fact.Name(p.Bores[bore].Station.Name) {
			continue
		}
		if !slices.ContainsFunc(p.remarks, func(r remark) bool {
			return fact.Reads(p.Job.Units, r.what, c) && !slices.Contains(r.at, [2]int{bore, visit})
		}) {
			out = append(out, c)
		}
	}
	return out
}
