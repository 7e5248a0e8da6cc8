package draw

import "math"

const (
	arrowLong = 2.5 // mm
	arrowHalf = 0.42
	past      = 1.5 // that an extension line goes on past the dimension line
	gap       = 0.8 // that it leaves to the outline
)

// arrow draws a filled arrow head with its point at p, pointing along dir (a
// unit vector).
func (s *Scene) arrow(p, dir Pt) {
	b := Pt{p.X - dir.X*arrowLong, p.Y - dir.Y*arrowLong}
	s.Polygon(Pen{}, Black, p, Pt{b.X - dir.Y*arrowHalf, b.Y + dir.X*arrowHalf}, Pt{b.X + dir.Y*arrowHalf, b.Y - dir.X*arrowHalf})
}

// Across dimensions a horizontal distance from x of a to x of b on a line at y,
// with extension lines from the two points. The text stands above the line,
// and beside it where it does not fit between the arrows.
func (s *Scene) Across(a, b Pt, y float64, str string) {
	if a.X > b.X {
		a, b = b, a
	}
	for _, p := range []Pt{a, b} {
		s.extend(p, y)
	}
	w, room := Width(str, Plain), b.X-a.X
	switch {
	case room >= w+1 && room >= 2*arrowLong+1:
		s.Line(Thin(), Pt{a.X, y}, Pt{b.X, y})
		s.arrow(Pt{a.X, y}, Pt{-1, 0})
		s.arrow(Pt{b.X, y}, Pt{1, 0})
		s.Clear(Pt{(a.X + b.X) / 2, y - 0.9}, Plain, Middle, str)
		s.Text(Pt{(a.X + b.X) / 2, y - 0.9}, Plain, Middle, str)
	case room >= 2*arrowLong+1: // arrows inside, text beside
		s.Line(Thin(), Pt{a.X, y}, Pt{b.X, y})
		s.arrow(Pt{a.X, y}, Pt{-1, 0})
		s.arrow(Pt{b.X, y}, Pt{1, 0})
		s.beside(b.X, a.X, y, str)
	default: // arrows from outside
		s.Line(Thin(), Pt{a.X - 2*arrowLong, y}, Pt{b.X + 2*arrowLong, y})
		s.arrow(Pt{a.X, y}, Pt{1, 0})
		s.arrow(Pt{b.X, y}, Pt{-1, 0})
		s.beside(b.X+2*arrowLong, a.X-2*arrowLong, y, str)
	}
}

// beside writes a dimension that did not fit to the right of its line, or to
// the left where the sheet ends.
func (s *Scene) beside(right, left, y float64, str string) {
	w := Width(str, Plain)
	at := Pt{right + 1, y - 0.9}
	if at.X+w > s.W-1 {
		at.X = left - 1 - w
	}
	s.Clear(at, Plain, Start, str)
	s.Text(at, Plain, Start, str)
	s.Line(Thin(), Pt{math.Min(at.X, right), y}, Pt{math.Max(at.X+w, left), y})
}

func (s *Scene) extend(p Pt, y float64) {
	from, to := p.Y+gap, y+past
	if y < p.Y {
		from, to = p.Y-gap, y-past
	}
	s.Line(Thin(), Pt{p.X, from}, Pt{p.X, to})
}

// Mark is one place of a running dimension.
type Mark struct {
	At   Pt
	Text string
}

// Running dimensions many places along one line from one origin (ISO 129-1,
// running dimensioning): a small circle at the origin, an arrow at every place,
// the figure written upward at the end of its extension line. Where places lie
// too close for their figures the lines bend apart.
func (s *Scene) Running(origin Pt, y float64, marks []Mark) {
	const pitch = Plain + 1.1
	at := make([]float64, len(marks))
	for i, m := range marks {
		at[i] = m.At.X
	}
	spread := Spread(at, pitch, pitch/2, s.W-pitch/2)
	lo, hi := origin.X, origin.X
	for i, m := range marks {
		lo, hi = math.Min(lo, m.At.X), math.Max(hi, m.At.X)
		s.Line(Thin(), Pt{m.At.X, m.At.Y + gap}, Pt{m.At.X, y + 2.5}, Pt{spread[i], y + 5.5}, Pt{spread[i], y + 6.5})
		s.Up(Pt{spread[i] + Plain/2, y + 7.3}, Plain, End, m.Text)
		if math.Abs(m.At.X-origin.X) > 0.01 {
			dir := Pt{1, 0}
			if m.At.X < origin.X {
				dir.X = -1
			}
			if i == 0 || math.Abs(m.At.X-marks[i-1].At.X) > arrowLong*0.9 {
				s.arrow(Pt{m.At.X, y}, dir)
			} else { // no room for an arrow: a stroke
				s.Line(Outline(), Pt{m.At.X - 0.7, y + 0.7}, Pt{m.At.X + 0.7, y - 0.7})
			}
		}
	}
	s.Line(Thin(), Pt{lo, y}, Pt{hi, y})
	s.Circle(Thin(), White, Pt{origin.X, y}, 0.9)
}

// Leader draws a thin line from a dot or an arrow at its end to a text, with a
// shelf under it. The text begins at to, or ends there when it lies to the left.
func (s *Scene) Leader(tip, to Pt, strs ...string) {
	w := 0.0
	for _, t := range strs {
		w = math.Max(w, Width(t, Plain))
	}
	shelf := Pt{to.X + w, to.Y}
	a := Start
	if to.X < tip.X {
		shelf.X, a = to.X-w, End
	}
	for i, t := range strs {
		at := Pt{to.X, to.Y - 0.9 - float64(len(strs)-1-i)*(Plain+1.2)}
		s.Clear(at, Plain, a, t)
		s.Text(at, Plain, a, t)
	}
	s.Line(Thin(), tip, to, shelf)
	d := math.Hypot(tip.X-to.X, tip.Y-to.Y)
	if d > arrowLong {
		s.arrow(tip, Pt{(tip.X - to.X) / d, (tip.Y - to.Y) / d})
	}
}

// Balloon draws a number in a circle.
func (s *Scene) Balloon(c Pt, str string) {
	s.Circle(Thin(), White, c, 2.6)
	s.Bold(Pt{c.X, c.Y + Plain/2*0.95}, Plain*0.95, Middle, str)
}

// Break draws the freehand edge where a part is drawn no further, between two
// points (01.1, irregular).
func (s *Scene) Break(a, b Pt) { s.Line(Thin(), BreakLine(a, b)...) }

// BreakLine gives the points of such an edge, a to b.
func BreakLine(a, b Pt) []Pt {
	d := math.Hypot(b.X-a.X, b.Y-a.Y)
	n := int(math.Max(4, math.Min(d/1.2, 1000)))
	nx, ny := -(b.Y-a.Y)/d, (b.X-a.X)/d
	pts := make([]Pt, n+1)
	for i := range pts {
		t := float64(i) / float64(n)
		off := 0.0
		if i > 0 && i < n { // two waves that do not repeat, always the same
			off = 0.45*math.Sin(float64(i)*2.1) + 0.25*math.Sin(float64(i)*0.77+1)
		}
		pts[i] = Pt{a.X + (b.X-a.X)*t + nx*off, a.Y + (b.Y-a.Y)*t + ny*off}
	}
	return pts
}

// Spread moves rising positions apart to at least pitch, as little as it can,
// and keeps them between lo and hi where there is room for all.
func Spread(at []float64, pitch, lo, hi float64) []float64 {
	n := len(at)
	out := make([]float64, n)
	// Groups that touch share one middle: the pool-adjacent-violators rule for
	// at[i] − i·pitch, which gives the least squares of all moves.
	type group struct {
		sum float64
		n   int
	}
	var gs []group
	for i, x := range at {
		gs = append(gs, group{x - float64(i)*pitch, 1})
		for k := len(gs) - 1; k > 0 && gs[k].sum/float64(gs[k].n) < gs[k-1].sum/float64(gs[k-1].n); k-- {
			gs[k-1] = group{gs[k-1].sum + gs[k].sum, gs[k-1].n + gs[k].n}
			gs = gs[:k]
		}
	}
	i := 0
	for _, g := range gs {
		base := math.Min(math.Max(g.sum/float64(g.n), lo), math.Max(lo, hi-float64(n-1)*pitch))
		for range g.n {
			out[i] = base + float64(i)*pitch
			i++
		}
	}
	return out
}
