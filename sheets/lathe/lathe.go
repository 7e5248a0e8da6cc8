// Package lathe lays out what the lathe gets of a sleeve, and where its holes and grooves
// raise the stress.
package lathe

import (
	"fmt"

	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/sleeve"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// Sheet is the sheet that goes to the lathe: what the sleeve is, its drawing, sizes,
// sequence and features, and how it is held.
func Sheet(b head.Head, x plan.Bore) []page.Block {
	s, w := x.Sleeve, x.Sleeve.Taken()
	t := &page.Table{Columns: []page.Column{{Head: []string{"dimension"}}, {Head: []string{"low", b.U.String()}, Align: page.Decimal}, {Head: []string{"high", b.U.String()}, Align: page.Decimal},
		{Head: []string{"as made", b.U.String()}, Blank: true}}}
	row := func(what string, low, high qty.Length) { // rounded inward: what is printed is within what was worked out
		t.Rows = append(t.Rows, page.Row{Cells: []string{what, b.U.Format(b.U.Up(low)), b.U.Format(b.U.Down(high)), ""}})
	}
	if s.Found[1] == 0 {
		row("housing, by the drawing", s.Housing[0].Length(), s.Housing[1].Length())
	} else {
		row("housing, as measured", s.Found[0].Length(), s.Found[1].Length())
	}
	row("inside before assembly", w.Inside[0].Length(), w.Inside[1].Length())
	if s.Match > 0 {
		what, over := "outside over housing", s.Interference
		if over.Most <= 0 {
			what, over = "outside under housing", iso286.Range{Least: -s.Interference.Most, Most: -s.Interference.Least}
		}
		row(what, over.Least, over.Most)
		if s.TurnedTo[1] > 0 {
			row("outside, for this housing", s.TurnedTo[0].Length(), s.TurnedTo[1].Length())
		} else {
			row("outside, by the fit", s.Turned[0].Length(), s.Turned[1].Length())
		}
	} else {
		row("outside", s.Turned[0].Length(), s.Turned[1].Length())
	}
	row("length", s.Length.Least, s.Length.Most)
	out := []page.Block{&page.KeyValues{Items: append([]page.KeyValue{
		page.KV("Material", head.Material(s.Material)+", one off, "+b.U.Say(qty.KindMass.Of(s.Weight()))+" as turned"),
	}, Ends(b, x)...)}}
	if f := figure.Sleeve(b, x); f != nil {
		out = append(out, f)
	}
	out = append(out, t)
	if s.Match > 0 {
		out = append(out, &page.Paragraph{Strong: true, Text: "Make the outside to the housing as measured, at its middle. Parts and gauges at one temperature."})
	}
	out = append(out, page.Ticks(b.Words.Each(s.Lathe)), page.Mind([]string{hardJaws(b, s.Chuck)}))
	if kv := Details(b, s, false); len(kv.Items) > 0 {
		out = append(out, kv)
	}
	return out
}

// Ends says which way the near end of the sleeve looks, in a job of both faces.
func Ends(b head.Head, x plan.Bore) []page.KeyValue {
	if ends := b.EndsMean(x.Bore.Face); ends != "" {
		return []page.KeyValue{page.KV("Near end", ends)}
	}
	return nil
}

// hardJaws is what three jaws do to the ring, in short; the annex has what helps instead.
func hardJaws(b head.Head, c fit.ChuckResult) string {
	return "Not in three hard jaws: " + b.U.Say(qty.Force(c.Grip)) + " each leave it " + b.U.Say(qty.KindFine.Of(c.Lobes)) + " out of round, " + b.U.Say(qty.Force(c.GripMost)) +
		" is the most. Soft jaws bored to its outside, or clamped endwise."
}

// Details are chamfers, lead-in, grooves and holes: those made where the sleeve goes in, or those
// of the lathe and its bench.
func Details(b head.Head, s *sleeve.Sleeve, atHome bool) *page.KeyValues {
	kv := &page.KeyValues{}
	for _, d := range s.Details {
		there := d.What.Kind == sleeve.MouthOfHousing || d.What.Kind == sleeve.ReachOfSeat || d.How.Kind == sleeve.HolesAtHome
		if there == atHome {
			kv.Items = append(kv.Items, page.KV(b.Words.Say(d.What), b.Words.Say(d.How)))
		}
	}
	return kv
}

// Chucking is what the chuck does to the ring, and what helps.
func Chucking(b head.Head, x plan.Bore) []page.Block {
	c := x.Sleeve.Chuck
	first := fmt.Sprintf("Three hard jaws at %s each take this ring (outside Ø%s, inside Ø%s) %s out of round, radial; bored round and let go, it keeps that the other way up. %s a jaw is the most for %s (a quarter of the roundness asked for).",
		b.U.Say(qty.Force(c.Grip)), b.U.Bare(qty.DiameterMM(c.Outside)), b.U.Bare(qty.DiameterMM(c.Inside)), b.U.Say(fine(c.Lobes)), b.U.Say(qty.Force(c.GripMost)), b.U.Say(fine(c.Allowed)))
	if c.Thick {
		first += " The wall is thick for the ring formula: the true figure is somewhat larger."
	}
	items := []string{first}
	for i, s := range b.Words.Each(c.Instead) {
		if i == 0 {
			s = "Instead: " + s
		}
		items = append(items, s)
	}
	return []page.Block{page.Head("In the chuck"), page.Mind(items)}
}

// fine is a length of so many mm, to one decimal more than usual.
func fine(mm float64) qty.Figure { return qty.KindFine.Of(mm) }

// Raised is what holes and grooves do to the stresses of a pressed ring; nothing where
// there are none.
func Raised(b head.Head, s *sleeve.Sleeve) []page.Block {
	if len(s.Raised) == 0 {
		return nil
	}
	t := &page.Table{Caption: "Where a hole or a groove raises them, in " + b.U.Name(qty.KindStress) + ":",
		Columns: []page.Column{{Head: []string{"what"}}, {Head: []string{"where"}}, {Head: []string{"hoop,", "plain"}, Align: page.Decimal}, {Head: []string{"", "times"}, Align: page.Decimal},
			{Head: []string{"at its", "edge"}, Align: page.Decimal}, {Head: []string{"", "judged"}, Align: page.Decimal}, {Head: []string{"", "allowed"}, Align: page.Decimal}}}
	mpa := func(v float64) string { return b.U.Bare(qty.KindStress.Of(v)) }
	for _, r := range s.Raised {
		judged := mpa(r.Judged)
		if !r.OK {
			judged += " TOO HIGH"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{b.Words.Say(r.What), r.Where.String(), mpa(r.Plain), b.U.Bare(qty.KindFactor.Of(r.Times)), mpa(r.Peak), judged, mpa(r.Allowed)}})
	}
	return []page.Block{t, &page.Paragraph{Text: "Times: Kirsch at a hole, Inglis at a groove along the ring or a pin's hole, a ring with less section at a groove round it. Judged: as the metal feels it. Grey iron feels a fifth of a notch; a ductile ring yields a little at the edge and bears by the section that is left."}}
}
