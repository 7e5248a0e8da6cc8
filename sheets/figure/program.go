package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/post/verify"
	"borewright/post/verify/path"
	"borewright/process/qty"
	"borewright/sheets/draw"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// How the lanes of a program are laid out, mm on paper.
const (
	pageHigh   = 214  // a drawing is no higher, so that it stands on a page
	sectionMax = 84   // the section above the lanes
	laneHead   = 4.2  // the words of a lane
	levelHigh  = 3.0  // from the way in to the way out
	markHigh   = 5.2  // a row of findings
	laneGap    = 2.2  // between lanes
	markWide   = 15.5 // a finding with its line
	rulerHigh  = 10
	legendHigh = 14
	levelsMost = 8 // of one lane: a way that turns more often is not drawn to its end
	marksMost  = 36
	lanesMost  = 60
)

// dashes of a rapid move: shorter than those of hidden edges, because moves are.
func rapidPen() draw.Pen { return draw.Pen{Width: 0.3, Dash: []float64{1.6, 0.9}} }
func feedPen() draw.Pen  { return draw.Pen{Width: 0.8} }

// Program draws what a program does, held against a visit of the plan: the section
// with the bar at its deepest, and under it the way of the tip, a lane from stop to
// stop, with the findings at their place. nil where there is nothing to draw.
func Program(h head.Head, bore, visit int, steps []path.Step, r verify.Report) *page.Figures {
	h = h.For(bore, visit)
	d := &programDrawing{setupDrawing: setupDrawing{sketch: sketch{h}, bore: bore, visit: visit}, report: r}
	d.stands = map[string]qty.Diameter{}
	for _, s := range r.Shape { // what is not cut here may have been before
		if s.High == 0 {
			d.stands[s.Station] = s.Diameter
		}
	}
	d.lanesOf(steps)
	if len(d.lanes) == 0 || len(h.Job.Stations) == 0 || len(h.Job.Bar.Steps) == 0 || !d.placeProgram(steps) {
		return nil
	}
	d.placeMarks()
	out := &page.Figures{}
	for rest := d.lanes; len(rest) > 0; {
		first := len(out.Items) == 0
		n := d.sheet(rest, first)
		caption := fmt.Sprintf("What the program does, stop by stop, scale 1:%s; the bar stands where the feed ends, the lanes under it are to scale along the bore", qty.KindNumber.Bare(d.scale))
		if !first {
			caption = "What the program does, continued"
		}
		out.Items = append(out.Items, page.Figure{Scene: d.s, Caption: caption})
		rest = rest[n:]
	}
	return out
}

// lane is what is done from one group of stops to the next.
type lane struct {
	steps  []path.Step
	first  int // number of its first stop, 0: none
	stops  int
	levels int
	lost   int // steps that are not drawn
	marks  []mark
	more   int // findings that are not drawn
}

// mark is a finding in its place.
type mark struct {
	no, line int
	x        float64 // depth, mm
	level    int
	nowhere  bool // before the tip is anywhere
}

type programDrawing struct {
	setupDrawing
	report verify.Report
	lanes  []*lane
	count  int // stops
}

// lanesOf parts the steps where the program stops.
func (d *programDrawing) lanesOf(steps []path.Step) {
	var l *lane
	for i, s := range steps {
		stop := s.Kind == path.Stop
		if stop {
			d.count++
		}
		if l == nil || stop && steps[max(i-1, 0)].Kind != path.Stop {
			l = &lane{}
			d.lanes = append(d.lanes, l)
		}
		if stop {
			if l.stops++; l.first == 0 {
				l.first = d.count
			}
		}
		l.steps = append(l.steps, s)
	}
	if len(d.lanes) > lanesMost {
		d.lanes = d.lanes[:lanesMost]
	}
	for _, l := range d.lanes {
		l.level(func(path.Step, int) {})
	}
}

// level goes through the steps of a lane, each with the level that it is drawn at: one
// down wherever the tip turns round.
func (l *lane) level(f func(s path.Step, level int)) {
	level, dir := 0, 0
	l.lost = 0
	for _, s := range l.steps {
		to := cmp.Compare(s.To, s.From)
		if to != 0 && dir != 0 && to != dir {
			level++
		}
		if to != 0 {
			dir = to
		}
		if level >= levelsMost {
			l.lost++
			continue
		}
		l.levels = level + 1
		f(s, level)
	}
}

// placeProgram decides what of the work is drawn, and at what scale.
func (d *programDrawing) placeProgram(steps []path.Step) bool {
	v := &d.Plan.Bores[d.bore].Visits[d.visit]
	d.tip, d.set = v.End.MM(), v.Limits.High.MM()
	if n := len(v.Passes); n > 0 && !(d.set > 0) {
		d.set = v.Passes[n-1].Setting.MM()
	}
	d.span()
	// A slip of the decimal point must not press all else together: what goes further
	// out is drawn at the edge, with its figure.
	deep := d.hi
	least, most := 0.0, d.hi
	for _, s := range steps {
		if s.Kind == path.Rapid || s.Kind == path.Feed {
			least, most = math.Min(least, s.To.MM()), math.Max(most, s.To.MM())
		}
	}
	d.lo = math.Min(d.lo, math.Max(least, -0.5*deep))
	d.hi = math.Max(d.hi, math.Min(most, 1.2*deep))
	half := math.Max(d.outR, d.noseR)
	if !d.drawable(half) {
		return false
	}
	for _, d.scale = range setupScales {
		if (d.hi-d.lo)/d.scale <= page.Width-22 && 2*half/d.scale <= sectionMax {
			break
		}
	}
	d.lo, d.hi = d.lo-7*d.scale, d.hi+5*d.scale
	d.left = (page.Width - (d.hi-d.lo)/d.scale) / 2
	d.labels()
	return true
}

// at is where a depth stands along the paper, kept on it.
func (d *programDrawing) at(depth float64) (x float64, off bool) {
	x = d.px(depth)
	lo, hi := 3.0, page.Width-3.0
	return math.Min(math.Max(x, lo), hi), x < lo || x > hi
}

// placeMarks gives every finding that has a line the lane and the place where the tip
// stands then.
func (d *programDrawing) placeMarks() {
	for i, f := range d.report.Findings {
		if f.Line == 0 {
			continue
		}
		in, m := d.lanes[0], mark{no: i + 1, line: f.Line, nowhere: true}
		for _, l := range d.lanes {
			l.level(func(s path.Step, level int) {
				if s.Line <= f.Line && !(s.Line < f.Line && in != l && l.first == 0) {
					in, m.x, m.level, m.nowhere = l, s.To.MM(), level, !s.Known && s.Kind != path.Rapid && s.Kind != path.Feed
				}
			})
		}
		if m.nowhere {
			m.x = -d.home().MM()
		}
		if len(in.marks) == marksMost {
			in.more++
			continue
		}
		in.marks = append(in.marks, m)
	}
}

// high is how much paper a lane takes.
func (l *lane) high() float64 {
	rows := (len(l.marks) + perRow - 1) / perRow
	return laneHead + levelHigh*float64(l.levels) + markHigh*float64(rows) + laneGap
}

// perRow are the findings that stand side by side.
const perRow = 11

// sheet draws as many lanes as a page takes, and gives how many those are.
func (d *programDrawing) sheet(lanes []*lane, first bool) (n int) {
	half := math.Max(d.outR, d.noseR) / d.scale
	top := 8.0
	if first {
		d.bodyTop = 21
		if d.upright {
			d.bodyTop = 30
		}
		d.axis = d.bodyTop + half
		top = d.axis + half + 3
	}
	foot := rulerHigh + 2.0
	if first {
		foot += legendHigh
	}
	y := top
	for n < len(lanes) && (n == 0 || y+lanes[n].high()+foot <= pageHigh) {
		y += lanes[n].high()
		n++
	}
	d.height = y + foot
	d.s = draw.New(page.Width, d.height, "What the program does", "")
	d.words = nil
	for i, s := range d.Job.Stations { // the bores, carried down through the lanes
		a, _ := d.at(s.From.MM())
		b, _ := d.at(s.To.MM())
		d.s.Rect(draw.Pen{}, draw.Gray, draw.Pt{X: a, Y: top - 1}, draw.Pt{X: b, Y: y})
		if !first {
			d.s.Text(draw.Pt{X: (a + b) / 2, Y: top - 2.4}, draw.Small, draw.Middle, fmt.Sprint(i+1))
		}
	}
	if first {
		d.section()
		d.s.Line(draw.Axis(), d.pt(d.lo, 0), d.pt(d.hi, 0))
		d.barSizes()
		d.stationLabels()
	}
	to := top
	for _, l := range lanes[:n] {
		d.lane(l, to)
		to += l.high()
	}
	d.ruler(y)
	if first {
		d.legend(y + rulerHigh)
	}
	for _, w := range d.words {
		d.s.Desc += w + " "
	}
	return n
}

// title says what a lane is: the stops that it begins with, the pass that is cut in it.
func (d *programDrawing) title(l *lane) string {
	s := "Before the first stop"
	switch {
	case l.stops == 1:
		s = fmt.Sprintf("From stop %d", l.first)
	case l.stops > 1:
		s = fmt.Sprintf("From stops %d to %d", l.first, l.first+l.stops-1)
	}
	for _, c := range d.report.Cuts {
		if slices.ContainsFunc(l.steps, func(s path.Step) bool { return s.Kind == path.Feed && s.Line == c.Line }) {
			pass := ": a cut that is no pass"
			if c.Pass > 0 {
				pass = fmt.Sprintf(": pass %d", c.Pass)
			}
			pass += fmt.Sprintf(", set to Ø%s, feed %s a turn, %.4g rev/min", d.U.Bare(c.Setting), d.U.Format(c.Feed), c.Speed)
			if !strings.HasSuffix(s, pass) { // one pass goes through all bores of a setting
				s += pass
			}
		}
	}
	a, b := l.steps[0].Line, l.steps[len(l.steps)-1].Line
	if s += fmt.Sprintf("; lines %d to %d", a, b); a == b {
		s = s[:len(s)-len(fmt.Sprintf("s %d to %d", a, b))] + fmt.Sprintf(" %d", a)
	}
	if l.lost > 0 {
		s += fmt.Sprintf("; %d more moves, not drawn", l.lost)
	}
	if l.more > 0 {
		s += fmt.Sprintf("; %d more findings, in the table", l.more)
	}
	return s
}

// lane draws one.
func (d *programDrawing) lane(l *lane, y float64) {
	title := d.title(l)
	d.words = append(d.words, title+".")
	d.s.Line(draw.Pen{Width: 0.13}, draw.Pt{X: 1, Y: y - 0.6}, draw.Pt{X: page.Width - 1, Y: y - 0.6})
	row := func(level int) float64 { return y + laneHead + levelHigh*(float64(level)+0.4) }
	stop, lastLevel := l.first, 0
	l.level(func(s path.Step, level int) {
		x0, _ := d.at(s.From.MM())
		x1, off := d.at(s.To.MM())
		at := draw.Pt{X: x1, Y: row(level)}
		if level != lastLevel {
			d.s.Line(draw.Pen{Width: 0.3}, draw.Pt{X: x0, Y: row(lastLevel)}, draw.Pt{X: x0, Y: row(level)})
		}
		lastLevel = level
		switch s.Kind {
		case path.Rapid, path.Feed:
			pen := rapidPen()
			if s.Kind == path.Feed {
				pen = feedPen()
			}
			if math.Abs(x1-x0) > 0.05 {
				d.s.Line(pen, draw.Pt{X: x0, Y: at.Y}, at)
			}
			if math.Abs(x1-x0) > 3 {
				d.head(draw.Pt{X: (x0 + x1) / 2, Y: at.Y}, x1 > x0, s.Kind == path.Feed)
			}
			if off {
				d.s.Text(draw.Pt{X: x1 + 2, Y: at.Y - 0.8}, draw.Small, draw.Anchor(cmp.Compare(x1, page.Width/2)+1), "to "+d.U.Format(s.To))
			}
		case path.Across:
			d.s.Line(draw.Pen{Width: 0.45}, draw.Pt{X: x1, Y: at.Y - 1}, draw.Pt{X: x1, Y: at.Y + 1})
		case path.Dwell:
			d.s.Circle(draw.Pen{Width: 0.3}, draw.White, at, 0.8)
		case path.Stop:
			if !s.Known {
				at.X, _ = d.at(-d.home().MM())
			}
			d.square(draw.Pt{X: at.X - 2.4 - 3.8*float64(l.first+l.stops-1-stop), Y: at.Y}, fmt.Sprint(stop))
			stop++
		case path.Home:
			d.s.Text(draw.Pt{X: x1 + 1, Y: at.Y - 0.6}, draw.Small, draw.Start, "home")
		case path.End:
			for _, dx := range []float64{0, 0.9} {
				d.s.Line(draw.Pen{Width: 0.5}, draw.Pt{X: x1 + 1.2 + dx, Y: at.Y - 1.3}, draw.Pt{X: x1 + 1.2 + dx, Y: at.Y + 1.3})
			}
		}
	})
	words := draw.Pt{X: 2, Y: y + 2.4}
	d.s.Clear(words, draw.Small, draw.Start, title)
	d.s.Text(words, draw.Small, draw.Start, draw.Short(title, draw.Small, page.Width-4))
	d.marks(l, y+laneHead+levelHigh*float64(l.levels), row)
}

// home is the level in front of the face at which the program stops first.
func (d *programDrawing) home() qty.Length {
	for _, l := range d.lanes {
		for _, s := range l.steps {
			if s.Kind == path.Rapid {
				return max(-s.To, 0)
			}
		}
	}
	return 0
}

// head is an arrow in the middle of a move.
func (d *programDrawing) head(at draw.Pt, right, full bool) {
	long, half := 1.9, 0.75
	if !right {
		long = -long
	}
	fill := draw.White
	if full {
		fill = draw.Black
	}
	d.s.Polygon(draw.Pen{Width: 0.25}, fill, draw.Pt{X: at.X + long/2, Y: at.Y}, draw.Pt{X: at.X - long/2, Y: at.Y - half}, draw.Pt{X: at.X - long/2, Y: at.Y + half})
}

// square is a stop with its number.
func (d *programDrawing) square(at draw.Pt, no string) {
	w := math.Max(1.4, draw.Width(no, 1.6)/2+0.5)
	d.s.Rect(draw.Pen{Width: 0.3}, draw.White, draw.Pt{X: at.X - w, Y: at.Y - 1.4}, draw.Pt{X: at.X + w, Y: at.Y + 1.4})
	d.s.Text(draw.Pt{X: at.X, Y: at.Y + 0.8}, 1.6, draw.Middle, no)
}

// disc is a finding with its number.
func (d *programDrawing) disc(at draw.Pt, no string) {
	d.s.Circle(draw.Pen{Width: 0.45}, draw.White, at, math.Max(1.6, draw.Width(no, 1.6)/2+0.7))
	d.s.Bold(draw.Pt{X: at.X, Y: at.Y + 0.8}, 1.6, draw.Middle, no)
}

// marks draws the findings of a lane under it, each with a line to its place.
func (d *programDrawing) marks(l *lane, y float64, row func(int) float64) {
	slices.SortStableFunc(l.marks, func(a, b mark) int { return cmp.Compare(a.x, b.x) })
	rows := (len(l.marks) + perRow - 1) / perRow
	for k := range rows {
		var part []mark // every row from end to end, so that no line is long
		for i := k; i < len(l.marks); i += rows {
			part = append(part, l.marks[i])
		}
		at := make([]float64, len(part))
		for i, m := range part {
			at[i], _ = d.at(m.x)
		}
		foot := y + markHigh*float64(k) + markHigh/2
		for i, x := range draw.Spread(at, markWide, 3, page.Width-13) {
			m := part[i]
			d.s.Line(draw.Pen{Width: 0.18}, draw.Pt{X: at[i], Y: row(m.level)}, draw.Pt{X: x, Y: foot})
			if !m.nowhere {
				d.s.Circle(draw.Pen{}, draw.Black, draw.Pt{X: at[i], Y: row(m.level)}, 0.55)
			}
			d.disc(draw.Pt{X: x, Y: foot}, fmt.Sprint(m.no))
			word := fmt.Sprintf("line %d", m.line)
			d.s.Clear(draw.Pt{X: x + 2.6, Y: foot + 0.9}, draw.Small, draw.Start, word)
			d.s.Text(draw.Pt{X: x + 2.6, Y: foot + 0.9}, draw.Small, draw.Start, word)
		}
	}
}

// ruler gives depths from the face.
func (d *programDrawing) ruler(y float64) {
	d.s.Line(draw.Thin(), draw.Pt{X: 1, Y: y}, draw.Pt{X: page.Width - 1, Y: y})
	unit := 1.0
	if d.U == qty.Inches {
		unit = 25.4
	}
	for _, t := range draw.Ticks(d.lo/unit, d.hi/unit, 10, 0) {
		x, off := d.at(t.At * unit)
		if off {
			continue
		}
		d.s.Line(draw.Thin(), draw.Pt{X: x, Y: y}, draw.Pt{X: x, Y: y + 1.2})
		d.s.Text(draw.Pt{X: x, Y: y + 3.6}, draw.Small, draw.Middle, t.Text)
	}
	d.s.Text(draw.Pt{X: page.Width - 1, Y: y + 6.6}, draw.Small, draw.End, "depth of the tip from the face that the spindle enters, "+d.U.String())
}

// legend tells the lines by their shapes.
func (d *programDrawing) legend(y float64) {
	x := 1.0
	word := func(s string) {
		d.s.Text(draw.Pt{X: x, Y: y + 0.8}, draw.Small, draw.Start, s)
		x += draw.Width(s, draw.Small) + 5
	}
	line := func(pen draw.Pen, full bool, s string) {
		d.s.Line(pen, draw.Pt{X: x, Y: y}, draw.Pt{X: x + 10, Y: y})
		d.head(draw.Pt{X: x + 5, Y: y}, true, full)
		x += 11.5
		word(s)
	}
	line(rapidPen(), false, "rapid")
	line(feedPen(), true, "feed")
	d.s.Line(draw.Pen{Width: 0.45}, draw.Pt{X: x, Y: y - 1}, draw.Pt{X: x, Y: y + 1})
	x += 1.5
	word("across, not to scale")
	d.s.Circle(draw.Pen{Width: 0.3}, draw.White, draw.Pt{X: x + 0.8, Y: y}, 0.8)
	x += 2.6
	word("dwell")
	for _, dx := range []float64{0, 0.9} {
		d.s.Line(draw.Pen{Width: 0.5}, draw.Pt{X: x + dx, Y: y - 1.3}, draw.Pt{X: x + dx, Y: y + 1.3})
	}
	x += 2.4
	word("end")
	x, y = 1.0, y+4.6
	d.square(draw.Pt{X: x + 1.4, Y: y}, "1")
	x += 4
	word("stop, in the order of the program")
	d.disc(draw.Pt{X: x + 1.6, Y: y}, "1")
	x += 4.4
	word("finding, numbered as in the table, and its line")
	d.s.Rect(draw.Pen{Width: 0.13}, draw.Gray, draw.Pt{X: x, Y: y - 1.2}, draw.Pt{X: x + 4, Y: y + 1.2})
	x += 5.2
	word("along a bore")
}
