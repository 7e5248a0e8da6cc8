package geom

import (
	"math"
	"slices"
)

// The inscribed and the minimum zone circle are not convex problems once the
// true distances are taken. But a centre that cannot be bettered nearby is
// held by readings: by three on one circle, or by two on the inner and two on
// the outer. All such centres are corners or crossings of two maps of the
// plane: which reading is nearest, and which is farthest (nearest-point and
// farthest-point Voronoi diagrams). The maps are built cell by cell by cutting
// a box with the perpendicular bisectors, which costs n² small cuts: a few
// milliseconds for a reading every degree, and nothing can be missed.
// Source: Ebara, Fukuyama, Nakano & Nakanishi, "Roundness algorithms using
// the Voronoi diagrams" (1989); Le & Lee, "Out-of-roundness problem
// revisited", IEEE PAMI 13 (1991) 217; both from memory.

// border is a piece of the bisector between readings i and j on which both are
// the nearest (or the farthest).
type border struct {
	i, j int
	a, b Vec
}

// diagram is one such map inside a box.
type diagram struct {
	corners []Vec
	borders []border
}

// cell is a convex polygon; sides[k] names the reading across the side from
// corner k to k+1, or -1 for the box.
type cell struct {
	corners []Vec
	sides   []int
}

// drawDiagram maps the plane inside the box of the readings. vs must hold no
// place twice.
func drawDiagram(vs []Vec, farthest bool) diagram {
	lo, hi := boxOf(vs)
	var d diagram
	var c, spare cell
	for i, p := range vs {
		c.corners = append(c.corners[:0], lo, Vec{hi.X, lo.Y}, hi, Vec{lo.X, hi.Y})
		c.sides = append(c.sides[:0], -1, -1, -1, -1)
		for s := 1; s < len(vs) && len(c.corners) > 0; s++ {
			// Neighbours in the list are usually neighbours round the bore: cut by
			// them first and little is left to cut.
			j := (i + (s+1)/2*(1-2*(s%2)) + len(vs)) % len(vs)
			q := vs[j]
			// |m−p|² ≤ |m−q|² is 2(q−p)·m ≤ |q|²−|p|².
			n := q.Minus(p)
			k := q.Plus(p).Dot(n) / 2
			if farthest {
				n, k = n.Times(-1), -k
			}
			if c.crosses(n, k) {
				c.cut(n, k, j, &spare)
				c, spare = spare, c
			}
		}
		for k, v := range c.corners {
			next := c.sides[k]
			if next < 0 {
				continue
			}
			if before := c.sides[(k+len(c.sides)-1)%len(c.sides)]; before >= 0 {
				d.corners = append(d.corners, v)
			}
			if next > i {
				d.borders = append(d.borders, border{i, next, v, c.corners[(k+1)%len(c.corners)]})
			}
		}
	}
	return d
}

// crosses reports whether any of c lies beyond n·m = k.
func (c *cell) crosses(n Vec, k float64) bool {
	for _, p := range c.corners {
		if n.X*p.X+n.Y*p.Y > k {
			return true
		}
	}
	return false
}

// cut keeps the part of c with n·m ≤ k and writes it to out.
func (c *cell) cut(n Vec, k float64, label int, out *cell) {
	out.corners, out.sides = out.corners[:0], out.sides[:0]
	add := func(v Vec, side int) {
		out.corners, out.sides = append(out.corners, v), append(out.sides, side)
	}
	for i, p := range c.corners {
		q := c.corners[(i+1)%len(c.corners)]
		fp, fq := n.Dot(p)-k, n.Dot(q)-k
		if fp <= 0 {
			add(p, c.sides[i])
		}
		if (fp <= 0) == (fq <= 0) {
			continue
		}
		x := p.Plus(q.Minus(p).Times(fp / (fp - fq)))
		if fp <= 0 {
			add(x, label)
		} else {
			add(x, c.sides[i])
		}
	}
}

func boxOf(vs []Vec) (lo, hi Vec) {
	lo, hi = vs[0], vs[0]
	for _, v := range vs {
		lo = Vec{math.Min(lo.X, v.X), math.Min(lo.Y, v.Y)}
		hi = Vec{math.Max(hi.X, v.X), math.Max(hi.Y, v.Y)}
	}
	return lo, hi
}

// distinct drops places that stand on another within rounding error.
func distinct(vs []Vec) []Vec {
	lo, hi := boxOf(vs)
	tol := 1e-13 * (hi.Minus(lo).Length() + lo.Length())
	var out []Vec
	for _, v := range vs {
		if !slices.ContainsFunc(out, func(w Vec) bool { return w.Distance(v) <= tol }) {
			out = append(out, v)
		}
	}
	return out
}

// openTurn is the widest angle at c, degrees, in which no reading stands: 180
// or more means that c is not among them.
func openTurn(vs []Vec, c Vec) float64 {
	as := make([]float64, 0, len(vs))
	for _, v := range vs {
		if w := v.Minus(c); w.Length() > 0 {
			as = append(as, w.Clock())
		}
	}
	_, gap := widestGap(as)
	return gap
}

// widestGap is where the widest gap between clock positions begins, and how wide it is,
// degrees.
func widestGap(clocks []float64) (from, gap float64) {
	if len(clocks) == 0 {
		return 0, 360
	}
	var at []float64
	for _, c := range clocks {
		at = append(at, turn(c))
	}
	slices.Sort(at)
	last := len(at) - 1
	from, gap = at[last], at[0]+360-at[last]
	for i := range last {
		if d := at[i+1] - at[i]; d > gap {
			from, gap = at[i], d
		}
	}
	return from, gap
}
