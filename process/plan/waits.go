package plan

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
)

// After a stop the bores of one setting are entered one after the other. Until all are, the rest
// cannot be planned for all of them: the plan stays as it was at that setting, what was entered
// waits, and the plan says what is still to be gauged.

// waiting is the plan as it stands while entries wait for those of the other bores of their
// setting; nil where none does.
func waiting(job *process.Job, results *process.Results) *Plan {
	now, held := *results, []process.Measured(nil)
	now.Entries = nil
	common := commonPasses(job, results.Entries)
	for _, e := range results.Entries {
		if upTo, with := common[e.Station]; with && e.Pass > upTo {
			held = append(held, e)
		} else {
			now.Entries = append(now.Entries, e)
		}
	}
	if held == nil {
		return nil
	}
	p := makeAfter(job, &now)
	var asked []fact.Fact
	for _, e := range held {
		bore, visit, q := p.Pass(e.Station, e.Pass)
		if q == nil || len(p.Bores[bore].Visits[visit].Together) == 0 {
			return nil // cut alone
		}
	}
	k, err := learned(job, results)
	if err != nil {
		return nil
	}
	p.waits, p.Findings, p.entered = k, k.Findings, results.Entries
	pass := held[len(held)-1].Pass
	for i, b := range p.Job.Bores {
		last := held[len(held)-1].Station
		if !slices.Contains(job.SetWith(i), job.BoreAt(last)) {
			continue
		}
		if _, entered := k.Entry(i, pass); !entered {
			asked = append(asked, fact.New(Station, fact.Name(job.Stations[b.Station].Name)))
		}
	}
	if len(asked) > 0 {
		p.Findings.Says = append(p.Findings.Says, fact.New(Waits, fact.List(asked...), fact.Count(pass)))
	}
	return p
}

// commonPasses are, by station, the last pass that is entered of all bores of a setting.
func commonPasses(job *process.Job, entries []process.Measured) map[int]int {
	last, out := map[int]int{}, map[int]int{}
	for _, e := range entries {
		last[e.Station] = max(last[e.Station], e.Pass)
	}
	for _, with := range job.Settings() {
		if len(with) < 2 {
			continue
		}
		upTo := last[job.Bores[with[0]].Station]
		for _, i := range with {
			upTo = min(upTo, last[job.Bores[i].Station])
		}
		for _, i := range with {
			out[job.Bores[i].Station] = upTo
		}
	}
	return out
}

// Waiting is whether a pass of a bore, by its index in the job, is entered already, and waits for
// the others of its setting.
func (p *Plan) Waiting(bore, pass int) bool {
	if p.waits == nil {
		return false
	}
	_, entered := p.waits.Entry(bore, pass)
	_, known := p.known.Entry(bore, pass)
	return entered && !known
}

// With are the visits that are cut through at the setting of one, by the indices of bore and
// visit, in the order in which they are cut; the visit alone where there are none.
func (p *Plan) With(bore, visit int) [][2]int {
	v := &p.Bores[bore].Visits[visit]
	var all [][2]int
	for i := range p.Bores {
		for k := range p.Bores[i].Visits {
			if w := &p.Bores[i].Visits[k]; i == bore && k == visit ||
				slices.Contains(v.Together, p.Bores[i].Station.Name) && w.N == v.N && w.Part == v.Part && len(w.Together) > 0 {
				all = append(all, [2]int{i, k})
			}
		}
	}
	return all
}
