package geom

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Outlying is a reading that does not go with the others of its section or
// sweep.
type Outlying struct {
	Index    int
	Expected float64 // what the others suggest at its clock position, mm: a radius, or as Sweep.Dial
}

// Dials and inside micrometers on a rough old bore repeat to a few hundredths
// at best: nothing nearer than this is called doubtful.
const doubtFloor = 0.005 // mm, common practice, no source

// Doubtful finds readings that stand out from a smooth worn bore: mean radius
// plus offset and, with nine places or more, plus oval. The curve is laid
// through by least absolute deviations, which one or two bad readings cannot
// pull; the scatter is the median absolute residual without the p that the
// curve passes through, divided by 0.6745 so that it estimates the standard
// deviation of normal scatter (Huber, Robust Statistics; from memory). Under
// six places there is not enough left over to judge, and nothing is flagged.
//
// A deep narrow score looks the same as a slip of the pen: the reading is for
// a person to take again, never dropped.
func Doubtful(ps []Point) []Outlying {
	if _, err := places(ps, 6); err != nil {
		return nil
	}
	terms := 3
	if len(ps) >= 9 {
		terms = 5
	}
	fit, ok := smooth(ps, terms)
	if !ok {
		return nil
	}
	res, abs := make([]float64, len(ps)), make([]float64, len(ps))
	for i, p := range ps {
		res[i] = p.Radius - fit.at(p.Clock)
		abs[i] = math.Abs(res[i])
	}
	slices.Sort(abs)
	abs = abs[terms:]
	free := float64(len(abs))
	scale := median(abs) / 0.6745
	// With little left over the scatter itself is uncertain, so the step asked
	// for is longer: chosen by trial so that one or two clean sets in a hundred
	// raise a flag.
	limit := math.Max(doubtFloor, (4+12/(free-1))*scale)
	var out []Outlying
	for i, e := range res {
		if math.Abs(e) > limit {
			out = append(out, Outlying{i, fit.at(ps[i].Clock)})
		}
	}
	return out
}

func median(sorted []float64) float64 {
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// harmonics is one row of the model: 1, sin, cos, sin 2, cos 2, …
func harmonics(clock float64, terms int) []float64 {
	row := []float64{1}
	for k := 1; len(row) < terms; k++ {
		v := AtClock(float64(k) * clock)
		row = append(row, v.X, v.Y)
	}
	return row[:terms]
}

// curve is a mean radius with harmonics on it.
type curve struct {
	terms int
	mean  float64
	beta  mat.VecDense // about the mean
}

func (c *curve) at(clock float64) float64 {
	r := c.mean
	for j, v := range harmonics(clock, c.terms) {
		r += v * c.beta.AtVec(j)
	}
	return r
}

// smooth lays a curve of so many harmonic terms through readings by least
// absolute deviations (reweighted least squares). False when the places cannot
// tell the terms apart.
func smooth(ps []Point, terms int) (*curve, bool) {
	weights := equally(ps)
	c, ok := weighed(ps, terms, weights)
	before := math.Inf(1)
	for range 60 {
		if !ok {
			return nil, false
		}
		var sum float64
		for i, p := range ps {
			e := math.Abs(p.Radius - c.at(p.Clock))
			sum += e
			weights[i] = 1 / math.Max(e, 1e-6) // a nanometre: nearer is as good
		}
		if before-sum <= 1e-4*sum {
			break
		}
		before = sum
		c, ok = weighed(ps, terms, weights)
	}
	return c, ok
}

func equally(ps []Point) []float64 { return slices.Repeat([]float64{1}, len(ps)) }

// weighed solves the weighted least squares by its normal equations, which are
// well behaved once the mean radius is taken off.
func weighed(ps []Point, terms int, weights []float64) (*curve, bool) {
	c := &curve{terms: terms}
	for _, p := range ps {
		c.mean += p.Radius / float64(len(ps))
	}
	a := mat.NewSymDense(terms, nil)
	y := mat.NewVecDense(terms, nil)
	for i, p := range ps {
		row := harmonics(p.Clock, terms)
		for j, v := range row {
			y.SetVec(j, y.AtVec(j)+weights[i]*v*(p.Radius-c.mean))
			for k := range j + 1 {
				a.SetSym(j, k, a.At(j, k)+weights[i]*v*row[k])
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(a) || chol.Cond() > 1e12 {
		return nil, false
	}
	if err := chol.SolveVecTo(&c.beta, y); err != nil {
		return nil, false
	}
	return c, true
}
