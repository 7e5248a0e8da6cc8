package annex

import (
	"fmt"
	"slices"

	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/card"
	"borewright/sheets/page"
)

// hone says in a line why the edge is honed before a pass.
func (b *Annex) hone(n int, h *schedule.Hone) string {
	why := h.Why
	if why.Kind == schedule.HoneLimit { // the figures stand below the table
		why = fact.New(schedule.HoneBreaks, why.Args...)
	}
	return fmt.Sprintf("HONE the edge before pass %d: %s", n, b.Words.Say(why))
}

// limit says what bound a pass, alike for passes that are as deep as they may be.
func (b *Annex) limit(by fact.Fact) string {
	if deeper, is := by.Nth(1).(fact.Fact); is && by.Kind == schedule.IfDeeper && deeper.Kind == schedule.LimitDepth {
		by = fact.New(schedule.ByDepth, deeper.Nth(2), deeper.Nth(3))
	}
	return b.Words.Say(by)
}

// PassTable is what the operator cuts from. With stops, hold points stand
// between the rows, where they come.
func (b *Annex) PassTable(v plan.Visit, stops bool) *page.Table {
	dial, set := b.SetColumn()
	t := &page.Table{Columns: []page.Column{
		{Head: []string{"no"}, Align: page.Decimal}, {Head: []string{"pass"}},
		{Head: []string{"set", "cutter"}, Align: page.Decimal, Key: true}, {Head: dial, Align: page.Decimal},
		{Head: []string{"gauge", "low"}, Align: page.Decimal, Key: true}, {Head: []string{"gauge", "high"}, Align: page.Decimal, Key: true},
		{Head: []string{"rev/", "min"}, Align: page.Decimal}, {Head: []string{"feed", "a rev"}, Align: page.Decimal},
		{Head: []string{"depth", "of cut"}, Align: page.Decimal}, {Head: []string{"", "min"}, Align: page.Decimal}, {Head: []string{"see"}},
	}}
	marks, o := map[string]string{}, b.U.Other()
	for _, p := range v.Passes {
		if p.Hone != nil && stops {
			t.Rows = append(t.Rows, page.Row{Stop: true, Across: b.hone(p.N, p.Hone)})
		}
		turn := ""
		if set != nil {
			turn = set(p)
		}
		mark := ""
		if limit := b.limit(p.LimitedBy); limit != "" {
			var seen bool
			if mark, seen = marks[limit]; !seen {
				mark = Letters(len(marks)) + ")"
				marks[limit] = mark
				t.Notes = append(t.Notes, page.Note{Mark: mark, Text: "limited by " + limit})
			}
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(p.N), p.Kind.String(), b.U.Bare(p.Setting), turn, b.U.Bare(p.Low), b.U.Bare(p.High),
			b.U.Bare(p.Speed), b.U.Format(p.Feed), b.U.Format(p.Depth), qty.KindMinutes.Bare(p.Minutes), mark},
			Other: []string{"", "", o.Bare(p.Setting), "", o.Bare(p.Low), o.Bare(p.High), "", o.Format(p.Feed), o.Format(p.Depth), "", ""}})
		if p.Hold != nil && stops {
			t.Rows = append(t.Rows, page.Row{Stop: true, Across: hold(v, p.N)})
		}
	}
	if set == nil {
		const at = 3 // the column that there is none of
		t.Columns = slices.Delete(t.Columns, at, at+1)
		for i, row := range t.Rows {
			if len(row.Cells) > at {
				t.Rows[i].Cells, t.Rows[i].Other = slices.Delete(row.Cells, at, at+1), slices.Delete(row.Other, at, at+1)
			}
		}
	}
	return t
}

// hold says where the work stops to measure.
func hold(v plan.Visit, pass int) string {
	if n := len(v.Together); n > 0 {
		return fmt.Sprintf("HOLD after pass %d in %s: stop and measure all", pass, v.Together[n-1])
	}
	return fmt.Sprintf("HOLD after pass %d: stop, measure, then go on", pass)
}

// SizesTable is what differs of the passes of a bore that is cut at the setting of another.
func (b *Annex) SizesTable(v plan.Visit) *page.Table {
	t := &page.Table{Columns: []page.Column{
		{Head: []string{"no"}, Align: page.Decimal}, {Head: []string{"pass"}},
		{Head: []string{"gauge", "low"}, Align: page.Decimal, Key: true}, {Head: []string{"gauge", "high"}, Align: page.Decimal, Key: true},
		{Head: []string{"depth", "of cut"}, Align: page.Decimal}, {Head: []string{"", "min"}, Align: page.Decimal},
	}}
	o := b.U.Other()
	for _, p := range v.Passes {
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(p.N), p.Kind.String(), b.U.Bare(p.Low), b.U.Bare(p.High), b.U.Format(p.Depth), qty.KindMinutes.Bare(p.Minutes)},
			Other: []string{"", "", o.Bare(p.Low), o.Bare(p.High), o.Format(p.Depth), ""}})
	}
	return t
}

// Letters counts a, b … z, aa, ab …
func Letters(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / 26 {
		s = string(rune('a'+(n-1)%26)) + s
	}
	return s
}

// namePlate finds the levers: where the speeds and feeds of the passes stand
// in the machine's ladders. Both systems are printed, because a plate may be
// in the other one.
func (b *Annex) namePlate(v plan.Visit) *page.KeyValues {
	kv := &page.KeyValues{}
	seen := map[string]bool{}
	add := func(k, s string) {
		if !seen[k+s] {
			seen[k+s] = true
			kv.Items = append(kv.Items, page.KV(k, s))
		}
	}
	for _, p := range v.Passes {
		if len(b.Machine.Speeds.Steps) > 0 {
			s := card.Step(b.Machine.Speeds, float64(p.Speed))
			add("Speed lever", b.U.Say(p.Speed)+", "+s)
		}
	}
	for _, p := range v.Passes {
		if len(b.Machine.Feeds.Steps) > 0 {
			s := card.Step(b.Machine.Feeds, p.Feed.MM())
			add("Feed lever", b.U.Say(p.Feed)+"/rev ("+b.U.Other().Say(p.Feed)+"/rev), "+s)
		}
	}
	for i := len(kv.Items) - 1; i > 0; i-- {
		if kv.Items[i].Key == kv.Items[i-1].Key {
			kv.Items[i].Key = ""
		}
	}
	kv.Items = append(kv.Items, b.Settings(v)...)
	add("Gauge", "what the bore gauge should say after the pass; outside of it, stop and ask")
	add("Depth of cut", "on radius")
	return kv
}

// programmersTable is what stands behind the passes.
func (b *Annex) programmersTable(v plan.Visit) *page.Table {
	u := b.U
	num := func(head ...string) page.Column { return page.Column{Head: head, Align: page.Decimal} }
	t := &page.Table{Small: true, Caption: "Behind the passes, for the programmer and the reviewer (spring on diameter, out-of-round on radius):",
		Columns: []page.Column{num("no"), num("speed", u.Name(qty.KindCuttingSpeed)), num("cut", u.Name(qty.KindForce)), num("feed", u.Name(qty.KindForce)),
			num("radial", u.Name(qty.KindForce)), num("spring", u.String()), num("power", u.Name(qty.KindPower)), num("torque", u.Name(qty.KindTorque)), num("bar", u.Name(qty.KindStress)),
			num("Ra", u.Name(qty.KindRoughness)), num("out-of-", "round")}}
	for _, p := range v.Passes {
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(p.N), u.Bare(p.Cutting), u.Bare(p.CuttingForce), u.Bare(p.FeedForce),
			u.Bare(p.RadialForce), u.Bare(qty.Fine(p.Spring)), u.Bare(p.Power), u.Bare(p.Torque), u.Bare(qty.KindStress.Of(p.Stress)), u.Bare(qty.Roughness(p.Ra)), u.Bare(qty.Fine(p.OutOfRound))}})
	}
	return t
}
