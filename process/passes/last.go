package passes

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"borewright/process/pass"
)

// lastPasses are what the last passes of a search can be: their feeds by the roughness
// asked for, from the coarsest, their depths, the usual first, and the edges that they may
// be cut with.
type lastPasses struct {
	*Planner
	feeds, depths []float64
	cheapest      []*ending   // from that of the least cost
	byDepth       [][]*ending // the same of each depth
}

// newLast are those of a search from a bore of radius start; priced: what they cost counts.
func (r *Planner) newLast(start float64, priced bool) *lastPasses {
	l := &lastPasses{Planner: r, depths: slices.Clone(pass.FinishDepths)}
	slices.SortStableFunc(l.depths, func(a, b float64) int { return cmp.Compare(math.Abs(a-pass.UsualFinish), math.Abs(b-pass.UsualFinish)) })
	thin := l.Thin(l.Aim-start, l.light)
	for _, feed := range slices.Backward(r.Feeds) {
		if !r.FinishFeed(feed, r.finish[0].Speed) {
			continue
		}
		l.feeds = append(l.feeds, feed)
		for _, by := range r.finishers(feed, false) {
			t := l.tables(by, feed, l.depths...)
			all := make([]ending, 0, len(l.depths)*len(l.finish)) // stays where it is: pointed into
			for d, depth := range l.depths {
				for _, pick := range l.finish {
					all = append(all, by.newEnding(t, pick, d, by.SemiSize(depth)))
					e := &all[len(all)-1]
					if l.cheapest = append(l.cheapest, e); priced {
						e.costs(thin)
					}
				}
			}
		}
	}
	slices.SortStableFunc(l.cheapest, func(a, b *ending) int { return cmp.Compare(a.least, b.least) })
	l.byDepth = make([][]*ending, len(l.depths))
	for _, e := range l.cheapest {
		l.byDepth[e.depth] = append(l.byDepth[e.depth], e)
	}
	return l
}

// lastTables are those of last passes with a feed and an edge, finishes of some depths.
type lastTables struct {
	t      *pass.Table        // of the finish
	before func() *pass.Table // of the semi-finish
	over   func() *pass.Table // of a spring pass
	miss   float64            // the least that it costs to miss the size
}

func (l *lastPasses) tables(by *Planner, feed float64, depths ...float64) *lastTables {
	table := func(by *Planner) *pass.Table {
		return by.NewTable(0.0125, math.Min(l.DepthMost, pass.SemiMost)+0.0125, l.finish[0].Speed, []float64{feed}, l.Visit.LastOut)
	}
	t := table(by)
	return &lastTables{t, sync.OnceValue(func() *pass.Table { return table(by.semi) }),
		sync.OnceValue(func() *pass.Table { return by.again.Springs(t, l.finish, depths) }), by.LeastMiss()}
}

// only is the cheapest one cut to the size from a bore that was measured; nil: there is none.
func (l *lastPasses) only(first *chain, start float64) (best *chain) {
	if !l.Measured || l.Visit.Unexplained || l.Visit.Rested {
		return nil
	}
	for _, feed := range l.feeds {
		for _, by := range l.finishers(feed, true) {
			t := l.tables(by, feed, l.Aim-start)
			for _, pick := range l.finish {
				best = by.lastOne(best, t, pick, first, start)
			}
		}
	}
	return best
}

// finishing adds the last passes to every way and keeps the cheapest that costs less than most: least
// time, with the price of chatter and of missing the size weighed in. nil: there is none. The cheapest
// come first: the sooner a cheap chain is found, the more of the others can be seen to cost more
// without working them out.
func (l *lastPasses) finishing(most float64, nodes []node) *chain {
	none := &chain{cost: most}
	best, before, least := none, make([]float64, len(l.depths)), math.Inf(1)
	for d, depth := range l.depths {
		before[d] = l.leastBefore(nodes, l.SemiSize(depth))
		least = math.Min(least, before[d])
	}
	for _, end := range l.cheapest {
		if least+end.least > best.cost {
			break
		}
		dear := func(more float64) bool { return before[end.depth]+end.least+more > best.cost }
		if math.IsInf(before[end.depth], 1) || dear(0) || dear(end.besides()) || !end.lands(!dear(end.sprung)) || dear(end.unsure) || l.custom.Leaves(l.Aim-end.made, l.custom.Finish) {
			continue
		}
		for i := range nodes {
			best = end.after(best, &nodes[i])
		}
	}
	if best == none {
		return nil
	}
	return best
}
