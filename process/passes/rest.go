package passes

import (
	"math"

	"borewright/process/pass"
)

// What a chain still costs at the least is known before it is searched for: over the grid by
// the cheapest pass for each depth, and at the end by the cheapest last passes that a
// semi-finish to their depth can go before, whatever they leave of the old shape and of the size.
// A way that costs more with it than some chain may is left out. The search begins with little
// more than the least that a chain costs, and where it finds none with more.

// bound works rest out, back from the last node.
func (g *roughs) bound(leastAfter func(least []float64, n *node, turned []float64)) {
	g.rest = make([][pass.MostSpeeds]float64, len(g.grid))
	through := func(radius float64, i0, speed int) float64 {
		least, end := math.Inf(1), i0
		for end < len(g.grid) && g.grid[end]-radius <= g.DepthMost*(1+1e-9) {
			end++
		}
		for i := end - 1; i >= i0; i-- { // the deepest leaves the least to do
			if g.pass[speed]+g.rest[i][speed] < least && g.beyondBand(radius, g.grid[i]) {
				least = math.Min(least, g.cheapest(g.entry(g.grid[i]-radius), speed)+g.rest[i][speed])
			}
		}
		return least
	}
	turned := make([]float64, len(g.rough))
	for speed, pick := range g.rough {
		turned[speed] = pick.RPM
	}
	for i := len(g.grid) - 1; i >= 0; i-- {
		leastAfter(g.rest[i][:len(turned)], &node{radius: g.grid[i]}, turned)
		for speed := range g.rough {
			g.rest[i][speed] = math.Min(g.rest[i][speed], through(g.grid[i], i+1, speed))
		}
	}
	direct := []float64{0}
	leastAfter(direct, &node{radius: g.start, ways: []*chain{g.first}}, []float64{g.turned(g.first)})
	g.direct, g.least = g.first.cost+direct[0], math.Inf(1)
	for speed, pick := range g.rough {
		g.least = math.Min(g.least, g.first.cost+through(g.start, 0, speed)+g.gearPrice(g.first, pick))
	}
}

// leastAfter fills in the least that the last passes cost from a radius, after passes that turned
// at some speeds, rev/min; +Inf where none can be cut from there. Of a speed that has them cost so
// much more than another that nobody would choose it, it is enough to know that.
func (l *lastPasses) leastAfter(least []float64, n *node, turned []float64) {
	const more = 4 // minutes
	most, best := math.Inf(1), math.Inf(1)
	for i := range least {
		least[i] = most
	}
	if n.radius < l.lastFrom() {
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

// within is what a chain may cost in the first search, and in those after it: a little more than
// the least, without a roughing pass and with some, more, and then whatever it costs. before is what the
// chain cost that was found with another wear; 0: there was none.
func within(direct, roughed, before float64) []float64 {
	more := func(least float64) float64 { return least + math.Max(1, least/20) }
	first := more(math.Min(direct, roughed))
	second := 1.2 * first
	switch {
	case before > math.Min(direct, roughed):
		first, second = before+1, 1.2*(before+1)
	case direct < roughed:
		second = more(roughed)
	}
	return []float64{first, second, 4. / 3 * second, math.Inf(1)}
}
