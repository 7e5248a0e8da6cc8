package plan

import (
	"sync"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
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
	brief                   // without the trials and without reasons: only what can be planned
)

// try plans without looking for ways out.
func try(job *process.Job, k *measured.Learned, how effort) *Plan {
	p := &Plan{Job: job, Feasible: true, known: k, made: true, bushes: map[string]*place.Bush{}, listed: new(sync.Map)}
	p.Seek = sync.OnceValue(func() ways.Found { return ways.Free(p.asked(), p.outcome()) })
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
	s.Trials, s.Brief, p.with = how == inEarnest, how == brief, s
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
	p.work(how)
	p.sayRemarks()
	p.Cautions = once(job.Units, p.Cautions)
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

// slideBack is how well a cross slide comes back to the figure that it stood at, from
// the side from which it was set, ±: 0.0002 in or 0.005 mm (common practice, no source).
// Where the tip is moved off the wall by it, the next pass is cut about an axis that is
// off by as much; its size and its roundness are not. 0: the slide is not moved before
// the last pass.
func slideBack(job *process.Job, v *schedule.Visit) qty.Length {
	n := len(v.Passes)
	moved := n > 1 && v.Passes[n-2].Out.By == process.ShiftOut || n == 1 && v.Behind > 0 && v.LastOut.By == process.ShiftOut
	if job.Machine.Control != nil || !moved {
		return 0
	}
	return job.Round(0.005, 0.0002)
}
