// Package joining says what heat and cold do while a sleeve is put in: how far a part
// shrinks in a bath, what a bore gets of the heat around it, and how long the parts have.
// Lengths are mm, temperatures °C, times s.
package joining

// Metal is a family of metals that shrink alike.
type Metal int

// The families.
const (
	Steel     Metal = iota // plain and alloy steel, and iron, which shrinks as steel within 2 %
	Stainless              // austenitic
	Copper                 // bronze, brass
	Aluminum
)

// kelvins are where the curves stand: from the boiling point of nitrogen to 20 °C.
var kelvins = [...]float64{77.35, 80, 100, 120, 140, 160, 180, 200, 220, 240, 260, 280, 293}

// curve is the contraction from 293 K, mm for each m, and the expansion from 20 to 100 °C
// of the metal that it was taken of, 1/K: other metals of the family shrink by theirs.
type curve struct {
	alpha   float64
	shrinks [len(kelvins)]float64
}

// Sources: steel, SAE 1020, the table of NBS Monograph 29 as printed in the selected
// cryogenic data of Brookhaven (one source; cast iron on the same page lies within 0.03).
// Stainless 304 and aluminum 6061: cryogenic polynomials of NIST, from memory, which give
// 0 at 293 K. Bronze: no table was found; beryllium copper by NIST, from memory, times
// 1.075, so that it comes to the 3.2 of tin bronze in nitrogen: an estimate, good to 3 %.
var curves = [...]curve{
	Steel:     {12e-6, [...]float64{1.93, 1.92, 1.82, 1.70, 1.55, 1.38, 1.20, 1.01, 0.807, 0.596, 0.377, 0.151, 0}},
	Stainless: {17e-6, [...]float64{2.797, 2.778, 2.613, 2.414, 2.187, 1.938, 1.672, 1.392, 1.102, 0.806, 0.504, 0.199, 0}},
	Copper:    {18e-6, [...]float64{3.193, 3.172, 2.988, 2.766, 2.515, 2.238, 1.942, 1.629, 1.302, 0.963, 0.611, 0.245, 0}},
	Aluminum:  {23.6e-6, [...]float64{3.884, 3.860, 3.654, 3.402, 3.108, 2.777, 2.415, 2.026, 1.614, 1.185, 0.744, 0.294, 0}},
}

// Shrinks is how much a part loses for each mm from 20 °C to t °C, of a metal whose
// expansion from 20 to 100 °C is alpha, 1/K; negative above 20 °C, where it grows by alpha.
// Expansion falls with the temperature: alpha times the difference would overstate steel in
// nitrogen by a third.
func (m Metal) Shrinks(alpha, t float64) float64 {
	if t >= 20 {
		return -alpha * (t - 20)
	}
	c := curves[m]
	k := max(t+273, kelvins[0]) // the curves begin at 293 K
	for i := 1; i < len(kelvins); i++ {
		if k <= kelvins[i] {
			share := (k - kelvins[i-1]) / (kelvins[i] - kelvins[i-1])
			return (c.shrinks[i-1] + share*(c.shrinks[i]-c.shrinks[i-1])) / 1000 * alpha / c.alpha
		}
	}
	return 0
}
