package sleeve

import (
	"math"

	"borewright/process/feature"
)

// Weight is what the sleeve weighs as it leaves the lathe, kg, at its largest
// outside, smallest inside and full length, with its flange, grooves and holes not
// taken off; 0 where no material is stated. It is lifted, heated and cooled as such.
//
//	m = π/4·(D² − d²)·L·ρ, with D, d, L in m and ρ in kg/m³
func (s *Sleeve) Weight() float64 {
	if s.Material == nil {
		return 0
	}
	d, in := s.Turned[1].MM(), s.Taken().Inside[0].MM()
	volume := (d*d - in*in) * s.Length.Most.MM()
	for _, e := range []feature.End{feature.Near, feature.Far} {
		if f := s.FlangeAt(e); f != nil {
			volume += (f.Diameter.MM()*f.Diameter.MM() - in*in) * f.Thickness.MM()
		}
	}
	return math.Pi / 4 * volume * s.Material.Rho * 1e-9
}
