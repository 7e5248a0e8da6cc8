package cut

import "math"

// thrustMost is the most that thrust on a sharp edge comes to, over cutting
// force: fine finishing is published at 0.6 to 1.2 (ploughing literature after
// Albrecht, Trans. ASME 82, 1960; from memory), so the power law may not run
// past 1.2 as the chip thins to nothing.
const thrustMost = 1.2

// specific returns k_c, N/mm², and the thrust ratio ρ at chip thickness h, mm,
// before corrections, and the logarithmic slope of their product against H:
//
//	H  = √(h² + h_min²)
//	k_c = k_c1.1 · H^(−m_c)
//	ρ  = (x⁻⁴ + 1.2⁻⁴)^(−1/4),  x = ThrustRatio · H^(−ThrustFall)
//	slope = −d ln(k_c·ρ)/d ln H = m_c + ThrustFall·x⁻⁴/(x⁻⁴ + 1.2⁻⁴)
//
// Kienzle's law would make an edge infinitely stiff as h goes to 0. Below the
// least chip thickness an edge does not shear, it ploughs, and force goes to
// nothing in proportion to h; H brings that in smoothly and is h itself for
// any real chip (at h = 5·h_min it is 2 % off). The fourth power caps the
// ratio without a corner: force stays smooth, and monotone in h because
// m_c + ThrustFall < 1.
func specific(w Work, least, h float64) (kc, ratio, slope float64) {
	lnH := math.Log(h*h+least*least) / 2
	kc = w.Kc11 * math.Exp(-w.Mc*lnH)
	x4 := math.Exp(4*w.ThrustFall*lnH) / pow4(w.ThrustRatio)
	cap4 := 1 / pow4(thrustMost)
	return kc, 1 / math.Sqrt(math.Sqrt(x4+cap4)), w.Mc + w.ThrustFall*x4/(x4+cap4)
}

func pow4(x float64) float64 { return x * x * x * x }

// law is the force on a millimetre of edge as a function of chip thickness,
// tabled so that a plan's tens of thousands of calls need no logarithm. Rows
// are 32 to the octave, straight in between: force is within 6·10⁻⁵ of
// specific, slope within 3·10⁻⁴. The first row is h = 0.
type law struct{ rows [lawRows]row }

// row holds, at one chip thickness h:
//
//	c = k_c·h, t = ρ·k_c·h            force on 1 mm of straight edge, N/mm
//	cc = ∫₀ʰ h dc, tt = ∫₀ʰ h dt      what a curved edge lacks, N a radian
//	dt = dt/dh                        N/mm²
type row struct{ c, t, cc, tt, dt float64 }

// The table runs from 2^-14 mm (0.06 µm) to 2^4 mm.
const (
	lawBits   = 5 // rows an octave = 2^lawBits
	lawLow    = -14
	lawHigh   = 4
	lawShift  = 52 - lawBits
	lawBase   = (1023 + lawLow) << lawBits
	lawRows   = (lawHigh-lawLow)<<lawBits + 2
	lawMask   = 1<<lawShift - 1
	lawPart   = 1.0 / (1 << lawShift)
	lawLowest = 1.0 / (1 << -lawLow)
)

func newLaw(w Work, least float64) *law {
	l := new(law)
	var ic, it float64 // ∫₀ʰ c dh and ∫₀ʰ t dh
	var before float64
	for i := range lawRows - 1 {
		h := math.Float64frombits(uint64(lawBase+i) << lawShift)
		kc, ratio, slope := specific(w, least, h)
		share := h * h / (h*h + least*least)
		c, t := kc*h, ratio*kc*h
		if i == 0 { // below the table both are close to powers of h
			ic = c * h / (2 - w.Mc*share)
			it = t * h / (2 - slope*share)
		} else {
			half := (h - before) / 2
			for _, x := range [2]float64{-1 / math.Sqrt(3), 1 / math.Sqrt(3)} {
				at := before + half*(1+x)
				k, q, _ := specific(w, least, at)
				ic += half * k * at
				it += half * q * k * at
			}
		}
		l.rows[i+1] = row{c: c, t: t, cc: h*c - ic, tt: h*t - it, dt: t / h * (1 - slope*share)}
		before = h
	}
	l.rows[0] = row{dt: l.rows[1].dt}
	return l
}

// cell finds the rows on either side of a chip thickness, and how far between
// them it lies. Above the table force stays at the last row.
func (l *law) cell(h float64) (a, b *row, p float64) {
	bits := math.Float64bits(h)
	i := int(bits>>lawShift) - lawBase
	p = float64(bits&lawMask) * lawPart
	if uint(i) >= lawRows-2 {
		i, p = ends(h)
	}
	return &l.rows[i+1], &l.rows[i+2], p
}

func ends(h float64) (int, float64) {
	if h > 1 {
		return lawRows - 3, 1
	}
	return -1, max(0, h/lawLowest)
}
