package doubt

import "borewright/process/fact"

// What a careful colleague would ask about a job.
const (
	AskRelief     fact.Kind = "job.relief"    // station
	AskSleeve     fact.Kind = "job.sleeve"    // station, size asked for, size now
	AskStock      fact.Kind = "job.stock"     // station, from, to, by
	AskLimits     fact.Kind = "job.limits"    // station, tolerance
	AskRoundness  fact.Kind = "job.roundness" // station, roundness, tolerance
	AskUnseen     fact.Kind = "job.unseen"    // station, depth, degrees
	AskWorn       fact.Kind = "job.worn"      // station, deepest wear on radius, wall
	AskOffset     fact.Kind = "job.offset"    // station
	AskReadings   fact.Kind = "job.readings"  // station, least reading, diameter stated
	AskAxis       fact.Kind = "job.axis"      // station
	AskShoulder   fact.Kind = "job.shoulder"  // station, the smaller one, room between them, room that the cutter needs
	AskStandoff   fact.Kind = "job.standoff"
	AskChoose     fact.Kind = "job.choose"
	AskNose       fact.Kind = "job.nose"            // room
	AskMouth      fact.Kind = "job.mouth"           // standoff
	AskSetBack    fact.Kind = "job.set back"        // standoff taken
	AskSpeed      fact.Kind = "job.speed"           // limit, machine, its fastest
	AskSpring     fact.Kind = "job.spring"          // of a finish, of a rough pass
	AskSleeveWall fact.Kind = "job.sleeve wall"     // station, wall, usual
	AskWall       fact.Kind = "job.wall"            // station
	AskFit        fact.Kind = "job.fit"             // fit
	AskGap        fact.Kind = "job.gap"             // gap, usual least and most
	AskSweep      fact.Kind = "job.sweep"           // station, degrees unseen
	AskDial       fact.Kind = "job.dial"            // station, by
	AskLead       fact.Kind = "job.lead"            // angle, what is left of 90°
	AskMaterial   fact.Kind = "job.material source" // file
	AskCutter     fact.Kind = "job.cutter source"   // file
	AskBar        fact.Kind = "job.bar source"      // file
	AskMachine    fact.Kind = "job.machine source"  // file
)

// OfTools is whether a doubt is one of the bar or of its cutter, where several cut.
func OfTools(k fact.Kind) bool {
	switch k {
	case AskShoulder, AskNose, AskSetBack, AskLead, AskCutter, AskBar:
		return true
	}
	return false
}
