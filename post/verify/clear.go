package verify

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/qty"
)

// endless stands for "as far as it goes": no machine is 1000 km long, and
// sums of two of them stay far inside int64.
const endless qty.Length = 1 << 60

// place is one end of a part along the bar's line. It either follows the tip
// (its depth is the tip's depth plus at) or stands still at the depth at.
type place struct {
	at      qty.Length
	follows bool
}

func (p place) when(tip qty.Length) qty.Length {
	if p.follows {
		return p.at + tip
	}
	return p.at
}

// part is one cylinder of what the spindle carries, or the tip itself. back is
// the end nearer to the spindle, front the end deeper in the work.
type part struct {
	name        string
	back, front place
	radius      qty.Length
	offX, offY  qty.Length // of its middle from the bar's axis: only a tip that does not turn has any
}

// reach is how far the part stands from the true axis with the bar's axis at
// x, y: the distance of the middle plus the radius, rounded up to the
// nanometre.
func (p *part) reach(x, y qty.Length) qty.Length {
	x, y = x+p.offX, y+p.offY
	switch {
	case x == 0:
		return y.Abs() + p.radius
	case y == 0:
		return x.Abs() + p.radius
	}
	return qty.Length(math.Ceil(math.Hypot(float64(x), float64(y)))) + p.radius
}

// wall is metal from radius outward, from one depth to another. A floor is a
// wall of radius 0 without end.
type wall struct {
	name     string
	station  int // index into Job.Stations
	from, to qty.Length
	radius   qty.Length
	floor    bool
}

// stroke is one straight move of the tip: depth and where the bar's axis is.
type stroke struct {
	x0, y0, d0 qty.Length
	x1, y1, d1 qty.Length
	bent       bool // the way between the ends is not known to be straight (G0 on several axes)
}

// meet gives the least radial gap between the part and the wall over the
// stroke, and the depth of the tip at which it is least (where the part first
// comes beside the wall, when the gap stays the same). ok is false where the
// part never stands beside the wall.
//
// A part that reaches from b to f (linear in the tip's depth d) stands beside a
// wall from s to e while f > s and b < e. Both give an interval of d, so that
// for a move along the bore the answer is exact: no step can be too coarse. The
// bar's axis moves in a straight line, and its distance from the true axis is
// convex along it: the most is at an end of the interval.
func (p *part) meet(w *wall, m *stroke) (gap, depth qty.Length, ok bool) {
	lo, hi := -endless, endless
	cutBelow := func(pl place, at qty.Length) bool { // keep d where pl > at
		if pl.follows {
			lo = max(lo, at-pl.at)
			return true
		}
		return pl.at > at
	}
	cutAbove := func(pl place, at qty.Length) bool { // keep d where pl < at
		if pl.follows {
			hi = min(hi, at-pl.at)
			return true
		}
		return pl.at < at
	}
	if !cutBelow(p.front, w.from) || !cutAbove(p.back, w.to) {
		return 0, 0, false
	}
	if p.front.follows != p.back.follows { // a quill: there only where it has length
		if p.front.follows {
			lo = max(lo, p.back.at-p.front.at)
		} else {
			hi = min(hi, p.front.at-p.back.at)
		}
	}
	if m.d0 == m.d1 {
		if m.d0 <= lo || m.d0 >= hi {
			return 0, 0, false
		}
		far := max(p.reach(m.x0, m.y0), p.reach(m.x1, m.y1))
		if m.bent {
			far = max(far, p.reach(m.x0, m.y1), p.reach(m.x1, m.y0))
		}
		return w.radius - far, m.d0, true
	}
	a, b := m.d0, m.d1 // first and last depth beside the wall, in the order of the move
	if a < b {
		a, b = max(a, lo), min(b, hi)
		if a >= b {
			return 0, 0, false
		}
	} else {
		a, b = min(a, hi), max(b, lo)
		if a <= b {
			return 0, 0, false
		}
	}
	if m.bent { // anywhere in the box of the two ends
		far := max(p.reach(m.x0, m.y0), p.reach(m.x1, m.y1), p.reach(m.x0, m.y1), p.reach(m.x1, m.y0))
		return w.radius - far, a, true
	}
	first := p.reach(m.at(a))
	last := p.reach(m.at(b))
	if last > first {
		return w.radius - last, b, true
	}
	return w.radius - first, a, true
}

// at is where the bar's axis stands when the tip is at depth d of a straight
// stroke that moves along the bore.
func (m *stroke) at(d qty.Length) (x, y qty.Length) {
	if m.x0 == m.x1 && m.y0 == m.y1 {
		return m.x0, m.y0
	}
	t := float64(d-m.d0) / float64(m.d1-m.d0)
	mix := func(a, b qty.Length) qty.Length {
		return a + qty.Length(math.Round(t*float64(b-a)))
	}
	return mix(m.x0, m.x1), mix(m.y0, m.y1)
}

// partsOf lays out what stands on the spindle, by depth relative to the tip:
// the nose, the quill that slides out of it, every step of the bar. The tip is
// not among them.
//
// Table feed: the work comes to the bar, so relative to the work all of it
// moves with the tip. Quill feed: the nose stays at its stand-off from the
// face, and between it and the bar the quill grows as the tip goes in.
func partsOf(j *process.Job) []part {
	var out []part
	nose := place{at: -j.Bar.CutterAt, follows: true}
	if j.Bar.FeedBy == process.QuillFeed {
		root := nose // where the bar begins: it follows the tip
		nose = place{at: -j.Bar.Standoff}
		if j.Machine != nil && j.Machine.Quill > 0 {
			out = append(out, part{name: "quill", back: nose, front: root, radius: up(j.Machine.Quill)})
		}
	}
	if j.Machine != nil && j.Machine.Nose > 0 {
		out = append(out, part{name: "spindle nose", back: place{at: -endless}, front: nose, radius: up(j.Machine.Nose)})
	}
	at := -j.Bar.CutterAt
	for i, s := range j.Bar.Steps {
		out = append(out, part{
			name:   fmt.Sprintf("bar step %d", i+1),
			back:   place{at: at, follows: true},
			front:  place{at: at + s.Length, follows: true},
			radius: up(s.Diameter),
		})
		at += s.Length
	}
	return out
}

// up is the radius of what must fit, rounded up; down of what it must fit in.
func up(d qty.Diameter) qty.Length   { return (d.Length() + 1) / 2 }
func down(d qty.Diameter) qty.Length { return d.Radius() }
