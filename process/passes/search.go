package passes

import (
	"math"
	"slices"

	"borewright/process/cut"
	"borewright/process/qty"
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
	kind       Kind
	made       float64 // radius after it, where most was to be cut
	depth      float64 // there
	feed       float64
	pick       speedPick
	rMostAfter float64
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

func (c *chain) steps() []step {
	var out []step
	for ; c != nil && c.from != nil; c = c.from {
		out = append(out, c.last)
	}
	slices.Reverse(out)
	return out
}

// table is the force over depths i·pitch for each feed at one speed.
type table struct {
	pitch     float64
	feeds     []float64
	speed     float64             // that it was made for; others by scale
	at        [][]cut.Force       // [feed][depth]
	stiffness [][]setup.Stiffness // [feed][depth]
}

// scale is the force at another cutting speed over that of the table: force
// goes as cut.SpeedFactor.
func (t *table) scale(speed float64) float64 {
	return cut.SpeedFactor(speed) / cut.SpeedFactor(t.speed)
}

func (r *Planner) newTable(pitch, deepest, speed float64, feeds []float64) *table {
	n := int(math.Ceil(deepest/pitch)) + 1
	t := &table{pitch: pitch, feeds: feeds, speed: speed}
	for _, f := range feeds {
		row, stiff := make([]cut.Force, n+1), make([]setup.Stiffness, n+1)
		for i := 1; i <= n; i++ {
			depth := float64(i) * pitch
			row[i], stiff[i] = r.Force(depth, f, speed), r.Stiffness(depth, f, speed)
		}
		t.at, t.stiffness = append(t.at, row), append(t.stiffness, stiff)
	}
	return t
}

// force is the force at any depth, straight between entries.
func (t *table) force(feed int, depth float64) cut.Force {
	row := t.at[feed]
	x := depth / t.pitch
	i := int(x)
	switch {
	case depth <= 0:
		return cut.Force{}
	case i >= len(row)-1:
		return row[len(row)-1]
	}
	w := x - float64(i)
	a, b := row[i], row[i+1]
	return cut.Force{
		Cutting: a.Cutting + w*(b.Cutting-a.Cutting), Feed: a.Feed + w*(b.Feed-a.Feed), Radial: a.Radial + w*(b.Radial-a.Radial),
		Area: a.Area + w*(b.Area-a.Area), Chip: a.Chip + w*(b.Chip-a.Chip),
	}
}

// pushFrom is the push of passes at a feed of the table, with forces scale times
// those in it and the tip at a radius.
func (r *Planner) pushFrom(t *table, feed int, scale, radius float64) setup.Push {
	return func(a float64) float64 { return r.Middle.Push(t.force(feed, a).By(scale), radius, setup.In) }
}

// stabilityFrom is the stability of a cut at any depth and speed, from the entry above
// it.
func (r *Planner) stabilityFrom(t *table, feed int, depth, speed float64) setup.Stability {
	i := min(int(math.Ceil(depth/t.pitch-1e-9)), len(t.stiffness[feed])-1)
	return r.Stability(t.stiffness[feed][i].By(t.scale(speed)), speed)
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

// search finds the chain of least cost, or nil. first is the bore as found or
// as the witness cut left it.
func (r *Planner) search(first *chain, start float64) *chain {
	grid, pitch := r.gridFor(start, r.aim)
	deepest := math.Max(0, math.Min(r.depth, r.aim-start)) + pitch
	rough := r.newTable(pitch, deepest, r.rough[0].speed, r.Feeds)
	return r.finishing(first, start, grid, r.roughing(rough, first, start, grid))
}

// An uneven bore matters by what is left of it, so ways to a node are told
// apart by classes of out-of-round, each twice the one below, above a tenth of what is asked for; below
// that all are round.
const roundnessClasses = 12

func (r *Planner) roundnessClass(uneven float64) int {
	floor := r.v.Roundness.MM() / 10
	if uneven <= floor || floor <= 0 {
		return 0
	}
	return min(roundnessClasses-1, 1+int(math.Log2(uneven/floor)))
}

// ways are the cheapest chains to one node, by class of out-of-round; nil where a rounder one
// is as cheap.
type ways [roundnessClasses]*chain

// better says whether a chain of such a cost, so round, is worth keeping.
func (w *ways) better(class int, cost float64) bool {
	for o := 0; o <= class; o++ {
		if w[o] != nil && w[o].cost <= cost+1e-12 {
			return false
		}
	}
	return true
}

func (w *ways) keep(class int, c *chain) {
	w[class] = c
	for o := class + 1; o < roundnessClasses; o++ {
		if w[o] != nil && w[o].cost >= c.cost {
			w[o] = nil
		}
	}
}

// option is one feed and speed for a depth, with what a pass so cut takes.
type option struct {
	feed          int
	pick          speedPick
	minutes, cost float64
}

// roughing fills in the ways to each node by roughing passes alone.
func (r *Planner) roughing(t *table, first *chain, start float64, grid []float64) []ways {
	at := make([]ways, len(grid))
	allowed := r.allowed(t, start)
	least := math.Inf(-1)
	if !r.anyMove {
		least = r.leastMove() * (1 - 1e-9)
	}
	relax := func(from *chain, radius float64, i0 int) {
		for i := i0; i < len(grid); i++ {
			depth := grid[i] - radius
			if depth > r.depth*(1+1e-9) || from.passes+3 > r.Job.Limits.PassesMost {
				return
			}
			// Judged at the next whole pitch, so that a first cut from a
			// bore between the nodes is judged no lighter than it is.
			k := int(math.Ceil(depth/t.pitch - 1e-9))
			for _, op := range allowed[k] {
				cost := from.cost + op.cost
				if !at[i].better(0, cost) {
					continue // no cheaper than a way that leaves it round
				}
				push := r.pushFrom(t, op.feed, t.scale(op.pick.at(grid[i])), grid[i])
				tip := 2 * (grid[i] + push(depth))
				if from.tip > 0 && tip-from.tip < least {
					continue
				}
				rMost := push.LeftBy(radius, from.rMost, grid[i])
				o := r.roundnessClass(rMost - grid[i])
				if !at[i].better(o, cost) {
					continue
				}
				at[i].keep(o, &chain{minutes: from.minutes + op.minutes, cost: cost, rMost: rMost, tip: tip, from: from, passes: from.passes + 1,
					last: step{kind: Rough, made: grid[i], depth: depth, feed: t.feeds[op.feed], pick: op.pick, rMostAfter: rMost}})
			}
		}
	}
	relax(first, start, 0)
	for i := range grid {
		for _, w := range at[i] {
			if w != nil {
				relax(w, grid[i], i+1)
			}
		}
	}
	return at
}

// allowed lists, for each depth of the table, the feeds and speeds that keep
// every limit at the largest radius of the visit, with the force at the speed of the
// smallest, where it is largest.
func (r *Planner) allowed(t *table, start float64) [][]option {
	out := make([][]option, len(t.at[0]))
	for k := 1; k < len(out); k++ {
		depth := float64(k) * t.pitch
		for j := len(t.feeds) - 1; j >= 0; j-- {
			for _, p := range r.rough {
				c := cutAt{depth: depth, feed: t.feeds[j], pick: p, force: t.at[j][k].By(t.scale(p.at(start + depth))), radius: r.aim}
				if !r.roughVerdict(c).ok() {
					continue
				}
				minutes := r.minutesOf(t.feeds[j], p.rpm, r.v.RoughOut) + r.setMinutes()
				out[k] = append(out[k], option{j, p, minutes, minutes + chatterPrice(r.stabilityFrom(t, j, depth, p.speed))})
			}
		}
	}
	return out
}

// semiMost is the deepest cut before the last, radial: the stock a shop leaves
// for a semi-finish is 0.4 to 1.0 mm on diameter (from memory).
const semiMost = 0.5

// finishing adds the last passes to every way and keeps the cheapest: least
// time, with the price of chatter and of missing the size weighed in.
func (r *Planner) finishing(first *chain, start float64, grid []float64, at []ways) *chain {
	var best *chain
	low := r.aim - semiMost - finishDepths[len(finishDepths)-1] - 1e-9
	for _, feed := range r.Feeds {
		if !r.finishFeed(feed) {
			continue
		}
		t := r.newTable(0.0125, math.Min(r.depth, semiMost)+0.0125, r.finish[0].speed, []float64{feed})
		for _, pick := range r.finish {
			if r.measured {
				best = r.lastOne(best, t, pick, first, start)
			}
			for _, depth := range finishDepths {
				end := r.newEnding(t, pick, depth)
				best = end.after(best, first, start)
				for i := len(grid) - 1; i >= 0 && grid[i] >= low; i-- {
					for _, w := range at[i] {
						if w != nil {
							best = end.after(best, w, grid[i])
						}
					}
				}
			}
		}
	}
	return best
}
