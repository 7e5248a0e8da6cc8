package plan

import "fmt"

// Find gives the indexes of a visit by its station's name and number. An empty
// name or a zero number means "the only one"; where there are more it is an
// error that lists them.
func (p *Plan) Find(station string, visit int) (bore, v int, err error) {
	var hits [][2]int
	list := ""
	for i, b := range p.Bores {
		for k, w := range b.Visits {
			list += fmt.Sprintf("\n  --station %q --visit %d   %s", b.Station.Name, w.N, w.Title)
			if (station == "" || station == b.Station.Name) && (visit == 0 || visit == w.N) {
				hits = append(hits, [2]int{i, k})
			}
		}
	}
	switch len(hits) {
	case 1:
		return hits[0][0], hits[0][1], nil
	case 0:
		return 0, 0, fmt.Errorf("no such visit; the job has:%s", list)
	}
	return 0, 0, fmt.Errorf("which visit? the job has:%s", list)
}

// Measured is whether the job holds anything to line up or clean up by.
func (p *Plan) Measured() bool {
	measured := p.LineUp != nil
	for _, b := range p.Bores {
		measured = measured || b.CleanUp != nil
	}
	return measured
}
