package plan

import (
	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/pass"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/sleeve"
)

// visits lays out the visits of a bore, without passes: what is cut each time,
// from what and to what limits; and the sleeve, where there is one. housing is
// what its housing measures, least and most, where it was bored and found good. leaves is the
// edge that the visit to the housing leaves for the inside, and the number of the next pass; false where nobody asks for that; nil: it is as the job begins.
func visits(s *passes.Planning, b process.Bore, shape place.Found, housing [2]qty.Diameter, leaves func(house schedule.Visit) (edge *schedule.EdgeFound, next int, is bool)) (*sleeve.Sleeve, []schedule.Visit, error) {
	if b.Repair == process.SleeveRepair {
		try := func(house, inside schedule.Visit) sleeve.Trial {
			next, is := 1, false
			if leaves != nil {
				if inside.Flank, next, is = leaves(house); !is {
					return sleeve.Trial{Why: fact.New(NoPlan)}
				}
			}
			return trial(s, inside, b.Station, next)
		}
		return sleeve.WorkOut(s.Job, b, [2]qty.Diameter{shape.Least, shape.Most}, housing, try)
	}
	return nil, []schedule.Visit{reboring(s, b, shape)}, nil
}

// reboring is the visit to a bore that gets no sleeve.
func reboring(s *passes.Planning, b process.Bore, shape place.Found) schedule.Visit {
	return schedule.Visit{
		N: 1, Title: fact.New(Rebore), Material: s.Job.Material,
		Start: shape.Least, StartMost: shape.Most, Limits: schedule.FinishLimits(s.Job.Units, b), Ra: b.Ra, Roundness: b.Roundness,
	}
}

// visitsOf are the visits of a bore of a job, by its index, without passes, as they are laid out from its
// face and with its tools, by what was learned; nil: nothing was.
func visitsOf(job *process.Job, bore int, k *measured.Learned) ([]schedule.Visit, error) {
	tools := job.ToolsOf(bore, false)
	seen := faces.Of(job, bore).Using(tools)
	bar, err := setup.New(seen)
	if err != nil {
		return nil, err
	}
	s, b := passes.New(bar), seen.Bores[bore]
	if k != nil {
		s.Learned = knownOf{k, tools}
	}
	_, all, err := visits(s, b, place.AsFound(seen.Stations[b.Station], b), k.Housing(job, job.Bores[bore]), nil)
	return all, err
}

// housed is the edge as the visit to the housing of a bore leaves it, or what is left of that
// visit by what was measured, begun with an edge, and the number of the next pass.
func (p *Plan) housed(s *passes.Planning, bore int, house schedule.Visit, edge *schedule.EdgeFound) (leaves *schedule.EdgeFound, next int, is bool) {
	b := p.Job.Bores[bore]
	st := p.Job.Stations[b.Station]
	left := p.known.Rest(p.Job, bore, []schedule.Visit{house}, 1)
	if len(left.Visits) == 0 {
		return edge, left.Next, true
	}
	v := Visit{Visit: left.Visits[0]}
	v.begin(s, p.line(s.Job), s.Job.Bores[bore].Station, edge)
	once := *s
	once.Trials = false
	if _, why := planned(&once, &v, st, b.Witness && left.Next == 1, left.Next); !why.None() && p.how == stands && len(p.Job.Bores) == 1 {
		p.stop("", why) // of several it may do where it is roughed apart
	}
	return v.EdgeAfter(st.Name), left.Next + len(v.Passes), !p.hopeless()
}

// begin says how far the cutter of a visit travels, and by which edge it begins where none of
// it was measured.
func (v *Visit) begin(s *passes.Planning, l *place.LineUp, station int, edge *schedule.EdgeFound) {
	pass.Travel(s.Setup, &v.Visit, s.Job.Stations[station])
	v.WayIn = place.WayIn(s.Setup, l, station, &v.Visit)
	if v.Flank == nil {
		v.Flank = edge
	}
}

// trial plans a visit, its passes numbered from first, to see what it can hold.
func trial(s *passes.Planning, v schedule.Visit, station, first int) sleeve.Trial {
	t := sleeve.Trial{Visit: v}
	st := s.Job.Stations[station]
	pass.Travel(s.Setup, &t.Visit, st)
	t.Visit.WayIn = place.WayIn(s.Setup, nil, station, &t.Visit)
	r, err := s.Prepare(&t.Visit, st, false)
	if err != nil {
		t.Why = fact.Because(err)
	} else {
		t.Why = r.Plan(first)
	}
	if !t.Why.None() {
		return t
	}
	way, err := place.NewReach(s.Setup, nil, station, &t.Visit)
	if err != nil {
		t.Why = fact.Because(err)
		return t
	}
	why := way.BringIn(s.Job, &t.Visit)
	if len(way.Why) > 0 {
		why = way.Refusal()
	}
	t.Why = why
	return t
}

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
