package geom

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// What is allowed of the form of a bore or a face that is swept, where the job does not
// state it. Common practice, no source.
const (
	usualForm   = 0.0015 // mm, height of an oval: half of peak to valley
	formSpread  = 0.9    // of its logarithm: two in three lie between 0.4 and 2.5 times that
	thirdOrder  = 0.5    // height of three lobes, of the oval's
	formTerms   = 7      // 1, offset, oval, three lobes
	asOffset    = 0.5    // so much of a wave taken for an offset is told
	leastOfTurn = 180    // degrees: with as much unswept a sweep is one-sided
)

// believed is what a sweep says of its offset (of a face: of its slope times half its
// diameter), with the covariance xx, xy, yy. An oval and three lobes are not noise: they
// are alike from one clock position to the next, with the covariance
//
//	a²/2·cos 2(θi − θj) + b²/2·cos 3(θi − θj),  b = a/2
//
// beside the reading's own u². Height a and u are not known for sure: a is usualForm
// within formSpread, or as stated and more, u as stated and more, and what the readings
// scatter decides (scatter: about offset alone, one standard deviation). Each pair of a
// grid is weighed by the likelihood of the readings, and the answers are mixed.
// Source: linear mixed model with a marginal likelihood (Gelman et al., Bayesian Data
// Analysis, ch. 15; from memory).
func (s Sweep) believed(y []float64, u, scatter float64) (Vec, [3]float64) {
	n := float64(len(y))
	var mean, yy float64
	for _, v := range y {
		mean += v / n
	}
	g, b := mat.NewSymDense(formTerms, nil), mat.NewVecDense(formTerms, nil)
	for k, c := range s.Clock {
		row := mat.NewVecDense(formTerms, harmonics(c, formTerms))
		g.SymRankOne(g, 1, row)
		b.AddScaledVec(b, y[k]-mean, row)
		yy += square(y[k] - mean)
	}
	type answer struct {
		at   Vec
		cov  [3]float64
		log  float64
		mass float64
	}
	var all []answer
	best := math.Inf(-1)
	for _, h := range s.heights(scatter) {
		for _, w := range steps(u, math.Max(u, 3*scatter), 5) {
			p := mat.NewSymDense(formTerms, nil)
			p.ScaleSym(1/square(w.at), g)
			var logs float64
			for t := 3; t < formTerms; t++ {
				v := square(h.at) / 2
				if t > 4 {
					v *= thirdOrder * thirdOrder
				}
				p.SetSym(t, t, p.At(t, t)+1/v)
				logs += math.Log(v)
			}
			var chol mat.Cholesky
			var beta mat.VecDense
			var inv mat.SymDense
			if !chol.Factorize(p) {
				continue
			}
			// Terms of very unlike size are ill-conditioned and still right.
			_ = chol.SolveVecTo(&beta, b)
			_ = chol.InverseTo(&inv)
			left := (yy - mat.Dot(b, &beta)/square(w.at)) / square(w.at)
			a := answer{at: Vec{beta.AtVec(1), beta.AtVec(2)}.Times(1 / square(w.at)), cov: [3]float64{inv.At(1, 1), inv.At(1, 2), inv.At(2, 2)}}
			a.log = h.log + w.log - (2*n*math.Log(w.at)+logs+chol.LogDet()+left)/2
			best = math.Max(best, a.log)
			all = append(all, a)
		}
	}
	var at Vec
	var mass float64
	for i, a := range all {
		all[i].mass = math.Exp(a.log - best)
		mass += all[i].mass
		at = at.Plus(a.at.Times(all[i].mass))
	}
	at = at.Times(1 / mass)
	var cov [3]float64
	for _, a := range all {
		off, share := a.at.Minus(at), a.mass/mass
		cov[0] += share * (a.cov[0] + off.X*off.X)
		cov[1] += share * (a.cov[1] + off.X*off.Y)
		cov[2] += share * (a.cov[2] + off.Y*off.Y)
	}
	return at, cov
}

// step is a value with the logarithm of what it weighs beforehand.
type step struct{ at, log float64 }

// steps go from lo to hi in equal ratios; twice lo weighs a quarter.
func steps(lo, hi float64, n int) []step {
	if hi <= lo {
		return []step{{lo, 0}}
	}
	var out []step
	for i := range n {
		r := math.Pow(hi/lo, float64(i)/float64(n-1))
		out = append(out, step{lo * r, -2 * math.Log(r)})
	}
	return out
}

// heights are those of the oval that are tried.
func (s Sweep) heights(scatter float64) []step {
	if a := s.OutOfRound / 2; a > 0 {
		return steps(a, math.Max(a, 3*scatter), 4)
	}
	out := steps(usualForm/4, math.Max(16*usualForm, 4*scatter), 6)
	for i, v := range out { // the normal law, with tails of four degrees of freedom
		out[i].log = -2.5 * math.Log1p(square(math.Log(v.at/usualForm)/formSpread)/4)
	}
	return out
}

// doubted says what the places of a sweep cannot tell: rows of a are (1, sin θ, cos θ).
func (w *Swept) doubted(s Sweep, a *mat.Dense, normal *mat.Cholesky) {
	if from, gap := widestGap(s.Clock); gap >= leastOfTurn-1e-9 {
		w.Unswept = &[2]float64{from, turn(from + gap)}
	}
	var g mat.Dense // what each reading adds to the offset
	if err := normal.SolveTo(&g, a.T()); err != nil {
		return
	}
	for k := 2; k <= 3 && w.AsOffset == 0; k++ {
		var sum [2]Vec // of a wave's sine and cosine
		for i, c := range s.Clock {
			v, add := AtClock(float64(k)*c), Vec{g.At(1, i), g.At(2, i)}
			sum[0], sum[1] = sum[0].Plus(add.Times(v.X)), sum[1].Plus(add.Times(v.Y))
		}
		if worst(square(sum[0].X)+square(sum[1].X), sum[0].X*sum[0].Y+sum[1].X*sum[1].Y, square(sum[0].Y)+square(sum[1].Y)) > asOffset {
			w.AsOffset = k
		}
	}
}
