// Package head says what a job is, in the lines that stand at the head of every
// paper: its number and revision, machine, material, bores and sleeve, in the
// units of the job.
package head

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/document"
	"borewright/sheets/words"
)

// Head is a plan with all that its papers name. What a job may lack is filled
// in, so that no paper needs to ask.
type Head struct {
	Plan    *plan.Plan
	Job     *process.Job
	Machine *process.Machine
	U       qty.Unit
	Words   words.Words // in U
	Known   string      // the plan's check sum, where somebody has worked it out; it takes a while
}

// Of is the head of a plan; nil stands for a plan that is not there.
func Of(p *plan.Plan) Head {
	if p == nil {
		p = &plan.Plan{Reasons: []plan.Reason{{What: fact.New(plan.NoPlan)}}}
	}
	h := Head{Plan: p, Job: p.JobNow()}
	if h.Job == nil {
		h.Job = &process.Job{}
	}
	if h.Machine = h.Job.Machine; h.Machine == nil {
		h.Machine = &process.Machine{Name: "not stated"}
	}
	h.U = h.Job.Units
	h.Words = words.In(h.U)
	return h
}

// For is the head for the papers of one visit, with bar and cutter of that visit in the job.
func (h Head) For(bore, visit int) Head {
	t := h.Plan.Bores[bore].Visits[visit].Tools
	if t == nil && !h.Plan.BothFaces() {
		return h
	}
	h.Known = strings.TrimSuffix(h.Sum(), ofPlanJSON)
	face := h.Plan.Bores[bore].Bore.Face
	h.Plan, h.Job = h.Plan.For(bore, visit), h.Plan.Seen(h.Job, face).Using(t)
	if h.Job.Machine != nil {
		h.Machine = h.Job.Machine
	}
	return h
}

// ToolsSaid names bar and cutter.
func (h Head) ToolsSaid() string { return h.Job.ToolsCalled() }

// Name is the job by number and revision.
func (h Head) Name() string {
	s := h.Job.Number
	if s == "" {
		s = "job without number"
	}
	if h.Job.Revision != "" {
		s += ", revision " + h.Job.Revision
	}
	return s
}

// MachineName is what the machine is called.
func (h Head) MachineName() string {
	if h.Machine.Name != "" {
		return h.Machine.Name
	}
	return h.Machine.ID
}

// Material is what a material is called; nil is one that is not stated.
func Material(m *process.Material) string {
	switch {
	case m == nil:
		return "not stated"
	case m.Name != "":
		return m.Name
	}
	return m.ID
}

// Lines say what the job is, a name and a value each. sleeve ends the line of the
// sleeve; time, where it is not "", is how long all takes.
func (h Head) Lines(sleeve, time string) [][2]string {
	j := h.Job
	all := [][2]string{{"Job", j.Number}, {"Revision", h.revision()}, {"Work", j.Title}, {"Customer", j.Customer},
		{"Machine", h.MachineName()}, {"Material", Material(j.Material)}}
	for _, x := range h.Plan.Bores {
		all = append(all, [2]string{fmt.Sprintf("Bore %d", h.BoreNumber(x)), h.Bore(x)})
	}
	if j.Sleeve != nil {
		all = append(all, [2]string{"Sleeve", h.Sleeve(j.Sleeve) + sleeve})
	}
	all = append(all, [2]string{"Time", time}, [2]string{"Units", h.U.Word() + "; sizes are diameters; depths count inward from the face"})
	return slices.DeleteFunc(all, func(l [2]string) bool { return l[1] == "" })
}

// revision is that of the job, with the check sum of its plan.
func (h Head) revision() string {
	if s := h.Sum(); s != "" {
		return strings.TrimSpace(h.Job.Revision + " (check sum " + s + ")")
	}
	return h.Job.Revision
}

// ofPlanJSON is what a sum is of.
const ofPlanJSON = ", of plan.json"

// Sum is the check sum of the plan, "" of none that is whole.
func (h Head) Sum() string {
	s := h.Known
	if s == "" && h.Plan.Job != nil {
		s = document.Sum(h.Plan)
	}
	if s == "" {
		return ""
	}
	return s + ofPlanJSON
}

// BoreNumber counts as the job does, also on a sheet for the rest.
func (h Head) BoreNumber(x plan.Bore) int { return 1 + h.Job.BoreAt(x.Bore.Station) }

// Bore is the line of one bore: station, repair and limits.
func (h Head) Bore(x plan.Bore) string {
	f := x.Bore.Finish
	s := x.Station.Name + ": " + x.Bore.Repair.String() + ", to land " + h.U.SayLimitsOfSize(f.Low, f.High)
	if n := h.FitName(f.Nominal, f.Fit); n != "" {
		s += " (" + n + ")"
	}
	return s
}

// Landing is what stands behind limits of size: the fit that they are, and by how much they
// are moved for work that was gauged warm or cold.
func (h Head) Landing(nominal qty.Diameter, l schedule.Limits) string {
	s, at := h.FitName(nominal, l.Fit), h.U.Say(qty.FromCelsius(20))
	switch {
	case l.Warm > 0:
		s = strings.TrimPrefix(s+", "+h.U.Say(l.Warm)+" over it at "+at+": the work is warm", ", ")
	case l.Warm < 0:
		s = strings.TrimPrefix(s+", "+h.U.Say(-l.Warm)+" under it at "+at+": the work is cold", ", ")
	}
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}

// FitName is "Ø3.1496 H7" as drawings write it, or "" without a fit.
func (h Head) FitName(nominal qty.Diameter, fit string) string {
	switch {
	case fit == "":
		return ""
	case nominal > 0:
		return "Ø" + h.U.Bare(nominal) + " " + fit
	}
	return fit
}

// Sleeve is the line of a sleeve: metal, outside, how it is held, fit, length.
func (h Head) Sleeve(s *process.Sleeve) string {
	out := Material(s.Material) + ", outside " + h.U.SayBoth(s.Outside)
	if s.Hold == process.Bond {
		out += ", bonded"
		if s.Gap > 0 {
			out += " with a gap of " + h.U.Say(qty.Plain(s.Gap)) + " on diameter"
		}
	} else {
		out += ", pressed or shrunk in"
	}
	if s.Fit != "" {
		out += ", " + s.Fit
	}
	if s.Length > 0 {
		out += ", " + h.U.Say(qty.Plain(s.Length)) + " long"
	}
	return out
}

// Relief ends a line about a closed bore: how far the tip may go past its end.
func (h Head) Relief(s process.Station) string {
	if s.Relief <= 0 {
		return ", no relief behind it"
	}
	return ", relief to " + h.U.Say(s.To+s.Relief)
}

// SetTo is what the cutter was set to for a cut, "" where nothing was cut.
func (h Head) SetTo(c measured.Cut) string {
	if c.Setting == 0 {
		return ""
	}
	return h.U.Bare(c.Setting)
}

// Called is how a heading tells the works on a bore apart: ", visit 1 of 2"; "" where there is
// one. Roughing and finish of a work are told apart by its title.
func Called(x plan.Bore, visit int) string {
	if n := x.Works(); n > 1 {
		return fmt.Sprintf(", visit %d of %d", x.Work(visit), n)
	}
	return ""
}

// AtSetting says with which others a bore is cut through at one setting; "" where it is cut alone.
func AtSetting(x plan.Bore, visit int) string {
	v := &x.Visits[visit]
	switch name := x.Station.Name; {
	case len(v.Together) == 0:
		return ""
	case v.Leads(name):
		return ", at one setting with " + List(v.Together[1:])
	}
	return ", at the setting of " + v.Together[0]
}

// List joins names in a sentence.
func List(names []string) string {
	n := len(names) - 1
	if n < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:n], ", ") + " and " + names[n]
}
