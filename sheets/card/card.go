// Package card lays out what hangs at the mill: one page for each visit that says what to set,
// how fast, from where to where, what the gauge should say and where to stop. It also has
// the words for what a hand does there: setting the cutter, levers, bringing the bar out.
package card

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/turns"
	"borewright/sheets/draw"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// Hand says what hands do at the machine.
type Hand struct{ head.Head }

// Visit is the cards of one visit, by the indices of bore and visit. program names its program,
// "" where there is none.
func (b Hand) Visit(i, k int, program string) []page.Section {
	x := b.Plan.Bores[i]
	v := x.Visits[k]
	if len(v.Passes) == 0 {
		return nil
	}
	b.Head = b.For(i, k)
	above, below := b.above(i, k, program), b.below(i, k)
	rows := [][]page.Row{nil}
	room := cardDeep - deep(above) - deep(below)
	left := room
	for n, p := range v.Passes {
		of := b.rows(v, p)
		if len(v.Together) > 0 {
			of = b.rowsWith(i, k, n)
		}
		need := 0.0
		for _, r := range of {
			need += rowDeep(r)
		}
		if at := len(rows) - 1; need > left && len(rows[at]) > 0 {
			rows = append(rows, nil)
			left = room
		}
		left -= need
		rows[len(rows)-1] = append(rows[len(rows)-1], of...)
	}
	title := x.Station.Name + head.Called(x, k)
	if len(v.Together) > 0 {
		title = head.List(v.Together)
	}
	if t := b.Words.Say(v.Title); t != "" {
		title += ": " + t
	}
	var out []page.Section
	for n, r := range rows {
		of := title
		if len(rows) > 1 {
			of += fmt.Sprintf(", card %d of %d", n+1, len(rows))
		}
		t := b.table()
		t.Rows = r
		if n == 1 { // what comes first was done for the card before
			above = slices.DeleteFunc(slices.Clone(above), func(x page.Block) bool {
				p, text := x.(*page.Paragraph)
				return text && strings.HasPrefix(p.Text, "FIRST: ")
			})
		}
		blocks := append(append(append([]page.Block{}, above...), t), below...)
		out = append(out, page.Section{Title: of, Blocks: blocks, Card: true})
	}
	return out
}

// above is what stands over the passes: what has to be known before the first of them.
func (b Hand) above(i, k int, program string) []page.Block {
	x := b.Plan.Bores[i]
	v := x.Visits[k]
	var out []page.Block
	if first := b.FindAxis(); first != "" {
		out = append(out, &page.Paragraph{Strong: true, Text: "FIRST: " + first})
	}
	kv := &page.KeyValues{}
	add := func(k, s string) { kv.Items = append(kv.Items, page.KV(k, s)) }
	if f := b.FaceMeans(); f != "" {
		add("Face", f)
	}
	if program != "" {
		add("Program", program)
	}
	for _, f := range v.Before {
		switch f.Kind {
		case plan.FitBush:
			out = append(out, &page.Paragraph{Strong: true, Text: "FIRST: bush into " + v.Bush.Station + ", oiled, the bar in it turns free."})
		case turns.HalfRound:
			out = append(out, &page.Paragraph{Strong: true, Text: "FIRST: " + b.turn(v.Before)})
		case plan.OutOfBush:
			out = append(out, &page.Paragraph{Strong: true, Text: "FIRST: bar back, bush out."})
		}
	}
	if v.Rest() != nil {
		out = append(out, &page.Paragraph{Strong: true, Text: "FIRST: let the casting rest, line up again, gauge the rough bores and enter them."})
	}
	if v.Bush != nil {
		out = append(out, &page.Paragraph{Strong: true, Text: "Oil the bush at every stop; warm, a smell or a squeal: stop, it seizes."})
	}
	if v.Behind > 0 && len(v.Together) > 0 {
		add("Stand at", b.stand(i, k))
	} else if v.Behind > 0 {
		stands := "Ø" + b.U.Bare(v.Start) + " to " + b.U.Say(v.StartMost)
		if v.Start == v.StartMost {
			stands = b.U.Say(v.Start)
		}
		add("Stands at", fmt.Sprintf("%s after pass %d, as measured", stands, v.Behind))
	}
	land := b.U.SayLimitsOfSize(v.Limits.Low, v.Limits.High) + ", aim at Ø" + b.U.Bare(v.Limits.Aim)
	if v.Ra > 0 {
		land += ", Ra " + b.U.Say(qty.Roughness(v.Ra))
	}
	if b.Plan.Several() {
		add("With", b.ToolsSaid())
	}
	if v.Part == schedule.Roughing {
		low, high := v.Limits.Low, v.Limits.High
		for _, w := range b.Plan.With(i, k) {
			other := &b.Plan.Bores[w[0]].Visits[w[1]]
			low, high = min(low, other.Limits.Low), max(high, other.Limits.High)
		}
		land = b.U.SayLimitsOfSize(low, high) + " for the finish after the rest"
		add("Leave", land)
	} else {
		add("Land", land)
	}
	out = append(out, kv)
	if f := figure.Card(b.Head, i, k); f != nil && len(v.Together) == 0 { // which has room for one bore
		out = append(out, f)
	}
	return out
}

// turn is what is done as the face of the head comes round to the spindle, by the facts before a visit.
func (b Hand) turn(before []fact.Fact) string {
	out, in, bar := "", "", ""
	for _, f := range before {
		switch f.Kind {
		case turns.BushOut:
			out = "bar out of the bush and of the work, "
		case turns.BearingOut:
			out = "bar out of its bearing and of the work, "
		case turns.BearingsOut:
			out = "cutter out, bar out of both bearings and of the work, "
		case turns.BushIn:
			in = ", bar through the work into the bush"
		case turns.BearingIn:
			in = ", bar through the work into its bearing"
		case turns.BearingsIn:
			bar, in = "bar through the work into both bearings, ", ", cutter in"
		}
	}
	return out + "HALF TURN of the table, check it, " + bar + "line up from the " + b.FaceSaid() + in + "."
}

// FindAxis is how the axis is found where nothing was swept, before anything is cut; "" where
// sweeps have shown it.
func (b Hand) FindAxis() string {
	if b.Plan.LineUp != nil {
		return ""
	}
	var swept []string
	for _, s := range b.Job.Stations {
		if s.Swept {
			swept = append(swept, s.Name)
		}
	}
	if len(swept) > 0 {
		return "sweep " + strings.Join(swept, " and ") + " with the dial and bring the spindle onto it; no reading of it is in the job yet."
	}
	return "find the axis: no sweep shows it. Sweep a bore or face that is not worn, or take the axis from the drawing's datums, and set X and Y before anything is cut."
}

// table is the pass table without its rows.
func (b Hand) table() *page.Table {
	dial, set := b.SetColumn()
	num := func(key bool, head ...string) page.Column {
		return page.Column{Head: head, Align: page.Decimal, Key: key}
	}
	t := &page.Table{Columns: []page.Column{num(false, "no"), {Head: []string{"pass"}}, num(true, "set", "cutter Ø")}}
	if set != nil {
		t.Columns = append(t.Columns, num(true, dial...))
	}
	t.Columns = append(t.Columns, num(false, "S", "rev/min"), num(false, "F", b.U.String()+"/rev"), num(true, "gauge", "low"), num(true, "gauge", "high"))
	return t
}

// rows are what the table has of one pass: honing before it, the pass, the stop after it.
func (b Hand) rows(v plan.Visit, p schedule.Pass) (out []page.Row) {
	if p.Hone != nil {
		s := fmt.Sprintf("HONE the edge before pass %d", p.N)
		if p.Hone.SetAnew {
			s += ", then set anew"
		}
		out = append(out, page.Row{Stop: true, Across: s})
	}
	cells := []string{strconv.Itoa(p.N), p.Kind.String(), b.U.Bare(p.Setting)}
	if _, set := b.SetColumn(); set != nil {
		how := set(p)
		if b.Job.Cutter.SetBy == process.Increment && p.Set.From == 0 && p.Set.OverBar > 0 {
			how = "bar " + b.U.Format(p.Set.OverBar)
		}
		cells = append(cells, how)
	}
	cells = append(cells, b.U.Bare(p.Speed), b.U.Format(p.Feed), b.U.Bare(p.Low), b.U.Bare(p.High))
	out = append(out, page.Row{Cells: cells})
	if p.Hold != nil {
		out = append(out, page.Row{Stop: true, Across: fmt.Sprintf("HOLD after %d: gauge", p.N), Boxes: []string{"least", "most"}})
	}
	return out
}

// below is what holds for all passes of the visit, and what can hurt.
func (b Hand) below(i, k int) []page.Block {
	x := b.Plan.Bores[i]
	v := x.Visits[k]
	kv := &page.KeyValues{}
	add := func(k, s string) { kv.Items = append(kv.Items, page.KV(k, s)) }
	by := b.Job.Bar.FeedBy.String()
	feed := fmt.Sprintf("%s, %s to %s", by, b.U.Format(v.Clear), b.U.Say(v.End))
	if len(v.Together) > 0 {
		feed = by + b.feeds(i, k)
	}
	for _, p := range v.Passes {
		if p.Band != nil {
			feed += fmt.Sprintf("; pass %d to %s only", p.N, b.U.Format(p.Band.To))
		}
	}
	if v.Material.CutDry(b.Job.Cutter.Material) {
		feed += ". Dry."
	} else {
		feed += ". Coolant."
	}
	add("Feed", feed)
	if s := b.hands(v); s != "" {
		add("Set", s)
	}
	if s := b.levers(v); s != "" {
		add("Levers", s)
	}
	if len(v.Together) > 0 {
		add("Between", betweenBores(&v))
	}
	kv.Items = append(append(kv.Items, b.outShort(v)...), b.mouthShort(v)...)
	return []page.Block{kv, page.Mind(b.worst(i, k))}
}

// hands say how to read the column of settings.
func (b Hand) hands(v plan.Visit) string {
	switch b.Job.Cutter.SetBy {
	case process.OverBar:
		return "micrometer over bar and tip, bar Ø" + b.U.Bare(qty.Diameter(b.Job.Cutter.Bar))
	case process.Preset:
		return "to the gauge, each time anew"
	}
	s := "1 = " + b.U.Say(qty.Graduation(b.Machine.SetDial)) + " on Ø"
	if b.Machine.DialTurn > 0 {
		s += ", t = a turn"
	}
	if slices.ContainsFunc(v.Passes, func(p schedule.Pass) bool { return p.Set.From == 0 && p.Set.OverBar > 0 }) {
		s += "; bar = over bar and tip"
	}
	return s + ". Come up to it."
}

// levers say where speeds and feeds stand in the machine's ladders.
func (b Hand) levers(v plan.Visit) string {
	if b.Machine.Control != nil {
		return ""
	}
	var out []string
	seen := map[string]bool{}
	add := func(s string) {
		if !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	for _, p := range v.Passes {
		if len(b.Machine.Speeds.Steps) > 0 {
			add("S " + b.U.Bare(p.Speed) + " " + lever(b.Machine.Speeds, float64(p.Speed)))
		}
	}
	for _, p := range v.Passes {
		if len(b.Machine.Feeds.Steps) > 0 {
			add("F " + b.U.Format(p.Feed) + " " + lever(b.Machine.Feeds, p.Feed.MM()))
		}
	}
	return strings.Join(out, "; ")
}

// outShort is how the cutter comes in, where it is not straight, and out, in few words, like
// passes together.
func (b Hand) outShort(v plan.Visit) (kv []page.KeyValue) {
	switch o := v.OffAxis; {
	case v.SetInside:
		kv = append(kv, page.KV("In", "the cutter goes into the bar inside, with the tip at "+b.U.Say(v.Clear)+", and comes out of it there"))
	case o != nil:
		kv = append(kv, page.KV("In", "by program: tip to "+qty.KindClock.Say(o.Clock)+", bar "+b.U.Say(qty.Plain(o.Shift))+" off its axis until the tip is at "+b.U.Say(o.Level)))
	}
	for i := 0; i < len(v.Passes); {
		out, j := v.Passes[i].Out, i
		for j < len(v.Passes) && v.Passes[j].Out.By == out.By {
			j++
		}
		span := "Out"
		if i > 0 || j < len(v.Passes) {
			span = fmt.Sprintf("Out %d-%d", v.Passes[i].N, v.Passes[j-1].N)
			if j == i+1 {
				span = fmt.Sprintf("Out %d", v.Passes[i].N)
			}
		}
		kv = append(kv, page.KV(span, b.wayShort(out)))
		i = j
	}
	return kv
}

func (b Hand) wayShort(out schedule.WayOut) string {
	tip := qty.KindClock.Say(out.Clock)
	switch {
	case out.By == process.DrawOut:
		return "stop, tip to " + tip + ", draw out by hand along the wall"
	case out.By == process.ShiftOut && b.Machine.Control == nil:
		by := ""
		if dial := b.Machine.Dial; dial > 0 {
			by = " (" + b.Graduations(float64(out.Shift/dial)) + ")"
		}
		return "stop, tip to " + tip + ", X minus " + b.U.Say(qty.Plain(out.Shift)) + by + ", draw out; X back from the same side, clamp"
	case out.By == process.ShiftOut:
		return "by program: tip to " + tip + ", bar " + b.U.Say(qty.Plain(out.Shift)) + " off the wall, then out"
	}
	return "feed out turning, same setting, feed and speed"
}

// How deep a card is, mm: the page less its heads, and a line of it. Widths are estimates, so
// a little is kept.
const (
	cardDeep = 243.4 - 4.9 - 9.2 - 12.5 - 2 // the lines of its job and title, the head of its table, a little
	lineDeep = 14 * 25.4 / 72 * 1.32
	capital  = 14 * 25.4 / 72 * 0.729
	rowPlain = lineDeep + 1.4
	rowStop  = lineDeep + 2.4
)

func rowDeep(r page.Row) float64 {
	if r.Stop {
		return rowStop
	}
	return rowPlain
}

// deep is about how much of a card blocks take, mm.
func deep(blocks []page.Block) float64 {
	h := 0.0
	lines := func(s string, wide float64) float64 {
		n := 1.0
		for used, words := 0.0, strings.Fields(page.Clean(s)); len(words) > 0; words = words[1:] {
			w := draw.Width(words[0]+" ", capital) * 1.02
			if used > 0 && used+w > wide {
				n, used = n+1, 0
			}
			for ; w > wide; w -= wide {
				n++
			}
			used += w
		}
		return n * lineDeep
	}
	for _, b := range blocks {
		switch b := b.(type) {
		case *page.Paragraph:
			h += lines(b.Text, (page.Width-4)*0.93) + 1
		case *page.KeyValues:
			for _, kv := range b.Items {
				h += max(lines(kv.Key, 50), lines(kv.Value, page.Width-4-keyWide(b))) + 0.4
			}
			h += 1.2
		case *page.Cautions:
			for _, s := range b.Items {
				h += lines(s, page.Width-8) + 1.2
			}
			h += 0.8
		case *page.Figures:
			for _, f := range b.Items {
				h += f.Scene.H + 3
			}
		}
	}
	return h
}

// keyWide is about how wide the names of lines are.
func keyWide(b *page.KeyValues) float64 {
	w := 20.0
	for _, kv := range b.Items {
		w = max(w, min(4*14, draw.Width(kv.Key, capital)*1.15))
	}
	return w
}
