package passes

import (
	"math"
	"slices"

	"borewright/process/pass"
	"borewright/process/schedule"
)

// The search. A visit is a chain of radii from the bore as found to the size
// aimed at. Roughing passes go from node to node of a grid of radii; the last
// two passes, semi-finish and finish, share one feed, so that the spring that
// the gauge finds after the first is the spring of the second. Over all such
// chains that keep every limit the one of least time is taken, stops to measure
// and the price of a missed size included. Force is looked up in a table made once for each visit; the chain
// chosen is worked out again exactly, in write.go.

// step is one pass of a chain.
type step struct {
	kind       schedule.Kind
	made       float64 // radius after it, where most was to be cut
	depth      float64 // there
	feed       float64
	pick       pass.Pick
	rMostAfter float64
	honed      bool // the edge is honed before it, however little it is worn
}

// chain is a way to a node.
type chain struct {
	cost   float64 // minutes, stops included, with the price of chatter and, at the end, of a missed size
	rMost  float64 // radius where least is to be cut
	tip    float64 // diameter at which the cutter stands then, mm; 0: not known
	from   *chain
	last   step
	passes int
}

// turned is the spindle speed of the last pass of a chain, rev/min, or of what was
// cut before it; +Inf where nothing was.
func (r *Planner) turned(c *chain) float64 {
	switch {
	case c.from != nil:
		return c.last.pick.RPM
	case r.Visit.Turned > 0:
		return float64(r.Visit.Turned)
	}
	return math.Inf(1)
}

// gearPrice is what it costs to turn a pass at another speed than the pass before it.
func (r *Planner) gearPrice(before *chain, pick pass.Pick) float64 {
	if t := r.turned(before); math.IsInf(t, 1) || t == pick.RPM {
		return 0
	}
	return r.GearPrice()
}

func (c *chain) steps() []step {
	var out []step
	for ; c != nil && c.from != nil; c = c.from {
		out = append(out, c.last)
	}
	slices.Reverse(out)
	return out
}

// first is the first step of a chain.
func (c *chain) first() *step {
	for c.from != nil && c.from.from != nil {
		c = c.from
	}
	return &c.last
}

// searched is the chain of least cost, or nil, with the roughing passes by the edge
// of r and the last by those of Planner.ends. before is what the chain cost that was found with
// other edges; 0: none was.
func (r *Planner) searched(first *chain, start, before float64) *chain {
	if r.Visit.Part == schedule.Roughing {
		return r.roughed(first, start, before)
	}
	rough := r.newRoughs(first, start, r.Aim)
	if !r.Measured && r.LandsNever() > 0 || start < r.LastFrom() && !rough.reaches(r.LastFrom()) {
		return nil
	}
	last := r.newLast(start, true)
	if !r.Measured && !slices.ContainsFunc(last.cheapest, func(e *ending) bool { return e.lands(true) }) { // whatever goes before
		return nil
	}
	best, most := last.only(first, start), math.Inf(1)
	if best != nil {
		most = best.cost
	}
	if direct := first.cost + last.leastFrom(first, start); direct < most {
		if found := last.finishing(math.Min(most, within(direct, 0)[0]), []node{{start, []*chain{first}, first.cost}}); found != nil {
			best, most = found, found.cost
		}
	}
	rough.bound(last.leastAfter, most)
	if start < r.LastFrom() && math.IsInf(rough.least, 1) {
		return best
	}
	for _, tries := range within(rough.least, before) {
		tries = math.Min(tries, most)
		if found := last.finishing(math.Min(tries+1e-6, most), r.nodes(first, start, rough.grid, rough.ways(tries))); found != nil {
			return found
		}
		if tries == most {
			break
		}
	}
	return best
}

// ways are the cheapest chains to one node, by class of out-of-round and by the speed
// that they rough at, an index into Planner.rough; nil where a rounder one at that speed is
// as cheap.
type ways [pass.RoundnessClasses][pass.MostSpeeds]*chain

// better says whether a chain of such a cost, so round, at that speed, is worth keeping.
func (w *ways) better(class, speed int, cost float64) bool {
	for o := 0; o <= class; o++ {
		if w[o][speed] != nil && w[o][speed].cost <= cost+1e-12 {
			return false
		}
	}
	return true
}

func (w *ways) keep(class, speed int, c *chain) {
	for o := class; o < pass.RoundnessClasses; o++ {
		if w[o][speed] != nil && w[o][speed].cost >= c.cost {
			w[o][speed] = nil
		}
	}
	w[class][speed] = c
}

// beyondBand is whether a pass from one radius to another cuts all along the bore: where a
// witness cut has left a band, at least as deep there as the edge can take.
func (r *Planner) beyondBand(from, to float64) bool {
	return from >= r.banded || to >= r.banded+r.LeastCut()
}

// node is a radius that the last passes may begin from, with the ways to it.
type node struct {
	radius float64
	ways   []*chain
	least  float64 // cost of the cheapest
}

// nodes are those near enough to the size, from the nearest, after the bore as it
// stands.
func (r *Planner) nodes(first *chain, start float64, grid []float64, at []ways) []node {
	var out []node
	low := r.LastFrom()
	if start >= low {
		out = append(out, node{start, []*chain{first}, first.cost})
	}
	for i := len(grid) - 1; i >= 0 && grid[i] >= low; i-- {
		n := node{radius: grid[i], least: math.Inf(1)}
		for _, list := range at[i] {
			for _, w := range list {
				if w != nil {
					n.ways, n.least = append(n.ways, w), math.Min(n.least, w.cost)
				}
			}
		}
		if n.ways != nil {
			out = append(out, n)
		}
	}
	return out
}

// leastBefore is the least that a way to a node costs which a semi-finish to a radius can
// follow, with the price of an unusual one; +Inf where none can.
func (r *Planner) leastBefore(nodes []node, made float64) float64 {
	least := math.Inf(1)
	for i := range nodes {
		if n := &nodes[i]; r.semiFits(n, made) {
			least = math.Min(least, n.least+pass.Unusual(made-n.radius, r.Aim-made))
		}
	}
	return least
}
