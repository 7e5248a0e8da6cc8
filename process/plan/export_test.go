package plan

import (
	"borewright/process"
)

// What the tests see of the way through; they stand outside, where facts have
// words.

var (
	Attempt      = attempt
	LeastHousing = leastHousing
	Narrowest    = narrowest
	WithBar      = withBar
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

// Fatter are the jobs with a fatter bar that are tried.
func Fatter(job *process.Job) (out []*process.Job) {
	for _, c := range fatter(job) {
		out = append(out, c.job)
	}
	return out
}
