package bar

import "math"

// The ends of the range of a damping ratio.
const (
	Least = iota
	Most
)

// LeastReal is |Re G|least, mm/N: how far the real part of the response at the
// cutter dips below 0 over all frequencies, and at which, Hz. For one mode it is
// 1/(4·k·ζ·(1+ζ)) at f·√(1+2ζ). Every mode has its own damping ratio, at its
// Least or Most, and add on top, 0.49 at most. Without damping it is +Inf.
func (b *Beam) LeastReal(end int, add float64) (dip, hz float64) {
	if b.solve() != nil {
		return math.Inf(1), 0
	}
	g := b.receptance(end, add)
	for i, m := range g.modes {
		zeta := g.zetas[i]
		if !(zeta > 0) {
			return math.Inf(1), 0
		}
		if 1/(4*m.Stiffness*zeta*(1+zeta)) < dip/2 {
			continue // far too stiff to matter
		}
		at := g.dip(m.Hz, zeta)
		if d := -g.real(at); d > dip {
			dip, hz = d, at
		}
	}
	return dip, hz
}

// receptance is the response at the cutter,
// with what does not change with frequency worked out once:
//
//	G(ω) = Σ (1/k_i)/(1 − r² + 2·i·ζ_i·r) + what the other modes give at rest,  r = ω/ω_i
type receptance struct {
	rest  float64
	modes []Mode
	zetas []float64
}

func (b *Beam) receptance(end int, add float64) receptance {
	g := receptance{rest: b.stiffRest(), modes: b.modes[:min(modesSummed, len(b.modes))]}
	for _, m := range g.modes {
		g.zetas = append(g.zetas, min(m.Damping[end]+add, 0.49))
	}
	return g
}

// real is the real part of G at a frequency, mm/N: radial motion in step with a
// unit radial force swinging at hz.
func (g receptance) real(hz float64) float64 {
	re := g.rest
	for i, m := range g.modes {
		r := hz / m.Hz
		p, q := 1-r*r, 2*g.zetas[i]*r
		re += p / (m.Stiffness * (p*p + q*q))
	}
	return re
}

// dip finds the frequency of the lowest real part just above a natural
// frequency by golden section.
func (g receptance) dip(f, zeta float64) (hz float64) {
	lo, hi := f, f*math.Sqrt(1+2*zeta)*(1+2*zeta)
	const φ = 0.6180339887498949
	x1, x2 := hi-φ*(hi-lo), lo+φ*(hi-lo)
	y1, y2 := g.real(x1), g.real(x2)
	for range 32 { // to 2·10⁻⁷ of the bracket; the dip is flat
		if y1 < y2 {
			hi, x2, y2 = x2, x1, y1
			x1 = hi - φ*(hi-lo)
			y1 = g.real(x1)
		} else {
			lo, x1, y1 = x1, x2, y2
			x2 = lo + φ*(hi-lo)
			y2 = g.real(x2)
		}
	}
	return (lo + hi) / 2
}

// CutLimit is the stiffest cut, N/mm, that is stable at every spindle speed, with
// damping as LeastReal: 1/(2·|Re G|least), the foot of all stability lobes. On a
// boring mill the bar rings many times in a revolution, the lobes lie close, and
// no speed gains anything worth having over it.
func (b *Beam) CutLimit(end int, add float64) float64 {
	dip, _ := b.LeastReal(end, add)
	return 1 / (2 * dip)
}

// ProcessDamping is the damping ratio that the flank adds as it rubs on the
// wave, small-amplitude form:
//
//	c = K_sp·W²/(2·v)·∫cos²κ db,  ζ = c/(2·√(k·m))
//
// ∫cos²κ db is the engaged edge as the motion sees it (edge, mm): a piece at an
// angle κ moves into its wave by cos κ of the motion, and of what it is pressed
// back with the motion feels cos κ again; the same holds for the gain of chatter
// (cut.Model.Regen; where the motion leans, see cut.Contact.Along). K_sp is the specific indentation force (indent, N/mm³), W the
// rubbing length (land, mm), v the cutting speed (speed, m/min), k and m those of
// the first mode. It fades as speed rises, which is why a boring mill lives with
// bars that a lathe cannot use. It is 0 where nothing rubs.
//
// Source: Wu, Trans. ASME J. Eng. Ind. 111 (1989); Chiou & Liang, Int. J. Mach.
// Tools Manuf. 38 (1998) 1185; Altintas, Eynian & Onozuka, CIRP Annals 57 (2008)
// 371; from memory. K_sp differs tenfold between them, W by how long the edge has
// cut: give the ends of both.
func (b *Beam) ProcessDamping(edge, indent, land, speed float64) float64 {
	if !(land > 0 && edge > 0 && speed > 0 && indent > 0) || b.solve() != nil || len(b.modes) == 0 {
		return 0
	}
	v := speed * 1000 / 60                     // mm/s
	c := indent * edge * land * land / (2 * v) // N·s/mm
	m := b.modes[0]                            // tonne with N, mm, s
	return c / (2 * math.Sqrt(m.Stiffness*m.Mass/1e3))
}
