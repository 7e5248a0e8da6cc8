package annex

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/candidate"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// toolsShown is how many candidates stand in the table: those that follow are told by number.
const toolsShown = 12

// Tools are what bar and cutter were chosen from, the best first, and what would not do with the
// reason; nothing where the job names both.
func (b *Annex) Tools() []page.Block { return append(b.onePair(), b.byBore()...) }

// onePair are the pairs that would cut all bores. What would not do is told by bore where they are
// chosen so.
func (b *Annex) onePair() []page.Block {
	all := b.forAll()
	if len(all) == 0 {
		return nil
	}
	bars, cutters := named(all, func(c candidate.Candidate) string { return c.Bar }), named(all, func(c candidate.Candidate) string { return c.Cutter })
	t := &page.Table{Caption: "Bar and cutter, chosen from the shop's lists, the best first:",
		Columns: []page.Column{{Head: []string{"bar"}}, {Head: []string{"cutter"}}, {Head: []string{"nose", "to tip"}, Align: page.Decimal},
			{Head: []string{"gives", b.U.Name(qty.KindCompliance)}, Align: page.Decimal}, {Head: []string{"min"}, Align: page.Decimal}, {Head: []string{"in 100", "land"}, Align: page.Decimal},
			{Head: []string{"quiet", "from 1"}, Align: page.Decimal}, {Head: []string{"weighed", "min"}, Align: page.Decimal}}}
	left, about := 0, false
	var not []candidate.Candidate
	for _, c := range all {
		switch {
		case !c.Why.None() || c.Planned && !c.Feasible:
			not = append(not, c)
		case len(t.Rows) >= toolsShown:
			left++
		default:
			row := []string{c.Bar, c.Cutter, b.U.Format(c.Stickout), b.U.Bare(qty.KindCompliance.Of(c.Give)), qty.KindWholeMinutes.Bare(c.Minutes), "", "", ""}
			if c.Planned {
				row[5], row[6], row[7] = qty.KindChance.Bare(c.Chance), qty.KindMargin.Bare(c.Margin[0]), qty.KindWholeMinutes.Bare(c.Reckoned())
			} else {
				row[4], row[7], about = "", "~ "+row[4], true
			}
			t.Rows = append(t.Rows, page.Row{Cells: row})
		}
	}
	var out []page.Block
	if len(t.Rows) > 0 {
		says := "Weighed is the time, with 12 min for each halving of a pass's likely margin below the edge of chatter (quiet: the least) and 240 min by the chance of a miss: passes are chosen by the same. Gives: the bar alone, clamped at the nose."
		if all[0].Feasible && all[0].Margin[0] >= 1 && slices.ContainsFunc(all, func(c candidate.Candidate) bool { return c.Feasible && c.Reckoned() < all[0].Reckoned() }) {
			says += " The first is quiet for certain, for a twentieth more at the most than one that may sing."
		}
		if about {
			says += " ~ by a sketch, which leaves out what only a plan shows, and so weighs less: the best were planned in full."
		}
		if left > 0 {
			says += fmt.Sprintf(" %d more would do and sketch worse.", left)
		}
		out = append(out, t, &page.Paragraph{Text: says})
	}
	switch byBore := b.Job.Choose == candidate.ByBore; {
	case byBore && len(t.Rows) == 0:
		out = append(out, &page.Paragraph{Text: "No one bar with one cutter cuts all of it."})
	case len(not) > 0 && !byBore:
		kv := &page.KeyValues{}
		for _, g := range b.refused(not, bars, cutters) {
			kv.Items = append(kv.Items, page.KV(g[0], g[1]))
		}
		out = append(out, &page.Paragraph{Text: "Not these:"}, kv)
	}
	return out
}

// forAll are the candidates that would cut all bores.
func (b *Annex) forAll() (all []candidate.Candidate) {
	for _, c := range b.Job.Candidates {
		if c.Station == "" {
			all = append(all, c)
		}
	}
	return all
}

// byBore are what bar and cutter of each bore, and of its roughing, were chosen from, where the job
// asks for that: that chosen first.
func (b *Annex) byBore() []page.Block {
	t := &page.Table{Caption: "Bar and cutter by bore, that chosen first:",
		Columns: []page.Column{{Head: []string{"bore"}}, {Head: []string{"part"}}, {Head: []string{"bar"}}, {Head: []string{"cutter"}},
			{Head: []string{"gives", b.U.Name(qty.KindCompliance)}, Align: page.Decimal}, {Head: []string{"weighed", "min"}, Align: page.Decimal}, {Head: []string{""}}}}
	type refusal struct {
		candidate.Candidate
		bars []string
	}
	var not []refusal
	apart, last := map[string]bool{}, [2]string{}
	for _, c := range b.Job.Candidates {
		apart[c.Station] = apart[c.Station] || c.Rough
	}
	for _, c := range b.Job.Candidates {
		part := "all"
		switch {
		case c.Station == "":
			continue
		case c.Rough:
			part = "rough"
		case apart[c.Station]:
			part = "finish"
		}
		if !c.Why.None() {
			if i := slices.IndexFunc(not, func(o refusal) bool {
				return o.Station == c.Station && o.Cutter == c.Cutter && fact.Alike(o.Why, c.Why)
			}); i < 0 {
				not = append(not, refusal{c, []string{c.Bar}})
			} else {
				if !slices.Contains(not[i].bars, c.Bar) {
					not[i].bars = append(not[i].bars, c.Bar)
				}
				if !c.Rough { // told by the size that is asked for
					not[i].Why = c.Why
				}
			}
			continue
		}
		row := []string{c.Station, part, c.Bar, c.Cutter, b.U.Bare(qty.KindCompliance.Of(c.Give)), qty.KindWholeMinutes.Bare(c.Reckoned()), ""}
		if at := [2]string{c.Station, part}; at == last {
			row[0], row[1] = "", ""
		} else {
			last = at
		}
		if !c.Planned {
			row[5] = "~ " + row[5]
		}
		if c.Chosen {
			row[6] = "chosen"
		}
		t.Rows = append(t.Rows, page.Row{Cells: row})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	out := []page.Block{t, &page.Paragraph{Text: "Weighed as for one pair, for this part alone; ~ by a sketch, less than by a plan. To change bar or cutter costs 15 min."}}
	if len(not) > 0 {
		kv := &page.KeyValues{}
		for _, c := range not {
			title := c.Station + ": " + strings.Join(c.bars, "; ")
			if c.Cutter != "" {
				title += " with " + c.Cutter
			}
			kv.Items = append(kv.Items, page.KV(title, b.Words.Say(c.Why)))
		}
		out = append(out, &page.Paragraph{Text: "Not these:"}, kv)
	}
	return out
}

// named counts how often each name stands among the candidates.
func named(all []candidate.Candidate, of func(candidate.Candidate) string) map[string]int {
	n := map[string]int{}
	for _, c := range all {
		n[of(c)]++
	}
	return n
}

// refused gathers candidates by bar and reason, or by cutter and reason where that says more at
// once: a title and the reason each.
func (b *Annex) refused(not []candidate.Candidate, bars, cutters map[string]int) (out [][2]string) {
	why := func(c candidate.Candidate) string { return b.Words.Say(c.Why) }
	told := make([]bool, len(not))
	for i, c := range not {
		if told[i] {
			continue
		}
		with := func(same func(o candidate.Candidate) bool) (at []int) {
			for k, o := range not {
				if !told[k] && same(o) && why(o) == why(c) {
					at = append(at, k)
				}
			}
			return at
		}
		ofCutter := with(func(o candidate.Candidate) bool { return o.Cutter == c.Cutter })
		ofBar := with(func(o candidate.Candidate) bool { return o.Bar == c.Bar })
		title, at := c.Bar, ofBar
		switch {
		case len(ofBar) == bars[c.Bar] && c.Bar != "":
		case len(ofCutter) > 1 && len(ofCutter) > len(ofBar):
			title, at = c.Cutter, ofCutter
			if len(ofCutter) < cutters[c.Cutter] {
				title += " in " + listed(not, at, func(o candidate.Candidate) string { return o.Bar })
			}
		default:
			title += " with " + listed(not, at, func(o candidate.Candidate) string { return o.Cutter })
		}
		for _, k := range at {
			told[k] = true
		}
		out = append(out, [2]string{title, why(c)})
	}
	return out
}

func listed(all []candidate.Candidate, at []int, of func(candidate.Candidate) string) string {
	var names []string
	for _, k := range at {
		if n := of(all[k]); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, "; ")
}

// Stickouts are the ways for each bar to stand out, that chosen first, and what each costs; nothing
// where all stand as they are. What stops them is told once, and not where the paper tells what stops
// the plan.
func (b *Annex) Stickouts(stopsTold bool) (out []page.Block) {
	all := b.Job.Stickouts
	if len(all) == 0 {
		return nil
	}
	quill := slices.ContainsFunc(all, func(s candidate.Stickout) bool { return s.Quill > 0 })
	does := slices.ContainsFunc(all, func(s candidate.Stickout) bool { return s.Feasible })
	var reasons []fact.Fact
	var told []string
	if stopsTold {
		for _, r := range b.Plan.Reasons {
			reasons, told = append(reasons, r.What), append(told, b.Words.Say(r.What))
		}
	}
	var stops []page.Block
	for len(all) > 0 {
		n := slices.IndexFunc(all, func(s candidate.Stickout) bool { return s.Bar != all[0].Bar })
		if n < 0 {
			n = len(all)
		}
		out = append(out, b.stickout(all[:n], quill, does))
		if why := b.Words.Say(all[0].Why); why != "" && !tells(reasons, all[0].Why) && !slices.ContainsFunc(told, func(s string) bool { return strings.Contains(s, why) }) {
			told = append(told, why)
			stops = append(stops, &page.Paragraph{Text: "Not feasible: " + why + "."})
		}
		all = all[n:]
	}
	if !does {
		return append(append(out, &page.Paragraph{Text: "Gives: at the cutter, spindle and bar."}), stops...)
	}
	says := "The shortest that reaches with the room that is wanted along the bar"
	if quill {
		says += ", quill home or drawn out as the bar alone gives less"
	}
	out = append(out, &page.Paragraph{Text: says + ". Gives: at the cutter, spindle and bar. Spring: on diameter, by the radial force of the finish as it is chosen."})
	return append(out, stops...)
}

// tells is whether one of some facts, or one within it, is a fact but for its figures: a sketch knows them less
// well than the plan.
func tells(all []fact.Fact, f fact.Fact) bool {
	return slices.ContainsFunc(all, func(x fact.Fact) bool {
		return fact.Alike(x, f) || slices.ContainsFunc(x.Args, func(a fact.Arg) bool {
			in := fact.AsList(a)
			if own, is := a.(fact.Fact); is {
				in = append(in, own)
			}
			return tells(in, f)
		})
	})
}

// stickout is the table of one bar. does: some stickout of some bar does.
func (b *Annex) stickout(all []candidate.Stickout, quill, does bool) *page.Table {
	t := &page.Table{Caption: "Stickout"}
	switch name := all[0].Bar; {
	case name != "":
		t.Caption += " of " + name
	case b.Job.Stickouts[len(b.Job.Stickouts)-1].Bar != "":
		t.Caption += " of " + b.Job.Bar.Called()
	}
	if does {
		t.Caption += ", that chosen first:"
	} else {
		t.Caption += ", none of which does:"
	}
	if quill {
		t.Columns = append(t.Columns, page.Column{Head: []string{"quill", "out"}, Align: page.Decimal})
	}
	t.Columns = append(t.Columns, page.Column{Head: []string{"nose", "to end"}, Align: page.Decimal}, page.Column{Head: []string{"nose", "to tip"}, Align: page.Decimal},
		page.Column{Head: []string{"gives", b.U.Name(qty.KindCompliance)}, Align: page.Decimal}, page.Column{Head: []string{"spring of", "finish"}, Align: page.Decimal},
		page.Column{Head: []string{"min"}, Align: page.Decimal}, page.Column{Head: []string{""}})
	if !does { // there is no finish, no time and no remark of any
		t.Columns = t.Columns[:len(t.Columns)-3]
	}
	for i, s := range all {
		var row []string
		if quill {
			row = append(row, b.U.Format(s.Quill))
		}
		row = append(row, b.U.Format(s.Out), b.U.Format(s.ToTip), "", "", "", "")
		last := row[len(row)-4:]
		if s.Give > 0 {
			last[0] = b.U.Bare(qty.KindCompliance.Of(s.Give))
		}
		if s.Spring > 0 {
			last[1] = b.U.Format(s.Spring)
		}
		switch {
		case s.Feasible:
			last[2] = qty.KindWholeMinutes.Bare(s.Minutes)
		case !s.Why.None():
			last[3] = "not feasible"
		}
		if i == 0 && s.Feasible {
			last[3] = "chosen"
		}
		row = row[:len(t.Columns)]
		t.Rows = append(t.Rows, page.Row{Cells: row})
	}
	return t
}

// AddTools adds them as a section.
func (b *Annex) AddTools() {
	if blocks := b.Stickouts(true); blocks != nil {
		b.Sheet.Add("Why the bar stands out so far", blocks...)
	}
	if blocks := b.Tools(); blocks != nil {
		b.Sheet.Add("Why this bar and this cutter", blocks...)
	}
}
