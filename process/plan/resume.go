package plan

import (
	"slices"
	"sync"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/passes"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Resume is how a visit, by the indices of bore and visit, goes on once an entry more was taken:
// what is left of it as MakeAfter plans it, without the chance and what is cut at its mouth. nil:
// nothing of it is left, or there is no way on.
func (p *Plan) Resume(bore, visit int) func(process.Measured) *Visit {
	if !p.made || p.with == nil {
		return func(process.Measured) *Visit { return nil }
	}
	x := p.Bores[bore]
	at, learns := p.lists(p.known), p.lists(nil)
	own, err := setup.New(p.Job)
	if err != nil {
		return func(process.Measured) *Visit { return nil }
	}
	tools := x.Visits[visit].Tools
	bar, i := own, p.Job.BoreAt(x.Bore.Station)
	if seen := p.seenBy(i); tools != nil || seen != p.Job {
		if bar, err = setup.New(seen.Using(tools)); err != nil {
			return func(process.Measured) *Visit { return nil }
		}
	}
	return func(m process.Measured) *Visit {
		taught := *bar // the same bar, with what this entry teaches
		s := passes.New(&taught)
		k, err := learnedBy(passes.New(own), &process.Results{Entries: append(slices.Clone(p.entered), m)}, learns, func() []Bore { return attempt(p.Job, nil).Bores })
		if err != nil {
			return nil
		}
		all, err := at(x.Bore)
		if err != nil {
			return nil
		}
		s.Learned = knownOf{k, tools}
		left := k.Rest(p.Job, i, all, 1)
		if len(left.Stops) > 0 || len(left.Visits) == 0 || left.Visits[0].N != x.Visits[visit].N {
			return nil
		}
		v := &Visit{Visit: left.Visits[0]}
		v.Tools, v.Part = tools, x.Visits[visit].Part
		v.begin(s, p.line(s.Job), s.Job.Bores[i].Station, nil)
		if _, why := planned(s, v, x.Station, false, left.Next); !why.None() {
			return nil
		}
		q := &Plan{Job: s.Job, Feasible: true, LineUp: p.line(s.Job)}
		q.reach(s.Setup, s.Job.Bores[i].Station, v, func(f fact.Fact) fact.Fact { return f })
		if !q.Feasible {
			return nil
		}
		return v
	}
}

// listedOf is a station, and whether anything was learned.
type listedOf struct {
	station int
	learned bool
}

// lists gives the visits of a bore, without passes, by what was learned so far: each is worked out once for
// all that ask for it, side by side too.
func (p *Plan) lists(k *measured.Learned) func(process.Bore) ([]schedule.Visit, error) {
	return func(b process.Bore) ([]schedule.Visit, error) {
		once, _ := p.listed.LoadOrStore(listedOf{b.Station, k != nil}, sync.OnceValues(func() ([]schedule.Visit, error) {
			return visitsOf(p.Job, p.Job.BoreAt(b.Station), k)
		}))
		all, err := once.(func() ([]schedule.Visit, error))()
		return slices.Clone(all), err
	}
}
