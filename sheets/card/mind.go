package card

import (
	"slices"
	"sort"

	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// rank puts the worst first: what spoils the work or hurts at once, before what only asks for
// care. Kinds that are not named come between.
var rank = map[fact.Kind]int{
	schedule.Chatters:     1,
	place.NoLineUp:        2,
	place.ParallelAssumed: 3,
	place.TightPlace:      4,
	schedule.OffBush:      5,
	place.ShadowLikely:    6,
	plan.StandsOut:        20,
	place.BarHangs:        21,
	place.QuillHangs:      21,
	place.QuillLeans:      21,
}

// worst are the two worst cautions of a visit in short form, and what holds at every spindle.
func (b Hand) worst(i, k int) []string {
	type caution struct {
		kind fact.Kind
		of   fact.Fact
	}
	var all []caution
	for _, w := range b.Plan.With(i, k) {
		for _, f := range b.Plan.CautionsOf(w[0], w[1]) {
			in := inner(f)
			all = append(all, caution{in.Kind, in})
		}
	}
	order := func(c caution) int {
		if n, ok := rank[c.kind]; ok {
			return n
		}
		return 10
	}
	sort.SliceStable(all, func(i, j int) bool { return order(all[i]) < order(all[j]) })
	var out []string
	for _, c := range all {
		if s := b.short(c.of, b.Plan.Bores[i].Visits[k]); len(out) < 2 && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return append(out, "Guards shut, no gloves. Spindle stopped before a hand goes in.")
}

// inner takes a caution out of the names of the bores that it holds for.
func inner(f fact.Fact) fact.Fact {
	for f.Kind == plan.OfBores || f.Kind == plan.OfStation || f.Kind == plan.OfVisit || f.Kind == plan.OfTools {
		last, ok := f.Nth(len(f.Args)).(fact.Fact)
		if !ok {
			break
		}
		f = last
	}
	return f
}

// short says a caution in a line or two, the figures of it kept; the annex has it in full.
func (b Hand) short(f fact.Fact, v plan.Visit) string {
	fig := func(n int) string {
		x, _ := fact.AsFigure(f.Nth(n))
		return b.U.Say(x)
	}
	switch f.Kind {
	case schedule.Chatters:
		return "This cut will sing by the figures. Stop at the first note and go slower: a bore that has chattered holds no size."
	case place.ParallelAssumed:
		s := "Parallel to the spindle is assumed, not swept"
		if slices.ContainsFunc(v.Passes, func(p schedule.Pass) bool { return p.Band != nil }) {
			s += ": after the witness cut go on only if its band stands true"
		}
		return s + "."
	case place.ShadowLikely:
		return "The old wall may show after the last pass (" + fig(3) + "): look for it after each cut."
	case place.InBush, place.InBoredBush:
		name, _ := fact.AsName(f.Nth(1))
		return "Sweep " + name + " before the bush goes in: by it the bore comes within ±" + fig(4) + " of the spindle."
	case plan.StandsOut:
		x, _ := fact.AsFigure(f.Nth(1))
		return "Stickout " + b.U.Bare(qty.KindRatio.Of(x.Value)) + " bar diameters: listen for chatter, trust the gauge."
	case place.BarHangs:
		if b.Plan.LineUp != nil { // its moves have it in them
			return "The bar hangs " + fig(1) + " at the cutter: the line-up allows for it."
		}
		return "The bar hangs " + fig(1) + " at the cutter: set the spindle that much high."
	}
	return b.Words.Sentence(f)
}
