package rs274

// group is a modal group: of each, a block may name one code.
// Source: NISTIR 6556, 3.4; G70, G71, G95, G97 and M19 from memory of EIA
// RS-274-D, in the groups of the codes they replace.
type group uint8

const (
	noGroup group = iota // not a code that is replayed
	notModal
	motion
	distance
	units
	lengthOffset
	workSystem
	plane
	feedMode
	compensation
	cycleReturn
	path
	speedMode
	groups // G groups end here
	stopping
	turning
	coolant
	gear
	changing
	override
	allGroups
)

var groupNames = [allGroups]string{
	notModal: "not modal", motion: "motion", distance: "distance (absolute or incremental)", units: "units",
	lengthOffset: "length offset", workSystem: "work offset", plane: "plane", feedMode: "feed mode",
	compensation: "cutter compensation", cycleReturn: "cycle return", path: "path", speedMode: "speed mode",
	stopping: "stop", turning: "spindle", coolant: "coolant", gear: "spindle range", changing: "tool change", override: "override",
}

// gGroup is the group of each G code that is replayed, by tenths.
var gGroup = [1000]group{
	0: motion, 10: motion, 20: motion, 30: motion,
	800: motion, 810: motion, 820: motion, 850: motion, 860: motion, 880: motion, 890: motion,
	40:  notModal,
	170: plane, 180: plane, 190: plane,
	200: units, 210: units, 700: units, 710: units,
	400: compensation,
	430: lengthOffset, 490: lengthOffset,
	540: workSystem, 550: workSystem, 560: workSystem, 570: workSystem, 580: workSystem, 590: workSystem,
	610: path, 640: path,
	900: distance, 910: distance,
	940: feedMode, 950: feedMode,
	970: speedMode,
	980: cycleReturn, 990: cycleReturn,
}

// gRefused are codes with a meaning that a replay cannot follow, or that no
// step table fixes: why, and what to write.
var gRefused = map[int64][2]string{
	100: {"sets offsets from within the program", "set them at the machine"},
	280: {"goes by machine positions, which the program does not know", "G0 to a position"},
	300: {"goes by machine positions, which the program does not know", "G0 to a position"},
	410: {"moves the tool by a radius that only the control knows", "G40, and the true path"},
	420: {"moves the tool by a radius that only the control knows", "G40, and the true path"},
	530: {"goes by machine positions, which the program does not know", "G0 to a position"},
	760: {"is a fine boring cycle of its maker's own", "the moves written out"},
	830: {"pecks by words that differ from control to control", "the moves written out"},
	840: {"is a tapping cycle", "the moves written out"},
	870: {"is a back boring cycle that differs from control to control", "the moves written out"},
	920: {"shifts the zero from within the program", "G54 to G59"},
	930: {"is inverse time feed", "G94 or G95"},
	960: {"is constant surface speed", "G97 and S"},
}

var mGroup = [500]group{
	0: stopping, 10: stopping, 20: stopping, 300: stopping,
	30: turning, 40: turning, 50: turning, 190: turning,
	60: changing,
	70: coolant, 80: coolant, 90: coolant,
	400: gear, 410: gear, 420: gear, 430: gear, 440: gear, 450: gear, // common practice, no source
	480: override, 490: override,
}

// codes are the codes of one block, by group; -1: none named. have has a bit
// for each letter whose word no part of the block has taken yet: where it has
// none, words holds what an earlier block left.
type codes struct {
	in    [allGroups]int64 // tenths
	word  [allGroups]*Word
	dwell bool  // G4
	home  *Word // G28 or G53
	have  uint32
	words [26]*Word

	strange bool // a code that is not known
}

// none is in of a block without codes.
var none = func() (in [allGroups]int64) {
	for g := range in {
		in[g] = -1
	}
	return in
}()
