package plan

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/measured"
	"borewright/process/qty"
)

// biggerSleeve is the next sleeve whose housing cleans up, where a housing was
// found too large for the one planned; or a sleeve where a rebored bore was.
func biggerSleeve(job *process.Job, k *measured.Learned) []change {
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
		j := *job
		if b.Repair == process.Rebore {
			if found <= b.Finish.High {
				continue
			}
			j.Bores = slices.Clone(job.Bores)
			j.Bores[i].Repair = process.SleeveRepair
			steel := files.MaterialByID("steel-1026")
			sleeve := process.Sleeve{Material: steel, Hold: process.Press, Fit: "H7/r6", Allowance: 400 * qty.Micrometre}
			if job.Sleeve != nil {
				sleeve = *job.Sleeve
			}
			wall := max(least, qty.Length(b.Finish.High)/30)
			sleeve.Outside = max(sleeve.Outside, b.Finish.High.Plus(2*wall)/qty.Diameter(step)*qty.Diameter(step))
			j.Sleeve = &sleeve
		} else if job.Sleeve == nil || found < job.Sleeve.Outside {
			continue
		}
		for range 8 {
			sleeve := *j.Sleeve
			sleeve.Outside = (sleeve.Outside/qty.Diameter(step) + 1) * qty.Diameter(step)
			j.Sleeve = &sleeve
			if sleeve.Outside.Minus(found) < least/4 {
				continue
			}
			what := fact.New(ToBiggerSleeve, fact.Figure(sleeve.Outside.Length()))
			if b.Repair == process.Rebore {
				what = fact.New(ToSleeveOf, fact.Name(sleeve.Material.Name), fact.Figure(sleeve.Outside.Length()))
			}
			again := j
			out = append(out, change{what, &again})
		}
	}
	return out
}

// largerSleeve goes to the next standard outside where the planned one does not
// clean up.
func largerSleeve(p *Plan) []change {
	var next qty.Diameter
	for _, b := range p.Bores {
		if b.CleanUp != nil {
			next = max(next, b.CleanUp.Next)
		}
	}
	if next == 0 || p.Job.Sleeve == nil {
		return nil
	}
	j, s := *p.Job, *p.Job.Sleeve
	s.Outside = next
	j.Sleeve = &s
	j.Cutter.Most = max(j.Cutter.Most, next.Plus(qty.Millimetre)) // with a longer cutter
	what := []fact.Fact{fact.New(ToOutside, fact.Figure(next))}
	if j.Cutter.Most > p.Job.Cutter.Most {
		what = append(what, fact.New(ToLongerCutter))
	}
	return []change{{fact.New(ToBoth, fact.List(what...)), &j}}
}
