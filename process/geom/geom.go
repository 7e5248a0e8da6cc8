// Package geom fits circles and axes to readings and turns dial sweeps into moves
// of the work. Pure functions; millimetres and degrees.
//
// # Which way is which
//
// Axes are ISO 841: Z lies along the spindle and is positive away from the
// work, Y is up, X is horizontal across the table. The operator stands at the
// spindle and looks at the work, that is along −Z. Z comes towards the
// operator, Y is up, and X = Y × Z of a right-handed system then points to the
// operator's RIGHT.
//
// A clock position is an angle from 12 o'clock, clockwise in that view, so
// 12 o'clock is +Y, 3 o'clock is +X, 6 o'clock −Y and 9 o'clock −X:
//
//	x = r·sin(clock), y = r·cos(clock)
//
// Depth is measured from the face that the spindle enters, inward positive;
// it runs along −Z. A tilt is the slope of an axis with depth, dx/ddepth and
// dy/ddepth: positive X means that the far end stands to the right, positive Y
// that it stands high.
package geom

import (
	"math"

	"borewright/process/fact"
	"borewright/process/qty"
)

// Point is one radius from an axis at a clock position.
type Point struct {
	Clock  float64 // degrees from 12 o'clock, clockwise seen from the spindle
	Radius float64 // mm
}

// Vec is a place or a shift in the plane across the spindle, mm: X to the
// operator's right, Y up.
type Vec struct {
	X float64
	Y float64
}

func (v Vec) Plus(w Vec) Vec            { return Vec{v.X + w.X, v.Y + w.Y} }
func (v Vec) Minus(w Vec) Vec           { return Vec{v.X - w.X, v.Y - w.Y} }
func (v Vec) Times(f float64) Vec       { return Vec{v.X * f, v.Y * f} }
func (v Vec) Dot(w Vec) float64         { return v.X*w.X + v.Y*w.Y }
func (v Vec) cross(w Vec) float64       { return v.X*w.Y - v.Y*w.X }
func (v Vec) Finite() bool              { return finite(v.X) && finite(v.Y) }
func finite(f float64) bool             { return !math.IsNaN(f) && !math.IsInf(f, 0) }
func (v Vec) Distance(w Vec) float64    { return math.Hypot(v.X-w.X, v.Y-w.Y) }
func (p Point) at() Vec                 { return AtClock(p.Clock).Times(p.Radius) }
func square(a float64) float64          { return a * a }
func clampTo(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }

// Length is the distance from the axis, mm.
func (v Vec) Length() float64 { return math.Hypot(v.X, v.Y) }

// Clock is the clock position of v, 0 to under 360 degrees; 0 for no shift.
func (v Vec) Clock() float64 {
	if v.X == 0 && v.Y == 0 {
		return 0
	}
	return turn(math.Atan2(v.X, v.Y) * 180 / math.Pi)
}

// AtClock is the unit vector that points to a clock position in degrees. The
// four quarters are exact.
func AtClock(clock float64) Vec {
	switch a := turn(clock); a {
	case 0:
		return Vec{0, 1}
	case 90:
		return Vec{1, 0}
	case 180:
		return Vec{0, -1}
	case 270:
		return Vec{-1, 0}
	default:
		s, c := math.Sincos(a * math.Pi / 180)
		return Vec{s, c}
	}
}

// turn brings an angle into 0 to under 360 degrees.
func turn(deg float64) float64 {
	a := math.Mod(deg, 360)
	if a < 0 {
		a += 360
	}
	if a >= 360 { // −1e-17 + 360
		a = 0
	}
	return a
}

// Across is a two-point diameter: at its clock position and the one opposite.
type Across struct {
	Clock    float64 // degrees
	Diameter float64 // mm
}

// Opposed turns two-point diameters into radii about the bore's own middle,
// two to a diameter. A two-point gauge sees size and ovality but neither where
// the axis is nor an odd number of lobes, so the result must not be used for
// an offset.
func Opposed(across []Across) []Point {
	out := make([]Point, 0, 2*len(across))
	for _, half := range []float64{0, 180} {
		for _, a := range across {
			out = append(out, Point{turn(a.Clock + half), a.Diameter / 2})
		}
	}
	return out
}

// places checks readings and gives where they are.
func places(ps []Point, least int) ([]Vec, error) {
	if len(ps) < least {
		return nil, fact.New(TooFewReadings, fact.Count(len(ps)), fact.Count(least)).Err()
	}
	out := make([]Vec, len(ps))
	for i, p := range ps {
		if !finite(p.Clock) || !finite(p.Radius) || p.Radius <= 0 {
			return nil, fact.New(NotAReading, fact.Count(i+1), fact.PlainMM(p.Radius), fact.Value(qty.KindAngle, p.Clock)).Err()
		}
		out[i] = p.at()
	}
	return out, nil
}
