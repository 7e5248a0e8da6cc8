package feature

import (
	"math"
	"testing"

	"borewright/process/qty"
)

// Rings by finite elements, made for this project: 20-node bricks for the holes, plane
// stress for the grooves, the mesh halved once; a frictionless joint. Ø100 joint.

// TestHolesByElements: no ring is worse than its factor, and none is more than a fifth better.
func TestHolesByElements(t *testing.T) {
	for _, most := range []float64{2.81, 2.91, 3.00, 2.70} { // hub outside 90, 65, 65, 125; hole 6, 6, 10, 6
		if most > HoleFactor+0.005 || most < 0.8*HoleFactor {
			t.Errorf("hub: %v, counted %v", most, HoleFactor)
		}
	}
	for _, most := range []float64{3.06, 3.15, 3.36} { // sleeve bore 43, 45, 43; hole 6, 6, 10
		if most > ThinHoleFactor || most < 0.8*ThinHoleFactor {
			t.Errorf("sleeve: %v, counted %v", most, ThinHoleFactor)
		}
	}
}

// TestGroovesByElements: one hub groove, twelve times as wide as deep, is left out: its
// tension (1.92, by the formula 1.64) stands at the edge of the contact, which a groove
// inside a sleeve has not.
func TestGroovesByElements(t *testing.T) {
	for _, row := range []struct{ w, h, hub, sleeve float64 }{
		{6, 2, 2.89, 0}, {10, 3, 2.72, 0}, {4, 1.9, 3.29, 0}, {16, 5, 2.69, 0},
		{5, 1.5, 0, 2.57}, {6, 2, 0, 2.49}, {8, 3, 0, 2.71}, {8, 3.9, 0, 3.20},
	} {
		got, most := GrooveFactor(row.w, row.h), max(row.hub, row.sleeve)
		if got < 0.98*most || got > 1.2*most {
			t.Errorf("%v × %v: %.2f, by elements %.2f", row.w, row.h, got, most)
		}
	}
	if got := PinFactor(); math.Abs(got-1.12*3) > 1e-9 { // half round: h = ρ
		t.Errorf("pin: %v", got)
	}
	for _, row := range []struct{ h, wall, times float64 }{{1.5, 5, 1.18}, {2, 7, 1.16}, {3, 7, 1.26}, {3.9, 7, 1.34}} {
		if got := BehindGroove(row.h, row.wall); math.Abs(got/row.times-1) > 0.02 {
			t.Errorf("hub behind a groove %v deep in %v: %.3f, by elements %.2f", row.h, row.wall, got, row.times)
		}
	}
}

// TestRinged: a groove without end is Lamé's thinner ring, one without width is nothing,
// and between the two it grows. By hand: Ø100 over Ø86, 5 wide and 2 deep, R 46.5, t 7:
// 1/β = √(46.5 × 7)/(3 × 0.91)^¼ = 14.04, ℓ = 33.07, K = 231.5/(231.5 − 10) = 1.0452.
func TestRinged(t *testing.T) {
	if got := Ringed(100, 86, 5, 2); math.Abs(got-1.0452) > 2e-4 {
		t.Errorf("%v", got)
	}
	if got, want := Ringed(100, 86, 1e6, 2), (10000.-7396)/(10000-8100); math.Abs(got-want) > 1e-9 {
		t.Errorf("without end: %v, Lamé %v", got, want)
	}
	last := 1.0
	for b := 0.5; b < 200; b *= 2 {
		got := Ringed(100, 86, b, 2)
		if got < last {
			t.Errorf("%v wide: %v after %v", b, got, last)
		}
		last = got
	}
}

// TestSensitive: by hand, Shigley's form with q = 0.2 for iron full of graphite.
func TestSensitive(t *testing.T) {
	if Sensitive(3, false) != 3 || math.Abs(Sensitive(3, true)-1.4) > 1e-12 {
		t.Error(Sensitive(3, false), Sensitive(3, true))
	}
	if got := Netted(6, 60, 3, 20); math.Abs(got-360./300) > 1e-12 {
		t.Error(got)
	}
}

// TestPinTorque: a pin Ø6 × 15 on Ø100 holds 270 N·m in shear and 225 in bearing, worked
// by hand; the less counts, and two hold twice.
func TestPinTorque(t *testing.T) {
	p := &Pin{Diameter: qty.DiameterMM(6), Length: 15 * qty.Millimetre, At: []float64{0}}
	if got := p.Torque(qty.DiameterMM(100)); math.Abs(got-225) > 1e-9 {
		t.Error(got)
	}
	p.At = append(p.At, 180)
	if got := p.Torque(qty.DiameterMM(100)); math.Abs(got-450) > 1e-9 {
		t.Error(got)
	}
	if (*Pin)(nil).Torque(qty.DiameterMM(100)) != 0 {
		t.Error("no pin holds")
	}
}
