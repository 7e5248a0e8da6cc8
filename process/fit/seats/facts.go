package seats

import "borewright/process/fact"

// Why a seat is advised as it is. They have no arguments, but where they say so.
const (
	Stands        fact.Kind = "seats.stands"         // the outer ring stands against the load
	StandsSplit   fact.Kind = "seats.stands.split"   // the same in a split housing
	StandsUnloads fact.Kind = "seats.stands.unloads" // the same, with shocks that lift the load off
	HeatPinches   fact.Kind = "seats.heat"           // class, what it would pinch by, the class instead
	EitherMoves   fact.Kind = "seats.either.moves"
	EitherStays   fact.Kind = "seats.either.stays"
	EitherShock   fact.Kind = "seats.either.shock"
	TurnsLight    fact.Kind = "seats.turns.light"
	TurnsNormal   fact.Kind = "seats.turns.normal"
	TurnsHeavy    fact.Kind = "seats.turns.heavy"
	SoftHousing   fact.Kind = "seats.soft"
	ThinHousing   fact.Kind = "seats.thin"
	SplitPinches  fact.Kind = "seats.split"
	ShaftTurns    fact.Kind = "seats.shaft.turns"
	ShaftSlides   fact.Kind = "seats.shaft.slides"
	ShaftStands   fact.Kind = "seats.shaft.stands"
	ShockIsHeavy  fact.Kind = "seats.shock"
)

// What to mind of a seat.
const (
	LoosensAtWork fact.Kind = "seats.mind.loosens"  // by how much it is loose at the most
	StillPinched  fact.Kind = "seats.mind.pinched"  // by how much
	GrowsAway     fact.Kind = "seats.mind.grows"    // by how much
	CannotSlide   fact.Kind = "seats.mind.slide"    // no arguments
	SoftShaft     fact.Kind = "seats.mind.soft"     // no arguments
	SoftStands    fact.Kind = "seats.mind.alloy"    // no arguments
	SplitRelief   fact.Kind = "seats.mind.relief"   // no arguments
	TakesInternal fact.Kind = "seats.mind.internal" // the most interference
	FormOfSeat    fact.Kind = "seats.mind.form"     // of the seat, of the shoulder
	AdviceOnly    fact.Kind = "seats.mind.advice"   // no arguments
)

// What to say of a running fit.
const (
	BySpeed      fact.Kind = "seats.run.speed"   // speed of the surface, clearance over diameter in thousandths
	ByRule       fact.Kind = "seats.run.rule"    // clearance over diameter in thousandths
	ByGrease     fact.Kind = "seats.run.grease"  // clearance over diameter in thousandths
	ByLiner      fact.Kind = "seats.run.liner"   // clearance over diameter in thousandths
	ByLeast      fact.Kind = "seats.run.least"   // the least clearance
	ShaftWarmer  fact.Kind = "seats.run.warmer"  // shaft, housing, what is added
	HousingGrows fact.Kind = "seats.run.looser"  // what it gains at work
	TooFast      fact.Kind = "seats.run.fast"    // speed of the surface, the most that the rule spans
	TooSlow      fact.Kind = "seats.run.slow"    // speed of the surface
	AfterPress   fact.Kind = "seats.run.pressed" // no arguments
	RunsAdvice   fact.Kind = "seats.run.advice"  // no arguments
)
