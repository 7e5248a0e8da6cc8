package post

import (
	"slices"
	"strings"

	"borewright/post/rs274"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Bores that are cut through at one setting have one program. In each pass the cutter feeds
// through the first of them, goes on at rapid through the gap behind it, the spindle turning,
// feeds through the next, and so to the last; where it is fed out it comes back the same way.

// through is one of the bores of a program.
type through struct {
	bore       *plan.Bore
	visit      *plan.Visit
	clear, end qty.Length // depths as they are written: where its feed begins and ends
}

// throughs are the bores that the program cuts in, in their order; one where it is cut alone.
func throughs(p *plan.Plan, bore, visit int) (all []through) {
	for _, at := range p.With(bore, visit) {
		b := &p.Bores[at[0]]
		all = append(all, through{bore: b, visit: &b.Visits[at[1]]})
	}
	return all
}

// checkLine refuses bores that do not lie behind each other as they are cut.
func (j *job) checkLine(no *Refusal) {
	for i := 1; i < len(j.bores); i++ {
		a, b := &j.bores[i-1], &j.bores[i]
		if b.visit.Clear > b.visit.From || b.visit.From >= b.visit.To || b.visit.End < b.visit.To || b.visit.From < a.visit.To || a.bore.Station.Blind {
			no.add(BadVisit, "%s and %s do not lie behind each other: they cannot be cut through at one setting", a.bore.Station.Name, b.bore.Station.Name)
		}
		if !slices.EqualFunc(a.visit.Passes, b.visit.Passes, func(p, q schedule.Pass) bool {
			return p.N == q.N && p.Setting == q.Setting && p.Feed == q.Feed && p.Speed == q.Speed && p.Out.By == q.Out.By && p.Out.Shift == q.Out.Shift && (p.Hold == nil) == (q.Hold == nil)
		}) {
			no.add(BadVisit, "%s and %s are not cut alike: settings, speeds, feeds, stops and ways out of one setting are the same in all of its bores", a.bore.Station.Name, b.bore.Station.Name)
		}
	}
}

// last is the bore that is cut last.
func (j *job) last() *through { return &j.bores[len(j.bores)-1] }

// stretches are the depths that are fed through in one go: bores so near to each other that the
// cutter is not clear between them are one.
func (j *job) stretches() (all [][2]qty.Length) {
	for _, x := range j.bores {
		if n := len(all); n > 0 && x.clear <= all[n-1][1] {
			all[n-1][1] = x.end
			continue
		}
		all = append(all, [2]qty.Length{x.clear, x.end})
	}
	return all
}

// feedThrough feeds from where the tip stands, in front of the first bore, through all of them.
func (j *job) feedThrough(p *schedule.Pass, f rs274.Word) {
	if p.Band != nil {
		j.block(g(1), j.deep(p.Band.To), f)
		return
	}
	for i, s := range j.stretches() {
		if i > 0 {
			j.block(g(0), j.deep(s[0]))
		}
		j.block(g(1), j.deep(s[1]), f)
	}
}

// feedBack feeds out of the last bore and back through all of them.
func (j *job) feedBack(f rs274.Word) {
	all := j.stretches()
	for i := len(all) - 1; i >= 0; i-- {
		j.block(g(1), j.deep(all[i][0]), f)
		if i > 0 {
			j.block(g(0), j.deep(all[i-1][1]))
		}
	}
}

// sayLine says which bores are cut through, and where.
func (j *job) sayLine() {
	if len(j.bores) < 2 {
		v := j.visit
		j.sayf("Bore from depth %s to %s, feed ends at %s.", j.p.Job.Units.Format(v.From), j.p.Job.Units.Format(v.To), j.size(j.written(j.end)))
		return
	}
	for _, x := range j.bores {
		j.sayf("Bore %s from depth %s to %s, feed from %s to %s.", x.bore.Station.Name, j.p.Job.Units.Format(x.visit.From), j.p.Job.Units.Format(x.visit.To),
			j.p.Job.Units.Format(j.written(x.clear)), j.size(j.written(x.end)))
	}
	j.say("Between the bores: rapid, the spindle turning, nothing is cut.")
}

// others are the names of the bores that are cut at the setting of the first.
func (j *job) others() string {
	var names []string
	for _, x := range j.bores[1:] {
		names = append(names, x.bore.Station.Name)
	}
	return strings.Join(names, ", ")
}

// depthOf is the depth of cut of pass i, over all bores.
func (j *job) depthOf(i int) string {
	least, most := j.visit.Passes[i].Depth, j.visit.Passes[i].Depth
	for _, x := range j.bores {
		least, most = min(least, x.visit.Passes[i].Depth), max(most, x.visit.Passes[i].Depth)
	}
	u := j.p.Job.Units
	if u.Format(least) == u.Format(most) {
		return u.Format(least)
	}
	return u.Format(least) + " to " + u.Format(most)
}

// expects are what the gauge should say after pass i, bore by bore.
func (j *job) expects(i int) (all []string) {
	for _, x := range j.bores {
		name := "bore"
		if len(j.bores) > 1 {
			name = x.bore.Station.Name
		}
		all = append(all, name+" "+j.expected(&x.visit.Passes[i]))
	}
	return all
}

// found is what the stop after pass i must have found for the next to be cut.
func (j *job) found(i int) string {
	if len(j.bores) > 1 {
		return strings.Join(j.expects(i), ", ")
	}
	return j.expected(&j.visit.Passes[i])
}

// each gathers what is said of the visit of each bore, once.
func (j *job) each(of func(*plan.Visit) []fact.Fact) (all []string) {
	for _, x := range j.bores {
		for _, s := range j.words.Sentences(of(x.visit)) {
			if !slices.Contains(all, s) {
				all = append(all, s)
			}
		}
	}
	return all
}

// measures are what is measured at the stop after pass i: in all bores, or in one by its name.
func (j *job) measures(i int) (all []string) {
	for _, x := range j.bores {
		for _, f := range x.visit.Passes[i].Hold.Measure {
			s, inAll := j.words.Say(f), true
			for _, y := range j.bores {
				inAll = inAll && slices.ContainsFunc(y.visit.Passes[i].Hold.Measure, func(o fact.Fact) bool { return j.words.Say(o) == s })
			}
			if s = "Measure: " + s; !inAll {
				s = "Measure in " + x.bore.Station.Name + strings.TrimPrefix(s, "Measure")
			}
			if !slices.Contains(all, s) {
				all = append(all, s)
			}
		}
	}
	return all
}

// cautions are those of all bores, once.
func (j *job) cautions() (all []string) {
	for _, at := range j.p.With(j.index[0], j.index[1]) {
		for _, f := range j.p.CautionsOf(at[0], at[1]) {
			if s := j.words.Sentence(f); !slices.Contains(all, s) {
				all = append(all, s)
			}
		}
	}
	return all
}
