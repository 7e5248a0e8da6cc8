package passes_test

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// handModes are the bar's own vibrations, by lumped masses on the flexibility
// matrix: M^½·F·M^½ has the eigenvalues 1/ω² (Thomson, Theory of Vibration).
type handModes []handMode

type handMode struct {
	omega, give float64 // rad/s; its share of the compliance at the cutter, mm/N
	turn        float64 // slope at the cutter over deflection there, 1/mm
}

// modes finds the first of them.
func (m *handMill) modes() handModes {
	flex, turns, cutter, mass := m.beam(24)
	n := len(mass)
	a := mat.NewSymDense(n, nil)
	root := func(i int) float64 { return math.Sqrt(mass[i] / 1e3) } // tonne, with mm, N, s
	for i := range n {
		for j := i; j < n; j++ {
			a.SetSym(i, j, root(i)*flex.At(i, j)*root(j))
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(a, true) {
		panic("no eigenvalues")
	}
	var v mat.Dense
	eig.VectorsTo(&v)
	values := eig.Values(nil)
	var out handModes
	for i := n - 1; i >= 0 && len(out) < 5; i-- { // largest first: the slowest
		shape := v.At(cutter, i) / root(cutter)
		// The masses swing as forces: what they turn the cutter by for what they move it.
		var turn, move float64
		for j := range n {
			force := root(j) * v.At(j, i)
			turn, move = turn+turns[j]*force, move+flex.At(cutter, j)*force
		}
		out = append(out, handMode{math.Sqrt(1 / values[i]), shape * shape * values[i], turn / move})
	}
	return out
}

// edgeOfChatter is the stiffest cut, N/mm, that no speed lets sing: half over
// the deepest dip of the real part of the response, 1/(2·|Re G|) (Tlusty &
// Poláček 1963), looked for step by step.
func (ms handModes) edgeOfChatter(zeta float64) float64 {
	dip := 0.0
	for w := ms[0].omega; w < 2*ms[0].omega; w *= 1.001 {
		var re float64
		for _, x := range ms {
			r := w / x.omega
			re += x.give * (1 - r*r) / (math.Pow(1-r*r, 2) + math.Pow(2*zeta*r, 2))
		}
		dip = math.Max(dip, -re)
	}
	return 1 / (2 * dip)
}

// landAt is what of the flank touches the work, mm, least and most, when the edge has
// cut metres before a pass and by its end: 0.6 and 1.8 times its rounding, at the
// most 0.02 run in, and what has worn (from memory, as process/cut states them).
func (m *handMill) landAt(before, after float64) [2]float64 {
	return [2]float64{0.6*m.rounding + m.land + m.wear[0]*before*1e-6, 1.8*m.rounding + 0.02 + m.land + m.wear[1]*after*1e-6}
}

// metres is how far the edge goes round in a pass.
func (m *handMill) metres(feed, radius float64) float64 {
	return (m.to - m.from) / feed * 2 * math.Pi * radius / 1000
}

// margins are the edge of chatter over the stiffness of the cut at the least
// and the most of what damps it. The stiffness is the force that comes of the edge
// standing a little deeper than one revolution before, each piece of it by its own
// normal. The flank adds damping,
// ζ = K·W²·∫(cos κ − lean·sin κ)² ds/(4·v·√(k·m)) (Wu 1989), K and W between two figures each.
func (m *handMill) margins(ms handModes, edge func(zeta float64) float64, depth, feed, speed float64, land [2]float64) [2]float64 {
	const little = 1e-5
	// The tip of a swinging bar goes back along the feed as it goes into the wall, by R times the turn.
	now := m.cut(depth, feed, speed, 0)
	lean := (m.low + m.high) / 4 * ms[0].turn
	by := func(f handCut) float64 { return f.pieces[1] - lean*f.pieces[0] }
	stiff := (by(m.cut(depth, feed-lean*little, speed, little)) - by(now)) / little
	k := 1 / ms[0].give
	rubs := now.rubs[0] - 2*lean*now.rubs[1] + lean*lean*now.rubs[2]
	var out [2]float64
	for i, z := range m.damping {
		add := m.indent[i] * rubs * land[i] * land[i] / (4 * speed * 1000 / 60 * k / ms[0].omega)
		out[i] = edge(math.Min(z+add, 0.49)) / stiff
	}
	return out
}
