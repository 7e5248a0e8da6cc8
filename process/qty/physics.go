package qty

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

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

// Temperature is on a thermometer, in kelvins above absolute zero, so that 0 is none.
type Temperature float64

// zeroCelsius is 0 °C in kelvins, exact (BIPM SI brochure, 9th edition, 2.3.1).
const zeroCelsius = 273.15

// FromCelsius is a temperature in °C.
func FromCelsius(c float64) Temperature { return Temperature(c + zeroCelsius) }

// Celsius is the temperature in °C, without the dust of binary fractions.
func (t Temperature) Celsius() float64 { return math.Round((float64(t)-zeroCelsius)*1e9) / 1e9 }

// ParseTemperature reads a temperature with its unit, "68 °F", "68 F", "20 °C" or "20 C",
// and a bare number in °F where lengths are in inches, else in °C.
func ParseTemperature(u Unit, s string) (Temperature, error) {
	t := strings.ToUpper(strings.TrimSpace(s))
	num := strings.TrimRight(t, "FC°º ")
	x, err := strconv.ParseFloat(num, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%q is not a temperature; write it as in \"68 °F\" or \"20 °C\"", s)
	}
	switch unit := strings.TrimSpace(strings.TrimLeft(strings.TrimSpace(t[len(num):]), "°º")); {
	case unit == "C", unit == "" && u == Metric:
	case unit == "F", unit == "":
		x = (x - 32) / 1.8 // exact by definition of the degree Fahrenheit
	default:
		return 0, fmt.Errorf("%q: unknown unit %q; use °F or °C", s, unit)
	}
	if x < -zeroCelsius {
		return 0, fmt.Errorf("%q is colder than anything", s)
	}
	return FromCelsius(x), nil
}

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
