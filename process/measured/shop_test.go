package measured

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"borewright/process/qty"
)

// shopCuts makes measured cuts on bars of several lengths whose spring follows
// the model with the given force and nose, and noise.
func shopCuts(rng *rand.Rand, force, root float64, shares []float64, each int) []ShopCut {
	var out []ShopCut
	for i, share := range shares {
		for range each {
			give := 0.03 + 0.05*rng.Float64()
			b, r := give*(1-share), give*share
			c := ShopCut{Machine: "mill", Cut: Cut{Bar: qty.DiameterMM(60), Stickout: qty.FromMM(float64(200 + 100*i)), BarGive: b, RootGive: r,
				Predicted: qty.FromMM(give), Noise: 0.003}}
			c.Seen = qty.FromMM(force*(b+r/root) + 0.003*rng.NormFloat64())
			out = append(out, c)
		}
	}
	return out
}

// Force and nose are found again, and the doubts stated cover the truth as
// often as they say: 95 of 100, within what 300 trials can show.
func TestFitShopFindsTheMill(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	covered, apart := [2]int{}, 0
	const trials = 300
	for range trials {
		f := FitShop(shopCuts(rng, 1.18, 0.65, []float64{0.15, 0.4, 0.75}, 8))[0]
		if !f.Apart {
			continue
		}
		apart++
		if math.Abs(f.Force-1.18) <= f.ForceDoubt {
			covered[0]++
		}
		if math.Abs(f.Root-0.65) <= f.RootDoubt {
			covered[1]++
		}
	}
	t.Logf("told apart %d of %d; force covered %d, nose %d", apart, trials, covered[0], covered[1])
	if apart < trials*9/10 {
		t.Errorf("told apart only %d times", apart)
	}
	for i, n := range covered {
		if share := float64(n) / float64(apart); share < 0.91 || share > 0.995 {
			t.Errorf("doubt %d covers the truth in %.0f of 100", i, 100*share)
		}
	}
}

// With the nose known the fit is a line through the origin: gonum's own
// regression is the check.
func TestFitShopOneBar(t *testing.T) {
	cuts := shopCuts(rand.New(rand.NewPCG(1, 2)), 1.3, 1, []float64{0.3}, 12)
	f := FitShop(cuts)[0]
	if f.Apart || f.Why.None() || f.Root != 1 {
		t.Fatalf("one bar tells force and nose apart: %+v", f)
	}
	var x, y []float64
	for _, c := range cuts {
		x, y = append(x, c.BarGive+c.RootGive), append(y, c.Seen.MM())
	}
	_, slope := stat.LinearRegression(x, y, nil, true)
	if math.Abs(f.Force-slope) > 1e-9 || math.Abs(f.Bars[0].Ratio-slope) > 1e-9 {
		t.Errorf("force %.6f, bar %.6f, regression %.6f", f.Force, f.Bars[0].Ratio, slope)
	}
}
