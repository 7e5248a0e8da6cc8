package geom

import (
	"math"

	"borewright/process/fact"
)

// halfTurn is how wide an angle without readings may be, seen from a centre that
// still counts as inside them; a hair over half a turn for rounding.
const halfTurn = 180 + 1e-7

// MaxInscribed is the largest circle with no reading inside it, its centre
// among the readings (MICI of ISO 12181-1): the largest plug that enters. In
// an oval bore two such circles can do equally well, one toward each end of
// the oval; the one nearer to the least squares centre is given. The readings
// must go round the bore.
//
// Two opposite readings alone never hold an inscribed circle: moving the
// centre across the line between them leaves both, so it grows until a third
// touches. The small-eccentricity program does not see this.
func MaxInscribed(ps []Point) (Circle, error) {
	vs, err := places(ps, 3)
	if err != nil {
		return Circle{}, err
	}
	ls, err := startCircle(vs)
	if err != nil {
		return Circle{}, err
	}
	type candidate struct {
		c Vec
		r float64
	}
	var held []candidate
	best := candidate{r: -1}
	for _, m := range drawDiagram(distinct(vs), false).corners {
		r := nearestTo(vs, m)
		if r < best.r*(1-1e-6) || !heldAt(vs, m, r) {
			continue
		}
		held = append(held, candidate{m, r})
		if r > best.r {
			best = candidate{m, r}
		}
	}
	if best.r <= 0 {
		return Circle{}, fact.New(OpenInside).Err()
	}
	// Of circles that are the same size to within rounding, the one nearest to
	// the middle.
	pick := best
	for _, h := range held {
		if h.r >= best.r*(1-1e-12) && h.c.Distance(ls) < pick.c.Distance(ls)-1e-9*best.r {
			pick = h
		}
	}
	out := circleAt(vs, pick.c, 0)
	out.R = out.Inner
	return out, nil
}

func nearestTo(vs []Vec, c Vec) float64 {
	r := math.Inf(1)
	for _, v := range vs {
		r = math.Min(r, v.Distance(c))
	}
	return r
}

func farthestFrom(vs []Vec, c Vec) float64 {
	var r float64
	for _, v := range vs {
		r = math.Max(r, v.Distance(c))
	}
	return r
}

// heldAt reports whether the readings that touch the inscribed circle at c
// stand round it, so that it cannot grow by moving.
func heldAt(vs []Vec, c Vec, r float64) bool {
	var on []Vec
	for _, v := range vs {
		if v.Distance(c) <= r*(1+1e-10) {
			on = append(on, v)
		}
	}
	return len(on) >= 3 && openTurn(on, c) <= halfTurn
}

// MinZone is the pair of concentric circles with the least distance between
// them that hold all readings (MZCI of ISO 12181-1), its centre among the
// readings. R is midway between Outer and Inner.
func MinZone(ps []Point) (Circle, error) {
	vs, err := places(ps, 3)
	if err != nil {
		return Circle{}, err
	}
	if _, err := startCircle(vs); err != nil {
		return Circle{}, err
	}
	ds := distinct(vs)
	if len(ds) == 3 { // one circle takes all three
		m, _ := circumcentre(ds[0], ds[1], ds[2])
		if openTurn(ds, m) > halfTurn {
			return Circle{}, openSide()
		}
		return circleAt(vs, m, -1), nil
	}
	near, far := drawDiagram(ds, false), drawDiagram(ds, true)
	var centre Vec
	best := math.Inf(1)
	hair := 1e-14 * farthestFrom(ds, Vec{}) // a round bore has crossings without number
	try := func(m Vec, quick float64) {
		if quick >= best-hair {
			return
		}
		if w := farthestFrom(ds, m) - nearestTo(ds, m); w < best && openTurn(ds, m) <= halfTurn {
			centre, best = m, w
		}
	}
	for _, m := range near.corners {
		try(m, -1)
	}
	for _, m := range far.corners {
		try(m, -1)
	}
	for _, f := range far.borders {
		for _, n := range near.borders {
			if m, ok := crossing(f, n); ok {
				try(m, m.Distance(ds[f.i])-m.Distance(ds[n.i]))
			}
		}
	}
	if math.IsInf(best, 1) {
		return Circle{}, openSide()
	}
	return circleAt(vs, centre, -1), nil
}

func openSide() error {
	return fact.New(OpenZone).Err()
}

// crossing of two borders. One that misses by rounding error is let through:
// the caller measures every candidate anyway.
func crossing(f, n border) (Vec, bool) {
	d, e := f.b.Minus(f.a), n.b.Minus(n.a)
	det := d.cross(e)
	if det == 0 {
		return Vec{}, false
	}
	w := n.a.Minus(f.a)
	s, t := w.cross(e)/det, w.cross(d)/det
	const hair = 1e-9
	if s < -hair || s > 1+hair || t < -hair || t > 1+hair {
		return Vec{}, false
	}
	return f.a.Plus(d.Times(s)), true
}
