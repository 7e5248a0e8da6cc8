package passes

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// roughs are the roughing passes of a search, from the bore as it stands over the nodes of a grid.
type roughs struct {
	*Planner
	t       *pass.Table
	first   *chain
	start   float64
	grid    []float64
	known   [][pass.MostSpeeds]known    // cheapest, by depth and speed
	options [][pass.MostSpeeds][]option // by depth of the table and speed of Planner.rough, the cheapest first; nil: not asked for yet
	pass    [pass.MostSpeeds]float64    // the least that one pass costs at a speed

	// The least that a chain still costs, by node and speed, +Inf where none goes on from there;
	// and the least that a whole chain costs. What costs more than is worth looking for is so much at the least.
	rest  [][pass.MostSpeeds]float64
	least float64
}

// known is the least that the cheapest pass costs, or just that.
type known struct {
	least float64
	just  bool
}

// newRoughs begins a search from the bore as it stands to a radius.
func (r *Planner) newRoughs(first *chain, start, to float64) *roughs {
	grid, pitch := r.GridFor(start, to)
	deepest := math.Max(0, math.Min(r.DepthMost, r.Aim-start)) + pitch
	g := &roughs{Planner: r, t: r.NewTable(pitch, deepest, r.rough[0].Speed, r.Feeds, r.Visit.RoughOut), first: first, start: start, grid: grid}
	g.options, g.known = make([][pass.MostSpeeds][]option, g.t.Depths()), make([][pass.MostSpeeds]known, g.t.Depths())
	for n, pick := range r.rough {
		g.pass[n] = r.MinutesOf(r.Feeds[len(r.Feeds)-1], pick.RPM, r.Visit.RoughOut) + r.SetMinutes()
	}
	return g
}

// option is one feed for a depth and a speed, with what a pass so cut takes.
type option struct {
	feed               int
	minutes, cost      float64 // cost: minutes with the price of chatter
	priced, judged, ok bool
	over               float64 // Judge.Over; 0 where the job limits the spring
}

// cutOf is a pass of a depth of the table and a speed of Planner.rough, at the largest radius of
// the visit, with the force at the speed of the smallest, where it is largest.
func (g *roughs) cutOf(k, speed, feed int) pass.Cut {
	depth, p := float64(k)*g.t.Pitch, g.rough[speed]
	c := g.t.CutAt(feed, depth, p, p.At(g.start+depth), g.Aim)
	c.Left = g.Aim - g.start - depth
	return c
}

// optionsOf are the feeds for a depth and a speed, the quickest first.
func (g *roughs) optionsOf(k, speed int) []option {
	if g.options[k][speed] == nil && float64(k)*g.t.Pitch >= g.LeastCut()*(1-1e-9) { // else nothing is cut
		all := make([]option, 0, len(g.Feeds))
		for feed, f := range slices.Backward(g.Feeds) {
			all = append(all, option{feed: feed, minutes: g.MinutesOf(f, g.rough[speed].RPM, g.Visit.RoughOut) + g.SetMinutes()})
		}
		g.options[k][speed] = all
	}
	return g.options[k][speed]
}

// costs is what one of the options of a depth and a speed costs.
func (g *roughs) costs(op *option, k, speed int) float64 {
	if !op.priced {
		c := pass.Cut{Depth: float64(k) * g.t.Pitch, Pick: g.rough[speed], Radius: g.Aim}
		if g.Visit.RoughOut.By == process.FeedOut {
			c = g.cutOf(k, speed, op.feed)
		}
		op.priced, op.cost = true, op.minutes+g.t.Price(op.feed, c)
	}
	return op.cost
}

// allows is whether one of the options of a depth and a speed keeps every limit.
func (g *roughs) allows(op *option, k, speed int) bool {
	if !op.judged {
		op.judged = true
		c := g.cutOf(k, speed, op.feed)
		op.ok = g.Roughs(&c) && !g.custom.Leaves(g.Feeds[op.feed], pass.RoughFeed)
		if op.ok && g.Job.Limits.SpringRough == 0 {
			op.over = g.Larger(c)
		}
	}
	return op.ok
}

// cheapest is what the cheapest of them costs that keeps every limit; most, or +Inf, where none does for less.
func (g *roughs) cheapest(k, speed int, most float64) float64 {
	known := &g.known[k][speed]
	if known.just || known.least >= most {
		return known.least
	}
	least, list := most, g.optionsOf(k, speed)
	for i := range list {
		op := &list[i]
		if op.minutes >= least { // nor are the finer ones cheaper
			break
		}
		if (op.ok || !op.judged) && g.costs(op, k, speed) < least && g.allows(op, k, speed) {
			least = op.cost
		}
	}
	if least == most && !slices.ContainsFunc(list, func(op option) bool { return op.ok || !op.judged }) {
		least = math.Inf(1)
	}
	known.least, known.just = least, least != most || math.IsInf(least, 1)
	return least
}

// reaches is whether roughs may reach a radius: one of them is as deep there as all that the job allows are at the
// least on the average.
func (g *roughs) reaches(radius float64) bool {
	left := g.Job.Limits.PassesMost - 2 - g.first.passes
	if left <= 0 {
		return false
	}
	for k := max(0, g.entry((radius-g.start)/float64(left))); k < len(g.known); k++ {
		for speed := range g.rough {
			list := g.optionsOf(k, speed)
			for i := range list {
				if g.allows(&list[i], k, speed) {
					return true
				}
			}
			g.known[k][speed] = known{math.Inf(1), true}
		}
	}
	return false
}

// entry is the number of whole pitches of a depth, the next above: so that a first cut from
// a bore between the nodes is judged no lighter than it is.
func (g *roughs) entry(depth float64) int { return int(math.Ceil(depth/g.t.Pitch - 1e-9)) }

// ways fills in the ways to each node by roughing passes alone. All of a visit turn
// alike (common practice, no source): each speed is searched apart. Ways that cost more than
// most with all that is still to come are left out.
func (g *roughs) ways(most float64) []ways {
	at := make([]ways, len(g.grid))
	for speed := range g.rough {
		g.relax(at, g.first, g.start, 0, speed, most)
		for i, radius := range g.grid {
			for class := range at[i] {
				if w := at[i][class][speed]; w != nil {
					g.relax(at, w, radius, i+1, speed, most)
				}
			}
		}
	}
	return at
}

// relax tries every roughing pass at a speed from a way to a radius to a node from i0 on.
func (g *roughs) relax(at []ways, from *chain, radius float64, i0, speed int, most float64) {
	pick, change, least := g.rough[speed], 0.0, math.Inf(-1)
	if from == g.first {
		change = g.gearPrice(from, pick)
	}
	if !g.AnyMove {
		least = g.LeastMove() * (1 - 1e-9)
	}
	for i := i0; i < len(g.grid); i++ {
		made := g.grid[i]
		depth := made - radius
		if depth > g.DepthMost*(1+1e-9) || from.passes+3 > g.Job.Limits.PassesMost {
			return
		}
		if !g.beyondBand(radius, made) {
			continue
		}
		k, spare := g.entry(depth), g.Spare(g.Aim-made, pass.AfterRough)
		if from.cost+change+g.pass[speed]+g.rest[i][speed] > most+1e-6 || math.IsInf(g.known[k][speed].least, 1) {
			continue
		}
		list := g.optionsOf(k, speed)
		for n := range list {
			op, before := &list[n], from.cost+change
			dear := func(cost float64) bool { return cost+g.rest[i][speed] > most+1e-6 || !at[i].better(0, speed, cost) }
			if dear(before + op.minutes) {
				break // no cheaper than a way that leaves it round, nor are the finer ones
			}
			cost := before + g.costs(op, k, speed)
			if dear(cost) || !g.allows(op, k, speed) || op.over > spare { // too little may stay for the last passes
				continue
			}
			stroke := g.t.Stroke(op.feed, pick.At(made), made)
			tip := 2 * stroke.SettingFor(radius, made)
			if from.tip > 0 && tip-from.tip < least {
				*g.MoveBinds = true
				continue
			}
			rMost := stroke.Left(radius, from.rMost, made)
			class := g.RoundnessClass(rMost - made)
			if !at[i].better(class, speed, cost) {
				continue
			}
			at[i].keep(class, speed, &chain{cost: cost, rMost: rMost, tip: tip, from: from, passes: from.passes + 1,
				last: step{kind: schedule.Rough, made: made, depth: depth, feed: g.Feeds[op.feed], pick: pick, rMostAfter: rMost}})
		}
	}
}

// Roughing apart. Where all bores of a job are roughed before one is finished, the chain
// of roughing passes ends at the last node of the grid that leaves what is to stay for after the
// rest. What the passes then cost is known; what they leave the old shape is taken by the
// finish, which is planned from the bore that they leave.

// roughed is the chain of least cost from the bore as it stands to the size that is roughed to;
// nil: there is none.
func (r *Planner) roughed(first *chain, start, before float64) *chain {
	to := r.Visit.RoughTo.MM()/2 + 1e-9
	g := r.newRoughs(first, start, to)
	if len(g.grid) == 0 || !g.reaches(g.grid[len(g.grid)-1]) {
		return nil
	}
	goal := g.grid[len(g.grid)-1]
	g.bound(func(least []float64, n *node, _ []float64) {
		if n.radius >= goal {
			clear(least)
		}
	}, g.once(goal))
	for _, most := range within(g.least, before) {
		var best *chain
		for _, list := range g.ways(most)[len(g.grid)-1] {
			for _, c := range list {
				if c != nil && (best == nil || c.cost < best.cost) {
					best = c
				}
			}
		}
		if best != nil {
			return best
		}
	}
	return nil
}

// once is what one pass to a radius costs at the least, whether it can be cut or not; +Inf where it is too deep.
func (g *roughs) once(radius float64) float64 {
	least := math.Inf(1)
	for speed, pick := range g.rough {
		if radius-g.start <= g.DepthMost {
			least = math.Min(least, g.first.cost+g.gearPrice(g.first, pick)+g.cheapest(g.entry(radius-g.start), speed, least))
		}
	}
	return least
}

// Leaves is the bore that the planned passes leave, smallest and largest.
func (r *Planner) Leaves() [2]qty.Diameter {
	rLeast, rMost := r.rLeast, r.rMost
	for i := range r.Visit.Passes {
		rLeast, rMost = r.in(i).after(&r.Visit.Passes[i], rLeast, rMost)
	}
	return [2]qty.Diameter{qty.DiameterMM(2 * rLeast), qty.DiameterMM(2 * max(rLeast, rMost))}
}
