package sheets

import (
	"slices"

	"borewright/process/fit"
	"borewright/process/plan"
	"borewright/sheets/lathe"
	"borewright/sheets/page"
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
	b.Sheet.Add(b.BoreTitle(x)+", the sleeve: the repair", append(b.SleeveRepair(x), b.orderOfWork(x)...)...)
}
func (b *builder) lathe(x plan.Bore) {
	b.own("Lathe: sleeve for "+x.Station.Name, lathe.Sheet(b.Head, x))
}
func (b *builder) together(x plan.Bore) {
	b.own("Assembly: sleeve into "+x.Station.Name, append(b.orderOfWork(x), b.goingIn(x)...))
}
func (b *builder) assembled(x plan.Bore) {
	b.Sheet.Add(b.BoreTitle(x)+", the sleeve: fit and assembly", slices.Concat(b.SleeveFit(x), b.GoingIn(x), lathe.Chucking(b.Head, x))...)
}

// orderOfWork is what is done with the sleeve, in the order that it is done in.
func (b *builder) orderOfWork(x plan.Bore) []page.Block {
	var order []string
	for _, o := range x.Sleeve.Order {
		if o.Text.Kind == fit.StepLeadIn && b.part != SleevePart { // which the lathe's sheet has
			continue
		}
		text := b.Words.Say(o.Text)
		switch {
		case b.part == SleevePart:
		case o.Text.Kind == fit.BoreHousing:
			text = "Bore the housing, by its card."
		case o.Text.Kind == fit.TurnSleeve:
			text = "Turn the sleeve, by its own sheet."
		case o.Text.Kind == fit.StepAssemble:
			text = "Put it in, as stands below."
		case o.Text.Kind == fit.StepBoreInPlace:
			text = "Bore it in place, by its card."
		case o.Text.Kind == fit.MeasureFinished:
			text = "Measure the finished bore, by its form."
		}
		if o.Hold {
			text = "HOLD: " + text
		}
		order = append(order, text)
	}
	out := []page.Block{page.Head("Order of work"), page.Ticks(order)}
	if ends := lathe.Ends(b.Head, x); ends != nil {
		out = append([]page.Block{&page.KeyValues{Items: ends}}, out...)
	}
	return out
}

// goingIn is how the sleeve goes in: the first way that is possible, with its cautions. The
// annex has the others with theirs.
func (b *builder) goingIn(x plan.Bore) []page.Block {
	s := x.Sleeve
	var out []page.Block
	if kv := lathe.Details(b.Head, s, true); len(kv.Items) > 0 {
		out = append(out, kv)
	}
	var ways []fit.Assembly
	for _, a := range s.Assembly {
		if a.Possible {
			ways = append(ways, a)
		}
	}
	if len(ways) == 0 {
		return append(out, b.GoingIn(x)...)
	}
	a := ways[0]
	kv := &page.KeyValues{Items: []page.KeyValue{page.KV("By", a.Method.String()+": "+b.Words.Say(a.Why))}}
	if len(ways) > 1 {
		kv.Items = append(kv.Items, page.KV("Other ways", "in the annex"))
	}
	out = append(out, page.Head("How it goes in"), kv)
	if len(s.Bonding) > 0 {
		out = append(out, page.Ticks(b.Words.Each(s.Bonding)))
	}
	if c := b.Words.Each(a.Cautions); len(c) > 0 {
		out = append(out, page.Mind(c))
	}
	return out
}
