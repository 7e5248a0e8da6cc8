package plan

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/cores"
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	sleeves "borewright/process/sleeve"
	"borewright/process/turns"
)

// The work on all bores, in its order. What is left of each bore is found first; then the
// visits are planned one after the other as they are cut, so that the edge goes on from each to
// the next. Where bores are roughed apart the size that roughing leaves is known before the
// finish is planned.

// work is one bore as it is planned.
type work struct {
	Bore
	i       int                   // in the job
	where   string                // in the file
	n       int                   // number of the next pass
	rest    []Visit               // not planned yet
	witness bool                  // the first of them may begin with a witness cut
	clean   func() *place.CleanUp // waits until it is worked out
	unclean error                 // why it is not, then
	whole   schedule.Visit        // the first visit with all the passes of its work
	noVisit bool                  // it could not be worked out
	at      int                   // in the plan; -1: it is finished
}

// work plans the visits to all bores.
func (p *Plan) work() {
	var all []*work
	for i, b := range p.Job.Bores {
		if p.hopeless() {
			return
		}
		all = append(all, p.begin(i, b))
	}
	done := func(w *work, part schedule.Part) {
		if p.hopeless() || len(w.rest) == 0 {
			return
		}
		p.cut(w, part)
	}
	settings := p.settings(all)
	shared := func(x *setting, part schedule.Part) bool {
		return p.hopeless() || p.together(x, part)
	}
	rest := func(x *setting) {
		for _, w := range x.bores {
			for len(w.rest) > 0 && !p.hopeless() {
				if x.bores[0] != w || !shared(x, schedule.Whole) {
					p.cut(w, schedule.Whole)
				}
			}
		}
	}
	apart := p.Job.Apart()
	stages := [...]func(x *setting, first bool){
		turns.Firsts: func(x *setting, first bool) {
			if first {
				rest(x)
			}
		},
		turns.Roughs: func(x *setting, first bool) {
			if !apart || first || shared(x, schedule.Roughing) {
				return
			}
			for _, w := range x.bores {
				if w.apart(p.Job) {
					done(w, schedule.Roughing)
				}
			}
		},
		turns.Works: func(x *setting, first bool) { // the first work of each, then what is inside sleeves
			if !apart || shared(x, schedule.Whole) {
				return
			}
			for _, w := range x.bores {
				done(w, schedule.Whole)
			}
		},
		turns.Rests: func(x *setting, first bool) { rest(x) },
	}
	for _, s := range p.steps(all) {
		for _, x := range settings {
			b := &x.bores[0].Bore.Bore
			if b.Face == s.Face && (s.Stage != turns.Firsts || s.Rank == turns.Rank(p.Job, x.bores[0].i)) {
				stages[s.Stage](x, b.First)
			}
		}
	}
	for _, w := range all {
		p.close(w)
	}
	p.inOrder(all)
	p.saySettings(settings)
	p.changes()
	p.turned()
}

// apart is whether the work on a bore that is left is roughed apart from its finish.
func (w *work) apart(job *process.Job) bool {
	return len(w.rest) > 0 && w.rest[0].N == 1 && pass.Apart(&w.rest[0].Visit, job.Limits.RestStock)
}

// begin finds what is left of a bore.
func (p *Plan) begin(i int, b process.Bore) *work {
	job, s := p.Job, p.by(i, false)
	st, b := job.Stations[b.Station], s.Job.Bores[i]
	w := &work{Bore: Bore{Bore: b, Station: st}, i: i, at: -1, where: job.Where(fmt.Sprintf("bore[%d]", i))}
	shape := place.AsFound(st, b)
	w.clean = func() *place.CleanUp { return nil }
	if p.how <= untried {
		w.clean = cores.Beside(func() (c *place.CleanUp) {
			c, w.unclean = place.NewCleanUp(job.Units, st, b)
			return c
		})
	}
	housed := func(house schedule.Visit) (*schedule.EdgeFound, int, bool) { return p.housed(s, i, house, p.edge(s)) }
	housing := p.known.Housing(job, job.Bores[i])
	sleeve, list, err := visits(s, b, shape, housing, housed)
	w.Sleeve = sleeve
	if w.noVisit = err != nil; err != nil {
		p.stop(w.where, w.says(fact.Because(err)))
	}
	if w.Sleeve != nil {
		for _, why := range w.Sleeve.Stops {
			p.stopAnyBar(job.Where("sleeve"), w.says(why))
		}
	}
	left := p.known.Rest(job, i, list, 1)
	p.obey(left)
	w.n = left.Next
	for _, v := range left.Visits {
		if p.sides != nil {
			v.Title = turns.Title(b.Face, v.Title)
		}
		w.rest = append(w.rest, Visit{Visit: v})
	}
	w.witness = b.Witness && w.n == 1
	bored := housing[1] // wider than its limits, where it was bored so
	if len(w.rest) > 0 && w.rest[0].N == 1 {
		bored = w.rest[0].Limits.High
	}
	if bored > 0 {
		if why := place.TooLittleLeft(job, st, bored, w.Sleeve != nil); !why.None() {
			p.stopAnyBar(job.Where(fmt.Sprintf("station[%d].wall", job.Bores[i].Station)), w.says(why))
		}
	}
	return w
}

// says is a fact of the bore.
func (w *work) says(f fact.Fact) fact.Fact { return fact.New(OfStation, fact.Name(w.Station.Name), f) }

// cut plans the next visit to a bore, by the edge of its cutter as it comes. Roughing plans that
// part of the visit alone, and leaves the rest of it.
func (p *Plan) cut(w *work, part schedule.Part) {
	s, v := p.next(w, part)
	v.begin(s, p.line(s.Job), w.Bore.Bore.Station, p.edge(s))
	r, why := planned(s, &v, w.Station, w.witness, w.n)
	p.add(w, part, v, r, why)
}

// next is the next visit to a bore as it is asked for, and what it is planned with.
func (p *Plan) next(w *work, part schedule.Part) (*passes.Planning, Visit) {
	s := p.by(w.i, part == schedule.Roughing)
	v := w.rest[0]
	v.Tools = s.Job.ToolsOf(w.i, part == schedule.Roughing)
	p.known.TakenBy(p.Job, w.i, &v.Visit)
	if part == schedule.Roughing {
		v.Part, v.RoughTo = part, v.Limits.Aim.Plus(-s.Job.Limits.RestStock)
	}
	if len(p.turns) > 0 || !p.lastCut(w) { // the cutter was set for another bore since
		v.Stands = schedule.Stands{}
	}
	return s, v
}

// add takes a planned visit of a bore into the plan, or why there are no passes for it.
func (p *Plan) add(w *work, part schedule.Part, v Visit, r *passes.Planner, why fact.Fact) {
	s, asked := p.next(w, part) // as it was before it was roughed apart
	job, st, b, after := s.Job, w.Station, w.Bore.Bore, w.rest[1:]
	k := len(w.Visits)
	what := func(f fact.Fact) fact.Fact { return fact.New(OfVisit, fact.Name(st.Name), v.Title, f) }
	if part == schedule.Roughing && !why.None() { // then the whole work says what is so
		return
	}
	w.witness = false
	if !why.None() {
		p.stopVisit(w.where, what, why)
	} else {
		w.n += len(v.Passes)
		p.leave(s, v.EdgeAfter(st.Name))
		if pass, kept := v.LineKept(); kept && pass < 0 {
			p.remark(w, k, v.LineStays())
		}
		for _, c := range r.Cautions() {
			p.remark(w, k, c)
		}
	}
	if k == 0 {
		w.whole = v.Visit
	} else if v.N == w.whole.N {
		w.whole.Passes = append(w.whole.Passes[:len(w.whole.Passes):len(w.whole.Passes)], v.Passes...)
	}
	if part != schedule.Roughing {
		var noMouth fact.Fact
		if v.Mouth, noMouth = sleeves.Mouth(job, b, &v.Visit); !noMouth.None() {
			p.stop(job.Where("sleeve"), what(noMouth))
		}
		for _, c := range sleeves.MouthSings(s.Setup, &v.Visit) {
			p.remark(w, k, c)
		}
	}
	v.Back = pass.SlideBack(job, &v.Visit)
	off := v.Back
	if v.Bush = place.NewBush(s.Setup, p.unsure(s.Job), w.i, p.bushes); v.Bush != nil {
		p.bushes[st.Name] = v.Bush
		off = qty.FromMM(math.Hypot(off.MM(), v.Bush.Aside.MM()))
		p.remark(w, k, v.Bush.Fact())
	}
	v.Axis = p.axis(w, off)
	p.reach(s.Setup, b.Station, &v, what)
	if part == schedule.Roughing {
		after = append([]Visit{finishOf(asked, &v, r, b)}, after...)
		v.After = nil
		v.Title = fact.New(RoughTitle, v.Title)
		v.Ra, v.Roundness = 0, 0
		last := &v.Passes[len(v.Passes)-1]
		v.Limits = schedule.Limits{Low: last.Low, Aim: last.Expected, High: last.High}
	}
	p.Minutes += v.Minutes(job.Limits.HoldMinutes, st.Name)
	p.turns = append(p.turns, [2]int{w.i, k})
	w.Visits, w.rest = append(w.Visits, v), after
}

// finishOf is the finish of a work whose roughing is planned.
func finishOf(asked Visit, rough *Visit, r *passes.Planner, b process.Bore) Visit {
	v := asked
	v.Part, v.RoughTo = schedule.Finishing, 0
	v.Title = fact.New(FinishTitle, asked.Title)
	left := r.Leaves()
	v.Start, v.StartMost = left[0], left[1]
	v.Behind, v.Turned, v.Banded, v.Unexplained, v.Rested, v.Before = 0, 0, 0, false, false, nil
	v.Stands, v.Flank, v.Tools = schedule.Stands{}, nil, nil
	if last := &rough.Passes[len(rough.Passes)-1]; last.Out.By == process.DrawOut && b.WayOut != process.DrawOut {
		v.Lined = last.Setting
	}
	return v
}

// close adds a bore to the plan.
func (p *Plan) close(w *work) {
	job := p.Job
	clean := w.clean()
	if w.unclean != nil {
		why, _ := fact.Of(w.unclean)
		p.Cautions = append(p.Cautions, w.says(fact.New(place.NoCleanUp, why)))
	}
	if !w.noVisit {
		if w.Home = p.home(w.i, w.Sleeve, w.n); w.Home != nil {
			p.Minutes += w.Home.Hold.Minutes
		}
	}
	if len(w.Visits) == 0 && !w.noVisit && w.Home == nil {
		return // finished: nothing of it is left to do
	}
	if clean != nil && len(w.Visits) > 0 && clean.Shows(w.whole) {
		w.CleanUp = clean
		clean.Follow(w.whole)
		if w.Bore.Bore.Repair == process.SleeveRepair {
			clean.NextSleeve(job.Units, job.Sleeve.Outside, w.whole.Limits)
		}
		p.Cautions = append(p.Cautions, clean.Cautions(w.Station.Name)...)
	}
	w.Bore.Bore = job.Bores[w.i]
	w.at = len(p.Bores)
	p.Bores = append(p.Bores, w.Bore)
}
