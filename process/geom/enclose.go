package geom

import (
	"math"
	"math/rand/v2"
)

// MinCircumscribed is the smallest circle that holds all readings (MCCI of ISO
// 12181-1): the smallest that the bore can be cut to about an axis of its own
// choosing. It is unique. Two readings give the circle on the line between
// them; so do more when two opposite ones hold the circle.
//
// Incremental construction over the readings in a fixed shuffled order
// (Welzl, "Smallest enclosing disks", LNCS 555 (1991); from memory).
func MinCircumscribed(ps []Point) (Circle, error) {
	vs, err := places(ps, 2)
	if err != nil {
		return Circle{}, err
	}
	c := circleAt(vs, minCircle(vs), 0)
	c.R = c.Outer
	return c, nil
}

// disk is a centre and a radius.
type disk struct {
	c Vec
	r float64
}

func (d disk) holds(v Vec) bool { return v.Distance(d.c) <= d.r*(1+1e-13) }

func minCircle(vs []Vec) Vec {
	order := rand.New(rand.NewPCG(1, 2)).Perm(len(vs)) // fixed: same bytes out every time
	at := func(i int) Vec { return vs[order[i]] }
	d := disk{at(0), 0}
	for i := 1; i < len(vs); i++ {
		if d.holds(at(i)) {
			continue
		}
		d = disk{at(i), 0}
		for j := range i {
			if d.holds(at(j)) {
				continue
			}
			d = onTwo(at(i), at(j))
			for k := range j {
				if !d.holds(at(k)) {
					d = onThree(at(i), at(j), at(k))
				}
			}
		}
	}
	return d.c
}

func onTwo(a, b Vec) disk {
	c := a.Plus(b).Times(0.5)
	return disk{c, math.Max(c.Distance(a), c.Distance(b))}
}

// onThree is the circle through three places; the one on the longest side when
// they lie on a line.
func onThree(a, b, c Vec) disk {
	if m, ok := circumcentre(a, b, c); ok {
		return disk{m, math.Max(m.Distance(a), math.Max(m.Distance(b), m.Distance(c)))}
	}
	best := onTwo(a, b)
	for _, d := range []disk{onTwo(b, c), onTwo(a, c)} {
		if d.r > best.r {
			best = d
		}
	}
	return best
}

// circumcentre of three places; false when they lie on a line.
func circumcentre(a, b, c Vec) (Vec, bool) {
	p, q := b.Minus(a), c.Minus(a)
	det := 2 * p.cross(q)
	pp, qq := p.Dot(p), q.Dot(q)
	if math.Abs(det) <= 1e-14*(pp+qq) {
		return Vec{}, false
	}
	return a.Plus(Vec{(q.Y*pp - p.Y*qq) / det, (p.X*qq - q.X*pp) / det}), true
}
