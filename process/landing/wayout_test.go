package landing

import (
	"math"
	"testing"

	"borewright/process/qty"
)

// A way out that cuts takes, with nothing drawn, what stands in its way by hand:
// (S/2 − r − in − F/…)/(1 + c·k) of a straight force; and where it is shallower than
// the edge needs, half of the bores stay smaller by twice that depth.
func TestWayOut(t *testing.T) {
	const c, k, least = 1e-4, 800.0, 0.02
	in, force := 0.2, 300.0 // 30 µm of push left
	out := c * force / (1 + c*k)
	h := Trial{Start: 40, Bar: c, Limits: [2]float64{80, 81}, Passes: []Pass{{
		Setting: 2 * (40 + in + c*force), Depth: in, Force: force, K: 600,
		Out: &Cut{Depth: out, Force: k * out, K: k},
	}}}
	z := make([]float64, h.causes())
	if got, _ := h.cut(z); math.Abs(got-2*(40+in+out)) > 1e-9 {
		t.Errorf("comes out %.5f, by hand %.5f", got, 2*(40+in+out))
	}
	z[causeRub] = -1
	if got, _ := h.cut(z); math.Abs(got-2*(40+in+out)) > 1e-9 {
		t.Errorf("deep enough to cut, it comes out %.5f", got)
	}
	h.Passes[0].Out.Least = 2 * out
	if got, _ := h.cut(z); math.Abs(got-2*(40+in)) > 1e-9 {
		t.Errorf("rubbing, it comes out %.5f, by hand %.5f", got, 2*(40+in))
	}
	h.Limits = [2]float64{2 * (40 + in + out/2), 81} // only those that cut
	if b := h.Budget(qty.Metric); math.Abs(b.Blind-0.5) > 0.01 {
		t.Errorf("%.3f of them cut", b.Blind)
	}
}
