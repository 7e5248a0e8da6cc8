package sheets

import (
	"fmt"
	"strings"

	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/sleeve"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// holds adds the forms of the stops, one table a visit, and what is done between visits.
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
		if k >= 0 {
			v := x.Visits[k]
			title := "Hold points: " + x.Station.Name + head.Called(x, k)
			if v.Part != schedule.Whole {
				title += ", " + v.Part.String()
			}
			add(title, b.visitHolds(i, k))
			if after := b.after(x, v); len(after) > 0 {
				s := &b.Sheet.Sections[len(b.Sheet.Sections)-1]
				s.Blocks = append(s.Blocks, page.Ticks(after))
			}
		}
		if x.Home != nil && k == len(x.Visits)-1 {
			add("Hold points: "+x.Station.Name+", the sleeve when it is in", b.form([]stop{{Pass: *x.Home}}))
		}
	}
}

// visitHolds are the stops of one visit: what comes before it, the form, what the readings say
// to set, and what else is to be looked at.
func (b *builder) visitHolds(i, k int) []page.Block {
	x := b.Plan.Bores[i]
	v := x.Visits[k]
	one := *b
	one.Head = b.For(i, k)
	b = &one
	var out []page.Block
	if len(v.Before) > 0 {
		out = append(out, page.Ticks(b.before(v)))
	}
	var at []stop
	for n, p := range v.Passes {
		if p.Hold != nil {
			at = append(at, stop{p, b.settings(i, k, n), len(v.Together) > 0 && v.Together[len(v.Together)-1] != x.Station.Name})
		}
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

// stop is a hold point with the table of what to set after it, where there is one.
type stop struct {
	schedule.Pass
	set  *page.Table
	gone bool // on to the next bore of the setting, which says what is done then
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
	for _, p := range at {
		title := fmt.Sprintf("HOLD after %d (%s)", p.N, p.Kind)
		boxes := []string{"casting " + deg, "gauge " + deg, "by"}
		switch {
		case p.Kind == schedule.Fitted:
			title = fmt.Sprintf("HOLD, %d (%s, nothing is cut)", p.N, p.Kind)
		case p.N == at[len(at)-1].N && p.Kind != schedule.Rough:
			boxes = append(boxes, "Ra "+b.U.Name(qty.KindRoughness))
		}
		t.Rows = append(t.Rows, page.Row{Stop: true, Across: title, Boxes: boxes})
		for k, f := range schedule.Form(&p.Pass) {
			row := page.Row{Cells: []string{f.Name, "", "", "", "", "", ""}}
			if k == 0 {
				row.Cells[1], row.Cells[2] = b.U.Bare(p.Low), b.U.Bare(p.High)
			}
			t.Rows = append(t.Rows, row)
		}
		say := b.look(p.Pass)
		if p.set != nil {
			sets = append(sets, p.set)
		} else if next := b.then(p.Hold.Then); next != "" && !p.gone {
			say = append(say, next)
		}
		if len(say) > 0 {
			then.Items = append(then.Items, page.KV(fmt.Sprintf("After %d", p.N), strings.Join(say, " ")))
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
