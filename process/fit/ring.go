package fit

import (
	"math"

	"borewright/process/fact"
	"borewright/process/fit/iso286"
	"borewright/process/fit/joining"
	"borewright/process/hub"
	"borewright/process/qty"
)

// Band is a least and a most of a figure; the field that holds it names the
// unit.
type Band struct {
	Least float64
	Most  float64
}

// Times is the band of products of two bands that are not negative.
func (b Band) Times(c Band) Band { return Band{b.Least * c.Least, b.Most * c.Most} }

func (b Band) by(f float64) Band { return Band{b.Least * f, b.Most * f} }

// hull widens the band to take v in.
func (b *Band) hull(v float64) {
	v += 0 // no minus zero
	b.Least, b.Most = min(b.Least, v), max(b.Most, v)
}

// GapMM is a clearance as the gap that Bond takes.
func GapMM(clearance iso286.Range) Band {
	return Band{clearance.Least.MM(), clearance.Most.MM()}
}

// InterferenceMM is a clearance as the interference that Press takes.
func InterferenceMM(clearance iso286.Range) Band { return GapMM(clearance.Interference()) }

func emptyBand() Band { return Band{math.Inf(1), math.Inf(-1)} }

func (b Band) ok() bool {
	return b.Least <= b.Most && !math.IsInf(b.Least, 0) && !math.IsInf(b.Most, 0)
}

// Ring is a hub or a sleeve of one material.
type Ring struct {
	Inside      float64  // mm; a sleeve's bore before assembly, 0: solid. Not used for a hub
	Outside     float64  // mm; a hub's least outside, +Inf: a mass without edge. Not used for a sleeve
	OutsideMost float64  // mm; a hub's most outside where the wall varies round the bore; 0: as Outside
	Wall        hub.Wall // a hub's metal around the joint where it is uneven; zero: even, as Outside has it
	E, Nu       float64  // MPa, –
	Alpha       float64  // 1/K, heating from room temperature
	Yield       float64  // MPa, yield or proof strength; not used when brittle
	Tensile     float64  // MPa
	Brittle     bool     // no yield: judged by tensile strength
	Steel       bool     // plain, alloy or cast steel, not stainless: what a bond holds best on
	HeatMost    float64  // °C the part may be brought to; 0: 150
	Metal       joining.Metal
}

// shrinks is what a diameter of d mm loses from the temperature from to the colder to, mm.
func (r Ring) shrinks(d, from, to float64) float64 {
	return d * (r.Metal.Shrinks(r.Alpha, to) - r.Metal.Shrinks(r.Alpha, from))
}

func (r Ring) heatMost() float64 {
	if r.HeatMost > 0 {
		return r.HeatMost
	}
	return 150
}

// check adds what is wrong with the ring named part.
func (r Ring) check(no *refusal, part string) {
	of := fact.Name(part)
	if !(r.E > 0) {
		no.bad(BadModulus, of, fact.Value(qty.KindStress, r.E))
	}
	if !(r.Nu >= 0 && r.Nu < 0.5) {
		no.bad(BadPoisson, of, fact.Value(qty.KindNumber, r.Nu))
	}
	if !(r.Alpha > 0 && r.Alpha < 1e-3) {
		no.bad(BadExpansion, of, fact.Figure(qty.KindExpansion.Of(r.Alpha*1e6)))
	}
	if r.Brittle && !(r.Tensile > 0) {
		no.bad(BadTensile, of, fact.Value(qty.KindStress, r.Tensile))
	}
	if !r.Brittle && !(r.Yield > 0) {
		no.bad(BadYield, of, fact.Value(qty.KindStress, r.Yield))
	}
}

// seat is the elasticity of two rings at one interface: plane stress, both as
// long as the contact. All per MPa of contact pressure.
//
// Source: Lamé's thick ring; Shigley's Mechanical Engineering Design, 8th ed.,
// Eq. 7-39 and section 3-14.
type seat struct {
	ci, co          float64 // C_i = (d²+d_i²)/(d²−d_i²), C_o = (d_o²+d²)/(d_o²−d²)
	hubOpens        float64 // mm on diameter at the hub bore: d(C_o+ν_o)/E_o
	sleeveGives     float64 // mm on diameter at the sleeve outside: d(C_i−ν_i)/E_i
	boreCloses      float64 // mm on diameter at the sleeve bore: 2d²d_i/(E_i(d²−d_i²))
	sleeveBore      float64 // hoop over pressure there, compressive: 2d²/(d²−d_i²)
	hubHoop         float64 // C_o
	hubMises        float64 // √(C_o²+C_o+1): hoop +pC_o, radial −p
	sleeveOutMises  float64 // √(C_i²−C_i+1): hoop −pC_i, radial −p
	sleeveBoreMises float64 // hoop alone; 1 for a solid shaft (−p both ways)
}

func newSeat(d, outside float64, hub, sleeve Ring) seat {
	var j seat
	di := sleeve.Inside
	j.ci = (d*d + di*di) / (d*d - di*di)
	q := d / outside // 0 for a hub without edge
	j.co = (1 + q*q) / (1 - q*q)
	j.hubOpens = d * (j.co + hub.Nu) / hub.E
	j.sleeveGives = d * (j.ci - sleeve.Nu) / sleeve.E
	j.boreCloses = 2 * d * d * di / (sleeve.E * (d*d - di*di))
	j.sleeveBore = 2 * d * d / (d*d - di*di)
	if di == 0 {
		j.sleeveBore = 1
	}
	j.hubHoop = j.co
	j.hubMises = mises(j.co)
	j.sleeveOutMises = math.Sqrt(j.ci*j.ci - j.ci + 1)
	j.sleeveBoreMises = j.sleeveBore
	return j
}

// mises is the equivalent stress of a hoop tension c beside a pressure of 1.
func mises(c float64) float64 { return math.Sqrt(c*c + c + 1) }

// closing is bore closure over interference, –.
func (j seat) closing() float64 { return j.boreCloses / (j.hubOpens + j.sleeveGives) }

// pressure is p = Δ/(hub opens + sleeve gives), MPa for Δ in mm on diameter;
// 0 where the parts do not touch.
func (j seat) pressure(interference float64) float64 {
	return max(0, interference) / (j.hubOpens + j.sleeveGives)
}
