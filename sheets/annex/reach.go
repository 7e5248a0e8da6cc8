package annex

import (
	"fmt"

	"borewright/process/clearance"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/page"
)

// AddReach adds whether the bar gets there, with the tightest place of each visit.
func (b *Annex) AddReach() {
	kv := &page.KeyValues{}
	var more []page.Block
	for _, x := range b.Plan.Bores {
		for _, v := range x.Visits {
			r := v.Reach
			if r == nil {
				continue
			}
			name := x.Station.Name
			if x.Works() > 1 {
				name += fmt.Sprintf(", visit %d", v.N)
			}
			if v.Part != schedule.Whole {
				name += ", " + v.Part.String()
			}
			kv.Items = append(kv.Items, page.KV(name, b.Words.Say(r.Verdict.Fact())+"; least room: "+b.gapWords(r.Least)))
			if w := b.entryWords(r); w != "" {
				kv.Items = append(kv.Items, page.KV("", w))
			}
		}
	}
	if len(kv.Items) == 0 {
		return
	}
	more = append(more, kv, &page.Paragraph{Text: "Worked out with the cutter set as each pass sets it, the bar lined up as above and shifted as it retracts, less what is not known of the line. Run the bar in by hand, spindle stopped, before anything turns."})
	b.Sheet.Add("Reach: does the bar get there", more...)
}

// gapWords says how much room there is where.
func (b *Annex) gapWords(g *clearance.Gap) string {
	if g == nil {
		return "nothing is near"
	}
	part := b.Words.Say(g.Part.Fact())
	if g.Diameter > 0 {
		part += ", Ø" + b.U.Say(qty.Plain(qty.FromMM(g.Diameter))) + ","
	}
	where := "in " + g.Name
	switch {
	case g.Bottom:
		where = "from the bottom of " + g.Name
	case g.Axial:
		where = "in front of the face of " + g.Name
	}
	how := " on radius"
	if g.Axial {
		how = " along the bar"
	}
	if g.Clearance < 0 {
		return part + " would overlap " + b.SayMM(-g.Clearance) + how + " " + where
	}
	return part + " has " + b.SayMM(g.Clearance) + how + " " + where + " (" + b.U.Say(qty.Plain(qty.FromMM(g.Need.Wanted))) + " wanted)"
}

// entryWords says how the cutter gets in where it does not on the axis.
func (b *Annex) entryWords(r *place.Reach) string {
	for _, e := range r.Entries {
		if e.OnAxis {
			continue
		}
		s := fmt.Sprintf("from pass %d on the cutter, set to %s, does not pass %s on the axis; ", e.N, b.U.Say(qty.DiameterMM(e.Setting)), e.Name)
		switch {
		case e.ByProgram:
			return s + "the program takes it in with the bar shifted, spindle stopped"
		case e.Offset && e.Inside:
			return s + "it can go in with the bar shifted, spindle stopped, or be put in inside"
		case e.Offset:
			return s + "it can go in with the bar shifted, spindle stopped"
		case e.Inside:
			return s + "it can be put in inside, if a hand gets there"
		}
		return s + "no way in was found"
	}
	return ""
}

// gapTable is the worst of every part against every station.
func (b *Annex) gapTable(r *place.Reach) *page.Table {
	t := &page.Table{
		Caption: "Every part against every station it meets, in " + b.U.Word() + ":",
		Columns: []page.Column{{Head: []string{"part"}}, {Head: []string{"diameter"}, Align: page.Decimal}, {Head: []string{"station"}}, {Head: []string{"room"}, Align: page.Decimal}, {Head: []string{"wanted"}, Align: page.Decimal},
			{Head: []string{"tip at"}, Align: page.Decimal}, {Head: []string{"pass"}, Align: page.Decimal}, {Head: []string{"answer"}}},
		Notes: []page.Note{{Mark: "|", Text: "along the bar; the others on radius"}},
	}
	axial := false
	for i, g := range r.Gaps {
		if farAhead(r.Gaps, i) {
			continue
		}
		station := g.Name
		if g.Axial {
			station, axial = station+" |", true
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{b.Words.Say(g.Part.Fact()), b.mm(g.Diameter), station, b.mm(g.Clearance), b.mm(g.Need.Wanted), b.mm(g.Tip), fmt.Sprint(g.N), b.Words.Say(g.Verdict.Fact())}})
	}
	if !axial {
		t.Notes = nil
	}
	return t
}

// farAhead is whether a gap along the bar is clear and the same part comes
// nearer to another face: it would only fill the paper.
func farAhead(all []clearance.Gap, i int) bool {
	g := all[i]
	for k, o := range all {
		if k != i && g.Axial && g.Verdict == clearance.Free && o.Axial && o.Part == g.Part && (o.Clearance < g.Clearance || o.Clearance == g.Clearance && k < i) {
			return true
		}
	}
	return false
}

// ReachBlocks is one visit in full, for the terminal.
func (b *Annex) ReachBlocks(v plan.Visit) []page.Block {
	r := v.Reach
	if r == nil {
		return []page.Block{&page.Paragraph{Strong: true, Text: "It could not be worked out."}}
	}
	kv := &page.KeyValues{}
	add := func(k, v string) { kv.Items = append(kv.Items, page.KV(k, v)) }
	add("Answer", b.Words.Say(r.Verdict.Fact()))
	tightest := b.gapWords(r.Least)
	if g := r.Least; g != nil {
		tightest += fmt.Sprintf(", %s, pass %d", b.Words.Say(g.Phase.Fact()), g.N)
	}
	add("Tightest", tightest)
	if w := b.entryWords(r); w != "" {
		add("Cutter", w)
	} else {
		add("Cutter", "passes on the axis, set for every pass")
	}
	for _, e := range r.Entries {
		for _, s := range e.Shifts {
			if e.ByProgram {
				break // by one shift for all, and said by the visit
			}
			add("", fmt.Sprintf("pass %d: bar off its axis by %s to %s, away from the tip, while the tip goes from %s to %s", e.N, b.mm(s.Least), b.SayMM(s.Most), b.mm(s.From), b.SayMM(s.To)))
		}
	}
	for _, s := range b.OffAxis(v) {
		add("Off the axis", s)
	}
	if r.QuillOut > 0 {
		add("Quill", "comes out "+b.U.Say(r.QuillOut))
	}
	if r.TravelHas > 0 {
		axis := r.TravelAxis
		for _, t := range b.Machine.Travels {
			if t.Axis.String() == axis {
				axis += " (" + t.What + ")"
				break
			}
		}
		add("Travel", fmt.Sprintf("%s goes %s of %s", axis, b.U.Say(qty.Plain(r.Travel)), b.U.Say(qty.Plain(r.TravelHas))))
	}
	ahead := ""
	if by, _ := r.Ahead(); by > 0 {
		ahead = "; what stands ahead of the tip " + b.U.Say(by) + " shorter"
	}
	if r.Largest > 0 && r.Shortest > 0 {
		add("Would pass", "a plain bar of up to "+b.U.Say(r.Largest)+"; stickout to the tip "+b.U.Say(r.Shortest)+" or more"+ahead)
		if len(r.Steps) > 1 {
			s := ""
			for i, x := range r.Steps {
				if i > 0 {
					s += ", then "
				}
				s += b.U.Say(x.Diameter) + " for " + b.U.Say(x.Length)
			}
			add("", "stiffest stepped bar, from the nose: "+s)
		}
	}
	out := []page.Block{kv}
	for _, w := range r.Why {
		out = append(out, &page.Paragraph{Strong: true, Text: b.Words.Say(w) + "."})
	}
	return append(out, b.gapTable(r))
}

// Bars are the bars of the shop, the best first.
func (b *Annex) Bars(choices []place.Choice) []page.Block {
	t := &page.Table{Caption: "The shop's bars, the best first:", Columns: []page.Column{{Head: []string{"bar"}}, {Head: []string{"gives", b.U.Name(qty.KindCompliance)}, Align: page.Decimal}, {Head: []string{"answer"}}, {Head: []string{"tightest, or what stops it"}}}}
	if b.Plan.Several() {
		t.Caption = "The shop's bars in the place of " + b.Job.Bar.Called() + ", where that cuts, the best first:"
	}
	for _, c := range choices {
		why := b.Words.Say(c.Why)
		if why == "" {
			why = b.gapWords(c.Least)
		}
		answer := b.Words.Say(c.Verdict.Fact())
		if c.Passes() && !c.Sets {
			answer = "passes, does not set"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{c.Name, b.U.Bare(qty.KindCompliance.Of(c.Compliance)), answer, why}})
	}
	return []page.Block{t, &page.Paragraph{Text: "Bar alone, clamped at the nose: spindle and taper add theirs. A bar that passes still has to cut to size: plan with it."}}
}
