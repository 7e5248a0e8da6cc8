package plan

import (
	"fmt"
	"slices"

	"borewright/process"
	"borewright/process/qty"
)

// A sleeve that is finished on the lathe is not cut again. It is measured when
// it is home all the same: that is the bore which the drawing asks for.

// homeVisit is the visit that such an entry belongs to: the one after the
// housing's.
const homeVisit = 2

// home is what is to be measured when the sleeve of a bore is home, numbered
// after the last pass; nil where it is bored in place or has been measured.
func (p *Plan) home(bore int, s *Sleeve, n int) *Pass {
	if s == nil || s.InPlace || len(s.Stops) > 0 {
		return nil
	}
	if k := p.known; k != nil {
		if st := k.at[bore][homeVisit-1]; st != nil && st.kind == Fitted {
			p.judgeHome(st, bore)
			return nil
		}
	}
	u := p.Job.Units
	finish := p.Job.Bores[bore].Finish
	return &Pass{
		N: n, Kind: Fitted, Low: s.Before.Low, Expected: s.Before.Low.Plus(s.Before.High.Minus(s.Before.Low) / 2), High: s.Before.High,
		Hold: &Hold{Measure: []string{
			fmt.Sprintf("diameter at three depths, four clock positions: expect %s to %s", u.Format(s.Before.Low.Length()), u.Say(s.Before.High.Length())),
			"limits " + u.SayLimits(finish.Low, finish.High),
		}, Then: "Enter it; the record of the bore is then whole.", Minutes: p.Job.Limits.HoldMinutes},
	}
}

// judgeHome stops the plan where the sleeve stands out of limits.
func (p *Plan) judgeHome(st *state, bore int) {
	u, b, m := p.Job.Units, p.Job.Bores[bore], st.last
	name := p.Job.Stations[b.Station].Name
	switch {
	case m.Most() > b.Finish.High:
		p.stop(m.Place, fmt.Sprintf("%s, the sleeve at home measures %s to %s, and the limits end at %s: it has to come out and another go in", name,
			u.Format(m.Least().Length()), u.Say(m.Most().Length()), u.Say(u.Down(b.Finish.High.Length()))))
	case m.Least() < b.Finish.Low:
		p.stop(m.Place, fmt.Sprintf("%s, the sleeve at home measures %s to %s, and the limits begin at %s: hone it, or bore it in place (sleeve.finish)", name,
			u.Format(m.Least().Length()), u.Say(m.Most().Length()), u.Say(u.Up(b.Finish.Low.Length()))))
	}
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

// JobNow is the job with its stations as they stand by what was measured; the
// job itself where nothing was.
func (p *Plan) JobNow() *process.Job {
	if p.known == nil || p.Job == nil {
		return p.Job
	}
	now := *p.Job
	now.Stations = slices.Clone(p.Job.Stations)
	for i, b := range p.Job.Bores {
		last := -1
		for visit, st := range p.known.at[i] {
			if visit > last {
				last, now.Stations[b.Station].Diameter = visit, st.last.Least()
			}
		}
	}
	return &now
}
