package measured

import (
	"borewright/process"
	"borewright/process/warm"
)

// Work is where the work on a job stands.
type Work int

// The answers.
const (
	NotBegun Work = iota // nothing was measured
	InWork               // passes were measured, and more are to be cut
	Held                 // the last size lies outside what the sheet said: look before going on
	Finished             // every bore is within its limits
	Out                  // a bore is outside its limits, and no cut brings it back
)

// JobStand is where a job stands by its entries alone. Nothing is planned: it is for lists of
// many jobs. What a plan knows besides (a housing out of its limits, a line-up that a witness cut
// does not confirm) is not in it.
type JobStand struct {
	Work    Work
	Station string // the bore that says so; "" where none or all do
	Pass    int    // that was measured last there
	Done    int    // bores that are finished
}

// StandOf is where a job stands by its results.
func StandOf(job *process.Job, results *process.Results) (s JobStand) {
	if results == nil || len(results.Entries) == 0 {
		return s
	}
	latest := results.Entries[len(results.Entries)-1].Station
	for _, b := range job.Bores {
		e, of := lastOf(results, b.Station), Work(NotBegun)
		if e != nil {
			of = standsBy(job, b, e)
		}
		switch {
		case of == Finished:
			s.Done++
		case of > s.Work || of == s.Work && of != NotBegun && b.Station == latest:
			s.Work, s.Station, s.Pass = of, job.Stations[b.Station].Name, e.Pass
		}
	}
	switch {
	case s.Done == len(job.Bores):
		s.Work = Finished
	case s.Work == NotBegun: // some are finished, and the others not begun
		s.Work = InWork
	}
	return s
}

// lastOf is the last entry of the highest pass of a bore; nil: there is none.
func lastOf(results *process.Results, station int) (last *process.Measured) {
	for i := range results.Entries {
		if e := &results.Entries[i]; e.Station == station && (last == nil || e.Pass >= last.Pass) {
			last = e
		}
	}
	return last
}

// standsBy is where one bore stands by its last entry.
func standsBy(job *process.Job, b process.Bore, e *process.Measured) Work {
	material, housing := job.Material, false
	if b.Repair == process.SleeveRepair && job.Sleeve != nil {
		if e.Visit >= HomeVisit || e.Kind == process.SleeveFitted {
			material = job.Sleeve.Material
		} else {
			housing = true // its limits are not those of the bore
		}
	}
	low, high := warm.AtTwenty(*e, e.Least(), material.Alpha), warm.AtTwenty(*e, e.Most(), material.Alpha)
	last := e.Kind == process.FinishCut || e.Kind == process.SleeveFitted
	switch {
	case !housing && e.CutTo == 0 && low >= b.Finish.Low && high <= b.Finish.High:
		return Finished
	case !housing && (low > b.Finish.High || last && high > b.Finish.High || e.Kind == process.SleeveFitted && low < b.Finish.Low):
		return Out
	case e.Low > 0 && e.Mean() < e.Low || e.High > 0 && e.Mean() > e.High:
		return Held
	}
	return InWork
}
