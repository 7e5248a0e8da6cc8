package words

import (
	"borewright/process/fact"
	"borewright/process/sleeve"
)

// ofSleeve are the words of process/sleeve.
var ofSleeve = map[fact.Kind]entry{
	sleeve.NoSleeve:       text("repair is \"sleeve\" and the job has no [sleeve]"),
	sleeve.HubAssumed:     text("The metal around the housing is not stated: {1..2} is assumed, a third to two thirds of the diameter. Measure it, and state wall and wall_most; pressure, stress and closure hang on it."),
	sleeve.AxisUnstated:   text("The finished axis can stand {1} off; no location is stated, so the size limits were made to hold it."),
	sleeve.GoesTight:      text("The part that goes in is free in the room and can be {1} tight at work: ask for more clearance, or be sure of the temperatures."),
	sleeve.ComesLoose:     text("The part that goes in is tight in the room and can be {1} loose at work: hold it endwise, or take a tighter fit."),
	sleeve.NoLoad:         text("No load is stated. Hold what the {1} carries at the least, in the table, against what the bore has to carry; a pin, screw or shoulder takes what is missing."),
	sleeve.ShortOfLoad:    text("held by {1} the seat bears {2} the load stated at the least, {3} are wanted; take a tighter fit or the other way of holding, or pin it and state no load"),
	sleeve.FlangeClosed:   text("the flange, {1}, is at the far end, and from there the sleeve cannot go in: \"{2}\" is closed; put the flange at the near end"),
	sleeve.FarEndClosed:   text("the sleeve, {1}, does not pass \"{2}\" ({3}) to its seat, and from the far end \"{4}\" is closed"),
	sleeve.NarrowBothEnds: text("the sleeve, {1}, does not pass \"{2}\" ({3}) to its seat, nor \"{4}\" ({5}) from the far end"),
	sleeve.FromTheFarEnd:  text("the sleeve, {1}, does not pass \"{2}\" ({3}) to its seat from the spindle's side: it goes in from the far end"),

	sleeve.MillStopped:   text("To bore in place it would take a set-up that can plan the cut; this one is stopped: {1}"),
	sleeve.MillWouldTake: text("To bore in place would take a second visit: {1} passes, about {2} and lining up again; it would hold {3..4}, Ra {5}."),
	sleeve.MillNeeds:     orAsNamed("To bore in place it would need "),
	sleeve.LatheNeeds:    orAsNamed("Finished before it would need "),
	sleeve.LatheAsWell:   text("Finished before it would land as well, without a second visit."),
	sleeve.NeedLimits:    text("limits {1} apart where they are {2}{?, or a lathe or hone that holds {3} where {4} is counted on}{? (closure alone differs by {5})}"),
	sleeve.NeedLocation:  text("a location of {1} where {2} is asked for"),
	sleeve.NeedRoundness: text("a roundness of {1} where {2} is asked for"),

	sleeve.Clear:        text("{1..2} of clearance"),
	sleeve.Tight:        text("{1..2} of interference"),
	sleeve.TightToLoose: text("{1} tight to {2} loose"),
	sleeve.PartNotKnown: text("Measure the part that goes in against the bore: what it will find is not known, {1} is asked for."),
	sleeve.MeasurePart:  text("Measure the part that goes in against the bore: it finds {1} on diameter, {2} is asked for."),
	sleeve.TryPart:      text("Try the part that goes in: {1} on diameter, {2} asked for; it slides and turns by hand, nothing forced."),

	sleeve.ForPress: text("{1}, friction {2..3}, bore at size"),
	sleeve.ForBond:  text("{1} compound, {2..3} in shear here, gap {4..5}"),

	sleeve.HousingVisit:  text("bore the housing for the sleeve"),
	sleeve.InsideVisit:   text("bore the sleeve to size in place"),
	sleeve.MakeToHousing: text("The sleeve comes finished from the lathe: make it to this housing as measured, by the sleeve's own sheet, and put it in by its order of work."),
	sleeve.MeasureAtHome: text("Measure the finished bore when both parts are at one temperature: limits {1..2:limits}."),
	sleeve.SleeveSigned:  text("Sleeve in its place, and every hold point of its order of work signed: housing, sleeve, bore after assembly."),
	sleeve.MeasureInside: text("Measure the inside at both ends, two clock positions, before the cutter is set: expect {1..2}."),
	sleeve.HomeSize:      text("diameter at three depths, four clock positions: expect {1..2}"),
	sleeve.HomeLimits:    text("limits {1..2:limits}"),
	sleeve.EnterHome:     text("Enter it; the record of the bore is then whole."),
	sleeve.LineUpAfresh:  text("Line up again on the true axis, by the swept stations and not by the sleeve."),

	sleeve.LeadInOfNose:   text("Lead-in, nose of the sleeve"),
	sleeve.NoseOfSleeve:   text("Nose of the sleeve"),
	sleeve.MouthOfHousing: text("Housing mouth"),
	sleeve.ReachOfSeat:    text("Reaching the seat"),
	sleeve.BothEnds:       text("Inside, both ends"),
	sleeve.VentBlind:      text("Vent, blind end"),
	sleeve.Ends:           text("Ends"),
	sleeve.OilGrooves:     text("Oil grooves"),
	sleeve.OilHoles:       text("Lubrication holes"),

	sleeve.MouthClean:    text("edge broken {1} × 45°, no burr, no step: a sharp corner shaves the sleeve."),
	sleeve.MouthBroken:   text("edge broken {1} × 45°."),
	sleeve.NoseChamfer:   text("chamfer {1} × 30°: it takes the compound along."),
	sleeve.SeatDeep:      text("it begins {1} inside: have a guided ram that long, or a draw rod from the far end."),
	sleeve.SeatDeepBlind: text("it begins {1} inside: have a guided ram that long."),
	sleeve.InsideChamfer: text("chamfer {1} × 45° beyond the finished bore, cut after the bore is at size."),
	sleeve.VentGroove:    text("one flat or groove {1} deep along the whole outside, or a hole at the bottom: trapped air and oil push the sleeve back. For a puller two tapped holes in its face, or a groove at the far end."),
	sleeve.EndsShort:     text("the sleeve stops {1} under the face at most and stands out nowhere; a shoulder or a screw on the joint line holds it where thrust could walk it out."),
	sleeve.EndsStandOut:  text("the sleeve stands out of its housing{?, {1} at the end that the spindle enters}{?, {2} at the far end}."),
	sleeve.Grooves:       text("inside, {1} deep at most (a third of the wall of {2}), edges rounded, {3} short of both ends."),
	sleeve.HolesAtHome:   text("once the sleeve is in, before the last cut inside: drill through the old holes of the housing, scrape the edges, chips out; none within one wall ({1}) of an end."),
	sleeve.HolesOnBench:  text("drill on the bench to match the holes of the housing, {2} larger, before the lathe finishes it; scribe a line to set it by; none within one wall ({1}) of an end."),

	sleeve.LatheRough:      text("Rough outside and inside, {1} left on each, from tube or bar with a stub to hold it by."),
	sleeve.LatheSlack:      text("Slack the chuck, let it cool, take hold again lightly: drawn tube moves when its skin is off."),
	sleeve.LatheFinish:     text("Finish the inside to {1..2:limits}, to the surface asked for; nothing is cut there after assembly."),
	sleeve.LatheBore:       text("Bore the inside to {1..2:limits}; the rest, {3..4} on diameter, is for the mill."),
	sleeve.LatheOutside:    text("Without letting go, or on an expanding mandrel in the finished bore, turn the outside to {1}; runout to the inside {2} TIR."),
	sleeve.ByTheFit:        text("{1..2:limits}, by the limits of the fit"),
	sleeve.LessThanHousing: text("the housing as measured less {1..2:limits}"),
	sleeve.MoreThanHousing: text("the housing as measured plus {1..2:limits}"),
	sleeve.LatheLength:     text("Chamfer, lead-in, length {1..2:limits}; part off, break every edge."),
	sleeve.LatheMeasure:    text("Measure cold, off the chuck, at both ends and the middle, four clock positions."),
}

// orAsNamed ends a sentence with what is needed, or points back where no figure
// can be put on it.
func orAsNamed(begins string) entry {
	return func(f fact.Fact) string {
		if f.Nth(1) == nil {
			return begins + "what is named above."
		}
		return begins + "{1:;}."
	}
}
