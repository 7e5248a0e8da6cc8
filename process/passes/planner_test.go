package passes

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/fit/iso286"
	"borewright/process/onebyone"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// exampleJob reads one of the example jobs.
func exampleJob(t testing.TB, name string) *process.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", []byte(onebyone.Of(string(data))), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// firstVisit is the first visit of a job's first bore: to size, or the housing of
// a sleeve to H7, from the least and the largest radius that were read.
func firstVisit(t testing.TB, job *process.Job) schedule.Visit {
	t.Helper()
	b := job.Bores[0]
	st := job.Stations[b.Station]
	v := schedule.Visit{N: 1, Material: job.Material, Limits: schedule.FinishLimits(job.Units, b), Ra: b.Ra, Roundness: b.Roundness}
	least, most := qty.Length(math.MaxInt64), qty.Length(0)
	for _, w := range b.Wear {
		for _, r := range w.Radius {
			least, most = min(least, r), max(most, r)
		}
		for _, d := range w.Across {
			least, most = min(least, d.Radius()-b.Offset), max(most, d.Radius()+b.Offset)
		}
	}
	if most == 0 {
		least, most = st.Diameter.Radius()-b.Offset, st.Diameter.Radius()+b.Offset
	}
	v.Start, v.StartMost = qty.Diameter(2*least), qty.Diameter(2*most)
	if b.Repair == process.SleeveRepair {
		h7, err := iso286.Hole(job.Sleeve.Outside, "H7")
		if err != nil {
			t.Fatal(err)
		}
		low, high := h7.Sizes(job.Sleeve.Outside)
		v.Limits = schedule.Limits{Low: low, Aim: low.Plus(high.Minus(low) / 2), High: high}
		v.Roundness = high.Minus(low) / 2
	}
	return v
}

// plannerOf prepares a visit of a job's first bore.
func plannerOf(t testing.TB, job *process.Job, v schedule.Visit, witness bool) *Planner {
	t.Helper()
	bar, err := setup.New(job)
	if err != nil {
		t.Fatal(err)
	}
	s := New(bar)
	s.Trials = true
	st := job.Stations[job.Bores[0].Station]
	pass.Travel(s.Setup, &v, st)
	r, err := s.Prepare(&v, st, witness)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// firstPlanner plans the first visit of a job and hands its planner over.
func firstPlanner(t testing.TB, job *process.Job, change func(*process.Job)) *Planner {
	t.Helper()
	if change != nil {
		change(job)
	}
	r := plannerOf(t, job, firstVisit(t, job), true)
	if why := r.Plan(1); !why.None() {
		t.Fatal(why)
	}
	return r
}
