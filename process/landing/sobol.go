package landing

import (
	"math/bits"
	"math/rand/v2"
)

// A Sobol sequence fills a cube evenly: of its first 2^m points each box of volume
// 2^(t−m), cut off at whole halves, quarters, eighths of the sides, holds just 2^t.
// In the first two dimensions t is 0, and one more by degree − 1 for each
// polynomial after them. A mean over such points goes wrong by far less than one
// over as many drawn at random, where what is averaged is smooth.
//
// I. M. Sobol', USSR Comput. Math. Math. Phys. 7 (1967) 86–112.

// primitive has of each dimension from the second on a primitive polynomial over
// {0, 1}, its coefficients but for the first and the last as the bits of a, and the
// numbers m that its directions begin with: as many as its degree. From the table
// new-joe-kuo-6 of S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008) 2635–2654.
var primitive = [...]struct {
	a uint32
	m []uint32
}{
	{0, []uint32{1}},
	{1, []uint32{1, 3}},
	{1, []uint32{1, 3, 1}},
	{2, []uint32{1, 1, 1}},
	{1, []uint32{1, 1, 3, 3}},
	{4, []uint32{1, 3, 5, 13}},
	{2, []uint32{1, 1, 5, 5, 17}},
	{4, []uint32{1, 1, 5, 5, 5}},
	{7, []uint32{1, 1, 7, 11, 19}},
	{11, []uint32{1, 1, 5, 1, 1}},
	{13, []uint32{1, 1, 1, 3, 11}},
	{14, []uint32{1, 3, 5, 5, 31}},
	{1, []uint32{1, 3, 3, 9, 7, 49}},
	{13, []uint32{1, 1, 1, 15, 21, 21}},
	{16, []uint32{1, 3, 1, 13, 27, 49}},
	{19, []uint32{1, 1, 1, 15, 7, 5}},
	{22, []uint32{1, 3, 1, 15, 13, 25}},
	{25, []uint32{1, 1, 5, 5, 19, 61}},
	{1, []uint32{1, 3, 7, 11, 23, 15, 103}},
	{4, []uint32{1, 3, 7, 13, 13, 15, 69}},
	{7, []uint32{1, 1, 3, 13, 7, 35, 63}},
	{8, []uint32{1, 3, 5, 9, 1, 25, 53}},
	{14, []uint32{1, 3, 1, 13, 9, 35, 107}},
	{19, []uint32{1, 3, 1, 5, 27, 61, 31}},
	{21, []uint32{1, 1, 5, 11, 19, 41, 61}},
	{28, []uint32{1, 3, 5, 3, 3, 13, 69}},
	{31, []uint32{1, 1, 7, 13, 1, 19, 1}},
	{32, []uint32{1, 3, 7, 5, 13, 19, 59}},
	{37, []uint32{1, 1, 3, 9, 25, 29, 41}},
	{41, []uint32{1, 3, 5, 13, 23, 1, 55}},
	{42, []uint32{1, 3, 7, 3, 13, 59, 17}},
}

// lengthLog is m: a net has 2^m points.
const lengthLog = 8

// directions of one dimension: direction i is what bit i of a point's number adds,
// without carry, to the point's place; 2^32 is 1.
type directions [lengthLog]uint32

// sobol is the directions of a dimension, the first is 0:
//
//	v_i = v_{i−s}/2^s ⊕ v_{i−s} ⊕ a_1·v_{i−1} ⊕ … ⊕ a_{s−1}·v_{i−s+1}
//
// with the polynomial x^s + a_1·x^(s−1) + … + 1 and v_i = m_i/2^i for the first s. A
// dimension beyond the table has none.
func sobol(dimension int) (v directions) {
	if dimension > len(primitive) {
		return v
	}
	var a uint32
	var first []uint32
	if dimension > 0 {
		a, first = primitive[dimension-1].a, primitive[dimension-1].m
	}
	s := len(first)
	for i := range v {
		switch {
		case s == 0:
			v[i] = 1 << (31 - i)
		case i < s:
			v[i] = first[i] << (31 - i)
		default:
			v[i] = v[i-s] ^ v[i-s]>>s
			for k := 1; k < s; k++ {
				v[i] ^= v[i-k] * (a >> (s - 1 - k) & 1)
			}
		}
	}
	return v
}

// net is a scrambled net, one point at a time.
type net struct {
	directions []directions
	at         []uint32
	next       uint32
	rng        *rand.Rand
}

// newNet scrambles the first 2^m points: every digit of a place is a random sum of the digits
// up to it, itself always among them, and a random digit. What holds of boxes goes
// on to hold, and each point by itself is evenly spread: a mean over
// the net is free of bias, and nets scrambled anew say how far it is off.
//
// J. Matoušek, J. Complexity 14 (1998) 527–556; H. S. Hong and F. J. Hickernell,
// ACM Trans. Math. Softw. 29 (2003) 95–109.
func newNet(of []directions, rng *rand.Rand) *net {
	n := &net{directions: make([]directions, len(of)), at: make([]uint32, len(of)), rng: rng}
	for j, plain := range of {
		for digit := range 32 {
			own := uint32(1) << (31 - digit)
			sum := rng.Uint32()&^(own<<1-1) | own
			if digit == 0 {
				sum = own
			}
			for i, v := range plain {
				n.directions[j][i] |= uint32(bits.OnesCount32(v&sum)&1) << (31 - digit)
			}
		}
		n.at[j] = rng.Uint32()
	}
	return n
}

// point puts the next point into u, each place above 0 and below 1. Points come in the
// order of a Gray code, so that one direction changes at a time (I. A. Antonov and
// V. M. Saleev, USSR Comput. Math. Math. Phys. 19 (1979) 252–256). Dimensions beyond the table are drawn at random.
func (n *net) point(u []float64) {
	if n.next > 0 {
		bit := bits.TrailingZeros32(n.next)
		for j := range n.at {
			n.at[j] ^= n.directions[j][bit]
		}
	}
	n.next++
	for j, at := range n.at {
		u[j] = (float64(at) + 0.5) / (1 << 32)
	}
	for j := len(primitive) + 1; j < len(u); j++ {
		u[j] = (float64(n.rng.Uint32()) + 0.5) / (1 << 32)
	}
}
