// Package draw makes dimensioned drawings on paper: lines, arcs, hatched faces,
// text and dimensions, placed in millimetres and rendered to SVG and to PDF
// strokes with the same bytes every time. It knows paper and drawing practice
// and nothing of bores.
//
// A Scene has its origin in the upper left corner, x to the right and y down,
// in millimetres on paper. What is added later covers what came before.
//
// Line widths and types follow ISO 128-2, hatching ISO 128-3, dimensions and
// arrows ISO 129-1, lettering ISO 3098-1; all from memory.
package draw

import (
	"math"
	"sort"
)

// Pt is a place on paper, mm.
type Pt struct{ X, Y float64 }

// Pen is a line: its width and its pattern of dashes and gaps, mm. A pen of
// width 0 draws nothing.
type Pen struct {
	Width float64
	Dash  []float64
}

// Line widths of ISO 128-2, line group 0.5.
const (
	wide   = 0.5
	narrow = 0.25
)

// The lines of a drawing, functions so that no caller can change them for
// another. Dashes are given in line widths d: a dash 12d, a long dash 24d, a gap
// 3d, a dot half a d.
func Outline() Pen { return Pen{Width: wide} }   // 01.2: visible edges
func Thin() Pen    { return Pen{Width: narrow} } // 01.1: dimensions, leaders, hatching
func Hidden() Pen  { return dashed(narrow, 12) } // 02.1: hidden edges
func Axis() Pen    { return dashed(narrow, 24, 0.5) }
func Marked() Pen  { return dashed(wide, 6, 0.5) } // 04.2, shortened for short faces: a face that something is asked of

func dashed(d float64, marks ...float64) Pen {
	p := Pen{Width: d}
	for _, m := range marks {
		p.Dash = append(p.Dash, m*d, 3*d)
	}
	return p
}

// Fill is what a closed path is filled with.
type Fill int

// The fills. Gray is light enough to read black text on.
const (
	None Fill = iota
	White
	Gray
	Black
)

// Anchor is which point of a text stands at its place.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// path is one or more runs of points, closed or not, drawn with one pen.
type path struct {
	runs   [][]Pt
	closed bool
	pen    Pen
	fill   Fill
}

// circle is a whole circle.
type circle struct {
	c    Pt
	r    float64
	pen  Pen
	fill Fill
}

// text is one line of text; its place is on the base line.
type text struct {
	at     Pt
	s      string
	height float64 // of capitals, mm
	anchor Anchor
	up     bool // turned a quarter left, read from the right
	bold   bool
}

// Scene is a drawing.
type Scene struct {
	W, H  float64 // mm
	Title string  // what it is, for those who cannot see it
	Desc  string  // and what it shows
	items []any
}

// New makes an empty drawing.
func New(w, h float64, title, desc string) *Scene {
	return &Scene{W: w, H: h, Title: title, Desc: desc}
}

// Line draws a straight or bent line.
func (s *Scene) Line(pen Pen, pts ...Pt) {
	s.items = append(s.items, path{runs: [][]Pt{pts}, pen: pen})
}

// Polygon draws a closed face.
func (s *Scene) Polygon(pen Pen, fill Fill, pts ...Pt) {
	s.items = append(s.items, path{runs: [][]Pt{pts}, closed: true, pen: pen, fill: fill})
}

// Rect draws an upright rectangle from corner to corner.
func (s *Scene) Rect(pen Pen, fill Fill, a, b Pt) {
	s.Polygon(pen, fill, a, Pt{b.X, a.Y}, b, Pt{a.X, b.Y})
}

// Ground fills an upright rectangle below all that was drawn before.
func (s *Scene) Ground(fill Fill, a, b Pt) {
	s.items = append([]any{path{runs: [][]Pt{{a, {b.X, a.Y}, b, {a.X, b.Y}}}, closed: true, fill: fill}}, s.items...)
}

// Circle draws a circle.
func (s *Scene) Circle(pen Pen, fill Fill, c Pt, r float64) {
	s.items = append(s.items, circle{c, r, pen, fill})
}

// Arc draws part of a circle, angles in degrees clockwise from the right, as
// chords too short to be seen.
func (s *Scene) Arc(pen Pen, c Pt, r, from, to float64) {
	n := max(2, int(math.Ceil(math.Abs(to-from)/4)))
	pts := make([]Pt, n+1)
	for i := range pts {
		sin, cos := math.Sincos((from + (to-from)*float64(i)/float64(n)) * math.Pi / 180)
		pts[i] = Pt{c.X + r*cos, c.Y + r*sin}
	}
	s.Line(pen, pts...)
}

// Letters are the usual heights of capitals, mm (ISO 3098-1: 2.5, 3.5).
const (
	Small = 1.8 // second system, notes
	Plain = 2.5 // figures
	Large = 3.5 // titles
)

// Text writes one line, its base line at y.
func (s *Scene) Text(at Pt, height float64, a Anchor, str string) {
	s.items = append(s.items, text{at: at, s: str, height: height, anchor: a})
}

// Bold writes one line in bold.
func (s *Scene) Bold(at Pt, height float64, a Anchor, str string) {
	s.items = append(s.items, text{at: at, s: str, height: height, anchor: a, bold: true})
}

// Up writes one line upward, to be read from the right.
func (s *Scene) Up(at Pt, height float64, a Anchor, str string) {
	s.items = append(s.items, text{at: at, s: str, height: height, anchor: a, up: true})
}

// Clear whitens the ground under a text that is about to be written.
func (s *Scene) Clear(at Pt, height float64, a Anchor, str string) {
	w := Width(str, height)
	x := at.X - w*float64(a)/2
	s.Rect(Pen{}, White, Pt{x - 0.5, at.Y - height - 0.6}, Pt{x + w + 0.5, at.Y + 0.3*height})
}

// Hatch fills closed faces (holes by the even-odd rule) with narrow lines
// spacing mm apart, at 45° rising to the right, or to the left.
func (s *Scene) Hatch(spacing float64, left bool, faces ...[]Pt) {
	dir := Pt{math.Sqrt2 / 2, -math.Sqrt2 / 2}
	if left {
		dir.X = -dir.X
	}
	across := Pt{-dir.Y, dir.X}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, f := range faces {
		for _, p := range f {
			k := along(p, across)
			lo, hi = math.Min(lo, k), math.Max(hi, k)
		}
	}
	// What lies off the paper needs no lines.
	reach := math.Hypot(s.W, s.H)
	lo, hi = math.Max(lo, -reach), math.Min(hi, reach)
	var runs [][]Pt
	// Lines lie on one grid for the whole drawing, so that the cut faces of one
	// part match.
	for k := math.Ceil(lo/spacing) * spacing; k < hi; k += spacing {
		var at []float64
		for _, f := range faces {
			for i, p := range f {
				q := f[(i+1)%len(f)]
				a, b := along(p, across)-k, along(q, across)-k
				if (a < 0) == (b < 0) {
					continue
				}
				t := a / (a - b)
				x, y := p.X+float64((q.X-p.X)*t), p.Y+float64((q.Y-p.Y)*t)
				at = append(at, along(Pt{x, y}, dir))
			}
		}
		sort.Float64s(at)
		for i := 0; i+1 < len(at); i += 2 {
			if at[i+1]-at[i] < 0.05 {
				continue
			}
			on := func(u float64) Pt {
				return Pt{float64(across.X*k) + float64(dir.X*u), float64(across.Y*k) + float64(dir.Y*u)}
			}
			runs = append(runs, []Pt{on(at[i]), on(at[i+1])})
		}
	}
	if len(runs) > 0 {
		s.items = append(s.items, path{runs: runs, pen: Pen{Width: 0.18}})
	}
}

// along is how far a point lies along a direction. Products are rounded before they are added
// (float64), here and in Hatch, on processors that would round once as well: lines end on
// borders of printed digits, where the last bit shows.
func along(p, dir Pt) float64 { return float64(p.X*dir.X) + float64(p.Y*dir.Y) }
