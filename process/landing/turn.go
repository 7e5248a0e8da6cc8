package landing

import (
	"math"
	"slices"
)

// turned says which causes a point of a net draws. The first dimensions of a net
// are its most even, and a mean is the surer the fewer of them it hangs on.
// Normal draws may be turned about 0 like a ball: so that the first one moves the size
// along its steepest way, all causes together, the second along what the steepest way of
// the size without measuring has besides, and so on. The error of the last setting is the last.
// Whether a way out rubs moves the size by a step: no draw, both are cut.
//
// After J. Imai and K. S. Tan, J. Comput. Finance 10 (2006) 129–155.
type turned struct {
	causes  []int       // of the draws that are turned
	mirrors [][]float64 // by which they are, the last one first
	rubs    []float64   // the draws for whether a way out rubs
}

// turn takes in turn the ways along which the draws are to move the sizes: what one σ of each cause moves.
func (h *Trial) turn(ways ...[]float64) turned {
	var t turned
	last := causeEach + 3*h.lastSet()
	for i := range h.causes() {
		moves := slices.ContainsFunc(ways, func(way []float64) bool { return way[i] != 0 })
		if i != causeRub && i != last && moves {
			t.causes = append(t.causes, i)
		}
	}
	if t.rubs = []float64{1}; slices.ContainsFunc(h.Passes, func(p Pass) bool { return p.Out != nil }) {
		t.rubs = []float64{1, -1}
	}
	for i, way := range ways {
		v := make([]float64, len(t.causes))
		for j, cause := range t.causes {
			v[j] = way[cause]
		}
		for _, m := range t.mirrors {
			reflect(m, v)
		}
		t.mirrors = append(t.mirrors, mirror(v, i))
	}
	return t
}

// draws is how many numbers a point has.
func (t *turned) draws() int { return len(t.causes) + 1 }

// into turns standard normal draws, which are lost, into what each cause draws.
func (t *turned) into(z, draws []float64) {
	draws = draws[:len(t.causes)]
	for i := len(t.mirrors) - 1; i >= 0; i-- {
		reflect(t.mirrors[i], draws)
	}
	for i, cause := range t.causes {
		z[cause] = draws[i]
	}
}

// mirror is a vector of length √2 across the mirror that turns the direction of v,
// seen from dimension i on, into that of i and back (Householder); nothing where v has no length.
func mirror(v []float64, i int) []float64 {
	w := make([]float64, len(v))
	if i >= len(v) {
		return w
	}
	copy(w[i:], v[i:])
	long := norm(w)
	if long == 0 {
		return w
	}
	w[i] += math.Copysign(long, w[i])
	scale := math.Sqrt2 / norm(w)
	for j := range w {
		w[j] *= scale
	}
	return w
}

// reflect sees v in a mirror.
func reflect(mirror, v []float64) {
	along := 0.0
	for i, m := range mirror {
		along += m * v[i]
	}
	for i, m := range mirror {
		v[i] -= along * m
	}
}

func norm(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum)
}
