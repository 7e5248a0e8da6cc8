package cut

import "math"

// Ra is the arithmetic mean deviation (ISO 21920-2) of the same marks, mm,
// exactly; close to f²/(18√3·r) at fine feeds. Beyond feeds of 2r it is that
// of half-circles; Model.Ra knows the straight edges.
func Ra(feed, nose float64) float64 {
	if !(feed > 0 && nose > 0) {
		return 0
	}
	return marks{r: nose, front: nose, back: nose}.ra(min(feed, 2*nose))
}

// Rt is the depth of the feed marks of this edge, mm: nose arc and, at coarse
// feeds, the straight edges on either side of it. Of the arc alone it is
//
//	R_t = r − √(r² − f²/4)
//
// close to f²/(8r) at fine feeds (Shaw, Metal Cutting Principles; Boothroyd &
// Knight).
func (m *Model) Rt(feed float64) float64 {
	if !(feed > 0) {
		return 0
	}
	k := m.marks()
	return k.height(k.left(feed))
}

// Ra is the roughness to expect, mm, for a feed and a radial depth, mm, and a
// cutting speed, m/min:
//
//	R_a = max(√(R_a,geometric² + R_a,chip²) · RaFactor · K_v · K_a, RaLeast)
//
// R_a,chip is that of the feed √(2·r·h_min), finer than which feed marks do
// not get shallower because the edge no longer cuts their crests off
// (Brammertz 1961: R_t = f²/8r + h_min/2·(1 + r·h_min/f²) is least there; from
// memory). K_v is SpeedRoughness; K_a rises from 1 at twice the least depth to
// 1.5 at the least depth, where the edge rubs (common practice, no source). RaLeast
// is what graphite leaves where it is torn out of iron, whatever the feed. A
// fresh edge is meant; no built-in vibration. Good to about ±40 %.
func (m *Model) Ra(feed, depth, speed float64) float64 {
	return m.RaOver(m.MarksRa(feed), depth, speed)
}

// MarksRa is R_a,geometric of a feed, mm; 0: nothing is fed.
func (m *Model) MarksRa(feed float64) float64 {
	if !(feed > 0) {
		return 0
	}
	return m.marks().ra(feed)
}

// RaOver is Ra from the R_a,geometric of a feed.
func (m *Model) RaOver(marks, depth, speed float64) float64 {
	if !(marks > 0) {
		return 0
	}
	ra := math.Sqrt(marks*marks + m.raChip*m.raChip)
	rub := 1.0
	if least := m.LeastDepth(); least > 0 {
		rub += 0.5 * min(1, max(0, 2-depth/least))
	}
	return math.Max(ra*m.work.RaFactor*SpeedRoughness(m.work.Group, speed)*rub, m.work.RaLeast)
}

// SpeedRoughness is how much rougher a finish gets with a built-up edge: in
// steel and stainless steel (groups P and M) 1 from 100 m/min up, rising
// straight to 1.8 at 30 m/min and level from there to 10 m/min, then falling to
// 1.3 at rest, where no built-up edge forms. 1 in iron, brass and bronze.
// Source: the shape is textbook (roughness over speed with a peak from the
// built-up edge); the figures are common practice, no source.
func SpeedRoughness(group string, speed float64) float64 {
	if group != "P" && group != "M" {
		return 1
	}
	switch {
	case speed >= 100:
		return 1
	case speed > 30:
		return 1.8 - 0.8*(speed-30)/70
	case speed >= 10:
		return 1.8
	}
	return 1.3 + 0.05*max(0, speed)
}

// marks is the profile of feed marks: an arc of radius r from −back to +front
// with its tangents beyond. A tangent at or past the vertical has no slope.
type marks struct {
	r                  float64
	front, back        float64 // where the arc ends, as distance along the feed
	frontSlope, backUp float64 // slope of the edges, height over distance
}

func (m *Model) marks() marks {
	k := marks{r: m.r, front: m.r * m.sk, back: m.r * m.sp, backUp: m.sp / m.cp}
	if m.ck > 0 {
		k.frontSlope = m.sk / m.ck
	} else {
		k.front, k.frontSlope = m.r, math.Inf(1)
	}
	return k
}

// height of the tool's edge above its tip at x along the feed.
func (k marks) height(x float64) float64 {
	end, slope := k.front, k.frontSlope
	if x < 0 {
		x, end, slope = -x, k.back, k.backUp
	}
	if x <= end {
		return x * x / (k.r + math.Sqrt(max(0, k.r*k.r-x*x)))
	}
	if math.IsInf(slope, 1) {
		return math.Inf(1)
	}
	return end*end/(k.r+math.Sqrt(max(0, k.r*k.r-end*end))) + (x-end)*slope
}

// area under the edge from the tip to x.
func (k marks) area(x float64) float64 {
	end, slope := k.front, k.frontSlope
	if x < 0 {
		x, end, slope = -x, k.back, k.backUp
	}
	e := min(x, end)
	a := k.r*e - (e*math.Sqrt(max(0, k.r*k.r-e*e))+k.r*k.r*math.Asin(min(1, e/k.r)))/2
	if e/k.r < 0.02 { // the difference above cancels: series of r − √(r²−x²)
		q := e * e / (k.r * k.r)
		a = e * e * e / (6 * k.r) * (1 + q*(3.0/20+q*3.0/56))
	}
	if x > end {
		a += (x - end) * (end*end/(k.r+math.Sqrt(max(0, k.r*k.r-end*end))) + (x-end)*slope/2)
	}
	return a
}

// width is height turned round: how far from the tip the edge stands y high,
// in front (side 1) or behind (side −1).
func (k marks) width(y float64, side int) float64 {
	end, slope := k.front, k.frontSlope
	if side < 0 {
		end, slope = k.back, k.backUp
	}
	arc := end * end / (k.r + math.Sqrt(max(0, k.r*k.r-end*end)))
	if y <= arc {
		return math.Sqrt(y * (2*k.r - y))
	}
	return end + (y-arc)/slope
}

// left is the crest behind the tip: where the edge stands as high as a feed
// further on.
func (k marks) left(feed float64) float64 {
	if feed/2 <= min(k.front, k.back) {
		return -feed / 2
	}
	lo, hi := -feed, 0.0
	for range 60 {
		mid := (lo + hi) / 2
		if mid == lo || mid == hi {
			break
		}
		if k.height(mid) > k.height(mid+feed) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// ra is the mean deviation of the profile from its mean line over one feed:
// what lies under the mean line counts once, and as much lies over it.
func (k marks) ra(feed float64) float64 {
	x := k.left(feed)
	mean := (k.area(x) + k.area(x+feed)) / feed
	a, b := k.width(mean, -1), k.width(mean, 1)
	return 2 / feed * (mean*(a+b) - k.area(-a) - k.area(b))
}

// LeastDepth is the least radial depth that an edge in fair order takes as a
// chip rather than rubbing, mm: twice the least chip thickness h_min (edge
// rounding times MinChip), which allows for an edge that is not new.
// Source: trade figures of 3–10 µm for a ground high-speed-steel edge and
// 20–50 µm for a coated one are 1.5–2 times h_min; from memory.
func (m *Model) LeastDepth() float64 { return 2 * m.least }
