package fit

import (
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/qty"
)

// Compound is a bonding compound by its properties: an anaerobic retaining
// compound that sets between metals where air is kept out.
type Compound struct {
	Name        string // a property, never a maker's name: "high strength"
	Strength    Band   // MPa, shear, steel on steel, ISO 10123
	GapLeast    float64
	GapBest     float64 // mm on diameter up to which full strength is reached
	GapMost     float64 // mm on diameter it still fills
	ServiceMost float64 // °C
}

// Compounds are the usual kinds. Ranges of the trade, from memory, but for the
// 15 to 35 MPa, which one page on ISO 10123 also gives.
func Compounds() []Compound {
	return []Compound{
		{"low strength", Band{5, 12}, 0.02, 0.08, 0.15, 120},
		{"high strength", Band{15, 35}, 0.02, 0.08, 0.15, 150},
		{"high strength, gap filling, with activator", Band{15, 25}, 0.02, 0.08, 0.30, 120},
		{"high strength, hot service", Band{15, 25}, 0.02, 0.08, 0.15, 200},
	}
}

// BondInput is a sleeve held in its housing by a bonding compound.
type BondInput struct {
	Diameter    float64 // interface, mm
	Length      float64 // of contact, mm
	Gap         Band    // on diameter, over all parts within limits, mm
	Compound    Compound
	ServiceMost float64 // °C
	Tightens    Band    // of the gap at work against the room, on diameter, mm; negative: the housing grows away from the sleeve
	Load        Load
	Wet         Wet
	Unlike      bool // the two are not both steel; stainless is not counted as steel
	Blind       bool
	Units       qty.Unit // in which the roughness that suits a bond is round
}

// BondResult is what the bond holds.
type BondResult struct {
	Strength  Band // after the factors
	Factors   []Factor
	Torque    Band
	PushOut   Band
	OffCentre float64     // the sleeve's axis can stand this far off: half the widest gap
	Reasons   []fact.Fact // what is wrong; empty: nothing
	Notes     []fact.Fact // cleaning and setting
	Cautions  []fact.Fact
}

// Bond works a bonded fit out: the shear strength of the test, times the
// reduction factors, times the area.
//
//	F = τ f₁ f₂ … π d L      T = F d / 2
//
// Factors (trade ranges, from memory): unlike metals 0.5; gap wider than the
// best 0.6 to 0.8, nothing read between: a gap is wide or it is not; heat (onHeat), what
// reaches it (Wet), its load (Load) and its length (onLength). A film is pulled apart where the housing grows more
// than the sleeve (stretchMost, partsAt); where it is squeezed, nothing is counted on it.
func Bond(in BondInput) (BondResult, error) {
	var no refusal
	if !(in.Diameter > 0) || math.IsInf(in.Diameter, 0) {
		no.bad(BadDiameter, fact.MM(in.Diameter))
	}
	if !(in.Length > 0) || math.IsInf(in.Length, 0) {
		no.bad(BadContact, fact.MM(in.Length))
	}
	if !in.Gap.ok() {
		no.bad(BadGap, fact.MM(in.Gap.Least), fact.MM(in.Gap.Most))
	}
	c := in.Compound
	if !c.Strength.ok() || c.Strength.Least < 0 {
		no.bad(BadStrength, fact.Value(qty.KindBondStrength, c.Strength.Least), fact.Value(qty.KindBondStrength, c.Strength.Most))
	}
	if !(c.GapLeast >= 0 && c.GapLeast <= c.GapBest && c.GapBest <= c.GapMost) {
		no.bad(BadGaps, fact.MM(c.GapLeast), fact.MM(c.GapBest), fact.MM(c.GapMost))
	}
	if !in.Tightens.ok() {
		no.bad(BadTightening, fact.MM(in.Tightens.Least), fact.MM(in.Tightens.Most))
	}
	if math.IsNaN(in.ServiceMost) {
		no.bad(BadHottest)
	}
	if err := no.err(); err != nil {
		return BondResult{}, err
	}
	r := BondResult{Strength: c.Strength, OffCentre: max(0, in.Gap.Most/2)}
	wrong := func(k fact.Kind, args ...fact.Arg) { r.Reasons = append(r.Reasons, fact.New(k, args...)) }
	count := func(f Factor, ok bool) {
		if ok {
			r.Strength = r.Strength.Times(f.By)
			r.Factors = append(r.Factors, f)
		}
	}
	count(Factor{fact.New(CountUnlike), Band{0.5, 0.5}}, in.Unlike)
	if in.Gap.Most > c.GapBest {
		b := Band{0.6, 0.8}
		if in.Gap.Least <= c.GapBest {
			b.Most = 1 // the closest pairs keep full strength
		}
		count(Factor{fact.New(CountGap), b}, true)
	}
	count(onHeat(in.ServiceMost, c.ServiceMost))
	count(in.Wet.onBond())
	count(in.Load.onBond())
	count(onLength(in.Diameter, in.Length))
	if in.ServiceMost > c.ServiceMost {
		wrong(BondTooHot, fact.Value(qty.KindTemperature, in.ServiceMost), fact.Value(qty.KindTemperature, c.ServiceMost))
	}
	switch {
	case in.Gap.Least <= 0:
		wrong(BondNoRoom, fact.MM(in.Gap.Least))
	case in.Gap.Least < c.GapLeast:
		wrong(BondGapSmall, fact.MM(in.Gap.Least), fact.MM(c.GapLeast))
	}
	if in.Gap.Most > c.GapMost {
		wrong(BondGapWide, fact.MM(in.Gap.Most), fact.MM(c.GapMost))
	}
	r.Cautions = Cautions(ByBond)
	switch opens := -in.Tightens.Least; {
	case opens > partsAt*in.Gap.Least && in.Gap.Least > 0:
		wrong(BondLoosens, fact.MM(opens), fact.MM(in.Gap.Least))
	case opens > stretchMost*in.Gap.Least && in.Gap.Least > 0:
		r.Cautions = slices.Insert(r.Cautions, 0, fact.New(BondStretched, fact.MM(opens), fact.MM(in.Gap.Least), fact.MM(in.Gap.Most)))
	}
	r.PushOut = r.Strength.by(math.Pi * in.Diameter * in.Length)
	r.Torque = r.PushOut.by(in.Diameter / 2 / 1000)
	r.Notes = bondNotes(in.Units, r.OffCentre, in.Blind)
	return r, nil
}

// A set film follows little of what heat or cold pulls it apart by. Beyond the
// first share of its thickness the person is warned, beyond the second the joint
// is not planned. Common practice, no source.
const stretchMost, partsAt = 0.05, 0.5

// cureHeat is the heat of the room that setting times are stated for, °C.
const cureHeat = 20

// bondNotes are common practice for anaerobic compounds, no source.
func bondNotes(u qty.Unit, off float64, blind bool) []fact.Fact {
	least, most := u.RaOf(0.8), u.RaOf(3.2)
	if u == qty.Inches {
		least, most = u.RaOf(32), u.RaOf(125)
	}
	n := []fact.Fact{fact.New(BondSurfaces, fact.Figure(qty.Roughness(least)), fact.Figure(qty.Roughness(most))), fact.New(BondClean), fact.New(BondCoat), fact.New(BondCentre, fact.MM(off)), fact.New(BondSet, fact.Value(qty.KindTemperature, cureHeat)), fact.New(BondWait)}
	if blind {
		n = append(n, fact.New(BondBlind))
	}
	return n
}

// Joint is what one way of holding a sleeve does, over the whole range: press
// and bond side by side.
type Joint struct {
	Method      Method  // ByPress or ByBond
	Torque      Band    // N·m, over the whole range
	PushOut     Band    // N
	Closure     Band    // of the sleeve's bore, mm on diameter; 0 for a bond
	HubHoop     float64 // highest tension in the hub bore, MPa
	OffCentre   float64 // mm, radial
	ServiceMost float64 // °C; 0: not bound by the joint
	Sound       bool
	Reasons     []fact.Fact // what is wrong

	// What is known where a sleeve is planned.
	Taken   bool
	Reserve float64   // least hold over the load asked for; 0: no load is stated
	Note    fact.Fact // what it assumes
	Factors []Factor  // what of its strength is not counted on, and why
}

// Joint is the press fit for comparison with a bond.
func (r PressResult) Joint() Joint {
	return Joint{Method: ByPress, Torque: r.Torque, PushOut: r.PushOut, Closure: r.Closure,
		HubHoop: r.Stresses[0].Hoop.Most, Factors: r.Factors, Sound: len(r.Reasons) == 0, Reasons: r.Reasons}
}

// Joint is the bond for comparison with a press fit. c is its compound.
func (r BondResult) Joint(c Compound) Joint {
	return Joint{Method: ByBond, Torque: r.Torque, PushOut: r.PushOut, OffCentre: r.OffCentre,
		ServiceMost: c.ServiceMost, Factors: r.Factors, Sound: len(r.Reasons) == 0, Reasons: r.Reasons}
}
