package turns

import (
	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
)

// Sweeps of a finished size that is not cut yet.
const (
	TooSoon      fact.Kind = "turns.swept too soon"        // station, size, face it was swept from
	TooSoonFirst fact.Kind = "turns.swept too soon, first" // the same, where it may be finished first
)

// Soon is a sweep, by its index in the job, that cannot have been made yet, and why.
type Soon struct {
	Sweep int
	Why   fact.Fact
}

// SweptTooSoon are the sweeps through the work that stand in a job for a bore at its finished size,
// where the face that they are made from is cut before that bore is finished from the other. steps
// and all are as of Steps.
func SweptTooSoon(job *process.Job, all []Work, steps []Step) (soon []Soon) {
	for i, s := range job.Sweeps {
		k := job.BoreAt(s.Station)
		if !faces.Both(job) || s.Face || k < 0 || k >= len(all) {
			continue
		}
		b, found := job.Bores[k], job.Stations[s.Station].Diameter
		if b.Face == s.From || s.Diameter < b.Finish.Low || s.Diameter > b.Finish.High || s.Diameter <= found {
			continue
		}
		done, cut := all[k].Left == 0, false
		for _, x := range steps {
			if cut = x.Face == s.From; cut {
				break
			}
			done = done || x.finishes(job, k, all[k])
		}
		if done || !cut {
			continue
		}
		kind := TooSoon
		if job.Apart() && !b.First && b.Guide == nil {
			kind = TooSoonFirst
		}
		soon = append(soon, Soon{i, fact.New(kind, fact.Name(all[k].Name), fact.Figure(s.Diameter), fact.Name(s.From.String()))})
	}
	return soon
}

// finishes is whether a bore, by its index, is at its finished size after a step.
func (s Step) finishes(job *process.Job, bore int, w Work) bool {
	switch {
	case s.Face != w.Face:
		return false
	case w.First:
		return s.Stage == Firsts && s.Rank >= Rank(job, bore)
	}
	return s.Stage == Rests || s.Stage == Works && w.Left == 1
}
