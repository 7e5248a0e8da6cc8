package choice

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/cores"
	"borewright/process/fact"
	"borewright/process/named"
	"borewright/process/pass"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// All pairs are sketched at a time, so that what many have in common is worked out once: a bar in the
// machine for all its cutters, its way to a bore for all cutters that are as large, how an edge cuts for
// all bars.

// sketched is a visit by its sketch.
type sketched struct {
	blocked     fact.Fact // why the bar does not get there; nothing: it does, and the rest is known
	last, rough estimate
}

// estimate is minutes, with the price of what may sing and of a missed size; +Inf: it cannot be cut, with why,
// and how far the nearest is past a limit, times; 0: not known.
type estimate struct {
	minutes float64
	why     fact.Fact
	short   float64
}

func never(why fact.Fact, short float64) estimate { return estimate{math.Inf(1), why, short} }

// and is two pieces of work, one after the other.
func (e estimate) and(o estimate) estimate {
	if o.minutes += e.minutes; !e.why.None() {
		o.why, o.short = e.why, e.short
	}
	return o
}

// of is what a part of the visit takes.
func (k *sketched) of(part schedule.Part) estimate {
	switch {
	case !k.blocked.None():
		return never(k.blocked, 0)
	case part == schedule.Roughing:
		return k.rough
	case part == schedule.Finishing:
		return k.last
	}
	return k.last.and(k.rough)
}

// asking is what is to be sketched: a pair in a job that can have it.
type asking struct {
	job   *process.Job
	bar   barOf
	bores []int // that are sketched, as the job that chooses counts them
	got   map[int][]sketched
}

// barOf is a bar as it stands out, in a job of all bores or of one alone.
type barOf struct {
	name       string
	tip, drawn qty.Length
	alone      int // the bore; -1: all
}

// ask is what is to be sketched of a pair: for a bore alone, or for all of them, -1.
func (a *Asked) ask(name string, job *process.Job, alone int) *asking {
	k := &asking{job: job, bar: barOf{name, job.Bar.CutterAt, job.Bar.Drawn, alone}, bores: []int{alone}, got: map[int][]sketched{}}
	if alone < 0 {
		k.bores = k.bores[:0]
		for i := range a.Job.Bores {
			k.bores = append(k.bores, i)
		}
	}
	return k
}

// bore is where the job of the pair has a bore of the job that chooses.
func (k *asking) bore(i int) int {
	if k.bar.alone >= 0 {
		return 0
	}
	return i
}

// blocked is whether its bar does not get to one of the bores.
func (k *asking) blocked() bool {
	return slices.ContainsFunc(k.bores, func(i int) bool {
		return slices.ContainsFunc(k.got[i], func(s sketched) bool { return !s.blocked.None() })
	})
}

// edged is one visit with the edge of a pair in it.
type edged struct {
	of   *asking
	s    *setup.Setup
	got  *sketched
	bore int // in its job
	b    process.Bore
	seed schedule.Visit
	v    schedule.Visit
	r    *pass.Judge
	way  wayOf
}

// wayOf is all that says how a bar gets to a bore, but for how far it goes on behind it.
type wayOf struct {
	barOf
	room
	bore, visit int
}

// sketches sketches what is asked by the visits that a plan has laid out. all: a bore is sketched by a bar that
// does not get to another one, and roughing where no last pass lands.
func sketches(list []*asking, seed Outcome, all bool) {
	bars, bad := inMachine(list)
	var work []*edged
	for _, k := range list {
		for _, i := range k.bores {
			k.got[i] = make([]sketched, len(seed.Bores[i]))
			for n, v := range seed.Bores[i] {
				got := &k.got[i][n]
				if got.blocked = bad[k.bar]; got.blocked.None() {
					e := &edged{of: k, got: got, bore: k.bore(i), seed: v}
					e.way = wayOf{k.bar, roomFor(k.job), i, n}
					work = append(work, e)
				}
			}
		}
	}
	each(work, func(e *edged) {
		e.s = from(bars[e.of.bar].With(e.of.job), e.bore)
		e.b = e.s.Job.Bores[e.bore]
		e.v = blank(e.s, e.seed, e.b)
		var err error
		if e.r, err = pass.New(e.s, &e.v, e.s.Job.Stations[e.b.Station]); err != nil {
			e.got.blocked = fact.Because(err)
		}
	})
	ways(work, seed)
	work = slices.DeleteFunc(work, func(e *edged) bool { return !e.got.blocked.None() || !all && e.of.blocked() })
	each(work, func(e *edged) { e.got.last, e.got.rough = sketch(e.r, all) })
}

func each(work []*edged, f func(e *edged)) {
	cores.Each(len(work), workers, func(i int) { f(work[i]) })
}

// inMachine is each bar in the machine, or why it cannot be.
func inMachine(list []*asking) (bars map[barOf]*setup.Setup, bad map[barOf]fact.Fact) {
	bars, bad = map[barOf]*setup.Setup{}, map[barOf]fact.Fact{}
	var first []*asking
	for _, k := range list {
		if _, is := bars[k.bar]; !is {
			bars[k.bar] = nil
			first = append(first, k)
		}
	}
	got, why := make([]*setup.Setup, len(first)), make([]fact.Fact, len(first))
	cores.Each(len(first), workers, func(i int) {
		var err error
		if got[i], err = setup.New(first[i].job); err != nil {
			why[i] = fact.Because(err)
		} else {
			why[i] = place.QuillShort(first[i].job)
		}
	})
	var with *setup.Setup
	for i, k := range first {
		if bad[k.bar] = why[i]; got[i] == nil {
			continue
		}
		if bars[k.bar] = got[i]; with != nil {
			got[i].Beside(with)
		}
		with = got[i]
	}
	return bars, bad
}

// ways sees which bars get where. Of cutters that are as large the one that runs on furthest behind the
// bore is tried; where it gets there so do the others.
func ways(work []*edged, seed Outcome) {
	var keys []wayOf
	same := map[wayOf][]*edged{}
	for _, e := range work {
		if e.got.blocked.None() {
			if same[e.way] == nil {
				keys = append(keys, e.way)
			}
			same[e.way] = append(same[e.way], e)
		}
	}
	cores.Each(len(keys), workers, func(i int) {
		list := same[keys[i]]
		at := list[0].v
		at.End = 0
		in := place.WayIn(list[0].s, nil, list[0].b.Station, &at)
		for _, e := range list {
			e.v.WayIn = in
		}
		slices.SortStableFunc(list, func(x, y *edged) int { return cmp.Compare(y.v.End, x.v.End) })
		for n, e := range list {
			if n > 0 && e.v.End == list[n-1].v.End {
				e.got.blocked = list[n-1].got.blocked
			} else if e.got.blocked = getsTo(e.s, e.seed, e.bore, seed.line(e.way.bore), func(*place.Reach) {}); e.got.blocked.None() {
				return
			}
		}
	})
}

// sketchAll sketches every pair by the visits that a plan has laid out. Bores that name a bar or a cutter
// are sketched with it.
func (a *Asked) sketchAll(open, all []*pair, seed Outcome) {
	if !laidOut(seed) {
		for _, p := range open { // nothing to go by but the bar
			p.guess = p.Give
		}
		return
	}
	clampAll(open, seed)
	var list []*asking
	for _, p := range open {
		p.known = a.ask(p.Bar, p.job, -1)
		list = append(list, p.known)
	}
	if named.Any(a.Job) {
		a.sketchNamed(open, all, list, seed)
		return
	}
	sketches(list, seed, a.Job.Choose == candidate.ByBore)
	for _, p := range open {
		p.guessed(p.known.of(schedule.Whole, p.known.bores...))
	}
}

// guessed takes what all of the work takes by its sketches.
func (p *pair) guessed(sum estimate) {
	if p.guess, p.Why, p.Short = sum.minutes, sum.why, sum.short; p.Why.None() {
		p.Minutes = sum.minutes
	}
}

// sketchNamed is sketchAll where bores name tools: a bore that names some is sketched with these, and with what the
// pair gives it besides.
func (a *Asked) sketchNamed(open, all []*pair, list []*asking, seed Outcome) {
	type of struct {
		p     *pair
		bore  int
		rough bool
	}
	type piece struct {
		by   *asking
		part schedule.Part
		bore int
	}
	alone := map[of]*asking{}
	work := make([][]piece, len(open))
	bad := make([]estimate, len(open)) // what it takes to change the tools; or why they cannot be
	for n, p := range open {
		var first, then []*pair // that cut, in the order of the work
		add := func(bore int, names named.Pair, part schedule.Part) {
			q, rough := a.pairFor(p, names, all), part == schedule.Roughing
			if q == nil {
				return
			}
			if part != schedule.Finishing && a.Job.RoughsApart(bore) {
				first = append(first, q)
			}
			if part != schedule.Roughing {
				then = append(then, q)
			}
			by := q.known
			if q != p && by == nil {
				at := of{q, bore, rough}
				if by = alone[at]; by == nil {
					job, err := a.stoodAlone(bore, rough, q, seed)
					if err != nil {
						bad[n] = never(fact.AsWritten(unfit(err)), 0)
						return
					}
					by = a.ask(q.Bar, job, bore)
					alone[at] = by
					list = append(list, by)
				}
			}
			work[n] = append(work[n], piece{by, part, bore})
		}
		for i := range a.Job.Bores {
			cut, rough := named.By(a.Job, i)
			if a.Job.RoughsApart(i) && (cut.Bar != rough.Bar || cut.Cutter != rough.Cutter) {
				add(i, rough, schedule.Roughing)
				add(i, cut, schedule.Finishing)
			} else {
				add(i, cut, schedule.Whole)
			}
		}
		bad[n].minutes += a.Change * float64(len(slices.Compact(append(first, then...)))-1)
	}
	sketches(list, seed, true)
	for n, p := range open {
		sum := bad[n]
		for _, w := range work[n] {
			sum = sum.and(w.by.of(w.part, w.bore))
		}
		p.guessed(sum)
	}
}

// of is what a part of the work takes in some bores. What is inside a sleeve is not roughed apart.
func (k *asking) of(part schedule.Part, bores ...int) (sum estimate) {
	for _, i := range bores {
		for n := range k.got[i] {
			if !k.got[i][n].blocked.None() {
				return never(k.got[i][n].blocked, 0)
			}
			if next := k.got[i][n].of(part); part != schedule.Roughing || n == 0 {
				next.minutes += sum.minutes
				if next.why.None() {
					next.why, next.short = sum.why, sum.short
				}
				sum = next
			}
		}
	}
	return sum
}
