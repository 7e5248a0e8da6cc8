package measured

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/marks"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/warm"
)

// state is where a visit stands by its last measurement.
type state struct {
	pass          int
	rLeast, rMost float64      // radii, mm
	banded        qty.Diameter // of the band that a witness cut left, before the old bore; 0: none
	last          *process.Measured
	tools         *process.Tools // that it was cut with
	kind          process.CutKind
	alpha         float64         // expansion of what was gauged, 1/K
	limits        schedule.Limits // of the visit
	stands        schedule.Stands // by increment: the cutter
	flank         setup.Flank     // of its edge
	unexplained   fact.Fact       // why nothing was learned from a cut that no spring explains; nothing: it was explained
}

// fitted takes the entry of a sleeve at home. Nothing was cut: nothing is learned
// of the bar.
func (k *Learned) fitted(job *process.Job, bore int, e process.Measured) {
	b := job.Bores[bore]
	limits := schedule.FinishLimits(job.Units, b)
	e.Visit = HomeVisit
	k.Findings.Cuts, k.entries = append(k.Findings.Cuts, seenBy(job, bore, HomeVisit, limits, job.Sleeve.Material, e)), append(k.entries, e)
	k.states[bore][HomeVisit-1] = &state{pass: e.Pass, alpha: job.Sleeve.Material.Alpha, kind: process.SleeveFitted, last: &e, limits: limits, rLeast: e.Least().MM() / 2, rMost: e.Most().MM() / 2}
}

// HomeVisit is the visit that such an entry belongs to: the one after the
// housing's.
const HomeVisit = 2

// Housing is what the housing of a sleeve measures once it is bored and found
// within its limits, or so far over them as its sleeve can be turned to; zero before.
func (k *Learned) Housing(job *process.Job, b process.Bore) (found [2]qty.Diameter) {
	if k == nil {
		return found
	}
	if st := k.states[job.BoreAt(b.Station)][0]; st != nil && st.banded == 0 {
		if least, most := st.sizes(); least >= st.limits.Low && (most <= st.limits.High || turnedLarger(job, b, st)) {
			found = [2]qty.Diameter{least, most}
		}
	}
	return found
}

// stillShows is how far, on diameter, the old bore must reach past what was measured to
// show in it.
const stillShows = qty.Millimetre / 50

// turnedLarger is whether a housing that was bored over its class gets a sleeve that
// is turned that much larger. The sleeve must be made to the housing as measured, and
// the housing must be one size for it: its least and most no further apart than the
// class allows, and the old bore gone. What it does to wall and grip the sleeve's own
// figures say.
func turnedLarger(job *process.Job, b process.Bore, st *state) bool {
	low, high := st.sizes()
	gone := st.kind != process.WitnessCut && qty.DiameterMM(2*st.rMost) <= high.Plus(stillShows)
	return gone && b.Repair == process.SleeveRepair && job.Sleeve != nil && job.Sleeve.Match > 0 &&
		low >= st.limits.Low && high > st.limits.High && high.Minus(low) <= st.limits.High.Minus(st.limits.Low)
}

// LinedUp is whether something was cut since the work was lined up by the sweeps
// that the job holds, seen from the face of its bores.
func (k *Learned) LinedUp(job, seen *process.Job) bool {
	if k == nil {
		return false
	}
	for _, e := range slices.Backward(k.entries) {
		if seen.Here(job.Bores[job.BoreAt(e.Station)]) {
			return e.Sweeps == "" || e.Sweeps == marks.LinedUpBy(seen)
		}
	}
	return false
}

// Confirmed is whether a witness cut has shown that the bore of a station, which
// is bored, runs true to the line.
func (k *Learned) Confirmed(job *process.Job, station int) bool {
	return k != nil && k.proved[job.BoreAt(station)]
}

// NotInLine is how many bores stand still because their witness cut does not confirm the
// line-up.
func (k *Learned) NotInLine() (n int) {
	for _, why := range k.line {
		if !why.None() {
			n++
		}
	}
	return n
}

// say tells what was learned, and where every visit stands.
func (k *Learned) say(job *process.Job) {
	says := func(f fact.Fact) { k.Findings.Says = append(k.Findings.Says, f) }
	for _, f := range k.Findings.Factors {
		more := fact.New(AsPredicted)
		switch d := f.Factor - 1; {
		case d > 0.02:
			more = fact.New(MorePredict, fact.Figure(qty.KindShare.Of(d)))
		case d < -0.02:
			more = fact.New(LessPredict, fact.Figure(qty.KindShare.Of(-d)))
		}
		says(fact.New(Springs, fact.Name(f.Material), more, fact.Figure(qty.KindFactor.Of(f.Factor)), fact.Figure(qty.KindShare.Of(f.Doubt)), fact.Count(f.Cuts)))
	}
	for i := range job.Bores {
		for v := range 9 { // no bore has more visits; in their order
			st := k.states[i][v]
			if st == nil {
				continue
			}
			name := fact.Name(job.Stations[job.Bores[i].Station].Name)
			if st.kind == process.SleeveFitted {
				says(fact.New(SleeveHome, name, fact.Size(st.last.Least()), fact.Size(st.last.Most())))
				continue
			}
			var rest fact.Arg
			var old fact.Fact
			if left := st.limits.InWork(job.Units, st.warmer(job.Units)).Aim.Minus(qty.DiameterMM(2 * st.rLeast)); left > 0 && (st.banded > 0 || st.least() < st.limits.Low) {
				rest = fact.Figure(left)
				if st.rMost > st.rLeast+stillShows.MM()/2 { // the old shape still shows
					reach := qty.DiameterMM(2 * st.rMost)
					kind := OldStays
					if reach <= st.limits.High {
						kind = OldCleansUp
					}
					old = fact.New(kind, fact.Size(reach))
				}
			}
			kind := Stands
			if st.banded > 0 {
				kind = BandStands
			}
			says(fact.New(kind, name, fact.Count(v+1), fact.Size(st.last.Least()), fact.Size(st.last.Most()), fact.Count(st.pass), rest, old))
			if warm.AtReference(*st.last) {
				says(st.atTwenty(name))
			}
		}
	}
}

// Standing is what measurements mean for the visits of a bore.
type Standing struct {
	Visits   []schedule.Visit // what is left of them
	Next     int              // number of the next pass
	Stops    []stop           // why there is no going on
	Cautions []fact.Fact
}

// stop is what stops a plan: the place of the entry, and why.
type stop struct {
	Where string
	What  fact.Fact
}

func (s *Standing) stop(where string, what fact.Fact) {
	s.Stops = append(s.Stops, stop{where, what})
}

// Rest takes what is finished out of the visits of a bore and starts the others
// from what was found. n is the number of the next pass.
func (k *Learned) Rest(job *process.Job, bore int, visits []schedule.Visit, n int) Standing {
	out := Standing{Visits: visits, Next: n}
	if k == nil || len(k.states[bore]) == 0 {
		return out
	}
	current := 0
	for i := range visits {
		if st := k.states[bore][i]; st != nil {
			current, out.Next = i, st.pass+1
		}
	}
	if current >= len(visits) || k.states[bore][current] == nil {
		return out // what was measured belongs to a visit that this order of work does not have
	}
	st, v := k.states[bore][current], &visits[current]
	switch done, stopped := out.judge(k, job, v, st, bore); {
	case stopped:
		out.Visits = nil
		return out
	case done:
		out.Visits = visits[current+1:]
		return out
	}
	v.Behind, v.Turned = st.pass, st.last.Speed
	if m := st.last; m.WayOut == process.DrawOut && (m.Kind == process.WitnessCut || m.Kind == process.RoughCut) && job.Bores[bore].WayOut != process.DrawOut {
		v.Lined = m.Setting
	}
	v.Rested = job.Apart() && !job.Bores[bore].First && st.kind == process.RoughCut
	if !st.unexplained.None() {
		v.Unexplained = true
		out.Cautions = append(out.Cautions, fact.New(SemiNext, st.unexplained))
	}
	v.Before = nil
	v.Title = fact.New(TheRest, v.Title, fact.Count(st.pass))
	v.Stands, v.Flank = st.stands, &schedule.EdgeFound{Flank: st.flank, From: job.Stations[job.Bores[bore].Station].Name}
	v.Banded = st.banded
	v.Start, v.StartMost = qty.DiameterMM(2*st.rLeast), qty.DiameterMM(2*st.rMost)
	if warm := st.warmer(job.Units); warm != 0 {
		v.Limits = v.Limits.InWork(job.Units, warm)
		out.Cautions = append(out.Cautions, goesOnWarm(out.name(job, bore), warm))
	}
	out.Visits = visits[current:]
	return out
}

// judge says what a measurement means for its visit: finished, oversize, or
// how much is left. It stops the plan where there is no going on.
func (s *Standing) judge(k *Learned, job *process.Job, v *schedule.Visit, st *state, bore int) (done, stopped bool) {
	m := st.last
	low, high := st.sizes()
	name, pass, least, most := s.name(job, bore), fact.Count(st.pass), fact.Size(low), fact.Size(high)
	limit := job.Units.Down(v.Limits.High.Length())
	over := fact.Figure(high.Length() - limit) // by what is printed, so that the figures agree
	housing := v.N == 1 && job.Bores[bore].Repair == process.SleeveRepair
	switch {
	case housing && st.banded == 0 && turnedLarger(job, job.Bores[bore], st):
		s.Cautions = append(s.Cautions, fact.New(TurnLarger, name, pass, least, most, fact.Figure(limit), over))
		return true, false
	case high > v.Limits.High && (st.kind != process.WitnessCut && v.StartMost <= v.Limits.High || low > v.Limits.High):
		needed := OnlySleeve
		switch {
		case housing && job.Sleeve.Match == 0:
			needed = MatchSleeve
		case housing:
			needed = BiggerSleeve
		case job.Bores[bore].Repair == process.SleeveRepair:
			needed = AnotherSleeve
		}
		s.stop(m.Place, fact.New(TooLarge, name, pass, least, most, fact.Figure(limit), over, fact.New(needed)))
		return false, true
	case st.banded == 0 && low >= v.Limits.Low && high <= v.Limits.High:
		if st.kind != process.FinishCut {
			s.Cautions = append(s.Cautions, fact.New(InAlready, name, pass, fact.Name(st.kind.String()), least, most))
		}
		return true, false
	}
	if why := k.line[bore]; !why.None() {
		s.stop(m.Place, fact.New(AtPass, name, pass, why))
		return false, true
	}
	return false, false
}

// Edge is the edge of a cutter, by its name, as the last cut of it that was measured left it; nil:
// none was.
func (k *Learned) Edge(cutter string) *schedule.EdgeFound {
	if k == nil {
		return nil
	}
	return k.edges[cutter]
}

// TakenBy takes from a visit to a bore that goes on from a measured cut what belongs to the tools
// of that cut, where the visit has others: how worn the edge is, where the cutter stands, and the
// spring just measured, so that the next cut is no finish.
func (k *Learned) TakenBy(job *process.Job, bore int, v *schedule.Visit) {
	if k == nil || v.Behind == 0 {
		return
	}
	st := k.states[bore][v.N-1]
	if st == nil || st.tools == v.Tools {
		return
	}
	if job.Using(st.tools).Cutter.Name != job.Using(v.Tools).Cutter.Name {
		v.Flank = nil
	}
	v.Stands, v.Turned, v.Rested = schedule.Stands{}, 0, true
}

// Home is what was found of a sleeve that is finished on the lathe; measured is
// false where it was not.
func (k *Learned) Home(job *process.Job, bore int) (found Standing, measured bool) {
	if k == nil {
		return found, false
	}
	st := k.states[bore][HomeVisit-1]
	if st == nil || st.kind != process.SleeveFitted {
		return found, false
	}
	found.judgeHome(job, st, bore)
	return found, true
}

// judgeHome stops the plan where the sleeve stands out of limits.
func (s *Standing) judgeHome(job *process.Job, st *state, bore int) {
	u, b, m := job.Units, job.Bores[bore], st.last
	low, high := st.sizes()
	name, least, most := s.name(job, bore), fact.Size(low), fact.Size(high)
	switch {
	case high > b.Finish.High:
		s.stop(m.Place, fact.New(HomeTooLarge, name, least, most, fact.Figure(u.Down(b.Finish.High.Length()))))
	case low < b.Finish.Low:
		s.stop(m.Place, fact.New(HomeTooSmall, name, least, most, fact.Figure(u.Up(b.Finish.Low.Length()))))
	}
}

// JobNow is the job with its stations as they stand by what was measured.
func (k *Learned) JobNow(job *process.Job) *process.Job {
	now := *job
	now.Stations = slices.Clone(job.Stations)
	for i, b := range job.Bores {
		last := -1
		for visit, st := range k.states[i] {
			if visit > last && st.banded == 0 { // behind a band it is as it was
				last, now.Stations[b.Station].Diameter = visit, st.last.Least()
			}
		}
	}
	return &now
}

// LastOf is the last that was measured in a visit of a bore, from 0; nil where
// nothing was.
func (k *Learned) LastOf(bore, visit int) *process.Measured {
	if st := k.states[bore][visit]; st != nil {
		return st.last
	}
	return nil
}

// Last is the entry that was made last, of those that count; the zero value: none.
func (k *Learned) Last() process.Measured {
	if k == nil || len(k.entries) == 0 {
		return process.Measured{}
	}
	return k.entries[len(k.entries)-1]
}

// Entry is the last entry of a pass of a bore, as it was taken.
func (k *Learned) Entry(bore, pass int) (process.Measured, bool) {
	if k == nil {
		return process.Measured{}, false
	}
	for i := len(k.Findings.Cuts) - 1; i >= 0; i-- {
		if c := k.Findings.Cuts[i]; c.Pass == pass && c.Bore == bore {
			return k.entries[i], true
		}
	}
	return process.Measured{}, false
}
