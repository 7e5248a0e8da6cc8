package ways

import (
	"cmp"
	"reflect"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/cores"
	"borewright/process/fact"
	"borewright/process/files"
)

// most is how many ways are told.
const most = 5

// mostPairs is how many pairs are planned where something frees: with the single
// changes a second, about, on two cores. Where nothing does, more are until one does, but of
// several bores, each of which is planned anew for a pair. What is barred is not planned, and counts not.
const mostPairs = 48

// longest is how many changes of a graded kind are tried one after the other; more are halved first.
const longest = 3

// workers is how many plans are made at a time. What is found does not depend on it.
const workers = 2

// clone is a job whose bar, machine, sleeve and bores can be changed. The machine is
// shared: who changes it makes a new one.
func clone(job *process.Job) *process.Job {
	j := *job
	j.Bar.Steps = slices.Clone(job.Bar.Steps)
	j.Bores = slices.Clone(job.Bores)
	if job.Sleeve != nil {
		s := *job.Sleeve
		j.Sleeve = &s
	}
	return &j
}

// with is a job with changes made, completed as one that is read; nil where a job so
// written would not be read.
func with(job *process.Job, list ...change) *process.Job {
	j := clone(job)
	var paths, without []string
	whole := false
	var named []*own
	for _, c := range list {
		if n := c.of(); n != nil {
			if !slices.Contains(named, n) {
				named = append(named, n)
			}
			continue
		}
		whole = whole || c.whole()
		c.edit(j)
		for _, k := range c.keys {
			if k.path == "" {
				continue
			}
			if k.as.Kind == Without {
				without = append(without, k.path)
			} else {
				paths = append(paths, k.path)
			}
		}
	}
	if j.Bar.Listed != nil && !reflect.DeepEqual(j.Bar.Steps, job.Bar.Steps) { // another bar, clamped as it is
		own := j.Bar
		own.Listed, j.Bar.Listed = nil, &own
	}
	for _, n := range named {
		n.put(job, j, slices.DeleteFunc(slices.Clone(list), func(c change) bool { return c.of() != n }))
	}
	if files.Again(job, j, paths, append(without, usual(job, j, paths, whole)...)) != nil {
		return nil
	}
	return j
}

// tried is one or more changes made together, and what came of them.
type tried struct {
	of   []int // the kinds of them
	made []change
	cost int
	job  *process.Job // nil: it would not be read
	Outcome
	dearer []change // a bar to make: the same of dearer metals
}

func (a *Asked) try(how Effort, of []int, cost int, made ...change) tried {
	t := tried{of: of, made: made, cost: cost, job: with(a.Job, made...)}
	if t.job == nil || a.unmade(t) {
		t.job = nil
		return t
	}
	t.Outcome = a.Try(t.job, how)
	return t
}

// way is what is told of what was tried, behind others that add so many bars and cutters to the lists.
func (a *Asked) way(t tried, bars, cutters int) Way {
	w := Way{Outcome: t.Outcome, units: a.Job.Units}
	entry, keys := toList(a.Job, t.job, t.made, bars)
	if w.Keys = keys; entry != nil {
		w.Bars = append(w.Bars, *entry)
	}
	w.name(a.Job, t, bars, cutters)
	var what []fact.Fact
	for _, c := range t.made {
		what = append(what, c.what)
	}
	if w.Change = what[0]; len(what) > 1 {
		w.Change = fact.New(Both, fact.List(what...))
	}
	return w
}

// apart is whether no key of a change is one of the others.
func apart(c change, others []change) bool {
	for _, o := range others {
		for _, k := range o.keys {
			if slices.ContainsFunc(c.keys, func(x key) bool { return meet(x.path, k.path) }) {
				return false
			}
		}
	}
	return true
}

// meet is whether two keys are one, or one within the other.
func meet(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	return a == b || strings.HasPrefix(b, a) && strings.ContainsRune(".[", rune(b[len(a)]))
}

// nearer is whether an outcome that is stopped is nearer to a plan than another:
// less stops it, or its nearest pass misses its limit by less, by more than a little.
func nearer(o, than Outcome) bool {
	return o.Stops < than.Stops || o.Stops == than.Stops && o.Short < 0.98*than.Short
}

// Free searches what would free a plan that is stopped, as the outcome now says: single
// changes, and pairs of those that do not free it alone. The cheapest in the shop come
// first, the best five are told.
func Free(a *Asked, now Outcome) Found {
	all, frees := kinds(a), func(o Outcome) bool { return o.Feasible }
	alone := make([]tried, len(all)) // what frees, or comes nearest
	bars := a.makers()
	cores.Each(len(bars)+len(all), workers, func(i int) {
		if i < len(bars) {
			a.make(&bars[i], len(all))
		} else {
			alone[i-len(bars)] = a.least(i-len(bars), all[i-len(bars)])
		}
	})
	var found []tried
	for _, t := range alone {
		if t.Feasible {
			found = append(found, a.leaner(t, all, Judged, frees))
		}
	}
	same := func(tried, tried) bool { return true }
	if found = needed(found, same); len(found) < most {
		found = needed(append(found, a.pairs(all, alone, now, most-len(found))...), same)
	}
	found, none := bar(found, bars)
	return Found{a.asWays(found), none, a.dearer(found)}
}

// Found is what frees a plan, and why no bar to make does, where they were tried and none does; or the
// bar to make by its metals, where a dearer one gives more.
type Found struct {
	Ways   []Way
	NoBar  fact.Fact
	Metals []Metal
}

// least is the least change of a kind that frees; where none does, the one that comes
// nearest. Of changes that are more and more of the same, the most is tried first, and
// where it does not free the least is the only other one.
func (a *Asked) least(i int, k kind) tried {
	list := k.changes
	var best tried
	if n := len(list) - 1; k.graded && n > 0 {
		if best = a.try(Judged, []int{i}, k.rank, list[n]); best.Feasible {
			for list = list[:n]; len(list) > longest; {
				m := len(list) / 2
				if t := a.try(Judged, []int{i}, k.rank, list[m]); t.Feasible {
					best, list = t, list[:m]
				} else {
					list = list[m+1:]
				}
			}
		} else {
			list = list[:1]
		}
	}
	for _, c := range list {
		t := a.try(Judged, []int{i}, k.rank, c)
		if t.Feasible { // the least change of its kind is enough
			return t
		}
		if best.job == nil || t.job != nil && !best.Feasible && nearer(t.Outcome, best.Outcome) {
			best = t
		}
	}
	return best
}

// pairs are those of changes that do not free alone which free together: those of which
// both come nearer first, then those of which one does, the cheaper first.
func (a *Asked) pairs(all []kind, alone []tried, now Outcome, want int) []tried {
	type pair struct{ i, k, helps int }
	var list []pair
	for i := range alone {
		for k := i + 1; k < len(alone); k++ {
			x, y := alone[i], alone[k]
			if x.job == nil || y.job == nil || x.Feasible || y.Feasible || !apart(x.made[0], y.made) {
				continue
			}
			p := pair{i, k, 0}
			for _, t := range []tried{x, y} {
				if nearer(t.Outcome, now) {
					p.helps++
				}
			}
			list = append(list, p)
		}
	}
	slices.SortStableFunc(list, func(p, q pair) int {
		return cmp.Or(cmp.Compare(q.helps, p.helps), cmp.Compare(all[p.i].rank+all[p.k].rank, all[q.i].rank+all[q.k].rank))
	})
	var found []tried
	for planned := 0; len(list) > 0 && len(found) < want && (planned < mostPairs || len(found) == 0 && want == most && len(a.Job.Bores) == 1); {
		batch := list[:min(len(list), 2*workers)]
		list = list[len(batch):]
		got := make([]tried, len(batch))
		cores.Each(len(batch), workers, func(n int) {
			p := batch[n]
			got[n] = a.try(Stands, []int{p.i, p.k}, all[p.i].rank+all[p.k].rank, alone[p.i].made[0], alone[p.k].made[0])
		})
		for _, t := range got {
			if t.job != nil && !t.Barred {
				planned++
			}
			if t.Feasible {
				found = append(found, a.leaner(t, all, Stands, func(o Outcome) bool { return o.Feasible }))
			}
		}
	}
	return found
}

// leaner is what was tried with another change in the place of one that does all of it and more, where that does too.
func (a *Asked) leaner(t tried, all []kind, how Effort, does func(Outcome) bool) tried {
	for i, c := range t.made {
		for _, k := range all {
			for _, part := range k.changes {
				if len(part.keys) >= len(c.keys) || !within(part.keys, c.keys) {
					continue
				}
				made := slices.Clone(t.made)
				made[i] = part
				if lean := a.try(how, t.of, t.cost, made...); does(lean.Outcome) {
					return lean
				}
			}
		}
	}
	return t
}

// needed are those of what was found that hold no change which another shows to be needless: one that makes some of
// the same changes, and no other, does as well. Of those that are the same the first stays.
func needed(found []tried, asWell func(t, than tried) bool) (out []tried) {
	for i, t := range found {
		if !slices.ContainsFunc(found, func(x tried) bool {
			return len(x.keys()) < len(t.keys()) && within(x.keys(), t.keys()) && asWell(x, t)
		}) && !slices.ContainsFunc(found[:i], func(x tried) bool { return len(x.keys()) == len(t.keys()) && within(x.keys(), t.keys()) }) {
			out = append(out, t)
		}
	}
	return out
}

// keys are those of all changes.
func (t tried) keys() (all []key) {
	for _, c := range t.made {
		all = append(all, c.keys...)
	}
	return all
}

// within is whether some keys are all among others, with the same to write.
func within(some, others []key) bool {
	for _, k := range some {
		if !slices.ContainsFunc(others, func(x key) bool { return reflect.DeepEqual(k, x) }) {
			return false
		}
	}
	return true
}

// asWays are the cheapest of what was found, planned again with their chance of landing.
func (a *Asked) asWays(found []tried) []Way {
	slices.SortStableFunc(found, func(x, y tried) int { return cmp.Compare(x.cost, y.cost) })
	if n := len(found); n > most { // a bar to make stays among those told
		if i := slices.IndexFunc(found, tried.makes); i >= most {
			found[most-1] = found[i]
		}
		found = found[:most]
	}
	cores.Each(len(found), workers, func(i int) {
		if found[i].Chance == 0 {
			found[i].Outcome = a.Try(found[i].job, Trialed)
		}
	})
	var out []Way
	bars, cutters := 0, 0
	for _, t := range found {
		w := a.way(t, bars, cutters)
		out = append(out, w)
		bars, cutters = bars+len(w.Bars), cutters+len(w.Cutters)
	}
	return out
}
