package rs274

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func arcOf(t interface{ Fatalf(string, ...any) }, text string) Event {
	var arc Event
	faults, err := Replay(strings.NewReader(text), Dialect{}, func(e Event) error {
		if e.Motion == Arc && e.Kind == Move {
			arc = e
		}
		return nil
	})
	if len(faults) > 0 || err != nil {
		t.Fatalf("%s: %v %v", text, faults, err)
	}
	return arc
}

// TestArcs: the turn and the center are the geometry of the circle.
func TestArcs(t *testing.T) {
	for _, c := range []struct {
		block    string
		first, v float64 // center, in the plane
		deg      float64
	}{
		{"G0 X10. Y0.\nG3 X0. Y10. I-10. J0.", 0, 0, 90},
		{"G0 X10. Y0.\nG2 X0. Y10. I-10. J0.", 0, 0, 270},
		{"G0 X10. Y0.\nG2 X10. Y0. I-10. J0.", 0, 0, 360},
		{"G0 X10. Y0.\nG3 X0. Y10. R10.", 0, 0, 90},
		{"G0 X10. Y0.\nG3 X0. Y10. R-10.", 10, 10, 270},
		{"G0 X10. Y0.\nG2 X0. Y10. R10.", 10, 10, 90},
		{"G0 X10. Y0.\nG2 X0. Y10. R-10.", 0, 0, 270},
		{"G0 X10. Y0.\nG3 X-10. Y0. R10.", 0, 0, 180},
		{"G0 Z10. X0.\nG18 G3 Z0. X10. K-10. I0.", 0, 0, 90}, // first Z, then X
		{"G0 Y10. Z0.\nG19 G3 Y0. Z10. J-10. K0.", 0, 0, 90},
		{"G0 X10. Y0.\nG3 X0. Y10. Z-4. I-10. J0.", 0, 0, 90}, // helix
	} {
		e := arcOf(t, frame(c.block))
		first, second := e.Center.X, e.Center.Y
		switch e.Plane {
		case 18:
			first, second = e.Center.Z, e.Center.X
		case 19:
			first, second = e.Center.Y, e.Center.Z
		}
		if math.Abs(first.MM()-c.first) > 1e-6 || math.Abs(second.MM()-c.v) > 1e-6 || math.Abs(e.Angle*180/math.Pi-c.deg) > 1e-6 {
			t.Errorf("%q: center %v %v, %v deg; want %v %v, %v deg", c.block, first.MM(), second.MM(), e.Angle*180/math.Pi, c.first, c.v, c.deg)
		}
	}
}

// An arc by its radius is the arc by the center that the first one names. A center is
// written to a millionth of a millimetre: of the least radius, 1 mm, that is 1.4 µrad.
func TestArcByRadiusAndByCenterAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string) float64 { return float64(rapid.IntRange(-200000, 200000).Draw(t, name)) / 1000 }
		x, y := mm("x"), mm("y")
		half := math.Hypot(x, y) / 2
		if half < 1 {
			t.Skip("too short to judge")
		}
		r := math.Ceil(half*(1+rapid.Float64Range(0.001, 3).Draw(t, "slack"))*1000) / 1000
		if rapid.Bool().Draw(t, "long") {
			r = -r
		}
		code := rapid.SampledFrom([]string{"G2", "G3"}).Draw(t, "code")
		a := arcOf(t, frame(fmt.Sprintf("%s X%.3f Y%.3f R%.3f", code, x, y, r)))
		b := arcOf(t, frame(fmt.Sprintf("%s X%.3f Y%.3f I%.6f J%.6f", code, x, y, a.Center.X.MM(), a.Center.Y.MM())))
		if a.Center != b.Center || math.Abs(a.Angle-b.Angle) > 2e-6 {
			t.Fatalf("by radius %+v %v, by center %+v %v", a.Center, a.Angle, b.Center, b.Angle)
		}
		if (r > 0) != (a.Angle <= math.Pi+1e-9) {
			t.Fatalf("R%v turns through %v", r, a.Angle)
		}
	})
}
