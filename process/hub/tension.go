package hub

import (
	"math"
	"math/cmplx"
)

// Case is one shape that a hub may have: the even ring whose contact pressure it
// has at most, and the highest tension over that pressure, in the bore or on the
// outside face.
type Case struct {
	Outside float64 // mm, of the even ring that gives the pressure
	Tension float64 // over the pressure, –
}

// eyeShare is how much more than a ring of its crown's wall an eye on a straight
// shank carries at most: 1.08 to 1.25 in six cases by finite elements (the tests
// have them).
const eyeShare = 1.3

// Cases are what a hub can be, whose bore of radius r, mm, has metal between thin
// and thick around it: a bore out of the middle of a round hub, a round hub with a
// flat, an eye on a shank. One case where the wall is even. round says that it is
// known to be a bore out of the middle.
func Cases(r, thin, thick float64, round bool) []Case {
	even := Case{Outside: 2 * (r + thin), Tension: ring(r, r+thin)}
	if !(thin > 0 && thick > thin) || math.IsInf(thick, 0) {
		return []Case{even}
	}
	b := r + (thin+thick)/2
	out := []Case{even, {Outside: 2 * b, Tension: Eccentric(r, b, (thick-thin)/2)}}
	if round {
		return out
	}
	// A flat that takes next to nothing off a ring does next to nothing to it, so
	// neither can be worse than the ring by more than the walls differ.
	most := thick / thin
	return append(out,
		Case{Outside: 2 * (r + thick), Tension: min(Flat(r, r+thin), most*even.Tension)},
		Case{Outside: even.Outside, Tension: min(eyeShare, most) * even.Tension})
}

// ring is the tension over pressure in the bore of an even ring.
//
//	σ/p = (b² + a²)/(b² − a²)
//
// Source: Lamé.
func ring(a, b float64) float64 { return (b*b + a*a) / (b*b - a*a) }

// Flat is the highest tension over pressure near a flat at distance f from the
// axis of a bore of radius a, in a hub that goes on without edge elsewhere.
//
//	on the flat:  σ/p = 4a²/(f² − a²)
//	in the bore:  σ/p = (f² + a²)/(f² − a²)
//
// Source: the eccentric ring (Eccentric) with its outside gone straight; Jeffery,
// Phil. Trans. R. Soc. A 221 (1921), a hole under pressure near a straight edge,
// from memory.
func Flat(a, f float64) float64 {
	return max(4*a*a, f*f+a*a) / (f*f - a*a)
}

// Eccentric is the highest tension over pressure in a round hub of radius b with a
// bore of radius a whose centres lie e apart, e < b − a. With
//
//	x₀ = (b² − a² − e²)/(2e),  c = √(x₀² − a²),  α₁ = asinh(c/a),  α₂ = asinh(c/b)
//	D = sinh²α₁ + sinh²α₂,  K = coth(α₁ − α₂)
//	in the bore:     σ/p = −1 + 2(cosh α₁ − cos β)(K sinh α₁ + cos β)/D
//	on the outside:  σ/p = 2(cosh α₂ − cos β)(K sinh α₂ − cos β)/D
//
// β runs from 0 at the thick side to π at the thin one. Both are looked through in
// single degrees of the clock, as the highest need not be at the thinnest wall.
// Source: Jeffery, as above; Timoshenko and Goodier, Theory of Elasticity, bipolar
// coordinates; from memory, checked by finite elements.
func Eccentric(a, b, e float64) float64 {
	if e < 1e-6*a {
		return ring(a, b)
	}
	x0 := (b*b - a*a - e*e) / (2 * e)
	c := math.Sqrt(x0*x0 - a*a)
	a1, a2 := math.Asinh(c/a), math.Asinh(c/b)
	d := math.Pow(math.Sinh(a1), 2) + math.Pow(math.Sinh(a2), 2)
	k := 1 / math.Tanh(a1-a2)
	var most float64
	for t := 0.0; t <= 180; t++ {
		sin, cos := math.Sincos(t * math.Pi / 180)
		at := complex(x0-a*cos, a*sin)
		beta := math.Cos(imag(cmplx.Log((at + complex(c, 0)) / (at - complex(c, 0)))))
		bore := -1 + 2*(math.Cosh(a1)-beta)*(math.Sinh(a1)*k+beta)/d
		outside := 2 * (math.Cosh(a2) - cos) * (math.Sinh(a2)*k - cos) / d // cos β itself: it runs through the same values
		most = max(most, bore, outside)
	}
	return most
}

// Shares of p·r²/(E·thin) that a bore under pressure is out of round by at most,
// where the wall's thick side is one thin wall thicker; more unequal walls do more.
// Set, on the safe side, by eleven hubs with a steel sleeve by finite elements; twelve with
// a bronze one and nine free rings stay within them (they were known when these were set).
const (
	roundShare = 0.12 // a bore out of the middle: for each thin wall that the thick one is more
	flatShare  = 2.25 // flats and eyes: no more than this
)

// OutOfRound is how far out of round a bore of radius r comes under a contact
// pressure p, peak to valley on the radius, mm; e is the hub's modulus of
// elasticity, in the unit of p. It stands largest across the thin side of a flat or
// of a bore out of the middle, smallest across the shank of an eye.
func OutOfRound(p, e, r, thin, thick float64, round bool) float64 {
	if !(thin > 0 && thick > thin) {
		return 0
	}
	more := thick/thin - 1
	share := flatShare * min(1, more)
	if round {
		share = roundShare * more
	}
	return share * p * r * r / (e * thin)
}
