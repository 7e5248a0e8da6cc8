package plan

import (
	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/setup"
)

// reach adds to a visit whether its bar gets there, and stops the plan when it
// does not.
func (p *Plan) reach(s *setup.Setup, station int, v *Visit, what func(fact.Fact) fact.Fact) {
	bar := s.Job.Where("bar")
	r, err := place.NewReach(s, p.line(s.Job), station, &v.Visit)
	if err != nil {
		why, _ := fact.Of(err)
		p.stopVisit(bar, what, fact.New(place.NoReach, why))
		return
	}
	v.Reach = r
	if tight := r.Tight(); !tight.None() {
		p.Cautions = append(p.Cautions, what(tight))
	}
	why := r.BringIn(s.Job, &v.Visit)
	if first := r.After(s.Job, station, &v.Visit); !first.None() && r.Passes() && why.None() {
		v.Before = append([]fact.Fact{first}, v.Before...)
	}
	switch {
	case len(r.Why) > 0:
		p.stopVisit(bar, what, r.Refusal())
	case !why.None():
		p.stopVisit(bar, what, why)
	}
}

// ReachVerdict is the worst of all visits.
func (p *Plan) ReachVerdict() clearance.Verdict {
	worst, seen := clearance.Free, false
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			if v.Reach == nil {
				return clearance.Blocked
			}
			worst, seen = max(worst, v.Reach.Verdict), true
		}
	}
	if !seen {
		return clearance.Blocked
	}
	return worst
}

// Passes is whether every visit of the plan has room.
func (p *Plan) Passes() bool { return p.ReachVerdict() != clearance.Blocked }
