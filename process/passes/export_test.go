package passes

// Priced is a finish that a search looks at, and what it is counted to cost for chatter.
type Priced struct{ Depth, Feed, RPM, Minutes float64 } // mm, mm/rev, rev/min

// FinishPrices are those of all finishes of a visit, by an edge as it is found.
func (r *Planner) FinishPrices() (all []Priced) {
	r.MoveBinds, r.ends = new(bool), []lastEdge{{before: r.FlankFound()}}
	for _, e := range r.newLast(r.rLeast, true).cheapest {
		all = append(all, Priced{r.Aim - e.made, e.t.Feeds[0], e.pick.RPM, e.price.Chatter})
	}
	return all
}
