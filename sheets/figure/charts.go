package figure

import (
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/schedule"
	"fmt"
	"math"
	"slices"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/draw"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// Three charts stand side by side.
const (
	chartWide = 58.0
	chartHigh = 50.0
)

// Charts draws what people would rather look at than read of visit k to bore i.
func Charts(h head.Head, i, k int) []page.Block {
	b := sketch{h}
	v := b.Plan.Bores[i].Visits[k]
	if len(v.Passes) < 2 {
		return nil
	}
	f := &page.Figures{}
	add := func(p *draw.Plot, caption string) {
		if p != nil {
			f.Items = append(f.Items, page.Figure{Scene: p.Scene, Caption: caption})
		}
	}
	springs := b.Plan.Springs(i, k)
	add(b.sizeChart(v), "Gray: the old bore. Dots: most likely after each pass. Lines: the limits, too near to be told apart here.")
	add(b.roundChart(v), "On radius, log scale; what is less than the scale is drawn at its foot.")
	add(b.landChart(v, springs), "Last pass from mouth to bottom. Gray: where the gauge may say it lands (95 %).")
	add(b.springChart(springs), "On diameter, from mouth to bottom of the bore; the number is the pass.")
	add(b.quietChart(b.Plan.Quiet(i, k)), "Over speed, at the depth and feed of each pass (dots: as chosen), at the middle of what damps it: spindle, worn land of the edge, and how hard the land is pressed back. None is known to better than a factor of two.")
	if budget, ok := b.Plan.SizeBudget(i, k); ok {
		f.Items = append(f.Items, b.budgetChart(budget))
	}
	if len(f.Items) == 0 {
		return nil
	}
	return []page.Block{page.Head("In pictures"), f}
}

func dval(u qty.Unit, d qty.Diameter) float64 { return u.Number(d.Length()) }

// passTicks number the passes of a visit along an axis, thinned where many.
func passTicks(v plan.Visit) draw.Scale {
	s := draw.Scale{Label: "pass", Lo: 0, Hi: float64(len(v.Passes)) + 0.4}
	every := len(v.Passes)/12 + 1
	for i, p := range v.Passes {
		if (len(v.Passes)-1-i)%every == 0 {
			s.Ticks = append(s.Ticks, draw.Tick{At: float64(i + 1), Text: fmt.Sprint(p.N)})
		}
	}
	return s
}

func ranged(lo, hi, room float64) (float64, float64) {
	d := (hi - lo) * room
	if !(d > 0) {
		d = math.Max(math.Abs(hi)*1e-3, 1e-6)
	}
	return lo - d, hi + d
}

func (b sketch) axis(label string, lo, hi float64, few int) draw.Scale {
	return draw.Scale{Label: label, Lo: lo, Hi: hi, Ticks: draw.Ticks(lo, hi, 5, few)}
}

// sizeChart is the diameter after each pass.
func (b sketch) sizeChart(v plan.Visit) *draw.Plot {
	u := b.U
	lo, hi := ranged(dval(u, v.Start), math.Max(dval(u, v.Limits.High), dval(u, v.StartMost)), 0.08)
	p := draw.NewPlot(chartWide, chartHigh, "Diameter after each pass", "Diameter after each pass against the limits; the figures are those of the pass table.",
		passTicks(v), b.axis("Ø "+u.String(), lo, hi, 2))
	a, c := p.At(0, dval(u, v.Start)), p.At(0, dval(u, v.StartMost))
	_, corner := p.Frame()
	p.Ground(draw.Gray, draw.Pt{X: a.X, Y: c.Y}, draw.Pt{X: corner.X, Y: a.Y}) // no line of the chart is lost under it
	p.Level(draw.Thin(), dval(u, v.Limits.High), "limits", false)
	p.Level(draw.Thin(), dval(u, v.Limits.Low), "", false)
	line := []draw.Pt{{X: 0, Y: dval(u, v.Start)}}
	for i, q := range v.Passes {
		x := float64(i + 1)
		line = append(line, draw.Pt{X: x, Y: line[len(line)-1].Y}, draw.Pt{X: x, Y: dval(u, q.Expected)})
	}
	p.Curve(draw.Outline(), line...)
	for i, q := range v.Passes {
		p.Dot(float64(i+1), dval(u, q.Expected), "")
	}
	return p
}

// roundChart is the out-of-round after each pass.
func (b sketch) roundChart(v plan.Visit) *draw.Plot {
	u := b.U
	ask := u.Number(v.Roundness)
	found := u.Number(v.StartMost.Minus(v.Start)) / 2
	if !(ask > 0) || v.Part == schedule.Finishing && found <= ask { // roughed round already: nothing of the old shape is left to show
		return nil
	}
	floor := ask / 100
	hi := math.Max(found, ask) * 2
	y := draw.Scale{Label: "out-of-round, " + u.String(), Lo: floor, Hi: hi, Log: true}
	for _, t := range draw.LogTicks(floor, hi) {
		if m := t.Text[len(t.Text)-1]; m == '1' || m == '0' { // tens only
			y.Ticks = append(y.Ticks, t)
		}
	}
	p := draw.NewPlot(chartWide, chartHigh, "Out-of-round left", "Out-of-round after each pass against what is asked for, on a log scale; the figures are those of the table behind the passes.", passTicks(v), y)
	p.Level(draw.Thin(), ask, "asked for", false)
	line := []draw.Pt{{X: 0, Y: math.Max(found, floor)}}
	for i, q := range v.Passes {
		line = append(line, draw.Pt{X: float64(i + 1), Y: math.Max(u.Number(q.OutOfRound), floor)})
	}
	p.Curve(draw.Outline(), line...)
	for _, at := range line {
		p.Dot(at.X, at.Y, "")
	}
	return p
}

func (b sketch) depthAxis(from, to qty.Length) draw.Scale {
	u := b.U
	s := draw.Scale{Label: "depth, " + u.String(), Lo: u.Number(from), Hi: u.Number(to)}
	s.Ticks = draw.Ticks(s.Lo, s.Hi, 4, 0)
	return s
}

// landChart is the size that the last pass leaves along the bore.
func (b sketch) landChart(v plan.Visit, springs []schedule.SpringCurve) *draw.Plot {
	if len(springs) == 0 || v.Limits.High <= v.Limits.Low || v.To <= v.From {
		return nil
	}
	u, last, q := b.U, springs[len(springs)-1], v.Passes[len(v.Passes)-1]
	low, high := dval(u, v.Limits.Low), dval(u, v.Limits.High)
	lo, hi := ranged(math.Min(low, dval(u, q.Low)), math.Max(high, dval(u, q.High)), 0.25)
	few := 3
	if u == qty.Inches {
		few = 4
	}
	p := draw.NewPlot(chartWide, chartHigh, fmt.Sprintf("Size along the bore, pass %d", q.N), "Size that the last pass is to land along the bore, between the limits.", b.depthAxis(v.From, v.To), b.axis("Ø "+u.String(), lo, hi, few))
	a, c := p.At(u.Number(v.From), dval(u, q.High)), p.At(u.Number(v.To), dval(u, q.Low))
	p.Ground(draw.Gray, a, c)
	p.Level(draw.Outline(), high, "high limit", false)
	p.Level(draw.Outline(), low, "low limit", true)
	var line []draw.Pt
	for _, at := range last.Points {
		line = append(line, draw.Pt{X: u.Number(at.Depth), Y: dval(u, at.Size)})
	}
	p.Curve(draw.Thin(), line...)
	return p
}

// springChart is the push-off of every pass along the bore.
func (b sketch) springChart(springs []schedule.SpringCurve) *draw.Plot {
	if len(springs) == 0 || len(springs[0].Points) < 2 {
		return nil
	}
	u, most := b.U, 0.0
	from, to := springs[0].Points[0].Depth, springs[0].Points[0].Depth
	for _, c := range springs {
		for _, at := range c.Points {
			most, from, to = math.Max(most, u.Number(at.Spring)), min(from, at.Depth), max(to, at.Depth)
		}
	}
	if !(most > 0) || most > 1e6 || to <= from {
		return nil
	}
	p := draw.NewPlot(chartWide, chartHigh, "Spring along the bore", "Spring of each pass on diameter from the mouth to the bottom of the bore.", b.depthAxis(from, to), b.axis("spring, "+u.String(), 0, most*1.15, 3))
	for n, c := range springs {
		var line []draw.Pt
		for _, at := range c.Points {
			line = append(line, draw.Pt{X: u.Number(at.Depth), Y: u.Number(at.Spring)})
		}
		p.Curve(draw.Pen{Width: 0.35}, line...)
		// Numbers step along the lines, so that lines close together keep theirs.
		at := line[0]
		x := at.X + (line[len(line)-1].X-at.X)*(0.08+0.84*float64(n)/math.Max(1, float64(len(springs)-1)))
		where := p.At(x, lineAt(line, x))
		p.Word(draw.Pt{X: where.X - 2, Y: where.Y}, fmt.Sprint(c.Pass))
	}
	return p
}

// lineAt reads a line at x, for a label.
func lineAt(line []draw.Pt, x float64) float64 {
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if x <= b.X && b.X > a.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return line[len(line)-1].Y
}

// quietChart is the margin against chatter over speed, with the passes chosen.
func (b sketch) quietChart(curves []schedule.QuietCurve) *draw.Plot {
	if len(curves) == 0 || len(curves[0].Points) < 2 {
		return nil
	}
	pts := curves[0].Points
	lo, hi := float64(pts[0].Speed), float64(pts[len(pts)-1].Speed)
	low, high := 0.8, 1.25
	for _, c := range curves {
		for _, at := range append(c.Points, c.At) {
			low, high = math.Min(low, at.Margin/1.2), math.Max(high, math.Min(at.Margin, 20)*1.2)
		}
	}
	low = math.Max(low, 0.05)
	if !(hi > lo) {
		return nil
	}
	x := draw.Scale{Label: "rev/min", Lo: lo, Hi: hi, Log: true, Ticks: draw.LogTicks(lo, hi)}
	y := draw.Scale{Label: "margin", Lo: low, Hi: high, Log: true, Ticks: draw.LogTicks(low, high)}
	p := draw.NewPlot(chartWide, chartHigh, "Margin against chatter", "Margin against chatter over spindle speed, one line for each pass, with the speeds chosen marked.", x, y)
	p.Level(draw.Outline(), 1, "below: chatter", !besideLevel(curves, math.Log(hi/lo), math.Log(high/low), -1) || besideLevel(curves, math.Log(hi/lo), math.Log(high/low), 1))
	for n, c := range curves {
		var line []draw.Pt
		for _, at := range c.Points {
			line = append(line, draw.Pt{X: float64(at.Speed), Y: at.Margin})
		}
		p.Curve([]draw.Pen{draw.Thin(), draw.Hidden()}[n%2], line...)
	}
	for _, c := range curves {
		p.Dot(float64(c.At.Speed), c.At.Margin, fmt.Sprint(c.Pass))
	}
	return p
}

// besideLevel is whether the dot of a pass lies where the text at the right end of the level 1 would
// stand, above it (1) or below it (-1). wide and deep are the logarithms that the chart spans.
func besideLevel(curves []schedule.QuietCurve, wide, deep, side float64) bool {
	return slices.ContainsFunc(curves, func(c schedule.QuietCurve) bool {
		off := side * math.Log(c.At.Margin) / deep
		left := math.Log(float64(c.Points[len(c.Points)-1].Speed)/float64(c.At.Speed)) / wide
		return left < 0.5 && off > -0.06 && off < 0.22
	})
}

// budgetChart is what keeps the size from being known, as bars.
func (b sketch) budgetChart(g schedule.SizeDoubt) page.Figure {
	u := b.U
	s := draw.New(chartWide, chartHigh, fmt.Sprintf("Size budget of pass %d", g.Pass), "What keeps the size from being known, part by part, against what the limits leave.")
	most := math.Max(u.Number(g.Total), u.Number(g.Allowed))
	for _, part := range g.Parts {
		most = math.Max(most, u.Number(part.PlusMinus))
	}
	s.Bold(draw.Pt{X: 0, Y: 2.2}, 2, draw.Start, s.Title)
	s.Text(draw.Pt{X: 0, Y: 6.2}, draw.Small, draw.Start, "± "+u.String()+" on diameter, 95 %")
	const left = 31.0
	row := math.Min(4.4, (chartHigh-11)/float64(len(g.Parts)+2)) // many parts stand closer
	y, right := 9.0, chartWide-11
	words := []string{}
	bar := func(name string, l qty.Length, fill draw.Fill) {
		w := 0.0
		if most > 0 {
			w = (right - left) * u.Number(l) / most
		}
		s.Text(draw.Pt{X: 0, Y: y + 2.4}, draw.Small, draw.Start, draw.Short(name, draw.Small, left-1))
		s.Rect(draw.Pen{Width: 0.25}, fill, draw.Pt{X: left, Y: y}, draw.Pt{X: left + math.Min(math.Max(w, 0.1), right-left), Y: y + 2.8})
		s.Text(draw.Pt{X: left + math.Min(w, right-left) + 0.8, Y: y + 2.3}, draw.Small, draw.Start, u.Bare(qty.Fine(l)))
		y += row
		words = append(words, name+" ±"+u.Say(qty.Fine(l)))
	}
	for _, part := range g.Parts {
		fill := draw.White
		if part.Straight {
			fill = draw.Gray
		}
		bar(b.Words.Say(fact.New(part.Cause)), part.PlusMinus, fill)
	}
	y += 0.8
	s.Line(draw.Thin(), draw.Pt{X: left, Y: 8}, draw.Pt{X: left, Y: y + 2*row})
	bar("in all", g.Total, draw.Black)
	bar("limits leave", g.Allowed, draw.White)
	f := page.Figure{Scene: s, Caption: "White parts add by squares, gray ones in full."}
	for i, w := range words {
		sep := "; "
		if i == 0 {
			sep = " "
		}
		s.Desc += sep + w
	}
	return f
}

// Worn draws the readings of the old bore round the clock.
func Worn(h head.Head, i int) []page.Block {
	b := sketch{h}
	rings := b.Plan.WornRings(i)
	f := &page.Figures{}
	for _, r := range rings {
		if len(r.Points) < 3 {
			continue
		}
		f.Items = append(f.Items, b.wornRing(r))
	}
	if len(f.Items) == 0 {
		return nil
	}
	return []page.Block{page.Head("The old bore, round the clock"), f}
}

func (b sketch) wornRing(r place.WornRing) page.Figure {
	const w, h = chartWide, 52.0
	u := b.U
	clean := dval(u, r.CleanUp) / 2
	worst := 0.0
	for _, p := range r.Points {
		worst = math.Max(worst, math.Abs(clean-u.Number(p.Radius)))
	}
	// Depth under the clean-up circle is drawn as at most 6 mm on paper, by a
	// round factor.
	const circle = 17.0 // mm on paper
	times := 1.0
	if worst > 0 && clean > 0 && worst < clean {
		most := 6 / (worst / clean * circle)
		times = math.Pow(10, math.Floor(math.Log10(most)))
		for _, m := range []float64{5, 2} {
			if times*m <= most {
				times *= m
				break
			}
		}
	}
	s := draw.New(w, h, "Worn bore at depth "+u.Say(r.Depth), "")
	c := draw.Pt{X: w / 2, Y: 28}
	s.Bold(draw.Pt{X: 0, Y: 2.2}, 2, draw.Start, s.Title)
	at := func(clock, rad float64) draw.Pt {
		paper := circle
		if clean > 0 {
			paper += (rad - clean) / clean * circle * times
		}
		paper = math.Max(2, math.Min(paper, circle+3))
		sin, cos := math.Sincos(clock * math.Pi / 180)
		return draw.Pt{X: c.X + paper*sin, Y: c.Y - paper*cos}
	}
	s.Line(draw.Axis(), draw.Pt{X: c.X - 20, Y: c.Y}, draw.Pt{X: c.X + 20, Y: c.Y})
	s.Line(draw.Axis(), draw.Pt{X: c.X, Y: c.Y - 20}, draw.Pt{X: c.X, Y: c.Y + 20})
	s.Circle(draw.Outline(), draw.None, c, circle)
	pts := append([]place.WornPoint(nil), r.Points...)
	for i := 1; i < len(pts); i++ { // round the clock
		for k := i; k > 0 && pts[k].Clock < pts[k-1].Clock; k-- {
			pts[k], pts[k-1] = pts[k-1], pts[k]
		}
	}
	var line []draw.Pt
	for _, p := range pts {
		line = append(line, at(p.Clock, u.Number(p.Radius)))
	}
	var round []draw.Pt // the readings joined evenly round the clock, for the eye
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		turn := math.Mod(q.Clock-p.Clock+720, 360)
		n := max(1, int(turn/5))
		for k := range n {
			t := float64(k) / float64(n)
			round = append(round, at(p.Clock+turn*t, u.Number(p.Radius)*(1-t)+u.Number(q.Radius)*t))
		}
	}
	s.Polygon(draw.Hidden(), draw.None, round...)
	s.Desc = "Radii: "
	for i, p := range pts {
		s.Circle(draw.Pen{}, draw.Black, line[i], 0.7)
		word := u.Format(p.Radius)
		sin, cos := math.Sincos(p.Clock * math.Pi / 180)
		to := draw.Pt{X: c.X + 19.5*sin, Y: c.Y - 21*cos + 0.9}
		a := draw.Middle
		switch {
		case sin > 0.3:
			a = draw.Start
		case sin < -0.3:
			a = draw.End
		}
		if len(pts) > 12 && i%2 == 1 {
			word = ""
		}
		if word != "" {
			s.Clear(to, draw.Small, a, word)
			s.Text(to, draw.Small, a, word)
		}
		s.Desc += fmt.Sprintf("%s %s, ", qty.KindAngle.Say(p.Clock), u.Format(p.Radius))
	}
	s.Desc += "clean-up " + u.Say(r.CleanUp) + "."
	what := "Radii about the true axis"
	if r.Across {
		what = "Half of what was read across"
	}
	return page.Figure{Scene: s, Caption: fmt.Sprintf("%s; 12 o'clock up, seen from the spindle. Circle: clean-up %s. Depth of wear drawn %s times too large.", what, u.Say(r.CleanUp), qty.KindNumber.Bare(times))}
}
