package words

import (
	"borewright/process/fact"
	"borewright/process/geom"
)

// ofGeom are the words of process/geom: directions, sweeps, worn bores.
var ofGeom = map[fact.Kind]entry{
	geom.ToTheLeft:       text("left"),
	geom.ToTheRight:      text("right"),
	geom.Upward:          text("up"),
	geom.Downward:        text("down"),
	geom.WithTheClock:    text("clockwise"),
	geom.AgainstTheClock: text("counterclockwise"),
	geom.AtNearEnd:       text("near"),
	geom.AtFarEnd:        text("far"),

	geom.TiltAssumed:   text("one bore was swept at one depth, which shows no tilt: its axis is taken as parallel to the spindle, by the machined face that the work is set to"),
	geom.ThreeReadings: text("{1}: three readings cannot tell offset from out-of-round; sweep at eight even clock positions"),
	geom.OneSided:      text("the sweep in {1} at depth {2} leaves {3} to {4} unswept, half the turn or more: an oval reads as an offset there. Sweep that side as well, at eight even clock positions in all; if the dial cannot get there, state out_of_round"),
	geom.LobesAsOffset: text("the places swept in {1} at depth {2} cannot tell {3} lobes from an offset. Sweep at eight even clock positions"),
	geom.OffOneLine:    text("what was swept does not lie on one line as well as the dial reads: uncertainty is raised {1}"),
	geom.TiltUnsure:    text("tilt is known to ±{1:bare} mrad only, worse than setting by a machined face (±{2:bare}): sweep depths further apart, or a face on a wide circle"),

	geom.NoBoreSwept:      text("no bore was swept, so nothing says where the axis is; sweep one"),
	geom.SweepsContradict: text("the sweeps' uncertainties contradict each other"),
	geom.NoLine:           text("the sweeps do not fix a line; sweep another depth or a face"),
	geom.NegativeDoubt:    text("a graduation or a ± figure is below 0; it must be 0 or more"),
	geom.NotATarget:       text(`station "{1}": its depth or the droop there is no number`),
	geom.NoSuchTarget:     text("advice is wanted for station number {1} of {2}"),
	geom.NotATable:        text("table centre at {1}, stop at {2}"),
	geom.PacksInverted:    text("packings at depths {1} and {2}; the far one must be deeper"),

	geom.SweepRefused:     text(`sweep of "{1}" at depth {2}: {3}`),
	geom.UnlikeLengths:    text("{1} clock positions and {2} dial readings"),
	geom.UnderThree:       text("{1} given, at least 3 are needed (4 show form as well)"),
	geom.NoCircleSwept:    text("diameter {1}; a face sweep needs that of the circle the dial runs on"),
	geom.NotADial:         text("stylus angle {1}, droop {2} or out-of-round {3}"),
	geom.NotADialReading:  text("reading number {1} is no number"),
	geom.ClocksTooNear:    text("fewer than three different clock positions, or all near one; spread them round"),
	geom.OffsetOverRadius: text("offset {1} is more than the bore's radius"),

	geom.TooFewReadings: text("too few readings: {1} given, at least {2} are needed"),
	geom.NotAReading:    text("not a reading: number {1} is {2} at {3}; a radius must be a number over 0 at a clock position in degrees"),
	geom.ReadingsOnLine: text("no such circle: the readings lie on one line or at fewer than three places; spread them round the bore"),
	geom.OpenInside:     text("no such circle: the readings leave a side of the bore open, so no largest inscribed circle exists; read all round"),
	geom.OpenZone:       text("no such circle: the readings leave a side of the bore open, so the zone has no middle among them; read all round"),
	geom.NoDepthRead:    text("no depth was read"),
	geom.NotADepth:      text("depth number {1} is no number"),
	geom.AtThatDepth:    text("at depth {1}: {2}"),
}
