package plan

import (
	"slices"
	"strings"
)

// remark is a caution of a visit and the visits that it holds for.
type remark struct {
	of   []string // stations
	at   [][2]int // indices of bore and visit
	what string
}

// remark notes a caution of one visit of the bore that is being planned: what is
// true of several is said once.
func (p *Plan) remark(station string, visit int, what string) {
	at := [2]int{len(p.Bores), visit}
	for i := range p.remarks {
		if r := &p.remarks[i]; r.what == what {
			if r.at = append(r.at, at); r.of[len(r.of)-1] != station {
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
			r.what = strings.Join(r.of, ", ") + ": " + strings.ToLower(r.what[:1]) + r.what[1:]
		}
		p.Cautions = append(p.Cautions, r.what)
	}
}

// CautionsOf gives the cautions that one visit's program carries: those of the
// job and its own. bore and visit are indices of Bores and its Visits.
func (p *Plan) CautionsOf(bore, visit int) []string {
	var out []string
	for _, c := range p.Cautions {
		if !slices.ContainsFunc(p.remarks, func(r remark) bool { return r.what == c && !slices.Contains(r.at, [2]int{bore, visit}) }) {
			out = append(out, c)
		}
	}
	return out
}

// once leaves out what was said before.
func once(list []string) []string {
	var out []string
	for _, s := range list {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}
