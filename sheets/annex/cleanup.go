package annex

import (
	"fmt"

	"borewright/process/geom"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// AddCleanUp adds the worn bores as read: the sizes at which they clean up.
func (b *Annex) AddCleanUp() {
	for _, x := range b.Plan.Bores {
		if x.CleanUp != nil {
			b.Sheet.Add("Clean-up size of "+x.Station.Name, b.CleanUpBlocks(x)...)
		}
	}
}

// CleanUpBlocks are the sizes at which a bore cleans up, and what the readings leave open.
func (b *Annex) CleanUpBlocks(x plan.Bore) []page.Block {
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
		out = append(out, &page.Paragraph{Strong: true, Text: "Doubtful reading: " + b.spotWords(d.Spot) + "; the others suggest " + b.SayMM(d.Expected) + ". It is used as it stands: read it again."})
	}
	return out
}

func (b *Annex) spotWords(s geom.Spot) string {
	return "radius " + b.SayMM(s.Radius) + " at " + qty.KindClock.Say(s.Clock) + ", depth " + b.SayMM(s.Depth)
}

// circles are the reference circles at every depth.
func (b *Annex) circles(c *place.CleanUp) *page.Table {
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
func (b *Annex) shadows(c *place.CleanUp) *page.Table {
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
