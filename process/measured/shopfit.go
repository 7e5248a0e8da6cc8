package measured

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"borewright/process/fact"
	"borewright/process/qty"
)

// Force and nose from the cuts of a shop. The spring that is seen of cut i of job j,
// with bar k, is
//
//	y = φⱼ·(B + R/κ) + w_k·B + s·n·(√ρ·gⱼ + √(1−ρ)·eᵢⱼ)
//
// B and R being what bar and spindle give by the model at the depth that was cut, κ the
// stiffness of the nose over what is stated, φⱼ = φ·(1 + τ·uⱼ) the force of the job over what is
// predicted (its metal, its edge), w_k what the bar is out, n the standard deviation of the
// reading as stated, s how many times that it scatters in fact, and ρ the share of its
// variance that all cuts of a job have alike: one setting of the gauge, one hand at the
// cutter, one master. g, e and u are normal with variance 1.
//
// Given κ, ρ, s and τ this is a linear model with known covariance, φ and w are normal and
// the likelihood of the readings is exact. These four are tried on a grid, weighed by that
// likelihood and by what is usual, and the answers mixed: with few jobs what τ, ρ and s may
// be widens the doubt as Student's t does, and bars that are alike leave κ as unknown as it
// was, and φ with it. Nothing is known of φ beforehand.
//
// Source: linear mixed model with a marginal likelihood (Gelman et al., Bayesian Data
// Analysis, ch. 15; from memory). Jobs of one bar and one nose are judged by the t of
// their means (Student 1908) in the tests.
const (
	noseMost  = 2.0 // a nose is this many times as stiff as stated or as soft, 95 %: measured joints lie within a factor of two of each other (from memory)
	forceJobs = 0.1 // standard deviation of the force between jobs of a shop, as likely less as more; common practice, no source
	noseSteps = 31
	toldApart = 0.5 // of what is not known of the nose beforehand: with less left it is told
)

var (
	sharesTried  = []float64{0.1, 0.35, 0.6, 0.85}   // ρ
	scatterTried = []float64{0, 0.4, 0.8, 1.3, 2, 3} // τ, in forceJobs
)

// shopJob is the cuts of one job in units of their noise: sums and products of the columns
// B of each of its bars, R and y.
type shopJob struct {
	n        float64
	bars     []int
	sum      []float64
	products [][]float64

	gram   [][]float64 // the same for one ρ, weighed
	logs   float64
	pp, py float64 // p = B + R/κ for one nose, weighed likewise
	pB     []float64
}

// shop is what is fitted.
type shop struct {
	jobs  []*shopJob
	bars  int
	force float64 // roughly, for the size of what is taken relative to it
	worst float64 // largest s tried
}

func newShop(cuts []ShopCut) *shop {
	type key struct {
		bar      qty.Diameter
		stickout qty.Length
	}
	s := &shop{}
	bars, by := map[key]int{}, map[string][]ShopCut{}
	var order []string
	var py, pp, left float64
	for _, c := range cuts {
		k := key{c.Bar, c.Stickout}
		if _, ok := bars[k]; !ok {
			bars[k] = len(bars)
		}
		if by[c.Job] == nil {
			order = append(order, c.Job)
		}
		by[c.Job] = append(by[c.Job], c)
		p := (c.BarGive + c.RootGive) / c.Noise
		py, pp = py+p*c.Seen.MM()/c.Noise, pp+p*p
	}
	s.bars, s.force = len(bars), math.Max(1/factorMost, py/pp)
	for _, c := range cuts {
		left += math.Pow((c.Seen.MM()-s.force*(c.BarGive+c.RootGive))/c.Noise, 2)
	}
	s.worst = math.Max(2, 2*math.Sqrt(left/float64(len(cuts))))
	for _, name := range order {
		j := &shopJob{n: float64(len(by[name]))}
		for _, c := range by[name] {
			if k := bars[key{c.Bar, c.Stickout}]; !slices.Contains(j.bars, k) {
				j.bars = append(j.bars, k)
			}
		}
		k := len(j.bars)
		j.sum, j.pB = make([]float64, k+2), make([]float64, k)
		for range k + 2 {
			j.products, j.gram = append(j.products, make([]float64, k+2)), append(j.gram, make([]float64, k+2))
		}
		row := make([]float64, k+2)
		for _, c := range by[name] {
			clear(row)
			row[slices.Index(j.bars, bars[key{c.Bar, c.Stickout}])] = c.BarGive / c.Noise
			row[k], row[k+1] = c.RootGive/c.Noise, c.Seen.MM()/c.Noise
			for a, v := range row {
				j.sum[a] += v
				for b, w := range row {
					j.products[a][b] += v * w
				}
			}
		}
		s.jobs = append(s.jobs, j)
	}
	return s
}

// shared weighs a job for a share ρ of common error: the inverse of (1−ρ)·I + ρ·1·1ᵀ is
// (I − ρ/(1−ρ+n·ρ)·1·1ᵀ)/(1−ρ).
func (j *shopJob) shared(rho float64) {
	less := rho / (1 - rho + j.n*rho)
	for a := range j.sum {
		for b := range j.sum {
			j.gram[a][b] = (j.products[a][b] - less*j.sum[a]*j.sum[b]) / (1 - rho)
		}
	}
	j.logs = (j.n-1)*math.Log(1-rho) + math.Log(1-rho+j.n*rho)
}

// nose takes κ in.
func (j *shopJob) nose(kappa float64) {
	k := len(j.bars)
	onP := func(a int) float64 {
		v := j.gram[a][k] / kappa
		for b := range k {
			v += j.gram[a][b]
		}
		return v
	}
	j.py, j.pp = onP(k+1), onP(k)/kappa
	for b := range k {
		j.pB[b] = onP(b)
		j.pp += j.pB[b]
	}
}

// answer is φ and its standard deviation at one place of the grid.
type answer struct {
	nose, force, spread float64 // ln κ, φ and its standard deviation
	mass                float64 // logarithm, then share
}

// at is what the readings say given ρ and κ, which the jobs have taken in, s and τ.
func (s *shop) at(scale, tau float64) (a answer, ok bool) {
	n := s.bars + 1 // w₁ … w_m, φ
	m, r := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	tau *= s.force
	one := 1 / (scale * scale)
	yy, logs := 0.0, 0.0
	for b := range s.bars {
		m.SetSym(b, b, 1/square(s.force*barDoubt/sigmas))
	}
	add := func(i, j int, v float64) { m.SetSym(i, j, m.At(i, j)+v) }
	f := s.bars
	for _, j := range s.jobs {
		less := one * one * tau * tau / (1 + tau*tau*one*j.pp)
		k := len(j.bars)
		add(f, f, one*j.pp-less*j.pp*j.pp)
		r.SetVec(f, r.AtVec(f)+one*j.py-less*j.pp*j.py)
		for i, b := range j.bars {
			add(b, f, one*j.pB[i]-less*j.pp*j.pB[i])
			r.SetVec(b, r.AtVec(b)+one*j.gram[i][k+1]-less*j.pB[i]*j.py)
			for q, d := range j.bars[:i+1] {
				add(b, d, one*j.gram[i][q]-less*j.pB[i]*j.pB[q])
			}
		}
		yy += one*j.gram[k+1][k+1] - less*j.py*j.py
		logs += 2*j.n*math.Log(scale) + j.logs + math.Log1p(tau*tau*one*j.pp)
	}
	var chol mat.Cholesky
	var beta mat.VecDense
	if !chol.Factorize(m) {
		return a, false
	}
	_ = chol.SolveVecTo(&beta, r) // terms of very unlike size are ill-conditioned and still right
	var l mat.TriDense
	chol.LTo(&l)
	a.force, a.spread = beta.AtVec(f), 1/l.At(f, f) // φ is the last: its variance is 1/l²
	a.mass = -(logs + chol.LogDet() + yy - mat.Dot(r, &beta)) / 2
	return a, true
}

// over tries the grid with noses of ln κ from lo to hi, and gives the answers with their
// shares.
func (s *shop) over(lo, hi float64, n int) []answer {
	var all []answer
	best := math.Inf(-1)
	prior := math.Log(noseMost) / sigmas
	scales := []float64{1}
	for v := 1.4; v <= s.worst; v *= 1.4 {
		scales = append(scales, v)
	}
	for _, rho := range sharesTried {
		for _, j := range s.jobs {
			j.shared(rho)
		}
		for i := range n {
			x := lo
			if n > 1 {
				x += (hi - lo) * float64(i) / float64(n-1)
			}
			for _, j := range s.jobs {
				j.nose(math.Exp(x))
			}
			for _, scale := range scales {
				for _, t := range scatterTried {
					a, ok := s.at(scale, t*forceJobs)
					if !ok {
						continue
					}
					// Half a normal law of τ, its grid wider further out; of s the higher the less.
					a.nose, a.mass = x, a.mass-square(x/prior)/2-square(t)/2+math.Log(0.3+0.3*t)-2*math.Log(scale)
					best = math.Max(best, a.mass)
					all = append(all, a)
				}
			}
		}
	}
	var sum float64
	all = slices.DeleteFunc(all, func(a answer) bool { return a.mass < best-15 }) // e⁻¹⁵: nobody sees it
	for i := range all {
		all[i].mass = math.Exp(all[i].mass - best)
		sum += all[i].mass
	}
	for i := range all {
		all[i].mass /= sum
	}
	return all
}

func square(x float64) float64 { return x * x }

// noseOf is the mean of ln κ and its standard deviation.
func noseOf(all []answer) (mean, spread float64) {
	for _, a := range all {
		mean += a.mass * a.nose
	}
	for _, a := range all {
		spread += a.mass * square(a.nose-mean)
	}
	return mean, math.Sqrt(spread)
}

// forceWithin is what φ stays below with a chance.
func forceWithin(all []answer, chance float64) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, a := range all {
		lo, hi = math.Min(lo, a.force-6*a.spread), math.Max(hi, a.force+6*a.spread)
	}
	for range 40 {
		mid, below := (lo+hi)/2, 0.0
		for _, a := range all {
			below += a.mass * distuv.UnitNormal.CDF((mid-a.force)/a.spread)
		}
		if below < chance {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// noseWithin is what κ stays below with a chance.
func noseWithin(all []answer, chance float64) float64 {
	at := map[float64]float64{}
	for _, a := range all {
		at[a.nose] += a.mass
	}
	var xs []float64
	for x := range at {
		xs = append(xs, x)
	}
	sort.Float64s(xs)
	below, step := 0.0, xs[1]-xs[0]
	for _, x := range xs {
		next := below + at[x]
		if next >= chance {
			return math.Exp(x + step*((chance-below)/at[x]-0.5)) // the mass of a step lies evenly in it
		}
		below = next
	}
	return math.Exp(xs[len(xs)-1])
}

// fit fits force and nose to the cuts.
func (f *ShopFit) fit(cuts []ShopCut) {
	s := newShop(cuts)
	before := math.Log(noseMost) / sigmas
	lo, hi := -3*before, 3*before
	var all []answer
	var spread float64
	for range 4 { // nearer, until the steps show the shape
		var mean float64
		all = s.over(lo, hi, noseSteps)
		mean, spread = noseOf(all)
		step := (hi - lo) / (noseSteps - 1)
		if spread > 2*step {
			break
		}
		wide := 5 * math.Max(spread, step/2)
		lo, hi = math.Max(-3*before, mean-wide), math.Min(3*before, mean+wide)
	}
	stated := s.over(0, 0, 1) // with the nose as stated
	f.Root, f.Force = 1, forceWithin(stated, 0.5)
	f.ForceIfStated = [2]float64{forceWithin(stated, 0.025), forceWithin(stated, 0.975)}
	if f.Apart = spread <= toldApart*before; f.Apart {
		f.Root, f.Force = noseWithin(all, 0.5), forceWithin(all, 0.5)
	} else {
		f.Why = fact.New(TooAlike)
		if len(cuts) < 3 {
			f.Why = fact.New(TooFewCuts, fact.Count(len(cuts)))
		}
	}
	f.ForceWithin = [2]float64{forceWithin(all, 0.025), forceWithin(all, 0.975)}
	f.RootWithin = [2]float64{noseWithin(all, 0.025), noseWithin(all, 0.975)}
	for _, c := range cuts {
		f.Misfit += square((c.Seen.MM()-f.Force*(c.BarGive+c.RootGive/f.Root))/c.Noise) / float64(len(cuts))
	}
	f.Misfit = math.Sqrt(f.Misfit)
}
