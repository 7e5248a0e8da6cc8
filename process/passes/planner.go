// Package passes plans the passes of one visit: which cuts take the bore from what
// was found to its limits, with the setting, the spring, the sizes to expect and
// the stops to measure, the chance of landing on size, and what stops it where
// there is no way. It knows the job, the bar in the machine and how an edge cuts; what
// one pass may be it asks process/pass. It knows nothing of line-up or sleeves, nor of
// what was measured but for a factor on the spring, and it puts no visits together: that
// is process/plan.
package passes

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/landing"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Planning is the planning of visits with one set-up.
type Planning struct {
	*setup.Setup
	Trials bool // work the chance of landing out
	Brief  bool // whether there are passes is enough: where there are none it is not worked out why
	Untold bool // of why there are none it is enough to know the pass that comes nearest

	// What was searched for before: the visit inside a sleeve is planned for
	// trial, and again when it is taken.
	found map[task]way
}

// way is the passes that a search found, or why there are none.
type way struct {
	steps   []step
	anyMove bool
	why     fact.Fact
	first   int             // number of the first of them
	passes  []schedule.Pass // as they were written, without stops
	budget  *landing.Budget // nil: not worked out
}

// New begins planning with a set-up.
func New(s *setup.Setup) *Planning { return &Planning{Setup: s, found: map[task]way{}} }

// Planner is one visit about to be planned: what its passes are judged by, and what is
// searched through.
type Planner struct {
	pass.Judge
	plan    *Planning
	st      process.Station
	rLeast  float64     // radius where the bore is smallest about the true axis, mm
	rMost   float64     // radius where it is largest
	rough   []pass.Pick // from the fastest
	finish  []pass.Pick
	witness bool

	banded float64 // radius of the band that a witness cut leaves or left, mm: the next pass goes beyond it; 0: none

	custom pass.Custom
	light  bool            // a semi-finish may be lighter than the finish: nothing else lands
	fixed  []qty.Diameter  // settings of the chain, where other bores are cut at them too; nil: they are worked out
	wears  setup.ChainWear // of the chain that is worked out
	ends   []lastEdge      // that the last passes are searched for with
	honing                 // before the last passes
}

// Prepare prepares a visit whose From, To, Clear, Limits, Start and Material
// are filled in.
func (s *Planning) Prepare(v *schedule.Visit, st process.Station, witness bool) (*Planner, error) {
	job := s.Job
	judge, err := pass.New(s.Setup, v, st)
	if err != nil {
		return nil, err
	}
	r := &Planner{Judge: *judge, plan: s, st: st, witness: witness, rLeast: v.Start.MM() / 2, rMost: v.StartMost.MM() / 2, banded: v.Banded.MM() / 2, custom: pass.CustomOf(job, v.Limits.Low, v.Limits.High)}
	band := v.Material.Speeds[job.Cutter.Material.Class]
	least := pass.Slowest * math.Min(float64(band.Rough[0]), float64(band.Finish[0]))
	r.rough = r.Picks(float64(job.Cutter.SpeedRough), band.Rough, least)
	r.finish = r.Picks(float64(job.Cutter.SpeedFinish), band.Finish, least)
	if job.Cutter.SpeedRough == 0 && job.Cutter.SpeedFinish == 0 { // no gear is changed without need
		slow := slices.IndexFunc(r.finish, func(p pass.Pick) bool { return p.RPM <= r.rough[0].RPM })
		if slow >= 0 {
			r.finish = append(r.finish[:slow], r.rough...)
		}
	}
	if v.Turned > 0 && job.Cutter.SpeedFinish == 0 { // the spring just measured is that of this speed
		r.finish = pass.With(r.finish, r.Pick(r.SpeedAtMost(float64(v.Turned)), float64(band.Finish[1])))
	}
	return r, nil
}

// Plan finds the passes of one visit, numbered from first, or says why there
// are none.
func (r *Planner) Plan(first int) fact.Fact {
	if why := r.Never(r.rLeast, r.rMost, r.st); !why.None() {
		return why
	}
	if w, ok := r.plan.found[r.task()]; ok {
		if w.why.None() {
			r.take(&w, first)
			r.holds(&w)
		}
		return w.why
	}
	return r.planAnew(first)
}

// planAnew searches the passes of a visit.
func (r *Planner) planAnew(first int) fact.Fact {
	origin := &chain{rMost: r.rMost, tip: r.Visit.Stands.At.MM()}
	var witnesses []pass.Witness
	if r.witness {
		witnesses = r.Witnesses(r.rLeast, r.rough)
	}
	bare, found := *r, origin
	if len(witnesses) > 0 {
		origin = r.witnessed(witnesses[0])
	}
	best := r.find(origin, r.rLeast)
	if best == nil && len(witnesses) > 0 && r.SemiSize(pass.DeepestFinish) < r.banded+r.LeastCut() { // its band may be in the way
		*r, origin, witnesses = bare, found, nil
		best = r.find(origin, r.rLeast)
	}
	if best != nil && len(witnesses) > 1 {
		origin, best = r.quicker(witnesses, origin, best)
	}
	if best == nil {
		r.AnyMove = true // reasons go by the passes that would be left
		why := fact.New(schedule.NoOrder)
		if !r.plan.Brief {
			why = r.diagnose(origin, r.rLeast)
		}
		r.plan.found[r.task()] = way{why: why}
		return why
	}
	w := way{steps: best.steps(), anyMove: r.AnyMove}
	r.take(&w, first)
	if at, limit := r.PastLimit(); at != nil {
		if best, anyMove := r.spared(at, limit, origin, r.rLeast); best != nil {
			again := way{steps: best.steps(), anyMove: anyMove}
			r.take(&again, first)
			if _, now := r.PastLimit(); now.Used < limit.Used {
				w = again
			} else {
				r.take(&w, first)
			}
		}
	}
	r.holds(&w)
	r.plan.found[r.task()] = w
	return fact.Fact{}
}

// witnessed is the bore after a witness cut.
func (r *Planner) witnessed(w pass.Witness) *chain {
	r.banded = w.Made
	stroke := r.StrokeAt(w.Feed, w.Pick.At(w.Made), w.Made, r.Visit.RoughOut)
	_, rMost := pass.Bored(schedule.Witness, stroke, r.rLeast, r.rMost, w.Made)
	first := step{kind: schedule.Witness, made: w.Made, depth: w.Depth, feed: w.Feed, pick: w.Pick, rMostAfter: rMost}
	found := &chain{rMost: r.rMost, tip: r.Visit.Stands.At.MM()}
	return &chain{rMost: rMost, from: found, last: first, passes: 1, tip: 2 * stroke.SettingFor(w.Made-w.Depth, w.Made)}
}

// quicker is the chain behind the best of the witness cuts, where the last passes can follow it and
// may be held back by its speed: behind a faster one they may save more than it costs in quiet.
func (r *Planner) quicker(all []pass.Witness, origin, best *chain) (*chain, *chain) {
	bound, cost := origin.last.pick.RPM, 0.0
	if r.banded < r.LastFrom() || best.last.pick.RPM < bound {
		return origin, best
	}
	for _, w := range all[1:] {
		if w.Pick.RPM > bound && r.finish[0].RPM > bound {
			from := r.witnessed(w)
			if c := r.search(from, r.rLeast); c != nil && c.cost+w.Cost-all[0].Cost < best.cost+cost-1e-9 {
				origin, best, cost = from, c, w.Cost-all[0].Cost
			}
		}
	}
	return origin, best
}

// take has a visit cut by the passes of a way, written where they are not yet, numbered so.
func (r *Planner) take(w *way, first int) {
	if r.AnyMove = w.anyMove; w.first != first {
		r.Visit.Passes = nil
		r.write(w.steps, first)
		w.first, w.passes = first, r.Visit.Passes
	}
	r.wears, r.Visit.Passes = nil, slices.Clone(w.passes)
	for i := range r.Visit.Passes {
		p := &r.Visit.Passes[i]
		r.wears = append(r.wears, p.Edge)
		p.Out = r.Visit.OutAfter(p.Kind) // why it comes out so is the line-up's
	}
}

// find searches the chain of least cost: by the custom of the shop, and where there is none
// without it. nil: there is none at all.
func (r *Planner) find(origin *chain, start float64) *chain {
	r.MoveBinds = new(bool)
	best := r.search(origin, start)
	if best == nil && *r.custom.LeftOut {
		r.custom.AnyCut = true
		best = r.search(origin, start)
	}
	if best == nil && *r.MoveBinds {
		r.AnyMove = true
		best = r.search(origin, start)
	}
	if best == nil && !r.Measured && r.Thin(r.Aim-start, true) && !r.Thin(r.Aim-start, false) {
		r.light = true
		best = r.search(origin, start)
	}
	return best
}

// task is all that the search for a visit's passes depends on, in one setup.
type task struct {
	from, to, clear, end, ra, roundness qty.Length
	limits                              schedule.Limits
	material                            *process.Material
	rLeast, rMost, factor, feed         float64
	doubt                               setup.Doubt
	witness, measured                   bool
	rough, last                         process.OutBy
	stands                              schedule.Stands
	turned                              qty.RevPerMin
	flank                               setup.Flank
	banded, roughTo                     qty.Diameter
	part                                schedule.Part
}

func (r *Planner) task() task {
	v := r.Visit
	return task{v.From, v.To, v.Clear, v.End, v.Ra, v.Roundness, v.Limits, v.Material,
		r.rLeast, r.rMost, r.Factor, r.Feed, r.Doubt, r.witness, r.Measured, v.RoughOut.By, v.LastOut.By, v.Stands, v.Turned, r.FlankFound(), v.Banded, v.RoughTo, v.Part}
}

// Cautions of one visit.
func (r *Planner) Cautions() []fact.Fact {
	var out []fact.Fact
	if !r.rough[0].Within {
		out = append(out, fact.New(schedule.TooFast, r.Visit.Title, fact.Value(qty.KindSpindleSpeed, r.rough[0].RPM), fact.Name(r.Job.Cutter.Material.Name)))
	}
	if c := r.Visit.BuildsUp(r.Job.Cutter.Material); !c.None() {
		out = append(out, c)
	}
	if c := r.Chatters(); !c.None() {
		out = append(out, c)
	}
	out = append(out, r.Closing()...)
	if c := r.PastCaution(); !c.None() {
		out = append(out, c)
	}
	if c := r.offBush(); !c.None() {
		out = append(out, c)
	}
	if r.witness && (len(r.Visit.Passes) == 0 || r.Visit.Passes[0].Kind != schedule.Witness) {
		out = append(out, fact.New(schedule.NoWitness))
	}
	return out
}

// offBush is the caution for the passes in which the bar does not touch its outboard
// bearing; nothing where it does.
func (r *Planner) offBush() fact.Fact {
	var off []int
	var most float64
	for i := range r.Visit.Passes {
		p, r := &r.Visit.Passes[i], r.in(i)
		if b, play := r.Bush(r.planned(p).Force, p.Setting.MM()/2, setup.In); play && b.Idle {
			off, most = append(off, p.N), max(most, b.Moves)
		}
	}
	if len(off) == 0 {
		return fact.Fact{}
	}
	return fact.New(schedule.OffBush, fact.List(schedule.Runs(off)...), fact.FineMM(most), fact.Figure(qty.Fine(r.Job.Bar.Outboard.Clearance/2)))
}
