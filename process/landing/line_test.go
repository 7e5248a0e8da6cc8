package landing

import (
	"math"
	"testing"
)

// Where every pass cuts, a larger error of the last setting makes the bore larger along a straight line:
// its beginning and its rise are those of the passes cut one by one, a spring pass too. Where one does
// not cut, or cuts on its way out, it is none.
func TestLine(t *testing.T) {
	d := drawn{passes: []ready{{over: 50.2, give: 0.8}, {over: 50.2, give: 0.9}}}
	const r, e = 50.0, 0.01
	made, rise, cuts := d.line(r, e)
	if !cuts || math.Abs(made-d.finish(r, e)) > 1e-12 || math.Abs(made+0.05*rise-d.finish(r, e+0.05)) > 1e-12 {
		t.Errorf("%.6f and %.6f a millimetre, %v; by the passes %.6f, then %.6f", made, rise, cuts, d.finish(r, e), d.finish(r, e+0.05))
	}
	if _, _, cuts := d.line(50.3, e); cuts {
		t.Error("a line where nothing is cut")
	}
	d.passes[1].over = 50.1 // the first leaves it nothing
	if _, _, cuts := d.line(r, e); cuts {
		t.Error("a line where the spring pass cuts nothing")
	}
	d.passes[1] = ready{over: 50.2, give: 0.9, out: &Cut{}}
	if _, _, cuts := d.line(r, e); cuts {
		t.Error("a line where the way out cuts")
	}
}
