package bar

import "math"

// Chatter of a single edge that cuts into the wave of its last revolution
// (Tobias & Fishwick; Tlusty & Poláček 1963; Altintas, Manufacturing
// Automation). A radial motion y changes radial force by k·(y − y before), k
// the stiffness of the cut (cut.Model.Regen, N/mm). The bar answers with G, the
// receptance at the cutter in the direction that changes the chip, which is
// radial: in a round bar the tangential force moves the tip along the wall,
// and that changes depth only in the second order. The cut is stable while
//
//	2·k·|Re G|least < 1.
//
// The same with k = K_s·μ·b for a straight edge of width b is Tlusty's
// b_lim = 1/(2·K_s·μ·|Re G|least).
//
// Give the whole stiffness of the engaged edge (Regen), not ∂F/∂depth (Push):
// with a round nose the first is several times the second.

// LeastReal is |Re G|least, mm/N: how far the real part of the response at the
// cutter dips below 0 over all frequencies, and at which, Hz. For one mode it is
// 1/(4·k·ζ·(1+ζ)) at f·√(1+2ζ). Damping must be above 0 and below 0.5; else it
// is +Inf.
func (b *Beam) LeastReal(zeta float64) (dip, hz float64) {
	if !(zeta > 0 && zeta < 0.5) || b.solve() != nil {
		return math.Inf(1), 0
	}
	for _, m := range b.modes[:min(respond, len(b.modes))] {
		at, d := b.dip(m.Hz, zeta)
		if d > dip {
			dip, hz = d, at
		}
	}
	return dip, hz
}

// dip finds the lowest real part just above a natural frequency by golden
// section.
func (b *Beam) dip(f, zeta float64) (hz, depth float64) {
	g := b.receptance(zeta)
	lo, hi := f, f*math.Sqrt(1+2*zeta)*(1+2*zeta)
	const φ = 0.6180339887498949
	x1, x2 := hi-φ*(hi-lo), lo+φ*(hi-lo)
	y1, y2 := real(g(x1)), real(g(x2))
	for range 48 {
		if y1 < y2 {
			hi, x2, y2 = x2, x1, y1
			x1 = hi - φ*(hi-lo)
			y1 = real(g(x1))
		} else {
			lo, x1, y1 = x1, x2, y2
			x2 = lo + φ*(hi-lo)
			y2 = real(g(x2))
		}
	}
	return (lo + hi) / 2, -real(g((lo + hi) / 2))
}

// receptance is Response with the share at rest worked out once.
func (b *Beam) receptance(zeta float64) func(hz float64) complex128 {
	rest := complex(b.stiffRest(), 0)
	modes := b.modes[:min(respond, len(b.modes))]
	return func(hz float64) complex128 {
		g := rest
		for _, m := range modes {
			r := hz / m.Hz
			g += complex(1/m.Stiffness, 0) / complex(1-r*r, 2*zeta*r)
		}
		return g
	}
}

// CutLimit is the stiffest cut, N/mm, that is stable at a spindle speed,
// rev/min, with damping ratio zeta: the lowest lobe there. At speed 0 it is the
// absolute limit 1/(2·|Re G|least), under which all lobes are stable. On a
// boring mill the bar rings many times in a revolution, lobes lie close, and the
// two hardly differ.
//
// The boundary: k = −1/(2·Re G) with the phase of the wave
// ω·T = 2πN − 2·atan(Re G/Im G), T the time of a revolution, N = 1, 2, …
func (b *Beam) CutLimit(rpm, zeta float64) float64 {
	dip, _ := b.LeastReal(zeta)
	floor := 1 / (2 * dip)
	if !(rpm > 0) || math.IsInf(dip, 1) {
		return floor
	}
	best := math.Inf(1)
	g := b.receptance(zeta)
	turns := func(hz float64) float64 { // ωT + 2·atan(Re/Im), in whole turns
		v := g(hz)
		return hz*60/rpm + math.Atan2(-real(v), -imag(v))/math.Pi
	}
	for i, m := range b.modes[:min(respond, len(b.modes))] {
		at, depth := b.dip(m.Hz, zeta)
		if depth <= 0 {
			continue
		}
		end := at * 4 // the real part rises from its dip up to the next mode
		if i+1 < len(b.modes) {
			end = min(end, b.modes[i+1].Hz)
		}
		here := turns(at)
		for _, n := range [2]float64{math.Floor(here), math.Ceil(here)} {
			if n < 1 {
				continue
			}
			lo, hi := m.Hz*(1-zeta), end
			if !(turns(lo) <= n && n <= turns(hi)) {
				continue
			}
			for range 60 {
				if mid := (lo + hi) / 2; turns(mid) < n {
					lo = mid
				} else {
					hi = mid
				}
			}
			if re := -real(g(hi)); re > 0 {
				best = min(best, 1/(2*re))
			}
		}
	}
	return max(best, floor)
}

// Margin is how many times over the cut is stable: the limit of CutLimit over
// the stiffness of the cut, N/mm. Below 1 it chatters. It is +Inf where
// nothing is cut. Damping is known to a factor of two at best: ask at the least
// damping, and trust a margin of 1.5 or more.
func (b *Beam) Margin(push, rpm, zeta float64) float64 {
	if !(push > 0) {
		return math.Inf(1)
	}
	return b.CutLimit(rpm, zeta) / push
}

// LimitWidth is Tlusty's limit for a straight edge, mm of width of cut:
// b_lim = 1/(2·K_s·μ·|Re G|least), with specific cutting stiffness ks, N/mm²,
// and direction factor mu.
func (b *Beam) LimitWidth(ks, mu, zeta float64) float64 {
	dip, _ := b.LeastReal(zeta)
	return 1 / (2 * ks * mu * dip)
}

// StabilityInput is a cut to be judged.
type StabilityInput struct {
	Stiffness func(depth float64) float64 // of the cut against radial depth, N/mm: cut.Model.Regen at the feed and speed
	Depth     float64                     // asked for, mm
	Most      float64                     // deepest to look at, mm; 0: ten times Depth
	RPM       float64                     // rev/min; 0: any speed
	Zeta      [2]float64                  // damping ratio of the bar in its spindle, least and most

	// Process damping. Leave Land at 0 to leave it out.
	Land   float64 // length of flank that rubs on the wave, mm: wear land
	Edge   float64 // engaged edge, mm: cut.Model.Edge
	Speed  float64 // cutting speed, m/min
	Indent float64 // specific indentation force, N/mm³; 0: that of steel, 4.1·10⁴
}

// Stability is the judgement. Pairs are for the least and the most damping.
type Stability struct {
	Limit    [2]float64 // deepest stable cut at the speed, process damping included, mm
	Absolute [2]float64 // deepest cut stable at every speed, without process damping, mm
	Margin   [2]float64 // limit of the cut's stiffness over the cut's stiffness
	Process  float64    // damping ratio added by the flank
	Hz       float64    // what it rings at if it does
}

// Stability judges a cut. Stiffness must not fall with depth by much: the
// limits are the first depths, from the shallow side, at which the margin is 1.
func (b *Beam) Stability(p StabilityInput) Stability {
	var s Stability
	s.Process = b.processDamping(p)
	most := p.Most
	if most == 0 {
		most = 10 * p.Depth
	}
	for i, zeta := range p.Zeta {
		_, hz := b.LeastReal(zeta)
		if i == 0 {
			s.Hz = hz
		}
		here := b.CutLimit(p.RPM, min(zeta+s.Process, 0.49))
		s.Limit[i] = depthOf(p.Stiffness, here, most)
		s.Absolute[i] = depthOf(p.Stiffness, b.CutLimit(0, zeta), most)
		s.Margin[i] = math.Inf(1)
		if k := p.Stiffness(p.Depth); k > 0 {
			s.Margin[i] = here / k
		}
	}
	return s
}

// depthOf is the first depth at which the cut is as stiff as limit, or most.
func depthOf(stiffness func(float64) float64, limit, most float64) float64 {
	const steps = 64
	lo := 0.0
	for i := 1; i <= steps; i++ { // finer at the shallow end
		hi := most * float64(i*i) / (steps * steps)
		if stiffness(hi) < limit {
			lo = hi
			continue
		}
		for range 50 {
			if mid := (lo + hi) / 2; stiffness(mid) < limit {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	return most
}

// indentSteel is the specific indentation force of steel, N/mm³.
// Source: 4.1·10¹³ N/m³ for carbon steel in Chiou & Liang, Int. J. Mach. Tools
// Manuf. 38 (1998) 1185 and papers after it; from memory.
const indentSteel = 4.1e4

// processDamping is the damping ratio that the flank adds as it rubs on the
// wave, small-amplitude form:
//
//	c = K_sp·b·W²/(2·v),  ζ = c/(2·√(k·m))
//
// K_sp specific indentation force, b engaged edge, W rubbing length, v cutting
// speed, k and m of the first mode. Source: Chiou & Liang 1998, also Altintas,
// Eynian & Onozuka, CIRP Annals 57 (2008) 371; from memory. It fades as speed
// rises, which is why a boring mill lives with bars that a lathe cannot use.
func (b *Beam) processDamping(p StabilityInput) float64 {
	if !(p.Land > 0 && p.Edge > 0 && p.Speed > 0) || b.solve() != nil || len(b.modes) == 0 {
		return 0
	}
	indent := p.Indent
	if indent == 0 {
		indent = indentSteel
	}
	v := p.Speed * 1000 / 60                         // mm/s
	c := indent * p.Edge * p.Land * p.Land / (2 * v) // N·s/mm
	m := b.modes[0]                                  // tonne with N, mm, s
	return c / (2 * math.Sqrt(m.Stiffness*m.Mass/1e3))
}
