package figure

import (
	"fmt"
	"math"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/draw"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// Overlay draws the setups of two revisions over each other to one scale, axis on
// axis, face on face: the new one in full lines, the old one in dashes, so that a line
// that has not moved is full and one that has stands beside its dashes. Nil where one of
// the two has too little to draw.
func Overlay(old, new head.Head) *page.Figures {
	var both [2]*setupDrawing
	for i, h := range []head.Head{old, new} {
		if len(h.Job.Stations) == 0 || len(h.Job.Bar.Steps) == 0 || len(h.Plan.Bores) == 0 {
			return nil
		}
		cuts := func(*plan.Visit) bool { return true }
		if h.Plan.Several() { // the setup of the first visit
			at := h.Plan.Turns()[0]
			t := h.Plan.Bores[at[0]].Visits[at[1]].Tools
			h, cuts = h.For(at[0], at[1]), func(v *plan.Visit) bool { return v.Tools == t }
		}
		if both[i] = (&setupDrawing{sketch: sketch{h}, cuts: cuts}); !both[i].place() {
			return nil
		}
	}
	a, b := both[0], both[1]
	lo, hi := math.Min(a.lo, b.lo), math.Max(a.hi, b.hi)
	half := math.Max(math.Max(a.outR, a.noseR), math.Max(b.outR, b.noseR))
	scale := scaleFor(hi-lo, func(scale float64) bool { return 2*half/scale <= setupHigh-30 })
	s := draw.New(page.Width, 2*half/scale+16, "Both setups", "The new setup in full lines, the old one in dashes, to one scale.")
	for _, d := range both {
		d.s, d.scale, d.lo, d.hi, d.axis = s, scale, lo, hi, half/scale+4
		d.left = (page.Width - (hi-lo)/scale) / 2
	}
	a.outline(draw.Hidden())
	b.outline(draw.Outline())
	s.Line(draw.Axis(), b.pt(lo, 0), b.pt(hi, 0))
	y := s.H - 3
	for i, word := range []string{"new", "old"} {
		x, pen := 6+float64(i)*32, draw.Outline()
		if i == 1 {
			pen = draw.Hidden()
		}
		s.Line(pen, draw.Pt{X: x, Y: y - 1.2}, draw.Pt{X: x + 14, Y: y - 1.2})
		s.Text(draw.Pt{X: x + 16, Y: y}, draw.Plain, draw.Start, word)
	}
	return &page.Figures{Items: []page.Figure{{Scene: s, Caption: fmt.Sprintf("Both setups at depth, scale 1:%s: new in full lines, old in dashes", qty.KindNumber.Bare(scale))}}}
}

// outline draws the edges alone, with one pen: nothing covers what lies below.
func (d *setupDrawing) outline(pen draw.Pen) {
	for i, st := range d.Job.Stations {
		r := st.Diameter.MM() / 2
		for _, x := range d.Plan.Bores {
			if x.Bore.Station == i {
				r = x.Bore.Finish.High.MM() / 2
			}
		}
		from, to, out := st.From.MM(), (st.To + st.Relief).MM(), math.Max(d.outR, r*1.1)
		for _, sign := range []float64{1, -1} {
			d.s.Line(pen, d.pt(from, sign*out), d.pt(from, sign*r), d.pt(to, sign*r), d.pt(to, sign*out))
		}
		if st.Blind {
			d.s.Line(pen, d.pt(to, r), d.pt(to, -r))
		}
	}
	if d.noseR > 0 {
		d.s.Line(pen, d.pt(d.lo, d.noseR), d.pt(d.nose, d.noseR), d.pt(d.nose, -d.noseR), d.pt(d.lo, -d.noseR))
	}
	at := d.root
	for _, st := range d.Job.Bar.Steps {
		end := at + st.Length.MM()
		d.s.Rect(pen, draw.None, d.pt(at, st.Diameter.MM()/2), d.pt(end, -st.Diameter.MM()/2))
		at = end
	}
	r := d.barAt(d.Job.Bar.CutterAt)
	d.s.Line(pen, d.pt(d.tip, r), d.pt(d.tip, d.set/2), d.pt(d.tip-math.Max(0.12*r, 2.2*d.scale), r))
}
