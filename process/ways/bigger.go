package ways

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/process/source"
)

// biggerSleeve is the next sleeve whose housing cleans up, where a housing was
// found too large for the one planned; or a sleeve where a rebored bore was.
func biggerSleeve(a *Asked) []change {
	job, k := a.Job, a.Learned
	if k == nil {
		return nil
	}
	step, least := qty.Millimetre, 2*qty.Millimetre
	if job.Units == qty.Inches {
		step, least = qty.Inch/16, qty.Inch/12
	}
	var out []change
	for i, b := range job.Bores {
		last := k.LastOf(i, 0)
		if last == nil {
			continue
		}
		found := last.Most()
		var sleeve process.Sleeve
		if b.Repair == process.Rebore {
			if found <= b.Finish.High {
				continue
			}
			sleeve = process.Sleeve{Material: files.MaterialByID("steel-1026"), Hold: process.Press, Fit: "H7/r6", Allowance: 400 * qty.Micrometre}
			if job.Sleeve != nil {
				sleeve = *job.Sleeve
			}
			wall := max(least, qty.Length(b.Finish.High)/30)
			sleeve.Outside = max(sleeve.Outside, b.Finish.High.Plus(2*wall)/qty.Diameter(step)*qty.Diameter(step))
		} else if job.Sleeve == nil || found < job.Sleeve.Outside {
			continue
		} else {
			sleeve = *job.Sleeve
		}
		for range 8 {
			sleeve.Outside = (sleeve.Outside/qty.Diameter(step) + 1) * qty.Diameter(step)
			if sleeve.Outside.Minus(found) < least/4 {
				continue
			}
			what, keys := fact.New(ToBiggerSleeve, fact.Figure(sleeve.Outside.Length())), []key{length("sleeve.outside", sleeve.Outside.Length())}
			if b.Repair == process.Rebore {
				what = fact.New(ToSleeveOf, fact.Name(sleeve.Material.Name), fact.Figure(sleeve.Outside.Length()))
				keys = append(keys, word(source.El("bore", i)+".repair", process.SleeveRepair.String()))
				if job.Sleeve == nil {
					keys = append(keys, word("sleeve.material", sleeve.Material.ID), word("sleeve.fit", sleeve.Fit), length("sleeve.allowance", sleeve.Allowance))
				}
			}
			this := sleeve
			out = append(out, change{what, keys, func(j *process.Job) {
				s := this
				j.Sleeve, j.Bores[i].Repair = &s, process.SleeveRepair
			}})
		}
	}
	return out
}

// largerSleeve goes to the next standard outside where the planned one does not
// clean up.
func largerSleeve(a *Asked) []change {
	if a.Next == 0 || a.Job.Sleeve == nil {
		return nil
	}
	what, keys := []fact.Fact{fact.New(ToOutside, fact.Figure(a.Next))}, []key{length("sleeve.outside", a.Next.Length())}
	most := max(a.Job.Cutter.Most, a.Next.Plus(a.Job.Round(1, 0.04))) // with a longer cutter
	if most > a.Job.Cutter.Most {
		what = append(what, fact.New(ToLongerCutter))
		keys = append(keys, length("cutter.most", most.Length()))
	}
	return []change{{fact.New(Both, fact.List(what...)), keys, func(j *process.Job) {
		j.Sleeve.Outside, j.Cutter.Most = a.Next, most
	}}}
}
