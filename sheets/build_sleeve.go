package sheets

import (
	"borewright/process/sleeve"
	"fmt"
	"strings"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/lathe"
	"borewright/sheets/page"
	"borewright/sheets/repair"
)

// eachSleeve adds sections of every sleeve that is still to be made.
func (b *builder) eachSleeve(sections ...func(plan.Bore)) {
	for _, x := range b.Plan.Bores {
		for _, add := range sections {
			if x.Sleeve != nil {
				add(x)
			}
		}
	}
}

// What there is of a sleeve: the repair as a whole, the lathe's own sheet, how it goes in, and
// the figures of its fit.
func (b *builder) repair(x plan.Bore) {
	b.sheet.Add(b.boreHead(x)+", the sleeve: the repair", append(b.sleeveRepair(x), b.orderOfWork(x)...)...)
}
func (b *builder) lathe(x plan.Bore) {
	b.own(b.boreHead(x)+", the sleeve: sheet for the lathe", lathe.Sheet(b.Head, x))
}
func (b *builder) together(x plan.Bore) {
	b.own(b.boreHead(x)+", the sleeve: assembly", append(b.orderOfWork(x), b.goingIn(x)...))
}
func (b *builder) assembled(x plan.Bore) {
	b.sheet.Add(b.boreHead(x)+", the sleeve: fit and assembly", append(b.sleeveFit(x), b.goingIn(x)...)...)
}

// sleeve adds what the annex has of a sleeve.
func (b *builder) sleeve(i int) {
	if x := b.Plan.Bores[i]; x.Sleeve != nil {
		b.sheet.Add(b.boreHead(x)+", the sleeve: the repair", b.sleeveRepair(x)...)
		b.sheet.Add(b.boreHead(x)+", the sleeve: its fit", b.sleeveFit(x)...)
	}
}

// sleeveRepair is the decision, the final clearance and the order of work.
func (b *builder) sleeveRepair(x plan.Bore) []page.Block {
	s := x.Sleeve
	taken := "finished on the lathe, before it goes in"
	if s.InPlace {
		taken = "bored in place, when it is home"
	}
	kv := &page.KeyValues{Items: []page.KeyValue{
		page.KV("Inside", taken),
		page.KV("Why", b.Words.Sentence(s.Why)),
		page.KV("The other way", b.Words.Say(s.Other)),
		page.KV("Wall", b.U.Say(s.Wall)+" at least when finished"),
		page.KV("Housing metal", b.hubWords(x)),
	}}
	out := []page.Block{kv, page.Head("Both ways worked out, in " + b.U.Word()), b.twoWays(s), page.Head("Final clearance, on diameter, all at one temperature")}
	if f := s.Final; f != nil {
		expected := b.gap(f.Expected) + ": as asked"
		switch {
		case !s.Taken().Known():
			expected = "not known: no passes were found that bring the sleeve to size"
		case !f.OK:
			expected = b.gap(f.Expected) + ": NOT as asked"
		}
		part := "Ø" + b.U.Bare(f.Part[0]) + " to " + b.U.Say(f.Part[1])
		if f.Part[0] == f.Part[1] {
			part = b.U.SayBoth(f.Part[0])
		}
		if f.PartOf != nil {
			part += ", " + f.PartOf.Name
		}
		out = append(out, &page.KeyValues{Items: []page.KeyValue{
			page.KV("The part that goes in", part),
			page.KV("Asked for", b.gap(f.Asked)),
			page.KV("Expected", expected),
		}})
		if s.Taken().Known() {
			kv := out[len(out)-1].(*page.KeyValues)
			work := b.from(s.Service) + ": " + b.gap(f.AtWork)
			if f.PartOf == nil {
				work += ", the part counted as steel (bore.part_material)"
			}
			kv.Items = append(kv.Items, page.KV("At work", work))
		}
	} else {
		out = append(out, &page.Paragraph{Text: "No part is stated that goes in: measure it, and write it into the job (bore.part), before the sleeve is made."})
	}
	return out
}

// orderOfWork is what is done with the sleeve, in the order that it is done in.
func (b *builder) orderOfWork(x plan.Bore) []page.Block {
	var order []string
	for _, o := range x.Sleeve.Order {
		text := b.Words.Say(o.Text)
		if o.Hold {
			text = "HOLD: " + text
		}
		order = append(order, text)
	}
	return []page.Block{page.Head("Order of work"), page.Ticks(order)}
}

// sleeveFinish ends the line that names the sleeve: where its inside comes to
// size.
func (b *builder) sleeveFinish() string {
	for _, x := range b.Plan.Bores {
		if s := x.Sleeve; s != nil && !s.InPlace {
			return "; finished on the lathe, nothing left inside"
		}
	}
	if s := b.Job.Sleeve; s != nil && s.Allowance > 0 {
		return "; " + b.U.Say(qty.Plain(s.Allowance)) + " on diameter left inside for boring in place"
	}
	return ""
}

func (b *builder) hubWords(x plan.Bore) string {
	s := x.Sleeve
	w := b.U.SayRange(s.Hub.Least, s.Hub.Most)
	if s.Hub.Least == s.Hub.Most {
		w = b.U.Say(s.Hub.Least) + " all round"
	}
	w += " around the housing once it is bored"
	if x.Station.Blind {
		w += "; at the closed end counted as a mass without edge"
	}
	if s.Assumed {
		return "ASSUMED: " + w + "; the job does not say. Measure it: pressure, stress and closure hang on it."
	}
	if x.Station.WallMost <= x.Station.Wall {
		return w + fmt.Sprintf(" (%s before)", b.U.Say(x.Station.Wall))
	}
	return w + fmt.Sprintf(" (%s to %s before)", b.U.Format(x.Station.Wall), b.U.Say(x.Station.WallMost))
}

// gap prints a range of clearance, in words where it is tight.
func (b *builder) gap(s iso286.Range) string {
	one := func(u qty.Unit, l qty.Length) string { return u.Format(l) }
	o := b.U.Other()
	text := one(b.U, s.Least) + " to " + b.U.Say(s.Most)
	more := " (" + one(o, s.Least) + " to " + o.Say(s.Most) + ")"
	if b.U.Round(s.Least) < 0 {
		more += "; below 0 is tight"
	}
	return text + more
}

func (b *builder) range2(s iso286.Range) string {
	return b.U.Format(s.Least) + " to " + b.U.Format(s.Most)
}

// bareRange prints the least and the most of a kind without a unit.
func (b *builder) bareRange(k qty.Kind, r fit.Band) string {
	return b.U.Bare(k.Of(r.Least)) + " to " + b.U.Bare(k.Of(r.Most))
}

// fine is a length of so many mm, to one decimal more than usual.
func fine(mm float64) qty.Figure { return qty.KindFine.Of(mm) }

func (b *builder) twoWays(s *sleeve.Sleeve) *page.Table {
	t := &page.Table{Columns: []page.Column{{Head: []string{""}}, {Head: []string{"finished before"}}, {Head: []string{"bored in place"}}}}
	row := func(what string, f func(fit.Option) string) {
		t.Rows = append(t.Rows, page.Row{Cells: []string{what, f(s.Before), f(s.Here)}})
	}
	row("inside as turned", func(w fit.Option) string { return b.U.Bare(w.Inside[0]) + " to " + b.U.Bare(w.Inside[1]) })
	row("closes by", func(w fit.Option) string {
		if w.Closure.Most == 0 {
			return "nothing"
		}
		return b.range2(w.Closure)
	})
	row("left for the mill", func(w fit.Option) string {
		if w.Stock.Most == 0 {
			return "nothing"
		}
		return b.range2(w.Stock)
	})
	row("size when done", func(w fit.Option) string {
		if !w.Known() {
			return "not known"
		}
		return b.U.Bare(w.Low) + " to " + b.U.Bare(w.High)
	})
	row("out of round, radial", func(w fit.Option) string {
		if !w.Known() {
			return "not known"
		}
		return b.U.Bare(qty.Fine(w.Roundness))
	})
	row("Ra, "+b.U.Name(qty.KindRoughness), func(w fit.Option) string {
		if w.Ra == 0 {
			return "as asked"
		}
		return b.U.Bare(qty.Roughness(w.Ra))
	})
	row("axis off, line-up apart", func(w fit.Option) string { return b.U.Bare(qty.Fine(w.OffCentre)) })
	row("lands, of 100", func(w fit.Option) string {
		if w.Chance == 0 {
			return "not known"
		}
		return b.Words.InHundred(w.Chance)
	})
	row("lands within limits", func(w fit.Option) string {
		if w.ByOdds {
			return "by its chance"
		}
		if w.Lands {
			return "yes"
		}
		return "NO"
	})
	return t
}

// sleeveFit is how it is held and how it goes in.
func (b *builder) sleeveFit(x plan.Bore) []page.Block {
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

// goingIn is how the sleeve goes in, with the cautions of each way that is possible.
func (b *builder) goingIn(x plan.Bore) []page.Block {
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

func (b *builder) joints(s *sleeve.Sleeve) *page.Table {
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

func (b *builder) pressFigures(s *sleeve.Sleeve) *page.KeyValues {
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
func (b *builder) from(c [2]float64) string {
	return "from " + b.U.Say(qty.KindTemperature.Of(c[0])) + " to " + b.U.Say(qty.KindTemperature.Of(c[1]))
}

func (b *builder) stresses(s *sleeve.Sleeve) *page.Table {
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

func (b *builder) assembly(s *sleeve.Sleeve) *page.Table {
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
