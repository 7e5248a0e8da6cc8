package fit

import (
	"borewright/process/fact"
	"borewright/process/qty"
)

// Load is what a joint bears at work.
type Load int

// The loads.
const (
	Steady    Load = iota
	Swelling       // comes and goes, one way
	Reversing      // one way and the other
	Shock
)

func (l Load) String() string { return [...]string{"steady", "swelling", "reversing", "shock"}[l] }

// Wet is what reaches a joint at work.
type Wet int

// What there is.
const (
	Dry     Wet = iota
	Oil         // hot engine or gear oil
	Water       // water, or water and glycol
	Solvent     // fuel, alcohol, solvents
)

func (w Wet) String() string { return [...]string{"nothing", "oil", "water", "solvent"}[w] }

// Factor is a share of the strength that is counted on, and why.
type Factor struct {
	Why fact.Fact
	By  Band
}

// onBond is what a load leaves of a film: swelling 0.3 to 0.5, reversing 0.2 to 0.3, at 10⁷ turns
// (texts on the design of bonded joints, from memory); shock 0.25 to 0.4, because a hard
// film is brittle (from memory). False where nothing is taken off.
func (l Load) onBond() (Factor, bool) {
	switch l {
	case Swelling:
		return Factor{fact.New(CountSwelling), Band{0.3, 0.5}}, true
	case Reversing:
		return Factor{fact.New(CountReversing), Band{0.2, 0.3}}, true
	case Shock:
		return Factor{fact.New(CountShock), Band{0.25, 0.4}}, true
	}
	return Factor{}, false
}

// onFriction is what a load leaves of a joint that holds by friction: it creeps a little at its
// ends with each turn of the load, and frets. Factors of the trade, from memory.
func (l Load) onFriction() (Factor, bool) {
	switch l {
	case Swelling:
		return Factor{fact.New(RubsSwelling), Band{0.7, 0.9}}, true
	case Reversing:
		return Factor{fact.New(RubsReversing), Band{0.5, 0.7}}, true
	case Shock:
		return Factor{fact.New(RubsShock), Band{0.4, 0.6}}, true
	}
	return Factor{}, false
}

// onBond is what a thousand hours leave of a film (tables of the trade, from memory): hot oil
// 0.8 to 1, water and glycol at 85 °C 0.6 to 0.9, fuel and solvents 0.8 to 1.
func (w Wet) onBond() (Factor, bool) {
	switch w {
	case Oil:
		return Factor{fact.New(CountOil), Band{0.8, 1}}, true
	case Water:
		return Factor{fact.New(CountWater), Band{0.6, 0.9}}, true
	case Solvent:
		return Factor{fact.New(CountSolvent), Band{0.8, 1}}, true
	}
	return Factor{}, false
}

// What heat leaves of a compound: all of it up to coolUpTo °C, 0.3 to 0.5 at the hottest it
// stands, and a straight line between. Curves of the trade, from memory: of a compound good to
// 150 °C 0.6 to 0.7 is left at 100, 0.5 to 0.6 at 120 and 0.3 to 0.5 at 150.
const coolUpTo = 60.0

var hottestLeaves = Band{0.3, 0.5}

func onHeat(hot, most float64) (Factor, bool) {
	if hot <= coolUpTo || most <= coolUpTo {
		return Factor{}, false
	}
	gone := min(1, (hot-coolUpTo)/(most-coolUpTo))
	return Factor{fact.New(CountHeat, fact.Value(qty.KindTemperature, hot), fact.Value(qty.KindTemperature, coolUpTo)), Band{1 - gone*(1-hottestLeaves.Least), 1 - gone*(1-hottestLeaves.Most)}}, true
}

// onLength counts no more of a bond's length than its diameter: the load goes through the ends
// of a long film, which give way first (Volkersen; the rule from memory, textbooks say 0.7
// to 1.5 diameters).
func onLength(d, long float64) (Factor, bool) {
	if long <= d {
		return Factor{}, false
	}
	return Factor{fact.New(CountLength, fact.MM(d)), Band{d / long, d / long}}, true
}
