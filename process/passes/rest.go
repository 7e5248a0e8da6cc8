package passes

import (
	"math"

	"borewright/process/pass"
	"borewright/process/schedule"
)

// What a chain still costs at the least is known before it is searched for: over the grid by
// the cheapest pass for each depth, and at the end by the cheapest last passes that a
// semi-finish to their depth can go before, whatever they leave of the old shape and of the size.
// A way that costs more with it than some chain may is left out. The search begins with little
// more than the least that a chain costs, and where it finds none with more.

// bound works rest out, back from the last node.
func (g *roughs) bound(leastAfter func(least []float64, radius float64, turned []float64)) {
	g.rest = make([][pass.MostSpeeds]float64, len(g.grid))
	if g.least = math.Inf(1); g.start < g.lastFrom() && g.Visit.Part != schedule.Roughing && !g.begins() {
		return
	}
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
		leastAfter(g.rest[i][:len(turned)], g.grid[i], turned)
		for speed := range g.rough {
			g.rest[i][speed] = math.Min(g.rest[i][speed], through(g.grid[i], i+1, speed))
		}
	}
	whole := []float64{0}
	leastAfter(whole, g.start, []float64{g.turned(g.first)})
	for speed, pick := range g.rough {
		whole[0] = math.Min(whole[0], through(g.start, 0, speed)+g.gearPrice(g.first, pick))
	}
	g.least = g.first.cost + whole[0]
}

// begins is whether any rough of a new depth keeps every limit.
func (g *roughs) begins() bool {
	for k := 1; k < len(g.known); k++ {
		for speed := range g.rough {
			if !math.IsInf(g.cheapest(k, speed), 1) {
				return true
			}
		}
	}
	return false
}

// leastAfter fills in the least that the last passes cost from a radius, after passes that turned
// at some speeds, rev/min; +Inf where none can be cut from there. Of a speed that has them cost so
// much more than another that nobody would choose it, it is enough to know that.
func (l *lastPasses) leastAfter(least []float64, radius float64, turned []float64) {
	const more = 4 // minutes
	most, best := math.Inf(1), math.Inf(1)
	for n := range least {
		least[n] = most
	}
	if radius < l.lastFrom() {
		return
	}
	for _, e := range l.cheapest {
		if e.least >= most {
			break
		}
		depth := e.made - radius
		if depth <= 0 || depth > pass.SemiMost+1e-9 || depth > l.DepthMost*(1+1e-9) {
			continue
		}
		behind := func(n int, cost float64) float64 {
			if e.pick.RPM > turned[n] {
				cost += e.price.Faster
			}
			if e.pick.RPM != turned[n] && !math.IsInf(turned[n], 1) {
				cost += l.GearPrice()
			}
			return cost
		}
		dear := func(cost float64) bool {
			for n := range least {
				if behind(n, cost) < math.Min(least[n], most) {
					return false
				}
			}
			return true
		}
		cost := e.least + pass.Unusual(depth, l.Aim-e.made)
		if dear(cost) {
			continue
		}
		if cost += e.semiPrice(depth); dear(cost) || dear(cost+e.besides()) || !e.lands(true) || dear(cost+e.unsure) {
			continue
		}
		most = 0
		for n := range least {
			least[n] = math.Min(least[n], behind(n, cost+e.unsure))
			most, best = math.Max(most, least[n]), math.Min(best, least[n])
		}
		most = math.Min(most, best+more)
	}
	for n := range least {
		least[n] = math.Min(least[n], best+more)
	}
}

// within is what a chain may cost in the first search, and in those after it: a little more
// than the least, more, and then whatever it costs. before is what the chain cost that was found
// with another wear; 0: there was none. None is tried where there is no chain.
func within(least, before float64) []float64 {
	if math.IsInf(least, 1) {
		return nil
	}
	first := least + math.Max(1, least/20)
	if before > least {
		first = before + 1
	}
	return []float64{first, 1.2 * first, 1.6 * first, math.Inf(1)}
}
