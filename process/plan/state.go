package plan

import (
	"fmt"
	"slices"

	"borewright/process"
	"borewright/process/qty"
)

// state is where a visit stands by its last measurement.
type state struct {
	pass         int
	heavy, light float64 // radii, mm
	last         *process.Measured
	kind         Kind
	limits       Limits // of the visit
}

// fitted takes the entry of a sleeve at home. Nothing was cut: nothing is learned
// of the bar.
func (k *known) fitted(job *process.Job, bore int, e process.Measured) {
	b := job.Bores[bore]
	limits := finishLimits(job.Units, b)
	e.Visit = homeVisit
	k.sofar.Cuts, k.entries = append(k.sofar.Cuts, seenBy(job, bore, homeVisit, limits, e)), append(k.entries, e)
	k.at[bore][homeVisit-1] = &state{pass: e.Pass, kind: Fitted, last: &e, limits: limits, heavy: e.Least().MM() / 2, light: e.Most().MM() / 2}
}

// homeVisit is the visit that such an entry belongs to: the one after the
// housing's.
const homeVisit = 2

// housing is what the housing of a sleeve measures once it is bored and found
// within its limits; zero before.
func (k *known) housing(job *process.Job, b process.Bore) (found [2]qty.Diameter) {
	if k == nil {
		return found
	}
	if st := k.at[job.BoreAt(b.Station)][0]; st != nil && st.last.Least() >= st.limits.Low && st.last.Most() <= st.limits.High {
		found = [2]qty.Diameter{st.last.Least(), st.last.Most()}
	}
	return found
}

// linedUp is whether something was cut since the work was lined up by the sweeps
// that the job holds.
func (k *known) linedUp(job *process.Job) bool {
	if k == nil || len(k.entries) == 0 {
		return false
	}
	by := k.entries[len(k.entries)-1].Sweeps
	return by == "" || by == job.LinedUpBy()
}

// confirmed is whether a witness cut has shown that the bore of a station, which
// is bored, runs true to the line.
func (k *known) confirmed(job *process.Job, station int) bool {
	return k != nil && k.proved[job.BoreAt(station)]
}

// say puts what was learned into sentences.
func (k *known) say(job *process.Job) {
	u := job.Units
	for _, f := range k.sofar.Factors {
		more := "as predicted"
		switch d := f.Factor - 1; {
		case d > 0.02:
			more = fmt.Sprintf("%.0f %% more than predicted", 100*d)
		case d < -0.02:
			more = fmt.Sprintf("%.0f %% less than predicted", -100*d)
		}
		k.sofar.Says = append(k.sofar.Says, fmt.Sprintf("%s: the bar springs %s (factor %.2f, ±%.0f %%, from %s).",
			f.Material, more, f.Factor, 100*f.Doubt, plural(f.Cuts, "measured cut")))
	}
	for i := range job.Bores {
		for v := range 9 { // no bore has more visits; in their order
			st := k.at[i][v]
			if st == nil {
				continue
			}
			name := job.Stations[job.Bores[i].Station].Name
			if st.kind == Fitted {
				k.sofar.Says = append(k.sofar.Says, fmt.Sprintf("%s: the sleeve is home and measures %s to %s.", name, u.Format(st.last.Least().Length()), u.Say(st.last.Most().Length())))
				continue
			}
			says := fmt.Sprintf("%s, visit %d, stands at %s to %s after pass %d", name, v+1,
				u.Format(st.last.Least().Length()), u.Say(st.last.Most().Length()), st.pass)
			if left := st.limits.Aim.Minus(qty.DiameterMM(2 * st.heavy)); left > 0 && st.last.Least() < st.limits.Low {
				says += fmt.Sprintf("; %s is left on diameter to the size aimed at", u.Say(left))
				if st.light > st.heavy+0.01 { // the old shape still shows
					reach := qty.DiameterMM(2 * st.light)
					says += fmt.Sprintf(", and the old bore reaches %s about the true axis: it %s", u.Say(reach.Length()),
						map[bool]string{true: "cleans up", false: "does not clean up"}[reach <= st.limits.High])
				}
			}
			k.sofar.Says = append(k.sofar.Says, says+".")
		}
	}
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// standing is what measurements mean for the visits of a bore.
type standing struct {
	visits   []PassVisit // what is left of them
	next     int         // number of the next pass
	stops    []stop      // why there is no going on
	cautions []string
}

// stop is what stops a plan: the place of the entry, and why.
type stop struct{ where, what string }

func (s *standing) stop(where, what string) { s.stops = append(s.stops, stop{where, what}) }

// rest takes what is finished out of the visits of a bore and starts the others
// from what was found. n is the number of the next pass.
func (k *known) rest(job *process.Job, bore int, visits []PassVisit, n int) standing {
	out := standing{visits: visits, next: n}
	if k == nil || len(k.at[bore]) == 0 {
		return out
	}
	current := 0
	for i := range visits {
		if st := k.at[bore][i]; st != nil {
			current, out.next = i, st.pass+1
		}
	}
	if current >= len(visits) || k.at[bore][current] == nil {
		return out // what was measured belongs to a visit that this order of work does not have
	}
	st, v := k.at[bore][current], &visits[current]
	switch done, stopped := out.judge(k, job, v, st, bore); {
	case stopped:
		out.visits = nil
		return out
	case done:
		out.visits = visits[current+1:]
		return out
	}
	v.Behind = st.pass
	v.Before = nil
	v.Title += fmt.Sprintf(", the rest after pass %d", st.pass)
	v.Start, v.StartMost = qty.DiameterMM(2*st.heavy), qty.DiameterMM(2*st.light)
	out.visits = visits[current:]
	return out
}

// judge says what a measurement means for its visit: finished, oversize, or
// how much is left. It stops the plan where there is no going on.
func (s *standing) judge(k *known, job *process.Job, v *PassVisit, st *state, bore int) (done, stopped bool) {
	u := job.Units
	name := job.Stations[job.Bores[bore].Station].Name
	m := st.last
	at := fmt.Sprintf("%s, pass %d", name, st.pass)
	sizes := fmt.Sprintf("%s to %s", u.Format(m.Least().Length()), u.Say(m.Most().Length()))
	switch {
	case m.Most() > v.Limits.High && (st.kind != Witness && v.StartMost <= v.Limits.High || m.Least() > v.Limits.High):
		what := fmt.Sprintf("%s found %s, and the limits end at %s: it is %s too large", at, sizes,
			u.Say(u.Down(v.Limits.High.Length())), u.Say(m.Most().Minus(v.Limits.High)))
		switch {
		case v.Material == job.Material && job.Bores[bore].Repair == process.SleeveRepair:
			what += "; a bigger sleeve is needed"
		case job.Bores[bore].Repair == process.SleeveRepair:
			what += "; the sleeve has to come out and another go in"
		default:
			what += "; only a sleeve brings it back, unless the customer takes the size as it is"
		}
		s.stop(m.Place, what)
		return false, true
	case m.Least() >= v.Limits.Low && m.Most() <= v.Limits.High:
		if st.kind != Finish {
			s.cautions = append(s.cautions, fmt.Sprintf("%s, a %s pass, already stands within the limits (%s): look at its roughness; no cut is planned after it.", at, st.kind, sizes))
		}
		return true, false
	}
	if why := k.line[bore]; why != "" {
		s.stop(m.Place, at+": "+why)
		return false, true
	}
	return false, false
}

// home is what was found of a sleeve that is finished on the lathe; measured is
// false where it was not.
func (k *known) home(job *process.Job, bore int) (found standing, measured bool) {
	if k == nil {
		return found, false
	}
	st := k.at[bore][homeVisit-1]
	if st == nil || st.kind != Fitted {
		return found, false
	}
	found.judgeHome(job, st, bore)
	return found, true
}

// judgeHome stops the plan where the sleeve stands out of limits.
func (s *standing) judgeHome(job *process.Job, st *state, bore int) {
	u, b, m := job.Units, job.Bores[bore], st.last
	name := job.Stations[b.Station].Name
	switch {
	case m.Most() > b.Finish.High:
		s.stop(m.Place, fmt.Sprintf("%s, the sleeve at home measures %s to %s, and the limits end at %s: it has to come out and another go in", name,
			u.Format(m.Least().Length()), u.Say(m.Most().Length()), u.Say(u.Down(b.Finish.High.Length()))))
	case m.Least() < b.Finish.Low:
		s.stop(m.Place, fmt.Sprintf("%s, the sleeve at home measures %s to %s, and the limits begin at %s: hone it, or bore it in place (sleeve.finish)", name,
			u.Format(m.Least().Length()), u.Say(m.Most().Length()), u.Say(u.Up(b.Finish.Low.Length()))))
	}
}

// jobNow is the job with its stations as they stand by what was measured.
func (k *known) jobNow(job *process.Job) *process.Job {
	now := *job
	now.Stations = slices.Clone(job.Stations)
	for i, b := range job.Bores {
		last := -1
		for visit, st := range k.at[i] {
			if visit > last {
				last, now.Stations[b.Station].Diameter = visit, st.last.Least()
			}
		}
	}
	return &now
}

// lastOf is the last that was measured in a visit of a bore, from 0; nil where
// nothing was.
func (k *known) lastOf(bore, visit int) *process.Measured {
	if st := k.at[bore][visit]; st != nil {
		return st.last
	}
	return nil
}

// entry is the last entry of a pass of a bore, as it was taken.
func (k *known) entry(bore, pass int) (process.Measured, bool) {
	if k == nil {
		return process.Measured{}, false
	}
	for i := len(k.sofar.Cuts) - 1; i >= 0; i-- {
		if c := k.sofar.Cuts[i]; c.Pass == pass && c.Bore == bore {
			return k.entries[i], true
		}
	}
	return process.Measured{}, false
}
