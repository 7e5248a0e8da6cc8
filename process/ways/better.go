package ways

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"borewright/process/cores"
)

// What is amiss with a plan that stands, and what is more than a little. Common
// practice, no source.
const (
	sure    = 0.95 // a chance below this is tight
	surer   = 0.02 // a chance that has risen by this, or to sure, is better
	quicker = 0.9  // of the time
	quieter = 1.5  // times the margin, where nothing quietens it
	little  = 0.02 // a gain of less is none
)

// amiss is how an outcome stands in what is amiss with the plan now: what it is to be
// judged by, each from 0 to 1, 1 where it is mended.
type amiss struct{ sings, tight bool }

func amissOf(now Outcome) amiss { return amiss{now.Noisiest.Margin[0] < 1, now.Chance < sure} }

// mended is by how much an outcome is better than now in what is amiss, from 0; where
// nothing is, in its time. ok is whether by more than a little, and nothing worse for it.
func (m amiss) mended(o, now Outcome) (gain float64, ok bool) {
	if !o.Feasible {
		return 0, false
	}
	if m.sings {
		gain += math.Log(math.Min(o.Noisiest.Margin[0], 1) / now.Noisiest.Margin[0])
	}
	if m.tight {
		gain += 5 * (math.Min(o.Chance, sure) - now.Chance)
	}
	if !m.sings && !m.tight {
		return math.Log(now.Minutes / o.Minutes), o.Minutes <= quicker*now.Minutes && o.Noisiest.Margin[0] >= 1 && o.Chance >= sure
	}
	ok = m.sings && (o.Noisiest.Margin[0] >= 1 || o.Noisiest.Margin[0] >= quieter*now.Noisiest.Margin[0]) || m.tight && o.Chance >= math.Min(sure, now.Chance+surer)
	worse := !m.sings && o.Noisiest.Margin[0] < 1 || m.sings && o.Noisiest.Margin[0] < 0.98*now.Noisiest.Margin[0] || o.Chance < math.Min(now.Chance, sure)-0.005
	return gain, ok && !worse
}

// whole is whether an outcome leaves nothing of it.
func (m amiss) whole(o Outcome) bool {
	return (!m.sings || o.Noisiest.Margin[0] >= 1) && (!m.tight || o.Chance >= sure)
}

// Better searches what would better a plan that stands: one that sings or whose finish is
// not sure to land, else one that could be quicker. Up to three changes are made
// together; what mends all of it comes first, then the cheapest in the shop. Where nothing
// mends all of it, what mends the most is one of those that are told.
func Better(a *Asked, now Outcome) []Way {
	m, all := amissOf(now), kinds(a)
	alone := make([]tried, len(all))
	gain := func(t tried) float64 {
		if t.job == nil {
			return math.Inf(-1)
		}
		g, _ := m.mended(t.Outcome, now)
		return g
	}
	cores.Each(len(all), workers, func(i int) {
		if all[i].rank >= allowed {
			return // nobody is asked for more than the drawing, nor left with less
		}
		for n, c := range all[i].changes {
			t, more := a.try(Trialed, []int{i}, all[i].rank, c), 0.0
			if n > 0 && len(c.keys) > len(alone[i].keys()) { // what is done besides must be worth it
				more = little
			}
			if n == 0 || gain(t) > gain(alone[i])+more {
				alone[i] = t
			}
		}
	})
	var found, help []tried
	keep := func(list []tried) {
		for _, t := range list {
			if _, ok := m.mended(t.Outcome, now); ok { // never what would not be read
				found = append(found, t)
			}
		}
	}
	keep(alone)
	for _, t := range alone {
		if t.Feasible && gain(t) > little {
			help = append(help, t)
		}
	}
	more := func(base []tried, with []tried) (out []tried) {
		type pair struct{ x, y tried }
		var list []pair
		for _, x := range base {
			for _, y := range with {
				joined := apart(y.made[0], x.made) && !slices.Contains(x.of, y.of[0])
				if joined && !m.whole(x.Outcome) && !m.whole(y.Outcome) {
					list = append(list, pair{x, y})
				}
			}
		}
		slices.SortStableFunc(list, func(p, q pair) int {
			return cmp.Compare(gain(q.x)+gain(q.y), gain(p.x)+gain(p.y))
		})
		seen := map[string]bool{}
		list = slices.DeleteFunc(list, func(p pair) bool { // the same changes in another order
			of := append(slices.Clone(p.x.of), p.y.of...)
			slices.Sort(of)
			was := seen[fmt.Sprint(of)]
			seen[fmt.Sprint(of)] = true
			return was
		})
		list = list[:min(len(list), mostPairs/2)]
		out = make([]tried, len(list))
		cores.Each(len(list), workers, func(i int) {
			p := list[i]
			out[i] = a.try(Trialed, append(slices.Clone(p.x.of), p.y.of...), p.x.cost+p.y.cost, append(slices.Clone(p.x.made), p.y.made...)...)
		})
		return out
	}
	wholes := func() (n int) {
		for _, t := range found {
			if m.whole(t.Outcome) {
				n++
			}
		}
		return n
	}
	if (m.sings || m.tight) && wholes() < most {
		pairs := more(help, help)
		if keep(pairs); wholes() == 0 {
			slices.SortStableFunc(pairs, func(x, y tried) int { return cmp.Compare(gain(y), gain(x)) })
			keep(more(pairs[:min(len(pairs), 2)], help))
		}
	}
	if n := wholes(); n > 0 && (m.sings || m.tight) {
		found = slices.DeleteFunc(found, func(t tried) bool { return !m.whole(t.Outcome) })
	} else if len(found) > 0 { // those that do at least half of what the best does
		best := slices.MaxFunc(found, func(x, y tried) int { return cmp.Compare(gain(x), gain(y)) })
		found = slices.DeleteFunc(found, func(t tried) bool { return gain(t) < gain(best)/2 })
		slices.SortStableFunc(found, func(x, y tried) int { return cmp.Compare(x.cost, y.cost) })
		if i := slices.IndexFunc(found, func(t tried) bool { return gain(t) == gain(best) }); i >= most {
			found = append(found[:most-1], found[i]) // the best is told, however dear it is
		}
	}
	return a.asWays(needed(found, func(t, than tried) bool { return gain(t) >= gain(than)-little }))
}

// Quicker is the change that shortens a plan that stands the most, of those made alone by
// another edge, another bar or another hold on it; ok: by more than a little, and nothing
// is worse for it.
func Quicker(a *Asked, now Outcome) (best Way, ok bool) {
	all := kinds(a)
	got := make([]tried, len(all))
	cores.Each(len(all), workers, func(i int) {
		k := all[i]
		if k.rank == keyedIn || k.rank >= allowed {
			return
		}
		for n, c := range k.changes {
			if n > 0 && n < len(k.changes)-1 && k.graded {
				continue // its least and its most tell enough
			}
			if t := a.try(Stands, []int{i}, k.rank, c); t.Feasible && (got[i].job == nil || t.Minutes < got[i].Minutes) {
				got[i] = t
			}
		}
	})
	slices.SortStableFunc(got, func(x, y tried) int { return cmp.Compare(x.Minutes, y.Minutes) })
	for _, t := range got {
		if t.job == nil || t.Minutes > quicker*now.Minutes || t.Noisiest.Margin[0] < math.Min(1, 0.98*now.Noisiest.Margin[0]) {
			continue
		}
		if t.Outcome = a.Try(t.job, Trialed); t.Chance >= math.Min(now.Chance, sure)-0.005 {
			return a.way(t, 0, 0), true
		}
	}
	return Way{}, false
}
