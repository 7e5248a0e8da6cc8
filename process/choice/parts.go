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
	"borewright/process/qty"
	"borewright/process/schedule"
)

// part is what may be cut with a bar and a cutter of its own: the roughing, or all else, of the
// bores that are cut at one setting.
type part struct {
	bores []int
	rough bool
	whole bool      // it is roughed in a visit that also finishes
	free  bool      // the job names no tools for it
	all   []*option // one for each pair; nothing where it is not free
	kept  []*option // the lightest of them
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
			p := &part{bores: with, rough: rough, free: true}
			for _, i := range with {
				b := &j.Bores[i]
				p.free = p.free && b.Bar == "" && b.Cutter == "" && !(rough && (b.Rough != process.ToolsNamed{} || j.Rough != process.ToolsNamed{}))
			}
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
		for _, p := range all {
			if !t.free || !t.suits(p.bit) {
				continue
			}
			o := &option{p: p}
			o.Bar, o.Cutter, o.Stickout, o.Give = p.Bar, p.Cutter, p.Stickout, p.Give
			o.Station, o.Rough = a.Job.Stations[a.Job.Bores[t.bores[0]].Station].Name, t.rough
			t.all = append(t.all, o)
			for _, i := range t.bores {
				by := p.known
				if by == nil {
					job, err := a.alone(i, t.rough, p)
					if err != nil {
						o.weigh, o.Why = math.Inf(1), fact.AsWritten(unfit(err))
						break
					}
					by = a.ask(p.Bar, job, i)
					alone = append(alone, by)
					o.Stickout, o.Give = job.Bar.CutterAt, give(job.Bar)
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
	return files.With(k, p.bar, p.bit)
}
