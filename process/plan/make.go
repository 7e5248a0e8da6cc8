package plan

import (
	"slices"
	"sync"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/setup"
	"borewright/process/sleeve"
	"borewright/process/turns"
	"borewright/process/ways"
)

// Make plans a job: every bore, every visit, every pass, or the reasons why
// not. It never fails on a job that Load accepted; a plan that cannot meet the
// drawing comes back with Feasible false, and its passes are those that could
// be planned.
func Make(job *process.Job) *Plan {
	job, none := tooled(job)
	if none != nil {
		return none
	}
	return finished(try(job, nil, inEarnest))
}

// finished adds what would shorten a long plan.
func finished(p *Plan) *Plan {
	if what := p.longCutting(); !what.None() {
		p.Cautions = append(p.Cautions, what)
	}
	return p
}

// attempt plans without looking for ways out and without the trials. k is what
// measurements have taught, nil where there are none.
func attempt(job *process.Job, k *measured.Learned) *Plan { return try(job, k, untried) }

// effort is how much of a plan is worked out.
type effort int

const (
	inEarnest effort = iota // all of it
	untried                 // without the trials of the chance, which change no pass but for stops
	weighed                 // with the trials, without what paper alone shows; so are those that follow
	judged                  // without the trials; of reasons how many there are and how far it is from standing
	brief                   // without the trials and without reasons: only what can be planned
	stands                  // the same, and nothing where something bars it
)

// try plans without looking for ways out.
func try(job *process.Job, k *measured.Learned, how effort) *Plan {
	p := &Plan{Job: job, Feasible: true, known: k, made: true, bushes: map[string]*place.Bush{}, listed: new(sync.Map), how: how}
	p.Seek = sync.OnceValue(func() ways.Found { return ways.Free(p.asked(), try(p.Job, p.known, judged).outcome()) })
	bar, err := setup.New(job)
	if err != nil {
		p.stop(job.Where("bar"), fact.New(BarUnknown, fact.Because(err)))
		return p
	}
	s := passes.New(bar)
	if why := place.QuillShort(job); !why.None() {
		p.stop(job.Where("bar.standoff"), why)
	}
	if k != nil {
		s.Learned = k
	}
	s.Trials, s.Brief, s.Untold, p.with = how == inEarnest || how == weighed, how >= brief, how == judged, s
	if why := tooLong(bar); !why.None() {
		p.stop(job.Where("bar"), why)
	}
	if p.bothSides(); p.sides == nil {
		p.Cautions = p.mindTools(nil, bar)
	}
	p.checkTools()
	if p.sides == nil {
		p.LineUp = p.lineUp(job)
		p.Cautions = append(p.Cautions, turns.Far(job, p.LineUp)...)
	}
	if p.barred() {
		return p
	}
	p.work()
	p.sayRemarks()
	p.Cautions = fact.Once(job.Units, p.Cautions)
	return p
}

// Planned is whether the planner made this plan, from a job that Load accepted.
func (p *Plan) Planned() bool { return p.made }

// Another plans another job with what was learned for this plan.
func (p *Plan) Another(job *process.Job) *Plan {
	job, none := tooled(job)
	if none != nil {
		return none
	}
	return try(job, p.known, inEarnest)
}

func (p *Plan) stop(where string, what fact.Fact) {
	p.Feasible = false
	p.Reasons = append(p.Reasons, Reason{Where: where, What: what})
}

// stopVisit is stop by what stops one visit, which a sleeve may have said of its inside already.
func (p *Plan) stopVisit(where string, what func(fact.Fact) fact.Fact, why fact.Fact) {
	p.Reasons = slices.DeleteFunc(p.Reasons, func(r Reason) bool { return p.how < judged && sleeve.InsideStopped(r.What.Nth(2), why) })
	p.stop(where, what(why))
}

// stopAnyBar is stop by something that no other bar would free: it is the sleeve's, the casting's or the sweeps'.
func (p *Plan) stopAnyBar(where string, what fact.Fact) {
	p.stop(where, what)
	p.Reasons[len(p.Reasons)-1].anyBar = true
}

// planned plans the passes of a visit, numbered from first; once more where a line that
// a roughing pass leaves as it is drawn out would not be cut away by the next: then none
// is drawn out.
func planned(s *passes.Planning, v *Visit, st process.Station, witness bool, first int) (*passes.Planner, fact.Fact) {
	for {
		r, err := s.Prepare(&v.Visit, st, witness)
		if err != nil {
			return nil, fact.Because(err)
		}
		why := r.Plan(first)
		pass, kept := v.LineKept()
		if !why.None() || !kept || pass < 0 {
			return r, why
		}
		v.OutOfLine(pass)
		v.Passes = nil
	}
}
