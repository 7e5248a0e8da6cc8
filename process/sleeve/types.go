// Package sleeve works out the sleeve of a bore: sizes, fit or bond, where its
// inside comes to size, the work on lathe and bench, and the order of the repair.
// The stresses and fits themselves are process/fit's; the visits that it lays out
// are given their passes by process/plan.
package sleeve

import (
	"borewright/process"
	"borewright/process/qty"
)

// Sleeve is the sleeve of one bore worked out: what the lathe makes, how it is
// held and goes in, and where its inside comes to size. What a tolerance moves
// is given as a range. Stresses and pressures are MPa, temperatures °C.
type Sleeve struct {
	Material     *process.Material
	Fastening    process.Hold
	Fit          string       // "H7/r6"; "H7" where a gap is left for a bond
	Outside      qty.Diameter // nominal, between sleeve and housing
	Housing      [2]qty.Diameter
	Turned       [2]qty.Diameter // limits of the sleeve's outside by the fit alone
	Found        [2]qty.Diameter // the housing as bored and measured, least and most; zero: not yet
	TurnedTo     [2]qty.Diameter // what the outside is turned to for it; zero: not measured, or made by limits alone
	Match        qty.Length      // turned to the housing as measured, ± on diameter about the middle; 0: by limits alone
	Interference Span            // sleeve over housing as assembled, on diameter; negative: a gap
	Length       Span            // limits of its length
	Wall         qty.Length      // least when finished
	Hub          Span            // metal around the bored housing
	Assumed      bool            // Hub was not stated and is assumed

	InPlace bool             // the way taken: bored in place; false: finished before
	Asked   process.Sleeving // by the job
	Why     string           // why this way, with the figures
	Other   string           // what the other way would need
	Before  SleeveWay
	Here    SleeveWay

	Final      *FinalClearance // nil: no mating part is stated
	Effective  Span            // press: interference that is left once roughness is flattened, and all of it
	Closure    Span            // of the bore at assembly, on diameter, the way taken
	Pressure   [2]float64      // at the seat, bore at size, at room temperature
	Service    [2]float64      // °C at work
	AtWork     [2]float64      // pressure over them
	Stresses   []SleeveStress  // press: as assembled and at size, the higher
	PressForce []PressStroke   // press: along the stroke
	Joints     []Joint         // press and bond side by side, the one taken first
	Assembly   []Assembly      // ways to put it in
	Bonding    []string        // bond: cleaning, gap and setting
	Chuck      Chucking
	Details    []Detail    // chamfers, lead-in, grooves, holes
	Lathe      []string    // the lathe's sequence
	Order      []OrderStep // of the whole repair, with hold points
	Cautions   []string    // of this fit and what was assumed; those of a way of assembly stand with it. No page leaves them out; a program, which cuts and does not assemble, has no room for them
	Stops      []string    // what is wrong; empty: nothing
}

// Span is a least and a most.
type Span struct{ Least, Most qty.Length }

// SleeveWay is one of the two orders of work for the sleeve's inside.
type SleeveWay struct {
	Inside    [2]qty.Diameter // limits it is made to before assembly
	Closure   Span            // on diameter, at assembly
	Stock     Span            // left to bore in place, on diameter; zero when finished before
	Low, High qty.Diameter    // what the bore is when all is done, without what is out of round
	Roundness qty.Length      // radial
	OffCentre qty.Length      // radial, beyond the line-up that both ways share
	Ra        qty.Length      // as planned; 0: as asked of the lathe
	Lands     bool
	Why       []string // what does not fit
}

// Known is whether this way could be worked out: what boring in place holds is
// not known where no passes were found for it.
func (w SleeveWay) Known() bool {
	return w.Lands || w.High.Minus(w.Low) > qty.Micrometre/5 // twice what roundedWay rounds to
}

// FinalClearance is what the part that goes in finds, on diameter.
type FinalClearance struct {
	Part     [2]qty.Diameter
	Asked    Span              // by the job: clearance, or what the limits allow
	Expected Span              // as planned, out-of-round counted; means nothing where the way taken is not known
	AtWork   Span              // the same over Sleeve.Service, bore and part equally warm
	PartOf   *process.Material // nil: not stated, steel is assumed
	OK       bool
}

// SleeveStress is the highest stress at one place against what is allowed.
type SleeveStress struct {
	Where               string
	Hoop                [2]float64 // tension positive
	Equivalent, Allowed float64
	Criterion           string
	OK                  bool
}

// PressStroke is the press force at one depth.
type PressStroke struct {
	Depth qty.Length
	Force [2]qty.Force
}

// Joint is what one way of holding does, over the whole range.
type Joint struct {
	Way        string
	Taken      bool
	Torque     [2]qty.Torque
	PushOut    [2]qty.Force
	Closure    Span
	HubHoop    float64    // highest tension in the housing
	OffCentre  qty.Length // radial
	HottestUse float64    // °C; 0: not bound by the joint
	Reserve    float64    // least hold over the load asked for; 0: no load is stated
	Sound      bool
	Note       string // what it assumes
	Reasons    []string
}

// Assembly is one way to put the sleeve in.
type Assembly struct {
	Name            string
	Possible        bool
	HubTo, SleeveTo float64    // °C
	Clearance       qty.Length // on diameter, tightest pair, as they meet; negative: they do not pass
	Force           qty.Force  // most, pressed home; 0: it slides in
	Why             string
	Cautions        []string
}

// Chucking is the thin ring in a three-jaw chuck.
type Chucking struct {
	Grip, GripMost  qty.Force  // of one jaw: taken, and the most that keeps the lobes within Allowed
	Lobes, SixPads  qty.Length // out of round, radial range: three jaws, and six pads with the same grip in all
	Allowed         qty.Length // a quarter of the roundness asked for
	Rough           bool       // the wall is thick for the formula: the figures are low
	OuterDia, Bored qty.Diameter
	Instead         []string
}

// Detail is one feature of the sleeve or its housing.
type Detail struct{ What, How string }

// OrderStep is one step of the order of work; at a hold nothing goes on before
// the measurement is written down and found good.
type OrderStep struct {
	Text string
	Hold bool
}

// Taken is the way taken.
func (s *Sleeve) Taken() SleeveWay {
	if s.InPlace {
		return s.Here
	}
	return s.Before
}
