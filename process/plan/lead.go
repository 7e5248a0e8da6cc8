package plan

// Lead are the indices of the visit for which the cutter is set that cuts in a visit: its own, or
// that of the first bore of its setting. A program is that visit's, and cuts in all of them.
func (p *Plan) Lead(bore, visit int) (int, int) {
	if v := &p.Bores[bore].Visits[visit]; v.Leads(p.Bores[bore].Station.Name) {
		return bore, visit
	}
	first := p.With(bore, visit)[0]
	return first[0], first[1]
}

// Programs are the visits that have a program of their own, by the indices of bore and visit.
func (p *Plan) Programs() (all [][2]int) {
	for _, at := range p.Find("", 0) {
		if b := &p.Bores[at[0]]; b.Visits[at[1]].Leads(b.Station.Name) {
			all = append(all, at)
		}
	}
	return all
}
