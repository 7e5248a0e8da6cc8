package cut

import "math"

// chord is the straight line between the ends of the engaged edge: the equivalent edge
// of the whole cut. Its figures are the shares of a thrust normal to it.
type chord struct{ feed, radial float64 }

// reach is how far the engaged edge goes, mm: off the wall, which the feed force stands
// against, and along the feed. Also the sums of sin κ and cos κ over the edge.
func (m *Model) reach(s *span) (rises, along float64) {
	s0, c0 := ofHalf(s.from)
	s1, c1 := ofHalf(s.to)
	return m.r*(c0-c1) + s.flank*m.sk - s.behind*m.sp, m.r*(s1-s0) + s.flank*m.ck + s.behind*m.cp
}

// ofHalf is sine and cosine of the angle whose half has the tangent u.
func ofHalf(u float64) (sin, cos float64) { return 2 * u / (1 + u*u), (1 - u*u) / (1 + u*u) }

func (m *Model) chord(s *span) chord {
	rises, along := m.reach(s)
	if long := math.Sqrt(rises*rises + along*along); long > 0 {
		return chord{rises / long, along / long}
	}
	return chord{radial: 1}
}

// turn is how the radial share of the chord changes with the depth of cut, 1/mm. An end
// in the old surface goes up by 1 and along by cot κ for each millimetre of depth.
func (m *Model) turn(s *span) float64 {
	rises, along := m.reach(s)
	if rises == 0 {
		return 0
	}
	up, on := 1.0, m.ck/m.sk
	if s.flank == 0 {
		on = cotOfHalf(s.to)
	}
	if s.open { // both ends go up
		up = 0
		if s.behind > 0 {
			on += m.cp / m.sp
		} else {
			on -= cotOfHalf(s.from)
		}
	}
	return rises * (rises*on - along*up) / math.Pow(rises*rises+along*along, 1.5)
}

// cotOfHalf is the cotangent of the angle whose half has the tangent u; 0 of none.
func cotOfHalf(u float64) float64 {
	if u == 0 {
		return 0
	}
	return (1 - u*u) / (2 * u)
}
