package annex

import (
	"strings"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/sleeve"
	"borewright/sheets/lathe"
	"borewright/sheets/page"
	"borewright/sheets/repair"
)

// SleeveFit is how it is held and how it goes in.
func (b *Annex) SleeveFit(x plan.Bore) []page.Block {
	s := x.Sleeve
	var out []page.Block
	out = append(out, page.Head("Press against bond"), b.joints(s))
	out = append(out, repair.Counted(b.U, s.Joints)...)
	if s.Fastening == process.Press {
		out = append(out, page.Head("What the press fit does"), b.pressFigures(s), b.stresses(s))
		out = append(out, lathe.Raised(b.Head, s)...)
		if len(s.PressForce) > 0 {
			t := &page.Table{Caption: "Press force along the stroke:", Columns: []page.Column{{Head: []string{"pressed in", b.U.String()}, Align: page.Decimal},
				{Head: []string{"least", b.U.Name(qty.KindPressForce)}, Align: page.Decimal}, {Head: []string{"most", b.U.Name(qty.KindPressForce)}, Align: page.Decimal}, {Head: []string{"read", b.U.Name(qty.KindPressForce)}, Blank: true}}}
			for _, p := range s.PressForce {
				t.Rows = append(t.Rows, page.Row{Cells: []string{b.U.Bare(qty.KindLength.Of(p.Depth)), b.U.Bare(qty.KindPressForce.Of(p.Force.Least)), b.U.Bare(qty.KindPressForce.Of(p.Force.Most)), ""}})
			}
			out = append(out, t)
		}
	}
	if len(s.Bonding) > 0 {
		out = append(out, page.Head("Bonding"), page.Ticks(b.Words.Each(s.Bonding)))
	}
	if len(s.Cautions) > 0 {
		out = append(out, page.Head("Mind, of this fit"), page.Mind(b.Words.Sentences(s.Cautions)))
	}
	return out
}

func (b *Annex) joints(s *sleeve.Sleeve) *page.Table {
	t := &page.Table{Columns: []page.Column{{Head: []string{""}}}}
	cells := make([][]string, 9)
	names := []string{"turns at, " + b.U.Name(qty.KindTorque), "pushes out at, " + b.U.Name(qty.KindPressForce), "bore closes by", "housing pulled to, " + b.U.Name(qty.KindStress),
		"axis off, radial", "hottest use, " + b.U.Name(qty.KindTemperature), "least hold over load", "sound", "for this"}
	for _, j := range s.Joints {
		name := j.Method.String()
		if j.Taken {
			name += " (taken)"
		}
		t.Columns = append(t.Columns, page.Column{Head: []string{name}})
		hot, sound, closes := "as the metals", "yes", b.bareRange(qty.KindLength, j.Closure)
		if j.Closure.Most == 0 {
			closes = "nothing"
		}
		if j.ServiceMost > 0 {
			hot = b.U.Bare(qty.KindTemperature.Of(j.ServiceMost))
		}
		load := "no load stated"
		if sl := b.Plan.Job.Sleeve; j.Reserve > 0 || sl != nil && (sl.Torque > 0 || sl.Thrust > 0) {
			load = qty.KindReserve.Say(j.Reserve)
		}
		if !j.Sound {
			sound = "NO: " + strings.Join(b.Words.Each(j.Reasons), "; ")
		}
		for i, c := range []string{
			b.bareRange(qty.KindSeatTorque, j.Torque), b.bareRange(qty.KindPressForce, j.PushOut),
			closes, b.U.Bare(qty.KindStress.Of(j.HubHoop)), b.U.Bare(fine(j.OffCentre)), hot, load, sound, b.Words.Say(j.Note),
		} {
			cells[i] = append(cells[i], c)
		}
	}
	for i, n := range names {
		t.Rows = append(t.Rows, page.Row{Cells: append([]string{n}, cells[i]...)})
	}
	return t
}

func (b *Annex) pressFigures(s *sleeve.Sleeve) *page.KeyValues {
	mpa := func(p fit.Band) string {
		return b.U.SayRange(qty.KindPressure.Of(p.Least), qty.KindPressure.Of(p.Most))
	}
	over := b.U.SayRange(s.Interference.Least, s.Interference.Most)
	if s.Match > 0 {
		over += ", matched to the housing within ±" + b.U.Say(s.Match)
	}
	return &page.KeyValues{Items: []page.KeyValue{
		page.KV("Interference", over+" ("+s.Fit+")"),
		page.KV("After roughness", b.U.SayRange(s.Effective.Least, s.Effective.Most)),
		page.KV("Pressure", mpa(s.Pressure)+" at room temperature, bore at size"),
		page.KV("At work", mpa(s.AtWork)+" "+b.from(s.Service)),
		page.KV("Bore closes", b.U.SayRange(s.Closure.Least, s.Closure.Most)+" at assembly"),
	}}
}

// from says a range of temperatures.
func (b *Annex) from(c [2]float64) string {
	return "from " + b.U.Say(qty.KindTemperature.Of(c[0])) + " to " + b.U.Say(qty.KindTemperature.Of(c[1]))
}

func (b *Annex) stresses(s *sleeve.Sleeve) *page.Table {
	t := &page.Table{Caption: "Highest stresses, as assembled or at size, in " + b.U.Name(qty.KindStress) + " (hoop: tension positive):",
		Columns: []page.Column{{Head: []string{"where"}}, {Head: []string{"hoop", "least"}, Align: page.Decimal}, {Head: []string{"hoop", "most"}, Align: page.Decimal},
			{Head: []string{"", "judged"}, Align: page.Decimal}, {Head: []string{"", "allowed"}, Align: page.Decimal}, {Head: []string{"", "by"}}}}
	for _, x := range s.Stresses {
		by := b.Words.Say(x.Criterion.Fact())
		if !x.OK {
			by = "TOO HIGH: " + by
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{x.Where.String(), b.U.Bare(qty.KindStress.Of(x.Hoop.Least)), b.U.Bare(qty.KindStress.Of(x.Hoop.Most)), b.U.Bare(qty.KindStress.Of(x.Equivalent)), b.U.Bare(qty.KindStress.Of(x.Allowed)), by}})
	}
	return t
}

// GoingIn is how the sleeve goes in, with the cautions of each way that is possible.
func (b *Annex) GoingIn(x plan.Bore) []page.Block {
	s := x.Sleeve
	out := []page.Block{page.Head("Ways to put it in"), b.assembly(s)}
	// Ways share cautions; each is printed once, with the first that has it.
	seen := map[string]bool{}
	for _, a := range s.Assembly {
		if !a.Possible {
			continue
		}
		var items []string
		for _, c := range b.Words.Each(a.Cautions) {
			if !seen[c] {
				seen[c] = true
				items = append(items, c)
			}
		}
		if len(items) > 0 {
			out = append(out, page.Head("Cautions: "+a.Method.String()), page.Mind(items))
		}
	}
	return out
}

func (b *Annex) assembly(s *sleeve.Sleeve) *page.Table {
	deg := b.U.Name(qty.KindTemperature)
	t := &page.Table{Columns: []page.Column{{Head: []string{"way"}}, {Head: []string{"can", "be"}}, {Head: []string{"housing", deg}, Align: page.Decimal}, {Head: []string{"sleeve", deg}, Align: page.Decimal},
		{Head: []string{"clear", b.U.String()}, Align: page.Decimal}, {Head: []string{"why"}}}}
	for _, a := range s.Assembly {
		can := "yes"
		if !a.Possible {
			can = "NO"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{a.Method.String(), can, b.U.Bare(qty.KindTemperature.Of(a.HubTo)), b.U.Bare(qty.KindTemperature.Of(a.SleeveTo)), b.U.Bare(qty.KindLength.Of(a.Clearance)), b.Words.Say(a.Why)}})
	}
	return t
}
