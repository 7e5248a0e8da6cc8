package sheets

import (
	"fmt"
	"math"

	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
)

// lineUp adds what to move, which way and by how much; nothing without sweeps.
func (b *builder) lineUp() {
	if b.plan.LineUp != nil {
		title := "Line up: what to move"
		if b.plan.LineUp.Made {
			title = "Line-up: made before the first cut"
		}
		b.sheet.section(title, b.lineUpBlocks()...)
	}
}

func (b *builder) lineUpBlocks() []Block {
	l := b.plan.LineUp
	lean := b.leanWords(l.Tilt) + ", ± " + b.u.Say(qty.KindSlope.Of(l.TiltIs))
	if l.Assumption != "" {
		lean = "not swept: taken as parallel to the spindle, ± " + b.u.Say(qty.KindSlope.Of(l.TiltIs))
		if l.Confirmed {
			lean += "; the witness cut has confirmed it"
		}
	}
	stands, leans := "The line stands", "Its far end leans"
	if l.Made {
		stands, leans = "The line stood", "Its far end leaned"
	}
	kv := &KeyValues{Items: []KeyValue{
		{stands, b.placeWords(l.Offset) + " against the spindle, at the face, ± " + b.u.Say(l.Unsure)},
		{leans, lean},
	}}
	if l.Droop > 0 {
		kv.Items = append(kv.Items, KeyValue{"Bar hangs", b.u.Say(l.Droop) + " at the cutter in the middle of " + l.Station + ". The spindle is set that much high, so that the cutter runs on the line; the dial then shows it"})
	}
	out := []Block{kv}
	if l.Assumption != "" && !l.Confirmed {
		out = append(out, &Paragraph{Strong: true, Text: "Assumed, not swept: " + l.Assumption + ". " + l.Confirm})
	}
	for _, n := range l.Notes {
		out = append(out, &Paragraph{Text: "Note: " + n + "."})
	}
	if l.Made {
		out = append(out, &Paragraph{Strong: true, Text: "Do not move the work or the spindle by these sweeps again: they were taken before the first cut, and what has been bored since stands by what was moved then."},
			&Checklist{[]string{
				"Sweep as a check, where the dial still reaches: it shows what stands under \"after\" below. If it does not, find out what has moved before anything is cut.",
				"Where the work was off the mill or was pressed into meanwhile: sweep anew, enter the new readings in the job in place of the old ones, and move by those.",
			}})
	} else {
		out = append(out, b.stationsTable(l), &Heading{"In this order"}, &Checklist{b.steps(l)})
	}
	out = append(out, &Paragraph{
		Text: "Left and right, up and down are as seen from the spindle, looking at the work; X plus is right, Y plus is up. Come to every dial figure from the same side, so that the screw's play does not count."})
	for i, s := range l.Swept {
		out = append(out, b.sweepTable(s, i))
	}
	return out
}

// stationsTable is where the line stands at every station before anything is
// moved.
func (b *builder) stationsTable(l *place.LineUp) *Table {
	t := &Table{
		Caption: "Where the bores stand against the path of the cutter, before anything is moved, in " + b.u.Word() + ":",
		Columns: []Column{{Head: []string{"station"}}, {Head: []string{"depth"}, Align: Decimal}, {Head: []string{"X", "+ right"}, Align: Decimal},
			{Head: []string{"Y", "+ up"}, Align: Decimal}, {Head: []string{"known", "to ±"}, Align: Decimal}, {Head: []string{"how"}}},
	}
	for _, a := range l.At {
		how := "carried"
		for _, s := range l.Swept {
			if s.Station == a.Station && !s.Face {
				how = "swept"
			}
		}
		t.Rows = append(t.Rows, Row{Cells: []string{a.Station, b.u.Format(a.Depth), b.u.Format(a.X), b.u.Format(a.Y), b.u.Format(a.Unsure), how}})
	}
	return t
}

// steps are the advice as a list to be ticked off.
func (b *builder) steps(l *place.LineUp) []string {
	var out []string
	if s := l.Shim; s != nil {
		if s.Thick > 0 {
			out = append(out, fmt.Sprintf("Shim %s under the %s end (packings %s apart); clamp, and see that no dial moves.", b.u.Say(s.Thick), s.Under, b.u.Say(qty.Plain(s.Over))))
		} else {
			out = append(out, fmt.Sprintf("Raise the %s end: %s of shim for every %s between the packings. State lineup.packs to have it worked out.", s.Under, b.u.Say(s.PerSpan), b.u.Say(qty.Plain(s.Span))))
		}
	}
	if t := l.Turn; t != nil {
		what := "work on the table"
		for _, a := range b.machine.Travels {
			if a.Axis == "B" {
				what = "table"
			}
		}
		way := fmt.Sprintf("Turn the %s %s, seen from above: the far end goes %s", what, t.Way, t.FarEnd)
		if t.Stop > 0 {
			way += fmt.Sprintf(", and it goes %s at the stop block, %s from its centre", b.u.Say(t.AtStop), b.u.Say(qty.Plain(t.Stop)))
		} else {
			way += fmt.Sprintf(", %s over %s. State lineup.table_centre and table_stop to have it worked out at the stop", b.u.Say(t.PerSpan), b.u.Say(qty.Plain(t.Span)))
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
	if b.machine.Control != nil {
		lock = fmt.Sprintf("and lock the slides that the program does not move: X, Y and %s stay free", b.in.FeedLetter())
	}
	return append(out, "Sweep once more: the dial should show what stands under \"after\" below. Write down what it shows, "+lock+".")
}

// moveWords says one move in both directions and on the dial.
func (b *builder) moveWords(m place.Move) string {
	if m.By == 0 {
		return m.Axis + ": stays."
	}
	sign := "plus"
	if m.By < 0 {
		sign = "minus"
	}
	s := fmt.Sprintf("%s %s %s: the spindle goes %s, or the work %s", m.Axis, sign, b.u.Say(m.By.Abs()), m.Spindle, m.Work)
	if m.Graduations > 0 {
		s += fmt.Sprintf("; %s graduations of %s", number(math.Round(m.Graduations*10)/10), b.u.Say(qty.Plain(b.machine.Dial)))
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
func (b *builder) sweepTable(s place.Swept, i int) Block {
	what := "in " + s.Station + " at depth " + b.u.Say(s.Depth)
	if s.Face {
		what = "on the face around " + s.Station
	}
	kv := KeyValue{fmt.Sprintf("Sweep %d", i+1), fmt.Sprintf("%s: reads %s from least to most; twice the offset is %s, form %s", what, b.u.Say(s.Read), b.u.Format(s.TIR), b.u.Say(s.Form))}
	if s.Face {
		kv.Value = fmt.Sprintf("%s: reads %s from least to most; the axis square to it leans %s; out of flat %s", what, b.u.Say(s.Read), b.leanWords(s.Lean), b.u.Say(s.Form))
	}
	if s.Further {
		kv.Value += "; a larger reading is further away"
	} else {
		kv.Value += "; a larger reading is nearer (the dial counts up when pressed in)"
	}
	if len(s.At) > longSweep {
		return &KeyValues{[]KeyValue{kv}}
	}
	t := &Table{Caption: kv.Key + ", " + kv.Value + ".", Columns: []Column{{Head: []string{"o'clock"}, Align: Decimal}, {Head: []string{"read", "before"}, Align: Decimal}}}
	if len(s.Expected) > 0 {
		t.Columns = append(t.Columns, Column{Head: []string{"after"}, Align: Decimal})
	}
	t.Columns = append(t.Columns, Column{Head: []string{"found", "after"}, Blank: true})
	for k, at := range s.At {
		cells := []string{place.Spot{Clock: at}.ClockLabel(), b.u.Format(s.Dial[k])}
		if len(s.Expected) > 0 {
			cells = append(cells, b.u.Format(s.Expected[k]))
		}
		t.Rows = append(t.Rows, Row{Cells: append(cells, "")})
	}
	return t
}

// placeWords says where something stands: "0.0005 in left and 0.0003 in high".
func (b *builder) placeWords(p place.Place) string {
	side := func(l qty.Length, plus, minus string) string {
		if l < 0 {
			plus = minus
		}
		return b.u.Say(l.Abs()) + " " + plus
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

func (b *builder) leanWords(t [2]float64) string {
	if t == [2]float64{} {
		return "not at all"
	}
	side := func(v float64, plus, minus string) string {
		if v < 0 {
			plus = minus
		}
		return b.u.Say(qty.KindSlope.Of(math.Abs(v))) + " " + plus
	}
	return side(t[0], "right", "left") + " and " + side(t[1], "up", "down")
}

// cleanUp adds the worn bores as read: the sizes at which they clean up.
func (b *builder) cleanUp() {
	for _, x := range b.plan.Bores {
		if x.CleanUp != nil {
			b.sheet.section("Clean-up size of "+x.Station.Name, b.cleanUpBlocks(x)...)
		}
	}
}

func (b *builder) cleanUpBlocks(x plan.Bore) []Block {
	c := x.CleanUp
	kv := &KeyValues{}
	add := func(k, v string) { kv.Items = append(kv.Items, KeyValue{k, v}) }
	add("About the true axis", b.u.SayBoth(c.TrueAxis))
	own := "not known"
	if c.OwnAxis > 0 {
		own = b.u.SayBoth(c.OwnAxis)
	}
	add("About its own axis", own)
	add("Why", c.Words)
	if c.Axis {
		add("First cut meets", b.spotWords(c.First)+": the highest place; begin there, from nothing")
		add("Last shadow", b.spotWords(c.Last))
	}
	if c.Unseen > 0 {
		add("Unseen", "between the readings it may be "+b.u.Say(c.Unseen)+" larger on diameter")
	}
	if c.OwnAxis == 0 && len(c.Depths) > 1 {
		add("Taper", "not known")
	}
	if c.Taper != 0 {
		wide := "wider inward"
		if c.Taper < 0 {
			wide = "narrower inward"
		}
		add("Taper", b.u.Say(c.Taper.Abs())+" on diameter over the depths read, "+wide)
	}
	if c.Next > 0 {
		add("Sleeve", "the outside planned does not clean up with a cut all round; the next standard outside that does is "+b.u.SayBoth(c.Next))
	}
	out := []Block{kv, b.circles(c)}
	if len(c.Shadows) > 0 {
		out = append(out, b.shadows(c))
	}
	for _, d := range c.Doubtful {
		out = append(out, &Paragraph{Strong: true, Text: "Doubtful reading: " + b.spotWords(d.Spot) + "; the others suggest " + b.u.Say(d.Expected) + ". It is used as it stands: read it again."})
	}
	return out
}

func (b *builder) spotWords(s place.Spot) string {
	return "radius " + b.u.Say(s.Radius) + " at " + s.ClockWords() + ", depth " + b.u.Say(s.Depth)
}

// circles are the reference circles at every depth.
func (b *builder) circles(c *place.CleanUp) *Table {
	t := &Table{
		Caption: "Circles through the readings (ISO 12181-1: LSCI, MCCI, MICI, MZCI), on diameter; zone on radius, centre from the true axis:",
		Columns: []Column{{Head: []string{"depth"}, Align: Decimal}, {Head: []string{"no."}, Align: Decimal}, {Head: []string{"least", "squares"}, Align: Decimal}, {Head: []string{"smallest", "around"}, Align: Decimal},
			{Head: []string{"largest", "inside"}, Align: Decimal}, {Head: []string{"zone", "least"}, Align: Decimal}, {Head: []string{"centre", "X"}, Align: Decimal}, {Head: []string{"centre", "Y"}, Align: Decimal}},
	}
	for _, d := range c.Depths {
		least, around, inside, zone, x, y := "-", "-", "-", "-", "-", "-"
		if d.LeastSquares > 0 {
			least, around = b.u.Bare(d.LeastSquares), b.u.Bare(d.Circumscribed)
		}
		if d.Inscribed > 0 {
			inside, zone = b.u.Bare(d.Inscribed), b.u.Format(d.Zone)
		}
		if d.Centred {
			x, y = b.u.Format(d.Centre.X), b.u.Format(d.Centre.Y)
		}
		t.Rows = append(t.Rows, Row{Cells: []string{b.u.Format(d.Depth), fmt.Sprint(d.Readings), least, around, inside, zone, x, y}})
	}
	return t
}

// shadows are what each pass leaves of the old bore.
func (b *builder) shadows(c *place.CleanUp) *Table {
	t := &Table{
		Caption: "What is left of the old bore:",
		Columns: []Column{{Head: []string{"after pass"}}, {Head: []string{"bored to"}, Align: Decimal}, {Head: []string{"deepest", "shadow"}, Align: Decimal}, {Head: []string{"where"}}},
	}
	if c.Unstated() {
		t.Caption = "What is left of the old bore, if it stands true where it was read across; no offset is stated:"
	}
	for _, s := range c.Shadows {
		after, where := fmt.Sprint(s.Pass), "none: all clean"
		if s.Pass == 0 {
			after = "asked for"
		}
		if s.Deepest > 0 {
			where = s.At.ClockWords() + ", depth " + b.u.Format(s.At.Depth)
			if s.UpTo {
				where = "at most, wherever it stands: " + where
			}
			if s.Spots > 1 {
				where += fmt.Sprintf("; old bore at %d readings", s.Spots)
			}
		}
		t.Rows = append(t.Rows, Row{Cells: []string{after, b.u.Bare(s.Size), b.u.Format(s.Deepest), where}})
	}
	return t
}
