package pass

import (
	"math"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Cut is a pass as the limits see it, at its deepest place.
type Cut struct {
	Depth, Feed float64 // mm, on the way in; mm/rev
	Pick        Pick
	Force       cut.Force // on the way in
	Radius      float64   // mm, of the bore being made
	Sings       float64   // Judge.Sings; of last passes only
	Moves       int       // how often the cutter was moved up to it, where that matters
	Fed         bool      // it comes out turning, and cuts a second time:
	Second      float64   // so deep, mm
	Back        cut.Force // with this force
	Left        float64   // mm on radius, that is still to be cut after it; roughs and semi-finishes only
	Rise        float64   // its push rises by so much, mm on radius, for a millimetre more depth

	swings *Swings // Judge.SwingsOf, where it was worked out before
}

// Swung is a cut with its swings worked out once for all that asks for them, of the same
// edge.
func (r *Judge) Swung(c Cut) Cut {
	s := r.SwingsOf(c)
	c.swings = &s
	return c
}

// CutFor is a pass that takes so much, mm, on both ways together.
func (r *Judge) CutFor(total, feed float64, pick Pick, radius float64, out schedule.WayOut) Cut {
	s := r.StrokeAt(feed, pick.At(radius), radius, out)
	in, second := s.Split(total)
	return r.CutOf(s, in, second, feed, pick, radius)
}

// CutOf is a pass of a stroke that cuts so deep on either way.
func (r *Judge) CutOf(s setup.Stroke, in, second, feed float64, pick Pick, radius float64) Cut {
	c := Cut{Depth: in, Feed: feed, Pick: pick, Force: r.Force(in, feed, pick.At(radius), setup.In), Radius: radius, Fed: s.Out != nil}
	if c.Fed {
		c.Second, c.Back, c.Rise = second, r.Force(second, feed, pick.At(radius), setup.Out), RiseAt(s.Out, second)
	}
	return c
}

// RiseAt is how much a push rises with the depth; nothing where nothing is cut.
func RiseAt(p setup.Push, depth float64) float64 {
	if depth <= 0 {
		return 0
	}
	return p.Rise(depth)
}

// StrokeAt is the stroke of passes at a feed, mm/rev, and a cutting speed, m/min, with
// the tip at a radius, mm.
func (r *Judge) StrokeAt(feed, speed, radius float64, out schedule.WayOut) setup.Stroke {
	return r.Stroke(r.Middle, feed, speed, radius, out.By == process.FeedOut)
}

// Spring is what the gauge finds of a pass short of its setting, on diameter.
func (r *Judge) Spring(c Cut) float64 { return 2 * r.last(r.Middle, c) }

// last is the push, mm on radius, of the cut that a pass ends with.
func (r *Judge) last(g setup.Give, c Cut) float64 {
	if c.Fed {
		return g.Push(c.Back, c.Radius, setup.Out)
	}
	return g.Push(c.Force, c.Radius, setup.In)
}

// moves is by how much, mm on diameter, the size moves for a push that is so much larger,
// mm on radius, on the way in and on the way out. One cut alone moves by its own. On
// the way out a push P leaves the tip as much nearer to the wall as the way in left it
// further off:
//
//	2·(P_out + P_in·∂P_out/∂depth)
func (c Cut) moves(in, out float64) float64 {
	if c.Fed {
		return 2 * (out + in*c.Rise)
	}
	return 2 * in
}

// swing is what the size moves by, mm on diameter, for forces wrong by the whole of them.
func (r *Judge) swing(c Cut) float64 {
	in := r.Middle.Push(c.Force, c.Radius, setup.In)
	if !c.Fed {
		return c.moves(in, 0)
	}
	return c.moves(in, r.Middle.Push(c.Back, c.Radius, setup.Out))
}

// ByFeed is by how much more, mm on radius, either way of a pass springs where the feed force
// alone is larger by the whole of it.
func (r *Judge) ByFeed(c Cut) (in, out float64) {
	in = r.Middle.ByFeed(c.Force, c.Radius, setup.In)
	if c.Fed && c.Second > 0 {
		out = r.Middle.ByFeed(c.Back, c.Radius, setup.Out)
	}
	return in, out
}

// swingByFeed is what that moves the size by, mm on diameter.
func (r *Judge) swingByFeed(c Cut) float64 {
	return c.moves(r.ByFeed(c))
}

// Rubs is by how much, mm on diameter, the bore stays smaller where the way out rubs
// and does not cut: below the least depth of the edge either may happen. What
// happened in a pass that was measured happens in the next: then only the
// difference of the two counts.
func (r *Judge) Rubs(c Cut) float64 {
	if c.Fed && c.Second < r.LeastDepth() {
		return 2 * c.Second
	}
	return 0
}

// RoughnessOf is the roughness to expect, mm: that of the way that leaves it rougher. What a
// cut adds that is hardly deep enough for the edge is not counted on the way out: it
// goes over marks that are there already, and bores that are fed out come no rougher.
// Common practice, no source.
func (r *Judge) RoughnessOf(c Cut) float64 {
	ra, _, _ := r.roughest(c)
	return ra
}

// roughest is that roughness, with the way that leaves it and the depth that counts on it.
func (r *Judge) roughest(c Cut) (ra float64, way setup.Way, depth float64) {
	speed := c.Pick.At(c.Radius)
	ra, way, depth = r.Ra(c.Feed, c.Depth, speed, setup.In), setup.In, c.Depth
	if c.Fed {
		deep := math.Max(c.Second, 2*r.LeastDepth())
		if out := r.Ra(c.Feed, deep, speed, setup.Out); out > ra {
			return out, setup.Out, deep
		}
	}
	return ra, way, depth
}

// FinishAt is a last pass that takes so much, mm, to the size aimed at.
func (r *Judge) FinishAt(total, feed float64, pick Pick) Cut {
	c := r.CutFor(total, feed, pick, r.Aim, r.Visit.LastOut)
	c.Sings = r.Sings(r.StabilityOf(c, r.LastLand()))
	return c
}
