package landing

import (
	"math"
	"math/rand/v2"
	"testing"

	"borewright/process/qty"
)

// usual is a bore of 80 H7 on a slender bar: a cut before, a semi-finish that is
// measured, a finish. Invented figures.
func usual() Trial {
	return Trial{
		Start: 39.4, Limits: [2]float64{80, 80.03}, Bar: 4e-5, Root: 4e-5, Grows: 80 * 11e-6, BarGrows: 80 * 11.5e-6,
		Passes: []Pass{
			{Setting: 79.436, Depth: 0.3, Force: 225, K: 600},
			{Setting: 79.83, Depth: 0.2, Force: 187, K: 650, Measured: true},
			{Setting: 80.034, Depth: 0.1075, Force: 119, K: 800},
		},
		Sigma: Sigma{Force: 0.14, Root: 0.2, Set: 0.004, Gauge: 0.0015, Kelvin: 1, Spring: 0.05},
	}
}

// Measuring before the last cut helps, and the share of the error by which the
// next setting is shifted is the best one: the size scatters more with shares on
// either side.
func TestBestCorrection(t *testing.T) {
	h := usual()
	b := h.Budget(qty.Metric)
	if b.Chance <= b.Blind {
		t.Errorf("measured %.4f, unmeasured %.4f", b.Chance, b.Blind)
	}
	h.setGain()
	spread := func(gain float64) float64 {
		h.gain = gain
		rng := rand.New(rand.NewPCG(1, 2))
		z := make([]float64, h.causes())
		sum, sum2, n := 0.0, 0.0, 20000.0
		for range int(n) {
			for i := range z {
				z[i] = rng.NormFloat64()
			}
			d, _ := h.cut(z)
			sum, sum2 = sum+d, sum2+d*d
		}
		return sum2/n - sum/n*sum/n
	}
	if b.Gain < 0.2 || b.Gain > 0.95 {
		t.Fatalf("a share of %.1f: the job tells nothing of it", b.Gain)
	}
	best := spread(b.Gain)
	for _, g := range []float64{b.Gain - 0.2, b.Gain + 0.2, 0, 1} {
		if v := spread(g); v < best {
			t.Errorf("a share of %.1f scatters less (%.3g) than %.1f (%.3g)", g, v, b.Gain, best)
		}
	}
}

// On a bar that does not give, the size is the setting: σ is the error of one
// setting, and the chance is erf(half/(σ·√2)) (the normal distribution, JCGM 100).
// ±0.030 in limits of ±0.045 is 2.94 σ: 0.9967.
func TestSettingCountsOnce(t *testing.T) {
	h := Trial{
		Start: 39.4, Limits: [2]float64{79.955, 80.045}, Bar: 1e-9, Root: 1e-9,
		Passes: []Pass{
			{Setting: 79.4, Depth: 0.3, Force: 225, K: 600},
			{Setting: 79.8, Depth: 0.2, Force: 187, K: 650, Measured: true},
			{Setting: 80, Depth: 0.1, Force: 119, K: 800},
		},
		Sigma: Sigma{Set: 0.030 / 1.96},
	}
	want := math.Erf(0.045 / (0.030 / 1.96) / math.Sqrt2)
	if b := h.Budget(qty.Metric); math.Abs(b.Blind-want) > 1e-5 || math.Abs(b.Chance-want) > 1e-5 {
		t.Errorf("%.6f land measured, %.6f unmeasured, want %.6f", b.Chance, b.Blind, want)
	}
}
