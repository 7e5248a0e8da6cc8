package fit

import (
	"borewright/process/fact"
)

// What an input that makes no sense is refused with. The name that some begin
// with is the part: "hub", "sleeve".
const (
	Refused         fact.Kind = "fit.refused"          // the facts that are wrong with an input
	BadDiameter     fact.Kind = "fit.bad.diameter"     // of the interface
	BadContact      fact.Kind = "fit.bad.contact"      // length of contact
	BadGap          fact.Kind = "fit.bad.gap"          // least, most
	BadStrength     fact.Kind = "fit.bad.strength"     // of a compound: least, most
	BadGaps         fact.Kind = "fit.bad.gaps"         // of a compound: least, best, most
	BadTightening   fact.Kind = "fit.bad.tightening"   // least, most
	BadHottest      fact.Kind = "fit.bad.hottest"      // no arguments
	BadBore         fact.Kind = "fit.bad.bore"         // of the sleeve: interface, bore
	BadOutside      fact.Kind = "fit.bad.outside"      // of the hub: interface, outside
	BadOutsideMost  fact.Kind = "fit.bad.outside_most" // of the hub: most outside, least
	BadInterference fact.Kind = "fit.bad.interference" // least, most
	BadFriction     fact.Kind = "fit.bad.friction"     // least, most
	BadRoughness    fact.Kind = "fit.bad.roughness"    // Rz of hub and sleeve, most
	BadService      fact.Kind = "fit.bad.service"      // lowest and highest allowed, coldest, hottest
	BadRoom         fact.Kind = "fit.bad.room"         // lowest and highest allowed, the temperature
	BadCapacity     fact.Kind = "fit.bad.capacity"     // no arguments
	BadModulus      fact.Kind = "fit.bad.modulus"      // part, modulus
	BadPoisson      fact.Kind = "fit.bad.poisson"      // part, ratio
	BadExpansion    fact.Kind = "fit.bad.expansion"    // part, expansion
	BadTensile      fact.Kind = "fit.bad.tensile"      // part, tensile strength
	BadYield        fact.Kind = "fit.bad.yield"        // part, yield strength
	BadRing         fact.Kind = "fit.bad.ring"         // inside, outside
	BadGrip         fact.Kind = "fit.bad.grip"         // width, modulus, grip
	BadJaws         fact.Kind = "fit.bad.jaws"         // how many
	BadCleanUp      fact.Kind = "fit.bad.cleanup"      // size
	BadFinish       fact.Kind = "fit.bad.finish"       // low and high limit
	BadSizes        fact.Kind = "fit.bad.sizes"        // no arguments
	BadLimits       fact.Kind = "fit.bad.limits"       // no arguments
	NoWall          fact.Kind = "fit.no_wall"          // outside of the sleeve, bore
	NoBore          fact.Kind = "fit.no_bore"          // allowance
	NoOutside       fact.Kind = "fit.no_outside"       // clean-up size, wall, largest outside
)

// What is wrong with a fit, or to mind of it.
const (
	PressLoose    fact.Kind = "fit.press.loose"     // clearance of the loosest pair
	PressNoGrip   fact.Kind = "fit.press.no_grip"   // interference, least and most, what roughness takes
	PressMayGrip  fact.Kind = "fit.press.may_grip"  // least interference, what roughness takes, turned larger by, least and most
	PressLoosens  fact.Kind = "fit.press.loosens"   // what is lost, coldest and hottest at work, what there is
	PressHalfLost fact.Kind = "fit.press.half_lost" // what is lost, of what
	Cracks        fact.Kind = "fit.cracks"          // place, stress, allowed, criterion
	Yields        fact.Kind = "fit.yields"          // place, stress, allowed, criterion
	NoWayTogether fact.Kind = "fit.no_way_together" // why it cannot be pressed
	HubBrittle    fact.Kind = "fit.hub.brittle"     // no arguments
	HubUneven     fact.Kind = "fit.hub.uneven"      // thinnest and thickest wall, tension over an even ring's, clock position of the thinnest where it is known
	HubThin       fact.Kind = "fit.hub.thin"        // outside over interface
	BlindHousing  fact.Kind = "fit.hub.blind"       // no arguments
	EndsOut       fact.Kind = "fit.hub.out"         // the same, where the sleeve stands out
	EndsDiffer    fact.Kind = "fit.hub.ends"        // taper of the bore, closure over an endless joint's, least and most, tension over its

	ByVonMises           fact.Kind = "fit.criterion.mises"       // share of the yield strength
	ByBrittleTension     fact.Kind = "fit.criterion.tension"     // share of the tensile strength
	ByBrittleCompression fact.Kind = "fit.criterion.compression" // share, and how many times the tensile strength

	BondTooHot    fact.Kind = "fit.bond.too_hot"   // hottest at work, what the compound stands
	BondNoRoom    fact.Kind = "fit.bond.no_room"   // gap of the closest pair
	BondGapSmall  fact.Kind = "fit.bond.gap_small" // gap of the closest pair, least that fills
	BondGapWide   fact.Kind = "fit.bond.gap_wide"  // gap of the loosest pair, most it fills
	BondLoosens   fact.Kind = "fit.bond.loosens"   // by how much the gap opens, the film at the closest pair
	BondStretched fact.Kind = "fit.bond.stretched" // by how much the gap opens, the film, least and most

	OutsideSmall fact.Kind = "fit.outside.small" // housing, what the old bore needs, smallest standard size that does
	OutsideThin  fact.Kind = "fit.outside.thin"  // outside, wall, least wall, smallest standard size that does
	AtSize       fact.Kind = "fit.at_size"       // what is wrong with the bore at size
)

// How a sleeve can be put in, and why not.
const (
	PressHome        fact.Kind = "fit.press.home"   // force with the sleeve home, least and most, what the press has
	PressBeyond      fact.Kind = "fit.press.beyond" // force with the sleeve home, least and most, what the press has
	KeptCool         fact.Kind = "fit.heat.not"     // why, as the job writes it
	HeatTooMuch      fact.Kind = "fit.heat.beyond"  // needed, limit, what the limit leaves, clearance wanted, share of the free growth where it is heated in one place
	HeatOpens        fact.Kind = "fit.heat.opens"   // needed, clearance wanted, limit, share of the free growth where it is heated in one place
	HeatOpensNothing fact.Kind = "fit.heat.nothing" // share of the free growth, limit, what it leaves, clearance wanted
	CoolLeaves       fact.Kind = "fit.cool.leaves"  // bath, warmer by, clearance, clearance wanted
	CoolTooLarge     fact.Kind = "fit.cool.short"   // bath, warmer by, too large by
	HeatAndCool      fact.Kind = "fit.both.leave"   // housing, bath, clearance, clearance wanted
	SlidesInWithGap  fact.Kind = "fit.bond.slides"  // gap, least and most
)

// Cautions of a way of assembly. They have no arguments, but where they say so.
const (
	MindLocalCodes     fact.Kind = "fit.mind.local_codes"
	MindHeatSlowly     fact.Kind = "fit.mind.heat.slowly"
	MindHeatClean      fact.Kind = "fit.mind.heat.clean"
	MindHeatWhole      fact.Kind = "fit.mind.heat.whole"
	MindHeatZone       fact.Kind = "fit.mind.heat.zone" // share of the free growth that the bore gets
	MindHome           fact.Kind = "fit.mind.home"      // time until it grips, time in air
	MindHotParts       fact.Kind = "fit.mind.heat.parts"
	MindRehearse       fact.Kind = "fit.mind.heat.rehearse"
	MindColdSkin       fact.Kind = "fit.mind.cold.skin"
	MindFrost          fact.Kind = "fit.mind.cold.frost"
	MindColdBrittle    fact.Kind = "fit.mind.cold.brittle"
	MindPressGuard     fact.Kind = "fit.mind.press.guard"
	MindPressStart     fact.Kind = "fit.mind.press.start"
	MindPressPad       fact.Kind = "fit.mind.press.pad"
	MindDryIceAir      fact.Kind = "fit.mind.dry_ice.air"
	MindDryIceBath     fact.Kind = "fit.mind.dry_ice.bath"
	MindNitrogenAir    fact.Kind = "fit.mind.nitrogen.air"
	MindNitrogenVessel fact.Kind = "fit.mind.nitrogen.vessel"
	MindBondSheet      fact.Kind = "fit.mind.bond.sheet"
	MindBondSetting    fact.Kind = "fit.mind.bond.setting"
	MindBondHeat       fact.Kind = "fit.mind.bond.heat"
	MindBlindGas       fact.Kind = "fit.mind.blind.gas"
)

// What of the strength of a joint is not counted on, and why. The one on heat has the
// hottest at work and from where it counts, the one on length how much of it counts.
const (
	CountUnlike    fact.Kind = "fit.count.unlike"
	CountGap       fact.Kind = "fit.count.gap"
	CountHeat      fact.Kind = "fit.count.heat"
	CountLength    fact.Kind = "fit.count.length"
	CountSwelling  fact.Kind = "fit.count.swelling"
	CountReversing fact.Kind = "fit.count.reversing"
	CountShock     fact.Kind = "fit.count.shock"
	RubsSwelling   fact.Kind = "fit.rubs.swelling"
	RubsReversing  fact.Kind = "fit.rubs.reversing"
	RubsShock      fact.Kind = "fit.rubs.shock"
	CountOil       fact.Kind = "fit.count.oil"
	CountWater     fact.Kind = "fit.count.water"
	CountSolvent   fact.Kind = "fit.count.solvent"
)

// Notes on bonding. Only the one on centring has an argument.
const (
	BondSurfaces fact.Kind = "fit.bond.surfaces" // roughness, least and most
	BondClean    fact.Kind = "fit.bond.clean"
	BondCoat     fact.Kind = "fit.bond.coat"
	BondCentre   fact.Kind = "fit.bond.centre" // how far off the sleeve can stand
	BondSet      fact.Kind = "fit.bond.set"    // heat of the room
	BondWait     fact.Kind = "fit.bond.wait"
	BondBlind    fact.Kind = "fit.bond.blind"
)

// Ways to hold a thin ring that must stay round. Only the one on six pads has
// arguments.
const (
	SoftJaws    fact.Kind = "fit.chuck.soft_jaws"
	SixPads     fact.Kind = "fit.chuck.six_pads" // out of round so, and in three jaws
	EndClamp    fact.Kind = "fit.chuck.end_clamp"
	BoreFirst   fact.Kind = "fit.chuck.bore_first"
	LeaveOnStub fact.Kind = "fit.chuck.stub"
)

// Where the inside of a sleeve comes to size, and why.
const (
	FinishedBefore   fact.Kind = "fit.order.before"          // no arguments
	BoredInPlace     fact.Kind = "fit.order.in_place"        // no arguments
	AskedLands       fact.Kind = "fit.order.asked_lands"     // order
	AskedMisses      fact.Kind = "fit.order.asked_misses"    // order, why
	OtherLands       fact.Kind = "fit.order.other_lands"     // order
	OtherMisses      fact.Kind = "fit.order.other_misses"    // order, why
	LatheLands       fact.Kind = "fit.order.lathe_lands"     // no arguments
	LatheLandsMostly fact.Kind = "fit.order.lathe_mostly"    // chance, what does not at the worst
	MillNotNeeded    fact.Kind = "fit.order.mill_not_needed" // no arguments
	MillMisses       fact.Kind = "fit.order.mill_misses"     // why
	LatheMisses      fact.Kind = "fit.order.lathe_misses"    // why, chance
	NeitherLands     fact.Kind = "fit.order.neither"         // no arguments
	BecauseBoth      fact.Kind = "fit.order.because"         // one reason, the other
	OrderMisses      fact.Kind = "fit.order.misses"          // order, why
	SizeBeyond       fact.Kind = "fit.misses.size"           // size, low and high, across for what is out of round, axis off, both together, low and high, limits, low and high
	ClosureDiffers   fact.Kind = "fit.misses.closure"        // by, least, most
	AxisOff          fact.Kind = "fit.misses.axis"           // off, allowed
	OutOfRound       fact.Kind = "fit.misses.round"          // by, allowed
	TooRough         fact.Kind = "fit.misses.rough"          // Ra, allowed
	NotInPlace       fact.Kind = "fit.misses.in_place"       // why it cannot be bored in place
)

// The order of work. Limits of size are a low and a high.
const (
	HousingBored    fact.Kind = "fit.step.housing_bored"    // housing as measured, least and most
	BoreHousing     fact.Kind = "fit.step.bore_housing"     // limits
	MeasureHousing  fact.Kind = "fit.step.measure_housing"  // no arguments
	TurnSleeve      fact.Kind = "fit.step.turn"             // outside, limits of the bore
	TurnByLimits    fact.Kind = "fit.turn.limits"           // limits of the outside
	TurnOver        fact.Kind = "fit.turn.over"             // over the housing, least and most, outside
	TurnUnder       fact.Kind = "fit.turn.under"            // under the housing, least and most, outside
	TurnAbout       fact.Kind = "fit.turn.about"            // limits of the outside
	TurnToThisOne   fact.Kind = "fit.turn.this_one"         // limits of the outside
	StepLeadIn      fact.Kind = "fit.step.lead_in"          // the lead-in
	MeasureOver     fact.Kind = "fit.step.measure_over"     // outside less housing, least and most
	StepVent        fact.Kind = "fit.step.vent"             // no arguments
	StepAssemble    fact.Kind = "fit.step.assemble"         // the methods that are possible; none: not there
	StepTap         fact.Kind = "fit.step.tap"              // no arguments
	MeasureClosed   fact.Kind = "fit.step.measure_closed"   // closure, least and most, out of round by an uneven wall, clock position of the thinnest where it is known
	MeasureUnder    fact.Kind = "fit.step.measure_under"    // housing less outside, least and most
	StepBond        fact.Kind = "fit.step.bond"             // no arguments
	StepStrength    fact.Kind = "fit.step.strength"         // no arguments
	StepBoreInPlace fact.Kind = "fit.step.bore_in_place"    // what is to come out, least and most
	MeasureFinished fact.Kind = "fit.step.measure_finished" // limits
	MethodNamed     fact.Kind = "fit.method"                // name of a method
	LeadInTaper     fact.Kind = "fit.lead_in"               // angle, length, on diameter
	LeadInShort     fact.Kind = "fit.lead_in.short"         // angle, length, on diameter, interference
)

// refusal gathers what is wrong with an input.
type refusal []fact.Fact

func (r *refusal) bad(k fact.Kind, args ...fact.Arg) { *r = append(*r, fact.New(k, args...)) }

// err is the refusal as an error; nil where nothing is wrong.
func (r refusal) err() error {
	switch len(r) {
	case 0:
		return nil
	case 1:
		return r[0].Err()
	}
	return fact.New(Refused, fact.List(r...)).Err()
}

// unless is an argument that is there where no is false.
func unless(no bool, a fact.Arg) fact.Arg {
	if no {
		return nil
	}
	return a
}
