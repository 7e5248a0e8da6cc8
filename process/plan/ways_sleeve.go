package plan

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/fit"
	"borewright/process/qty"
	"borewright/process/sleeve"
)

// sleeveOtherwise brings the sleeve's inside to size the other way, or asks for
// closer work on the lathe: smallest change first.
func sleeveOtherwise(job *process.Job) []change {
	if job.Sleeve == nil {
		return nil
	}
	with := sleeveChange(job)
	var out []change
	if job.Sleeve.Finish == process.FinishBefore {
		out = append(out, with(fact.New(ToInPlace), func(s *process.Sleeve) { s.Finish = process.BoreInPlace }))
	} else {
		out = append(out, with(fact.New(ToLathe), func(s *process.Sleeve) { s.Finish = process.FinishBefore }))
	}
	for _, part := range []float64{0.5, 0.25} {
		out = append(out, with(fact.New(ToCloserLathe, fact.Figure(job.Units.Round(times(job.Sleeve.Match, part))), fact.Figure(job.Units.Round(times(job.Sleeve.Lathe, part)))),
			func(s *process.Sleeve) {
				s.Finish = process.FinishBefore
				s.Match, s.Lathe = job.Units.Round(times(s.Match, part)), job.Units.Round(times(s.Lathe, part))
			}))
	}
	return out
}

// sleeveChange makes changes of the job's sleeve.
func sleeveChange(job *process.Job) func(what fact.Fact, f func(s *process.Sleeve)) change {
	return func(what fact.Fact, f func(s *process.Sleeve)) change {
		j, s := *job, *job.Sleeve
		f(&s)
		j.Sleeve = &s
		return change{what, &j}
	}
}

// tighterFits are pressed fits from the lighter to the heavier.
var tighterFits = []string{"H7/p6", "H7/r6", "H7/s6", "H7/t6", "H7/u6"}

// heldTighter tries the fits above the one taken, and heldOtherwise a bond for a
// press, or a press for a bond.
func heldTighter(job *process.Job) []change {
	if job.Sleeve == nil || job.Sleeve.Hold != process.Press {
		return nil
	}
	var out []change
	for _, f := range tighterFits[slices.Index(tighterFits, job.Sleeve.Fit)+1:] {
		out = append(out, sleeveChange(job)(fact.New(ToPress, fact.Name(f)), func(s *process.Sleeve) { s.Fit = f }))
	}
	return out
}

func heldOtherwise(job *process.Job) []change {
	switch {
	case job.Sleeve == nil:
		return nil
	case job.Sleeve.Hold == process.Press:
		gap := job.Units.Round(sleeve.UsualGap)
		return []change{sleeveChange(job)(fact.New(ToBond, fact.Figure(gap)), func(s *process.Sleeve) {
			s.Hold, s.Fit, s.Gap = process.Bond, "", gap
		})}
	}
	return []change{sleeveChange(job)(fact.New(ToPress, fact.Name("H7/r6")), func(s *process.Sleeve) {
		s.Hold, s.Fit, s.Gap = process.Press, "H7/r6", 0
	})}
}

// otherCompound bonds with another kind of compound: one that stands more heat,
// or fills a wider gap.
func otherCompound(job *process.Job) []change {
	if job.Sleeve == nil || job.Sleeve.Hold != process.Bond {
		return nil
	}
	now := sleeve.CompoundOf(job.Sleeve.Compound)
	var out []change
	for _, c := range fit.Compounds() {
		if c.Name != now.Name {
			out = append(out, sleeveChange(job)(fact.New(ToCompound, fact.Name(c.Name)), func(s *process.Sleeve) { s.Compound = c.Name }))
		}
	}
	return out
}

func times(l qty.Length, f float64) qty.Length { return qty.FromMM(l.MM() * f) }
