package passes_test

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// wallSim is a bar that turns in a bore, followed revolution by revolution at
// three places round the clock: where most is to be cut, where least, and
// between. The wall at each place is a profile along the bore. In every
// revolution the tool takes what stands above its edge, the force on each piece
// of the edge follows from what it takes there, and the bar gives way to it.
// What a cutter that is fed out turning takes comes out of the same steps. It
// has no part of the planner: no law of depth, no law of spring, no copying.
// Lengths in mm, forces in N.
type wallSim struct {
	mill  *handMill
	give  float64 // of the tip, radially, to a radial force, mm/N
	tilt  float64 // of the tip, radially, to a moment there, 1/N
	wall  [3]wallProfile
	along float64 // length of the piece of bore that is followed
}

// wallProfile is the radius of the wall at points along the bore, dz apart.
type wallProfile struct {
	dz float64
	r  []float64
}

// newWallSim puts the bar of a mill into its bore. The bar is plain: its give is
// that of books, by Castigliano's theorem, with x from the tip:
//
//	give = ∫ x²/(E·I) dx + L/(κ·G·A) + 1/k_r + L²/k_θ
//	tilt = ∫ x/(E·I) dx + L/k_θ
//
// Source: Timoshenko, Strength of Materials, part I; κ of a round bar
// 6(1+ν)/(7+6ν) (Cowper 1966), as the planner states it.
func newWallSim(m *handMill) *wallSim { return newWallSimOf(m, 3.2) }

// newWallSimOf is the same with so many nose radii of bore.
func newWallSimOf(m *handMill, noses float64) *wallSim {
	t := &wallSim{mill: m, along: noses * m.nose}
	l, d := m.steps[0].l, m.steps[0].d
	ei := m.modulus * math.Pi * math.Pow(d, 4) / 64
	shear := 6 * (1 + m.nu) / (7 + 6*m.nu) * m.modulus / 2 / (1 + m.nu) * math.Pi * d * d / 4
	const n = 4000
	for i := range n {
		x := (float64(i) + 0.5) * l / n
		t.give += x * x / ei * l / n
		t.tilt += x / ei * l / n
	}
	t.give += l/shear + 1/(m.radial*1e3) + l*l/(m.tilt*1e9)
	t.tilt += l / (m.tilt * 1e9)
	for i, off := range []float64{-m.offset, 0, m.offset} {
		p := wallProfile{dz: 0.004, r: make([]float64, int(t.along/0.004))}
		for j := range p.r {
			p.r[j] = m.start/2 + off
		}
		t.wall[i] = p
	}
	return t
}

// force is that on the tool with its tip at radius tip and place at: out of
// the wall, and along the bore toward the spindle. speed is in m/min.
//
//	dF_n = ρ·k_c·dA, k_c and ρ as handMill.cut has them; all of it normal to the
//	       straight line between the two points where the edge leaves the wall
func (t *wallSim) force(p *wallProfile, tip, at, speed float64) (out, back float64) {
	m := t.mill
	least := m.minChip * m.rounding
	type point struct{ x, y float64 }
	var ends [2]point
	var normal float64
	edge := m.edge()
	first := max(0, int((at-2*m.nose)/p.dz))
	for j := first; j < len(p.r); j++ {
		x := (float64(j)+0.5)*p.dz - at
		rise := edge(x)
		if x > 0 && tip-rise < p.r[0]-4*m.nose {
			break
		}
		thick := tip - rise - p.r[j]
		if thick <= 0 {
			continue
		}
		side := m.lead * math.Pi / 180
		if x < 0 {
			side = -m.trail * math.Pi / 180
		}
		if math.Abs(x) < m.nose*math.Abs(math.Sin(side)) {
			side = math.Asin(x / m.nose)
		}
		h := math.Hypot(thick*math.Cos(side), least)
		kc := m.kc11 * math.Pow(h, -m.mc)
		ratio := math.Pow(math.Pow(m.ratio*math.Pow(h, -m.fall), -4)+math.Pow(1.2, -4), -0.25)
		// The area that a piece of edge takes is thick·dz; its length dz/cos.
		normal += ratio * kc * thick * p.dz
		// The edge leaves the wall half a step on, or sooner where it is steep.
		on := math.Min(p.dz/2, thick/math.Max(1e-9, math.Abs(math.Tan(side))))
		if ends[0] == ends[1] {
			ends[0] = point{x - on, edge(x - on)}
		}
		ends[1] = point{x + on, edge(x + on)}
	}
	if l := math.Hypot(ends[1].x-ends[0].x, ends[1].y-ends[0].y); l > 0 {
		out, back = normal*(ends[1].x-ends[0].x)/l, normal*(ends[1].y-ends[0].y)/l
	}
	k := 1.2 * math.Pow(100/math.Max(25, math.Min(100, speed)), 0.1) * (1 - 0.04*(m.rake-m.rake0))
	return k * out, k * back
}

// revolve turns the tool once with its tip at a place along the bore, set to a
// radius, and takes what stands above its edge. It gives the radius of the tip.
func (t *wallSim) revolve(p *wallProfile, set, at, speed float64) float64 {
	edge := t.mill.edge()
	lo, hi := -0.2, 0.5 // how far the tip is off what it is set to
	for range 24 {      // to 0.04 nm
		y := (lo + hi) / 2
		out, back := t.force(p, set-y, at, speed)
		if t.give*out-t.tilt*set*back > y {
			lo = y
		} else {
			hi = y
		}
	}
	tip := set - (lo+hi)/2
	for j := range p.r {
		x := (float64(j)+0.5)*p.dz - at
		if r := tip - edge(x); r > p.r[j] {
			p.r[j] = r
		}
	}
	return tip
}

// cut takes one pass through the bore, and back where the cutter is fed out
// turning. It gives the radii that stand in the middle of the bore, where most was
// to be cut and where least, and how far the bar sprang going in, on diameter.
func (t *wallSim) cut(q *schedule.Pass, fedOut bool) (least, most, spring float64) {
	set, feed, speed := q.Setting.MM()/2, q.Feed.MM(), float64(q.Cutting)
	room := 2 * t.mill.nose
	var radii, in [3]float64
	for i := range t.wall {
		p := &t.wall[i]
		at := -room
		for ; at < t.along+room; at += feed {
			tip := t.revolve(p, set, at, speed)
			if at < t.along/2 {
				in[i] = tip
			}
		}
		if fedOut {
			for at -= feed * 0.4; at > -room; at -= feed { // never in its own marks
				t.revolve(p, set, at, speed)
			}
		}
		mid := p.r[len(p.r)/2-int(feed/p.dz)-1 : len(p.r)/2+int(feed/p.dz)+1]
		for _, r := range mid { // the bottom of the feed marks is what the tip made
			radii[i] = math.Max(radii[i], r)
		}
	}
	return radii[0], radii[2], 2 * math.Abs(set-in[0])
}

// wallJobs are ten jobs that differ in bar, nose, metal, bore, stock and how the
// cutter comes out.
func wallJobs() []handMill {
	var out []handMill
	for i := range 10 {
		m := usualMill()
		m.steps = []handStep{{[]float64{60, 70, 50, 80, 63}[i%5], []float64{300, 260, 280, 360, 330}[i%5]}}
		m.nose = []float64{0.8, 0.4, 1.2}[i%3]
		m.lead = []float64{75, 85, 60}[i%3]
		m.feeds = []float64{0.05, 0.08, 0.12, 0.2}
		if m.nose < 0.5 { // a chip thin against the nose is measured across it closely enough
			m.feeds = []float64{0.05, 0.08, 0.1}
		}
		m.offset = []float64{0.05, 0.15, 0}[i%3]
		m.start = []float64{99, 98.2, 98.6, 97.6}[i%4]
		m.round, m.ra, m.springRough, m.springFinish = 0.03, 6.3, 0.3, 0.12
		m.low, m.high = 99.95, 100.05
		m.passes = 12
		if i >= 4 {
			m.moreBore = "way_out = \"feed\"\n"
			m.steps[0].l *= 1.35
		}
		if i%2 == 1 {
			m.kc11, m.mc, m.group, m.fall, m.ratio = 2200, 0.14, "P", 0.5, 0.185
		}
		out = append(out, m)
	}
	return out
}

// A bar followed through its passes, in and out, leaves the sizes and the
// out-of-round that the plan says, within 2 µm and 2 % of the spring going in.
func TestBarAlongTheWall(t *testing.T) {
	jobs := wallJobs()
	n := slow.Rounds(t, "bars along the wall", len(jobs), 2)
	fed := 0
	for k := range n {
		i := k * len(jobs) / n // in a short run, too, of both ways out
		m := &jobs[i]
		_, ps := m.plan(t)
		bar := newWallSim(m)
		for j := range ps {
			q := &ps[j]
			out := q.Out.By == process.FeedOut
			if out {
				fed++
			}
			least, most, spring := bar.cut(q, out)
			near := 0.002 + 0.02*spring
			if d := least + most - q.Expected.MM(); math.Abs(d) > near {
				t.Errorf("job %d pass %d: the bar leaves %.4f, the plan says %.4f: %.1f µm apart, spring %.1f", i, q.N, least+most, q.Expected.MM(), 1e3*d, 1e3*spring)
			}
			if d := math.Abs(most-least) + m.runout - q.OutOfRound.MM(); math.Abs(d) > near {
				t.Errorf("job %d pass %d: the bar leaves %.4f out of round, the plan says %.4f", i, q.N, math.Abs(most-least)+m.runout, q.OutOfRound.MM())
			}
		}
	}
	if fed == 0 {
		t.Error("no pass is fed out: nothing is judged of the way out")
	}
}
