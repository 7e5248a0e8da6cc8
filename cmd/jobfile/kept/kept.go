// Package kept has the tests of a package plan each job once, and work the tables beside its
// hold points out once. Only tests import it.
package kept

import (
	"encoding/json"
	"sync"

	"borewright/cmd/jobfile"
	"borewright/process"
	"borewright/process/plan"
	"borewright/sheets"
)

// Plans keeps what jobfile plans from here on: a job with the same results is planned once.
// What is given back has planned jobs as they were before.
func Plans() (back func()) {
	plans, tables := jobfile.MakeAfter, jobfile.CorrectionsOf
	jobfile.MakeAfter, jobfile.CorrectionsOf = keptPlans(plan.MakeAfter), keptTables()
	return func() { jobfile.MakeAfter, jobfile.CorrectionsOf = plans, tables }
}

func keptPlans(make func(*process.Job, *process.Results) *plan.Plan) func(*process.Job, *process.Results) *plan.Plan {
	var kept sync.Map
	return func(job *process.Job, results *process.Results) *plan.Plan {
		if results != nil && len(results.Entries) == 0 && results.Torn == 0 {
			results = nil // nothing is measured, and the plan is that of the job alone
		}
		key, err := json.Marshal([]any{job, results})
		if err != nil {
			panic(err)
		}
		p, there := kept.Load(string(key))
		if !there {
			p, _ = kept.LoadOrStore(string(key), make(job, results))
		}
		return p.(*plan.Plan)
	}
}

func keptTables() func(*plan.Plan) sheets.Corrections {
	var kept sync.Map
	return func(p *plan.Plan) sheets.Corrections {
		c, _ := kept.LoadOrStore(p, sheets.CorrectionsOf(p))
		return c.(sheets.Corrections)
	}
}
