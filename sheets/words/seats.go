package words

import (
	"borewright/process/fact"
	"borewright/process/fit/seats"
)

// ofSeats are the words of process/fit/seats.
var ofSeats = map[fact.Kind]entry{
	seats.Stands:        text("the outer ring stands against the load: it may be loose, and goes in by hand"),
	seats.StandsSplit:   text("the outer ring stands against the load, and the housing is split: it must not be pinched at the joint"),
	seats.StandsUnloads: text("the outer ring stands against the load, which shocks lift off it for a moment"),
	seats.HeatPinches:   text("heat comes in through the shaft: {1} would pinch the ring by up to {2} at work, so {3}"),
	seats.EitherMoves:   text("the load may come from any side: the outer ring must not creep, and may still move along"),
	seats.EitherStays:   text("the load may come from any side: the outer ring must not creep, and need not move along"),
	seats.EitherShock:   text("heavy shocks from any side: the outer ring is held tight"),
	seats.TurnsLight:    text("the load travels round the outer ring, which must be tight, or it creeps; the load is light"),
	seats.TurnsNormal:   text("the load travels round the outer ring, which must be tight, or it creeps"),
	seats.TurnsHeavy:    text("the load travels round the outer ring, heavily: it must be tight, or it creeps"),
	seats.SoftHousing:   text("light alloy gives: one letter tighter"),
	seats.ThinHousing:   text("a thin wall gives: one letter tighter"),
	seats.SplitPinches:  text("a split housing pinches the ring at its joint: K7 at the most; a housing that is not split is better here"),
	seats.ShaftTurns:    text("the load travels round the inner ring, which must be tight, or it creeps"),
	seats.ShaftSlides:   text("the inner ring stands against the load, and must slide along the shaft"),
	seats.ShaftStands:   text("the inner ring stands against the load, and need not slide"),
	seats.ShockIsHeavy:  text("shock is counted as a heavy load"),

	seats.LoosensAtWork: text("At work the ring can be {1} loose and creep: take a tighter letter, a stop against turning, or a housing of iron."),
	seats.StillPinched:  text("At work the tightest pair is pinched by up to {1}: ask for more internal clearance, or keep the shaft cooler."),
	seats.GrowsAway:     text("At work the housing grows {1} away from the ring: hold it against turning where that matters."),
	seats.CannotSlide:   text("A ring that is tight does not slide: let the other ring move along, or take a bearing that gives inside."),
	seats.SoftShaft:     text("A hollow shaft, or one that is not of steel, gives: take one letter tighter where its bore is more than half its outside."),
	seats.SoftStands:    text("A light alloy housing grows more than the ring: state --at-work to see what it does."),
	seats.SplitRelief:   text("Relieve the bore at the joint, so that the ring is not pinched there; bore it with the cap torqued."),
	seats.TakesInternal: text("Of its interference, up to {1}, the seat takes 70 to 90 % from the bearing's internal clearance: ask for a larger clearance group where that is much."),
	seats.FormOfSeat:    text("Round and parallel within {1}, radial; shoulder square within {2} (half of grade 5, and grade 5)."),
	seats.AdviceOnly:    text("This is a general recommendation. The drawing, and who made the bearing, decide."),

	seats.BySpeed:      text("an oil film at a surface speed of {1}: {2} thousandths of the diameter in the middle"),
	seats.ByRule:       text("an oil film: {1} thousandths of the diameter in the middle"),
	seats.ByGrease:     text("grease, as on slow pins: {1} to {2} thousandths of the diameter"),
	seats.ByLiner:      text("a liner that needs no lubricant: {1} thousandths of the diameter in the middle"),
	seats.ByLeast:      text("at least {1}, or nothing gets in between"),
	seats.ShaftWarmer:  text("the shaft at {1} in a housing at {2} takes {3}, which is added"),
	seats.HousingGrows: text("At work the housing opens {1} more than the shaft grows: it runs looser by that."),
	seats.TooFast:      text("{1} is faster than this rule spans ({2}): such a bearing is calculated, not chosen."),
	seats.TooSlow:      text("{1} is too slow for a film of oil: think of grease, or of a lining that runs without."),
	seats.AfterPress:   text("This is the clearance of the bush as pressed: its bore closes as it goes in (borewright sleeve works that out)."),
	seats.RunsAdvice:   text("This is a general recommendation. The drawing, and who made the lining, decide."),
}
