package words

import (
	"borewright/process/fact"
	"borewright/process/sleeve"
)

// ofMade are the words of what a sleeve has besides its diameters.
var ofMade = map[fact.Kind]entry{
	sleeve.AtClock:     text("{1}"),
	sleeve.HolesAt:     text("oil hole Ø{1} at {2:and}, {3} deep in the bore"),
	sleeve.GrooveRound: text("{1} groove, round, {2..3} from the near end, {4} deep"),
	sleeve.GrooveAlong: text("{1} groove along the bore at {5:and}, {2..3} from the near end, {6} wide, {4} deep"),
	sleeve.PinAt:       text("{1} Ø{2} in the joint at {3:and}"),
	sleeve.VentAt:      text("vent groove outside at {1}"),

	sleeve.CracksAt:      text("{1}: at the {2} it raises the stress to {3}, as a brittle metal feels it, and {4} is allowed; put it where no press fit is, or take less interference, more wall or a bond"),
	sleeve.YieldsAt:      text("{1}: the section that it leaves at the {2} bears {3}, and {4} is allowed; make it smaller, or take less interference"),
	sleeve.RaisedMost:    text("A hole or groove raises the stress of a pressed ring: {1}, at the {2}, by {3}, from {4} to {5} at its edge. Break and smooth that edge: a crack begins there. Where the load comes and goes, ask a strength engineer."),
	sleeve.SeatNotFaced:  text("The seat of the {1} is not faced: it bears on its high places, and may pull the sleeve out of square. Face it from this line-up if it can be reached."),
	sleeve.GrooveDeep:    text("{1}: deeper than a third of the wall, {2}, which is usual."),
	sleeve.GrooveOpen:    text("{1}: it ends nearer than {2} to the end of the sleeve, and the oil runs out there. Be sure that this is meant."),
	sleeve.HoleNearEnd:   text("The oil hole Ø{1}, {2} deep in the bore, is less than the wall, {3}, from the end of the sleeve: the ring is weak there when it is pressed."),
	sleeve.HoleMeetsNone: text("The oil hole Ø{1}, {2} deep in the bore, meets none of the oil grooves: be sure that this is meant."),
	sleeve.PinAtThin:     text("The {1} at {2} stands in the thin side of the housing ({3}): put it on the thick side."),
	sleeve.CutKnocks:     text("The cut inside crosses grooves along the bore: the edge knocks at each turn. Fill them with hard wax or a fitted strip if the finish shows it, and gauge beside them."),
	sleeve.PinHolds:      text("The seat alone is short of the torque; pin or screw alone bears {1} it ({2} wanted), if it fits its hole well. Friction and pin are not added: they do not share alike."),
	sleeve.FlangeNoWay:   text("the flange, {1}, does not pass \"{2}\" ({3}) to its seat; put it at the other end, or make it smaller"),
	sleeve.MouthBeyond:   text("the {1} at the mouth takes a bit set to Ø{2}, and the cutter goes to Ø{3}; state cutter.most where the bit does reach, or leave it to the hand"),
	sleeve.MouthMaySing:  text("the {1} at the mouth takes {2} of edge at once and is likelier to sing than not: the bar stands {3}. Turn as slowly as the mill goes, or feed by hand in short cuts, or leave it to a file and scraper"),
	sleeve.MouthNoWay:    text("the bit of the {1} at the mouth, set to Ø{2}, does not pass \"{3}\" ({4}); make it smaller, or cut it by hand"),
	sleeve.FlangeFarEnd:  text("The flange is at the far end: the sleeve goes in from there."),

	sleeve.FaceSeat:     text("Face the seat of the {1} square to the bore, in the same line-up, before anything is unclamped; break the edge so that the corner of the sleeve does not foul."),
	sleeve.CutRecess:    text("Cut the counterbore of the {1} as the card of the visit says, in the same line-up, before anything is unclamped; its bottom clean to the corner."),
	sleeve.SeatAsFound:  text("Look at the seat of the {1}: clean, no burr, no dent standing up. A dial on it, spindle turned by hand, shows how square it is; write it down."),
	sleeve.CutGrooves:   text("{1:A groove|Grooves} inside: cut on the lathe before the sleeve goes in, edges rounded; measured and written on the sleeve."),
	sleeve.DrillOnBench: text("Drill on the bench: Ø{1} at {2:and}, {3} from the near end, edges broken, before the last cut inside on the lathe. Scribe 12 o'clock on the end face."),
	sleeve.DrillAtHome:  text("Drill through the holes of the housing: Ø{1} at {2:and}, {3} deep in the bore, before the last cut inside. Slow as the drill breaks through; break the edges with a scraper, chips out by brush."),
	sleeve.SetByLine:    text("Scribe {1} on the housing and on the sleeve's end face: it goes in line to line, and cannot be turned once it grips."),
	sleeve.StopBears:    text("The {1} bears all round: a feeler of {2} goes in nowhere. Where it does, the sleeve is not all the way in, or its seat is not square."),
	sleeve.PinIn:        text("Drill half in the sleeve and half in the housing for a {1} Ø{2}, {3} deep, at {4:and}, from the {5} end: small pilot first, since the drill pulls toward the softer part. Put it in and secure it below the face."),
	sleeve.OilWayFree:   text("Clear the oil ways with a brush and rinse them; light or oil must show at every hole."),

	sleeve.LatheFlange:  text("Turn the flange to Ø{1}, {2} thick, at the {3} end; its seat square to the outside in the same chucking, the corner undercut or its radius smaller than the broken edge of the housing."),
	sleeve.TurnGroove:   text("Turn the {1}: to Ø{2} before assembly; edges rounded, no burr."),
	sleeve.CutAlong:     text("Plane or mill the {1}: Ø{2} over its bottom before assembly; ends run out smoothly, edges rounded."),
	sleeve.StopOfSleeve: text("Stop"),
	sleeve.GrooveOf:     text("Groove, {1}"),
	sleeve.PinOfJoint:   text("Across the joint"),
	sleeve.VentStated:   text("{1} at {2}{?, {3} wide}{?, {4} deep}: along the whole seat, or through the bottom; trapped air and oil push the sleeve back or burst a thin wall."),
	sleeve.FlangeHow:    text("flange Ø{1}, {2} thick, at the {3} end: it bears on the face of the housing and must be backed all round."),
	sleeve.ShoulderHow:  text("the sleeve's far end bears on the step of the housing: clean corner there, the sleeve's edge broken so that it bears on the face and not in the corner."),
	sleeve.GrooveHow:    text("{1}; Ø{2} as turned."),
	sleeve.SealHow:      text("{1}; Ø{2} as turned. Width, depth and surface as the seal's own sheet asks; nothing crosses it."),
	sleeve.HoleBench:    text("Ø{1} at {2:and}, {3} from the near end: drilled on the bench, before the bore is finished; set by a scribed line."),
	sleeve.HoleHome:     text("Ø{1} at {2:and}, {3} from the near end: drilled through the holes of the housing when the sleeve is in, before the last cut inside."),
	sleeve.PinHow:       text("{1} Ø{2} × {3} at {4:and}, from the {5} end, half in each part; alone it holds about {6}."),
}
