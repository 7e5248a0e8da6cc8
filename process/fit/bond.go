package fit

import (
	"errors"
	"fmt"
	"math"
	"slices"

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
	Units       qty.Unit // of the sentences
	Diameter    float64  // interface, mm
	Length      float64  // of contact, mm
	Gap         Band     // on diameter, over all parts within limits, mm
	Compound    Compound
	ServiceMost float64 // °C
	Tightens    Band    // of the gap at work against the room, on diameter, mm; negative: the housing grows away from the sleeve
	Unlike      bool    // the two are not both steel; stainless is not counted as steel
	Blind       bool
}

// BondResult is what the bond holds.
type BondResult struct {
	Strength  Band // after the factors
	Torque    Band
	PushOut   Band
	OffCentre float64  // the sleeve's axis can stand this far off: half the widest gap
	Reasons   []string // what is wrong; empty: nothing
	Notes     []string // cleaning and setting
	Cautions  []string
}

// Bond works a bonded fit out: the shear strength of the test, times the
// reduction factors, times the area.
//
//	F = τ f₁ f₂ … π d L      T = F d / 2
//
// Factors (trade ranges, from memory): unlike metals 0.5; gap wider than the
// best 0.6 to 0.8; hot above 100 °C 0.5. Nothing is read between steps: a gap
// is wide or it is not. A film is pulled apart where the housing grows more
// than the sleeve (stretchMost, partsAt); where it is squeezed, nothing is counted on it.
func Bond(in BondInput) (BondResult, error) {
	var errs []error
	bad := func(format string, a ...any) { errs = append(errs, fmt.Errorf(format, a...)) }
	if !(in.Diameter > 0) || math.IsInf(in.Diameter, 0) {
		bad("interface diameter must be above 0, not %g mm", in.Diameter)
	}
	if !(in.Length > 0) || math.IsInf(in.Length, 0) {
		bad("length of contact must be above 0, not %g mm", in.Length)
	}
	if !in.Gap.ok() {
		bad("gap must run from a least to a most; it is %g to %g mm", in.Gap.Least, in.Gap.Most)
	}
	c := in.Compound
	if !c.Strength.ok() || c.Strength.Least < 0 {
		bad("shear strength must run from a least to a most, 0 MPa or more; it is %g to %g", c.Strength.Least, c.Strength.Most)
	}
	if !(c.GapLeast >= 0 && c.GapLeast <= c.GapBest && c.GapBest <= c.GapMost) {
		bad("the compound's gaps must rise: least %g, best to %g, most %g mm", c.GapLeast, c.GapBest, c.GapMost)
	}
	if !in.Tightens.ok() {
		bad("the change of the gap at work must run from a least to a most; it is %g to %g mm", in.Tightens.Least, in.Tightens.Most)
	}
	if math.IsNaN(in.ServiceMost) {
		bad("service temperature must be a number of °C")
	}
	if err := errors.Join(errs...); err != nil {
		return BondResult{}, err
	}
	w := words{in.Units}
	r := BondResult{Strength: c.Strength, OffCentre: max(0, in.Gap.Most/2)}
	no := func(format string, a ...any) { r.Reasons = append(r.Reasons, fmt.Sprintf(format, a...)) }
	if in.Unlike {
		r.Strength = r.Strength.by(0.5)
	}
	if in.Gap.Most > c.GapBest {
		b := Band{0.6, 0.8}
		if in.Gap.Least <= c.GapBest {
			b.Most = 1 // the closest pairs keep full strength
		}
		r.Strength = r.Strength.Times(b)
	}
	if in.ServiceMost > 100 {
		r.Strength = r.Strength.by(0.5)
	}
	if in.ServiceMost > c.ServiceMost {
		no("too hot: %s at work, the compound is good to %s", w.degrees(in.ServiceMost), w.degrees(c.ServiceMost))
	}
	switch {
	case in.Gap.Least <= 0:
		no("no room for the compound: the closest pair has a gap of %s; it wipes off. Take a looser fit", w.length(in.Gap.Least))
	case in.Gap.Least < c.GapLeast:
		no("gap too small: %s at the closest pair, %s is the least that fills", w.length(in.Gap.Least), w.length(c.GapLeast))
	}
	if in.Gap.Most > c.GapMost {
		no("gap too wide: %s at the loosest pair, %s is the most it fills", w.length(in.Gap.Most), w.length(c.GapMost))
	}
	r.Cautions = Cautions(ByBond)
	switch opens := -in.Tightens.Least; {
	case opens > partsAt*in.Gap.Least && in.Gap.Least > 0:
		no("comes loose at work: heat or cold opens the gap by %s, and the film is %s at the closest pair; take metals that grow alike", w.length(opens), w.length(in.Gap.Least))
	case opens > stretchMost*in.Gap.Least && in.Gap.Least > 0:
		r.Cautions = slices.Insert(r.Cautions, 0, fmt.Sprintf("At work the gap opens by up to %s, and the film is %s thick on diameter: a set compound follows little of that. Pin the sleeve, or take metals that grow alike.",
			w.length(opens), w.lengths(in.Gap)))
	}
	r.PushOut = r.Strength.by(math.Pi * in.Diameter * in.Length)
	r.Torque = r.PushOut.by(in.Diameter / 2 / 1000)
	r.Notes = bondNotes(w, r.OffCentre, in.Blind)
	return r, nil
}

// A set film follows little of what heat or cold pulls it apart by. Beyond the
// first share of its thickness the person is warned, beyond the second the joint
// is not planned. Common practice, no source.
const stretchMost, partsAt = 0.05, 0.5

// bondNotes are common practice for anaerobic compounds, no source.
func bondNotes(w words, off float64, blind bool) []string {
	n := []string{
		"Bond surfaces: as bored or turned, Ra 0.8 to 3.2 µm (32 to 125 µin); not polished, not oily iron.",
		"Clean both parts with a residue-free solvent until a white cloth stays white; old oil sweats out of grey iron: warm the housing, wipe, and clean again.",
		"Coat both surfaces all round; turn the sleeve as it goes in; wipe off what comes out.",
		fmt.Sprintf("Hold the sleeve central while it sets: it can stand %s off the housing's axis. Three shims or a locating arbor, taken out or left clear of the bond.", w.length(off)),
		"Let it set as its data sheet says: usually handled after some minutes to an hour and full strength after 24 h at 20 °C (68 °F); cold, wide gaps and passive metals take longer or want an activator.",
		"Do not bore it in place before full strength is reached; keep the work cool while boring.",
	}
	if blind {
		n = append(n, "Blind bore: put the compound deep in the bore, not on the sleeve's nose, and leave a vent, or trapped air pushes the sleeve out again.")
	}
	return n
}

// Holding puts press and bond side by side.
type Joint struct {
	Method      Method // ByPress or ByBond
	Torque      Band
	PushOut     Band
	Closure     Band    // 0 for a bond
	HubHoop     float64 // highest tension in the hub bore
	OffCentre   float64
	ServiceMost float64 // 0: not bound by the fit
	Sound       bool
	Reasons     []string
}

// Joint is the press fit for comparison with a bond.
func (r PressResult) Joint() Joint {
	return Joint{Method: ByPress, Torque: r.Torque, PushOut: r.PushOut, Closure: r.Closure,
		HubHoop: r.Stresses[0].Hoop.Most, Sound: len(r.Reasons) == 0, Reasons: r.Reasons}
}

// Joint is the bond for comparison with a press fit. c is its compound.
func (r BondResult) Joint(c Compound) Joint {
	return Joint{Method: ByBond, Torque: r.Torque, PushOut: r.PushOut, OffCentre: r.OffCentre,
		ServiceMost: c.ServiceMost, Sound: len(r.Reasons) == 0, Reasons: r.Reasons}
}
