package draw

import (
	"math"
	"slices"
	"strconv"
)

// Scale is one axis of a plot.
type Scale struct {
	Label  string
	Lo, Hi float64
	Log    bool
	Ticks  []Tick
}

// Tick is a place on an axis with what is written there.
type Tick struct {
	At   float64
	Text string
}

// Plot is a chart being drawn: a scene with a frame in it.
type Plot struct {
	*Scene
	x, y        Scale
	left, right float64 // of the frame on paper
	top, bottom float64
	written     [][2]Pt // grounds of the words beside places, corner to corner
}

// NewPlot draws an empty chart with its axes, w by h mm.
func NewPlot(w, h float64, title, desc string, x, y Scale) *Plot {
	p := &Plot{Scene: New(w, h, title, desc), x: x, y: y}
	wide := 0.0
	for _, t := range y.Ticks {
		wide = math.Max(wide, Width(t.Text, Small))
	}
	p.left, p.right, p.top, p.bottom = wide+2.5, w-2, 8.2, h-7.6
	p.Bold(Pt{0, 2.2}, 2, Start, Short(title, 2.2, w))
	p.Text(Pt{0, 6.2}, Small, Start, y.Label)
	p.Text(Pt{p.right, h - 0.8}, Small, End, x.Label)
	for _, t := range y.Ticks {
		if at := p.At(x.Lo, t.At); at.Y >= p.top-0.01 && at.Y <= p.bottom+0.01 {
			p.Line(Pen{Width: 0.13}, at, Pt{p.right, at.Y})
			p.Text(Pt{p.left - 1, at.Y + Small/2}, Small, End, t.Text)
		}
	}
	last := math.Inf(-1)
	for _, t := range x.Ticks {
		at := p.At(t.At, y.Lo)
		if at.X < p.left-0.01 || at.X > p.right+0.01 {
			continue
		}
		p.Line(Thin(), at, Pt{at.X, at.Y + 1})
		half := Width(t.Text, Small) / 2
		mid := math.Min(math.Max(at.X, half), w-half)
		if mid-half < last+0.8 {
			continue
		}
		last = mid + half
		p.Text(Pt{mid, at.Y + 1.4 + Small}, Small, Middle, t.Text)
	}
	p.Line(Thin(), Pt{p.left, p.top}, Pt{p.left, p.bottom}, Pt{p.right, p.bottom})
	return p
}

// At is where a value stands on paper, held within a millimetre of the frame.
func (p *Plot) At(x, y float64) Pt {
	return Pt{
		clamp(p.left+p.x.share(x)*(p.right-p.left), p.left-1, p.right+1),
		clamp(p.bottom-p.y.share(y)*(p.bottom-p.top), p.top-1, p.bottom+1),
	}
}

func (s Scale) share(v float64) float64 {
	lo, hi := s.Lo, s.Hi
	if s.Log {
		lo, hi, v = math.Log(lo), math.Log(hi), math.Log(v)
	}
	if !(hi > lo) || math.IsNaN(v) {
		return 0
	}
	return (v - lo) / (hi - lo)
}

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }

// Curve joins places by straight lines.
func (p *Plot) Curve(pen Pen, places ...Pt) {
	pts := make([]Pt, len(places))
	for i, v := range places {
		pts[i] = p.At(v.X, v.Y)
	}
	p.Line(pen, pts...)
}

// Level draws a line across at y with a word at its right end, above the line
// or below it.
func (p *Plot) Level(pen Pen, y float64, word string, below bool) {
	at := p.At(p.x.Hi, y)
	p.Line(pen, Pt{p.left, at.Y}, at)
	if word == "" {
		return // no white patch over the word of a line close by
	}
	up := -0.7
	if below {
		up = Small + 0.8
	}
	p.Clear(Pt{at.X, at.Y + up}, Small, End, word)
	p.Text(Pt{at.X, at.Y + up}, Small, End, word)
}

// Dot marks a place with a filled circle and a word beside it, to the right or
// where that does not fit to the left.
func (p *Plot) Dot(x, y float64, word string) {
	at := p.At(x, y)
	p.Circle(Pen{}, Black, at, 0.7)
	p.Word(at, word)
}

// Word writes beside a place on paper: above it to the right or, where that does
// not fit or another word stands, to the left, or below.
func (p *Plot) Word(at Pt, word string) {
	if word == "" {
		return
	}
	w := Width(word, Small)
	type side struct {
		to Pt
		a  Anchor
	}
	var sides []side
	for _, y := range []float64{at.Y - 0.6, at.Y + Small + 0.6} {
		if at.X+1.2+w <= p.right {
			sides = append(sides, side{Pt{at.X + 1.2, y}, Start})
		}
		sides = append(sides, side{Pt{at.X - 1.2, y}, End})
	}
	ground := func(s side) [2]Pt {
		left := s.to.X - w*float64(s.a)/2
		return [2]Pt{{left, s.to.Y - Small}, {left + w, s.to.Y}}
	}
	k := slices.IndexFunc(sides, func(s side) bool {
		g := ground(s)
		return !slices.ContainsFunc(p.written, func(o [2]Pt) bool {
			return g[0].X < o[1].X && o[0].X < g[1].X && g[0].Y < o[1].Y && o[0].Y < g[1].Y
		})
	})
	s := sides[max(0, k)]
	p.written = append(p.written, ground(s))
	p.Clear(s.to, Small, s.a, word)
	p.Text(s.to, Small, s.a, word)
}

// Frame gives the corners of the frame on paper.
func (p *Plot) Frame() (a, b Pt) { return Pt{p.left, p.top}, Pt{p.right, p.bottom} }

// Ticks places about n round values from lo to hi (steps of 1, 2 or 5 of a power of
// ten), written with the decimals that the step needs, at least few of them.
func Ticks(lo, hi float64, n, few int) []Tick {
	if !(hi > lo) || math.IsInf(hi-lo, 0) {
		return nil
	}
	step := math.Pow(10, math.Floor(math.Log10((hi-lo)/float64(n))))
	for _, m := range []float64{1, 2, 5, 10} {
		if (hi-lo)/(step*m) <= float64(n) {
			step *= m
			break
		}
	}
	decimals := max(few, int(math.Ceil(-math.Log10(step)-1e-9)), 0)
	var out []Tick
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+step*1e-9 && len(out) < 50; k++ {
		out = append(out, Tick{k * step, strconv.FormatFloat(k*step+0, 'f', min(decimals, 9), 64)})
	}
	return out
}

// LogTicks places 1, 2 and 5 of every power of ten from lo to hi.
func LogTicks(lo, hi float64) []Tick {
	if !(lo > 0 && hi > lo) || math.IsInf(hi, 0) {
		return nil
	}
	var out []Tick
	for e := math.Floor(math.Log10(lo)); e <= math.Log10(hi) && len(out) < 60; e++ {
		for _, m := range []float64{1, 2, 5} {
			if v := m * math.Pow(10, e); v >= lo*(1-1e-9) && v <= hi*(1+1e-9) {
				out = append(out, Tick{v, strconv.FormatFloat(v, 'f', max(0, int(-e)), 64)})
			}
		}
	}
	return out
}
