package bar

import "math"

// LeastReal is |Re G|least, mm/N: how far the real part of the response at the
// cutter dips below 0 over all frequencies, and at which, Hz. For one mode it is
// 1/(4·k·ζ·(1+ζ)) at f·√(1+2ζ). Damping must be above 0 and below 0.5; else it
// is +Inf.
func (b *Beam) LeastReal(zeta float64) (dip, hz float64) {
	if !(zeta > 0 && zeta < 0.5) || b.solve() != nil {
		return math.Inf(1), 0
	}
	g := b.receptance(zeta)
	for _, m := range g.modes {
		if 1/(4*m.Stiffness*zeta*(1+zeta)) < dip/2 {
			continue // far too stiff to matter
		}
		at := g.dip(m.Hz)
		if d := -g.real(at); d > dip {
			dip, hz = d, at
		}
	}
	return dip, hz
}

// receptance is Response for one damping ratio, with what does not change with
// frequency worked out once.
type receptance struct {
	zeta, rest float64
	modes      []Mode
}

func (b *Beam) receptance(zeta float64) receptance {
	return receptance{zeta, b.stiffRest(), b.modes[:min(respond, len(b.modes))]}
}

// parts are the real and imaginary part at a frequency, mm/N.
func (g receptance) parts(hz float64) (re, im float64) {
	re = g.rest
	for _, m := range g.modes {
		r := hz / m.Hz
		p, q := 1-r*r, 2*g.zeta*r
		d := m.Stiffness * (p*p + q*q)
		re += p / d
		im -= q / d
	}
	return re, im
}

func (g receptance) real(hz float64) float64 {
	re, _ := g.parts(hz)
	return re
}

// dip finds the frequency of the lowest real part just above a natural
// frequency by golden section.
func (g receptance) dip(f float64) (hz float64) {
	lo, hi := f, f*math.Sqrt(1+2*g.zeta)*(1+2*g.zeta)
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
		re, im := g.parts(hz)
		return hz*60/rpm + math.Atan2(-re, -im)/math.Pi
	}
	for i, m := range g.modes {
		if 1/(4*m.Stiffness*zeta*(1+zeta)) < dip/4 {
			continue // stable far beyond the others
		}
		// Down to its dip, and up again to the next mode, the limit falls and
		// rises; so of all the waves only the two next to the dip can be lowest.
		at, end := g.dip(m.Hz), 4*m.Hz
		if i+1 < len(g.modes) {
			end = min(end, g.modes[i+1].Hz)
		}
		here := turns(at)
		for _, n := range [2]float64{math.Floor(here), math.Ceil(here)} {
			lo, hi := m.Hz*(1-zeta), end
			if n < 1 || turns(lo) > n || n > turns(hi) {
				continue
			}
			for range 50 {
				if mid := (lo + hi) / 2; turns(mid) < n {
					lo = mid
				} else {
					hi = mid
				}
			}
			if re := -g.real(hi); re > 0 {
				best = min(best, 1/(2*re))
			}
		}
	}
	return max(best, floor)
}

// Margin is how many times over the cut is stable: the limit of CutLimit (which
// is the place to go when the same speed is asked about many cuts) over the
// stiffness of the cut, N/mm. Below 1 it chatters. It is +Inf where
// nothing is cut. Damping is known to a factor of two at best: ask at the least
// damping, and trust a margin of 1.5 or more.
func (b *Beam) Margin(stiffness, rpm, zeta float64) float64 {
	return over(b.CutLimit(rpm, zeta), stiffness)
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
	Land   float64                     // length of flank that rubs on the wave, mm: wear land
	Edge   func(depth float64) float64 // engaged edge against depth, mm: cut.Model.Edge at the feed
	Speed  float64                     // cutting speed, m/min
	Indent float64                     // specific indentation force, N/mm³; 0: that of steel, 4.1·10⁴
}

// Stability is the judgement. Pairs are for the least and the most damping.
type Stability struct {
	Limit    [2]float64 // deepest stable cut at the speed, process damping included, mm
	Absolute [2]float64 // deepest cut stable at every speed, without process damping, mm
	Margin   [2]float64 // limit of the cut's stiffness over the cut's stiffness
	Process  float64    // damping ratio that the flank adds at Depth
	Hz       float64    // what it rings at if it does
}

// Stability judges a cut. The limits are the first depths, from the shallow
// side, at which the margin falls to 1, or Most where it does not.
func (b *Beam) Stability(p StabilityInput) Stability {
	s := Stability{Process: b.processDamping(p, p.Depth)}
	most := p.Most
	if most == 0 {
		most = 10 * p.Depth
	}
	for i, zeta := range p.Zeta {
		if i == 0 {
			_, s.Hz = b.LeastReal(zeta)
		}
		lobe, floor := b.CutLimit(p.RPM, zeta), b.CutLimit(0, zeta)
		here := func(depth float64) float64 {
			limit := lobe
			if add := b.processDamping(p, depth); add > 0 {
				limit = b.CutLimit(p.RPM, min(zeta+add, 0.49))
			}
			return over(limit, p.Stiffness(depth))
		}
		s.Margin[i] = here(p.Depth)
		s.Limit[i] = depthOf(here, most)
		s.Absolute[i] = depthOf(func(depth float64) float64 { return over(floor, p.Stiffness(depth)) }, most)
	}
	return s
}

// over is the margin of a limit over the stiffness of a cut.
func over(limit, stiffness float64) float64 {
	if !(stiffness > 0) {
		return math.Inf(1)
	}
	return limit / stiffness
}

// depthOf is the first depth at which a margin falls to 1, or most.
func depthOf(margin func(depth float64) float64, most float64) float64 {
	const steps = 48
	lo := 0.0
	for i := 1; i <= steps; i++ { // finer at the shallow end
		hi := most * float64(i*i) / (steps * steps)
		if margin(hi) > 1 {
			lo = hi
			continue
		}
		for range 40 {
			if mid := (lo + hi) / 2; margin(mid) > 1 {
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
func (b *Beam) processDamping(p StabilityInput, depth float64) float64 {
	if p.Edge == nil {
		return 0
	}
	return b.ProcessDamping(p.Edge(depth), p.Land, p.Speed, p.Indent)
}

// ProcessDamping is that damping ratio for an engaged edge and a rubbing land,
// mm, a cutting speed, m/min, and a specific indentation force, N/mm³ (0: that
// of steel). It is 0 where nothing rubs.
func (b *Beam) ProcessDamping(edge, land, speed, indent float64) float64 {
	if !(land > 0 && edge > 0 && speed > 0) || b.solve() != nil || len(b.modes) == 0 {
		return 0
	}
	if indent == 0 {
		indent = indentSteel
	}
	v := speed * 1000 / 60                     // mm/s
	c := indent * edge * land * land / (2 * v) // N·s/mm
	m := b.modes[0]                            // tonne with N, mm, s
	return c / (2 * math.Sqrt(m.Stiffness*m.Mass/1e3))
}
