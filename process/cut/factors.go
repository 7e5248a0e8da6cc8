package cut

import "math"

// boringFactor is for the chip of an inside cut, which is squeezed more than
// that of outside turning: 1.2 (outside turning 1.0; inside turning, drilling
// and milling 1.2).
// Source: Tschätsch, Praxis der Zerspantechnik, correction for the process;
// from memory.
const boringFactor = 1.2

// SpeedFactor corrects force for cutting speed v, m/min:
//
//	K_v = (100/v)^0.1
//
// held at 1 above 100 m/min (the data were taken at 80–250) and at 1.15 below
// 25 m/min, where a built-up edge makes any figure doubtful.
// Source: Tschätsch, Praxis der Zerspantechnik: about 1.15 at 30–50 m/min and
// 1.0 at 80–250; from memory. A speed that is not above 0 counts as slow.
func SpeedFactor(v float64) float64 {
	switch {
	case v >= 100:
		return 1
	case v > 25:
		return math.Exp(-0.1 * math.Log(v/100))
	}
	return slowest
}

// slowest is (100/25)^0.1.
const slowest = 1.148698354997035

// RakeFactor corrects cutting force for rake γ against the rake γ0 of the
// data, degrees:
//
//	K_γ = 1 − 1.5·(γ − γ0)/100
//
// between 0.6 and 1.5. Source: the rule of 1.5 % a degree, Dietrich/Tschätsch,
// Praxis der Zerspantechnik; from memory (books print 1 to 2 %).
func RakeFactor(rake, rake0 float64) float64 {
	return min(max(1-0.015*(rake-rake0), 0.6), 1.5)
}

// RakeThrust corrects thrust for rake, degrees: 4 % a degree, between 0.5 and
// 2, of which RakeFactor has taken its share. The result is for use beside
// RakeFactor, not instead of it.
// Source: the rule of thumb that each degree changes cutting force by 1.5 %,
// passive force by 4 % and feed force by 5 % (König/Klocke,
// Fertigungsverfahren 1); from memory. The lower figure of the two is taken
// for the whole thrust.
func RakeThrust(rake, rake0 float64) float64 {
	return min(max(1-0.04*(rake-rake0), 0.5), 2) / RakeFactor(rake, rake0)
}
