package landing

import (
	"math"
	"testing"
)

// What share of a normal draw and an even one lies together below a figure, against the
// sum in closed form: P(z + u < x) is the mean of Φ over x − 1 to x, and ∫Φ = xΦ + φ.
func TestTryAgainstClosedForm(t *testing.T) {
	phi := func(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }
	sum := func(x float64) float64 { return x*phi(x) + math.Exp(-x*x/2)/math.Sqrt(2*math.Pi) }
	for _, x := range []float64{-2, 0, 0.5, 2, 3.5} {
		want := sum(x) - sum(x-1)
		for name, come := range map[string]func(Draw) float64{
			"smooth": func(d Draw) float64 { return d.Below(x - d.Even(0)) },
			"a step": func(d Draw) float64 {
				if d.Normal(1)+d.Even(0) < x {
					return 1
				}
				return 0
			},
		} {
			got, off := Try(3, come)
			if math.Abs(got-want) > 1.5*off+1e-5 || off > 0.006 {
				t.Errorf("%v, %s: %.5f ± %.5f, in closed form %.5f", x, name, got, off, want)
			}
		}
	}
}
