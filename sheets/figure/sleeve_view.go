package figure

import (
	"math"
	"slices"
	"strings"

	"borewright/process/feature"
	"borewright/process/qty"
	"borewright/sheets/draw"
	"borewright/sheets/page"
)

// write puts the labels above the section.
func (d *sleeveDrawing) write() {
	for _, l := range d.labels {
		y := float64(l.row) * labelPitch
		at := draw.Pt{X: l.at.X + 1.5, Y: y}
		if over := at.X + draw.Width(l.text, draw.Plain) - (page.Width - 1); l.left || over > 0 {
			at.X = l.at.X - 1.5 - draw.Width(l.text, draw.Plain)
		}
		d.s.Line(draw.Thin(), draw.Pt{X: l.at.X, Y: y - draw.Plain}, l.at)
		d.s.Circle(draw.Thin(), draw.Black, l.at, 0.5)
		d.s.Clear(at, draw.Plain, draw.Start, l.text)
		d.s.Text(at, draw.Plain, draw.Start, l.text)
	}
}

// depths are the lengths from the near end, under the section.
func (d *sleeveDrawing) depths() {
	bottom := func(x float64) draw.Pt { return d.pt(x, -d.out) }
	var marks []draw.Mark
	add := func(l qty.Length) {
		marks = append(marks, draw.Mark{At: bottom(l.MM()), Text: d.U.Format(l)})
	}
	marks = append(marks, draw.Mark{At: bottom(0), Text: d.U.Format(0)})
	for _, l := range d.stations() {
		add(l)
	}
	marks = append(marks, draw.Mark{At: bottom(d.long), Text: d.U.Format(d.sl.Length.Most)})
	d.s.Running(bottom(0), d.axis+d.hi/d.scale+3, marks)
}

// stations are the places along the sleeve that are dimensioned, in order, each once.
func (d *sleeveDrawing) stations() (all []qty.Length) {
	m := d.sl.Made
	for _, g := range m.Grooves {
		all = append(all, g.From, g.To())
	}
	for _, h := range m.Holes {
		all = append(all, h.Depth)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// marked is one thing that is not alike all round.
type marked struct {
	at   float64
	what string
	draw func(at float64)
}

// clocks are the things that stand at a clock position.
func (d *sleeveDrawing) clocks() (all []marked) {
	m := d.sl.Made
	each := func(at []float64, what string, f func(at float64)) {
		for _, a := range at {
			all = append(all, marked{a, what, f})
		}
	}
	for _, h := range m.Holes {
		half := h.Diameter.MM() / 2
		each(h.At, "hole", func(at float64) {
			for _, side := range []float64{-half, half} {
				d.s.Line(draw.Outline(), d.onRing(at, d.r, side), d.onRing(at, d.out, side))
			}
		})
	}
	for _, g := range m.Grooves {
		each(g.At, g.Kind.String()+" groove", func(at float64) {
			w, h := g.Width.MM()/2, g.Depth.MM()
			d.s.Line(draw.Outline(), d.onRing(at, d.r, -w), d.onRing(at, d.r+h, -w), d.onRing(at, d.r+h, w), d.onRing(at, d.r, w))
		})
	}
	if p := m.Pin; p != nil {
		each(p.At, p.By.String(), func(at float64) {
			d.s.Circle(draw.Hidden(), draw.None, d.onRing(at, d.out, 0), p.Diameter.MM()/2/d.viewScale())
		})
	}
	if v := m.Vent; v != nil && v.By != feature.Drilled {
		each([]float64{v.At}, "vent", func(at float64) {
			w, h := v.Wide(d.sl.Outside)/2, v.Depth.MM()
			d.s.Line(draw.Outline(), d.onRing(at, d.out, -w), d.onRing(at, d.out-h, -w), d.onRing(at, d.out-h, w), d.onRing(at, d.out, w))
		})
	}
	return all
}

// viewScale is that of the view from the spindle, which is no larger than the section.
func (d *sleeveDrawing) viewScale() float64 { return math.Max(d.scale, 2*d.out/(viewWide-24)) }

// onRing is a place in the view from the spindle: clock position, radius, and so far
// aside.
func (d *sleeveDrawing) onRing(clock, r, aside float64) draw.Pt {
	sin, cos := math.Sincos(clock * math.Pi / 180)
	c, k := d.middle(), d.viewScale()
	return draw.Pt{X: c.X + (r*sin+aside*cos)/k, Y: c.Y + (-r*cos+aside*sin)/k}
}

func (d *sleeveDrawing) middle() draw.Pt { return draw.Pt{X: page.Width - viewWide/2, Y: d.axis} }

// view draws the ring as the spindle sees it, without its flange.
func (d *sleeveDrawing) view() {
	c, k := d.middle(), d.viewScale()
	d.s.Circle(draw.Outline(), draw.None, c, d.out/k)
	d.s.Circle(draw.Outline(), draw.None, c, d.r/k)
	reach := d.out/k + 2
	d.s.Line(draw.Axis(), draw.Pt{X: c.X - reach, Y: c.Y}, draw.Pt{X: c.X + reach, Y: c.Y})
	d.s.Line(draw.Axis(), draw.Pt{X: c.X, Y: c.Y - reach}, draw.Pt{X: c.X, Y: c.Y + reach})
	for _, m := range d.clocks() {
		m.draw(m.at)
		sin, cos := math.Sincos(m.at * math.Pi / 180)
		text := strings.TrimSuffix(d.U.Say(qty.KindClock.Of(m.at)), " o'clock")
		at := draw.Pt{X: c.X + (reach+1.5)*sin, Y: c.Y - (reach+1.5)*cos + draw.Plain/2}
		anchor := draw.Middle
		switch {
		case sin > 0.3:
			anchor = draw.Start
		case sin < -0.3:
			anchor = draw.End
		case cos > 0:
			at.Y -= 1.2
		default:
			at.Y += 1.8
		}
		d.s.Text(at, draw.Plain, anchor, text)
	}
	d.s.Text(draw.Pt{X: c.X, Y: c.Y + d.out/k + 9}, draw.Small, draw.Middle, "seen from the spindle")
}

// words say what the drawing shows, for those who have none.
func (d *sleeveDrawing) words() (all []string) {
	shown := []string{"Sizes as below"}
	for _, l := range d.labels {
		if first, _, _ := strings.Cut(l.text, " "); first != "inside" && first != "outside" && first != "lead-in" { // they stand below
			shown = append(shown, l.text)
		}
	}
	all = append(all, strings.Join(shown, "; ")+".")
	if s := d.stations(); len(s) > 0 {
		line := "From the near end:"
		for i, l := range s {
			if i > 0 {
				line += ","
			}
			line += " " + d.plain(l)
		}
		all = append(all, line+" "+d.U.String()+".")
	}
	return all
}
