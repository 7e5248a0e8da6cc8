package cut

import (
	"math"
	"testing"
)

// By hand, from the drawing of the tool: a nose of 0.8 that cuts 2 mm deep with
// an edge at 45° stands 0.8 + 2 mm ahead, at 60° 0.8 + 2/√3, square 0.8.
func TestRunOut(t *testing.T) {
	for _, c := range []struct{ nose, lead, depth, want float64 }{
		{0.8, 45, 2, 2.8}, {0.8, 60, 2, 0.8 + 2/math.Sqrt(3)}, {0.8, 90, 2, 0.8}, {0.8, 95, 2, 0.8}, {1.2, 75, 0, 1.2},
	} {
		within(t, "run-out", RunOut(c.nose, c.lead, c.depth), c.want, 1e-12)
		if c.lead < 90 && c.depth > 0 {
			within(t, "depth", RunOutDepth(c.nose, c.lead, c.want), c.depth, 1e-12)
		}
	}
	if RunOutDepth(0.8, 45, 0.7) != 0 || !math.IsInf(RunOutDepth(0.8, 90, 0.9), 1) || RunOutDepth(0.8, 90, 0.7) != 0 {
		t.Error("no room for the nose leaves no cut; a square edge has no other need")
	}
}
