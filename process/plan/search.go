package plan

import (
	"math"
	"slices"

	"borewright/process/qty"
)

// The search. A visit is a chain of radii from the bore as found to the size
// aimed at. Roughing passes go from node to node of a grid of radii; the last
// two passes, semi-finish and finish, share one feed, so that the spring that
// the gauge finds after the first is the spring of the second. Over all such
// chains that keep every limit the one of least time is taken, stops to measure
// and the price of a missed size included. Force is looked up in a table made once for each visit; the chain
// chosen is worked out again exactly, in passes.go.

// step is one pass of a chain.
type step struct {
	kind       Kind
	made       float64 // radius at the heavy place after it
	depth      float64 // there
	feed       float64
	pick       speedPick
	lightAfter float64
}

// chain is a way to a node.
type chain struct {
	minutes float64
	light   float64 // radius at the light place
	from    *chain
	last    step
	passes  int
	cost    float64 // minutes, with the chance of a miss weighed in; whole chains only
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
	pitch float64
	feeds []float64
	pick  speedPick
	at    [][]forces // [feed][depth]
}

func (r *room) newTable(pitch, deepest float64, pick speedPick, feeds []float64) *table {
	n := int(math.Ceil(deepest/pitch)) + 1
	t := &table{pitch: pitch, feeds: feeds, pick: pick, at: make([][]forces, len(feeds))}
	for j, f := range feeds {
		row := make([]forces, n+1)
		for i := 1; i <= n; i++ {
			row[i] = r.forceAt(float64(i)*pitch, f, pick.speed)
		}
		t.at[j] = row
	}
	return t
}

// look is the force at any depth, straight between entries.
func (t *table) look(feed int, depth float64) forces {
	row := t.at[feed]
	x := depth / t.pitch
	i := int(x)
	switch {
	case depth <= 0:
		return forces{}
	case i >= len(row)-1:
		return row[len(row)-1]
	}
	w := x - float64(i)
	a, b := row[i], row[i+1]
	return forces{
		a.cutting + w*(b.cutting-a.cutting), a.feed + w*(b.feed-a.feed),
		a.radial + w*(b.radial-a.radial), a.chip + w*(b.chip-a.chip),
	}
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
func (r *room) gridFor(from, to float64) (grid []float64, pitch float64) {
	const most = 120
	for _, p := range pitches(r.job.Units) {
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

// minutesOf is the time for one pass over the bore, without the stop: the cut,
// the way back and the approach.
func (r *room) minutesOf(feed, rpm float64) float64 {
	travel := (r.v.End - r.v.Clear).MM()
	cut := travel / (feed * rpm)
	back := cut
	if r.v.Retract.Shift > 0 {
		back = travel/rapid + 0.2 // oriented stop and shift: seconds
	}
	return cut + back + 2*math.Max(0, r.v.Clear.MM())/rapid + 0.3
}

// rapid is a traverse rate that every mill of this kind reaches, mm/min. It
// only weighs time. Common practice, no source.
const rapid = 1500.0

// settle is the time to stop and set the cutter without measuring the bore.
func (r *room) settle() float64 { return r.job.Limits.HoldMinutes / 2 }

// search finds the chain of least cost, or nil. first is the bore as found or
// as the witness cut left it.
func (r *room) search(first *chain, start float64) *chain {
	grid, pitch := r.gridFor(start, r.aim)
	deepest := math.Min(r.depth, r.aim-start) + pitch
	rough := r.newTable(pitch, deepest, r.rough, r.feeds)
	return r.finishing(first, start, grid, r.roughing(rough, first, start, grid))
}

// An uneven bore matters by what is left of it, so ways to a node are told
// apart by octaves of out-of-round above a tenth of what is asked for; below
// that all are round.
const octaves = 12

func (r *room) octave(uneven float64) int {
	floor := r.v.Roundness.MM() / 10
	if uneven <= floor || floor <= 0 {
		return 0
	}
	return min(octaves-1, 1+int(math.Log2(uneven/floor)))
}

// ways are the quickest chains to one node, by octave; nil where a rounder one
// is as quick.
type ways [octaves]*chain

// better says whether a chain of so many minutes, so round, is worth keeping.
func (w *ways) better(octave int, minutes float64) bool {
	for o := 0; o <= octave; o++ {
		if w[o] != nil && w[o].minutes <= minutes+1e-12 {
			return false
		}
	}
	return true
}

func (w *ways) keep(octave int, c *chain) {
	w[octave] = c
	for o := octave + 1; o < octaves; o++ {
		if w[o] != nil && w[o].minutes >= c.minutes {
			w[o] = nil
		}
	}
}

// roughing fills in the ways to each node by roughing passes alone.
func (r *room) roughing(t *table, first *chain, start float64, grid []float64) []ways {
	at := make([]ways, len(grid))
	allowed := r.allowed(t)
	relax := func(from *chain, radius float64, i0 int) {
		for i := i0; i < len(grid); i++ {
			depth := grid[i] - radius
			if depth > r.depth*(1+1e-9) || from.passes+3 > r.job.Limits.PassesMost {
				return
			}
			// Judged at the next whole pitch, so that a first cut from a
			// bore between the nodes is judged no lighter than it is.
			k := int(math.Ceil(depth/t.pitch - 1e-9))
			for _, j := range allowed[k] {
				minutes := from.minutes + r.minutesOf(t.feeds[j], t.pick.rpm) + r.settle()
				if !at[i].better(0, minutes) {
					continue // no quicker than a way that leaves it round
				}
				light := leftBy(radius, from.light, grid[i], r.c, func(a float64) float64 { return t.look(j, a).radial })
				o := r.octave(light - grid[i])
				if !at[i].better(o, minutes) {
					continue
				}
				at[i].keep(o, &chain{minutes: minutes, light: light, from: from, passes: from.passes + 1,
					last: step{kind: Rough, made: grid[i], depth: depth, feed: t.feeds[j], pick: t.pick, lightAfter: light}})
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

// allowed lists, for each depth of the table, the feeds that keep every limit
// at the largest radius of the visit.
func (r *room) allowed(t *table) [][]int {
	out := make([][]int, len(t.at[0]))
	for k := 1; k < len(out); k++ {
		for j := len(t.feeds) - 1; j >= 0; j-- {
			c := cutAt{depth: float64(k) * t.pitch, feed: t.feeds[j], pick: t.pick, force: t.at[j][k], radius: r.aim}
			if r.roughVerdict(c).ok() {
				out[k] = append(out[k], j)
			}
		}
	}
	return out
}

// finishDepths are the radial depths tried for the last pass, mm: 0.05 to 0.5
// on the side. Source: finish stock 0.1–0.4 mm on diameter with high-speed
// steel, 0.2–0.5 with carbide (from memory); below that only where the chip
// allows.
var finishDepths = []float64{0.025, 0.04, 0.05, 0.065, 0.075, 0.09, 0.1, 0.125, 0.15, 0.175, 0.2, 0.25, 0.3}

// semiMost is the deepest cut before the last, radial: the stock a shop leaves
// for a semi-finish is 0.4 to 1.0 mm on diameter (from memory).
const semiMost = 0.5

// finishing adds the last two passes to every way and keeps the cheapest: least
// time, with the chance of missing the size weighed in.
func (r *room) finishing(first *chain, start float64, grid []float64, at []ways) *chain {
	var best *chain
	low := r.aim - semiMost - finishDepths[len(finishDepths)-1] - 1e-9
	for _, feed := range r.feeds {
		if !r.finishFeed(feed) {
			continue
		}
		t := r.newTable(0.0125, math.Min(r.depth, semiMost)+0.0125, r.finish, []float64{feed})
		if r.measured {
			best = r.lastOne(best, t, first, start)
		}
		for _, depth := range finishDepths {
			best = r.lastTwo(best, t, first, start, depth)
			for i := len(grid) - 1; i >= 0 && grid[i] >= low; i-- {
				for _, w := range at[i] {
					if w != nil {
						best = r.lastTwo(best, t, w, grid[i], depth)
					}
				}
			}
		}
	}
	return best
}

// missMinutes is what a bore out of limits costs, in minutes: half a shift to
// put it right, if it can be. Common practice, no source. It only weighs one
// chain against another.
const missMinutes = 240

// lastTwo tries semi-finish and finish from one way.
func (r *room) lastTwo(best *chain, t *table, w *chain, radius, depth float64) *chain {
	made := r.semiSize(depth)
	semiDepth := made - radius
	if semiDepth <= 0 || w.from != nil && semiDepth < r.aim-made-1e-9 { // never lighter than the finish it rehearses
		return best
	}
	if semiDepth > semiMost+1e-9 || semiDepth > r.depth*(1+1e-9) {
		return best
	}
	minutes := w.minutes + 2*(r.minutesOf(t.feeds[0], t.pick.rpm)+r.job.Limits.HoldMinutes)
	if best != nil && minutes > best.cost+1e-9 {
		return best
	}
	radial := func(a float64) float64 { return t.look(0, a).radial }
	semi := cutAt{depth: semiDepth, feed: t.feeds[0], pick: t.pick, force: t.look(0, semiDepth), radius: made}
	if v := r.semiVerdict(semi); !v.ok() {
		return best
	}
	last := cutAt{depth: r.aim - made, feed: t.feeds[0], pick: t.pick, force: t.look(0, r.aim-made), radius: r.aim}
	lightSemi := leftBy(radius, w.light, made, r.c, radial)
	lightLast := leftBy(made, lightSemi, r.aim, r.c, radial)
	if v := r.finishVerdict(last, semi, lightLast-r.aim); !v.ok() {
		return best
	}
	doubt, half := r.finishDoubt(last, semi, lightLast-r.aim)
	cost := minutes + missMinutes*missChance(doubt, half)
	if best != nil {
		// Of chains as cheap, the one whose last cut is nearest to what a
		// shop leaves for it.
		same := math.Abs(cost-best.cost) < 0.05
		if cost > best.cost && !same || same && math.Abs(best.last.depth-usualFinish) <= math.Abs(last.depth-usualFinish) {
			return best
		}
	}
	s := &chain{minutes: minutes, light: lightSemi, from: w, passes: w.passes + 1, last: step{
		kind: SemiFinish, made: made, depth: semiDepth, feed: semi.feed, pick: t.pick, lightAfter: lightSemi}}
	return &chain{minutes: minutes, cost: cost, light: lightLast, from: s, passes: s.passes + 1, last: step{
		kind: Finish, made: r.aim, depth: last.depth, feed: last.feed, pick: t.pick, lightAfter: lightLast}}
}

// missChance is the chance that a size known to ±doubt (95 %) falls outside
// ±half, normally distributed: erfc(half/(σ√2)), σ = doubt/1.96.
func missChance(doubt, half float64) float64 {
	if doubt <= 0 {
		return 0
	}
	return math.Erfc(half / (doubt / 1.96) / math.Sqrt2)
}

// semiSize is the radius to leave for a last pass of this depth, rounded to a
// half thousandth of an inch or a hundredth of a millimetre on diameter.
func (r *room) semiSize(depth float64) float64 {
	step := 0.01
	if r.job.Units == qty.Inches {
		step = 0.0005 * 25.4
	}
	return math.Round(2*(r.aim-depth)/step) * step / 2
}

// usualFinish is the stock a shop likes to leave for the last cut, radial.
// Source: finish stock 0.2–0.5 mm on diameter for carbide, 0.1–0.4 for
// high-speed steel (from memory).
const usualFinish = 0.1
