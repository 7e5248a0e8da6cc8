package cut

import (
	"errors"
	"fmt"
	"math"
)

// Work is how a material cuts.
type Work struct {
	Kc11        float64 // k_c1.1, specific cutting force at h = b = 1 mm, N/mm²
	Mc          float64 // m_c, Kienzle exponent, 0 to 0.5
	ThrustRatio float64 // thrust normal to the edge over cutting force at h = 1 mm
	ThrustFall  float64 // exponent: ratio = ThrustRatio·h^(−ThrustFall)
	Rake0       float64 // rake at which Kc11 was measured, degrees
	RaFactor    float64 // measured over geometric roughness, fresh edge
	RaLeast     float64 // R_a that the torn metal leaves at the least, mm; 0: none
	Group       string  // ISO 513 letter: P, M, K, N, S, H
	Flank       float64 // pressure on a flank land, normal to the edge, N/mm²
}

// Edge is the cutter, its edge fresh. Angles are ISO 3002-1, degrees.
type Edge struct {
	Nose     float64 // r_ε, nose radius, mm
	Lead     float64 // κ_r, tool cutting edge angle, 10 to 100
	Trail    float64 // κ_r′, tool minor cutting edge angle, 0 to 80
	Rake     float64 // γ_o, orthogonal rake
	Factor   float64 // of the cutter material on force, carbide = 1
	Rounding float64 // r_n, rounding of the edge, mm
	MinChip  float64 // least chip thickness over edge rounding
}

// Model is one edge in one material.
type Model struct {
	work Work
	edge Edge

	r      float64 // nose radius
	sk, ck float64 // sine and cosine of κ_r
	sp, cp float64 // of κ_r′
	sΣ, cΣ float64 // of κ_r + κ_r′
	yk, yt float64 // height above the tip at which the arc ends, in front and behind
	uk, ut float64 // tan(θ/2) at those ends
	ridge  float64 // slope of the line that halves the wedge, against either edge

	least   float64 // h_min, least chip thickness, mm
	raChip  float64 // R_a of the feed √(2·r·h_min), mm
	law     *law
	cutting float64 // product of the corrections on cutting force but speed
	thrust  float64 // the same on thrust
}

// New makes a model. The error names every figure that is out of range.
func New(w Work, e Edge) (*Model, error) {
	m, err := newModel(w, e)
	if err != nil {
		return nil, err
	}
	m.law = newLaw(w, m.least)
	return m, nil
}

// With is another edge in the same material. It takes no time where its least chip is the
// same.
func (m *Model) With(e Edge) (*Model, error) {
	n, err := newModel(m.work, e)
	if err != nil {
		return nil, err
	}
	if n.law = m.law; n.least != m.least {
		n.law = newLaw(n.work, n.least)
	}
	return n, nil
}

func newModel(w Work, e Edge) (*Model, error) {
	var errs []error
	check := func(name string, v, lo, hi float64, unit string) {
		if !(v >= lo && v <= hi) { // NaN fails too
			errs = append(errs, fmt.Errorf("%s is %g; it must be from %g to %g%s", name, v, lo, hi, unit))
		}
	}
	check("specific cutting force kc1.1", w.Kc11, 50, 10000, " N/mm²")
	check("Kienzle exponent mc", w.Mc, 0, 0.6, "")
	check("thrust ratio", w.ThrustRatio, 0.001, 2, "")
	check("thrust exponent", w.ThrustFall, 0, 0.8, "")
	check("rake of the cutting data", w.Rake0, -30, 40, "°")
	check("roughness factor", w.RaFactor, 0.5, 10, "")
	check("least roughness", w.RaLeast, 0, 0.1, " mm")
	check("pressure on the flank", w.Flank, 0, 10000, " N/mm²")
	check("nose radius", e.Nose, 0.001, 50, " mm")
	check("lead angle κr", e.Lead, 10, 100, "°")
	check("trailing angle κr′", e.Trail, 0, 80, "°")
	check("rake", e.Rake, -30, 40, "°")
	check("force factor of the cutter material", e.Factor, 0.3, 3, "")
	check("rounding of the edge", e.Rounding, 0, 0.5, " mm")
	check("least chip over rounding", e.MinChip, 0, 2, "")
	if !(w.Mc+w.ThrustFall < 1) {
		errs = append(errs, fmt.Errorf("the Kienzle exponent %g and thrust exponent %g add to %g; they must stay below 1, or thrust would fall as the chip thickens", w.Mc, w.ThrustFall, w.Mc+w.ThrustFall))
	}
	if e.Lead+e.Trail > 160 {
		errs = append(errs, fmt.Errorf("lead %g° and trailing angle %g° leave a point of %g°; at least 20° is needed", e.Lead, e.Trail, 180-e.Lead-e.Trail))
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	m := &Model{work: w, edge: e, r: e.Nose, least: e.MinChip * e.Rounding}
	m.sk, m.ck = sincos(e.Lead)
	m.sp, m.cp = sincos(e.Trail)
	m.sΣ, m.cΣ = sincos(e.Lead + e.Trail)
	m.yk, m.yt = m.r*(1-m.ck), m.r*(1-m.cp)
	m.uk, m.ut = math.Tan(rad(e.Lead)/2), -math.Tan(rad(e.Trail)/2)
	m.ridge = math.Tan(rad(90 - (e.Lead+e.Trail)/2))
	m.raChip = Ra(math.Sqrt(2*m.r*m.least), m.r)
	common := boringFactor * RakeFactor(e.Rake, w.Rake0) * e.Factor
	m.cutting = common
	m.thrust = common * RakeThrust(e.Rake, w.Rake0)
	return m, nil
}

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// sincos is exact at right angles, where a straight shoulder must push
// radially by nothing at all.
func sincos(deg float64) (s, c float64) {
	s, c = math.Sincos(rad(deg))
	switch deg {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	}
	return s, c
}
