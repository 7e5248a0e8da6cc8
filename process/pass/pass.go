// Package pass is one pass of a visit, whatever comes before and after it: what it does
// to the bore, how long it takes, how well its size can be known beforehand, and how near
// it comes to each limit of job, machine and bar. What a pass may be is decided here; which
// passes a visit is made of, and in what order, is decided by the search in
// process/passes. Forces, spring and stability of a cut come from process/setup.
package pass

import (
	"math"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Judge judges the passes of one visit, cut by the edge as it is worn in them.
type Judge struct {
	*setup.Setup
	*setup.Edge
	Visit     *schedule.Visit
	Aim       float64    // radius aimed at, mm
	DepthMost float64    // deepest cut that job, bar and relief allow
	Measured  bool       // the bore as it stands was measured
	AnyMove   bool       // the cutter may be closed, or hardly moved, from one pass to the next: nothing else lands
	CountOn   float64    // share of the tolerance of size that a search counts on; 0: all of it
	Thicker   float64    // times LeastCut that a search asks for; 0: once
	MoveBinds *bool      // set where that keeps a pass from being cut; nil: nowhere
	Gather    *[]Verdict // where every limit of a pass is gathered that is judged; nil: nowhere
	worn

	depthBy fact.Fact               // which of them limits the depth
	priced  map[pricesOf][][]prices // of tables, whatever the wear
}

// New judges a visit whose From, To, Clear, Limits, Start and Material are filled in. It
// fills in where the visit ends and what the bar does along it.
func New(s *setup.Setup, v *schedule.Visit, st process.Station) (*Judge, error) {
	job := s.Job
	r := &Judge{Setup: s, Visit: v, Measured: v.Behind > 0, Aim: v.Limits.Aim.MM() / 2, priced: map[pricesOf][][]prices{}}
	r.DepthMost = job.Limits.DepthMost.MM() * setup.DepthShare(r.Overhang, r.Held)
	r.depthBy = fact.New(schedule.DepthByJob)
	if r.DepthMost < job.Limits.DepthMost.MM() {
		r.depthBy = fact.New(schedule.DepthByOverhang, fact.Value(qty.KindRatio, r.Overhang))
	}
	nose, lead := job.Cutter.NoseRadius.MM(), job.Cutter.Lead
	if st.Blind { // the run-out groove limits the depth of cut as well as the travel
		if most := cut.RunOutDepth(nose, lead, (st.Relief - process.RunOut).MM()); most < r.DepthMost {
			r.DepthMost, r.depthBy = most, fact.New(schedule.DepthByRunOut)
		}
	}
	past := cut.RunOut(nose, lead, math.Min(r.DepthMost, math.Max(0, r.Aim-v.Start.MM()/2))) + process.RunOut.MM()
	v.End = v.To + job.Units.Round(qty.FromMM(past))
	if most := v.To + st.Relief - process.RunOut/2; st.Blind && v.End > most {
		v.End = job.Units.Round(most)
	}
	return r, r.edge()
}

// edge sets the edge to the metal along the cut.
func (r *Judge) edge() (err error) {
	v := r.Visit
	if r.Edge, err = r.Setup.Edge(v.Material, r.Aim, v.From, v.End); err != nil {
		return err
	}
	r.Edge = r.Worn(r.FlankFound().Likely)
	v.Along = nil
	for _, at := range r.Along {
		v.Along = append(v.Along, schedule.AlongPoint{Depth: at.Depth, Compliance: at.Radial * 1e3})
	}
	v.Compliance = [2]float64{r.Stiff.Radial * 1e3, r.Soft.Radial * 1e3}
	v.Overhang, v.Bar = r.Overhang, r.BarAt(v.End)
	return nil
}
