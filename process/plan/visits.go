package plan

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/sleeve"
)

// visits lays out the visits of a bore, without passes: what is cut each time,
// from what and to what limits; and the sleeve, where there is one. housing is
// what its housing measures, least and most, where it was bored and found good.
func visits(s *passes.Planning, b process.Bore, shape place.Found, housing [2]qty.Diameter) (*sleeve.Sleeve, []schedule.Visit, error) {
	if b.Repair == process.SleeveRepair {
		try := func(v schedule.Visit) sleeve.Trial { return trial(s, v, b.Station) }
		return sleeve.WorkOut(s.Job, b, [2]qty.Diameter{shape.Least, shape.Most}, housing, try)
	}
	return nil, []schedule.Visit{{
		N: 1, Title: fact.New(Rebore), Material: s.Job.Material,
		Start: shape.Least, StartMost: shape.Most, Limits: schedule.FinishLimits(s.Job.Units, b), Ra: b.Ra, Roundness: b.Roundness,
	}}, nil
}

// trial plans a visit to see what it can hold.
func trial(s *passes.Planning, v schedule.Visit, station int) sleeve.Trial {
	t := sleeve.Trial{Visit: v}
	st := s.Job.Stations[station]
	pass.Travel(s.Setup, &t.Visit, st)
	once := *s
	once.Trials = false // the chance is worked out for visits that are planned in earnest
	r, err := once.Prepare(&t.Visit, st, false)
	if err != nil {
		t.Why = because(err)
	} else {
		t.Why = r.Plan(1)
	}
	if !t.Why.None() {
		return t
	}
	way, err := place.NewReach(s.Setup, nil, station, &t.Visit)
	if err != nil {
		t.Why = because(err)
		return t
	}
	why := way.BringIn(s.Job, &t.Visit)
	if len(way.Why) > 0 {
		why = way.Refusal()
	}
	t.Why = why
	return t
}
