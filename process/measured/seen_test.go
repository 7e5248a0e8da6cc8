package measured

import (
	"testing"

	"borewright/process"
	"borewright/process/qty"
)

// Taper is not out-of-round: two depths, each round, 0.02 mm apart; then one
// depth that is 0.03 mm oval.
func TestFormOf(t *testing.T) {
	size := func(depth, at, d float64) process.Size {
		return process.Size{Depth: qty.FromMM(depth), At: at, Diameter: qty.DiameterMM(d)}
	}
	if u, taper := formOf([]process.Size{size(5, 0, 80.02), size(5, 90, 80.02), size(50, 0, 80), size(50, 90, 80)}); u != 0 || taper != qty.FromMM(0.02) {
		t.Errorf("tapered: %v, %v", u, taper)
	}
	if u, taper := formOf([]process.Size{size(5, 0, 80.03), size(5, 90, 80)}); u != qty.FromMM(0.015) || taper != 0 {
		t.Errorf("oval: %v, %v", u, taper)
	}
	if u, _ := formOf([]process.Size{size(5, 0, 80.03), size(50, 90, 80)}); u >= 0 {
		t.Errorf("one place a depth shows no roundness: %v", u)
	}
}
