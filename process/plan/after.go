package plan

import (
	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/sleeve"
)

// MakeAfter plans what is left of a job after what was measured. It is the same
// planner: with no results it gives what Make gives. The spring seen corrects
// the model (see learn.go), each visit goes on from the size that was found,
// and passes are numbered on.
func MakeAfter(job *process.Job, results *process.Results) *Plan {
	if results == nil {
		return Make(job)
	}
	job, none := tooled(job)
	if none != nil {
		return none
	}
	p := makeAfter(job, results)
	if results.Torn > 0 {
		p.Cautions = append(p.Cautions, fact.New(TornEntry, fact.Name(results.File), fact.Count(results.Torn)))
	}
	return p
}

func makeAfter(job *process.Job, results *process.Results) *Plan {
	if len(results.Entries) == 0 {
		return Make(job)
	}
	if p := waiting(job, results); p != nil {
		return p
	}
	k, err := learned(job, results)
	if err != nil {
		p := try(job, nil, inEarnest)
		p.stop("", fact.Because(err))
		p.Seek = nil // nothing but another entry frees it
		return p
	}
	p := try(job, k, inEarnest)
	p.Findings, p.entered = k.Findings, results.Entries
	if n := k.NotInLine(); n > 0 && n == len(p.Reasons) {
		p.Seek = nil // the reason says what to do at the machine
	}
	if p.Feasible && len(p.Bores) == 0 {
		k.Findings.Says = append(k.Findings.Says, fact.New(AllFinished))
	}
	return finished(p)
}

// learned is what the results of a job teach.
func learned(job *process.Job, results *process.Results) (*measured.Learned, error) {
	bar, err := setup.New(job)
	if err != nil {
		return nil, err
	}
	list := func(b process.Bore) ([]schedule.Visit, error) { return visitsOf(job, job.BoreAt(b.Station), nil) }
	return learnedBy(passes.New(bar), results, list, func() []Bore { return attempt(job, nil).Bores })
}

// learnedBy is the same, asking for the visits of a bore, without passes, and for the bores as
// they were planned before anything was measured.
func learnedBy(s *passes.Planning, results *process.Results, list func(process.Bore) ([]schedule.Visit, error), asPlanned func() []Bore) (*measured.Learned, error) {
	job := s.Job
	var first []measured.PlannedBore
	with := map[cutFrom]*passes.Planning{}
	return measured.Learn(s, results, measured.Asked{
		Visits: list,
		With: func(t *process.Tools, bore int) (*passes.Planning, error) {
			seen := faces.Of(job, bore)
			if t == nil && seen == job {
				return s, nil
			}
			in := cutFrom{t, job.Bores[bore].Face}
			if with[in] == nil {
				bar, err := setup.New(seen.Using(t))
				if err != nil {
					return nil, err
				}
				with[in] = passes.New(bar)
			}
			return with[in], nil
		},
		Line: func(station int) measured.LineKnown {
			bore := job.BoreAt(station)
			seen := faces.Of(job, bore)
			l, err := place.NewLineUp(seen, s.Droop)
			if err != nil || l == nil {
				return measured.LineKnown{Within: job.Round(0.05, 0.002)}
			}
			return measured.LineKnown{Within: l.UnsureAt(job.Stations[station].Name), Off: qty.FromMM(l.At[seen.Bores[bore].Station].Length())}
		},
		First: func() []measured.PlannedBore {
			if first == nil {
				for _, b := range asPlanned() {
					p := measured.PlannedBore{Station: b.Station.Name}
					for _, v := range b.Visits {
						p.Visits = append(p.Visits, v.Visit)
					}
					first = append(first, p)
				}
			}
			return first
		},
	})
}

// obey stops the plan where measurements stop it, and takes their cautions over.
func (p *Plan) obey(s measured.Standing) {
	for _, x := range s.Stops {
		p.stopAnyBar(x.Where, x.What)
	}
	p.Cautions = append(p.Cautions, s.Cautions...)
}

// home is what is to be measured when the sleeve of a bore is home, numbered
// after the last pass; nil where it is bored in place or has been measured.
func (p *Plan) home(bore int, s *sleeve.Sleeve, n int) *schedule.Pass {
	if s == nil || s.InPlace || len(s.Stops) > 0 {
		return nil
	}
	if found, measured := p.known.Home(p.Job, bore); measured {
		p.obey(found)
		return nil
	}
	return s.ToMeasure(p.Job, p.Job.Bores[bore].Finish, n)
}

// JobNow is the job with its stations as they stand by what was measured; the
// job itself where nothing was.
func (p *Plan) JobNow() *process.Job {
	if p.known == nil || p.Job == nil {
		return p.Job
	}
	return p.known.JobNow(p.Job)
}

// Entry is the last entry of a pass of a bore that this plan goes on from, filled
// in; false where there is none.
func (p *Plan) LastEntry() process.Measured { return p.learned().Last() }

// Entry is the last entry of a pass of a bore, as it was taken.
func (p *Plan) Entry(bore, pass int) (process.Measured, bool) { return p.learned().Entry(bore, pass) }

// learned is what all entries teach, those too that wait for others.
func (p *Plan) learned() *measured.Learned {
	if p.waits != nil {
		return p.waits
	}
	return p.known
}
