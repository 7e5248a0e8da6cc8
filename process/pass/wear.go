package pass

import (
	"math"

	"borewright/process"
	"borewright/process/cores"
	"borewright/process/cut"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// An edge wears as it cuts, and how far is not known for certain: a pass by a worn edge
// springs more, and its size is less certain.

// worn is what is not known of the edge in one pass.
type worn struct {
	Anew  bool    // the edge was honed since the visit began, and set anew
	half  float64 // land worn onto the flank is known to so much either way, mm
	grows float64 // by which it is more at the end of the pass than in its middle
	below float64 // the most by which it can be more than is likely, at the end of the pass, mm
	above float64 // and less, at its beginning
}

// In judges passes by the edge as it wears in one of them. anew: it was honed in this
// visit, and set anew since.
func (r *Judge) In(w setup.Wear, anew bool) Judge {
	c := *r
	c.Edge, c.Anew = r.Edge.Worn(w.Mean.Likely), anew
	c.half, c.grows = (w.Mean.Most-w.Mean.Least)/2, (w.After.Likely-w.Before.Likely)/2
	if r.Measured && !anew { // what was not known of the wear then was learned with the spring
		was := r.FlankFound()
		c.half -= (was.Most - was.Least) / 2
	}
	even := (w.Mean.Most - w.Mean.Least) / 2
	c.below = c.half + w.After.Most - w.Mean.Likely - even
	c.above = math.Max(0, c.half+w.Mean.Likely-w.Before.Least-even)
	return c
}

// Beside is a judge of the same that works on another core: it shares nothing that is written to.
// On one core they share what is tabled.
func (r *Judge) Beside() Judge {
	c := *r
	c.MoveBinds = new(bool)
	if cores.Several() {
		c.Edge, c.priced = r.Edge.Beside(), map[pricesOf][][]prices{}
	}
	return c
}

// FlankFound is the flank as the first pass finds it.
func (r *Judge) FlankFound() setup.Flank {
	if f := r.Visit.Flank; f != nil {
		return f.Flank
	}
	return r.Begun()
}

// WornMore is by how much more, mm on radius, either way of a pass springs where the edge is
// worn as much more as it may be.
func (r *Judge) WornMore(c Cut) (in, out float64) {
	if r.half <= 0 {
		return 0, 0
	}
	more := func(depth float64, f cut.Force, way setup.Way) float64 {
		worn := f.Plus(r.LandForce(depth, c.Feed, c.Pick.At(c.Radius), r.half, way))
		return r.Middle.Push(worn, c.Radius, way) - r.Middle.Push(f, c.Radius, way)
	}
	if in = more(c.Depth, c.Force, setup.In); c.Fed && c.Second > 0 {
		out = more(c.Second, c.Back, setup.Out)
	}
	return in, out
}

// wornAway is by how much, mm on diameter, the size of a pass is out either way because it
// is not known how far the edge is worn. Its sign says which way more wear goes.
func (r *Judge) wornAway(c Cut) float64 {
	return c.moves(r.WornMore(c))
}

// wornApart is by how much, mm on diameter, a pass comes out smaller and larger where the
// edge is worn as much more and less than is likely as it may be, from wornAway.
func (r *Judge) wornApart(away float64) (smaller, larger float64) {
	if r.half <= 0 {
		return away, away
	}
	smaller, larger = away*r.below/r.half, away*r.above/r.half
	if away < 0 { // more wear draws the tip into the wall
		smaller, larger = larger, smaller
	}
	return smaller, larger
}

// WearTaper is by how much, mm on diameter, the bore comes out larger and smaller than in the
// middle where a pass begins and ends, because the edge wears on the way.
func (r *Judge) WearTaper(c Cut) float64 {
	if r.half <= 0 {
		return 0
	}
	if s := c.swings; s != nil && s.half == r.half {
		return math.Abs(s.Wear) * r.grows / r.half
	}
	return math.Abs(r.wornAway(c)) * r.grows / r.half
}

// FlankAfter is the flank after a pass that was cut with a likely land, mm, half way
// through, at a feed and a cutting speed, m/min, to a radius; band: it marked a band alone. 0 is not known: then it is
// as the job begins.
func (r *Judge) FlankAfter(land, feed, speed, radius float64, kind schedule.Kind, out process.OutBy, band bool) setup.Flank {
	begun := r.Begun()
	if land <= 0 {
		return begun
	}
	if land < begun.Likely { // honed since
		begun = setup.Flank{}
	}
	run := setup.Run{Speed: speed, Last: kind >= schedule.SemiFinish}
	metres := r.MetresOf
	if band {
		metres = r.BandMetres
	}
	run.Metres = r.Worth(math.Max(0, land-begun.Likely), speed, run.Last) + metres(feed, radius, schedule.WayOut{By: out})/2
	return r.After(begun, run)
}
