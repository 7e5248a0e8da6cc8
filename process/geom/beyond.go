package geom

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// Span is a worn bore from end to end, and what is allowed of its form where nothing
// was read. Lengths in mm.
type Span struct {
	From, To float64 // depths of its ends
	Diameter float64
}

// Beyond is how large a worn bore may be where nothing was read: between the readings,
// and from the outermost depths on to both ends.
type Beyond struct {
	// Near and Far are how far the ends lie beyond the outermost depths read, mm.
	// NearUnread and FarUnread: so far that a bell-mouth there may not show.
	Near, Far             float64
	NearUnread, FarUnread bool
	// Lobes is the least number of lobes, 2 to MostLobes, that the readings of no
	// depth show wherever they stand; 0: all are shown.
	Lobes int

	most []float64 // largest radius about the true axis in each trial, rising
}

// MostLobes is how many lobes are allowed for. Wear and jaws make 2, 3 and 5. Common
// practice, no source.
const MostLobes = 5

// LobesHeld is the height on radius, of the diameter, to which lobes that the readings do not
// show stay within what is told in 19 bores of 20, by trial; higher ones do not.
const LobesHeld = 1.25e-3

// What is allowed of form before anything is read; heights are one standard deviation,
// on radius. Common practice, no source.
const (
	usualWear   = 4e-4 // of the diameter: an oval of a worn bore
	wearTrials  = 4.0  // how many readings' worth that figure counts
	shortWave   = 0.12 // of the oval: shorter waves, and the gauge
	mouthReach  = 0.15 // of the length: how deep a bell-mouth reaches
	mouthShown  = 0.1  // of the length: so near to the end two thirds of a mouth and more are read
	mouthHeight = 1.9  // of the usual oval: a round bore may have it as well
	leanUnread  = 1.0  // of the oval, from the middle to an end, where one depth shows no lean
	anything    = 1e3  // of the oval: what the readings alone decide
	trials      = 300
)

// lobe is the height of each number of lobes, of the oval's; one that changes along
// the bore does so by alongBore of it from the middle to an end.
var lobe = [MostLobes + 1]float64{2: 0.8, 3: 0.7, 4: 0.4, 5: 0.7}

const alongBore = 0.4

// Beyond carries the readings to both ends and all round. The wall is
//
//	r(θ, z) = Σ_k Σ_j f_j(z)·(a_kj·cos kθ + b_kj·sin kθ), k = 0 … 5
//
// with f = 1, the depth from the middle over half the length, and a bell-mouth
// exp(−(depth from the end)/(0.15·length)) at either end. Size, place and, from two
// depths on, taper and lean are left to the readings alone; all other terms are normal
// about nought, in fixed ratios of one height σ, itself not known: 1/σ² is gamma
// distributed about the usual wear. Lobes that the readings do not show are allowed
// the usual wear, whatever the readings say of the height (hide). The terms given the
// readings then follow a
// multivariate t-distribution, which is drawn from.
// Source: Bayesian linear regression with a conjugate normal-gamma prior (Gelman et
// al., Bayesian Data Analysis, ch. 14; from memory).
//
// Nil: some readings do not say where the wall stands, or the bore has no length.
func (w *Worn) Beyond(b Span) *Beyond {
	if !(b.To > b.From) || !(b.Diameter > 0) {
		return nil
	}
	for _, d := range w.Depths {
		if d.Open {
			return nil
		}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	radii, shown := false, 0
	off := 0.0
	depths := map[float64]bool{}
	for _, s := range w.sections {
		lo, hi = math.Min(lo, s.Depth), math.Max(hi, s.Depth)
		depths[s.Depth] = true
		radii = radii || !s.Across
		off = math.Max(off, s.Off)
		shown = max(shown, s.shows())
	}
	out := &Beyond{Near: math.Max(0, lo-b.From), Far: math.Max(0, b.To-hi)}
	if shown < MostLobes {
		out.Lobes = max(2, shown+1)
	}
	reach := mouthShown * (b.To - b.From)
	out.NearUnread, out.FarUnread = out.Near > reach, out.Far > reach
	m := wall{span: b, usual: usualWear * b.Diameter}
	m.prior(radii, len(depths) > 1, off)
	if !m.learn(w.sections) {
		return nil
	}
	if shown < MostLobes {
		m.hide(shown)
		if !m.learn(w.sections) {
			return nil
		}
	}
	at := []float64{b.From, (b.From + b.To) / 2, b.To}
	for d := range depths {
		at = append(at, clampTo(d, b.From, b.To))
	}
	slices.Sort(at)
	out.most = m.largest(slices.Compact(at))
	return out
}

// Most is the diameter about the true axis that the bore stays within with a chance.
func (b *Beyond) Most(chance float64) float64 {
	k := int(math.Ceil(chance*float64(len(b.most)))) - 1
	return 2 * b.most[min(max(k, 0), len(b.most)-1)]
}

// Clean is the chance that a bore of a diameter about the true axis leaves nothing of
// the old wall.
func (b *Beyond) Clean(diameter float64) float64 {
	k, _ := slices.BinarySearch(b.most, diameter/2)
	return float64(k) / float64(len(b.most))
}

// shows is up to how many lobes the readings of a section show, wherever these stand.
func (s Section) shows() int {
	if s.Across {
		return min(2, s.rank()-1) // diameters show no odd number of lobes
	}
	return s.rank()
}

// rank is up to how many harmonics the clock positions tell apart. Diameters tell
// oval, four lobes and so on.
func (s Section) rank() int {
	n := 0
	for k := 1; k <= MostLobes; k++ {
		a := mat.NewSymDense(2*k+1, nil)
		for _, p := range s.Points {
			clock := p.Clock
			row := mat.NewVecDense(2*k+1, harmonics(clock, 2*k+1))
			a.SymRankOne(a, 1, row)
		}
		var chol mat.Cholesky
		if !chol.Factorize(a) || chol.Cond() > 1e6 {
			return n
		}
		n = k
	}
	return n
}

// wall is the model of the wall.
type wall struct {
	span  Span
	usual float64
	free  int       // terms that the readings alone decide
	sd    []float64 // of each term, in heights of the oval

	at    mat.VecDense // the terms by the readings, about mean
	mean  float64
	root  mat.TriDense // of their covariance
	scale float64      // height of the oval, mm
	dof   float64
}

const (
	perDepth = 2*MostLobes + 1 // terms at one depth
	shapes   = 4               // terms along the depth
)

// along is the shapes along the bore at a depth.
func (m *wall) along(z float64) [shapes]float64 {
	l := m.span.To - m.span.From
	return [shapes]float64{1, (z - (m.span.From+m.span.To)/2) / (l / 2),
		math.Exp(-(z - m.span.From) / (mouthReach * l)), math.Exp(-(m.span.To - z) / (mouthReach * l))}
}

func (m *wall) prior(radii, leans bool, off float64) {
	m.sd = make([]float64, perDepth*shapes)
	for t := range perDepth {
		k := (t + 1) / 2
		along := [shapes]float64{lobe[k], alongBore * lobe[k], 0, 0}
		switch {
		case k == 0:
			along = [shapes]float64{anything, leanUnread, mouthHeight, mouthHeight}
			if leans {
				along[1] = anything
			}
		case k == 1:
			along = [shapes]float64{anything, leanUnread, mouthHeight / 2, mouthHeight / 2}
			if leans {
				along[1] = anything
			}
			if !radii { // readings across see no place and no lean: what is stated holds
				along[0], along[1] = off/2/m.usual, 0
			}
		}
		for j, sd := range along {
			m.sd[j*perDepth+t] = sd
			if sd == anything {
				m.free++
			}
		}
	}
}

// hide allows of the lobes that the readings do not show the usual wear, however
// round and straight they read: lobes that look like an offset at every depth (five at
// six places, three at four) leave nothing over that would show their height.
func (m *wall) hide(shown int) {
	for t := range perDepth {
		if k := (t + 1) / 2; k > max(1, shown) {
			m.sd[t] = math.Max(1, m.usual/m.scale)
			m.sd[t+perDepth] = alongBore * m.sd[t]
		}
	}
}

// row is what each term adds to the radius at a place; to half the diameter across it.
func (m *wall) row(clock, z float64, across bool) []float64 {
	round := harmonics(clock, perDepth)
	out := make([]float64, 0, perDepth*shapes)
	for _, f := range m.along(z) {
		for t, v := range round {
			if across && (t+1)/2%2 == 1 {
				v = 0
			}
			out = append(out, f*v)
		}
	}
	return out
}

// learn takes the readings in. In terms scaled by their standard deviations, x = D·u:
//
//	A = I + DᵀXᵀX·D/ρ², u = A⁻¹·DᵀXᵀy/ρ²,
//	σ² = (ν₀·s₀² + yᵀ(y − X·D·u)/ρ²)/(ν₀ + n − free), covariance of u: σ²·A⁻¹
func (m *wall) learn(sections []Section) bool {
	var rows [][]float64
	var ys []float64
	for _, s := range sections {
		ps := s.Points
		if s.Across {
			ps = ps[:len(ps)/2] // every diameter stands there twice
		}
		for _, p := range ps {
			rows, ys = append(rows, m.row(p.Clock, s.Depth, s.Across)), append(ys, p.Radius)
		}
	}
	n, terms := len(ys), len(m.sd)
	m.mean = stat.Mean(ys, nil)
	x, y := mat.NewDense(n, terms, nil), mat.NewVecDense(n, nil)
	for i, r := range rows {
		for t, v := range r {
			x.Set(i, t, v*m.sd[t]/shortWave)
		}
		y.SetVec(i, (ys[i]-m.mean)/shortWave)
	}
	var a, cov mat.SymDense
	a.SymOuterK(1, x.T())
	for t := range terms {
		a.SetSym(t, t, a.At(t, t)+1)
	}
	m.at.Reset()
	m.root.Reset()
	var chol, root mat.Cholesky
	if !chol.Factorize(&a) {
		return false
	}
	var rhs, fit mat.VecDense
	rhs.MulVec(x.T(), y)
	if err := chol.SolveVecTo(&m.at, &rhs); err != nil && chol.Cond() > 1e15 {
		return false
	}
	if err := chol.InverseTo(&cov); err != nil && chol.Cond() > 1e15 {
		return false
	}
	if !root.Factorize(&cov) {
		return false
	}
	root.LTo(&m.root)
	fit.MulVec(x, &m.at)
	fit.SubVec(y, &fit)
	left := math.Max(0, mat.Dot(y, &fit))
	m.dof = wearTrials + math.Max(0, float64(n-m.free))
	m.scale = math.Sqrt((wearTrials*square(m.usual) + left) / m.dof)
	return true
}

// largest is the largest radius at those depths in each trial, rising. The stream is
// fixed: the same readings give the same answer.
func (m *wall) largest(depths []float64) []float64 {
	const step = 10 // degrees: five lobes are seen to 5 % of their height
	var round [360 / step][perDepth]float64
	for i := range round {
		copy(round[i][:], harmonics(float64(i*step), perDepth))
	}
	at := make([][shapes]float64, len(depths))
	for i, d := range depths {
		at[i] = m.along(d)
	}
	terms := len(m.sd)
	sd := slices.Clone(m.sd)
	for t := 2 * perDepth; t < terms; t++ {
		sd[t] *= math.Max(1, m.usual/m.scale)
	}
	root := m.root.RawTriangular()
	rnd := rand.New(rand.NewPCG(1, 0x77616c6c))
	z, drawn := make([]float64, terms), make([]float64, terms)
	waves := make([]wave, len(at))
	out := make([]float64, 0, trials)
	for range trials {
		for t := range z {
			z[t] = rnd.NormFloat64()
		}
		height := m.scale * math.Sqrt(m.dof/chiSquare(rnd, int(m.dof)))
		for t := range drawn {
			var u float64
			for i, v := range root.Data[t*root.Stride:][:t+1] {
				u += v * z[i]
			}
			drawn[t] = m.sd[t]*m.at.AtVec(t) + sd[t]*height*u
		}
		for i, along := range at {
			here := wave{}
			for j, f := range along {
				for t, v := range drawn[j*perDepth:][:perDepth] {
					here.c[t] += f * v
				}
			}
			here.reach = here.c[0]
			for k := 1; k < perDepth; k += 2 {
				here.reach += math.Hypot(here.c[k], here.c[k+1])
			}
			waves[i] = here
		}
		slices.SortFunc(waves, func(a, b wave) int { return cmp.Compare(b.reach, a.reach) })
		most := -m.mean
		for _, w := range waves {
			if w.reach <= most {
				break
			}
			for i := range round {
				var r float64
				for t, v := range round[i] {
					r += v * w.c[t]
				}
				if r > most {
					most = r
				}
			}
		}
		most += m.mean
		out = append(out, most)
	}
	slices.Sort(out)
	return out
}

// wave is the wall at one depth, about the mean; reach is what it would stand out by if
// all its waves stood on one another, which no place exceeds.
type wave struct {
	c     [perDepth]float64
	reach float64
}

// chiSquare draws the sum of n squares of normal draws.
func chiSquare(rnd *rand.Rand, n int) float64 {
	var sum float64
	for range n {
		sum += square(rnd.NormFloat64())
	}
	return sum
}
