package revision

import (
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Moved is what a hand at the mill does otherwise by the new plan.
type Moved struct {
	Passes   [2]int      // old, new
	Settings int         // passes whose cutter setting prints otherwise
	Most     qty.Length  // the most that a setting moves, on diameter
	At       fact.Fact   // the pass that it moves in, InPass
	Turns    int         // passes with another speed or feed
	Honed    [2]int      // honings before a pass
	Stops    [2]int      // holds, to measure
	Cautions []fact.Fact // that the old plan does not have, in any figures
}

// Move says what a hand does otherwise. Bores, visits and passes are paired as
// Compare pairs them.
func Move(old, new *plan.Plan) Moved {
	a, b := planOrEmpty(old), planOrEmpty(new)
	u := b.Job.Units
	var m Moved
	for i, p := range []*plan.Plan{a, b} {
		for _, bore := range p.Bores {
			for _, v := range bore.Visits {
				for _, q := range v.Passes {
					m.Passes[i]++
					m.Honed[i] += one(q.Hone != nil)
					m.Stops[i] += one(q.Hold != nil)
				}
			}
		}
	}
	for _, bores := range pairBores(a, b) {
		if bores.a < 0 || bores.b < 0 {
			continue
		}
		x, y := a.Bores[bores.a], b.Bores[bores.b]
		for _, visits := range pairVisits(x, y) {
			if visits.a < 0 || visits.b < 0 {
				continue
			}
			v, w := x.Visits[visits.a], y.Visits[visits.b]
			for _, c := range pairPasses(v.Passes, w.Passes) {
				if c.a >= 0 && c.b >= 0 {
					m.pass(u, fact.New(InVisit, inPlanned(y), fact.Count(w.N)), v.Passes[c.a], w.Passes[c.b])
				}
			}
		}
	}
	for _, c := range b.Cautions {
		if !hasAlike(a.Cautions, c) {
			m.Cautions = append(m.Cautions, c)
		}
	}
	return m
}

func (m *Moved) pass(u qty.Unit, visit fact.Fact, p, q schedule.Pass) {
	m.Turns += one(p.Speed != q.Speed || p.Feed != q.Feed)
	if u.Say(p.Setting) == u.Say(q.Setting) {
		return
	}
	m.Settings++
	if by := q.Setting.Minus(p.Setting).Abs(); by > m.Most {
		m.Most, m.At = by, fact.New(InPass, visit, fact.Count(q.N), fact.Name(q.Kind.String()), nil)
	}
}

// hasAlike is whether a list has a fact that differs in figures only.
func hasAlike(list []fact.Fact, f fact.Fact) bool {
	for _, x := range list {
		if fact.Alike(x, f) {
			return true
		}
	}
	return false
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}
