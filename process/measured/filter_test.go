package measured

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/setup"
)

// The filter against the posterior by summing over a fine grid, prior and
// likelihood written out by hand: mean of ln factor and its spread.
func TestFilterAgainstTheGrid(t *testing.T) {
	const noise, again, sc, sf = 0.0052, 0.10 / 1.96, 0.12, 0.153
	var cuts []springCut
	for _, depth := range []float64{0.3, 0.45} {
		cuts = append(cuts, springCut{set: 40 + depth, rLeast: 40, rMost: 40.01,
			strokes: func(factor, _ float64) setup.Stroke {
				return setup.Stroke{In: func(a float64) float64 { return factor * 0.35e-3 * 260 * math.Pow(math.Max(0, a), 0.7) }}
			}, noise: noise, again: again})
	}
	for _, truth := range []float64{0.7, 1, 1.5} {
		k := &Learned{}
		k.add(sc)
		k.add(sf)
		k.add(0.2) // feed force: these cuts know of none
		var seen []float64
		for _, c := range cuts {
			y, _, _ := c.spring(truth, 1)
			seen = append(seen, y)
			k.update(c, 0, 1, -1, y)
		}
		mean, spread := k.x[0]+k.x[1], math.Sqrt(k.p[0][0]+2*k.p[0][1]+k.p[1][1])
		prior := sc*sc + sf*sf
		var w0, w1, w2 float64
		for i := -2000; i <= 2000; i++ {
			x := float64(i) * 0.0006
			l := x * x / prior
			for j, c := range cuts {
				g, _, _ := c.spring(math.Exp(x), 1)
				r := noise*noise + again*again*g*g
				l += (seen[j]-g)*(seen[j]-g)/r + math.Log(r)
			}
			w := math.Exp(-l / 2)
			w0, w1, w2 = w0+w, w1+w*x, w2+w*x*x
		}
		gm := w1 / w0
		gs := math.Sqrt(w2/w0 - gm*gm)
		if math.Abs(mean-gm) > 0.25*gs || math.Abs(spread/gs-1) > 0.15 {
			t.Errorf("factor %.2f: filter ln %.4f ±%.4f, grid %.4f ±%.4f", truth, mean, spread, gm, gs)
		}
	}
}

// Two cuts by which feed force, on an arm of its own, takes back unlike shares of the spring:
// what is known of a third, and how well, against the posterior by summing over a grid of
// both factors, prior and likelihood written out by hand.
func TestFilterKnowsFeedForceApart(t *testing.T) {
	const noise, again, prior = 0.002, 0.03, 0.153
	own := 0.40 / 0.30 * prior // of feed force by itself
	cutOf := func(depth, radial, arm float64) springCut {
		return springCut{set: 40 + depth, rLeast: 40, rMost: 40.001, noise: noise, again: again, strokes: func(factor, feed float64) setup.Stroke {
			return setup.Stroke{In: func(a float64) float64 { return factor * (radial*math.Pow(math.Max(0, a), 0.7) - feed*arm*a) }}
		}}
	}
	cuts := []springCut{cutOf(0.3, 0.10, 0.02), cutOf(0.9, 0.10, 0.07)}
	next := cutOf(0.6, 0.10, 0.05)
	for _, truth := range [][2]float64{{1, 1}, {1.2, 0.7}, {0.8, 1.35}} {
		m := &process.Material{}
		k := &Learned{bars: map[*process.Tools]int{nil: 0}, of: map[cutIn]int{{m: m}: 1}, cuts: map[cutIn]int{{m: m}: 2}}
		k.add(1e-9) // the bar is known
		k.add(prior)
		k.add(own)
		var seen []float64
		for _, c := range cuts {
			y, _, _ := c.spring(truth[0], truth[1])
			seen = append(seen, y)
			k.update(c, 0, 1, -1, y)
		}
		known := k.Known(m, setup.Known{})
		got, _, _ := next.spring(known.Factor, known.Feed)
		up, _, _ := next.spring(known.Factor*1.001, known.Feed)
		spread := known.Doubt.On(setup.Moves{All: (up - got) / 0.001, Feed: next.byFeed(known.Factor, known.Feed)}) / sigmas
		var w0, w1, w2 float64
		for i := -60; i <= 60; i++ {
			for j := -60; j <= 60; j++ {
				x, z := float64(i)*0.012, float64(j)*0.016
				l := x*x/prior/prior + z*z/own/own
				for n, c := range cuts {
					g, _, _ := c.spring(math.Exp(x), math.Exp(z))
					r := noise*noise + again*again*g*g
					l += (seen[n]-g)*(seen[n]-g)/r + math.Log(r)
				}
				g, _, _ := next.spring(math.Exp(x), math.Exp(z))
				w := math.Exp(-l / 2)
				w0, w1, w2 = w0+w, w1+w*g, w2+w*g*g
			}
		}
		mean := w1 / w0
		sigma := math.Sqrt(w2/w0 - mean*mean)
		if math.Abs(got-mean) > 0.25*sigma || math.Abs(spread/sigma-1) > 0.15 {
			t.Errorf("forces %v: filter %.5f ± %.5f mm, grid %.5f ± %.5f", truth, got, spread, mean, sigma)
		}
	}
}
