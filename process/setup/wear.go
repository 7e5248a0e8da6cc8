package setup

import "borewright/process/cut"

// NewLand is what of a new edge touches the work behind its tip, mm.
func (e *Edge) NewLand() cut.Land { return cut.NewEdge(e.s.Job.Cutter.EdgeRadius.MM()) }

// Begun is the land worn onto the flank before the first cut of a visit, mm.
func (e *Edge) Begun() cut.Land {
	l := e.s.Job.Cutter.Land.MM()
	return cut.Land{Least: l, Most: l}
}

// Wears is how much more land a metre of cut wears onto the flank, mm.
func (e *Edge) Wears() cut.Land {
	w := e.metal.Speeds[e.s.Job.Cutter.Material.Class].Wear
	return cut.Land{Least: w[0], Most: w[1]}
}
