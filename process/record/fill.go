package record

import (
	"cmp"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/marks"
	"borewright/process/measured"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Next is the pass that is to be measured next at a station, "" for any: the
// first with a hold point. ok is false when none is left.
func Next(p *plan.Plan, station string) (b plan.Bore, q schedule.Pass, ok bool) {
	fits := func(b plan.Bore) bool { return station == "" || b.Station.Name == station }
	for _, t := range p.Turns() {
		b := p.Bores[t[0]]
		if !fits(b) {
			continue
		}
		for _, q := range b.Visits[t[1]].Passes {
			if station == "" && p.Waiting(p.Job.BoreAt(b.Bore.Station), q.N) {
				break // for the other bores of its setting: what comes behind is planned from all
			}
			if q.Hold != nil {
				return b, q, true
			}
		}
		if b.Home != nil && t[1] == len(b.Visits)-1 {
			return b, *b.Home, true
		}
	}
	for _, b := range p.Bores {
		if fits(b) && b.Home != nil {
			return b, *b.Home, true
		}
	}
	return plan.Bore{}, schedule.Pass{}, false
}

// Fill completes an entry from the plan that was worked to: which visit, what
// for, and the setting, feed and speed where the entry states no other. The
// error says which passes there are.
func Fill(p *plan.Plan, m process.Measured) (process.Measured, error) {
	m.Revision, m.Tooling, m.Sweeps = p.Job.Revision, marks.Tooling(p.Job), marks.LinedUpBy(p.Job)
	if i := p.Job.BoreAt(m.Station); i >= 0 {
		m.Sweeps = marks.LinedUpBy(p.Seen(p.Job, p.Job.Bores[i].Face))
		m.Tooling = marks.Tooling(p.Job.Using(p.Job.ToolsOf(i, false)))
	}
	for _, b := range p.Bores {
		if b.Bore.Station != m.Station {
			continue
		}
		for _, v := range b.Visits {
			before := v.Start
			for _, q := range v.Passes {
				if q.N == m.Pass {
					m.Tooling = marks.Tooling(p.Job.Using(v.Tools))
					m.Visit, m.Kind, m.Before = v.N, q.Kind.Cut(), cmp.Or(m.Before, before)
					m.Low, m.High = q.Low, q.High
					m.Setting, m.Feed, m.Speed, m.WayOut = cmp.Or(m.Setting, q.Setting), cmp.Or(m.Feed, q.Feed), cmp.Or(m.Speed, q.Speed), cmp.Or(m.WayOut, q.Out.By)
					m.Land = cmp.Or(m.Land, qty.FromMM(q.Edge.Mean.Likely))
					if q.Band != nil {
						m.CutTo = cmp.Or(m.CutTo, q.Band.To)
					}
					return m, nil
				}
				if q.Band == nil { // behind a band the bore is as it was
					before = q.Expected
				}
			}
		}
		if q := b.Home; q != nil && q.N == m.Pass {
			m.Visit, m.Kind, m.Low, m.High = measured.HomeVisit, q.Kind.Cut(), q.Low, q.High
			return m, nil
		}
	}
	if e, again := p.Entry(p.Job.BoreAt(m.Station), m.Pass); again {
		m.Visit, m.Kind, m.Before = e.Visit, e.Kind, cmp.Or(m.Before, e.Before)
		m.Low, m.High = e.Low, e.High
		m.Setting, m.Feed, m.Speed, m.WayOut = cmp.Or(m.Setting, e.Setting), cmp.Or(m.Feed, e.Feed), cmp.Or(m.Speed, e.Speed), cmp.Or(m.WayOut, e.WayOut)
		m.Land, m.CutTo = cmp.Or(m.Land, e.Land), cmp.Or(m.CutTo, e.CutTo)
		if t := p.Job.ToolsOf(p.Job.BoreAt(m.Station), true); marks.Tooling(p.Job.Using(t)) == e.Tooling {
			m.Tooling = e.Tooling // a rough that is entered again
		}
		return m, nil
	}
	return m, fact.New(NoPass, fact.Count(m.Pass), fact.Name(p.Job.Stations[m.Station].Name), passesLeft(p, m.Station)).Err()
}

func passesLeft(p *plan.Plan, station int) fact.Fact {
	var list []fact.Fact
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			for _, q := range v.Passes {
				if b.Bore.Station == station {
					list = append(list, fact.New(PassLeft, fact.Count(q.N), fact.Name(q.Kind.String())))
				}
			}
		}
		if b.Bore.Station == station && b.Home != nil {
			list = append(list, fact.New(PassLeft, fact.Count(b.Home.N), fact.Name(b.Home.Kind.String())))
		}
	}
	if len(list) == 0 {
		return fact.New(NothingLeft)
	}
	return fact.New(PassesLeft, fact.List(list...))
}
