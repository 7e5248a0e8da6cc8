// Package passes plans the passes of one visit: which cuts take the bore from what
// was found to its limits, with the setting, the spring, the sizes to expect and
// the stops to measure, the chance of landing on size, and what stops it where
// there is no way. It knows the job, the bar in the machine and how an edge cuts.
// It knows nothing of line-up or sleeves, nor of what was measured but for a
// factor on the spring, and it puts no visits together: that is process/plan.
package passes

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Planning is the planning of visits with one set-up.
type Planning struct {
	*setup.Setup
	Trials bool // work the chance of landing out
	Brief  bool // whether there are passes is enough: where there are none it is not worked out why

	// What was searched for before: the visit inside a sleeve is planned for
	// trial, and again when it is taken.
	found map[task]way
}

// way is the passes that a search found, or why there are none.
type way struct {
	steps   []step
	anyMove bool
	why     fact.Fact
}

// New begins planning with a set-up.
func New(s *setup.Setup) *Planning { return &Planning{Setup: s, found: map[task]way{}} }

// Planner is one visit about to be planned: the edge along it and the stock.
type Planner struct {
	*Planning
	*setup.Edge
	v       *schedule.Visit
	st      process.Station
	rLeast  float64     // radius where the bore is smallest about the true axis, mm
	rMost   float64     // radius where it is largest
	aim     float64     // radius aimed at
	rough   []speedPick // from the fastest
	finish  []speedPick
	depth   float64   // deepest cut that job, bar and relief allow, mm
	depthBy fact.Fact // which of them
	witness bool

	measured bool         // the bore as it stands was measured
	gather   *[]verdict   // where every limit of a pass is gathered that is judged; nil: nowhere
	wears    []setup.Wear // of the edge in each pass of the chain that is worked out
	half     float64      // land worn onto the flank is known to so much either way, mm
	grows    float64      // by which it is more at the end of a pass than in its middle
	below    float64      // the most by which it can be more than is likely, at the end of a pass, mm
	above    float64      // and less, at its beginning
	hones    bool         // the edge is honed before the semi-finish
	asked    bool         // because it is tried so, not because it is worn that far
	ends     []lastEdge   // that the last passes are searched for with
	anew     bool         // the edge was honed since the visit began, and set anew
	anyMove  bool         // the cutter may be closed, or hardly moved, from one pass to the next: nothing else lands
}

// speedPick is the spindle speed for one kind of pass.
type speedPick struct {
	rpm    float64
	speed  float64 // m/min at the size aimed at
	within bool    // inside the material's band: false when the machine has nothing slow enough
}

// at is the cutting speed at a radius, mm, in m/min.
func (p speedPick) at(radius float64) float64 {
	return float64(qty.RevPerMin(p.rpm).At(qty.DiameterMM(2 * radius)))
}

// Prepare prepares a visit whose From, To, Clear, Limits, Start and Material
// are filled in.
func (s *Planning) Prepare(v *schedule.Visit, st process.Station, witness bool) (*Planner, error) {
	job := s.Job
	r := &Planner{
		Planning: s, v: v, st: st, witness: witness,
		measured: v.Behind > 0, rLeast: v.Start.MM() / 2, rMost: v.StartMost.MM() / 2, aim: v.Limits.Aim.MM() / 2,
	}
	r.depth = job.Limits.DepthMost.MM() * setup.DepthShare(r.Overhang, r.Held)
	r.depthBy = fact.New(schedule.DepthByJob)
	if r.depth < job.Limits.DepthMost.MM() {
		r.depthBy = fact.New(schedule.DepthByOverhang, of(qty.KindRatio, r.Overhang))
	}
	nose, lead := job.Cutter.NoseRadius.MM(), job.Cutter.Lead
	if r.st.Blind { // the run-out groove limits the depth of cut as well as the travel
		if most := cut.RunOutDepth(nose, lead, (r.st.Relief - process.RunOut).MM()); most < r.depth {
			r.depth, r.depthBy = most, fact.New(schedule.DepthByRunOut)
		}
	}
	past := cut.RunOut(nose, lead, math.Min(r.depth, math.Max(0, r.aim-r.rLeast))) + process.RunOut.MM()
	v.End = v.To + job.Units.Round(qty.FromMM(past))
	if most := v.To + r.st.Relief - process.RunOut/2; r.st.Blind && v.End > most {
		v.End = job.Units.Round(most)
	}
	if err := r.edge(); err != nil {
		return nil, err
	}
	band := v.Material.Speeds[job.Cutter.Material.Class]
	least := slowest * math.Min(float64(band.Rough[0]), float64(band.Finish[0]))
	r.rough = r.picks(float64(job.Cutter.SpeedRough), band.Rough, least)
	r.finish = r.picks(float64(job.Cutter.SpeedFinish), band.Finish, least)
	if job.Cutter.SpeedRough == 0 && job.Cutter.SpeedFinish == 0 { // no gear is changed without need
		slow := slices.IndexFunc(r.finish, func(p speedPick) bool { return p.rpm <= r.rough[0].rpm })
		if slow >= 0 {
			r.finish = append(r.finish[:slow], r.rough...)
		}
	}
	if v.Turned > 0 && job.Cutter.SpeedFinish == 0 { // the spring just measured is that of this speed
		r.finish = with(r.finish, r.pick(r.SpeedAtMost(float64(v.Turned)), float64(band.Finish[1])))
	}
	return r, nil
}

// with is a list of speeds with one more, from the fastest.
func with(list []speedPick, p speedPick) []speedPick {
	i, is := slices.BinarySearchFunc(list, p, func(a, b speedPick) int { return cmp.Compare(b.rpm, a.rpm) })
	if is {
		return list
	}
	return slices.Insert(slices.Clone(list), i, p)
}

// pick is a speed of the spindle, within the band where it does not exceed most,
// m/min.
func (r *Planner) pick(n, most float64) speedPick {
	speed := float64(qty.RevPerMin(n).At(r.v.Limits.Aim))
	return speedPick{rpm: n, speed: speed, within: speed <= most*1.02}
}

// edge sets the edge to the metal along the cut.
func (r *Planner) edge() (err error) {
	if r.Edge, err = r.Setup.Edge(r.v.Material, r.aim, r.v.From, r.v.End); err != nil {
		return err
	}
	r.Edge = r.Worn(r.begun().Likely)
	r.v.Along = nil
	for _, at := range r.Along {
		r.v.Along = append(r.v.Along, schedule.AlongPoint{Depth: at.Depth, Compliance: at.Radial * 1e3})
	}
	r.v.Compliance = [2]float64{r.Stiff.Radial * 1e3, r.Soft.Radial * 1e3}
	r.v.Overhang, r.v.Bar = r.Overhang, r.BarAt(r.v.End)
	return nil
}

// picks are the spindle speeds to try, from the fastest: the author's own
// alone, or the top of the band taken down for a slender bar, and slower ones in
// steps of 0.7 down to the slowest that does not fall below least, m/min, because a
// slow edge rubs chatter out. All at the size aimed at.
func (r *Planner) picks(own float64, band [2]qty.CuttingSpeed, least float64) []speedPick {
	v := own
	if v == 0 {
		v = float64(band[1]) * setup.SpeedShare(r.Overhang)
	}
	top := math.Min(float64(qty.CuttingSpeed(v).Turning(r.v.Limits.Aim)), 1e9) // a bore of no diameter turns without end
	if most := float64(r.Job.Limits.SpeedMost); most > 0 {
		top = math.Min(top, most)
	}
	var out []speedPick
	try := func(n float64) {
		p := r.pick(n, math.Max(v, float64(band[1])))
		if len(out) == 0 || own == 0 && p.speed >= least && n < out[len(out)-1].rpm && len(out) < mostSpeeds {
			out = append(out, p)
		}
	}
	low := float64(qty.CuttingSpeed(least).Turning(r.v.Limits.Aim))
	for n := top; n > max(low, 1e-6); n *= 0.7 { // without a table low is 0, which n never comes to
		try(r.SpeedAtMost(n))
	}
	try(r.SpeedAtLeast(low))
	return out
}

// slowest is how far below the least speed of the material's table one is still
// worth trying:
// slower, a carbide edge builds up and crumbles. Common practice, no source.
const slowest = 0.5

// Plan finds the passes of one visit, numbered from first, or says why there
// are none.
func (r *Planner) Plan(first int) fact.Fact {
	if need := 2 * r.rMost; need > r.v.Limits.High.MM() {
		return fact.New(schedule.NoCleanUp, mm(need), fact.Figure(r.v.Limits.High.Length()))
	}
	if why := r.tooThin(); !why.None() {
		return why
	}
	if !r.v.NoWayOut.None() {
		return r.v.NoWayOut
	}
	if len(r.Feeds) == 0 {
		return fact.New(schedule.NoFeed)
	}
	if r.st.Blind && r.depth < r.LeastDepth() {
		return fact.New(schedule.NoRunOut, fact.Figure(r.st.Relief), fact.Figure(r.Job.Cutter.NoseRadius))
	}
	if w, ok := r.found[r.task()]; ok {
		if w.why.None() {
			r.anyMove = w.anyMove
			r.write(w.steps, first)
		}
		return w.why
	}
	origin := &chain{rMost: r.rMost, tip: r.v.Stands.At.MM()}
	start := r.rLeast
	if w, ok := r.witnessStep(); ok {
		minutes := r.minutesOf(w.feed, w.pick.rpm, r.v.RoughOut) + r.Job.Limits.HoldMinutes
		origin = &chain{rMost: w.rMostAfter, from: origin, last: w, minutes: minutes, passes: 1, tip: 2 * r.strokeFor(w).SettingFor(w.made-w.depth, w.made)}
		start = w.made
	}
	best := r.search(origin, start)
	if best == nil {
		r.anyMove = true
		best = r.search(origin, start)
	}
	if best == nil {
		why := fact.New(schedule.NoOrder)
		if !r.Brief {
			why = r.diagnose(origin, start)
		}
		r.found[r.task()] = way{why: why}
		return why
	}
	w := way{steps: best.steps(), anyMove: r.anyMove}
	r.found[r.task()] = w
	r.write(w.steps, first)
	return fact.Fact{}
}

// task is all that the search for a visit's passes depends on, in one setup.
type task struct {
	start, most, from, to, clear, end qty.Length
	limits                            schedule.Limits
	ra, roundness                     qty.Length
	material                          *process.Material
	rLeast, rMost, factor, forceDoubt float64
	witness, measured                 bool
	rough, last                       process.OutBy
	stands                            schedule.Stands
	turned                            qty.RevPerMin
	flank                             setup.Flank
}

func (r *Planner) task() task {
	v := r.v
	return task{v.Start.Length(), v.StartMost.Length(), v.From, v.To, v.Clear, v.End, v.Limits, v.Ra, v.Roundness, v.Material,
		r.rLeast, r.rMost, r.Factor, r.Doubt, r.witness, r.measured, v.RoughOut.By, v.LastOut.By, v.Stands, v.Turned, v.Flank}
}

// tooThin says that the stock left is less than the edge can cut, if it is.
func (r *Planner) tooThin() fact.Fact {
	left := r.aim - r.rLeast
	if !r.measured || left >= r.LeastDepth() {
		return fact.Fact{}
	}
	return fact.New(schedule.TooThin, mm(2*left), mm(2*r.LeastDepth()))
}

// Cautions of one visit.
func (r *Planner) Cautions() []fact.Fact {
	var out []fact.Fact
	if !r.rough[0].within {
		out = append(out, fact.New(schedule.TooFast, r.v.Title, of(qty.KindSpindleSpeed, r.rough[0].rpm), fact.Name(r.Job.Cutter.Material.Name)))
	}
	if c := r.chatters(); !c.None() {
		out = append(out, c)
	}
	if c := r.closing(); !c.None() {
		out = append(out, c)
	}
	if c := r.offBush(); !c.None() {
		out = append(out, c)
	}
	if r.witness && (len(r.v.Passes) == 0 || r.v.Passes[0].Kind != schedule.Witness) {
		out = append(out, fact.New(schedule.NoWitness))
	}
	return out
}
