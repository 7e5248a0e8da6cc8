package sleeve

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/qty"
)

// TestWeight: a steel ring 100 mm outside, 80 inside, 50 long is a bar of 10 × 50 mm
// bent round a circle of 90 (Pappus: volume = section × path of its centre).
func TestWeight(t *testing.T) {
	s := Sleeve{Material: &process.Material{Rho: 7850}, InPlace: true}
	s.Turned = [2]qty.Diameter{qty.DiameterMM(99), qty.DiameterMM(100)}
	s.Here.Inside = [2]qty.Diameter{qty.DiameterMM(80), qty.DiameterMM(81)}
	s.Before.Inside = [2]qty.Diameter{qty.DiameterMM(90), qty.DiameterMM(90)}
	s.Length.Least, s.Length.Most = qty.FromMM(49), qty.FromMM(50)
	want := 0.010 * 0.050 * math.Pi * 0.090 * 7850
	if got := s.Weight(); math.Abs(got-want) > 1e-9 {
		t.Errorf("%v kg, by hand %v", got, want)
	}
}
