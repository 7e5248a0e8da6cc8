package choice

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/cores"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/source"
)

// Where a job asks for it, a bore may get a pair of its own, and its roughing another. What a
// pair weighs at each part of the work is known of those that were planned, and sketched of the
// others, by how the best plan stands to its own sketches; to change costs Asked.Change. The lightest sum
// is planned in full, what it weighs takes the place of its sketches, and so on until the lightest sum is
// above the best plan by slack.

// byBoreMost is how many plans are made for that at the most, beside those of single pairs.
const byBoreMost = 16

// slack is how much a sum by sketches may be above a plan and the plan of it still be under, as a share.
const slack = 0.05

// given is which option each part has; nil: the part is not free.
type given []*option

// search is the choice by bore as it goes on.
type search struct {
	*Asked
	all   []*pair
	parts []*part
	order []int   // part of each visit
	rest  float64 // of a plan, that hangs on no part
	tried map[string]bool
}

// tells is one choice as a word, to know it again.
func (g given) tells() string {
	s := ""
	for _, o := range g {
		if o == nil {
			s += "-,"
		} else {
			s += fmt.Sprint(o.p.n, ",")
		}
	}
	return s
}

// alike is the choice that gives each part the same pair, but for what the job names; ok: each can have it.
func (s *search) alike(p *pair) (g given, ok bool) {
	for _, t := range s.parts {
		of := s.pairFor(p, t.named, s.all)
		i := slices.IndexFunc(t.all, func(o *option) bool { return o.p == of })
		switch {
		case !t.free:
			g = append(g, nil)
		case i < 0:
			return nil, false
		default:
			g = append(g, t.all[i])
		}
	}
	return g, true
}

// byBore is the best job with pairs by bore and part; the job of one pair where none is better.
func (a *Asked) byBore(one *process.Job, all []*pair, seed Outcome) *process.Job {
	if !laidOut(seed) {
		return one
	}
	s := &search{Asked: a, all: all, tried: map[string]bool{}}
	s.parts, s.order = a.partsOf(seed)
	a.sketchParts(s.parts, all, seed)
	best, bestJob := math.Inf(1), one
	var bestGot *Outcome
	chosen, _ := s.alike(all[0])
	for _, p := range all {
		if g, ok := s.alike(p); ok && p.got != nil {
			s.tried[g.tells()] = true
			if s.learn(g, *p.got, false); p.Feasible && p.Reckoned() < best {
				best, chosen, bestGot = p.Reckoned(), g, p.got
				s.rest = best - s.sum(g)
			}
		}
	}
	if math.IsInf(s.rest, 0) || math.IsNaN(s.rest) { // not all visits of that plan are known here
		s.rest = 0
	}
	if chosen == nil {
		chosen = make(given, len(s.parts))
	}
	for n := 0; n < byBoreMost; {
		for i, t := range s.parts {
			t.follow(chosen[i])
		}
		list := s.lightest(best+slack*best, min(workers, byBoreMost-n))
		if len(list) == 0 {
			break
		}
		jobs, got := make([]*process.Job, len(list)), make([]*Outcome, len(list))
		cores.Each(len(list), workers, func(i int) {
			if jobs[i] = a.jobOf(s.parts, list[i], all); jobs[i] != nil {
				o := a.Try(Stood(&Asked{Job: jobs[i], Lay: a.Lay, Try: a.Try}))
				got[i] = &o
			}
		})
		for i, g := range list {
			n++
			s.tried[g.tells()] = true
			if got[i] == nil {
				continue
			}
			var c candidate.Candidate
			price(*got[i], &c)
			s.learn(g, *got[i], false)
			if w := c.Reckoned(); c.Feasible && w < best-1e-9 {
				best, bestJob, chosen, bestGot = w, jobs[i], g, got[i]
			}
		}
	}
	if math.IsInf(best, 1) { // none would do
		chosen = make(given, len(s.parts))
	} else {
		s.learn(chosen, *bestGot, true)
	}
	job := *bestJob // whose bars are clamped by the caller, but that of one pair
	job.Candidates = slices.Clone(one.Candidates)
	for i, t := range s.parts {
		if t.free {
			job.Candidates = append(job.Candidates, t.rows(chosen[i])...)
		}
	}
	return &job
}

// anyhow is a job that can be written, where no one pair can cut all: for each bore the stiffest bar
// that can, with the first cutter; and its visits as they are laid out. nil: there is none.
func (a *Asked) anyhow(all []*pair) (*process.Job, Outcome) {
	byGive := slices.Clone(all)
	for _, p := range byGive {
		b := a.Job.Bar
		if p.bar != nil {
			b = p.bar.Bar
		}
		p.Give = give(b)
	}
	slices.SortStableFunc(byGive, func(x, y *pair) int { return cmp.Compare(x.Give, y.Give) })
	var parts []*part
	var g given
	for i := range a.Job.Bores {
		t := &part{bores: []int{i}, whole: true}
		t.named, t.free = a.namedFor(t.bores, false)
		for _, p := range a.pairsFor(t, byGive) {
			if _, err := a.alone(i, false, p); err == nil {
				parts = append(parts, t)
				g = append(g, &option{p: p})
				break
			}
		}
	}
	if len(g) > 0 {
		if job := a.jobOf(parts, g, all); job != nil {
			return job, a.Lay(job)
		}
	}
	return nil, Outcome{}
}

// learn takes what parts weigh from a plan. A bar of adjustable stickout may stand out further in it than a part
// alone needs: what it weighs then holds for that plan only, and is taken at the end.
func (s *search) learn(g given, o Outcome, end bool) {
	var failed []*option
	for i, t := range s.parts {
		if !t.free {
			continue
		}
		c, cut, cuts := candidate.Candidate{Planned: true, Feasible: true, Chance: 1, Margin: [2]float64{math.Inf(1), math.Inf(1)}}, true, 0
		var bar process.Bar
		for _, k := range o.Cuts {
			if slices.Contains(t.bores, k.Bore) && k.Rough == t.rough {
				cuts++
				cut = cut && k.Cut
				bar = k.Bar
				c.Minutes += k.Minutes
				priceVisit(k.Visit, &c)
			}
		}
		own := g[i]
		switch w := c.Reckoned(); {
		case own.p.adjustable() && bar.CutterAt != own.Stickout && !end:
		case cut && c.Short == 0 && cuts > 0:
			if !own.Planned || w < own.weigh {
				c.Bar, c.Cutter, c.Station, c.Rough, c.Stickout, c.Give = own.Bar, own.Cutter, own.Station, own.Rough, bar.CutterAt, give(bar)
				own.Candidate, own.weigh = c, w
			}
		case !own.Planned:
			own.weigh = math.Inf(1)
			failed = append(failed, own)
		}
	}
	if len(failed) == 1 && failed[0].Why.None() {
		failed[0].Why = o.Why
	}
	for i, t := range s.parts { // what was planned is kept, too
		if t.free && g[i].Planned && !slices.Contains(t.kept, g[i]) {
			t.kept = append(t.kept, g[i])
		}
	}
}

// sum is what a choice weighs by its parts.
func (s *search) sum(g given) float64 {
	w, seen := 0.0, map[int]bool{}
	for n, i := range s.order {
		if g[i] != nil && !seen[i] {
			w += g[i].weigh
		}
		seen[i] = true
		if n > 0 && s.changes(g[s.order[n-1]], g[i]) {
			w += s.Change
		}
	}
	return w
}

// changes is whether the tools are changed between two visits, as far as that hangs on the choice.
func (s *search) changes(a, b *option) bool { return a != nil && b != nil && a.p != b.p }

// node is a choice for the first parts of the work.
type node struct {
	cost   float64
	before *node
	part   int
	o      *option
}

// beam is how many of the lightest choices for the first visits are gone on with.
const beam = 300

// lightest are the lightest choices that were not planned yet, below a weight.
func (s *search) lightest(below float64, most int) (out []given) {
	left := make([]float64, len(s.order)+1) // what the visits from here on weigh at the least
	for n := len(s.order) - 1; n >= 0; n-- {
		left[n] = left[n+1]
		if i := s.order[n]; s.parts[i].free && slices.Index(s.order, i) == n {
			least := math.Inf(1)
			for _, o := range s.parts[i].kept {
				least = math.Min(least, o.weigh)
			}
			left[n] += least
		}
	}
	now := []*node{{part: -1}}
	for n, i := range s.order {
		var next []*node
		for _, from := range now {
			add := func(o *option, weigh float64) {
				k := &node{from.cost + weigh, from, i, o}
				if s.changes(from.o, o) {
					k.cost += s.Change
				}
				if k.cost+left[n+1]+s.rest < below-1e-9 {
					next = append(next, k)
				}
			}
			had := from
			for had != nil && had.part != i {
				had = had.before
			}
			switch {
			case had != nil:
				add(had.o, 0)
			case !s.parts[i].free:
				add(nil, 0)
			default:
				for _, o := range s.parts[i].kept {
					add(o, o.weigh)
				}
			}
		}
		slices.SortStableFunc(next, func(x, y *node) int { return cmp.Compare(x.cost, y.cost) })
		now = next[:min(len(next), beam)]
	}
	for _, k := range now {
		g := make(given, len(s.parts))
		for ; k != nil && k.part >= 0; k = k.before {
			g[k.part] = k.o
		}
		if !s.tried[g.tells()] && len(out) < most {
			out = append(out, g)
		}
	}
	return out
}

// jobOf writes a choice into the job: the pair that cuts most parts as the job's own, the others by
// the names of the lists; bars as the lists have them. nil: no job can have it.
func (a *Asked) jobOf(parts []*part, g given, all []*pair) *process.Job {
	count := map[*pair]int{}
	var own *pair
	for _, o := range g {
		if o != nil {
			count[o.p]++
		}
	}
	for _, o := range g {
		if o != nil && !o.p.other && (own == nil || count[o.p] > count[own]) {
			own = o.p
		}
	}
	if own == nil { // bores name all: what of the job's own is open is as good as another
		if i := slices.IndexFunc(all, func(p *pair) bool { return p.job != nil }); i >= 0 {
			own = all[i]
		} else {
			return nil
		}
	}
	j := *a.Job
	j.Places, j.Bores = maps.Clone(j.Places), slices.Clone(j.Bores)
	list := "bars"
	if !a.Job.Open.Bar {
		if _, is := j.Places["cutters"]; is {
			list = "cutters"
		}
	}
	name := func(key string, t *process.ToolsNamed, p *pair) {
		at := source.Where(j.Places, list)
		say := func(key string) {
			if _, stated := j.Places[key]; !stated {
				j.Places[key] = at
			}
		}
		if p.bar != nil {
			t.Bar = p.Bar
			say(key + "bar")
		}
		if p.bit != nil {
			t.Cutter = p.Cutter
			say(key + "cutter")
		}
	}
	cutBy := map[int]*pair{}
	for _, rough := range []bool{false, true} {
		for i, t := range parts {
			if !t.free || t.rough != rough {
				continue
			}
			for _, b := range t.bores {
				bore, key, p := &j.Bores[b], source.El("bore", b)+".", g[i].p
				switch {
				case !rough:
					if cutBy[b] = p; p != own {
						n := process.ToolsNamed{}
						name(key, &n, p)
						bore.Bar, bore.Cutter = n.Bar, n.Cutter
					}
				case p != cutBy[b]:
					name(key+"rough.", &bore.Rough, p)
				}
			}
		}
	}
	got, err := files.With(&j, own.bar, own.bit)
	if err != nil {
		return nil
	}
	return got
}

// Rows of the table of a part: of those that would do, and of those that would not.
const (
	rowsDo  = 3
	rowsNot = 4
)

// rows are what a part was chosen from: that chosen first, then the lightest, then what would not do.
func (t *part) rows(chosen *option) (out []candidate.Candidate) {
	t.follow(chosen)
	slices.SortStableFunc(t.all, func(x, y *option) int { return cmp.Compare(x.weigh, y.weigh) })
	add := func(o *option) { out = append(out, o.Candidate) }
	if chosen != nil {
		chosen.Chosen = true
		add(chosen)
	}
	for _, o := range t.all {
		if o != chosen && !math.IsInf(o.weigh, 1) && len(out) < rowsDo {
			add(o)
		}
	}
	does := len(out)
	told := map[string]bool{}
	for _, o := range t.all {
		if !math.IsInf(o.weigh, 1) || o.Why.None() || told[o.Bar] || len(out)-does >= rowsNot {
			continue
		}
		c := o.Candidate
		c.Planned, c.Feasible, c.Minutes = false, false, 0
		if !slices.ContainsFunc(t.all, func(q *option) bool { return q.Bar == o.Bar && (!fact.Alike(q.Why, o.Why) || !math.IsInf(q.weigh, 1)) }) {
			c.Cutter = "" // with none
			told[o.Bar] = true
		}
		out = append(out, c)
	}
	return out
}
