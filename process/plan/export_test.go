package plan

import (
	"sync"

	"borewright/process"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/ways"
)

// What the tests see of the way through; they stand outside, where facts have
// words.

var (
	Attempt      = attempt
	LeastHousing = place.LeastHousing
	Narrowest    = ways.Narrowest
)

// AttemptAfter plans after results, without the ways out and without trials.
func AttemptAfter(job *process.Job, r *process.Results) (*Plan, error) {
	k, err := learned(job, r)
	if err != nil {
		return nil, err
	}
	p := attempt(job, k)
	p.Findings = k.Findings
	return p, nil
}

// WithBar is a job with its steps changed, nil where they cannot be.
func WithBar(job *process.Job, f func(steps []process.Step) bool) *process.Job {
	j := *job
	j.Bar.Steps = append([]process.Step(nil), job.Bar.Steps...)
	if !f(j.Bar.Steps) {
		return nil
	}
	return &j
}

// Sought plans in earnest without the ways out.
func Sought(job *process.Job) *Plan { return try(job, nil, inEarnest) }

// Tries are the changed jobs that the search of what frees a plan plans, each with how much of it was asked
// for and what came of it; and what is found.
func Tries(p *Plan) (all []Tried, found ways.Found) {
	a := p.asked()
	plans, mu := a.Try, sync.Mutex{}
	a.Try = func(job *process.Job, how ways.Effort) ways.Outcome {
		o := plans(job, how)
		mu.Lock()
		defer mu.Unlock()
		all = append(all, Tried{job, how, o})
		return o
	}
	now := a.Try(p.Job, ways.Judged)
	found = ways.Free(a, now)
	return all, found
}

// Tried is one of them.
type Tried struct {
	Job *process.Job
	How ways.Effort
	ways.Outcome
}

// AsksForFirst is whether entries ask for the plan as it was made before anything was measured.
func AsksForFirst(job *process.Job, r *process.Results) (asked bool, err error) {
	bar, err := setup.New(job)
	if err != nil {
		return false, err
	}
	_, err = learnedBy(passes.New(bar), r, func(b process.Bore) ([]schedule.Visit, error) { return visitsOf(job, job.BoreAt(b.Station), nil) },
		func() []Bore { asked = true; return attempt(job, nil).Bores })
	return asked, err
}
