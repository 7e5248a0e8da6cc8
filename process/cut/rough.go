package cut

import "math"

// RaBy is what makes a surface as rough as it is.
type RaBy int

const (
	RaByMarks RaBy = iota // feed marks of the nose
	RaByEdge              // the rounding of the edge, which does not cut their crests off
	RaByMetal             // grains torn out of the metal
)

// RaCause is what makes a surface rougher than is asked for, and what would leave it as
// fine: each alone, all else as it is; 0: none does.
type RaCause struct {
	By       RaBy
	Feed     float64 // at most, mm/rev
	Nose     float64 // at least, mm
	Rounding float64 // of the edge, at most, mm
}

// WhyRough is why Ra of the same feed, depth and speed is above what is asked for, mm.
// The metal is the cause where it is torn rougher than that; else of marks and edge the
// one that leaves more of it, where something helps against that one.
func (m *Model) WhyRough(feed, depth, speed, asked float64) RaCause {
	c := RaCause{By: RaByMetal}
	if m.work.RaLeast > asked {
		return c
	}
	fine := func(e Edge, feed float64) bool {
		n, err := newModel(m.work, e)
		return err == nil && n.Ra(feed, depth, speed) <= asked
	}
	c.Feed = furthest(feed, feed/1000, func(f float64) bool { return fine(m.edge, f) })
	c.Nose = furthest(m.r, 4*m.r, func(r float64) bool { e := m.edge; e.Nose = r; return fine(e, feed) })
	c.Rounding = furthest(m.edge.Rounding, m.edge.Rounding/1000, func(r float64) bool { e := m.edge; e.Rounding = r; return fine(e, feed) })
	marks, edge := c.Feed > 0 || c.Nose > 0, c.Rounding > 0
	if c.By = RaByMarks; edge && (!marks || m.raChip > m.marks().ra(feed)) {
		c.By = RaByEdge
	}
	return c
}

// furthest is the figure nearest to now, on the way to end, with which it is so; 0 where it
// is not even at the end.
func furthest(now, end float64, so func(float64) bool) float64 {
	if !so(end) {
		return 0
	}
	for range 40 {
		mid := (now + end) / 2
		if so(mid) {
			end = mid
		} else {
			now = mid
		}
		if math.Abs(now-end) < 1e-7 {
			break
		}
	}
	return end
}
