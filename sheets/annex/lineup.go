package annex

import (
	"fmt"
	"math"

	"borewright/process/geom"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// AddLineUp adds what to move, which way and by how much; nothing without sweeps.
func (b *Annex) AddLineUp() {
	for _, h := range b.Sides() {
		one := *b
		one.Head = h
		one.addLineUp()
	}
}

func (b *Annex) addLineUp() {
	if b.Plan.LineUp != nil {
		title := "Line up: what to move"
		if b.Plan.LineUp.Made {
			title = "Line-up: made before the first cut"
		}
		b.Sheet.Add(title+b.From(), b.LineUpBlocks()...)
	}
}

// LineUpBlocks are where the line of bores stands, what to move, and what the dial shows then; of a plan
// that has a line-up.
func (b *Annex) LineUpBlocks() []page.Block {
	l := b.Plan.LineUp
	lean := b.leanWords(l.Tilt) + ", ±" + b.U.Say(qty.KindSlope.Of(l.TiltIs))
	if !l.Assumption.None() {
		lean = "not swept: taken as parallel to the spindle, ±" + b.U.Say(qty.KindSlope.Of(l.TiltIs))
		if l.Confirmed {
			lean += "; the witness cut has confirmed it"
		}
	}
	stands, leans := "The line stands", "Its far end leans"
	if l.Made {
		stands, leans = "The line stood", "Its far end leaned"
	}
	kv := &page.KeyValues{Items: []page.KeyValue{
		page.KV(stands, b.placeWords(l.Offset)+" against the spindle, at the face, ± "+b.U.Say(l.Unsure)),
		page.KV(leans, lean),
	}}
	if l.Droop > 0 {
		set := "The spindle is set"
		if b.Job.Bar.Inboard != nil {
			set = "Its bearings are set"
		}
		kv.Items = append(kv.Items, page.KV("Bar hangs", b.U.Say(l.Droop)+" at the cutter in the middle of "+l.Station+". "+set+" that much high, so that the cutter runs on the line; the dial then shows it"))
	}
	out := []page.Block{kv}
	if !l.Assumption.None() && !l.Confirmed {
		out = append(out, &page.Paragraph{Strong: true, Text: "Assumed, not swept: " + b.Words.Say(l.Assumption) + ". " + b.Words.Sentence(l.Confirm)})
	}
	for _, n := range l.Notes {
		out = append(out, &page.Paragraph{Text: "Note: " + b.Words.Say(n) + "."})
	}
	if l.Made {
		out = append(out, &page.Paragraph{Strong: true, Text: "Do not move the work or the spindle by these sweeps again: they were taken before the first cut, and what has been bored since stands by what was moved then."},
			page.Ticks([]string{
				"Sweep as a check, where the dial still reaches: it shows what stands under \"after\" below. If it does not, find out what has moved before anything is cut.",
				"Where the work was off the mill or was pressed into meanwhile: sweep anew, enter the new readings in the job in place of the old ones, and move by those.",
			}))
	} else {
		out = append(out, b.stationsTable(l), page.Head("In this order"), page.Ticks(b.Moves(l)))
	}
	out = append(out, &page.Paragraph{
		Text: "Left and right, up and down are as seen from the spindle, looking at the work; X plus is right, Y plus is up. Come to every dial figure from the same side, so that the screw's play does not count."})
	for i, s := range l.Swept {
		out = append(out, b.SweepTable(s, i, false))
	}
	return out
}

// stationsTable is where the line stands at every station before anything is
// moved.
func (b *Annex) stationsTable(l *place.LineUp) *page.Table {
	t := &page.Table{
		Caption: "Where the bores stand against the path of the cutter, before anything is moved, in " + b.U.Word() + ":",
		Columns: []page.Column{{Head: []string{"station"}}, {Head: []string{"depth"}, Align: page.Decimal}, {Head: []string{"X", "+ right"}, Align: page.Decimal},
			{Head: []string{"Y", "+ up"}, Align: page.Decimal}, {Head: []string{"known", "to ±"}, Align: page.Decimal}, {Head: []string{"how"}}},
	}
	for _, a := range l.At {
		how := "carried"
		for _, s := range l.Swept {
			if s.Station == a.Station && !s.Face {
				how = "swept"
			}
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{a.Station, b.mm(a.Depth), b.mm(a.X), b.mm(a.Y), b.mm(a.Uncertainty), how}})
	}
	return t
}

// Moves are the advice as a list to be ticked off.
func (b *Annex) Moves(l *place.LineUp) []string {
	var out []string
	if s := l.Shim; s != nil {
		if s.Thick > 0 {
			out = append(out, fmt.Sprintf("Shim %s under the %s end (packings %s apart); clamp, and see that no dial moves.", b.SayMM(s.Thick), b.Words.Say(s.Under.Fact()), b.U.Say(qty.Plain(s.Over))))
		} else {
			out = append(out, fmt.Sprintf("Raise the %s end: %s of shim for every %s between the packings. State lineup.packs to have it worked out.", b.Words.Say(s.Under.Fact()), b.U.Say(s.PerSpan), b.U.Say(qty.Plain(s.Span))))
		}
	}
	if t := l.Turn; t != nil {
		what := "work on the table"
		for _, a := range b.Machine.Travels {
			if a.Axis == 'B' {
				what = "table"
			}
		}
		way := fmt.Sprintf("Turn the %s %s, seen from above: far end %s", what, b.Words.Say(t.Sense.Fact()), b.Words.Say(t.FarEnd.Fact()))
		if t.Stop > 0 {
			way += fmt.Sprintf(", %s at the stop block, %s from its centre", b.SayMM(t.AtStop), b.U.Say(qty.Plain(t.Stop)))
		} else {
			way += fmt.Sprintf(", %s over %s. State lineup.table_centre and table_stop to have it worked out at the stop", b.U.Say(t.PerSpan), b.U.Say(qty.Plain(t.Span)))
		}
		out = append(out, way+".")
	}
	if l.SweepAgain {
		out = append(out, "Sweep again and work it out again before X and Y are set; what follows is what to expect.")
	}
	for _, m := range l.Move {
		out = append(out, b.moveWords(m))
	}
	if l.Shim == nil && l.Turn == nil && l.Assumption.None() {
		out = append(out, "Leave the table's angle and the packings: the lean found is within its own doubt.")
	}
	lock := "Lock the slides."
	if b.Machine.Control != nil {
		lock = fmt.Sprintf("Lock all slides but those of the program: X, Y and %s.", b.Job.FeedLetter())
	}
	return append(out, "Sweep once more: the dial should show \"after\", below; write down what it does. "+lock)
}

// moveWords says one move in both directions and on the dial.
func (b *Annex) moveWords(m place.Move) string {
	if m.Left > 0 {
		return m.Axis + " stays: " + b.U.Say(m.Left) + " off, and the sweeps tell ±" + b.U.Say(m.Unsure) + "."
	}
	if m.By == 0 {
		return m.Axis + ": stays."
	}
	sign := "plus"
	if m.By < 0 {
		sign = "minus"
	}
	s := fmt.Sprintf("%s %s %s: the spindle goes %s, or the work %s", m.Axis, sign, b.SayMM(math.Abs(m.By)), b.Words.Say(m.Spindle.Fact()), b.Words.Say(m.Work.Fact()))
	if m.Graduations > 0 && b.Machine.Control == nil {
		s += "; " + b.Graduations(m.Graduations)
	}
	if m.AsItStands {
		s += "; this is for the bore as it stands, before the lean is taken out"
	}
	return s + "."
}

// SweepTable is one sweep: what was read, what the dial should show after, and
// room to write.
func (b *Annex) SweepTable(s place.Swept, i int, short bool) page.Block {
	what := "in " + s.Station + " at depth " + b.SayMM(s.Depth)
	if s.Face {
		what = "on the face around " + s.Station
	}
	kv := page.KV(fmt.Sprintf("Sweep %d", i+1), fmt.Sprintf("%s: reads %s from least to most; twice the offset is %s, form %s", what, b.SayMM(s.Spread), b.mm(s.TIR), b.SayMM(s.Form)))
	if s.Face {
		kv.Value = fmt.Sprintf("%s: reads %s from least to most; the axis square to it leans %s; out of flat %s", what, b.SayMM(s.Spread), b.leanWords(s.Tilt), b.SayMM(s.Form))
	}
	if short {
		kv.Value = what
	}
	if s.As.Further {
		kv.Value += "; a larger reading is further away"
	} else {
		kv.Value += "; a larger reading is nearer"
	}
	if len(s.As.At) > longSweep {
		return &page.KeyValues{Items: []page.KeyValue{kv}}
	}
	if short && len(s.As.At) <= shortSweep {
		return b.sweepAcross(s, kv)
	}
	t := &page.Table{Caption: kv.Key + ", " + kv.Value + ".", Columns: []page.Column{{Head: []string{"o'clock"}, Align: page.Decimal}, {Head: []string{"read", "before"}, Align: page.Decimal}}}
	if len(s.Expected) > 0 {
		t.Columns = append(t.Columns, page.Column{Head: []string{"after"}, Align: page.Decimal})
	}
	t.Columns = append(t.Columns, page.Column{Head: []string{"found", "after"}, Blank: true})
	for k, at := range s.As.At {
		cells := []string{qty.KindExactClock.Say(at), b.U.Format(s.As.Dial[k])}
		if len(s.Expected) > 0 {
			cells = append(cells, b.U.Format(s.Expected[k]))
		}
		t.Rows = append(t.Rows, page.Row{Cells: append(cells, "")})
	}
	return t
}

// placeWords says where something stands: "0.0005 in left and 0.0003 in high".
func (b *Annex) placeWords(p geom.Vec) string {
	side := func(mm float64, plus, minus string) string {
		if mm < 0 {
			plus = minus
		}
		return b.SayMM(math.Abs(mm)) + " " + plus
	}
	switch {
	case p.X == 0 && p.Y == 0:
		return "in line"
	case p.X == 0:
		return side(p.Y, "high", "low")
	case p.Y == 0:
		return side(p.X, "right", "left")
	}
	return side(p.X, "right", "left") + " and " + side(p.Y, "high", "low")
}

func (b *Annex) leanWords(t geom.Vec) string {
	if t == (geom.Vec{}) {
		return "not at all"
	}
	side := func(v float64, plus, minus string) string {
		if v < 0 {
			plus = minus
		}
		return b.U.Say(qty.KindSlope.Of(math.Abs(v))) + " " + plus
	}
	return side(t.X, "right", "left") + " and " + side(t.Y, "up", "down")
}

// mm prints so many millimetres in the units of the job.
func (b *Annex) mm(mm float64) string { return b.U.Format(qty.FromMM(mm)) }

// SayMM is the same with the unit.
func (b *Annex) SayMM(mm float64) string { return b.U.Say(qty.FromMM(mm)) }

// shortSweep is the most readings that stand side by side.
const shortSweep = 6

// sweepAcross is a short sweep with its readings side by side.
func (b *Annex) sweepAcross(s place.Swept, kv page.KeyValue) *page.Table {
	t := &page.Table{Caption: kv.Key + ", " + kv.Value + ".", Columns: []page.Column{{Head: []string{"dial"}}}}
	before, after, found := []string{"read before"}, []string{"after"}, []string{"found after"}
	for k, at := range s.As.At {
		t.Columns = append(t.Columns, page.Column{Head: []string{qty.KindExactClock.Say(at)}, Align: page.Decimal, Blank: true})
		before, found = append(before, b.U.Format(s.As.Dial[k])), append(found, "")
		if k < len(s.Expected) {
			after = append(after, b.U.Format(s.Expected[k]))
		}
	}
	t.Rows = append(t.Rows, page.Row{Cells: before})
	if len(s.Expected) > 0 {
		t.Rows = append(t.Rows, page.Row{Cells: after})
	}
	t.Rows = append(t.Rows, page.Row{Cells: found})
	return t
}

// longSweep is the most readings that are printed one by one.
const longSweep = 24
