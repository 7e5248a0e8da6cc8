package qty

import "math"

// Force is in newtons.
type Force float64

// Power is in watts.
type Power float64

// Torque is in newton metres.
type Torque float64

// CuttingSpeed is the speed of the edge over the work, in metres a minute.
type CuttingSpeed float64

// RevPerMin is a spindle speed in revolutions a minute.
type RevPerMin float64

// At is the cutting speed at diameter d: v_c = π·d·n/1000 (ISO 3002-1).
func (n RevPerMin) At(d Diameter) CuttingSpeed {
	return CuttingSpeed(math.Pi * d.MM() * float64(n) / 1000)
}

// Turning is the spindle speed that gives the cutting speed v at diameter d.
// It is 0 where d is not positive.
func (v CuttingSpeed) Turning(d Diameter) RevPerMin {
	if d <= 0 {
		return 0
	}
	return RevPerMin(1000 * float64(v) / (math.Pi * d.MM()))
}

// Minutes is the time to feed a distance l at feed f (per revolution) and n
// rev/min. It is +Inf where nothing moves.
func (n RevPerMin) Minutes(l, f Length) float64 {
	if n <= 0 || f <= 0 {
		return math.Inf(1)
	}
	return float64(l) / (float64(f) * float64(n))
}
