package record

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/marks"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/warm"
)

// Entry is one entry of the results file as a record keeps it: all that was entered, whether
// a later one replaced it or not.
type Entry struct {
	With        string // bar and cutter, where the bore has its own
	N           int    // in the order of entering, from 1
	Station     string
	As          process.Measured
	Readings    []Reading
	ReplacedBy  int    // number of the entry that took its place; 0: it stands
	ReplacedWho string // and who made that, as far as it says
}

// Reading is one size with its place, as it was read and as it is at 20 °C.
type Reading struct {
	process.Size
	AtTwenty qty.Diameter // 0: the entry does not say how warm it was
}

// Describe says what documents have of a reading. A place that was not said is null.
func (r *Reading) Describe(d *field.Desc) {
	d.Length(&r.Depth, "depth_mm").NullUnless(func() bool { return r.Depth >= 0 })
	d.Number(&r.At, "at_deg", "°").NullUnless(func() bool { return r.At >= 0 })
	d.Diameter(&r.Diameter, "read_mm")
	d.Diameter(&r.AtTwenty, "at_20_c_mm").NullUnless(func() bool { return r.AtTwenty > 0 })
}

// Describe says what documents have of an entry. What was not said is left out.
func (e *Entry) Describe(d *field.Desc) {
	m := &e.As
	d.Count(&e.N, "entry")
	d.Name(&m.ID, "id").OmitEmpty()
	d.Text(&e.Station, "station")
	d.Count(&m.Visit, "visit")
	d.Count(&m.Pass, "n")
	field.Word(d, &m.Kind, "kind", process.WitnessCut, process.RoughCut, process.SemiFinishCut, process.SpringCut, process.FinishCut, process.SleeveFitted).When(func() bool { return m.Kind != 0 })
	d.Name(&m.By, "by").OmitEmpty()
	d.Name(&m.When, "when").OmitEmpty()
	d.Name(&m.Gauge, "gauge").OmitEmpty()
	d.Name(&m.Master, "master").OmitEmpty()
	d.Temperature(&m.WorkTemp, "work_temperature_c").When(func() bool { return m.WorkTemp > 0 })
	d.Temperature(&m.GaugeTemp, "gauge_temperature_c").When(func() bool { return m.GaugeTemp > 0 })
	field.List(d, &e.Readings, "readings", 0, field.Any)
	d.Numbers(&m.Marked, "marked_deg", "°", 0, field.Any).OmitEmpty()
	d.Numbers(&m.Bare, "bare_deg", "°", 0, field.Any).OmitEmpty()
	d.Rough(&m.Ra, "ra_um").OmitEmpty()
	d.Text(&m.Remark, "remark").OmitEmpty()
	d.Diameter(&m.Setting, "cutter_setting_mm").OmitEmpty()
	d.Diameter(&m.Before, "before_mm").OmitEmpty()
	d.Diameter(&m.Low, "expected_low_mm").OmitEmpty()
	d.Diameter(&m.High, "expected_high_mm").OmitEmpty()
	d.Length(&m.Feed, "feed_mm").OmitEmpty()
	d.Turns(&m.Speed, "speed_rev_min").OmitEmpty()
	d.Length(&m.Land, "land_mm").OmitEmpty()
	d.Length(&m.CutTo, "cut_to_mm").OmitEmpty()
	field.Word(d, &m.WayOut, "way_out", process.DrawOut, process.ShiftOut, process.FeedOut).When(func() bool { return m.WayOut != process.OutAsFits })
	d.Name(&m.Revision, "revision").OmitEmpty()
	d.Name(&m.Tooling, "tooling").OmitEmpty()
	d.Text(&e.With, "cut_with").OmitEmpty()
	d.Name(&m.Sweeps, "sweeps").OmitEmpty()
	d.Name(&m.Program, "program").OmitEmpty()
	d.Name(&m.ProgramSum, "program_check_sum").OmitEmpty()
	d.Count(&e.ReplacedBy, "replaced_by_entry").OmitEmpty()
	d.Text(&e.ReplacedWho, "replaced_by").OmitEmpty()
	d.Worked("named, in Readings, or the place in the file", &m.Station, &m.Sizes, &m.Place)
}

// cutWith is with which bar and cutter an entry was cut, where not all bores are cut with those of
// the job; "": with none that its bore has now.
func cutWith(job *process.Job, m process.Measured) string {
	i := job.BoreAt(m.Station)
	if i < 0 || m.Tooling == "" || !slices.ContainsFunc(job.AllTools(), func(t *process.Tools) bool { return t != nil }) {
		return ""
	}
	for _, t := range []*process.Tools{job.ToolsOf(i, false), job.ToolsOf(i, true)} {
		if k := job.Using(t); marks.Tooling(k) == m.Tooling {
			return k.ToolsCalled()
		}
	}
	return ""
}

// Entries are all the entries of a job in the order of entering. first is the plan before
// anything was cut.
func Entries(first *plan.Plan, results *process.Results) (all []Entry) {
	if results == nil {
		return nil
	}
	for i, m := range results.Entries {
		if m.Visit == 0 {
			m.Visit = 1 // where no plan has it
			if bore, visit, q := first.Pass(m.Station, m.Pass); q != nil {
				m.Visit = first.Bores[bore].Visits[visit].N
			}
		}
		e := Entry{N: i + 1, Station: first.Job.Stations[m.Station].Name, As: m, With: cutWith(first.Job, m)}
		for _, s := range m.Sizes {
			r := Reading{Size: s}
			if warm.AtReference(m) {
				r.AtTwenty = warm.AtTwenty(m, s.Diameter, metalOf(first.Job, m).Alpha)
			}
			e.Readings = append(e.Readings, r)
		}
		for k, later := range results.Entries[i+1:] {
			if later.Station == m.Station && later.Pass == m.Pass {
				e.ReplacedBy, e.ReplacedWho = i+k+2, later.By
				break
			}
		}
		all = append(all, e)
	}
	return all
}

// metalOf is what was gauged: the sleeve from the visit after the housing's on.
func metalOf(job *process.Job, m process.Measured) *process.Material {
	if i := job.BoreAt(m.Station); i >= 0 && job.Bores[i].Repair == process.SleeveRepair && job.Sleeve != nil && m.Visit > 1 {
		return job.Sleeve.Material
	}
	return job.Material
}

// Deviations are what of a record is not as asked, a sentence each: for the customer to take
// or to refuse.
func Deviations(rows []AsBuilt) (all []fact.Fact) {
	for _, a := range rows {
		of := func(kind fact.Kind, args ...fact.Arg) {
			all = append(all, fact.New(OfVisit, fact.Name(a.Station), fact.Count(a.Visit), fact.New(kind, args...)))
		}
		switch {
		case len(a.Cuts) == 0:
			of(DeviatesOpen)
			continue
		case !a.Done && a.Off <= 0:
			of(DeviatesUnfinished, fact.Count(a.PassesLeft))
		case a.Off > 0:
			of(DeviatesOver, fact.Size(a.Least), fact.Size(a.Most), fact.Figure(a.Off))
		case a.Off < 0:
			of(DeviatesUnder, fact.Size(a.Least), fact.Size(a.Most), fact.Figure(-a.Off))
		}
		if a.RaFound > 0 && !a.RaIn {
			of(DeviatesRa, fact.Figure(qty.Roughness(a.RaFound)), fact.Figure(qty.Roughness(a.Ra)))
		}
		if a.Round == ShownOut {
			of(DeviatesRound, fact.Figure(qty.Fine(a.Uneven)), fact.Figure(qty.Fine(a.Roundness)))
		}
		if a.ClearanceAsked[1] > 0 && !a.ClearanceIn {
			of(DeviatesClearance, fact.Figure(a.Clearance[0]), fact.Figure(a.Clearance[1]), fact.Figure(a.ClearanceAsked[0]), fact.Figure(a.ClearanceAsked[1]))
		}
	}
	return all
}
