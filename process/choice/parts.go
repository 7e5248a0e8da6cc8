package choice

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/named"
	"borewright/process/pass"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// part is what may be cut with a bar and a cutter of its own: the roughing, or all else, of the
// bores that are cut at one setting.
type part struct {
	bores []int
	rough bool
	whole bool       // it is roughed in a visit that also finishes
	named named.Pair // of its bar and its cutter, that which the job names
	free  bool       // and it does not name both, nor have the other of its own
	all   []*option  // one for each pair; nothing where it is not free
	kept  []*option  // the lightest of them
}

// follow brings the sketches of a part to where a plan stands, by the option that it has there: what a
// sketch leaves out of the time, as its stops, is much alike for all pairs; what sings besides is not.
func (t *part) follow(by *option) {
	if by == nil || math.IsInf(by.sketch, 1) || math.IsInf(by.weigh, 1) {
		return
	}
	for _, o := range t.all {
		if !o.Planned && !math.IsInf(o.weigh, 1) {
			o.weigh = o.sketch + math.Max(0, by.Minutes-by.sketch)
			o.Minutes = o.weigh
		}
	}
}

// option is a pair for one part, and what it would give there.
type option struct {
	candidate.Candidate
	p      *pair
	sketch float64 // minutes, with the price of what may sing and of a miss
	weigh  float64 // minutes, as plans are weighed: by plans where it was planned, else by its sketch; +Inf: it would not do
}

// partsOf are the parts of the work, and which of them is cut in each visit, in the order of the
// work as a plan of one pair has it.
func (a *Asked) partsOf(seed Outcome) (parts []*part, order []int) {
	j := a.Job
	at := map[[2]int]int{}
	step := func(bore int, v schedule.Visit, rough bool) {
		with := j.SetWith(bore)
		key := [2]int{with[0], 0}
		if rough {
			key[1] = 1
		}
		n, is := at[key]
		if !is {
			n = len(parts)
			at[key] = n
			p := &part{bores: with, rough: rough}
			p.named, p.free = a.namedFor(with, rough)
			parts = append(parts, p)
		}
		if p := parts[n]; !rough && (v.N > 1 || !j.RoughsApart(bore) || !pass.Apart(&v, j.Limits.RestStock)) {
			p.whole = true
		}
		order = append(order, n)
	}
	apart := func(i int) bool {
		return j.RoughsApart(i) && pass.Apart(&seed.Bores[i][0], j.Limits.RestStock)
	}
	for i, b := range j.Bores {
		for _, v := range seed.Bores[i] {
			if b.First {
				step(i, v, false)
			}
		}
	}
	for i := range j.Bores {
		if apart(i) {
			step(i, seed.Bores[i][0], true)
		}
	}
	for i, b := range j.Bores {
		if !b.First && j.Apart() {
			step(i, seed.Bores[i][0], false)
		}
	}
	for i, b := range j.Bores {
		for n, v := range seed.Bores[i] {
			if !b.First && (n > 0 || !j.Apart()) {
				step(i, v, false)
			}
		}
	}
	return parts, order
}

// namedFor is what the job names of the tools that bores of one setting are cut with or roughed with, and whether
// the rest is to be chosen.
func (a *Asked) namedFor(bores []int, rough bool) (n named.Pair, free bool) {
	for k, i := range bores {
		cut, own := named.By(a.Job, i)
		if !rough {
			own = cut
		}
		if own.Guide, own.GuideKey = nil, ""; k > 0 && (own.Bar != n.Bar || own.Cutter != n.Cutter) {
			return n, false
		}
		n = own
	}
	open := a.Job.Open
	return n, open.Bar && n.Bar == "" || open.Cutter && n.Cutter == ""
}

// pairFor is a pair of the lists with what is named in place of its own; nil: a list has no such thing.
func (a *Asked) pairFor(p *pair, n named.Pair, all []*pair) *pair {
	bar, bit := p.bar, p.bit
	if n.Bar != "" {
		if bar = entry(a.Job.Shop, n.Bar, func(b process.ShopBar) string { return b.Name }); bar == nil {
			return nil
		}
	}
	if n.Cutter != "" {
		if bit = entry(a.Job.Drawer, n.Cutter, func(k process.ShopCutter) string { return k.Name }); bit == nil {
			return nil
		}
	}
	for _, list := range [][]*pair{all, a.others} {
		if i := slices.IndexFunc(list, func(q *pair) bool { return q.bar == bar && q.bit == bit }); i >= 0 {
			return list[i]
		}
	}
	q := &pair{n: len(all) + len(a.others), bar: bar, bit: bit, other: true, guess: math.Inf(1)}
	q.Bar, q.Cutter, q.Stickout = a.Job.Bar.Name, a.Job.Cutter.Name, a.Job.Bar.CutterAt
	if bar != nil {
		q.Bar, q.Stickout = bar.Name, bar.CutterAt
	}
	if bit != nil {
		q.Cutter = bit.Name
	}
	a.others = append(a.others, q)
	return q
}

// entry is what a list has by a name; nil: nothing.
func entry[T any](list []T, name string, called func(T) string) *T {
	if i := slices.IndexFunc(list, func(x T) bool { return called(x) == name }); i >= 0 {
		return &list[i]
	}
	return nil
}

// pairsFor are the pairs that a part can be given, each once.
func (a *Asked) pairsFor(t *part, all []*pair) (out []*pair) {
	if !t.free {
		return nil
	}
	seen := map[*pair]bool{}
	for _, p := range all {
		if q := a.pairFor(p, t.named, all); q != nil && !seen[q] && t.suits(q.bit) {
			seen[q] = true
			out = append(out, q)
		}
	}
	return out
}

// suits is whether a cutter is good for a part.
func (t *part) suits(k *process.ShopCutter) bool {
	switch {
	case k == nil || k.For == candidate.AnyWork:
		return true
	case t.whole:
		return false
	case t.rough:
		return k.For == candidate.RoughWork
	}
	return k.For == candidate.FinishWork
}

// ends is which part of a visit it is.
func (t *part) ends() schedule.Part {
	switch {
	case t.rough:
		return schedule.Roughing
	case t.whole:
		return schedule.Whole
	}
	return schedule.Finishing
}

// sketchParts gives each free part an option for each pair that can be written for it, by its sketch.
func (a *Asked) sketchParts(parts []*part, all []*pair, seed Outcome) {
	type asked struct {
		o    *option
		by   *asking
		part *part
		bore int
	}
	var work []asked
	var alone []*asking
	for _, t := range parts {
		for _, p := range a.pairsFor(t, all) {
			o := &option{p: p}
			o.Bar, o.Cutter, o.Stickout, o.Give = p.Bar, p.Cutter, p.Stickout, p.Give
			o.Station, o.Rough = a.Job.Stations[a.Job.Bores[t.bores[0]].Station].Name, t.rough
			t.all = append(t.all, o)
			for _, i := range t.bores {
				by := p.known
				if by == nil || p.adjustable() {
					job, err := a.stoodAlone(i, t.rough, p, seed)
					if err != nil {
						o.weigh, o.Why = math.Inf(1), fact.AsWritten(unfit(err))
						break
					}
					by = a.ask(p.Bar, job, i)
					alone = append(alone, by)
					if tip := job.Bar.CutterAt; i == t.bores[0] || tip > o.Stickout {
						o.Stickout, o.Give = tip, give(job.Bar)
					}
				}
				work = append(work, asked{o, by, t, i})
			}
		}
	}
	sketches(alone, seed, true)
	for _, w := range work {
		sum, o := w.by.of(w.part.ends(), w.bore), w.o
		if o.weigh += sum.minutes; !sum.why.None() {
			o.Why, o.Short = sum.why, sum.short
		}
		o.Minutes, o.sketch = o.weigh, o.weigh
	}
	for _, t := range parts {
		slices.SortStableFunc(t.all, func(x, y *option) int { return cmp.Compare(x.weigh, y.weigh) })
		for _, o := range t.all {
			if !math.IsInf(o.weigh, 1) && len(t.kept) < keptForPart {
				t.kept = append(t.kept, o)
			}
		}
	}
}

// keptForPart is how many pairs are tried for a part at the most, by their sketches.
const keptForPart = 8

// stoodAlone is the job with one bore alone, and a pair for it whose bar stands out as this bore needs it.
func (a *Asked) stoodAlone(bore int, rough bool, p *pair, seed Outcome) (*process.Job, error) {
	job, err := a.alone(bore, rough, p)
	if err != nil || !job.Bar.Adjustable() {
		return job, err
	}
	if s, ok := closest([]view{{job, Outcome{Bores: seed.Bores[bore : bore+1], Lines: []*place.LineUp{seed.line(bore)}}}}); ok {
		job = s.job
	}
	return job, nil
}

// alone is the job with one bore alone, and a pair for it.
func (a *Asked) alone(bore int, rough bool, p *pair) (*process.Job, error) {
	seen := faces.Of(a.Job, bore)
	b, less := seen.Bores[bore], qty.Length(0)
	if rough {
		less = a.Job.Limits.RestStock
	}
	b.Bar, b.Cutter, b.With, b.Rough, b.RoughBy = "", "", "", process.ToolsNamed{}, nil
	k := named.Alone(seen, b, less)
	k.Rough = process.ToolsNamed{}
	if p.other { // what the job states of its own does not hold for these
		k = named.Bared(k, p.bar != nil, p.bit != nil)
		if p.bit == nil {
			k.Cutter = a.Job.Cutter
			k.Cutter.Least, k.Cutter.Most, k.Cutter.Bar = 0, 0, 0
		}
	}
	return files.With(k, p.bar, p.bit)
}
