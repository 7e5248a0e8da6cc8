package annex

import (
	"fmt"
	"slices"

	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/sleeve"
	"borewright/sheets/lathe"
	"borewright/sheets/page"
)

// sleeve adds what the annex has of a sleeve.
func (b *Annex) sleeve(i int) {
	if x := b.Plan.Bores[i]; x.Sleeve != nil {
		b.Sheet.Add(b.BoreTitle(x)+", the sleeve: the repair", b.SleeveRepair(x)...)
		b.Sheet.Add(b.BoreTitle(x)+", the sleeve: its fit", slices.Concat(b.SleeveFit(x), b.GoingIn(x), lathe.Chucking(b.Head, x))...)
	}
}

// SleeveRepair is the decision, the final clearance and the order of work.
func (b *Annex) SleeveRepair(x plan.Bore) []page.Block {
	s := x.Sleeve
	taken := "finished on the lathe, before it goes in"
	if s.InPlace {
		taken = "bored in place, once it is in"
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

func (b *Annex) hubWords(x plan.Bore) string {
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
func (b *Annex) gap(s iso286.Range) string {
	one := func(u qty.Unit, l qty.Length) string { return u.Format(l) }
	o := b.U.Other()
	text := one(b.U, s.Least) + " to " + b.U.Say(s.Most)
	more := " (" + one(o, s.Least) + " to " + o.Say(s.Most) + ")"
	if b.U.Round(s.Least) < 0 {
		more += "; below 0 is tight"
	}
	return text + more
}

func (b *Annex) range2(s iso286.Range) string {
	return b.U.Format(s.Least) + " to " + b.U.Format(s.Most)
}

// bareRange prints the least and the most of a kind without a unit.
func (b *Annex) bareRange(k qty.Kind, r fit.Band) string {
	return b.U.Bare(k.Of(r.Least)) + " to " + b.U.Bare(k.Of(r.Most))
}

// fine is a length of so many mm, to one decimal more than usual.
func fine(mm float64) qty.Figure { return qty.KindFine.Of(mm) }

func (b *Annex) twoWays(s *sleeve.Sleeve) *page.Table {
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
		if w.Chance == 0 && w.Order != fit.FinishBefore {
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
