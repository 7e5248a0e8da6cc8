package plan

import (
	"cmp"
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/passes"
	"borewright/process/schedule"
)

// Bores that are cut through at one setting. Each keeps a visit of its own, with its own sizes to
// expect and its own stops to gauge, so that results, record and documents go by bore; the
// visits are planned together, come one after the other, and name each other
// (schedule.Visit.Together). Where no one setting serves all, they are planned one by one, and
// the order says why.

// setting are the bores that the job cuts at one setting; most often one bore.
type setting struct {
	bores  []*work
	shared bool      // a visit of theirs is planned so
	why    fact.Fact // why one is not; nothing: all are
}

// settings are those of the job, in the order in which they are begun.
func (p *Plan) settings(all []*work) (out []*setting) {
	for _, with := range p.Job.Settings() {
		x := &setting{}
		for _, i := range with {
			x.bores = append(x.bores, all[i])
		}
		out = append(out, x)
	}
	turn := func(x *setting) int { return p.Job.Turn(x.bores[0].i) }
	slices.SortStableFunc(out, func(a, b *setting) int { return cmp.Compare(turn(a), turn(b)) })
	return out
}

// lastCut is whether the cut that was measured last was in a bore, or in one that is cut with it
// at one setting: the cutter stands as it was set for that.
func (p *Plan) lastCut(w *work) bool {
	last := p.known.Last().Station
	return slices.ContainsFunc(p.Job.SetWith(w.i), func(i int) bool { return p.Job.Bores[i].Station == last })
}

// together plans the next visits of the bores of a setting, if they are cut through at it; false
// where they are not, and nothing was planned.
func (p *Plan) together(x *setting, part schedule.Part) bool {
	if len(x.bores) < 2 || !x.why.None() || !x.left() || part == schedule.Roughing && !x.roughed(p.Job) {
		return false
	}
	var all passes.Together
	all, x.why = p.planTogether(x, part)
	if !x.why.None() {
		return false
	}
	for i, w := range x.bores {
		p.add(w, part, Visit{Visit: *all[i].Visit}, all[i], fact.Fact{})
	}
	x.shared = true
	return true
}

// left is whether all bores of a setting stand at the same pass, with something left to cut.
func (x *setting) left() bool {
	var done []fact.Fact
	for _, w := range x.bores {
		if len(w.rest) == 0 {
			done = append(done, fact.New(Station, fact.Name(w.Station.Name)))
		}
	}
	first := x.bores[0]
	switch {
	case len(done) == len(x.bores):
		return false
	case len(done) > 0:
		if !x.shared { // else the others are not planned to the end
			x.why = fact.New(AloneDone, fact.List(done...))
		}
		return false
	}
	for _, w := range x.bores[1:] {
		if w.n != first.n {
			x.why = fact.New(AloneStands, fact.Name(first.Station.Name), fact.Count(first.n), fact.Name(w.Station.Name), fact.Count(w.n))
			return false
		}
	}
	return true
}

// roughed is whether the bores of a setting are roughed apart from their finish: all, or none.
func (x *setting) roughed(job *process.Job) bool {
	var not []*work
	for _, w := range x.bores {
		if !w.apart(job) {
			not = append(not, w)
		}
	}
	if n := len(not); n > 0 && n < len(x.bores) {
		x.why = fact.New(AloneRough, fact.Name(not[0].Station.Name))
	}
	return len(not) == 0
}

// planTogether are the planned visits of the bores of a setting, or why one setting does not
// serve all of them.
func (p *Plan) planTogether(x *setting, part schedule.Part) (passes.Together, fact.Fact) {
	var names []string
	for _, w := range x.bores {
		names = append(names, w.Station.Name)
	}
	all := make([]Visit, len(x.bores))
	var s *passes.Planning
	for i, w := range x.bores {
		by, v := p.next(w, part)
		if s != nil && by != s {
			return nil, fact.New(AloneTools, fact.Name(names[0]), fact.Name(names[i]))
		}
		s, all[i] = by, v
	}
	for i, w := range x.bores {
		v := &all[i]
		v.Together = names
		v.Flank = p.edge(s) // which came through all of them
		v.begin(s, p.line(s.Job), w.Bore.Bore.Station, v.Flank)
	}
	var visits []*schedule.Visit
	for i := range all {
		visits = append(visits, &all[i].Visit)
	}
	schedule.Alike(visits)
	for {
		var t passes.Together
		for i, w := range x.bores {
			all[i].Passes = nil
			r, err := s.Prepare(&all[i].Visit, w.Station, false)
			if err != nil {
				return nil, fact.New(AloneOf, fact.Name(w.Station.Name), fact.Because(err))
			}
			t = append(t, r)
		}
		why, at := t.Plan(x.bores[0].n)
		switch {
		case !why.None() && at >= 0:
			return nil, fact.New(AloneOf, fact.Name(names[at]), why)
		case !why.None():
			return nil, why
		case !schedule.OutOfLine(visits):
			return t, why
		}
	}
}

// saySettings says which bores are cut through at one setting, and which are not that were to be.
func (p *Plan) saySettings(all []*setting) {
	for _, x := range all {
		var names []fact.Fact
		for _, w := range x.bores {
			names = append(names, fact.New(Station, fact.Name(w.Station.Name)))
		}
		if x.shared {
			p.Order = append(p.Order, fact.New(OrderWith, fact.List(names...)))
		}
		if !x.why.None() {
			p.Order = append(p.Order, fact.New(OrderAlone, fact.List(names...), x.why))
		}
	}
}
