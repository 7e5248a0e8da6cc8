package passes_test

import (
	"cmp"
	"fmt"
	"math"
	"testing"

	"borewright/process/schedule"
	"borewright/process/slow"
)

// An exhaustive search, apart from the planner: every chain of up to three
// roughing passes, a semi-finish, a finish and perhaps a spring pass, over the
// same grid of sizes, by the formulas of handMill. The planner's chain must
// keep every limit by them, and cost no more than the cheapest.
//
// What a chain costs is minutes, and in minutes what custom and risk are worth:
//
//	a pass        its time by hand, and half a stop to set the next cutter
//	a measured    a whole stop in place of the half
//	chatter       12 for each halving of the margin below the edge, six at most, at
//	              the middle of what damps the cut of an edge as the bore is begun
//	faster        240 for a finish that may sing and turns faster than the rough before
//	a missed size 240·chance
//	custom        8 a mm off a finish of 0.1, 2 a mm off a semi-finish of 0.2
//
// The last four are the shop's, no source. Tolerances: the planner's chain is held
// to limits 2 % wide of those by hand, and its cost to 1 % over the cheapest chain
// within limits 2 % narrower; the two work forces out in different ways.
type exhaustive struct {
	*handMill
	roughs  int     // most roughing passes
	printed float64 // mm by which a planned depth may differ, settings being rounded
	c       float64
	lean    float64 // of the feed force, at the size aimed at
	modes   handModes
	aim     float64
	end     float64
	slack   float64 // factor on limits whose figures come from forces
	pitch   float64
	grid    []float64
	louder  float64            // what margins against chatter are multiplied by before they are priced
	cuts    map[[2]int]handCut // at 100 m/min, by depth and feed in 0.01 µm
	worn    map[[2]int]handCut // the same with a land of 1 mm
	prices  map[[3]int]float64
	last    map[[3]int][2]float64 // margins of a last pass
	edgeAt  map[int]float64
	best    float64
	chain   []plannedCut
	tried   int
	depths  []float64 // of a finish
	rpmR    []float64
	rpmF    []float64
	second  map[[4]int]float64 // depth of the spring pass, by depth of the two together, feed, speed, land
	least   float64            // minutes of the cheapest ending
	wearing bool               // the edge wears, and may be honed
	land    float64            // worn onto it half way through the pass that is worked, mm; handMill.land is that it begins with
}

type plannedCut struct {
	kind             schedule.Kind
	depth, feed, rpm float64
	honed            bool // the edge, before it
}

func (p plannedCut) String() string {
	honed := ""
	if p.honed {
		honed = "honed, "
	}
	return fmt.Sprintf("%s%s %.4f at %g, %g rev/min", honed, p.kind, p.depth, p.feed, p.rpm)
}

func newExhaustive(m *handMill) *exhaustive {
	e := &exhaustive{handMill: m, c: m.compliance(), lean: m.lean((m.low + m.high) / 4), modes: m.modes(), aim: (m.low + m.high) / 4, best: math.Inf(1), slack: 1,
		louder: 1, cuts: map[[2]int]handCut{}, worn: map[[2]int]handCut{}, second: map[[4]int]float64{}, prices: map[[3]int]float64{}, last: map[[3]int][2]float64{}, edgeAt: map[int]float64{}}
	stock := e.aim - (m.start/2 - m.offset)
	e.end = m.to + m.nose + 0.5
	if m.lead < 90 {
		e.end += math.Min(m.depthMost*m.lighter(), stock) / math.Tan(m.lead*math.Pi/180)
	}
	// Sizes that read well on a gauge, at most 120 of them: whole steps of
	// diameter.
	for _, e.pitch = range []float64{0.01, 0.025, 0.05, 0.1, 0.25, 0.5} {
		if stock/e.pitch <= 120 {
			break
		}
	}
	for k := math.Floor((e.aim-stock)/e.pitch) + 1; k*e.pitch < e.aim-1e-9; k++ {
		e.grid = append(e.grid, k*e.pitch)
	}
	// The stock left for a finish, as shops leave it: 0.05 to 0.6 on diameter.
	e.depths = []float64{0.025, 0.04, 0.05, 0.065, 0.075, 0.09, 0.1, 0.125, 0.15, 0.175, 0.2, 0.25, 0.3}
	e.rpmR = e.turns(m.roughs)
	for _, n := range e.turns(m.finish) { // the speeds of the roughs, and faster ones
		if n > e.rpmR[0] {
			e.rpmF = append(e.rpmF, n)
		}
	}
	e.rpmF = append(e.rpmF, e.rpmR...)
	e.least = math.Inf(1)
	for _, feed := range m.feeds {
		e.least = math.Min(e.least, 2*(e.minutes(feed, e.rpmF[0])+aside+m.hold))
	}
	return e
}

// turns are the speeds of the machine that are tried: the top of the band, less
// for a slender bar, then 0.7 of it and so on, down to the slowest that is not below
// half of the least of both bands.
func (e *exhaustive) turns(band [2]float64) []float64 {
	slower := 1.0
	if x := e.overhang(); x > 3 {
		slower = math.Max(0.70, 1-0.15*math.Min(1, x-3)-0.05*math.Max(0, math.Min(6, x)-4)-0.05*math.Max(0, math.Min(7, x)-6))
	}
	top := band[1] * slower * 1000 / (2 * math.Pi * e.aim)
	if e.speedMost > 0 {
		top = math.Min(top, e.speedMost)
	}
	var out []float64
	round := 2 * math.Pi * e.aim / 1000
	floor := 0.5 * math.Min(e.handMill.roughs[0], e.finish[0]) / round
	for share := 1.0; share*top > floor; share *= 0.7 {
		n := e.speeds[0]
		for _, s := range e.speeds {
			if s <= top*share {
				n = s
			}
		}
		if len(out) == 0 || n < out[len(out)-1] && n >= floor {
			out = append(out, n)
		}
	}
	for _, s := range e.speeds {
		if s >= floor {
			if s < out[len(out)-1] {
				out = append(out, s)
			}
			break
		}
	}
	return out
}

// cutAt is a cut, worked once: force goes with (100/v)^0.1, and rises in a line with the land.
func (e *exhaustive) cutAt(depth, feed, rpm float64) handCut {
	key := [2]int{int(math.Round(depth * 1e5)), int(math.Round(feed * 1e5))}
	f, ok := e.cuts[key]
	if !ok {
		f = e.cut(depth, feed, 100, 0)
		e.cuts[key] = f
	}
	if e.land > 0 {
		w, ok := e.worn[key]
		if !ok {
			dull := *e.handMill
			dull.worn = 1
			w = dull.cut(depth, feed, 100, 0)
			e.worn[key] = w
		}
		f.cutting, f.feed, f.radial = f.cutting+e.land*(w.cutting-f.cutting), f.feed+e.land*(w.feed-f.feed), f.radial+e.land*(w.radial-f.radial)
	}
	k := math.Pow(100/math.Max(25, math.Min(100, rpm*2*math.Pi*e.aim/1000)), 0.1)
	f.cutting, f.feed, f.radial = k*f.cutting, k*f.feed, k*f.radial
	return f
}

// push is the force that springs the bar at any depth, straight between steps of 5 µm.
func (e *exhaustive) push(depth, feed, rpm float64) float64 {
	if depth <= 0 {
		return 0
	}
	const step = 0.005
	k := math.Floor(depth / step)
	a, b := 0.0, e.cutAt((k+1)*step, feed, rpm).against(e.lean)
	if k > 0 {
		a = e.cutAt(k*step, feed, rpm).against(e.lean)
	}
	return a + (depth/step-k)*(b-a)
}

// price is what the chance of chatter costs a pass.
func (e *exhaustive) price(depth, feed, rpm float64) float64 {
	key := [3]int{int(math.Round(depth * 1e5)), int(math.Round(feed * 1e5)), int(rpm * 10)}
	x, ok := e.prices[key]
	if !ok {
		edge := func(zeta float64) float64 {
			k := int(math.Round(zeta * 2000))
			if _, ok := e.edgeAt[k]; !ok {
				e.edgeAt[k] = e.modes.edgeOfChatter(float64(k) / 2000)
			}
			return e.edgeAt[k]
		}
		sharp := *e.handMill // no pass is chosen because the edge is worn
		sharp.land = 0
		m := e.margins(e.modes, edge, depth, feed, rpm*2*math.Pi*e.aim/1000, sharp.landAt(0, 0))
		x = 12 * math.Max(0, math.Min(6, -math.Log2(e.louder*math.Sqrt(m[0]*m[1]))))
		e.prices[key] = x
		e.last[key] = e.margins(e.modes, edge, depth, feed, rpm*2*math.Pi*e.aim/1000, sharp.landAt(0, e.metres(0.1, e.aim)))
	}
	return x
}

// loud is whether a last pass stays below half of the edge of chatter at the most
// of what damps it, one pass like it having been cut.
func (e *exhaustive) loud(depth, feed, rpm float64) bool {
	e.price(depth, feed, rpm)
	return e.last[[3]int{int(math.Round(depth * 1e5)), int(math.Round(feed * 1e5)), int(rpm * 10)}][1] < 0.5/e.slack
}

// noisy is whether a last pass is short of the edge at the least of what damps it.
func (e *exhaustive) noisy(depth, feed, rpm float64) bool {
	e.price(depth, feed, rpm)
	return e.last[[3]int{int(math.Round(depth * 1e5)), int(math.Round(feed * 1e5)), int(rpm * 10)}][0] < 1
}

func (e *exhaustive) minutes(feed, rpm float64) float64 {
	return byHand(e.end-e.from+3, feed, rpm, false) + 2*(e.from-3)/1500 + 0.3
}

// may is whether a pass keeps its own limits.
func (e *exhaustive) may(p plannedCut, springMost, raMost float64) bool {
	f := e.cutAt(p.depth, p.feed, p.rpm)
	speed := p.rpm * 2 * math.Pi * e.aim / 1000
	least := e.minChip * e.rounding
	arm, stress := 0.0, 0.0
	for i := len(e.steps) - 1; i >= 0; i-- {
		arm += e.steps[i].l
		stress = math.Max(stress, math.Hypot(f.cutting*arm, f.radial*arm-f.feed*e.aim)/(math.Pi*math.Pow(e.steps[i].d, 3)/32))
	}
	const whole = 1 + 1e-9
	return 2*e.c*f.against(e.lean) <= springMost*e.slack &&
		p.depth <= e.depthMost*e.lighter()*whole+e.printed &&
		p.feed <= math.Min(0.5*e.nose, e.feedMost)*whole &&
		p.depth >= math.Max(2*least, 2.5*e.rounding)/whole &&
		f.area/f.edge >= least/e.slack &&
		f.cutting*speed/60 <= e.power*1e3*e.slack &&
		f.cutting*e.aim/1e3 <= e.torque*e.slack &&
		stress <= e.allowed*e.slack &&
		(raMost == 0 || e.roughness(p.feed, p.depth) <= raMost*e.slack)
}

// mayRough is may for a pass that so many others follow. Where the job has no limit of
// the spring, a bar that springs less than it should by all that the forces are in
// doubt must leave each of them a depth that the edge can cut.
func (e *exhaustive) mayRough(p plannedCut, made, passes, raMost float64) bool {
	if e.springRough > 0 {
		return e.may(p, e.springRough, raMost)
	}
	s := e.cutAt(p.depth, p.feed, p.rpm).sprung(e.c, e.lean)
	larger := math.Hypot(e.forceError*s.all, feedAlone*e.forceError*s.feed)
	return larger <= 2*(e.aim-made-passes*math.Max(2*e.minChip*e.rounding, 2.5*e.rounding))*e.slack && e.may(p, math.Inf(1), raMost)
}

// gearMinutes is what it costs to turn a pass in another gear than the pass before it.
const gearMinutes = 1.0

// state is the bore on its way.
type state struct {
	rLeast, rMost float64
	tip           float64 // diameter at which the cutter stands; 0: not set yet
	cost          float64
	edge          handFlank
	chain         []plannedCut
}

// after is the bore that a pass leaves.
func (e *exhaustive) after(s state, p plannedCut, cost float64) state {
	made := s.rLeast + p.depth
	rMost := left(func(a float64) float64 { return e.push(a, p.feed, p.rpm) }, e.c, s.rLeast, s.rMost, made)
	tip := 2 * (made + e.c*e.push(p.depth, p.feed, p.rpm))
	return state{made, rMost, tip, s.cost + cost, s.edge, append(append([]plannedCut(nil), s.chain...), p)}
}

// opens is whether the cutter is opened from one pass to the next by as much as can be
// set: two graduations of its dial, or twice the last figure of the gauge. Common
// practice, no source. The first setting of all opens it from nothing.
func (e *exhaustive) opens(before, after state) bool {
	least := 2 * 0.001
	if e.setBy == "increment" {
		least = 2 * e.dial
	}
	return before.tip == 0 || after.tip-before.tip >= least*(2-e.slack)-2*e.printed
}

// run tries everything from a state on.
func (e *exhaustive) run(s state, roughs int) {
	if e.aim-s.rLeast <= 0.5+0.3+0.01 {
		e.endings(s)
	}
	if roughs == 0 {
		return
	}
	for i := range e.grid { // from the deepest: a cheap chain early cuts the rest short
		r := e.grid[len(e.grid)-1-i]
		depth := r - s.rLeast
		if depth < e.pitch/2 {
			continue
		}
		for _, feed := range e.feeds {
			if feed < 0.003*25.4 { // a shop roughs no finer (common practice, no source)
				continue
			}
			for _, rpm := range e.rpmR {
				if n := len(s.chain); n > 0 && s.chain[n-1].rpm != rpm { // the roughs of a bore turn alike (common practice, no source)
					continue
				}
				for _, honed := range e.hones(s) {
					p := plannedCut{schedule.Rough, depth, feed, rpm, honed}
					cost := e.minutes(feed, rpm) + e.hold/2 + honing(honed)
					if s.cost+cost+e.least >= e.best {
						continue
					}
					_, end, fit := e.wear(s.edge, p, r)
					if !fit || !e.mayRough(p, r, 2, 0) {
						continue
					}
					if cost += e.price(depth, feed, rpm); s.cost+cost+e.least < e.best {
						t := e.after(s, p, cost)
						if t.edge = end; e.opens(s, t) {
							e.run(t, roughs-1)
						}
					}
				}
			}
		}
	}
}

// endings tries every semi-finish, finish and spring pass.
func (e *exhaustive) endings(s state) {
	for _, feed := range e.feeds {
		if e.roughness(feed, e.nose) > e.ra*e.slack || feed > 0.5*e.nose {
			continue
		}
		for _, rpm := range e.rpmF {
			for _, honed := range e.hones(s) {
				base := s.cost + 2*(e.minutes(feed, rpm)+aside+e.hold) + honing(honed)
				if base >= e.best {
					continue
				}
				for _, depth := range e.depths {
					made := math.Round(2*(e.aim-depth)/0.01) * 0.01 / 2
					semi := plannedCut{schedule.SemiFinish, made - s.rLeast, feed, rpm, honed}
					last := plannedCut{schedule.Finish, e.aim - made, feed, rpm, false}
					if cost, ok := e.end2(s, semi, last, nil, base); ok && cost < e.best {
						e.best, e.chain = cost, append(append([]plannedCut(nil), s.chain...), semi, last)
					}
					_, end, _ := e.wear(s.edge, semi, made)
					e.wear(end, last, e.aim)
					a2 := e.springs(last.depth, feed, rpm)
					if a2 < 2*e.minChip*e.rounding || a2 >= last.depth {
						continue
					}
					first, second := last, plannedCut{schedule.Spring, a2, feed, rpm, false}
					first.depth -= a2
					if cost, ok := e.end2(s, semi, first, &second, base+e.minutes(feed, rpm)+aside); ok && cost < e.best {
						e.best, e.chain = cost, append(append([]plannedCut(nil), s.chain...), semi, first, second)
					}
				}
			}
		}
	}
}

// springs is how deep a spring pass cuts: what the finish sprang off, at the
// same setting: a₂ + c·F(a₂) = c·F(a₁), a₁ + a₂ as deep as the finish alone.
func (e *exhaustive) springs(whole, feed, rpm float64) float64 {
	key := [4]int{int(math.Round(whole * 1e5)), int(math.Round(feed * 1e5)), int(rpm * 10), int(math.Round(e.land * 1e5))}
	if a, ok := e.second[key]; ok {
		return a
	}
	lo, hi := 0.0, whole
	for range 40 {
		if a := (lo + hi) / 2; a+e.c*e.push(a, feed, rpm) < e.c*e.push(whole-a, feed, rpm) {
			lo = a
		} else {
			hi = a
		}
	}
	e.second[key] = lo
	return lo
}

// end2 is what an ending costs on top of base, and whether it keeps every limit.
func (e *exhaustive) end2(s state, semi, last plannedCut, again *plannedCut, base float64) (float64, bool) {
	e.tried++
	whole := last.depth
	if again != nil {
		whole += again.depth
	}
	mid1, end1, fit := e.wear(s.edge, semi, s.rLeast+semi.depth)
	if !fit || semi.depth <= 0 || semi.depth > 0.5+1e-9+e.printed || !e.mayRough(semi, s.rLeast+semi.depth, 1, 2*e.ra) {
		return 0, false
	}
	if last.depth < 0.0015*25.4 && e.high-e.low > 0.035 { // nor finishes with less, in limits wider than IT7 of 100 mm
		return 0, false
	}
	thin := len(s.chain) == 0 && e.aim-s.rLeast < 3*math.Max(2*e.minChip*e.rounding, 2.5*e.rounding)
	if semi.depth < whole-1e-9-e.printed && !thin {
		return 0, false // lighter than the cut it rehearses
	}
	if n := len(s.chain); n > 0 && semi.depth < 2*s.chain[n-1].feed*s.chain[n-1].feed/8/e.nose {
		return 0, false // within the feed marks it finds
	}
	base += 8*math.Abs(whole-0.1) + 2*math.Abs(semi.depth-0.2)
	if n := len(s.chain); n > 0 && last.rpm > s.chain[n-1].rpm && e.noisy(whole, last.feed, last.rpm) {
		base += 240
	}
	if n := len(s.chain); n > 0 && last.rpm != s.chain[n-1].rpm {
		base += gearMinutes
	}
	if base >= e.best {
		return 0, false
	}
	if e.loud(last.depth, last.feed, last.rpm) || e.loud(whole, last.feed, last.rpm) || again != nil && e.loud(again.depth, again.feed, again.rpm) {
		return 0, false
	}
	u, was := e.after(s, semi, 0), e.cutAt(semi.depth, semi.feed, semi.rpm)
	unsure1 := e.unsure(mid1, was, semi)
	mid2, end2, _ := e.wear(end1, last, u.rLeast+last.depth)
	t := e.after(u, last, 0)
	if !e.opens(s, u) || !e.opens(u, t) {
		return 0, false
	}
	final, most := last, e.springFinish
	if again != nil {
		if !e.may(last, cmp.Or(e.springRough, math.Inf(1)), 0) {
			return 0, false
		}
		mid2, end2, _ = e.wear(end2, *again, t.rLeast+again.depth)
		t, final = e.after(t, *again, 0), *again
	} else if !e.may(last, e.springFinish, e.ra) {
		return 0, false
	}
	f := e.cutAt(final.depth, final.feed, final.rpm)
	if 2*e.c*f.against(e.lean) > most*e.slack || e.roughness(final.feed, final.depth) > e.ra*e.slack || t.rMost-t.rLeast+e.runout > e.round*e.slack {
		return 0, false
	}
	if s.edge.tired(semi, end2) {
		return 0, false
	}
	unsure2 := e.unsure(mid2, f, final)
	doubt := e.doubt(was.sprung(e.c, e.lean), f.sprung(e.c, e.lean), len(s.chain), [2]float64{unsure1, unsure2}) + t.rMost - t.rLeast + e.runout/2 + 0.0025
	if spread := mid2.most - mid2.least; spread > 0 { // the edge wears on the way
		doubt += unsure2 * (end2.likely - mid2.likely) / (spread / 2)
	}
	half := (e.high - e.low) / 2
	if doubt > half*e.slack {
		return 0, false
	}
	cost := base + e.price(semi.depth, semi.feed, semi.rpm) + 240*math.Erfc(half/(doubt/1.96)/math.Sqrt2)
	sung := e.price(whole, last.feed, last.rpm)
	cost += sung
	if again != nil {
		cost += sung
	}
	return cost, true
}

// judge works the planner's chain out: what it costs, and whether it is allowed.
func (e *exhaustive) judge(ps []schedule.Pass) (float64, error) {
	s := e.begins()
	var tail []plannedCut
	for _, q := range ps {
		p := plannedCut{q.Kind, q.Depth.MM(), q.Feed.MM(), float64(q.Speed), q.Hone != nil}
		if q.Kind != schedule.Rough {
			tail = append(tail, p)
			continue
		}
		_, end, fit := e.wear(s.edge, p, s.rLeast+p.depth)
		if !fit || !e.mayRough(p, s.rLeast+p.depth, 2, 0) {
			return 0, fmt.Errorf("%v is past a limit", p)
		}
		t := e.after(s, p, e.minutes(p.feed, p.rpm)+e.hold/2+e.price(p.depth, p.feed, p.rpm)+honing(p.honed))
		t.edge = end
		if n := len(s.chain); n > 0 && s.chain[n-1].rpm != p.rpm {
			t.cost += gearMinutes
		}
		if !e.opens(s, t) {
			return 0, fmt.Errorf("%v opens the cutter from %.4f to %.4f only", p, s.tip, t.tip)
		}
		s = t
	}
	if len(tail) < 2 || len(tail) > 3 {
		return 0, fmt.Errorf("ends with %v", tail)
	}
	base := s.cost + 2*(e.minutes(tail[0].feed, tail[0].rpm)+aside+e.hold) + honing(tail[0].honed)
	var again *plannedCut
	if len(tail) == 3 {
		again = &tail[2]
		base += e.minutes(tail[0].feed, tail[0].rpm) + aside
	}
	cost, ok := e.end2(s, tail[0], tail[1], again, base)
	if !ok {
		return 0, fmt.Errorf("the ending %v is past a limit", tail)
	}
	return cost, nil
}

func TestPlannerAgainstExhaustiveSearch(t *testing.T) {
	jobs := []struct {
		name   string
		change func(*handMill)
	}{
		{"stock for one pass", func(m *handMill) { m.start = 99 }},
		{"spring binds", func(m *handMill) { m.start, m.springRough = 97, 0.004 }},
		{"power binds", func(m *handMill) { m.start, m.power = 97, 0.3 }},
		{"torque binds", func(m *handMill) { m.start, m.torque, m.power, m.speeds = 96, 15, 1, []float64{160, 250, 650} }},
		{"stress binds", func(m *handMill) {
			m.start, m.allowed, m.steps, m.springRough = 96, 10, []handStep{{45, 150}}, 1
		}},
		{"depth binds", func(m *handMill) { m.start, m.depthMost = 96, 0.7 }},
		{"soft nose, far out of true", func(m *handMill) {
			m.start, m.offset, m.radial, m.tilt, m.round, m.springRough, m.springFinish = 96, 0.5, 10, 0.5, 0.006, 0.5, 0.2
			m.low, m.high = 99.95, 100.05
		}},
		{"slender", func(m *handMill) {
			m.start, m.steps, m.springFinish, m.springRough = 98, []handStep{{60, 360}}, 0.1, 0.3
		}},
		{"narrow limits", func(m *handMill) {
			m.start, m.low, m.high, m.radial, m.springFinish = 98, 99.985, 100.015, 10, 0.1
		}},
		{"roughness binds", func(m *handMill) { m.start, m.ra, m.feeds = 98, 1.6, []float64{0.08, 0.14, 0.3} }},
		{"stops are dear", func(m *handMill) { m.start, m.hold, m.springRough = 97, 40, 0.006 }},
		{"big nose in steel", func(m *handMill) {
			m.start, m.nose, m.kc11, m.mc, m.radial, m.springRough = 97, 2.4, 2200, 0.14, 40, 0.03
		}},
		{"spring left open", func(m *handMill) {
			m.start, m.steps, m.springFinish, m.springRough, m.radial, m.tilt = 98.6, []handStep{{60, 420}}, 0.1, 0, 4, 0.4
			m.low, m.high, m.feeds = 99.9, 100.1, []float64{0.1, 0.2, 0.4}
		}},
		{"little stock", func(m *handMill) { m.start = 99.8 }},
		{"a coarse dial", func(m *handMill) {
			m.start, m.radial, m.tilt, m.springFinish, m.springRough = 98, 10, 0.5, 0.02, 0.4
			m.setBy, m.dial, m.low, m.high = "increment", 0.05, 99.95, 100.05
		}},
		{"a spring pass", func(m *handMill) {
			m.start, m.radial, m.tilt, m.springFinish, m.springRough = 97, 3, 0.4, 0.012, 0.5
			m.low, m.high, m.feeds = 99.97, 100.03, []float64{0.2}
		}},
	}
	few := slow.Rounds(t, "jobs searched exhaustively", len(jobs), 2)
	for i := range few {
		x := jobs[i*len(jobs)/few]
		t.Run(x.name, func(t *testing.T) {
			m := usualMill()
			x.change(&m)
			_, ps := m.plan(t)
			said := ""
			for _, q := range ps {
				said += fmt.Sprintf("\n  %s %.4f at %g, %v rev/min: %s", q.Kind, q.Depth.MM(), q.Feed.MM(), q.Speed, inMetric(q.LimitedBy))
			}
			e := newExhaustive(&m)
			e.slack, e.printed = 1.02, 0.0008
			if m.setBy == "increment" { // whole graduations: a pass may begin and end half a one off
				e.printed += m.dial / 2
			}
			cost, err := e.judge(ps)
			if err != nil {
				t.Errorf("%v%s", err, said)
			}
			e.slack, e.printed = 0.98, 0
			e.run(e.begins(), 3)
			t.Logf("planner %.3f, exhaustive %.3f of %d endings: %v%s", cost, e.best, e.tried, e.chain, said)
			// Margins by hand and by the planner differ by some per cent, and a
			// margin of 6 % less is worth a minute.
			best := e.best
			if cost > best*1.01 {
				loud := newExhaustive(&m)
				loud.slack, loud.louder = 0.98, 0.94
				loud.run(loud.begins(), 3)
				best = loud.best
			}
			if cost > best*1.01 {
				t.Errorf("the planner's chain costs %.3f, another %.3f: %v%s", cost, e.best, e.chain, said)
			}
		})
	}
}
