package plan

import (
	"borewright/process"
	"borewright/process/qty"
)

// visits lays out the visits of a bore, without passes: what is cut each time,
// from what and to what limits; and the sleeve, where there is one. housing is
// what its housing measures, least and most, where it was bored and found good.
func visits(s *setup, b process.Bore, shape found, housing [2]qty.Diameter) (*Sleeve, []PassVisit, error) {
	if b.Repair == process.SleeveRepair {
		try := func(v PassVisit) trialVisit { return trial(s, v, b.Station) }
		return sleeved(s.job, b, [2]qty.Diameter{shape.least, shape.most}, housing, try)
	}
	return nil, []PassVisit{{
		N: 1, Title: "rebore to size", Material: s.job.Material,
		Start: shape.least, StartMost: shape.most, Limits: finishLimits(s.job.Units, b), Ra: b.Ra, Roundness: b.Roundness,
	}}, nil
}

// trial plans a visit to see what it can hold.
func trial(s *setup, v PassVisit, station int) trialVisit {
	t := trialVisit{PassVisit: v}
	st := s.job.Stations[station]
	s.lay(&t.PassVisit, st)
	once := *s
	once.trials = false // the chance is worked out for visits that are planned in earnest
	r, err := once.newRoom(&t.PassVisit, st, false)
	if err != nil {
		t.why = err.Error()
	} else {
		t.why = r.plan(1)
	}
	if t.why != "" {
		return t
	}
	if way, err := newReach(s, nil, station, &t.PassVisit); err != nil {
		t.why = err.Error()
	} else if t.why = way.bringIn(s.job, &t.PassVisit); len(way.Why) > 0 {
		t.why = way.refusal(s.job.Units)
	}
	return t
}
