// Package record holds a plan beside what is entered for it: the pass to be
// measured next, what an entry leaves out, the slips of the hand in it, and the
// record of the bores as built. It teaches nothing: that is process/measured.
package record

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/fit/standard"
	"borewright/process/measured"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// AsBuilt is one visit as it was cut, beside what was asked of it.
type AsBuilt struct {
	Station        string
	Title          fact.Fact // of the visit
	Visit          int
	Found          [2]qty.Diameter // before the first cut, least and most
	Limits         schedule.Limits
	Ra, Roundness  qty.Length     // asked for
	Cuts           []measured.Cut // measured, the last entry for each pass
	Done           bool           // the last pass was measured
	In             bool           // and landed within the limits
	Off            qty.Length     // how far outside, above plus; 0 inside
	Least, Most    qty.Diameter   // at 20 °C where its entry says how warm work and gauge were, else as read
	Known20        bool           // it says how warm they were
	Uneven, Taper  qty.Length     // out-of-round on radius, and taper on diameter, as the two-point sizes show them; Uneven is negative where they show none: see formOf
	Round          Shown          // the out-of-round against what was asked
	RaFound        qty.Length     // 0: not measured
	RaIn           bool
	Interference   [2]qty.Length // press fit as built, least and most, by the housing as found and the sleeve's limits; both 0: none
	Pair           string        // its fit
	Clearance      [2]qty.Length // of the mating part in the bore as found, least and most, when the job names it
	ClearanceAsked [2]qty.Length
	ClearanceIn    bool
	PassesLeft     int
	AtHome         bool        // nothing was cut: a sleeve finished on the lathe, measured when it was home; Found is what was to be expected
	BeforeWork     []fact.Fact // work between the visits, as planned
	Rougher, With  string      // bar and cutter that rough it and that bring it to size, as planned; "": those of the job, which has no others, or not roughed apart
}

// Describe says what documents have of a visit as built. What was not measured is
// null.
func (a *AsBuilt) Describe(d *field.Desc) {
	cut := func() bool { return len(a.Cuts) > 0 }
	pressed, mates := func() bool { return a.Pair != "" }, func() bool { return a.ClearanceAsked[1] > 0 }
	rough := func() bool { return a.RaFound > 0 }
	d.Text(&a.Station, "station")
	d.Count(&a.Visit, "visit")
	d.Fact(&a.Title, "title")
	d.Flag(&a.AtHome, "finished_on_lathe")
	d.Text(&a.Rougher, "roughed_with").OmitEmpty()
	d.Text(&a.With, "cut_with").OmitEmpty()
	d.Group("found_mm", leastMost(&a.Found[0], &a.Found[1]))
	d.Table(&a.Limits, "limits")
	d.Rough(&a.Ra, "ra_asked_um")
	d.Length(&a.Roundness, "roundness_asked_mm").Decimals(5)
	d.Facts(&a.BeforeWork, "work_before").Sentence()
	field.List(d, &a.Cuts, "measured", 0, field.Any)
	d.Count(&a.PassesLeft, "passes_left")
	d.Flag(&a.Done, "done")
	d.Group("size_mm", leastMost(&a.Least, &a.Most)).NullUnless(cut)
	d.Flag(&a.Known20, "size_at_20_c").NullUnless(cut)
	d.Flag(&a.In, "in_limits").NullUnless(cut)
	d.Length(&a.Off, "outside_by_mm").NullUnless(cut)
	d.Length(&a.Uneven, "out_of_round_mm").Decimals(5).NullUnless(func() bool { return cut() && a.Uneven >= 0 })
	field.Word(d, &a.Round, "round", NotShown, InDoubt, ShownOut).NullUnless(cut)
	d.Length(&a.Taper, "taper_mm").Decimals(5).NullUnless(cut)
	d.Rough(&a.RaFound, "ra_um").NullUnless(rough)
	d.Flag(&a.RaIn, "ra_in").NullUnless(rough)
	d.Text(&a.Pair, "press_fit").NullUnless(pressed)
	d.LengthPair(&a.Interference, "interference_um").Microns().NullUnless(pressed)
	d.LengthPair(&a.Clearance, "clearance_um").Microns().NullUnless(mates)
	d.LengthPair(&a.ClearanceAsked, "clearance_asked_um").Microns().NullUnless(mates)
	d.Flag(&a.ClearanceIn, "clearance_in").NullUnless(mates)
}

func leastMost(least, most *qty.Diameter) func(d *field.Desc) {
	return func(d *field.Desc) {
		d.Diameter(least, "least")
		d.Diameter(most, "most")
	}
}

// Of puts first, the plan before anything was cut, beside what was
// measured since: now is the plan after it. One row for each visit, in the
// order of the work.
func Of(first, now *plan.Plan) []AsBuilt {
	var out []AsBuilt
	for i, b := range first.Bores {
		for k, v := range b.Visits {
			if v.Part == schedule.Roughing { // its finish is the row of the work
				continue
			}
			if v.Part == schedule.Finishing {
				v.Title = v.Title.Nth(1).(fact.Fact)
				v.Start, v.StartMost = b.Visits[k-1].Start, b.Visits[k-1].StartMost
			}
			a := AsBuilt{
				Station: b.Station.Name, Title: v.Title, Visit: v.N, Found: [2]qty.Diameter{v.Start, v.StartMost}, Limits: v.Limits,
				Ra: v.Ra, Roundness: v.Roundness, BeforeWork: v.Before,
			}
			if first.Several() {
				if a.With = first.Job.Using(v.Tools).ToolsCalled(); v.Part == schedule.Finishing {
					a.Rougher = first.Job.Using(b.Visits[k-1].Tools).ToolsCalled()
				}
			}
			a.cutsOf(now, i)
			a.left(now)
			a.judge(first.Job, b.Bore, v.Visit)
			out = append(out, a)
		}
		if b.Home != nil {
			v := schedule.Visit{N: measured.HomeVisit, Title: fact.New(SleeveHome), Ra: b.Bore.Ra, Roundness: b.Bore.Roundness,
				Limits: schedule.FinishLimits(first.Job.Units, b.Bore)}
			a := AsBuilt{Station: b.Station.Name, Title: v.Title, Visit: v.N, Found: [2]qty.Diameter{b.Home.Low, b.Home.High}, Limits: v.Limits, Ra: v.Ra, Roundness: v.Roundness, AtHome: true}
			a.cutsOf(now, i)
			a.judge(first.Job, b.Bore, v)
			out = append(out, a)
		}
	}
	return out
}

// Accepted is whether every visit of a record is finished, in limits, and as round
// and smooth as asked where that was measured.
func Accepted(rows []AsBuilt) bool {
	for _, a := range rows {
		if !a.Done || !a.In || a.FormOut() {
			return false
		}
	}
	return len(rows) > 0
}

// FormOut is whether roughness or roundness, where it was measured, is not as
// asked.
func (a AsBuilt) FormOut() bool { return a.RaFound > 0 && !a.RaIn || a.Round == ShownOut }

// Shown is what two-point sizes say of a form that was asked for. What lies
// within the doubt of the gauge is no verdict either way.
type Shown int

// The answers.
const (
	NotShown Shown = iota // nothing beyond what was asked
	InDoubt               // beyond it, by less than the gauge's own doubt
	ShownOut
)

func (s Shown) String() string { return [...]string{"not shown", "in doubt", "out"}[s] }

// cutsOf collects what was measured in a visit; a pass entered twice counts by
// its last entry.
func (a *AsBuilt) cutsOf(now *plan.Plan, bore int) {
	if now.Findings == nil {
		return
	}
	at := map[int]int{}
	for _, c := range now.Findings.Cuts {
		if c.Bore != bore || c.Visit != a.Visit {
			continue
		}
		if i, again := at[c.Pass]; again {
			a.Cuts[i] = c
			continue
		}
		at[c.Pass] = len(a.Cuts)
		a.Cuts = append(a.Cuts, c)
	}
}

func (a *AsBuilt) left(now *plan.Plan) {
	for _, b := range now.Bores {
		for _, v := range b.Visits {
			if b.Station.Name == a.Station && v.N == a.Visit {
				a.PassesLeft += len(v.Passes)
			}
		}
	}
}

func (a *AsBuilt) judge(job *process.Job, b process.Bore, v schedule.Visit) {
	if len(a.Cuts) == 0 {
		return
	}
	last := a.Cuts[0]
	for _, c := range a.Cuts {
		if c.Pass >= last.Pass {
			last = c
		}
	}
	a.Least, a.Most, a.RaFound = last.AtTwenty[0], last.AtTwenty[1], last.Ra
	a.Uneven, a.Taper, a.Known20 = last.Uneven, last.Taper, last.Known20
	switch doubt := job.Limits.GaugeError; { // half of two readings apart by the gauge's own doubt
	case a.Uneven > v.Roundness+doubt:
		a.Round = ShownOut
	case a.Uneven > v.Roundness:
		a.Round = InDoubt
	}
	a.In = a.Least >= v.Limits.Low && a.Most <= v.Limits.High
	a.Done = a.PassesLeft == 0 && (a.In || last.Kind == process.FinishCut || last.Kind == process.SleeveFitted)
	switch {
	case a.Most > v.Limits.High:
		a.Off = a.Most.Minus(v.Limits.High)
	case a.Least < v.Limits.Low:
		a.Off = a.Least.Minus(v.Limits.Low)
	}
	a.RaIn = a.RaFound > 0 && a.RaFound <= v.Ra
	if a.Done && job.Sleeve != nil && b.Repair == process.SleeveRepair && v.N == 1 && job.Sleeve.Hold == process.Press {
		if _, shaft, err := standard.Pair(job.Sleeve.Outside, job.Sleeve.Fit); err == nil {
			low, high := shaft.Sizes(job.Sleeve.Outside)
			if over := a.Most.Minus(v.Limits.High); over > 0 && job.Sleeve.Match > 0 { // turned that much larger
				low, high = low.Plus(over), high.Plus(over)
			}
			a.Interference, a.Pair = [2]qty.Length{low.Minus(a.Most), high.Minus(a.Least)}, job.Sleeve.Fit
		}
	}
	if f := b.Finish; a.Done && f.Mating > 0 && v.Limits.High == f.High {
		a.Clearance = [2]qty.Length{a.Least.Minus(f.Mating), a.Most.Minus(f.Mating)}
		a.ClearanceAsked = f.Clearance
		a.ClearanceIn = a.Clearance[0] >= f.Clearance[0] && a.Clearance[1] <= f.Clearance[1]
	}
}
