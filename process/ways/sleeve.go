package ways

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/fit"
	"borewright/process/fit/standard"
	"borewright/process/qty"
	"borewright/process/sleeve"
)

// sleeveOtherwise brings the sleeve's inside to size the other way, or asks for
// closer work on the lathe: smallest change first.
func sleeveOtherwise(job *process.Job) []change {
	s := job.Sleeve
	if s == nil {
		return nil
	}
	lathe := word("sleeve.finish", process.FinishBefore.String())
	var out []change
	if s.Finish == process.FinishBefore {
		out = append(out, change{fact.New(ToInPlace), []key{word("sleeve.finish", process.BoreInPlace.String())}, func(j *process.Job) { j.Sleeve.Finish = process.BoreInPlace }})
	} else {
		out = append(out, change{fact.New(ToLathe), []key{lathe}, func(j *process.Job) { j.Sleeve.Finish = process.FinishBefore }})
	}
	for _, part := range []float64{0.5, 0.25} {
		match, inside := job.Units.Round(times(s.Match, part)), job.Units.Round(times(s.Lathe, part))
		keys := []key{lathe, length("sleeve.lathe", inside)}
		if match > 0 {
			keys = append(keys, length("sleeve.match", match))
		}
		out = append(out, change{fact.New(ToCloserLathe, fact.Figure(match), fact.Figure(inside)), keys, func(j *process.Job) {
			j.Sleeve.Finish, j.Sleeve.Match, j.Sleeve.Lathe = process.FinishBefore, match, inside
		}})
	}
	return out
}

// tighterFits are pressed fits from the lighter to the heavier.
var tighterFits = []string{"H7/p6", "H7/r6", "H7/s6", "H7/t6", "H7/u6"}

// tighterInch are those of ANSI B4.1.
var tighterInch = []string{"LN1", "LN2", "LN3", "FN1", "FN2", "FN3", "FN4", "FN5"}

// heldTighter tries the fits above the one taken, and heldOtherwise a bond for a
// press, or a press for a bond.
func heldTighter(job *process.Job) []change {
	if job.Sleeve == nil || job.Sleeve.Hold != process.Press {
		return nil
	}
	var out []change
	fits := tighterFits
	if standard.Inch(job.Sleeve.Fit) {
		fits = tighterInch
	}
	for _, f := range fits[slices.Index(fits, job.Sleeve.Fit)+1:] {
		out = append(out, change{fact.New(ToPress, fact.Name(f)), []key{word("sleeve.fit", f)}, func(j *process.Job) { j.Sleeve.Fit = f }})
	}
	return out
}

func heldOtherwise(job *process.Job) []change {
	switch {
	case job.Sleeve == nil:
		return nil
	case job.Sleeve.Hold == process.Press:
		gap := job.Units.Round(sleeve.UsualGap)
		keys := []key{word("sleeve.hold", process.Bond.String()), length("sleeve.gap", gap)}
		if stated(job, "sleeve.fit") {
			keys = append(keys, without("sleeve.fit"))
		}
		return []change{{fact.New(ToBond, fact.Figure(gap)), keys, func(j *process.Job) {
			j.Sleeve.Hold, j.Sleeve.Fit, j.Sleeve.Gap = process.Bond, "", gap
		}}}
	}
	const fit = "H7/r6"
	keys := []key{word("sleeve.hold", process.Press.String()), word("sleeve.fit", fit)}
	if stated(job, "sleeve.gap") {
		keys = append(keys, without("sleeve.gap"))
	}
	return []change{{fact.New(ToPress, fact.Name(fit)), keys, func(j *process.Job) {
		j.Sleeve.Hold, j.Sleeve.Fit, j.Sleeve.Gap = process.Press, fit, 0
	}}}
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
			out = append(out, change{fact.New(ToCompound, fact.Name(c.Name)), []key{word("sleeve.compound", c.Name)}, func(j *process.Job) { j.Sleeve.Compound = c.Name }})
		}
	}
	return out
}

// otherSleeve makes the sleeve of another metal.
func otherSleeve(job *process.Job) []change {
	if job.Sleeve == nil {
		return nil
	}
	var out []change
	for _, id := range []string{"steel-1026", "leaded-bronze", "gray-iron-200hb"} {
		if m := files.MaterialByID(id); id != job.Sleeve.Material.ID {
			out = append(out, change{fact.New(ToSleeveMetal, fact.Name(m.Name)), []key{word("sleeve.material", id)}, func(j *process.Job) { j.Sleeve.Material = m }})
		}
	}
	return out
}

func times(l qty.Length, f float64) qty.Length { return qty.FromMM(l.MM() * f) }
