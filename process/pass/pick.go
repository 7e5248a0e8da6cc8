package pass

import "borewright/process/qty"

// Pick is the spindle speed for one kind of pass.
type Pick struct {
	RPM    float64
	Speed  float64 // m/min at the size aimed at
	Within bool    // inside the material's band: false when the machine has nothing slow enough
}

// At is the cutting speed at a radius, mm, in m/min.
func (p Pick) At(radius float64) float64 {
	return float64(qty.RevPerMin(p.RPM).At(qty.DiameterMM(2 * radius)))
}
