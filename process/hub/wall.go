package hub

import (
	"math"
	"slices"

	"borewright/process/geom"
)

// Reading is the metal, mm, beside a bore at one clock position, degrees.
type Reading struct{ Clock, Metal float64 }

// Wall is the metal around a bore as readings round the clock show it.
type Wall struct {
	Thin, Thick float64 // mm
	At          float64 // clock position of the thinnest, degrees
	Read        bool    // by readings round the clock
	Round       bool    // the outside is a circle about another centre; else it may be any shape
}

// Wall is said to be that of a round hub where readings stand at least this close
// round the clock, degrees, and none is off the circle by more than this share of
// the thinnest. Common practice, no source: a flat that takes a quarter off the
// wall stands out by more.
const (
	closeClock = 60
	offCircle  = 0.1
)

// Around reads the wall around a bore of radius r, mm: the thinnest and the
// thickest that was read, or those of the circle through the outside where that is
// what the readings show. At least three readings at different places.
func Around(r float64, all []Reading) Wall {
	byMetal := func(a, b Reading) int { return int(math.Copysign(1, a.Metal-b.Metal)) }
	least, most := slices.MinFunc(all, byMetal), slices.MaxFunc(all, byMetal)
	w := Wall{Thin: least.Metal, Thick: most.Metal, At: least.Clock, Read: true}
	if gap(all) > closeClock+1e-9 {
		return w
	}
	var ps []geom.Point
	for _, m := range all {
		ps = append(ps, geom.Point{Clock: m.Clock, Radius: r + m.Metal})
	}
	c, err := geom.LeastSquares(ps)
	if err != nil || max(c.Outer-c.R, c.R-c.Inner) > offCircle*w.Thin {
		return w
	}
	e := c.Centre().Length()
	w.Round, w.Thin, w.Thick = true, min(w.Thin, c.R-e-r), max(w.Thick, c.R+e-r)
	if e > 0 {
		w.At = math.Mod(c.Centre().Clock()+180, 360)
	}
	return w
}

// gap is the widest stretch of the clock without a reading, degrees.
func gap(all []Reading) float64 {
	var at []float64
	for _, m := range all {
		at = append(at, math.Mod(m.Clock, 360))
	}
	slices.Sort(at)
	wide := at[0] + 360 - at[len(at)-1]
	for i := 1; i < len(at); i++ {
		wide = max(wide, at[i]-at[i-1])
	}
	return wide
}
