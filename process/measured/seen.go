package measured

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/warm"
)

// Findings is what was measured on a job before a plan for the rest was made, and
// what follows from it.
type Findings struct {
	Entries int // of the results file: tells this plan from those before it
	Cuts    []Cut
	Factors []Factor    // by work material, in the order in which they were cut
	Says    []fact.Fact // what follows, a sentence each
}

// Describe says what documents have of what was measured.
func (f *Findings) Describe(d *field.Desc) {
	d.Count(&f.Entries, "entries")
	field.List(d, &f.Cuts, "cuts", 0, field.Any)
	field.List(d, &f.Factors, "spring_factors", 0, field.Any)
	d.Facts(&f.Says, "says").Sentence()
}

// Cut is one pass that was measured, beside what was planned for it.
type Cut struct {
	Station           string
	Bore, Visit, Pass int             // bore counts from 0
	Kind              process.CutKind // as it stands in the entry
	Setting           qty.Diameter
	Low, High         qty.Diameter    // what was to be expected
	Least, Mean, Most qty.Diameter    // found, as the gauge read
	AtTwenty          [2]qty.Diameter // least and most at 20 °C; as read where the entry does not say how warm it was
	Known20           bool            // it says how warm they were
	Limits            schedule.Limits // of the visit
	Predicted, Seen   qty.Length      // spring on diameter: by the model alone, and setting less size found
	Counts            bool            // the spring was learned from: the pass cut all round
	Bar               qty.Diameter    // of the step that gives way most
	Stickout          qty.Length
	Ra                qty.Length // measured; 0: not
	Uneven, Taper     qty.Length // of the sizes entered: see formOf
	BarGive, RootGive float64    // spring on diameter that bar and spindle would give each, by the model, at the depth that was cut, mm
	Noise             float64    // standard deviation of the spring seen, mm
	Material          string
	Place             string // of the entry
	Remark, By, When  string
}

// Describe says what documents have of a measured pass. The springs are null where
// the pass did not cut all round.
func (c *Cut) Describe(d *field.Desc) {
	counts := func() bool { return c.Counts }
	d.Text(&c.Station, "station")
	d.Count(&c.Visit, "visit")
	d.Count(&c.Pass, "n")
	field.Word(d, &c.Kind, "kind", process.WitnessCut, process.RoughCut, process.SemiFinishCut, process.SpringCut, process.FinishCut, process.SleeveFitted)
	d.Diameter(&c.Setting, "cutter_setting_mm")
	d.Diameter(&c.Least, "least_mm")
	d.Diameter(&c.Mean, "mean_mm")
	d.Diameter(&c.Most, "most_mm")
	d.DiameterPair(&c.AtTwenty, "at_20_c_mm").When(func() bool { return c.Known20 })
	d.Worked("whether there are sizes at 20 °C", &c.Known20)
	d.Length(&c.Predicted, "spring_predicted_mm").Decimals(5).NullUnless(counts)
	d.Length(&c.Seen, "spring_seen_mm").Decimals(5).NullUnless(counts)
	d.Worked("there are springs, or none", &c.Counts)
	d.Text(&c.Remark, "remark").OmitEmpty()
	d.Worked("of the job and the entry, which have documents of their own", &c.Bore, &c.Limits, &c.Low, &c.High, &c.Ra, &c.Uneven, &c.Taper, &c.Material, &c.Place, &c.By, &c.When)
	d.Worked("for what finished jobs teach", &c.Bar, &c.Stickout, &c.BarGive, &c.RootGive, &c.Noise)
}

// Factor is spring seen over spring predicted for one work material, with
// what remains unknown of it.
type Factor struct {
	Material string
	Factor   float64
	Doubt    float64 // fraction of it, 95 %
	Cuts     int     // that it was learned from
}

// Describe says what documents have of a factor.
func (f *Factor) Describe(d *field.Desc) {
	d.Text(&f.Material, "material")
	d.Number(&f.Factor, "factor", "").Decimals(3)
	d.Number(&f.Doubt, "doubt", "").Decimals(3)
	d.Count(&f.Cuts, "cuts")
}

// seenBy is what an entry says of the bore, whether anything was cut or not.
func seenBy(job *process.Job, bore, visit int, limits schedule.Limits, of *process.Material, e process.Measured) Cut {
	seen := Cut{
		Station: job.Stations[job.Bores[bore].Station].Name, Bore: bore, Visit: visit, Pass: e.Pass, Kind: e.Kind, Limits: limits,
		Low: e.Low, High: e.High, Least: e.Least(), Mean: e.Mean(), Most: e.Most(), Ra: e.Ra,
		Place: e.Place, Remark: e.Remark, By: e.By, When: e.When,
	}
	seen.AtTwenty, seen.Known20 = [2]qty.Diameter{warm.AtTwenty(e, e.Least(), of.Alpha), warm.AtTwenty(e, e.Most(), of.Alpha)}, warm.AtReference(e)
	seen.Uneven, seen.Taper = formOf(e.Sizes)
	return seen
}

// formOf separates what two-point sizes show: out-of-round on radius is half of
// what the clock positions differ by at one depth, taper on diameter what the
// middles of the depths differ by. Sizes without a place count as one depth.
// Lobes of odd number do not show in two-point sizes.
// uneven is negative where no depth was gauged at two places.
func formOf(sizes []process.Size) (uneven, taper qty.Length) {
	uneven = -1
	type band struct {
		n           int
		least, most qty.Diameter
	}
	at := map[qty.Length]band{}
	for _, s := range sizes {
		b, ok := at[s.Depth]
		if !ok {
			b = band{0, s.Diameter, s.Diameter}
		}
		at[s.Depth] = band{b.n + 1, min(b.least, s.Diameter), max(b.most, s.Diameter)}
	}
	var least, most qty.Diameter
	for _, b := range at {
		if b.n > 1 {
			uneven = max(uneven, b.most.Minus(b.least)/2)
		}
		middle := b.least.Plus(b.most.Minus(b.least) / 2)
		if least == 0 || middle < least {
			least = middle
		}
		most = max(most, middle)
	}
	return uneven, most.Minus(least)
}

// slenderest is the diameter of the step of the bar that gives way most.
func slenderest(job *process.Job) qty.Diameter {
	if len(job.Bar.Steps) == 0 {
		return 0
	}
	return job.Bar.Steps[setup.SlenderStep(job.Bar.Steps)].Diameter
}

// shares works out what bar and spindle would give each, at the depth that was
// cut in fact, and how well the spring seen is known.
func (seen *Cut) shares(s *setup.Setup, c springCut, e process.Measured, noise float64) {
	spring := c.seenAt(e.Mean().MM() / 2)
	share := s.RootShare()
	seen.BarGive, seen.RootGive = spring*(1-share), spring*share
	seen.Noise = pass.BySquares(noise, c.again*spring)
}
