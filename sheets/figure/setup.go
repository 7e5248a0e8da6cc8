// Package figure draws what people would rather look at than read: the section
// through the line of bores with the bar in it, the charts of a visit, and the
// worn bore round the clock. It places what the plan has worked out (curves,
// rings, the tightest place) on paper in mm; the lines are those of draw.
package figure

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/draw"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// setupHigh is how high the setup drawing may be, so that it stands on the
// first page with the job.
const setupHigh = 120

// setupScales are those that the setup drawing may take: the ones of ISO 5455
// and, because a line of bores seldom fits them, steps between.
var setupScales = []float64{0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 500, 1000}

// sketch draws for one plan.
type sketch struct{ head.Head }

// Setup draws the section through the line of bores with the bar at the bottom
// of the deepest bore; nil where there is too little to draw. Where visits have several tools it
// is the setup of the first.
func Setup(h head.Head) *page.Figures {
	if h.Plan.BothFaces() {
		h = h.Sides()[0]
	}
	if h.Plan.Several() {
		at := h.Plan.Turns()[0]
		return SetupWith(h.For(at[0], at[1]), h.Plan.Bores[at[0]].Visits[at[1]].Tools, true)
	}
	return SetupWith(h, nil, false)
}

// SetupWith is the same of the deepest bore that these tools cut, which the job of h has, where
// there are several.
func SetupWith(h head.Head, t *process.Tools, several bool) *page.Figures {
	b := sketch{h}
	if len(b.Job.Stations) == 0 || len(b.Job.Bar.Steps) == 0 || len(b.Plan.Bores) == 0 {
		return nil
	}
	d := &setupDrawing{sketch: b, cuts: func(v *plan.Visit) bool { return !several || v.Tools == t }}
	if !d.place() {
		return nil
	}
	d.compose()
	return &page.Figures{Items: []page.Figure{{Scene: d.s, Words: d.words, Caption: fmt.Sprintf("The setup at depth%s, scale 1:%s", b.From(), qty.KindNumber.Bare(d.scale))}}}
}

// setupDrawing is the section being laid out. Lengths are mm of the work until
// px and py turn them into mm on paper.
type setupDrawing struct {
	sketch
	cuts  func(v *plan.Visit) bool // whether a visit is cut with what is drawn
	s     *draw.Scene
	scale float64
	words []string

	bore, visit  int // the deepest bore and its last visit, -1 when it has none
	tip, set     float64
	nose, root   float64 // depth of the nose, and of the bar where it leaves nose or quill
	noseR        float64
	lo, hi, outR float64                 // of what is drawn
	pitch        float64                 // mm on paper between station labels
	stands       map[string]qty.Diameter // by station: the size in its label, where that is not as found
	upright      bool                    // labels of stations written upward
	axis, left   float64                 // of the drawing on paper
	bodyTop      float64
	tight        clearance.Gap
	tightKnown   bool
	height       float64
}

// place decides what stands where, in mm of the work.
func (d *setupDrawing) place() bool {
	d.bore, d.visit = -1, -1
	for i, x := range d.Plan.Bores {
		if !d.Job.Here(x.Bore) {
			continue
		}
		cut := len(x.Visits) == 0
		for k := range x.Visits {
			cut = cut || d.cuts(&x.Visits[k])
		}
		if cut && (d.bore < 0 || x.Station.To > d.Plan.Bores[d.bore].Station.To) {
			d.bore = i
		}
	}
	if d.bore < 0 {
		return false
	}
	x := d.Plan.Bores[d.bore]
	d.tip, d.set = x.Station.To.MM(), x.Bore.Finish.High.MM()
	if n := len(x.Visits); n > 0 {
		d.visit = n - 1
		for k, v := range x.Visits { // the visit that is tightest
			if !d.cuts(&x.Visits[k]) {
				continue
			}
			if !d.cuts(&x.Visits[d.visit]) {
				d.visit = k
			}
			if r := v.Reach; r != nil && r.Least != nil && len(v.Passes) > 0 && (!d.tightKnown || r.Least.Clearance < d.tight.Clearance) {
				d.tight, d.tightKnown, d.visit = *r.Least, true, k
			}
			if k == d.visit && v.End > 0 {
				d.tip, d.set = v.End.MM(), v.Limits.High.MM()
			}
		}
	}
	d.span()
	half := math.Max(d.outR, d.noseR)
	if !d.drawable(half) {
		return false
	}
	d.scale = scaleFor(d.hi-d.lo, func(scale float64) bool {
		return half/scale+math.Max(half/scale+8, d.outR/scale+41) <= setupHigh-30
	})
	d.lo, d.hi = d.lo-6*d.scale, d.hi+5*d.scale // the nose, and what is behind the last bore
	d.labels()
	top := 30.0
	if d.upright {
		top = 36
	}
	d.bodyTop = top
	d.axis = top + half/d.scale
	d.left = (page.Width - (d.hi-d.lo)/d.scale) / 2
	d.height = d.axis + math.Max(half/d.scale+8, d.outR/d.scale+41)
	return true
}

// drawable is whether there is a stretch and a height, half of it in mm of the work, that
// paper can show.
func (d *setupDrawing) drawable(half float64) bool {
	return drawable(d.lo, d.hi, half)
}

// drawable is that of any stretch: at the smallest scale there is, 1e6 mm are a metre of paper.
func drawable(lo, hi, half float64) bool {
	return hi > lo && half > 0 && hi-lo <= 1e6 && half <= 1e6 && math.Abs(lo) <= 1e6
}

// scaleFor is the largest scale at which a stretch of the line, mm of the work, goes on the
// width of the paper and the height fits; the smallest there is where none does.
func scaleFor(stretch float64, fits func(scale float64) bool) (scale float64) {
	for _, scale = range setupScales {
		if stretch/scale <= page.Width-12 && fits(scale) {
			break
		}
	}
	return scale
}

// span is where spindle, bar and bores begin and end with the tip in its place, and how
// thick they are.
func (d *setupDrawing) span() {
	bar := d.Job.Bar
	d.root = d.tip - bar.CutterAt.MM()
	d.nose = d.root
	if bar.FeedBy == process.QuillFeed {
		d.nose = -bar.Standoff.MM()
	}
	d.noseR = math.Max(d.Machine.Nose.MM(), d.Machine.Quill.MM()) / 2
	d.lo, d.hi = math.Min(d.nose, d.root), d.root+bar.Stickout().MM()
	for _, s := range d.Job.Stations {
		d.hi = math.Max(d.hi, (s.To + s.Relief).MM())
		d.lo = math.Min(d.lo, s.From.MM())
		d.outR = math.Max(d.outR, s.Diameter.MM()/2*1.3+5)
	}
	if bar.Outboard != nil {
		d.hi = math.Max(d.hi, d.nose+d.Job.OutboardAt(qty.FromMM(d.tip)).MM()+bar.Steps[len(bar.Steps)-1].Diameter.MM()/2)
	}
	d.outR = math.Max(d.outR, d.set/2*1.2)
}

// labels decides whether the labels of the stations stand side by side.
func (d *setupDrawing) labels() {
	for i, s := range d.Job.Stations {
		d.pitch = math.Max(d.pitch, draw.Width(d.stationSize(i), draw.Plain)+2.5)
		d.pitch = math.Max(d.pitch, math.Min(36, draw.Width(stationWord(s), draw.Small)+2.5))
	}
	if d.pitch*float64(len(d.Job.Stations)) > page.Width {
		d.upright, d.pitch = true, 6
	}
}

// stationWord names a station in the drawing.
func stationWord(s process.Station) string {
	if s.Swept {
		return page.Clean(s.Name) + ", sweep"
	}
	return page.Clean(s.Name)
}

func (d *setupDrawing) stationSize(i int) string {
	s := d.Job.Stations[i]
	if now := d.stands[s.Name]; now > 0 {
		return "Ø" + d.U.Bare(now)
	}
	return "Ø" + d.U.Bare(s.Diameter)
}

func (d *setupDrawing) px(depth float64) float64 { return d.left + (depth-d.lo)/d.scale }
func (d *setupDrawing) pt(depth, radius float64) draw.Pt {
	return draw.Pt{X: d.px(depth), Y: d.axis - radius/d.scale}
}

func (d *setupDrawing) compose() {
	d.s = draw.New(page.Width, d.height, "Setup drawing", "")
	d.section()
	dashed := d.offAxis()
	d.s.Line(draw.Axis(), d.pt(d.lo, 0), d.pt(d.hi, 0))
	d.barSizes()
	d.stationLabels()
	d.clearance()  // its text covers the lines of the labels
	d.dimensions() // and their figures cover its line
	d.scaleBar()
	d.describe()
	if dashed != "" {
		d.words = append(d.words, dashed)
	}
	for _, w := range d.words {
		d.s.Desc += w + " "
	}
}

// section draws the bores and the bar in them, without a word.
func (d *setupDrawing) section() {
	for i := range d.Job.Stations {
		d.station(i)
	}
	d.sleeves()
	d.spindle()
	d.barAndCutter()
	d.support()
}

// station draws one ring of metal, cut, above and below the axis.
func (d *setupDrawing) station(i int) {
	s := d.Job.Stations[i]
	r, from, to := s.Diameter.MM()/2, s.From.MM(), s.To.MM()
	for _, x := range d.Plan.Bores {
		if x.Bore.Station == i {
			r = x.Bore.Finish.High.MM() / 2 // as it will be
			if x.Bore.Repair == process.SleeveRepair && d.Job.Sleeve != nil {
				r = d.Job.Sleeve.Outside.MM() / 2
			}
		}
	}
	out := math.Max(d.outR, r*1.1)
	var faces [][]draw.Pt
	if s.Blind {
		end := to + s.Relief.MM()
		wall := math.Max((d.hi-end)*0.8, 4*d.scale)
		groove := r
		if s.Relief > 0 {
			groove = r + math.Max(0.05*r, 0.8*d.scale)
		}
		face := []draw.Pt{d.pt(from, r), d.pt(to, r), d.pt(to, groove), d.pt(end, groove), d.pt(end, -groove), d.pt(to, -groove), d.pt(to, -r), d.pt(from, -r), d.pt(from, -out)}
		face = append(face, draw.BreakLine(d.pt(from, -out), d.pt(end+wall, -out))...)
		face = append(face, draw.BreakLine(d.pt(end+wall, -out), d.pt(end+wall, out))...)
		face = append(face, draw.BreakLine(d.pt(end+wall, out), d.pt(from, out))...)
		faces = append(faces, face)
		d.s.Hatch(2.2, false, faces...)
		d.s.Line(draw.Outline(), face[:9]...)
		d.s.Line(draw.Outline(), d.pt(from, out), d.pt(from, r))
		d.s.Line(draw.Thin(), face[9:]...)
		d.s.Line(draw.Thin(), d.pt(to, groove), d.pt(to, -groove))
	} else {
		for _, sign := range []float64{1, -1} {
			face := []draw.Pt{d.pt(from, sign*out), d.pt(from, sign*r), d.pt(to, sign*r), d.pt(to, sign*out)}
			edge := draw.BreakLine(d.pt(to, sign*out), d.pt(from, sign*out))
			d.s.Hatch(2.2, false, append(face, edge...))
			d.s.Line(draw.Outline(), face...)
			d.s.Line(draw.Thin(), edge...)
		}
		d.s.Line(draw.Outline(), d.pt(to, r), d.pt(to, -r))
	}
	d.s.Line(draw.Outline(), d.pt(from, r), d.pt(from, -r))
	if s.Swept {
		for _, sign := range []float64{1, -1} {
			in := sign * (r - 1.1*d.scale)
			d.s.Line(draw.Marked(), d.pt(from, in), d.pt(to, in))
		}
	}
}

// sleeves are hatched against the metal they stand in.
func (d *setupDrawing) sleeves() {
	if d.Job.Sleeve == nil {
		return
	}
	for i, x := range d.Plan.Bores {
		housing := i == d.bore && d.visit >= 0 && d.visit < len(x.Visits)-1 // the sleeve is not in yet
		if x.Bore.Repair != process.SleeveRepair || housing {
			continue
		}
		near, far := d.Job.Extent(x.Bore.Station)
		from, to := near.MM(), far.MM()
		if l := d.Job.Sleeve.Length; l > 0 {
			to = from + l.MM()
		}
		for _, sign := range []float64{1, -1} {
			a, b := d.pt(from, sign*d.Job.Sleeve.Outside.MM()/2), d.pt(to, sign*x.Bore.Finish.High.MM()/2)
			d.s.Hatch(1.1, true, []draw.Pt{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}})
			d.s.Rect(draw.Outline(), draw.None, a, b)
		}
	}
}

func (d *setupDrawing) spindle() {
	s := d.s
	r := d.noseR
	if r > 0 {
		edge := draw.BreakLine(d.pt(d.lo, r), d.pt(d.lo, -r))
		face := append([]draw.Pt{d.pt(d.lo, -r), d.pt(d.nose, -r), d.pt(d.nose, r), d.pt(d.lo, r)}, edge...)
		s.Polygon(draw.Pen{}, draw.White, face...)
		s.Line(draw.Outline(), face[:4]...)
		s.Line(draw.Thin(), edge...)
		if w := (d.nose - d.lo) / d.scale; w > 4 && 2*r/d.scale > 26 {
			s.Up(draw.Pt{X: d.px((d.lo+d.nose)/2) + 1.2, Y: d.axis - 1.5}, draw.Plain, draw.Start, "nose")
		}
	}
	if q := d.Machine.Quill.MM() / 2; q > 0 && d.root > d.nose {
		s.Rect(draw.Outline(), draw.White, d.pt(d.nose, q), d.pt(d.root, -q))
	}
}

func (d *setupDrawing) barAndCutter() {
	s, at := d.s, d.root
	for _, st := range d.Job.Bar.Steps {
		r, end := st.Diameter.MM()/2, at+st.Length.MM()
		s.Rect(draw.Outline(), draw.White, d.pt(at, r), d.pt(end, -r))
		if h := st.Hole.MM() / 2; h > 0 {
			s.Line(draw.Hidden(), d.pt(at, h), d.pt(end, h))
			s.Line(draw.Hidden(), d.pt(at, -h), d.pt(end, -h))
		}
		at = end
	}
	// The cutter: a bit through the bar with its edge on top, at least as wide
	// as can be seen.
	r := d.barAt(d.Job.Bar.CutterAt)
	back := math.Max(0.12*r, 2.2*d.scale)
	rise := math.Min(d.set/2-r, back)
	s.Polygon(draw.Thin(), draw.Black, d.pt(d.tip, d.set/2), d.pt(d.tip-back, d.set/2-0.15*rise), d.pt(d.tip-back, r-0.5*rise), d.pt(d.tip-0.15*back, r-0.5*rise))
}

// barAt is the radius of the bar just behind a distance from its root.
func (d *setupDrawing) barAt(x qty.Length) float64 {
	var at qty.Length
	r := d.Job.Bar.Steps[0].Diameter.MM() / 2
	for _, st := range d.Job.Bar.Steps {
		if at < x {
			r = st.Diameter.MM() / 2
		}
		at += st.Length
	}
	return r
}

func (d *setupDrawing) support() {
	if o := d.Job.Bar.Inboard; o != nil {
		d.bearing(o.At, "inboard")
	}
	if o := d.Job.Bar.Outboard; o != nil {
		if g := d.Job.Guide(); g != nil {
			d.bush(g)
			return
		}
		d.bearing(o.At, "outboard")
	}
}

// bush is one that the bar runs in, in a station of the work, in section.
func (d *setupDrawing) bush(g *process.Station) {
	from, to, r := g.From.MM(), g.To.MM(), d.barAt(qty.FromMM((g.From+g.To).MM()/2-d.root))
	seat := math.Max(g.Diameter.MM()/2, r+1.2*d.scale)
	for _, sign := range []float64{1, -1} {
		a, b := d.pt(from, sign*r), d.pt(to, sign*seat)
		d.s.Hatch(1.4, true, []draw.Pt{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}})
		d.s.Rect(draw.Outline(), draw.None, a, b)
	}
	p := d.pt((from+to)/2, r)
	d.s.Clear(draw.Pt{X: p.X, Y: p.Y + draw.Small + 1}, draw.Small, draw.Middle, "bush")
	d.s.Text(draw.Pt{X: p.X, Y: p.Y + draw.Small + 1}, draw.Small, draw.Middle, "bush")
}

// bearing is one that stands so far from the nose, in section.
func (d *setupDrawing) bearing(at qty.Length, name string) {
	mid, r := d.nose+at.MM(), d.barAt(at-(qty.FromMM(d.root-d.nose)))
	half := 0.45 * r
	for _, sign := range []float64{1, -1} {
		a, b := d.pt(mid-half, sign*r), d.pt(mid+half, sign*1.7*r)
		d.s.Hatch(1.4, true, []draw.Pt{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}})
		d.s.Rect(draw.Outline(), draw.None, a, b)
	}
	p := d.pt(mid, -1.7*r)
	d.s.Text(draw.Pt{X: p.X, Y: p.Y + draw.Small + 1.2}, draw.Small, draw.Middle, name)
}

// barSizes writes the diameters of the bar into it, where they fit.
func (d *setupDrawing) barSizes() {
	at := d.root
	for _, st := range d.Job.Bar.Steps {
		end := at + st.Length.MM()
		str := "Ø" + d.U.Bare(st.Diameter)
		if st.Diameter.MM()/d.scale > draw.Plain+2 && st.Length.MM()/d.scale > draw.Width(str, draw.Plain)+3 {
			p := draw.Pt{X: d.px((at + end) / 2), Y: d.axis + draw.Plain/2}
			d.s.Clear(p, draw.Plain, draw.Middle, str)
			d.s.Text(p, draw.Plain, draw.Middle, str)
		}
		at = end
	}
}

// stationLabels number the stations as the table of stations does.
func (d *setupDrawing) stationLabels() {
	at := make([]float64, len(d.Job.Stations))
	for i, s := range d.Job.Stations {
		at[i] = d.px((s.From + s.To).MM() / 2)
	}
	for i, x := range draw.Spread(at, d.pitch, d.pitch/2, page.Width-d.pitch/2) {
		s := d.Job.Stations[i]
		foot := 13.6
		d.s.Balloon(draw.Pt{X: x, Y: 3}, fmt.Sprint(i+1))
		if d.upright {
			d.s.Up(draw.Pt{X: x + draw.Plain/2, Y: 6.6}, draw.Plain, draw.End, d.stationSize(i))
			foot = 7.6 + draw.Width(d.stationSize(i), draw.Plain)
		} else {
			d.s.Text(draw.Pt{X: x, Y: 9}, draw.Plain, draw.Middle, d.stationSize(i))
			d.s.Text(draw.Pt{X: x, Y: 12.4}, draw.Small, draw.Middle, draw.Short(stationWord(s), draw.Small, d.pitch-1))
		}
		// The line ends with a dot inside the metal.
		top := d.pt((s.From+s.To).MM()/2, d.outR)
		d.s.Line(draw.Thin(), draw.Pt{X: x, Y: foot}, draw.Pt{X: x, Y: foot + 1}, draw.Pt{X: at[i], Y: foot + 5}, draw.Pt{X: at[i], Y: top.Y + 2})
		d.s.Circle(draw.Pen{}, draw.Black, draw.Pt{X: at[i], Y: top.Y + 2}, 0.6)
	}
}

// atFace names the face at a depth, in a job of both.
func (d *setupDrawing) atFace(at qty.Length) string {
	if d.Job.Seen == nil || at != 0 && at != d.Job.Through {
		return ""
	}
	if far := d.Job.FromFar() == (at == 0); far {
		return "FAR "
	}
	return "NEAR "
}

// dimensions give depths from the face, running, and the reach of the bar.
func (d *setupDrawing) dimensions() {
	var marks []draw.Mark
	add := func(depth, radius float64, word string) {
		m := draw.Mark{At: d.pt(depth, -radius), Text: word}
		if n := len(marks); n > 0 && marks[n-1].At.X > m.At.X-1e-9 && marks[n-1].Text == word {
			return
		}
		marks = append(marks, m)
	}
	if d.Job.Stations[0].From > 0 {
		add(0, d.outR, d.atFace(0)+d.U.Format(0))
	}
	tipDone := d.visit < 0
	for _, s := range d.Job.Stations {
		for _, at := range []qty.Length{s.From, s.To} {
			if !tipDone && at.MM() > d.tip {
				add(d.tip, d.outR, "tip "+d.U.Format(qty.FromMM(d.tip)))
				tipDone = true
			}
			add(at.MM(), d.outR, d.atFace(at)+d.U.Format(at))
		}
		if s.Blind && s.Relief > 0 {
			if !tipDone && (s.To+s.Relief).MM() > d.tip {
				add(d.tip, d.outR, "tip "+d.U.Format(qty.FromMM(d.tip)))
				tipDone = true
			}
			add((s.To + s.Relief).MM(), d.outR, d.U.Format(s.To+s.Relief))
		}
	}
	if !tipDone {
		add(d.tip, d.outR, "tip "+d.U.Format(qty.FromMM(d.tip)))
	}
	bottom := d.axis + math.Max(d.outR, 0)/d.scale
	d.s.Running(d.pt(0, 0), bottom+4, marks)
	y := d.bodyTop - 3
	d.s.Across(d.pt(d.nose, d.noseR), d.pt(d.tip, d.set/2), y, d.U.Say(qty.Plain(qty.FromMM(d.tip-d.nose)))+" nose to tip")
	if d.nose < 0 { // under the figures of the running dimensions
		low, word := bottom+31, d.U.Say(qty.Plain(qty.FromMM(-d.nose)))+" nose to face"
		if wide := draw.Width(word, draw.Plain) + 2; wide > d.px(0)-d.px(d.nose) && d.px(0)+wide > d.px(d.tip)-draw.Plain {
			low += 5 // the words stand beside, and under the longest figure
		}
		d.s.Across(d.pt(d.nose, -d.noseR), draw.Pt{X: d.px(0), Y: low - 3}, low, word)
	}
}

// scaleBar keeps the scale true on a copy of any size.
func (d *setupDrawing) scaleBar() {
	unit := 1.0
	if d.U == qty.Inches {
		unit = 25.4
	}
	long := math.Pow(10, math.Floor(math.Log10(40*d.scale/unit)))
	for _, m := range []float64{5, 2} {
		if long*m*unit/d.scale <= 40 {
			long *= m
			break
		}
	}
	w, y := long*unit/d.scale, d.height-1.5
	x := page.Width - w - 1
	d.s.Rect(draw.Thin(), draw.Black, draw.Pt{X: x, Y: y - 1}, draw.Pt{X: x + w/2, Y: y})
	d.s.Rect(draw.Thin(), draw.White, draw.Pt{X: x + w/2, Y: y - 1}, draw.Pt{X: x + w, Y: y})
	d.s.Text(draw.Pt{X: x - 1, Y: y}, draw.Small, draw.End, fmt.Sprintf("scale 1:%s    %s %s", qty.KindNumber.Bare(d.scale), qty.KindNumber.Bare(long), d.U))
}

// clearance calls out the tightest place.
func (d *setupDrawing) clearance() {
	if !d.tightKnown {
		return
	}
	c, st := d.tight, d.Job.Stations[d.tight.Station]
	from, to := st.From.MM(), st.To.MM()
	tip := d.pt((from+to)/2, st.Diameter.MM()/2)
	switch {
	case c.Bottom:
		tip = d.pt(to+st.Relief.MM(), d.barAt(d.Job.Bar.CutterAt)*0.55)
	case c.Axial:
		tip = d.pt(from, st.Diameter.MM()/2)
	}
	strs := []string{"tightest: " + d.U.Say(qty.FromMM(c.Clearance)) + " (" + d.tightAt(c) + ")"}
	y := d.bodyTop - 8.5
	w := draw.Width(strs[0], draw.Plain)
	to2 := draw.Pt{X: tip.X + 6, Y: y}
	if to2.X+w > page.Width-1 {
		to2.X = math.Min(tip.X-4, page.Width-1)
		if to2.X-w < 0 {
			to2.X = w
		}
	}
	d.s.Leader(tip, to2, strs...)
}

// describe says in words what the drawing shows.
func (d *setupDrawing) describe() {
	x := d.Plan.Bores[d.bore]
	d.words = append(d.words, fmt.Sprintf("Section through the line of bores; bar at the bottom of %s, tip at depth %s.", page.Clean(x.Station.Name), d.U.Say(qty.FromMM(d.tip))))
	if d.tightKnown {
		d.words = append(d.words, d.tightWords(d.tight))
	}
	if x.Station.Blind {
		d.words = append(d.words, fmt.Sprintf("Blind end of %s at depth %s%s.", page.Clean(x.Station.Name), d.U.Say(x.Station.To), d.Relief(x.Station)))
	}
	for _, s := range d.Job.Stations {
		if s.Swept {
			d.words = append(d.words, "To be swept with the dial: "+page.Clean(s.Name)+" (heavy chain line in the drawing).")
		}
	}
}

// tightAt says where a clearance is.
func (b sketch) tightAt(c clearance.Gap) string {
	part, st := b.Words.Say(c.Part.Fact()), page.Clean(b.Job.Stations[c.Station].Name)
	switch {
	case c.Bottom:
		return part + " to the bottom"
	case c.Axial:
		return part + " to the face of " + draw.Short(st, draw.Plain, 45)
	}
	return "on radius, " + part + " in " + draw.Short(st, draw.Plain, 45)
}

// tightWords is a clearance as a sentence.
func (b sketch) tightWords(c clearance.Gap) string {
	room, size := qty.FromMM(c.Clearance), b.U.Format(qty.FromMM(c.Diameter))
	part, verdict := b.Words.Say(c.Part.Fact()), b.Words.Say(c.Verdict.Fact())
	st := page.Clean(b.Job.Stations[c.Station].Name)
	switch {
	case room < 0:
		return fmt.Sprintf("It does not pass: %s of the bar (Ø%s) and %s overlap by %s.", part, size, st, b.U.Say(-room))
	case c.Bottom:
		return fmt.Sprintf("Tightest place: %s from %s to the bottom of %s (%s).", b.U.Say(room), part, st, verdict)
	case c.Axial:
		return fmt.Sprintf("Tightest place: %s from %s (Ø%s) to the face of %s (%s).", b.U.Say(room), part, size, st, verdict)
	}
	return fmt.Sprintf("Tightest place: %s on radius round %s (Ø%s) in %s, Ø%s (%s).", b.U.Say(room), part, size, st, b.U.Bare(b.Job.Stations[c.Station].Diameter), verdict)
}
