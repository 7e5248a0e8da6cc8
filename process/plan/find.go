package plan

import "borewright/process/schedule"

// Turns are the visits in the order of the work, by the indices of bore and visit.
func (p *Plan) Turns() [][2]int {
	n := 0
	for _, b := range p.Bores {
		n += len(b.Visits)
	}
	if len(p.turns) == n {
		return p.turns
	}
	return p.Find("", 0) // of a plan that was read back, or made up
}

// First is the first pass that is to be cut; nil: none is.
func (p *Plan) First() *schedule.Pass {
	for _, at := range p.Turns() {
		if v := &p.Bores[at[0]].Visits[at[1]]; len(v.Passes) > 0 {
			return &v.Passes[0]
		}
	}
	return nil
}

// Find gives the indices of the bores and visits that fit a station's name and a
// visit's number; an empty name and a zero number fit all.
func (p *Plan) Find(station string, visit int) (fit [][2]int) {
	for i, b := range p.Bores {
		for k, w := range b.Visits {
			if (station == "" || station == b.Station.Name) && (visit == 0 || visit == w.N) {
				fit = append(fit, [2]int{i, k})
			}
		}
	}
	return fit
}

// Pass is a pass by the station of its bore, as the job counts them, and its number, with the
// indices of its bore and visit; nil where the plan has none, as of one that was cut already.
func (p *Plan) Pass(station, n int) (bore, visit int, pass *schedule.Pass) {
	for i := range p.Bores {
		if p.Bores[i].Bore.Station != station {
			continue
		}
		for k := range p.Bores[i].Visits {
			passes := p.Bores[i].Visits[k].Passes
			for at := range passes {
				if passes[at].N == n {
					return i, k, &passes[at]
				}
			}
		}
	}
	return 0, 0, nil
}

// Measured is whether the job holds anything to line up or clean up by.
func (p *Plan) Measured() bool {
	measured := p.LineUp != nil
	for _, b := range p.Bores {
		measured = measured || b.CleanUp != nil
	}
	return measured
}
