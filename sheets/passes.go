package sheets

import (
	"fmt"
	"io"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/annex"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// WritePasses prints what a terminal shows of a plan, at most 80 columns: what
// stops it, the pass table of every visit, and the cautions.
func WritePasses(w io.Writer, p *plan.Plan) error {
	b := newBuilder(p)
	t := b.terminal()
	if !b.Plan.Feasible {
		t.Line("")
		for i, x := range b.stops() {
			if i > 0 {
				t.Line("")
			}
			t.Block(x)
		}
	}
	if b.Plan.Feasible && len(b.Plan.Bores) == 0 && b.Plan.Findings != nil {
		return nil // that all is finished has been said
	}
	if b.Plan.Feasible && len(b.Plan.Order) > 0 {
		t.Line("")
		kv := &page.KeyValues{}
		for i, f := range b.Plan.Order {
			kv.Items = append(kv.Items, page.KV([]string{"Order", ""}[min(i, 1)], b.Words.Sentence(f)))
		}
		t.Block(kv)
	}
	for _, at := range b.turns() {
		x := b.Plan.Bores[at.bore]
		if x.Home != nil && len(x.Visits) == 0 {
			t.Line("")
			t.Hang("", "  ", fmt.Sprintf("%s: make the sleeve to the housing as measured, put it in, and enter what it measures then as pass %d: expected is %s, allowed %s.",
				x.Station.Name, x.Home.N, b.U.SayLimitsOfSize(x.Home.Low, x.Home.High), b.U.SayLimitsOfSize(x.Bore.Finish.Low, x.Bore.Finish.High)))
		}
		if k := at.visit; k >= 0 {
			v := x.Visits[k]
			if rest := v.Rest(); rest != nil && b.Plan.Feasible {
				t.Line("")
				t.Line("=== REST: before anything is finished ===")
				t.Block(page.Ticks(b.Words.Sentences(rest)))
			}
			t.Line("")
			s := x.Station.Name
			s += head.Called(x, k) + head.AtSetting(x, k)
			if !v.Title.None() {
				s += ": " + b.Words.Say(v.Title)
			}
			if !b.Plan.Feasible {
				s = page.NotFeasible + ": " + s
			}
			t.Hang("", "  ", s)
			found := "found"
			switch {
			case v.Part == schedule.Finishing:
				found = "roughed to"
			case v.Behind > 0:
				found = "stands at"
			case v.N > 1:
				found = "inside"
			}
			stands := "Ø" + b.U.Bare(v.Start)
			if most := "Ø" + b.U.Bare(v.StartMost); most != stands {
				stands += " to " + most
			}
			t.Hang("", "  ", fmt.Sprintf("%s %s, to %s %s%s", found, stands, map[bool]string{true: "leave", false: "land"}[v.Part == schedule.Roughing], b.U.SayLimitsOfSize(v.Limits.Low, v.Limits.High), b.FitOf(x, k)))
			one := b.Annex
			one.Head = b.For(at.bore, k)
			if b.Plan.Several() {
				t.Hang("", "  ", "with "+one.ToolsSaid())
			}
			if len(v.Passes) == 0 {
				continue
			}
			t.Line("")
			if v.Leads(x.Station.Name) {
				t.Block(one.PassTable(v, true))
			} else {
				t.Block(one.SizesTable(v))
			}
		}
	}
	if b.Plan.Feasible && len(b.Plan.Bores) > 0 {
		t.Line("")
		t.Hang("", "  ", "In all "+qty.KindTime.Say(b.Plan.Minutes)+", stops to measure included.")
		t.Block(b.Outlook())
	}
	for _, x := range b.Stickouts(true) {
		t.Line("")
		t.Block(x)
	}
	if blocks := b.Tools(); blocks != nil {
		t.Line("")
		for i, x := range blocks {
			if i > 0 && apart(blocks[i:]) {
				t.Line("")
			}
			t.Block(x)
		}
	}
	if len(b.Plan.Cautions) > 0 {
		t.Line("")
		t.Line("Mind:")
		t.Block(page.Mind(b.Words.Sentences(b.Plan.Cautions)))
	}
	_, err := t.WriteTo(w)
	return err
}

// WriteBetter prints what would better a plan that stands, at most 80 columns.
func WriteBetter(w io.Writer, p *plan.Plan) error {
	b := newBuilder(p)
	t := &page.Printer{}
	t.Line("")
	found := p.Better()
	if len(found) == 0 {
		t.Hang("", "  ", "Nothing that was tried would better it by more than a little.")
	} else {
		kv := &page.KeyValues{}
		for k, f := range found {
			kv.Items = append(kv.Items, page.KV("  "+annex.Letters(k)+")", b.Words.Say(f.Fact())))
		}
		t.Hang("", "  ", "What would better it, each worked out anew:")
		t.Block(kv)
		for _, b := range toAdd(found) {
			t.Line("")
			t.Block(b)
		}
	}
	_, err := t.WriteTo(w)
	return err
}

// apart is whether a table begins here, or a list under a line of its own.
func apart(blocks []page.Block) bool {
	if _, is := blocks[0].(*page.Table); is || len(blocks) < 2 {
		return is
	}
	_, is := blocks[1].(*page.KeyValues)
	return is
}
