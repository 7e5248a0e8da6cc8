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

// margins are the edge of chatter over the stiffness of the cut at the least
// and the most damping. The stiffness is the force that comes of the edge
// standing a little deeper than one revolution before. A worn flank of 0.1 mm
// adds damping, ζ = K·b·W²/(4·v·√(k·m)), K = 41,000 N/mm³ (Chiou & Liang 1998).
func (m *handMill) margins(ms handModes, edge func(zeta float64) float64, depth, feed, speed float64) [2]float64 {
	const little = 1e-5
	// The tip of a swinging bar goes back along the feed as it goes into the wall, by R times the turn.
	now := m.cut(depth, feed, speed, 0)
	lean := (m.low + m.high) / 4 * ms[0].turn
	stiff := (m.cut(depth, feed-lean*little, speed, little).against(lean) - now.against(lean)) / little
	k := 1 / ms[0].give
	add := 4.1e4 * now.edge * 0.01 / (4 * speed * 1000 / 60 * k / ms[0].omega)
	var out [2]float64
	for i, z := range m.damping {
		out[i] = edge(math.Min(z+add, 0.49)) / stiff
	}
	return out
}
