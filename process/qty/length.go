// Package qty holds the quantities of a boring job as types, so that inch and
// mm cannot mix: lengths are whole nanometres, and diameters are a type of
// their own. Forces, powers and speeds are float64 in one fixed unit each.
//
// Values are converted once when a file is loaded and once when a page is
// printed. In between there is no unit but the one the type names.
//
// A Figure is a number with its kind of quantity. The kinds, with the unit and
// the rounding that each has in either system, stand in one table (kinds.go);
// Unit.Say prints any of them, and nothing else in the program rounds a figure
// for print.
package qty

import "math"

// Length is a distance in whole nanometres. One inch is 25 400 000 nm and
// 0.0001 in is 2 540 nm, both exact, so sums of printed values stay exact in
// either system. The range is about ±9 000 km; FromMM clamps beyond it.
type Length int64

// Units of length, all exact (international inch: ISO 80000-3, 25.4 mm).
const (
	Nanometre  Length = 1
	Micrometre Length = 1000
	Millimetre Length = 1_000_000
	Metre      Length = 1_000_000_000
	Thou       Length = 25_400
	Inch       Length = 25_400_000
)

// FromMM rounds a float of millimetres to the nearest nanometre, halves away
// from zero.
func FromMM(mm float64) Length { return round(mm * 1e6) }

// FromInches rounds a float of inches to the nearest nanometre.
func FromInches(in float64) Length { return round(in * 25.4e6) }

// FromMicroInches rounds a float of microinches (roughness) to the nearest
// nanometre.
func FromMicroInches(uin float64) Length { return round(uin * 25.4) }

func round(nm float64) Length {
	switch {
	case nm >= math.MaxInt64:
		return math.MaxInt64
	case nm <= math.MinInt64:
		return math.MinInt64
	case math.IsNaN(nm):
		return 0
	}
	return Length(math.Round(nm))
}

// MM gives the length in millimetres, for physics.
func (l Length) MM() float64 { return float64(l) / 1e6 }

// Inches gives the length in inches.
func (l Length) Inches() float64 { return float64(l) / 25.4e6 }

// Microns gives the length in micrometres.
func (l Length) Microns() float64 { return float64(l) / 1e3 }

// MicroInches gives the length in microinches.
func (l Length) MicroInches() float64 { return float64(l) / 25.4 }

// Abs is the length without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// Diameter is a diameter. Jobs, plans and sheets speak diameters; radius lives
// in geom, cut and bar.
type Diameter Length

// DiameterMM rounds a float of millimetres to a diameter.
func DiameterMM(mm float64) Diameter { return Diameter(FromMM(mm)) }

// FromRadius is the diameter of a circle of radius r.
func FromRadius(r Length) Diameter { return Diameter(2 * r) }

// Radius is half the diameter. An odd nanometre is lost, which is exact enough
// for anything but equality.
func (d Diameter) Radius() Length { return Length(d) / 2 }

// Length is the diameter as a plain distance across.
func (d Diameter) Length() Length { return Length(d) }

// MM gives the diameter in millimetres.
func (d Diameter) MM() float64 { return Length(d).MM() }

// Plus is the diameter opened by a distance on diameter.
func (d Diameter) Plus(onDiameter Length) Diameter { return d + Diameter(onDiameter) }

// Minus is the distance on diameter from e up to d.
func (d Diameter) Minus(e Diameter) Length { return Length(d - e) }
