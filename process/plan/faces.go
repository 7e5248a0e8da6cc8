package plan

import (
	"fmt"
	"slices"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/turns"
)

// Bores of both faces. Each visit is planned by the job as it is seen from the face of its bore
// (process/faces); their order and what the half turn leaves in doubt is process/turns'.

// Seen is a job of this plan as it is seen from a face; the job itself where it is of one face.
func (p *Plan) Seen(job *process.Job, f process.Face) *process.Job {
	if p.sides != nil && job == p.Job {
		return p.sides.Job[f]
	}
	return faces.Seen(job, f)
}

// BothFaces is whether the plan is of bores of both faces, and not seen from one.
func (p *Plan) BothFaces() bool { return faces.Both(p.Job) }

// seenBy is the job as it is seen from the face of one of its bores, by its index.
func (p *Plan) seenBy(bore int) *process.Job { return p.Seen(p.Job, p.Job.Bores[bore].Face) }

// line is the line-up of a job as it is seen from a face.
func (p *Plan) line(seen *process.Job) *place.LineUp {
	if p.sides != nil && seen.Seen != nil {
		return p.sides.Line[*seen.Seen]
	}
	return p.LineUp
}

// from are the faces that bores are bored from.
func (p *Plan) from() []process.Face {
	if p.sides != nil {
		return []process.Face{process.NearFace, process.FarFace}
	}
	return []process.Face{p.Job.Bores[0].Face}
}

// bothSides begins a plan of both faces.
func (p *Plan) bothSides() {
	if faces.Both(p.Job) {
		p.sides = &turns.Sides{Job: [2]*process.Job{faces.Seen(p.Job, process.NearFace), faces.Seen(p.Job, process.FarFace)}}
	}
}

// steps are the faces that each stage of the work is cut from. With the order of the faces it is
// known which line is made to the other, and the work can be lined up.
func (p *Plan) steps(all []*work) []turns.Step {
	var works []turns.Work
	for _, w := range all {
		x := turns.Work{Name: w.Station.Name, Face: w.Bore.Bore.Face, First: w.Bore.Bore.First, Left: len(w.rest)}
		x.Apart = p.Job.Apart() && w.apart(p.Job)
		works = append(works, x)
	}
	var last *process.Face
	if e := p.known.Last(); p.known != nil && p.Job.BoreAt(e.Station) >= 0 && e.Pass > 0 {
		last = &p.Job.Bores[p.Job.BoreAt(e.Station)].Face
	}
	steps, say := turns.Steps(p.Job, works, last)
	if p.sides == nil {
		return steps
	}
	if !say.None() {
		p.Order = append(p.Order, say)
	}
	p.stood = last
	for _, x := range turns.SweptTooSoon(p.Job, works, steps) {
		p.stop(p.Job.Where(fmt.Sprintf("sweep[%d]", x.Sweep)), x.Why)
		p.Seek = nil // the reason says what to do
	}
	f, left := turns.Second(steps)
	if !left { // nothing is left to do
		f = faces.Other(p.Job.Bores[0].Face)
	}
	p.sides.Second, p.sides.Job[f].Turned = f, true
	first := faces.Other(p.sides.Second)
	p.LineUp = p.lineUp(p.sides.Job[first])
	p.sides.Line[first] = p.LineUp
	second := p.sides.Job[p.sides.Second] // which leans as the first left it, and by the turn
	if second.LineUp.Parallel = p.LineUp.LeansWithin(second.LineUp.Parallel); faces.Shown(second) {
		second.LineUp.Parallel = 0 // what was finished from there runs along the feed: the turn alone makes it lean
	}
	p.Turned = p.lineUp(second)
	p.sides.Line[p.sides.Second] = p.Turned
	if left {
		p.mind(second, p.sides.Cautions()...)
	}
	return steps
}

// unsure is what is not known of where a station with a bush stands from the spindle (turns.Sides.Bush).
func (p *Plan) unsure(seen *process.Job) func(station string) qty.Length {
	return func(station string) qty.Length {
		switch l := p.line(seen); {
		case p.sides != nil:
			return p.sides.Bush(*seen.Seen, station)
		case l != nil:
			return l.UnsureAt(station)
		}
		return 0
	}
}

// axis is how far from the line the axis of a visit may stand; 0: nothing was swept.
func (p *Plan) axis(w *work, back qty.Length) qty.Length {
	if l := p.line(p.seenBy(w.i)); l != nil {
		return l.AxisWithin(p.Job.Units, w.Station.Name, back)
	}
	if s := p.sides; s != nil && s.Second == w.Bore.Bore.Face {
		seen := s.Job[s.Second]
		return s.Axis(seen.Stations[seen.Bores[w.i].Station], back)
	}
	return 0
}

// turned puts the order to turn the table half round before each visit that is cut from another
// face than the visit before it, behind what is done while the casting rests.
func (p *Plan) turned() {
	if p.sides == nil {
		return
	}
	last, before := p.stood, p.Job
	for _, at := range p.turns {
		b := &p.Bores[at[0]]
		v := &b.Visits[at[1]]
		with := p.Job.Using(v.Tools)
		if last != nil && *last != b.Bore.Face {
			rest := len(v.Rest())
			v.Before = slices.Insert(slices.Clone(v.Before), rest, turns.AtTurn(p.Job, b.Bore.Face, before, with)...)
			p.Minutes += turns.Minutes
		}
		last, before = &b.Bore.Face, with
	}
}

// mind adds cautions of the face that a job is seen from.
func (p *Plan) mind(seen *process.Job, list ...fact.Fact) {
	p.Cautions = append(p.Cautions, list...)
	p.minded.Add(seen, list...)
}

// lineUp lays the line of the bores that are bored from one face, and says what is to be minded
// of it.
func (p *Plan) lineUp(job *process.Job) *place.LineUp {
	l, err := place.NewLineUp(job, func(tip qty.Length) float64 { return p.droop(job, tip) })
	if err != nil {
		why, _ := fact.Of(err)
		p.noLine = fact.New(place.NoLineUp, why)
		p.mind(job, p.noLine)
	}
	if l == nil {
		return nil
	}
	p.mind(job, l.Doubts...)
	bored := l.LeastKnown(job)
	least := job.Stations[bored].Name
	l.Made, l.Confirmed = p.known.LinedUp(p.Job, job), p.known.Confirmed(job, bored)
	if !l.Assumption.None() && !l.Confirmed {
		p.mind(job, fact.New(place.ParallelAssumed, fact.Name(least), fact.Figure(l.UnsureAt(least))))
	}
	return l
}
