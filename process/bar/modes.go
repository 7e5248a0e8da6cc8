package bar

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Mode is one way the bar rings in bending. It counts once for each of the two
// planes, which are alike in a round bar.
type Mode struct {
	Hz        float64 // natural frequency, undamped
	Stiffness float64 // modal, seen at the cutter, N/mm: 1/k of all modes add to the compliance
	Mass      float64 // modal, seen at the cutter, kg
	Turn      float64 // slope at the cutter over deflection there, 1/mm: the tip at R goes R·Turn back toward the root for 1 out

	// Joint is the share of the nose, and of an outboard bearing, in the energy of the
	// swing at its end, and Damping the damping ratio that follows, least and most:
	// ζ = Σ ζ_i·U_i/U over the sections and the joint (Ungar & Kerwin, J. Acoust. Soc.
	// Am. 34 (1962) 954; from memory).
	Joint   float64
	Damping [2]float64
}

// First is the mode of the lowest frequency; of a line bar, whose overhanging ends swing by
// themselves, the one that gives most at the cutter. The error says why there is none.
func (b *Beam) First() (Mode, error) {
	if err := b.solve(); err != nil {
		return Mode{}, err
	}
	return b.modes[0], nil
}

// solve finds the modes once, lowest first. Finite elements with Timoshenko's
// exact static shape, consistent mass and rotary inertia (Friedman & Kosmatka,
// Computers & Structures 47 (1993) 473; from memory, checked to the closed form
// at Φ = 0), 24 or so to the bar: the first frequency is within 0.002 % of the
// exact beam's, the third within 0.2 % even of a bar of five diameters. A real
// joint in the bar lowers them, often by a tenth or more.
func (b *Beam) solve() error {
	b.solved.Do(func() { b.modes, b.unsolved = b.eigen() })
	return b.unsolved
}

// grid places the ends of the elements: at every end of a part, and between
// them so that none is much longer than 1/24 of the bar.
func (b *Beam) grid() (xs []float64, of []part) {
	xs = []float64{0}
	for _, p := range b.parts {
		n := max(1, int(math.Round((p.to-p.from)/b.length*24)))
		for i := 1; i <= n; i++ {
			xs = append(xs, p.from+(p.to-p.from)*float64(i)/float64(n))
			of = append(of, p)
		}
	}
	return xs, of
}

// eigen assembles stiffness and mass (mm, N, tonne, s) and solves
// K·φ = ω²·M·φ by Cholesky of M. Freedoms are deflection and slope at each
// node; those that a rigid nose takes away are left out.
func (b *Beam) eigen() ([]Mode, error) {
	xs, of := b.grid()
	n := 2 * len(xs)
	k, m := mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	put := func(to *mat.SymDense, i, j int, v float64) { to.SetSym(i, j, to.At(i, j)+v) }
	at := func(x float64) int { // freedom of the deflection at x
		best := 0
		for i := range xs {
			if math.Abs(xs[i]-x) < math.Abs(xs[best]-x) {
				best = i
			}
		}
		return 2 * best
	}
	for e, p := range of {
		ke, me := element(p, xs[e+1]-xs[e])
		for i := range 4 {
			for j := i; j < 4; j++ {
				put(k, 2*e+i, 2*e+j, ke[i][j])
				put(m, 2*e+i, 2*e+j, me[i][j])
			}
		}
	}
	var fixed []int
	joint := map[int]float64{} // springs by the freedom that they hold
	hold := func(i int, s float64) {
		if math.IsInf(s, 1) {
			fixed = append(fixed, i)
			return
		}
		put(k, i, i, s)
		joint[i] = s
	}
	if b.line == nil {
		hold(0, b.root.Radial)
		hold(1, b.root.Tilt)
	} else {
		hold(at(b.line[0].At), b.line[0].Stiffness)
		hold(at(b.line[1].At), b.line[1].Stiffness)
	}
	if s := b.support; s != nil {
		hold(at(s.At), s.Stiffness)
	}
	put(m, at(b.cutter), at(b.cutter), b.tip/1e3)
	k, m, keep := drop(k, fixed), drop(m, fixed), rest(n, fixed)
	omega2, phi, err := general(k, m)
	if err != nil {
		return nil, fmt.Errorf("natural frequencies: %w", err)
	}
	modes := make([]Mode, len(omega2))
	shape := make([]float64, n) // of one mode, mass-normalised; 0 where it is held
	for i, w2 := range omega2 {
		for j, f := range keep {
			shape[f] = phi.At(j, i)
		}
		c := shape[at(b.cutter)]
		modes[i] = Mode{Hz: math.Sqrt(max(0, w2)) / (2 * math.Pi), Stiffness: w2 / (c * c), Mass: 1e3 / (c * c), Turn: shape[at(b.cutter)+1] / c}
		if i < modesSummed {
			b.share(&modes[i], shape, w2, xs, of, joint)
		}
	}
	if b.line != nil {
		slices.SortStableFunc(modes[:min(modesSummed, len(modes))], func(m, n Mode) int { return cmp.Compare(m.Stiffness, n.Stiffness) })
	}
	return modes, nil
}

// share fills in where the energy of a mode is, and its damping: ω² is twice the energy
// of a shape whose mass is 1.
func (b *Beam) share(m *Mode, shape []float64, w2 float64, xs []float64, of []part, joint map[int]float64) {
	for _, f := range slices.Sorted(maps.Keys(joint)) {
		m.Joint += joint[f] * shape[f] * shape[f] / w2
	}
	for i := range m.Damping {
		m.Damping[i] = m.Joint * b.root.Damping[i]
	}
	for e, p := range of {
		ke, _ := element(p, xs[e+1]-xs[e])
		var u float64
		for i := range 4 {
			u += ke[i][i] * shape[2*e+i] * shape[2*e+i]
			for j := i + 1; j < 4; j++ {
				u += 2 * ke[i][j] * shape[2*e+i] * shape[2*e+j]
			}
		}
		for i := range m.Damping {
			m.Damping[i] += u / w2 * p.damping[i]
		}
	}
}

// rest lists the freedoms of n that are not fixed.
func rest(n int, fixed []int) (keep []int) {
next:
	for i := range n {
		for _, f := range fixed {
			if f == i {
				continue next
			}
		}
		keep = append(keep, i)
	}
	return keep
}

// drop leaves the fixed freedoms out of a matrix.
func drop(s *mat.SymDense, fixed []int) *mat.SymDense {
	keep := rest(s.SymmetricDim(), fixed)
	out := mat.NewSymDense(len(keep), nil)
	for i := range keep {
		for j := i; j < len(keep); j++ {
			out.SetSym(i, j, s.At(keep[i], keep[j]))
		}
	}
	return out
}

// general solves K·φ = λ·M·φ: with M = L·Lᵀ, the eigenproblem of L⁻¹·K·L⁻ᵀ.
// Values rise; columns of phi have φᵀ·M·φ = 1.
func general(k, m *mat.SymDense) (values []float64, phi *mat.Dense, err error) {
	var chol mat.Cholesky
	if !chol.Factorize(m) {
		return nil, nil, errors.New("the mass matrix is not positive definite")
	}
	var l, tri mat.TriDense
	chol.LTo(&l)
	if err := tri.InverseTri(&l); err != nil {
		return nil, nil, err
	}
	var half, full mat.Dense
	inv := mat.DenseCopyOf(&tri) // products of dense matrices are several times as fast
	half.Mul(inv, mat.DenseCopyOf(k))
	full.Mul(&half, inv.T())
	n := m.SymmetricDim()
	a := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			a.SetSym(i, j, (full.At(i, j)+full.At(j, i))/2)
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(a, true) {
		return nil, nil, errors.New("the eigenvalues did not converge")
	}
	var q mat.Dense
	eig.VectorsTo(&q)
	phi = new(mat.Dense)
	phi.Mul(inv.T(), &q)
	return eig.Values(nil), phi, nil
}

// element gives the stiffness and consistent mass of a length l of a part, for
// deflection and slope at its two ends.
func element(p part, l float64) (k, m [4][4]float64) {
	Φ := 12 / (p.give * p.kga * l * l)
	s := 1 / (p.give * (1 + Φ) * l * l * l)
	fill := func(to *[4][4]float64, f, a, b, c, d, e, g float64) {
		// a, b: end 1 deflection with itself and its slope; c, d: with end 2;
		// e, g: slope with itself and with the slope at end 2.
		t := [4][4]float64{
			{a, b * l, c, d * l},
			{0, e * l * l, -d * l, g * l * l},
			{0, 0, a, -b * l},
			{0, 0, 0, e * l * l},
		}
		for i := range 4 {
			for j := i; j < 4; j++ {
				to[i][j] += f * t[i][j]
			}
		}
	}
	fill(&k, s, 12, 6, -12, 6, 4+Φ, 2-Φ)
	mass := p.weight / gravity / 1e3 * l // tonne
	fill(&m, mass/(210*(1+Φ)*(1+Φ)),
		70*Φ*Φ+147*Φ+78, (35*Φ*Φ+77*Φ+44)/4,
		35*Φ*Φ+63*Φ+27, -(35*Φ*Φ+63*Φ+26)/4,
		(7*Φ*Φ+14*Φ+8)/4, -(7*Φ*Φ+14*Φ+6)/4)
	rotary := p.gyration * mass / (l * l)
	fill(&m, rotary/(30*(1+Φ)*(1+Φ)),
		36, -(15*Φ - 3), -36, -(15*Φ - 3), 10*Φ*Φ+5*Φ+4, 5*Φ*Φ-5*Φ-1)
	return k, m
}

// modesSummed is how many modes the receptance adds up; those above are stiff against
// everything that matters here and enter by their static share.
const modesSummed = 6

// stiffRest is the share of the compliance of the modes that the
// receptance leaves out, mm/N.
func (b *Beam) stiffRest() float64 {
	c := b.Compliance()
	for _, m := range b.modes[:min(modesSummed, len(b.modes))] {
		c -= 1 / m.Stiffness
	}
	return max(0, c)
}
