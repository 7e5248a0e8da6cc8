package feature

import "math"

// What a hole or a groove does to the hoop stress of a pressed ring. Each factor is over
// the stress of the plain ring at the same face; the tests hold it against rings by
// finite elements.

// HoleFactor is the factor at the edge of a small round hole square to a one-way stress.
//
//	K = 3
//
// Source: Kirsch, 1898. A radial hole in a hub meets hoop tension alone (the ends are
// free): 2.7 to 3.0 by finite elements.
const HoleFactor = 3.0

// ThinHoleFactor is that in a thin sleeve under pressure from outside, where the ring's
// curvature and the metal that is missing add to Kirsch's 3: 3.04 to 3.36 by finite
// elements of walls of 5 and 7 mm on Ø100, holes of 6 and 10 mm.
const ThinHoleFactor = 3.4

// overInglis is how much the elements of a pressed ring lie over Inglis's figure: up to
// 12 % in fourteen grooves.
const overInglis = 1.12

// GrooveFactor is the factor at the bottom of a groove along the ring, w wide and h deep,
// with the round bottom that an arc through its edges has.
//
//	K = 1.12 (1 + 2√(h/ρ))    ρ = (w²/4 + h²)/(2h), or w/2 where it is deeper than half round
//
// Source: Inglis, 1913; the 1.12 by finite elements of grooves in hub and sleeve.
func GrooveFactor(w, h float64) float64 {
	rho := (w*w/4 + h*h) / (2 * h)
	if h > w/2 {
		rho = w / 2
	}
	return overInglis * (1 + 2*math.Sqrt(h/rho))
}

// PinFactor is that of the half-round hole that a pin across the joint leaves in hub and
// sleeve: a groove as deep as half its width.
func PinFactor() float64 { return GrooveFactor(2, 1) }

// BehindGroove is how much higher the hub's tension is behind a groove along the bore of
// a sleeve with wall t, h deep: the thin place gives, and its edges press harder.
//
//	K = 1 + 0.6 h/t
//
// Fitted to four sleeves by finite elements (1.16 to 1.34), within 2 %.
func BehindGroove(h, t float64) float64 { return 1 + 0.6*h/t }

// Netted is how much the mean stress of a section of wall t and length l rises where
// metal is missing, h deep and b long: the same force over less section.
//
//	K = t l/(t l − h b)
func Netted(t, l, h, b float64) float64 { return t * l / math.Max(t*l-h*b, t*l/10) }

// Sensitive is the part of a stress raised by a notch that a material feels.
//
//	K_f = 1 + q (K − 1)
//
// q is 0.2 for grey iron, which is full of graphite flakes, notches worse than any that
// are cut in it, and 1 for any other brittle metal. Source: Peterson's notch
// sensitivity; 0.2 for all cast irons, Shigley, 8th ed., section 6-10, from memory.
func Sensitive(k float64, greyIron bool) float64 {
	if greyIron {
		return 1 + 0.2*(k-1)
	}
	return k
}

// Ringed is how much higher the hoop stress of a ring under pressure from outside is where
// a groove runs round its bore, b wide and h deep. The groove runs with the stress and is
// no notch; it takes section away, and the full wall on both sides bears its share as far
// as a disturbance reaches along a thin cylinder, 1/β. It is never more than Thinned.
//
//	K = t ℓ/(t ℓ − h b)    ℓ = b + 2/β    1/β = √(R t) / (3(1 − ν²))^¼
//
// t the wall, R its middle radius; ν = 0.3. Source: edge bending of a cylindrical shell,
// Timoshenko and Woinowsky-Krieger, chapter 15, from memory.
func Ringed(outside, bore, b, h float64) float64 {
	t, middle := (outside-bore)/2, (outside+bore)/4
	long := b + 2*math.Sqrt(middle*t)/math.Pow(3*(1-0.3*0.3), 0.25)
	return math.Min(t*long/(t*long-h*b), Thinned(outside, bore, h))
}

// Thinned is how much higher the hoop stress at the bore of a ring under pressure from
// outside is where a groove runs round it, h deep: Lamé's ring with its bore at the
// bottom of the groove, under the same pressure.
//
//	K = (D² − d²)/(D² − (d + 2h)²)
func Thinned(outside, bore, h float64) float64 {
	at := bore + 2*h
	return (outside*outside - bore*bore) / (outside*outside - at*at)
}
