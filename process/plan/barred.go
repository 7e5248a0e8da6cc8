package plan

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/sleeve"
)

// barred is whether something stops a plan that is tried whatever its passes are: a sleeve that does not
// bear its load, a spindle that turns less round than is asked for, a limit that no last pass keeps. Where
// reasons count there is one for each, and for each bar that does not get there besides.
func (p *Plan) barred() bool {
	if p.how != judged && p.how != stands {
		return false
	}
	var first []*Visit
	for i := 0; i < len(p.Job.Bores) && !p.hopeless(); i++ {
		first = append(first, p.bar(i))
	}
	p.bars = !p.Feasible
	for i, v := range first {
		if p.bars && p.how == judged && v != nil {
			s := p.by(i, false)
			p.reach(s.Setup, s.Job.Bores[i].Station, v, func(f fact.Fact) fact.Fact { return f })
		}
	}
	return p.bars
}

// hopeless is whether no more is asked of a plan, because it does not stand.
func (p *Plan) hopeless() bool { return p.how >= brief && !p.Feasible }

// bar stops the plan for what bars the first visit to a bore, which it gives without passes; nil: none.
func (p *Plan) bar(i int) *Visit {
	s := p.by(i, false)
	b, st := s.Job.Bores[i], p.Job.Stations[p.Job.Bores[i].Station]
	shape, housing := place.AsFound(st, b), p.known.Housing(p.Job, p.Job.Bores[i])
	first, stops, err := reboring(s, b, shape), []fact.Fact(nil), error(nil)
	if b.Repair == process.SleeveRepair {
		stops, first, err = sleeve.Barred(s.Job, b, [2]qty.Diameter{shape.Least, shape.Most}, housing)
	}
	for _, why := range stops {
		p.stopAnyBar("", why)
	}
	if err != nil || p.hopeless() {
		return nil // what errors there are the search says
	}
	left := p.known.Rest(p.Job, i, []schedule.Visit{first}, 1)
	if len(left.Visits) == 0 || len(left.Stops) > 0 {
		return nil
	}
	v := &Visit{Visit: left.Visits[0]}
	if why := place.TooLittleLeft(p.Job, st, v.Limits.High, b.Repair == process.SleeveRepair); !why.None() {
		p.stopAnyBar("", why)
	}
	v.begin(s, nil, s.Job.Bores[i].Station, p.edge(s))
	if r, err := s.Prepare(&v.Visit, st, false); err == nil {
		if short, is := r.Barred(); is {
			p.short = max(p.short, short)
			p.stop("", fact.New(NoPlan))
		}
	}
	return v
}
