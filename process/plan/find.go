package plan

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

// Measured is whether the job holds anything to line up or clean up by.
func (p *Plan) Measured() bool {
	measured := p.LineUp != nil
	for _, b := range p.Bores {
		measured = measured || b.CleanUp != nil
	}
	return measured
}
