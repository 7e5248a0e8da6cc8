package cut

import "math"

// RunOut is how far, mm, the edge reaches along the feed beyond the end of the
// bore when its whole depth of cut has just been taken to that end: the nose
// radius and, for a lead angle κr under 90°, the straight edge that leads it,
//
//	r + a·cot κr
//
// nose r and depth of cut a in mm, lead κr in degrees. From the drawing of the
// tool; the true figure for a straight edge is a little less.
func RunOut(nose, lead, depth float64) float64 {
	if lead >= 90 {
		return nose
	}
	return nose + depth/math.Tan(rad(lead))
}

// RunOutDepth is the deepest cut, mm, whose edge finds room in a run-out of a
// length, mm: RunOut the other way round. It is 0 where the nose has none and
// +Inf where only the nose needs any.
func RunOutDepth(nose, lead, length float64) float64 {
	switch {
	case length < nose:
		return 0
	case lead >= 90:
		return math.Inf(1)
	}
	return (length - nose) * math.Tan(rad(lead))
}
