package words

import (
	"borewright/process"
	"borewright/process/doubt"
	"borewright/process/fact"
)

// jobWords are those of the job as written.
var jobWords = map[fact.Kind]entry{
	process.BarOf:  text("{1} (E {2}, Poisson {3}, {4}, {5} allowed, reach {6}, damping {7} to {8})"),
	process.EdgeOf: text("{1} (class {2}, force factor {3}, edge {4}, least chip {5}, rake {6})"),
	process.AnyOf:  text("any from {1:bare} to {2:bare}"),
	process.Gears:  text("{1}"),
	process.Gear:   text("{1:bare}"),

	process.QuillAtHome: text("the quill home"),
	process.QuillOutBy:  text("the quill out of the spindle nose by {1}"),
	process.NoseFrom:    text("the spindle nose {1} in front of the face"),

	doubt.AskRelief:     text(`station "{1}" has a relief but is not said to be blind: is its end open?`),
	doubt.AskSleeve:     text(`bore "{1}" is sleeved to {2}, larger than it is now ({3}): could it be rebored without a sleeve?`),
	doubt.AskStock:      text(`boring "{1}" from {2} to {3} takes {4} on diameter, more than a fifth of it: is that meant?`),
	doubt.AskLimits:     text(`the limits of "{1}" are {2} apart, more than a fiftieth of its size: is that meant?`),
	doubt.AskRoundness:  text(`the roundness allowed in "{1}", {2}, is wider than its size tolerance, {3}`),
	doubt.AskUnseen:     text(`the readings of "{1}" at {2} leave {3}° unseen: the worst of the wear may lie there`),
	doubt.AskOffset:     text(`readings across "{1}" do not tell where its axis is; state offset, or read the radius from the true axis`),
	doubt.AskReadings:   text(`the readings of "{1}" go down to {2}, well below the diameter stated, {3}`),
	doubt.AskWorn:       text(`the readings of "{1}" say that it is worn by {2} on radius, and the wall is stated as {3}: are readings, diameter and wall in the right unit?`),
	doubt.AskAxis:       text(`nothing tells where the axis of "{1}" stands: no readings and no offset. The plan takes it to be true`),
	doubt.AskShoulder:   text(`behind "{1}" the smaller "{2}" begins after {3}: the cutter needs {4} to run out and would mark its shoulder`),
	doubt.AskStandoff:   text("a standoff is stated, but the table feeds: it is not used"),
	doubt.AskChoose:     text("choose is stated, but the job has its bar and its cutter: nothing is chosen. Leave choose out, or leave the bar or the cutter to the lists"),
	doubt.AskNose:       text("the spindle nose comes within {1} of the face at the end of the cut"),
	doubt.AskMouth:      text("with {1} between nose and face the mouth of the bore can hardly be seen or gauged"),
	doubt.AskSetBack:    text("no standoff is stated: the nose is taken to stand {1} from the face, so that the quill alone brings the tip out to be set"),
	doubt.AskSpeed:      text("the speed limit of {1} is above the fastest that {2} has, {3:bare}"),
	doubt.AskSpring:     text("a finishing pass may spring more ({1}) than a roughing pass ({2}): is that meant?"),
	doubt.AskSleeveWall: text(`the sleeve in "{1}" keeps a wall of {2}; {3} is usual at this size`),
	doubt.AskWall:       text(`no wall is stated for "{1}": the pressure of the sleeve cannot be judged against the casting`),
	doubt.AskFit:        text("the fit {1} can leave clearance at the ends of its limits: gauge both parts and pair them"),
	doubt.AskGap:        text("a bonding gap of {1} is outside the usual {2..3}: see the maker's sheet of the compound"),
	doubt.AskSweep:      text(`the sweep of "{1}" reads only one side of it ({2}° unseen): the centre it gives is a guess`),
	doubt.AskDial:       text(`the dial in "{1}" runs {2}: line the work up nearer first, or check the units`),
	doubt.AskLead:       text("lead = {1} is counted from the direction of feed: the edge lies nearly along the wall. A bit ground {1}° back from square has lead = {2}"),
	doubt.AskMaterial:   text(`the material file "{1}" does not say where its figures come from`),
	doubt.AskCutter:     text(`the cutter material file "{1}" does not say where its figures come from`),
	doubt.AskBar:        text(`the bar material file "{1}" does not say where its figures come from`),
	doubt.AskMachine:    text(`the machine file "{1}" does not say where its figures come from; stiffness above all is better measured`),
}
