// Package choice takes bar and cutter for a job from the shop's lists, where the job leaves them
// open. Every pair is judged: by whether its bar reaches and its cutter can be set, then by a
// sketch of its last pass and its roughing, and those that sketch best are planned in full. What
// each would give, or why it would not do, is what the job then carries (candidate.Candidate).
//
// What belongs here: which pairs there are, the order in which they are tried, and how one is
// better than another. What does not: planning. The caller plans a job and says what came of
// it (Asked.Try).
package choice

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/cores"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/named"
	"borewright/process/pass"
	"borewright/process/place"
	"borewright/process/schedule"
)

// Asked is how a job is planned. Try is called from two goroutines at a time. Lay lays the visits
// of a job out, without their passes where that is soon done.
type Asked struct {
	Job      *process.Job
	Lay, Try func(job *process.Job) Outcome
	Change   float64 // minutes that it takes to change bar and cutter

	others []*pair // of what bores name, beside the pairs of what is open
}

// Outcome is what came of a plan.
type Outcome struct {
	Feasible bool
	Why      fact.Fact // what stops it first
	Minutes  float64
	Bores    [][]schedule.Visit // by bore of the job, with their passes; empty: not laid out
	Lines    []*place.LineUp    // by bore, from the face that it is bored from; nil: nothing was swept
	Cuts     []Cut              // the visits in the order of the work
}

// line is the line-up that a bore is bored by.
func (o Outcome) line(bore int) *place.LineUp {
	if bore < len(o.Lines) {
		return o.Lines[bore]
	}
	return nil
}

// Cut is one visit of a plan: which bore, whether it is roughed alone, and what it weighs.
type Cut struct {
	Bore    int
	Rough   bool
	Cut     bool // it has passes, and its bar gets there
	Minutes float64
	Visit   schedule.Visit
	Bar     process.Bar // that cuts it, as it stands out
}

// inFull is how many pairs are planned in full at the least, and most at the most: a plan is a
// twentieth of a second.
const (
	inFull = 4
	most   = 6
)

// workers is how many are judged at a time. What is found does not depend on it.
const workers = 2

// pair is a bar and a cutter.
type pair struct {
	candidate.Candidate
	n     int                 // in the order of the lists
	bar   *process.ShopBar    // nil: the job names its own
	bit   *process.ShopCutter // the same
	job   *process.Job
	guess float64  // minutes, by the sketch; +Inf: it would not do
	got   *Outcome // of its plan, where it was planned
	what  string   // why it cannot be written into the job
	known *asking  // its sketches; nil: there are none
	stand []stand  // ways for its bar to stand out, where that is open; the first is taken
	other bool     // bores name it, and the job has a bar or a cutter of its own: it cannot be the job's own
}

// adjustable is whether the stickout of its bar is to be chosen.
func (p *pair) adjustable() bool { return p.bar != nil && p.bar.Adjustable() || len(p.stand) > 0 }

// Make chooses. The job that it gives names bar and cutter and carries the candidates, the best
// first; where none does, the first is the one that is nearest. The error is that of files.With
// where no pair can be written into the job.
func Make(a *Asked) (*process.Job, error) {
	all, err := a.pairs()
	if err != nil {
		return nil, err
	}
	if a.Job.Choose == candidate.ByBore && !slices.ContainsFunc(all, func(p *pair) bool { return p.job != nil }) {
		job, seed := a.anyhow(all)
		if job == nil {
			return nil, a.noneFits(all[0])
		}
		return a.byBore(job, all, seed), nil
	}
	open := slices.DeleteFunc(slices.Clone(all), func(p *pair) bool { return p.job == nil })
	byStiffness(open)
	var seed Outcome
	for _, p := range open[:min(len(open), seeds)] {
		if seed = a.Lay(p.job); laidOut(seed) {
			break
		}
	}
	a.sketchAll(open, all, seed)
	slices.SortStableFunc(open, func(p, q *pair) int { return cmp.Compare(p.guess, q.guess) })
	a.planBest(open)
	slices.SortStableFunc(all, better)
	best := 0
	if i := slices.IndexFunc(all, func(p *pair) bool { return p.Feasible }); i >= 0 {
		best = quiet(all, i)
	}
	all = slices.Concat(all[best:best+1], all[:best], all[best+1:])
	job := *all[0].job
	if s := all[0].stand; len(s) > 0 {
		job = *a.standing(s)
	}
	for _, p := range all {
		job.Candidates = append(job.Candidates, p.Candidate)
	}
	if job.Choose == candidate.ByBore {
		return a.byBore(&job, all, seed), nil
	}
	return &job, nil
}

// little is how much dearer a pair that is quiet for certain may be than the lightest that may sing, as a share,
// and be taken: its price goes by the likely margin and is nothing where that is quiet, though the least may be
// half of the edge. Quiet before fast. Common practice, no source.
const little = 0.05

// quiet is the pair that is taken of those that do, the lightest at best: another that is quiet for certain
// where that one may sing.
func quiet(all []*pair, best int) int {
	if all[best].Margin[0] >= 1 {
		return best
	}
	for i, p := range all[best:] {
		if p.Feasible && p.Margin[0] >= 1 && p.Reckoned() <= (1+little)*all[best].Reckoned() {
			return best + i
		}
	}
	return best
}

// seeds is how many pairs are laid out at the most to see which visits there are.
const seeds = 3

func laidOut(o Outcome) bool {
	return len(o.Bores) > 0 && !slices.ContainsFunc(o.Bores, func(v []schedule.Visit) bool { return len(v) == 0 })
}

// pairs are all pairs of what is open, each with its job, or with why it has none.
func (a *Asked) pairs() (all []*pair, err error) {
	bars, cutters := []*process.ShopBar{nil}, []*process.ShopCutter{nil}
	if a.Job.Open.Bar {
		bars = pointers(a.Job.Shop)
	}
	if a.Job.Open.Cutter {
		cutters = pointers(a.Job.Drawer)
	}
	bars = only(bars, a.allNamed(func(n named.Pair) string { return n.Bar }), func(b *process.ShopBar) string { return b.Name })
	cutters = only(cutters, a.allNamed(func(n named.Pair) string { return n.Cutter }), func(k *process.ShopCutter) string { return k.Name })
	for _, b := range bars {
		for _, k := range cutters {
			p := &pair{n: len(all), bar: b, bit: k, guess: math.Inf(1)}
			all = append(all, p)
			p.Bar, p.Cutter = a.Job.Bar.Name, a.Job.Cutter.Name
			if b != nil {
				p.Bar, p.Stickout = b.Name, b.CutterAt
			} else {
				p.Stickout = a.Job.Bar.CutterAt
			}
			if k != nil {
				p.Cutter = k.Name
				if k.For != candidate.AnyWork {
					p.Why = fact.New(GoodFor, fact.New(workKinds[k.For]))
				}
			}
		}
	}
	cores.Each(len(all), workers, func(i int) {
		p := all[i]
		switch job, err := files.With(a.Job, p.bar, p.bit); {
		case err != nil:
			p.what = unfit(err)
			p.Why = fact.AsWritten(p.what)
		case p.Why.None():
			p.job = job
		default:
			p.what = "it is not good for both roughing and finishing"
		}
	})
	fits := slices.ContainsFunc(all, func(p *pair) bool { return p.job != nil })
	if fits || a.Job.Choose == candidate.ByBore {
		return all, nil
	}
	return nil, a.noneFits(all[0])
}

// allNamed is the first bar, or the first cutter, that bores name, where all name theirs: what is open then cuts
// nothing. "": some are cut with what is open.
func (a *Asked) allNamed(of func(n named.Pair) string) string {
	for i := range a.Job.Bores {
		if cut, rough := named.By(a.Job, i); of(cut) == "" || a.Job.RoughsApart(i) && of(rough) == "" {
			return ""
		}
	}
	first, _ := named.By(a.Job, 0)
	return of(first)
}

// only is a list with one entry alone, by its name; all of it where it has none of that name.
func only[T any](list []*T, name string, called func(*T) string) []*T {
	for i, x := range list {
		if x != nil && name != "" && called(x) == name {
			return list[i : i+1]
		}
	}
	return list
}

func pointers[T any](list []T) (out []*T) {
	for i := range list {
		out = append(out, &list[i])
	}
	return out
}

// price puts on a candidate what an outcome is judged by: its time, with the price of what may sing and of a
// missed size, as passes are chosen by.
func price(o Outcome, c *candidate.Candidate) {
	c.Planned, c.Feasible, c.Minutes, c.Why, c.Short = true, o.Feasible, o.Minutes, o.Why, 0
	c.Chance, c.Margin = 1, [2]float64{math.Inf(1), math.Inf(1)}
	for _, visits := range o.Bores {
		for _, v := range visits {
			priceVisit(v, c)
		}
	}
}

// priceVisit adds the price of one visit.
func priceVisit(v schedule.Visit, c *candidate.Candidate) {
	c.Short = max(c.Short, v.Short)
	for _, q := range v.Passes {
		c.Sings += pass.ChatterPrice(q.Stability)
		if q.Stability.Margin[0] < c.Margin[0] {
			c.Margin = q.Stability.Margin
		}
	}
	if v.Budget != nil {
		c.Chance = min(c.Chance, v.Budget.Chance)
		c.Misses += pass.MissMinutes * (1 - v.Budget.Chance)
	}
}

// planBest plans in full those that sketch best, until the next sketches worse than the best is: a
// sketch leaves out what it cannot know, and is under its plan but for little.
func (a *Asked) planBest(open []*pair) {
	best, may := math.Inf(1), 0.0 // the lightest; how much more a quiet one may weigh, where that may sing
	for n := 0; n < len(open); {
		batch := open[n:min(n+workers, len(open))]
		if n >= inFull && (n >= most && !math.IsInf(best, 1) || batch[0].guess >= best+may) {
			return
		}
		if math.IsInf(batch[0].guess, 1) && (n >= inFull || !math.IsInf(best, 1)) {
			return
		}
		cores.Each(len(batch), workers, func(i int) {
			o := a.Try(batch[i].job)
			batch[i].got = &o
			price(o, &batch[i].Candidate)
		})
		for _, p := range batch {
			if p.Feasible && p.Reckoned() < best {
				if best, may = p.Reckoned(), 0; p.Margin[0] < 1 {
					may = little * best
				}
			}
		}
		n += len(batch)
	}
}

// rank puts what was planned and would do first, then what would by its sketch, which weighs less than a
// plan of it would; then what something stops, and last what cannot be written into the job.
func (p *pair) rank() int {
	switch {
	case p.Feasible:
		return 0
	case !p.Planned && !math.IsInf(p.guess, 1):
		return 1
	case p.job != nil:
		return 2
	}
	return 3
}

// better puts the better pair first.
func better(p, q *pair) int {
	by := func(p *pair) float64 {
		switch {
		case p.Feasible:
			return p.Reckoned()
		case p.rank() == 1:
			return p.guess
		case p.Short == 0: // nobody knows how far it is from doing
			return math.Inf(1)
		}
		return p.Short
	}
	return cmp.Or(cmp.Compare(p.rank(), q.rank()), cmp.Compare(by(p), by(q)), cmp.Compare(p.n, q.n))
}
