package sheets

import (
	"fmt"
	"math"

	"borewright/process/geom"
	"borewright/process/place"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// lineUp adds what to move, which way and by how much; nothing without sweeps.
func (b *builder) lineUp() {
	if b.Plan.LineUp != nil {
		title := "Line up: what to move"
		if b.Plan.LineUp.Made {
			title = "Line-up: made before the first cut"
		}
		b.sheet.Add(title, b.lineUpBlocks()...)
	}
}

func (b *builder) lineUpBlocks() []page.Block {
	l := b.Plan.LineUp
	lean := b.leanWords(l.Tilt) + ", ± " + b.U.Say(qty.KindSlope.Of(l.TiltIs))
	if !l.Assumption.None() {
		lean = "not swept: taken as parallel to the spindle, ± " + b.U.Say(qty.KindSlope.Of(l.TiltIs))
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
		kv.Items = append(kv.Items, page.KV("Bar hangs", b.U.Say(l.Droop)+" at the cutter in the middle of "+l.Station+". The spindle is set that much high, so that the cutter runs on the line; the dial then shows it"))
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
		out = append(out, b.stationsTable(l), page.Head("In this order"), page.Ticks(b.moves(l)))
	}
	out = append(out, &page.Paragraph{
		Text: "Left and right, up and down are as seen from the spindle, looking at the work; X plus is right, Y plus is up. Come to every dial figure from the same side, so that the screw's play does not count."})
	for i, s := range l.Swept {
		out = append(out, b.sweepTable(s, i))
	}
	return out
}

// lineUpShort is the line-up as it is worked at the machine: what is assumed, what to move,
// what the dial shows before and after. The annex has the rest.
func (b *builder) lineUpShort(l *place.LineUp) []page.Block {
	var out []page.Block
	if !l.Assumption.None() && !l.Confirmed {
		out = append(out, &page.Paragraph{Strong: true, Text: "Assumed, not swept: the line is parallel to the spindle. " + b.Words.Sentence(l.Confirm)})
	}
	if l.Made {
		out = append(out, &page.Paragraph{Strong: true, Text: "Made before the first cut: do not move the work or the spindle by these sweeps again. Sweep as a check only."})
	} else {
		steps := b.moves(l)
		if l.Droop > 0 {
			steps = append([]string{"The bar hangs " + b.U.Say(l.Droop) + " at the cutter: these moves set the spindle that much high."}, steps...)
		}
		out = append(out, page.Ticks(steps))
	}
	out = append(out, &page.Paragraph{Text: "Left, right, up, down as seen from the spindle. Come to every dial figure from the same side."})
	for i, s := range l.Swept {
		out = append(out, b.sweepTable(s, i))
	}
	return out
}

// stationsTable is where the line stands at every station before anything is
// moved.
func (b *builder) stationsTable(l *place.LineUp) *page.Table {
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

// moves are the advice as a list to be ticked off.
func (b *builder) moves(l *place.LineUp) []string {
	var out []string
	if s := l.Shim; s != nil {
		if s.Thick > 0 {
			out = append(out, fmt.Sprintf("Shim %s under the %s end (packings %s apart); clamp, and see that no dial moves.", b.sayMM(s.Thick), b.Words.Say(s.Under.Fact()), b.U.Say(qty.Plain(s.Over))))
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
		way := fmt.Sprintf("Turn the %s %s, seen from above: the far end goes %s", what, b.Words.Say(t.Sense.Fact()), b.Words.Say(t.FarEnd.Fact()))
		if t.Stop > 0 {
			way += fmt.Sprintf(", and it goes %s at the stop block, %s from its centre", b.sayMM(t.AtStop), b.U.Say(qty.Plain(t.Stop)))
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
	if l.Shim == nil && l.Turn == nil {
		out = append(out, "Leave the table's angle and the packings: no lean was found that is more than its own uncertainty.")
	}
	lock := "and lock the slides"
	if b.Machine.Control != nil {
		lock = fmt.Sprintf("and lock the slides that the program does not move: X, Y and %s stay free", b.Job.FeedLetter())
	}
	return append(out, "Sweep once more: the dial should show what stands under \"after\" below. Write down what it shows, "+lock+".")
}

// moveWords says one move in both directions and on the dial.
func (b *builder) moveWords(m place.Move) string {
	if m.Left > 0 {
		return m.Axis + " stays: " + b.U.Say(m.Left) + " is no more than the sweeps can tell (± " + b.U.Say(m.Unsure) + ")."
	}
	if m.By == 0 {
		return m.Axis + ": stays."
	}
	sign := "plus"
	if m.By < 0 {
		sign = "minus"
	}
	s := fmt.Sprintf("%s %s %s: the spindle goes %s, or the work %s", m.Axis, sign, b.sayMM(math.Abs(m.By)), b.Words.Say(m.Spindle.Fact()), b.Words.Say(m.Work.Fact()))
	if m.Graduations > 0 && b.Machine.Control == nil {
		s += "; " + b.Graduations(m.Graduations)
	}
	if m.AsItStands {
		s += "; this is for the bore as it stands, before the lean is taken out"
	}
	return s + "."
}

// longSweep is the most readings that are printed one by one.
const longSweep = 24

// sweepTable is one sweep: what was read, what the dial should show after, and
// room to write.
func (b *builder) sweepTable(s place.Swept, i int) page.Block {
	what := "in " + s.Station + " at depth " + b.sayMM(s.Depth)
	if s.Face {
		what = "on the face around " + s.Station
	}
	kv := page.KV(fmt.Sprintf("Sweep %d", i+1), fmt.Sprintf("%s: reads %s from least to most; twice the offset is %s, form %s", what, b.sayMM(s.Spread), b.mm(s.TIR), b.sayMM(s.Form)))
	if s.Face {
		kv.Value = fmt.Sprintf("%s: reads %s from least to most; the axis square to it leans %s; out of flat %s", what, b.sayMM(s.Spread), b.leanWords(s.Tilt), b.sayMM(s.Form))
	}
	if s.As.Further {
		kv.Value += "; a larger reading is further away"
	} else {
		kv.Value += "; a larger reading is nearer (the dial counts up when pressed in)"
	}
	if len(s.As.At) > longSweep {
		return &page.KeyValues{Items: []page.KeyValue{kv}}
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
func (b *builder) placeWords(p geom.Vec) string {
	side := func(mm float64, plus, minus string) string {
		if mm < 0 {
			plus = minus
		}
		return b.sayMM(math.Abs(mm)) + " " + plus
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

func (b *builder) leanWords(t geom.Vec) string {
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

// cleanUp adds the worn bores as read: the sizes at which they clean up.
func (b *builder) cleanUp() {
	for _, x := range b.Plan.Bores {
		if x.CleanUp != nil {
			b.sheet.Add("Clean-up size of "+x.Station.Name, b.cleanUpBlocks(x)...)
		}
	}
}

func (b *builder) cleanUpBlocks(x plan.Bore) []page.Block {
	c := x.CleanUp
	kv := &page.KeyValues{}
	add := func(k, v string) { kv.Items = append(kv.Items, page.KV(k, v)) }
	add("About the true axis", b.U.SayBoth(c.TrueAxis))
	own := "not known"
	if c.OwnAxis > 0 {
		own = b.U.SayBoth(c.OwnAxis)
	}
	add("About its own axis", own)
	add("Why", b.Words.Sentence(c.Why))
	if c.Axis {
		add("First cut meets", b.spotWords(c.First)+": the highest place; begin there, from nothing")
		add("Last shadow", b.spotWords(c.Last))
	}
	add("Not read", b.Words.Sentence(c.NotRead()))
	if c.OwnAxis == 0 && len(c.Depths) > 1 {
		add("Taper", "not known")
	}
	if c.Taper != 0 {
		wide := "wider inward"
		if c.Taper < 0 {
			wide = "narrower inward"
		}
		add("Taper", b.U.Say(c.Taper.Abs())+" on diameter over the depths read, "+wide)
	}
	if c.Next > 0 {
		add("Sleeve", "the outside planned does not surely clean up with a cut all round; the next standard outside that does is "+b.U.SayBoth(c.Next))
	}
	out := []page.Block{kv, b.circles(c)}
	if len(c.Shadows) > 0 {
		out = append(out, b.shadows(c))
	}
	for _, d := range c.Doubtful {
		out = append(out, &page.Paragraph{Strong: true, Text: "Doubtful reading: " + b.spotWords(d.Spot) + "; the others suggest " + b.sayMM(d.Expected) + ". It is used as it stands: read it again."})
	}
	return out
}

func (b *builder) spotWords(s geom.Spot) string {
	return "radius " + b.sayMM(s.Radius) + " at " + qty.KindClock.Say(s.Clock) + ", depth " + b.sayMM(s.Depth)
}

// circles are the reference circles at every depth.
func (b *builder) circles(c *place.CleanUp) *page.Table {
	t := &page.Table{
		Caption: "Circles through the readings (ISO 12181-1: LSCI, MCCI, MICI, MZCI), on diameter; zone on radius, centre from the true axis:",
		Columns: []page.Column{{Head: []string{"depth"}, Align: page.Decimal}, {Head: []string{"no."}, Align: page.Decimal}, {Head: []string{"least", "squares"}, Align: page.Decimal}, {Head: []string{"smallest", "around"}, Align: page.Decimal},
			{Head: []string{"largest", "inside"}, Align: page.Decimal}, {Head: []string{"zone", "least"}, Align: page.Decimal}, {Head: []string{"centre", "X"}, Align: page.Decimal}, {Head: []string{"centre", "Y"}, Align: page.Decimal}},
	}
	for _, d := range c.Depths {
		least, around, inside, zone, x, y := "-", "-", "-", "-", "-", "-"
		if d.LeastSquares > 0 {
			least, around = b.U.Bare(d.LeastSquares), b.U.Bare(d.Circumscribed)
		}
		if d.Inscribed > 0 {
			inside, zone = b.U.Bare(d.Inscribed), b.U.Format(d.Zone)
		}
		if d.Centred {
			x, y = b.mm(d.Centre.X), b.mm(d.Centre.Y)
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{b.U.Format(d.Depth), fmt.Sprint(d.Readings), least, around, inside, zone, x, y}})
	}
	return t
}

// shadows are what each pass leaves of the old bore.
func (b *builder) shadows(c *place.CleanUp) *page.Table {
	t := &page.Table{
		Caption: "What is left of the old bore:",
		Columns: []page.Column{{Head: []string{"after pass"}}, {Head: []string{"bored to"}, Align: page.Decimal}, {Head: []string{"deepest", "shadow"}, Align: page.Decimal}, {Head: []string{"where"}}},
	}
	if c.Unstated() {
		t.Caption = "What is left of the old bore, if it stands true where it was read across; no offset is stated:"
	}
	for _, s := range c.Shadows {
		after, where := fmt.Sprint(s.Pass), "none: all clean where read"
		if s.Clean > 0 {
			where += "; " + qty.KindShare.Say(min(s.Clean, 0.99)) + " all over"
		}
		switch {
		case s.Pass == 0:
			after = "asked for"
		case s.Band && s.Deepest == 0:
			after, where = after+", band", "none in the band"
		case s.Band:
			after += ", band"
		}
		if s.Deepest > 0 {
			where = qty.KindClock.Say(s.At.Clock) + ", depth " + b.mm(s.At.Depth)
			if s.UpTo {
				where = "at most, wherever it stands: " + where
			}
			if s.Spots > 1 {
				where += fmt.Sprintf("; old bore at %d readings", s.Spots)
			}
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{after, b.U.Bare(s.Size), b.U.Format(s.Deepest), where}})
	}
	return t
}

// mm prints so many millimetres in the units of the job; sayMM with the unit.
func (b *builder) mm(mm float64) string    { return b.U.Format(qty.FromMM(mm)) }
func (b *builder) sayMM(mm float64) string { return b.U.Say(qty.FromMM(mm)) }
