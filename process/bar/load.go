package bar

import "math"

// Load is what the cut does to the bar at the cutter: N and N·mm.
type Load struct {
	Radial     float64 // passive force F_p: pushes the tip toward smaller radius
	Tangential float64 // cutting force F_c, across it
	Arm        float64 // moment of the feed force, way·R·F_f; see ArmCompliance
}

// bearingShare is the share of a unit load at the cutter that the outboard bearing
// carries, by compatibility: R = δ_bc/(δ_bb + 1/k_b).
func (b *Beam) bearingShare() float64 {
	if b.support == nil {
		return 0
	}
	bc, _ := b.influence(b.support.At, b.cutter)
	return bc / b.bearingGive()
}

// bearingGive is how far bar and bearing give together for a unit force between
// them, mm/N.
func (b *Beam) bearingGive() float64 {
	bb, _ := b.influence(b.support.At, b.support.At)
	return bb + 1/b.support.Stiffness
}

// Compliance is the radial deflection at the cutter under a unit radial load
// there, mm/N. A bearing holds the bar whatever its play; see Meet.
func (b *Beam) Compliance() float64 {
	c, _ := b.influence(b.cutter, b.cutter)
	if b.support == nil {
		return c
	}
	bc, _ := b.influence(b.support.At, b.cutter)
	return c - b.bearingShare()*bc
}

// ArmCompliance is the radial deflection at the cutter under a unit moment there,
// 1/N, which is also the slope there under a unit radial load (Maxwell and Betti):
//
//	c_m = ∫ (p−x)/EI dx + p/k_θ,  x from 0 to p; L²/2EI + L/k_θ for a plain bar
//
// less what a bearing takes.
//
// The feed force F_f acts at the tip, at the radius R from the axis of the bar, and
// so bends it by M = F_f·R. Feeding away from the root (way +1) the chip pushes the
// tip back toward the root, and M turns the end of the bar toward the side of the tip:
// the tip moves OUT, against the passive force. Feeding toward the root (way −1) it
// moves IN, with it. So the tip stands off its place, toward smaller radius, by
//
//	push = c·F_p − way·c_m·R·F_f
//
// A cantilever of L that carries both has the second part 1.5·(F_f/F_p)·(R/L) times
// the first (beam theory).
func (b *Beam) ArmCompliance() float64 {
	c := b.slopeUnder(b.cutter, b.cutter)
	if b.support != nil {
		c -= b.bearingShare() * b.slopeUnder(b.cutter, b.support.At)
	}
	return c
}

// Push is how far a load moves the tip toward smaller radius, mm: c·F_p − c_m·M, with
// the bar on its bearing, if it has one.
func (b *Beam) Push(l Load) float64 {
	return b.Compliance()*l.Radial - b.ArmCompliance()*l.Arm
}

// Stress is the highest nominal bending stress, MPa, anywhere along the bar. The
// moments of radial and tangential force are at right angles and the bar is round, so
// they add as squares; that of the feed force stands against the radial one.
//
//	σ = 32·M·D/(π·(D⁴ − d⁴))
//
// It is looked for at the nose, at every change of diameter (the smaller side
// governs by itself), at the cutter and at the bearing: between those the
// moments are straight. Nominal means that the sharpness of a shoulder or of the
// cutter's slot is left out: these multiply it by 1.5 to 3 locally (Peterson,
// Stress Concentration Factors; order from memory), which matters for fatigue
// and not for a single pull.
func (b *Beam) Stress(l Load) float64 {
	var radial, across float64 // what the bearing holds against
	if b.support != nil {
		share := b.bearingShare()
		radial = share*l.Radial - b.slopeUnder(b.cutter, b.support.At)/b.bearingGive()*l.Arm
		across = share * l.Tangential
	}
	moment := func(x float64) float64 {
		var r, t float64
		if b.line != nil {
			m, _ := b.line.inside(x, b.cutter, false)
			turns, _ := b.line.inside(x, b.cutter, true)
			return math.Hypot(l.Radial*m-l.Arm*turns, l.Tangential*m)
		}
		if a := b.cutter - x; a > 0 {
			r, t = l.Radial*a-l.Arm, l.Tangential*a
		}
		if b.support != nil {
			if a := b.support.At - x; a > 0 {
				r, t = r-radial*a, t-across*a
			}
		}
		return math.Hypot(r, t)
	}
	most := 0.0
	for _, p := range b.parts {
		m := max(moment(p.from), moment(p.to-tiny))
		if b.line != nil { // a moment at the cutter is a jump in it
			m = max(m, moment(p.from+tiny))
		}
		most = max(most, m*p.d/2*p.e/p.ei)
	}
	return most
}
