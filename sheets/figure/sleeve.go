package figure

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/process/feature"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/sleeve"
	"borewright/sheets/draw"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// The section of a sleeve on paper, mm: how wide and how high it may be, a short one with much
// to say of it besides, and how far apart its labels stand.
const (
	sleeveWide = 104
	sleeveHigh = 24
	shortWide  = 46
	shortHigh  = 44
	labelPitch = draw.Plain + 1.7
	viewWide   = 54 // of the view from the spindle
)

// sleeveDrawing is the sleeve as it leaves the lathe, near end to the left.
type sleeveDrawing struct {
	sketch
	x          plan.Bore
	sl         *sleeve.Sleeve
	s          *draw.Scene
	scale      float64
	left, axis float64 // of near end and axis on paper
	short      bool    // drawn larger, its labels to both sides
	r, out, hi float64 // bore, outside and largest radius
	long       float64
	ends       [2]float64 // of the whole, with flanges
	labels     []label
}

// label is a text with the place that it belongs to, and where it stands: in which row from the
// top, to the left of its line or to the right.
type label struct {
	at   draw.Pt
	text string
	row  int
	left bool
}

// Sleeve draws the sleeve of a bore for the lathe: a section with dimensions, and where it
// is not alike all round the view from the spindle.
func Sleeve(h head.Head, x plan.Bore) *page.Figures {
	sl := x.Sleeve
	if sl == nil || sl.Length.Most <= 0 {
		return nil
	}
	d := &sleeveDrawing{sketch: sketch{h}, x: x, sl: sl, long: sl.Length.Most.MM()}
	d.r, d.out = sl.Taken().Inside[0].MM()/2, sl.Turned[1].MM()/2
	if !(d.r > 0 && d.r < d.out) {
		return nil
	}
	d.hi, d.ends = d.out, [2]float64{0, d.long}
	if f := sl.FlangeAt(feature.Near); f != nil {
		d.hi, d.ends[0] = f.Diameter.MM()/2, -f.Thickness.MM()
	}
	if f := sl.FlangeAt(feature.Far); f != nil {
		d.hi, d.ends[1] = f.Diameter.MM()/2, d.long+f.Thickness.MM()
	}
	if !drawable(d.ends[0], d.ends[1], d.hi) {
		return nil
	}
	d.scale = d.scaleIn(sleeveWide, sleeveHigh)
	if d.gather(); (d.ends[1]-d.ends[0])/d.scale <= shortWide && len(d.stations()) > 0 {
		d.short, d.scale = true, d.scaleIn(shortWide, shortHigh)
	}
	d.place()
	under := draw.Width(d.U.Format(sl.Length.Most), draw.Plain) // what the figures under the section take
	d.s = draw.New(page.Width, d.axis+d.hi/d.scale+12+under, "The sleeve as it leaves the lathe", "")
	d.walls()
	d.cuts()
	d.write()
	d.depths()
	if len(d.clocks()) > 0 {
		d.view()
	}
	d.s.Desc = strings.Join(d.words(), " ")
	return &page.Figures{Items: []page.Figure{{Scene: d.s, Instead: d.words(),
		Caption: fmt.Sprintf("The sleeve as it leaves the lathe, scale 1:%s; the spindle's end on the left", qty.KindNumber.Bare(d.scale))}}}
}

// scaleIn is the largest scale at which the section is within a width and a height, mm.
func (d *sleeveDrawing) scaleIn(wide, high float64) (scale float64) {
	for _, scale = range setupScales {
		if (d.ends[1]-d.ends[0])/scale <= wide && 2*d.hi/scale <= high {
			break
		}
	}
	return scale
}

func (d *sleeveDrawing) px(x float64) float64 { return d.left + (x-d.ends[0])/d.scale }
func (d *sleeveDrawing) pt(x, r float64) draw.Pt {
	return draw.Pt{X: d.px(x), Y: d.axis - r/d.scale}
}

// place decides where the section stands: under its labels. Those of a short one go to the left from
// its near half and to the right from the other; no line to one crosses another.
func (d *sleeveDrawing) place() {
	d.left = 8
	if len(d.clocks()) == 0 {
		d.left = (page.Width - (d.ends[1]-d.ends[0])/d.scale) / 2
	}
	d.gather()
	rows, room := 0, 0.0 // of the labels, and what is missing on the left of them
	for _, l := range d.labels {
		rows = max(rows, l.row)
		if l.left {
			room = math.Max(room, draw.Width(l.text, draw.Plain)+2.5-l.at.X)
		}
	}
	d.left += room
	d.axis = float64(rows)*labelPitch + 5 + d.hi/d.scale
	if len(d.clocks()) > 0 { // the view has its hours above it
		d.axis = math.Max(d.axis, float64(rows)*labelPitch+9+d.out/d.viewScale())
	}
	d.gather() // now that their places are known
}

func (d *sleeveDrawing) plain(l qty.Length) string { return d.U.Bare(qty.Plain(l)) }

// gather are the labels, each with its place, from the near end.
func (d *sleeveDrawing) gather() {
	d.labels = nil
	add := func(x, r float64, format string, a ...any) {
		d.labels = append(d.labels, label{at: d.pt(x, r), text: fmt.Sprintf(format, a...)})
	}
	sl, m := d.sl, d.sl.Made
	for _, e := range []feature.End{feature.Near, feature.Far} {
		if f := sl.FlangeAt(e); f != nil {
			x := d.ends[e] / 2
			if e == feature.Far {
				x = (d.long + d.ends[1]) / 2
			}
			add(x, d.hi, "flange Ø%s × %s", d.plain(f.Diameter.Length()), d.plain(f.Thickness))
		}
	}
	add(d.long*0.06, d.r, "inside Ø%s", d.limits(sl.Taken().Inside))
	switch {
	case sl.TurnedTo[1] > 0:
		add(d.long*0.12, d.out, "outside Ø%s", d.limits(sl.TurnedTo))
	case sl.Match > 0:
		add(d.long*0.12, d.out, "outside to the housing, about Ø%s", d.limits(sl.Turned))
	default:
		add(d.long*0.12, d.out, "outside Ø%s", d.limits(sl.Turned))
	}
	for _, g := range m.Grooves {
		text := fmt.Sprintf("%s groove, %s wide, Ø%s", g.Kind, d.plain(g.Width), d.plain(sl.GrooveTurned(d.U, d.x.Bore.Finish, g).Length()))
		if g.Along() {
			text = fmt.Sprintf("%s groove along, %s wide, %s", g.Kind, d.plain(g.Width), d.hours(g.At))
		}
		add((g.From+g.To()).MM()/2, d.r, "%s", text)
	}
	for _, h := range m.Holes {
		add(h.Depth.MM(), d.out, "Ø%s, %s%s", d.plain(h.Diameter.Length()), d.hours(h.At), d.drilled())
	}
	if p := m.Pin; p != nil {
		x := p.Length.MM() / 2
		if p.End == feature.Far {
			x = d.long - x
		}
		add(x, d.out, "%s Ø%s × %s, %s, in the joint once it is in", p.By, d.plain(p.Diameter.Length()), d.plain(p.Length), d.hours(p.At))
	}
	if v := m.Vent; v != nil && v.By != feature.Drilled {
		add(d.long*0.3, d.out, "vent %s, %s deep, %s", v.By, d.plain(v.Depth), d.hours([]float64{v.At}))
	}
	if l := sl.LeadIn; l.Length > 0 {
		x := d.long - l.Length.MM()/2
		if d.nose() == feature.Near {
			x = l.Length.MM() / 2
		}
		add(x, d.out, "lead-in %s° × %s", qty.KindNumber.Bare(l.Angle), d.plain(l.Length))
	}
	slices.SortStableFunc(d.labels, func(a, b label) int {
		switch {
		case a.at.X < b.at.X:
			return -1
		case a.at.X > b.at.X:
			return 1
		}
		return 0
	})
	lefts := 0
	if d.short {
		lefts = len(d.labels) / 2
	}
	for i := range d.labels {
		if l := &d.labels[i]; i < lefts {
			l.left, l.row = true, lefts-i
		} else {
			l.row = i - lefts + 1
		}
	}
}

// limits are two limits of size, rounded inward as in the table.
func (d *sleeveDrawing) limits(l [2]qty.Diameter) string {
	return d.U.Format(d.U.Up(l[0].Length())) + " to " + d.U.Format(d.U.Down(l[1].Length()))
}

// drilled says that a hole is not the lathe's.
func (d *sleeveDrawing) drilled() string {
	if d.sl.InPlace {
		return ", once it is in"
	}
	return ""
}

// nose is the end that goes in first.
func (d *sleeveDrawing) nose() feature.End {
	if d.sl.FlangeAt(feature.Far) != nil {
		return feature.Near
	}
	for _, c := range d.sl.Cautions {
		if c.Kind == sleeve.FromTheFarEnd {
			return feature.Near
		}
	}
	return feature.Far
}

// hours are clock positions in a row.
func (d *sleeveDrawing) hours(at []float64) string {
	var all []string
	for _, a := range at {
		all = append(all, strings.TrimSuffix(d.U.Say(qty.KindClock.Of(a)), " o'clock"))
	}
	s := strings.Join(all, ", ")
	if !strings.Contains(all[len(all)-1], ":") {
		s += " o'clock"
	}
	return "at " + s
}

// walls are the cut faces of the ring, above and below the axis.
func (d *sleeveDrawing) walls() {
	sl := d.sl
	var top [][2]float64
	add := func(x, r float64) { top = append(top, [2]float64{x, r}) }
	off, long := sl.LeadIn.OnDiameter().MM()/2, sl.LeadIn.Length.MM()
	near, far := sl.FlangeAt(feature.Near) != nil, sl.FlangeAt(feature.Far) != nil
	switch {
	case near:
		add(d.ends[0], d.hi)
		add(0, d.hi)
		add(0, d.out)
	case d.nose() == feature.Near:
		add(0, d.out-off)
		add(long, d.out)
	default:
		add(0, d.out)
	}
	switch {
	case far:
		add(d.long, d.out)
		add(d.long, d.hi)
		add(d.ends[1], d.hi)
	case d.nose() == feature.Far:
		add(d.long-long, d.out)
		add(d.long, d.out-off)
	default:
		add(d.long, d.out)
	}
	add(d.ends[1], d.r)
	grooves := d.round()
	for _, g := range slices.Backward(grooves) {
		for _, p := range [][2]float64{{g[1], d.r}, {g[1], g[2]}, {g[0], g[2]}, {g[0], d.r}} {
			add(p[0], p[1])
		}
	}
	add(d.ends[0], d.r)
	for _, side := range []float64{1, -1} {
		var face []draw.Pt
		for _, p := range top {
			face = append(face, d.pt(p[0], side*p[1]))
		}
		d.s.Hatch(2, false, face)
		d.s.Polygon(draw.Outline(), draw.None, face...)
	}
	for _, x := range d.ends { // edges that are seen behind the cut
		d.s.Line(draw.Outline(), d.pt(x, d.r), d.pt(x, -d.r))
	}
	for _, g := range grooves {
		for _, x := range g[:2] {
			d.s.Line(draw.Thin(), d.pt(x, d.r), d.pt(x, -d.r))
		}
	}
	d.s.Line(draw.Axis(), draw.Pt{X: d.px(d.ends[0]) - 4, Y: d.axis}, draw.Pt{X: d.px(d.ends[1]) + 4, Y: d.axis})
}

// round are the grooves that run round: from, to, radius at the bottom, by depth.
func (d *sleeveDrawing) round() (all [][3]float64) {
	for _, g := range d.sl.Made.Grooves {
		if !g.Along() {
			all = append(all, [3]float64{g.From.MM(), g.To().MM(), d.sl.GrooveTurned(d.U, d.x.Bore.Finish, g).MM() / 2})
		}
	}
	slices.SortFunc(all, func(a, b [3]float64) int { return int(math.Copysign(1, a[0]-b[0])) })
	return all
}

// cuts are holes, turned into the section above the axis, and what runs along the sleeve,
// below it.
func (d *sleeveDrawing) cuts() {
	m := d.sl.Made
	box := func(pen draw.Pen, fill draw.Fill, from, to, a, b float64) {
		d.s.Rect(pen, fill, d.pt(from, a), d.pt(to, b))
	}
	for _, h := range m.Holes {
		half, at := h.Diameter.MM()/2, h.Depth.MM()
		box(draw.Outline(), draw.White, at-half, at+half, d.out, d.r)
		d.s.Line(draw.Axis(), draw.Pt{X: d.px(at), Y: d.pt(0, d.out).Y - 2}, draw.Pt{X: d.px(at), Y: d.pt(0, d.r).Y + 2})
	}
	for _, g := range m.Grooves {
		if g.Along() {
			box(draw.Hidden(), draw.None, g.From.MM(), g.To().MM(), -d.r-g.Depth.MM(), -d.r)
		}
	}
	if p := m.Pin; p != nil {
		from, to := 0.0, p.Length.MM()
		if p.End == feature.Far {
			from, to = d.long-to, d.long
		}
		box(draw.Hidden(), draw.None, from, to, -d.out, -d.out+p.Diameter.MM()/2)
	}
	if v := m.Vent; v != nil && v.By != feature.Drilled {
		d.s.Line(draw.Hidden(), d.pt(0, -d.out+v.Depth.MM()), d.pt(d.long, -d.out+v.Depth.MM()))
	}
}
