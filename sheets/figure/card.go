package figure

import (
	"fmt"
	"math"

	"borewright/process/qty"
	"borewright/sheets/draw"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// armLength is the height of capitals of type of 14 points, mm: what is read at arm's length.
const armLength = 3.65

// cardHigh is how high the section on a card may be, without its labels.
const cardHigh = 30

// Card draws the section for the card of one visit: the bar at the end of its cut, where the
// feed begins and stops, and what is not to be hit. nil where there is too little to draw.
func Card(h head.Head, bore, visit int) *page.Figures {
	b := sketch{h.For(bore, visit)}
	if len(b.Job.Stations) == 0 || len(b.Job.Bar.Steps) == 0 {
		return nil
	}
	d := &setupDrawing{sketch: b, bore: bore, visit: visit, stands: b.standing(bore, visit)}
	if !d.placeCard() {
		return nil
	}
	d.s = draw.New(page.Width, d.height, "The bore, with the stop of the feed", "")
	d.section()
	d.s.Line(draw.Axis(), d.pt(d.lo, 0), d.pt(d.hi, 0))
	d.cardSizes()
	d.cardDepths()
	for _, w := range d.words {
		d.s.Desc += w + " "
	}
	return &page.Figures{Items: []page.Figure{{Scene: d.s}}}
}

// standing are the sizes that stations have as a visit begins, by name, where bores were cut before it: the
// least of one that is finished, else what the next visit to it begins with.
func (b sketch) standing(bore, visit int) map[string]qty.Diameter {
	out := map[string]qty.Diameter{}
	for _, at := range b.Plan.Turns() {
		x := &b.Plan.Bores[at[0]]
		v := &x.Visits[at[1]]
		own := at == [2]int{bore, visit}
		switch {
		case own && (at[1] > 0 || v.N > 1):
			out[x.Station.Name] = v.Start
		case own:
		case at[1]+1 < len(x.Visits):
			out[x.Station.Name] = x.Visits[at[1]+1].Start
		default:
			out[x.Station.Name] = x.Bore.Finish.Low
		}
		if own {
			break
		}
	}
	return out
}

// placeCard decides what stands where.
func (d *setupDrawing) placeCard() bool {
	v := d.Plan.Bores[d.bore].Visits[d.visit]
	d.tip, d.set = v.End.MM(), v.Limits.High.MM()
	if r := v.Reach; r != nil && r.Least != nil {
		d.tight, d.tightKnown = *r.Least, true
	}
	d.span()
	half := math.Max(d.outR, d.noseR)
	if !d.drawable(half) {
		return false
	}
	d.scale = scaleFor(d.hi-d.lo, func(scale float64) bool { return 2*half/scale <= cardHigh })
	d.lo, d.hi = d.lo-6*d.scale, d.hi+5*d.scale
	d.bodyTop = armLength + 3
	d.axis = d.bodyTop + half/d.scale
	d.left = (page.Width - (d.hi-d.lo)/d.scale) / 2
	d.height = d.axis + half/d.scale + 3*depthPitch + 1.5
	return true
}

// cardSizes writes the diameters of what the bar goes through above it, where they have room.
func (d *setupDrawing) cardSizes() {
	var at []float64
	wide := 0.0
	for i, s := range d.Job.Stations {
		at = append(at, d.px((s.From+s.To).MM()/2))
		wide = math.Max(wide, draw.Width(d.stationSize(i), armLength)+3)
	}
	if wide*float64(len(at)) > page.Width {
		return
	}
	for i, x := range draw.Spread(at, wide, wide/2, page.Width-wide/2) {
		d.s.Text(draw.Pt{X: x, Y: armLength + 1.6}, armLength, draw.Middle, d.stationSize(i))
	}
}

// depthPitch is how far apart the lines of depths stand, mm.
const depthPitch = armLength + 1.6

// cardDepths say under the section where the feed begins, where it stops, and what stands
// behind: the shallowest on top, each left of the line that leads to it.
func (d *setupDrawing) cardDepths() {
	x := d.Plan.Bores[d.bore]
	v := x.Visits[d.visit]
	type line struct {
		at   qty.Length
		word string
	}
	lines := []line{{v.Clear, "feed begins at"}, {v.End, "STOP the feed at"}}
	if x.Station.Blind {
		end := x.Station.To + x.Station.Relief
		lines = append(lines, line{end, "closed end, never past"})
	}
	bottom := d.axis + math.Max(d.outR, d.noseR)/d.scale
	for i, l := range lines {
		p := d.pt(l.at.MM(), 0)
		y := bottom + float64(i+1)*depthPitch
		const bold = 1.13 // is wider than plain by
		depth := d.U.Format(l.at)
		wide := bold*draw.Width(depth, armLength) + 1.5
		end := p.X - 1.5 // of the figure, left of the line that leads to it
		if w := bold*draw.Width(l.word, armLength) + wide; end-w < 0 {
			end = math.Max(p.X+1.5+w, end)
		}
		d.s.Line(draw.Thin(), draw.Pt{X: p.X, Y: d.axis}, draw.Pt{X: p.X, Y: y})
		d.s.Bold(draw.Pt{X: end, Y: y}, armLength, draw.End, depth)
		d.s.Bold(draw.Pt{X: end - wide, Y: y}, armLength, draw.End, l.word)
		d.words = append(d.words, l.word+" "+d.U.Say(l.at)+".")
	}
	if g := d.tight; d.tightKnown && !x.Station.Blind { // in words alone: it may be anywhere
		at := draw.Pt{X: page.Width / 2, Y: bottom + 3*depthPitch}
		room := draw.Short(fmt.Sprintf("least room: %s, %s", d.U.Say(qty.FromMM(g.Clearance)), d.tightAt(g)), armLength, page.Width-2)
		d.s.Text(at, armLength, draw.Middle, room)
		d.words = append(d.words, room+".")
	}
}
