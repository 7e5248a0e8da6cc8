package sheets

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/sleeve"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// holds adds the forms of the stops, one table a setting, and what is done between visits.
func (b *builder) holds() {
	first := true
	add := func(title string, blocks []page.Block) {
		if len(blocks) == 0 {
			return
		}
		b.Sheet.Add(title, blocks...)
		b.Sheet.Sections[len(b.Sheet.Sections)-1].OwnPage = first
		first = false
	}
	for _, t := range b.turns() {
		i, k := t.bore, t.visit
		x := b.Plan.Bores[i]
		if k >= 0 && x.Visits[k].Leads(x.Station.Name) {
			v := x.Visits[k]
			title := "Hold points: " + x.Station.Name + head.Called(x, k)
			if len(v.Together) > 0 {
				title = "Hold points: " + head.List(v.Together)
			}
			if v.Part != schedule.Whole {
				title += ", " + v.Part.String()
			}
			add(title+b.For(i, k).From(), b.visitHolds(b.Plan.With(i, k)))
			if after := b.after(x, v); len(after) > 0 {
				s := &b.Sheet.Sections[len(b.Sheet.Sections)-1]
				s.Blocks = append(s.Blocks, page.Ticks(after))
			}
		}
		if x.Home != nil && k == len(x.Visits)-1 {
			add("Hold points: "+x.Station.Name+", the sleeve when it is in", b.form([]stop{{at: []gauged{{Pass: *x.Home}}}}))
		}
	}
}

// visitHolds are the stops of the visits of one setting, by the indices of bore and visit: what
// comes before them, the form, what the readings say to set, and what else is to be looked at.
func (b *builder) visitHolds(visits [][2]int) []page.Block {
	one := *b
	one.Head = b.For(visits[0][0], visits[0][1])
	b = &one
	var before []string
	var at []stop
	for _, w := range visits {
		x := b.Plan.Bores[w[0]]
		v := x.Visits[w[1]]
		for _, s := range b.before(v) {
			if !slices.Contains(before, s) {
				before = append(before, s)
			}
		}
		for n, p := range v.Passes {
			if p.Hold == nil {
				continue
			}
			here := slices.IndexFunc(at, func(s stop) bool { return s.at[0].N == p.N })
			if here < 0 {
				here = len(at)
				at = append(at, stop{set: b.settings(w[0], w[1], n)})
			}
			at[here].at = append(at[here].at, gauged{p, x.Station.Name})
		}
	}
	var out []page.Block
	if len(before) > 0 {
		out = append(out, page.Ticks(before))
	}
	if len(at) == 0 {
		return out
	}
	return append(out, b.form(at)...)
}

// before is what comes before a visit, in short.
func (b *builder) before(v plan.Visit) (out []string) {
	for _, f := range v.Before {
		switch f.Kind {
		case sleeve.SleeveSigned:
			out = append(out, "Sleeve in, its work ticked off.")
		case sleeve.MeasureInside:
			least, _ := fact.AsFigure(f.Nth(1))
			most, _ := fact.AsFigure(f.Nth(2))
			say := "Inside at both ends, before the cutter is set: Ø" + b.U.Bare(least) + " to " + b.U.Say(most) + "."
			if n := len(out); n > 0 { // one line with what comes before it
				out[n-1] += " " + say
			} else {
				out = append(out, say)
			}
		case sleeve.LineUpAfresh:
			out = append(out, "Line up again by the swept stations, not by the sleeve.")
		default:
			out = append(out, b.Words.Sentence(f))
		}
	}
	return out
}

// stop is a hold point: the bores that are gauged at it, and the table of what to set then, where
// there is one.
type stop struct {
	at  []gauged
	set *page.Table
}

// gauged is a bore at a stop after one of its passes.
type gauged struct {
	schedule.Pass
	bore string
}

// form is a table with room for what is measured at each of these stops, and below it what to
// look for and what to do then.
func (b *builder) form(at []stop) []page.Block {
	t := &page.Table{Columns: []page.Column{{Head: []string{"o'clock"}}, {Head: []string{"gauge low"}, Align: page.Decimal}, {Head: []string{"high"}, Align: page.Decimal}}}
	for _, c := range schedule.FormClocks() {
		t.Columns = append(t.Columns, page.Column{Head: []string{strings.ReplaceAll(c, " ", "")}, Blank: true})
	}
	deg := b.U.Name(qty.KindTemperature)
	then := &page.KeyValues{}
	var sets []page.Block
	for n, s := range at {
		last := s.at[len(s.at)-1] // what is done then is said by the last that was cut
		title := fmt.Sprintf("HOLD after %d (%s)", last.N, last.Kind)
		boxes := []string{"casting " + deg, "gauge " + deg, "by"}
		switch {
		case last.Kind == schedule.Fitted:
			title = fmt.Sprintf("HOLD, %d (%s, nothing is cut)", last.N, last.Kind)
		case n == len(at)-1 && last.Kind != schedule.Rough && len(s.at) == 1:
			boxes = append(boxes, "Ra "+b.U.Name(qty.KindRoughness))
		}
		t.Rows = append(t.Rows, page.Row{Stop: true, Across: title, Boxes: boxes})
		var say []string
		for _, p := range s.at {
			if len(s.at) > 1 {
				row := page.Row{Across: p.bore}
				if n == len(at)-1 && p.Kind != schedule.Rough {
					row.Boxes = []string{"Ra " + b.U.Name(qty.KindRoughness)}
				}
				t.Rows = append(t.Rows, row)
			}
			for k, f := range schedule.Form(&p.Pass) {
				row := page.Row{Cells: []string{f.Name, "", "", "", "", "", ""}}
				if k == 0 {
					row.Cells[1], row.Cells[2] = b.U.Bare(p.Low), b.U.Bare(p.High)
				}
				t.Rows = append(t.Rows, row)
			}
			for _, l := range b.look(p.Pass) {
				if !slices.Contains(say, l) {
					say = append(say, l)
				}
			}
		}
		if s.set != nil {
			sets = append(sets, s.set)
		} else if next := b.then(last.Hold.Then); next != "" {
			say = append(say, next)
		}
		if len(say) > 0 {
			then.Items = append(then.Items, page.KV(fmt.Sprintf("After %d", last.N), strings.Join(say, " ")))
		}
	}
	return append(append([]page.Block{t}, sets...), then)
}

// then is what to do after a stop, in short.
func (b *builder) then(f fact.Fact) string {
	switch f.Kind {
	case schedule.BandMustBeTrue:
		return "If the band is not true to the bores, move the work and cut it anew."
	case schedule.LeaveSetUp:
		return "Leave the set-up until the bore is accepted."
	case schedule.ShiftByShare:
		f = fact.New(schedule.Shift, f.Nth(2), f.Nth(3), f.Nth(4))
	}
	return b.Words.Sentence(f)
}

// look is what is looked at besides the sizes of the form.
func (b *builder) look(p schedule.Pass) (out []string) {
	for _, m := range p.Hold.Measure {
		switch m.Kind {
		case schedule.GaugeEnds, sleeve.HomeSize: // which the form has
		case schedule.WhereMarked:
			out = append(out, "Note where it marked.")
		case schedule.GaugeWhereCut:
			if bare, ok := fact.AsFigure(m.Nth(3)); ok {
				out = append(out, "Bare: up to "+b.U.Say(bare)+".")
			}
		case schedule.AgainstLimits: // the rest of them stands on the card
			if round, ok := fact.AsFigure(m.Nth(4)); ok {
				out = append(out, "Round within "+b.U.Say(round)+", radial.")
			}
		default:
			out = append(out, b.Words.Sentence(m))
		}
	}
	return out
}

func (b *builder) after(x plan.Bore, v plan.Visit) []string {
	after := b.Words.Sentences(v.After)
	if len(after) > 0 && x.Home != nil {
		after = append(after, fmt.Sprintf("Enter what it measures as pass %d (%s): the record of the bore is not whole without it.", x.Home.N, x.Home.Kind))
	}
	return after
}
