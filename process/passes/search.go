package passes

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
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
	minutes float64 // time, stops included
	cost    float64 // minutes, with the price of chatter and, at the end, of a missed size
	rMost   float64 // radius where least is to be cut
	tip     float64 // diameter at which the cutter stands then, mm; 0: not known
	from    *chain
	last    step
	passes  int
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

// table is the force of the cuts of a search.
type table struct {
	*setup.Table
	r      *Planner
	prices map[priced]float64
}

// priced is all that the price of chatter of a last pass hangs on: the entries that the
// stiffness of the cut is taken from on both ways, and the speed.
type priced struct {
	in, out int
	rpm     float64
}

func (r *Planner) newTable(pitch, deepest, speed float64, feeds []float64, out schedule.WayOut) *table {
	return &table{r.Table(pitch, deepest, speed, feeds, out.By == process.FeedOut), r, map[priced]float64{}}
}

// stroke is the stroke of passes at a feed of the table and a cutting speed, m/min,
// with the tip at a radius, mm.
func (t *table) stroke(feed int, speed, radius float64, out schedule.WayOut) setup.Stroke {
	return t.Stroke(feed, speed, radius, out.By == process.FeedOut)
}

// cut is a pass that takes so much, mm, on both ways together.
func (t *table) cut(feed int, total float64, pick pass.Pick, radius float64, out schedule.WayOut) pass.Cut {
	return t.cutAt(feed, total, pick, pick.At(radius), radius, out)
}

// cutAt is the same with the forces of another cutting speed, m/min.
func (t *table) cutAt(feed int, total float64, pick pass.Pick, speed, radius float64, out schedule.WayOut) pass.Cut {
	c := pass.Cut{Depth: total, Feed: t.Feeds[feed], Pick: pick, Radius: radius, Fed: out.By == process.FeedOut}
	if c.Fed {
		s := t.stroke(feed, speed, radius, out)
		c.Depth, c.Second = s.Split(total)
		c.Back, c.Rise = t.Force(feed, c.Second, speed, setup.Out), pass.RiseAt(s.Out, c.Second)
	}
	c.Force = t.Force(feed, c.Depth, speed, setup.In)
	return c
}

// stability is that of a pass.
func (t *table) stability(feed int, c pass.Cut, land cut.Land) setup.Stability {
	v := c.Pick.At(c.Radius)
	return t.r.StrokeStability(c.Depth, c.Second, v, land, func(depth float64, way setup.Way) setup.Stiffness { return t.Stiffness(feed, depth, v, way) })
}

// price is what the chance of chatter costs a pass, in minutes, by a new edge: no way is
// preferred because the edge is worn.
func (t *table) price(feed int, c pass.Cut) float64 {
	return chatterPrice(t.stability(feed, c, t.r.NewLand()))
}

// lastPrice is that of one of the last passes, at the cutting speed of the size aimed at:
// many endings have the same.
func (t *table) lastPrice(c pass.Cut) float64 {
	key := priced{t.Entry(0, c.Depth, setup.In), 0, c.Pick.RPM}
	if c.Second > 0 {
		key.out = t.Entry(0, c.Second, setup.Out)
	}
	price, known := t.prices[key]
	if !known {
		c.Radius = t.r.Aim
		price = t.price(0, c)
		t.prices[key] = price
	}
	return price
}

// pitches are the grid steps, on diameter, that leave sizes a person likes to
// read off a gauge.
func pitches(u qty.Unit) []float64 {
	if u == qty.Inches {
		return []float64{0.001 * 25.4, 0.002 * 25.4, 0.005 * 25.4, 0.010 * 25.4, 0.020 * 25.4, 0.050 * 25.4}
	}
	return []float64{0.02, 0.05, 0.1, 0.2, 0.5, 1}
}

// gridFor gives the radii between the bore as found and the aim at which a
// roughing pass may end, rising, all whole pitches of diameter.
func (r *Planner) gridFor(from, to float64) (grid []float64, pitch float64) {
	const most = 120
	for _, p := range pitches(r.Job.Units) {
		pitch = p / 2
		if (to-from)/pitch <= most {
			break
		}
	}
	for k := math.Floor(from/pitch) + 1; k*pitch < to; k++ {
		grid = append(grid, k*pitch)
	}
	return grid, pitch
}

// setMinutes is the time to stop and set the cutter without measuring the bore.
func (r *Planner) setMinutes() float64 { return r.Job.Limits.HoldMinutes / 2 }

// searched is the chain of least cost, or nil, with the roughing passes by the edge
// of r and the last by those of Planner.ends.
func (r *Planner) searched(first *chain, start float64) *chain {
	last := r.newLast()
	if !r.Measured && !last.any() { // whatever goes before
		return nil
	}
	grid, pitch := r.gridFor(start, r.Aim)
	deepest := math.Max(0, math.Min(r.DepthMost, r.Aim-start)) + pitch
	rough := r.newTable(pitch, deepest, r.rough[0].Speed, r.Feeds, r.Visit.RoughOut)
	return r.finishing(last, r.nodes(first, start, grid, r.roughing(rough, first, start, grid)), first, start)
}

// An uneven bore matters by what is left of it, so ways to a node are told
// apart by classes of out-of-round, each twice the one below, above a tenth of what is asked for; below
// that all are round.
const roundnessClasses = 12

func (r *Planner) roundnessClass(uneven float64) int {
	floor := r.Visit.Roundness.MM() / 10
	if uneven <= floor || floor <= 0 {
		return 0
	}
	return min(roundnessClasses-1, 1+int(math.Log2(uneven/floor)))
}

// ways are the cheapest chains to one node, by class of out-of-round and by the speed
// that they rough at, an index into Planner.rough; nil where a rounder one at that speed is
// as cheap.
type ways [roundnessClasses][mostSpeeds]*chain

// mostSpeeds is how many speeds are tried in roughing: in steps of 0.7 that is a
// range of 1 to 17.
const mostSpeeds = 9

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
	for o := class; o < roundnessClasses; o++ {
		if w[o][speed] != nil && w[o][speed].cost >= c.cost {
			w[o][speed] = nil
		}
	}
	w[class][speed] = c
}

// toFinish are the chains that the last passes are worth trying behind: those with none as
// round that roughs no slower and is as cheap with a change of gear. The speed matters to the
// finish, which is not to be turned faster without need.
func (w *ways) toFinish(gears float64) (out []*chain) {
	for o := range w {
		for s, c := range w[o] {
			if c != nil && !w.betters(o, s, gears) {
				out = append(out, c)
			}
		}
	}
	return out
}

// betters is whether another chain is so much better than that of a class and a speed.
func (w *ways) betters(class, speed int, gears float64) bool {
	c := w[class][speed]
	for o := 0; o <= class; o++ {
		for s := 0; s < speed; s++ {
			if w[o][s] != nil && w[o][s].cost+gears <= c.cost+1e-12 {
				return true
			}
		}
	}
	return false
}

// beyondBand is whether a pass from one radius to another cuts all along the bore: where a
// witness cut has left a band, at least as deep there as the edge can take.
func (r *Planner) beyondBand(from, to float64) bool {
	return from >= r.banded || to >= r.banded+r.LeastCut()
}

// option is one feed and speed for a depth, with what a pass so cut takes.
type option struct {
	feed          int
	minutes, cost float64
	over          float64 // Judge.Over; 0 where the job limits the spring
}

// roughing fills in the ways to each node by roughing passes alone. All of a visit turn
// alike (common practice, no source): each speed is searched apart.
func (r *Planner) roughing(t *table, first *chain, start float64, grid []float64) []ways {
	at := make([]ways, len(grid))
	allowed := r.allowed(t, start)
	least := math.Inf(-1)
	if !r.AnyMove {
		least = r.LeastMove() * (1 - 1e-9)
	}
	for speed, pick := range r.rough {
		change := r.gearPrice(first, pick)
		relax := func(from *chain, radius float64, i0 int) {
			for i := i0; i < len(grid); i++ {
				depth := grid[i] - radius
				if depth > r.DepthMost*(1+1e-9) || from.passes+3 > r.Job.Limits.PassesMost {
					return
				}
				if !r.beyondBand(radius, grid[i]) {
					continue
				}
				// Judged at the next whole pitch, so that a first cut from a
				// bore between the nodes is judged no lighter than it is.
				k, spare := int(math.Ceil(depth/t.Pitch-1e-9)), r.Spare(r.Aim-grid[i], pass.AfterRough)
				for _, op := range allowed[k][speed] {
					cost := from.cost + op.cost
					if from == first {
						cost += change
					}
					if !at[i].better(0, speed, cost) {
						break // no cheaper than a way that leaves it round, nor are the dearer ones
					}
					if op.over > spare { // too little may stay for the last passes
						continue
					}
					stroke := t.stroke(op.feed, pick.At(grid[i]), grid[i], r.Visit.RoughOut)
					tip := 2 * stroke.SettingFor(radius, grid[i])
					if from.tip > 0 && tip-from.tip < least {
						*r.MoveBinds = true
						continue
					}
					rMost := stroke.Left(radius, from.rMost, grid[i])
					o := r.roundnessClass(rMost - grid[i])
					if !at[i].better(o, speed, cost) {
						continue
					}
					at[i].keep(o, speed, &chain{minutes: from.minutes + op.minutes, cost: cost, rMost: rMost, tip: tip, from: from, passes: from.passes + 1,
						last: step{kind: schedule.Rough, made: grid[i], depth: depth, feed: t.Feeds[op.feed], pick: pick, rMostAfter: rMost}})
				}
			}
		}
		relax(first, start, 0)
		for i := range grid {
			for class := range at[i] {
				if w := at[i][class][speed]; w != nil {
					relax(w, grid[i], i+1)
				}
			}
		}
	}
	return at
}

// allowed lists, for each depth of the table and each speed of Planner.rough, the feeds
// that keep every limit at the largest radius of the visit, with the force at the speed of the
// smallest, where it is largest: the cheapest first.
func (r *Planner) allowed(t *table, start float64) [][][]option {
	out := make([][][]option, t.Depths())
	out[0] = make([][]option, len(r.rough)) // nothing is cut
	for k := 1; k < len(out); k++ {
		depth := float64(k) * t.Pitch
		out[k] = make([][]option, len(r.rough))
		for n, p := range r.rough {
			for j := len(t.Feeds) - 1; j >= 0; j-- {
				c := t.cutAt(j, depth, p, p.At(start+depth), r.Aim, r.Visit.RoughOut)
				c.Left = r.Aim - start - depth
				var chip pass.Verdict
				if r.Chips(&chip, c); !chip.OK() { // soonest seen
					continue
				}
				c = r.Swung(c)
				if !r.RoughVerdict(c).OK() || r.leaves(t.Feeds[j], roughFeed) {
					continue
				}
				over := 0.0
				if r.Job.Limits.SpringRough == 0 {
					over = r.Over(c)
				}
				minutes := r.MinutesOf(t.Feeds[j], p.RPM, r.Visit.RoughOut) + r.setMinutes()
				out[k][n] = append(out[k][n], option{j, minutes, minutes + t.price(j, c), over})
			}
			slices.SortStableFunc(out[k][n], func(a, b option) int { return cmp.Compare(a.cost, b.cost) })
		}
	}
	return out
}

// semiMost is the deepest cut before the last, radial: the stock a shop leaves
// for a semi-finish is 0.4 to 1.0 mm on diameter (from memory).
const semiMost = 0.5

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
	low := r.semiSize(finishDepths[len(finishDepths)-1]) - semiMost - 1e-9
	if start >= low {
		out = append(out, node{start, []*chain{first}, first.cost})
	}
	for i := len(grid) - 1; i >= 0 && grid[i] >= low; i-- {
		n := node{radius: grid[i], ways: at[i].toFinish(r.gears()), least: math.Inf(1)}
		for _, w := range n.ways {
			n.least = math.Min(n.least, w.cost)
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
			least = math.Min(least, n.least+unusual(made-n.radius, r.Aim-made))
		}
	}
	return least
}

// lastPasses are what the last passes of a search can be: their feeds by the roughness
// asked for, from the coarsest, their depths, the usual first, and the edges that they may
// be cut with.
type lastPasses struct {
	*Planner
	feeds, depths []float64
	edges         map[float64][]*Planner // by feed
	tables        map[tableOf]*table
}

// tableOf is an edge and a feed.
type tableOf struct {
	by   *Planner
	feed float64
}

func (r *Planner) newLast() *lastPasses {
	l := &lastPasses{Planner: r, depths: slices.Clone(finishDepths), edges: map[float64][]*Planner{}, tables: map[tableOf]*table{}}
	for _, feed := range slices.Backward(r.Feeds) {
		if r.FinishFeed(feed, r.finish[0].Speed) {
			l.feeds, l.edges[feed] = append(l.feeds, feed), r.finishers(feed, false)
		}
	}
	slices.SortStableFunc(l.depths, func(a, b float64) int { return cmp.Compare(math.Abs(a-usualFinish), math.Abs(b-usualFinish)) })
	return l
}

func (l *lastPasses) table(by *Planner, feed float64) *table {
	key := tableOf{by, feed}
	if l.tables[key] == nil {
		l.tables[key] = by.newTable(0.0125, math.Min(l.DepthMost, semiMost)+0.0125, l.finish[0].Speed, []float64{feed}, l.Visit.LastOut)
	}
	return l.tables[key]
}

func (l *lastPasses) ending(by *Planner, feed float64, pick pass.Pick, depth float64) *ending {
	return by.newEnding(l.table(by, feed), func() *table { return l.table(by.semi, feed) }, pick, depth)
}

// any is whether one of them keeps the limits that do not hang on the passes before it.
func (l *lastPasses) any() bool {
	for _, depth := range l.depths {
		for _, feed := range l.feeds {
			for _, pick := range l.finish {
				for _, by := range l.edges[feed] {
					if l.ending(by, feed, pick, depth).lands(true) {
						return true
					}
				}
			}
		}
	}
	return false
}

// finishing adds the last passes to every way and keeps the cheapest: least
// time, with the price of chatter and of missing the size weighed in. The usual depths of the
// last pass and the coarse feeds come first: the sooner a cheap chain is found, the more of the others
// can be seen to cost more without working them out.
func (r *Planner) finishing(last *lastPasses, nodes []node, first *chain, start float64) *chain {
	var best *chain
	if r.Measured && !r.Visit.Unexplained {
		for _, feed := range last.feeds {
			for _, by := range r.finishers(feed, true) {
				for _, pick := range r.finish {
					best = by.lastOne(best, last.table(by, feed), pick, first, start)
				}
			}
		}
	}
	for _, depth := range last.depths {
		least := r.leastBefore(nodes, r.semiSize(depth))
		if math.IsInf(least, 1) {
			continue
		}
		for _, feed := range last.feeds {
			for _, pick := range r.finish {
				dear := func(more float64) bool {
					return best != nil && least+more+2*(r.MinutesOf(feed, pick.RPM, r.Visit.LastOut)+r.Job.Limits.HoldMinutes) > best.cost
				}
				for _, by := range last.edges[feed] {
					if dear(by.honeMinutes()) {
						continue
					}
					end := last.ending(by, feed, pick, depth)
					if more := end.chatterPrice + by.honeMinutes(); dear(more) || !end.lands(!dear(more+end.time)) || r.leaves(r.Aim-end.made, r.finishLeast) {
						continue
					}
					for i := range nodes {
						best = end.after(best, &nodes[i])
					}
				}
			}
		}
	}
	return best
}
