package pass

import (
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Uneven is by how much a pass makes a bore out of round itself, radial peak to valley:
// by the error of the spindle in its bearings, or of journals and bearings of a line bar, and by the play of a bearing, as
// the bar stands differently in its bush while the tip goes round. The two lie as they
// happen to, and add at the worst.
func (r *Judge) Uneven(c Cut) float64 { return r.Job.Runout().MM() + r.swung(c) }

// Across is by how much a two-point diameter stands above and below its middle for what
// Uneven is. Of the lobes that a spindle makes an even number shows across the bore in
// full, an odd number not at all; which they are is not known, so half of it counts.
func (r *Judge) Across(c Cut) float64 { return r.Job.Runout().MM()/2 + r.swung(c) }

// TurnsOut says that what turns leaves a bore further out of round than is asked for.
func (r *Judge) TurnsOut(turns qty.Length) fact.Fact {
	kind := fact.Kind(schedule.TurnsOut)
	if r.Job.Bar.Inboard != nil {
		kind = schedule.JournalsOut
	}
	return fact.New(kind, fact.Figure(turns), fact.Figure(r.Visit.Roundness))
}

// swung is what the play of a bearing does.
func (r *Judge) swung(c Cut) float64 {
	force, way := c.Force, setup.In
	if c.Fed {
		force, way = c.Back, setup.Out
	}
	b, _ := r.Bush(force, c.Radius, way)
	return b.Uneven
}
