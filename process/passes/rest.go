package passes

import (
	"math"
	"slices"

	"borewright/process/pass"
)

// What a chain still costs at the least is known before it is searched for: over the grid by
// the cheapest pass for each depth, and at the end by the cheapest last passes that a
// semi-finish to their depth can go before, whatever they leave of the old shape and of the size.
// A way that costs more with it than some chain may is left out. The search begins with little
// more than the least that a chain costs, and where it finds none with more.

// bound works rest out, back from the last node. leastAfter lowers, of a node and some speeds, what is worth looking
// for to the least that a chain still costs from there. A chain that costs more than most is not.
func (g *roughs) bound(leastAfter func(least []float64, n *node, turned []float64), most float64) {
	g.rest = make([][pass.MostSpeeds]float64, len(g.grid))
	g.least = most + 1e-3
	through := func(radius float64, i0, speed int, most float64) float64 {
		least, end := most, i0
		for end < len(g.grid) && g.grid[end]-radius <= g.DepthMost*(1+1e-9) {
			end++
		}
		for i := end - 1; i >= i0; i-- { // the deepest leaves the least to do
			if left := least - g.rest[i][speed]; g.pass[speed] < left && g.beyondBand(radius, g.grid[i]) {
				least = math.Min(least, g.cheapest(g.entry(g.grid[i]-radius), speed, left)+g.rest[i][speed])
			}
		}
		return least
	}
	turned, worth := make([]float64, len(g.rough)), make([]float64, len(g.rough))
	for speed, pick := range g.rough {
		turned[speed], worth[speed] = pick.RPM, most+1e-3-g.first.cost-g.pass[speed]
	}
	for i := len(g.grid) - 1; i >= 0; i-- {
		rest := g.rest[i][:len(turned)]
		copy(rest, worth)
		leastAfter(rest, &node{radius: g.grid[i]}, turned)
		for speed := range rest {
			rest[speed] = through(g.grid[i], i+1, speed, rest[speed])
		}
	}
	for speed, pick := range g.rough {
		before := g.first.cost + g.gearPrice(g.first, pick)
		g.least = math.Min(g.least, before+through(g.start, 0, speed, g.least-before))
	}
}

// leastFrom is the least that the last passes cost from the bore as it stands; +Inf where none can be cut.
func (l *lastPasses) leastFrom(first *chain, start float64) float64 {
	least := []float64{math.Inf(1)}
	l.leastAfter(least, &node{radius: start, ways: []*chain{first}}, []float64{l.turned(first)})
	return least[0]
}

// leastAfter lowers what is worth looking for behind a node, after passes that turned
// at some speeds, rev/min, to the least that the last passes cost there; it stays where none can be cut, or
// none for less. Of a speed that has them cost so
// much more than another that nobody would choose it, it is enough to know that.
func (l *lastPasses) leastAfter(least []float64, n *node, turned []float64) {
	const more = 1 // minutes
	most, best := slices.Max(least), math.Inf(1)
	if n.radius < l.LastFrom() {
		return
	}
	for d, depth := range l.depths {
		made := l.SemiSize(depth)
		if !l.semiFits(n, made) || l.custom.Against(l.Aim-made, l.custom.Finish) {
			continue
		}
		depth := made - n.radius
		odd := pass.Unusual(depth, l.Aim-made)
		for _, e := range l.byDepth[d] {
			if e.least+odd >= most {
				break
			}
			behind := func(i int, cost float64) float64 {
				if e.pick.RPM > turned[i] {
					cost += e.price.Faster
				}
				if e.pick.RPM != turned[i] && !math.IsInf(turned[i], 1) {
					cost += l.GearPrice()
				}
				return cost
			}
			dear := func(cost float64) bool {
				for i := range least {
					if behind(i, cost) < math.Min(least[i], most) {
						return false
					}
				}
				return true
			}
			if dear(e.least + odd) {
				continue
			}
			cost := e.passes + odd + e.semiPrice(depth)
			if dear(cost) || dear(cost+e.besides()) || !e.lands(true) || dear(cost+e.unsure) {
				continue
			}
			most = 0
			for i := range least {
				least[i] = math.Min(least[i], behind(i, cost+e.unsure))
				most, best = math.Max(most, least[i]), math.Min(best, least[i])
			}
			most = math.Min(most, best+more)
		}
	}
	for i := range least {
		least[i] = math.Min(least[i], best+more)
	}
}

// within is what a chain may cost in the first search, and in those after it: a little more
// than the least, more, and then whatever it costs. before is what the chain cost that was found
// with another wear; 0: there was none.
func within(least, before float64) []float64 {
	first := least + math.Max(1, least/20)
	if before > least {
		first = before + 1
	}
	return []float64{first, 1.2 * first, 1.6 * first, math.Inf(1)}
}
