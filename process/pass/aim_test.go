package pass

import (
	"math"
	"testing"
)

// A size known to ±1.96σ about a middle off the aim stays within ± offAim of the aim in 95 of 100
// cases. The factors of one and of two sides, 1.645 and 1.960, are those of the normal law (JCGM
// 100:2008, table G.1); between the two the law is summed up here by small steps.
func TestOffAim(t *testing.T) {
	if got := offAim(1.96, 0); math.Abs(got-1.96) > 1e-6 {
		t.Errorf("on the aim ±%.4f σ, 1.960", got)
	}
	if got := offAim(1.96, 5); math.Abs(got-5-1.645) > 1e-3 {
		t.Errorf("far off the aim %.4f σ more, 1.645", got-5)
	}
	for _, aside := range []float64{0.1, 0.4, 1, 2} {
		h, in := offAim(1.96, aside), 0.0
		const step = 1e-3
		for x := -h + step/2; x < h; x += step {
			in += step * math.Exp(-(x-aside)*(x-aside)/2) / math.Sqrt(2*math.Pi)
		}
		if math.Abs(in-0.95) > 1e-3 {
			t.Errorf("%.1f σ aside: %.4f within, 0.95", aside, in)
		}
	}
}
