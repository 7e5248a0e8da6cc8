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
		k := &Learned{of: map[*process.Material]int{}, cuts: map[*process.Material]int{}}
		k.add(nil, sc)
		k.add(&process.Material{}, sf)
		k.add(nil, 0.2) // feed force: these cuts know of none
		var seen []float64
		for _, c := range cuts {
			y, _, _ := c.spring(truth, 1)
			seen = append(seen, y)
			k.update(c, 1, -1, y)
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
