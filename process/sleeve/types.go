// Package sleeve works out the sleeve of a bore: sizes, fit or bond, where its
// inside comes to size, the work on lathe and bench, and the order of the repair.
// The stresses and fits themselves are process/fit's; the visits that it lays out
// are given their passes by process/plan.
package sleeve

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/feature"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
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
	Interference iso286.Range    // sleeve over housing as assembled, on diameter; negative: a gap
	Length       iso286.Range    // limits of its length
	Wall         qty.Length      // least when finished
	Hub          iso286.Range    // metal around the bored housing
	Assumed      bool            // Hub was not stated and is assumed

	InPlace bool             // the way taken: bored in place; false: finished before
	Asked   process.Sleeving // by the job
	Why     fact.Fact        // why this way, with the figures
	Other   fact.Fact        // what the other way would need
	Before  fit.Option
	Here    fit.Option

	Final      *FinalClearance // nil: no mating part is stated
	Effective  iso286.Range    // press: interference that is left once roughness is flattened, and all of it
	Closure    iso286.Range    // of the bore at assembly, on diameter, the way taken
	Pressure   fit.Band        // at the seat, bore at size, at room temperature
	Service    [2]float64      // °C at work
	AtWork     fit.Band        // pressure over them
	Stresses   []fit.Stress    // press: as assembled and at size, the higher
	Uneven     float64         // press: tension of the housing over that of an even ring of its thinnest wall; 0: even
	PressForce []fit.Stroke    // press: along the stroke
	Joints     []fit.Joint     // press and bond side by side, the one taken first
	Assembly   []fit.Assembly  // ways to put it in
	Bonding    []fact.Fact     // bond: cleaning, gap and setting
	Chuck      fit.ChuckResult
	Made       feature.Made   // stop, holes, grooves, pin, lead-in, vent as the job has them
	Raised     []Raised       // press: where holes and grooves raise the stress
	LeadIn     feature.LeadIn // of the nose
	Details    []Detail       // chamfers, lead-in, grooves, holes
	Lathe      []fact.Fact    // the lathe's sequence
	Order      []fit.Step     // of the whole repair, with hold points
	Cautions   []fact.Fact    // of this fit and what was assumed; those of a way of assembly stand with it. No page leaves them out; a program, which cuts and does not assemble, has no room for them
	Stops      []fact.Fact    // what is wrong; empty: nothing
}

// FinalClearance is what the part that goes in finds, on diameter.
type FinalClearance struct {
	Part     [2]qty.Diameter
	Asked    iso286.Range      // by the job: clearance, or what the limits allow
	Expected iso286.Range      // as planned, out-of-round counted; means nothing where the way taken is not known
	AtWork   iso286.Range      // the same over Sleeve.Service, bore and part equally warm
	PartOf   *process.Material // nil: not stated, steel is assumed
	OK       bool
}

// Detail is one feature of the sleeve or its housing.
type Detail struct{ What, How fact.Fact }

// Taken is the way taken.
func (s *Sleeve) Taken() fit.Option {
	if s.InPlace {
		return s.Here
	}
	return s.Before
}
