package rs274

import "fmt"

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
	changing
	override
	allGroups
)

var groupNames = [allGroups]string{
	notModal: "not modal", motion: "motion", distance: "distance (absolute or incremental)", units: "units",
	lengthOffset: "length offset", workSystem: "work offset", plane: "plane", feedMode: "feed mode",
	compensation: "cutter compensation", cycleReturn: "cycle return", path: "path", speedMode: "speed mode",
	stopping: "stop", turning: "spindle", coolant: "coolant", changing: "tool change", override: "override",
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
	480: override, 490: override,
}

// codes are the codes of one block, by group; -1: none named. have has a bit
// for each letter whose word no part of the block has taken yet: where it has
// none, words holds what an earlier block left.
type codes struct {
	in    [allGroups]int64 // tenths
	word  [allGroups]*Word
	dwell bool // G4
	have  uint32
	words [26]*Word
}

// none is in of a block without codes.
var none = func() (in [allGroups]int64) {
	for g := range in {
		in[g] = -1
	}
	return in
}()

// gather sorts the words of a block and finds what may not stand together.
func (p *Interpreter) gather(b *Block) {
	c := &p.c
	c.in, c.dwell, c.have = none, false, 0
	ms := 0
	for i := range b.Words {
		w := &b.Words[i]
		switch w.Letter {
		case 'G':
			p.gCode(w)
		case 'M':
			if ms++; ms == 5 {
				p.fault(w.Col, "a fifth M word in the block", "at most four, one of a group")
			}
			p.mCode(w)
		default:
			if w.Letter < 'A' || w.Letter > 'Z' {
				continue // a block that no scanner made
			}
			i := w.Letter - 'A'
			if c.have>>i&1 != 0 {
				p.fault(w.Col, fmt.Sprintf("a second %c word in the block", w.Letter), fmt.Sprintf("one; the first is at column %d", c.words[i].Col))
				continue
			}
			c.words[i], c.have = w, c.have|1<<i
		}
	}
}

func (p *Interpreter) gCode(w *Word) {
	t := w.tenths()
	g := noGroup
	if t >= 0 && t < int64(len(gGroup)) {
		g = gGroup[t]
	}
	switch {
	case g == notModal: // G4
		if p.c.dwell {
			p.fault(w.Col, "a second G4 in the block", "one dwell a block")
		}
		p.c.dwell = true
		return
	case g != noGroup:
	case gRefused[t][0] != "":
		p.fault(w.Col, fmt.Sprintf("G%d %s", t/10, gRefused[t][0]), gRefused[t][1])
		return
	default:
		p.fault(w.Col, "unknown code G"+w.Text, "a G code of plain RS-274")
		return
	}
	if why := p.lacking(t); why != "" {
		p.fault(w.Col, "G"+w.Text+why, "a code that the control takes")
	}
	p.join(g, t, w)
}

// lacking says that a known G code is not one of the dialect's.
func (p *Interpreter) lacking(t int64) string {
	d := &p.d
	switch {
	case t == 950 && d.lacks(PerRev):
		return ": this control has no feed per revolution"
	case t >= 810 && t <= 890 && d.lacks(Cycles):
		return ": this control has no cycles"
	case t >= 980 && d.lacks(ReturnWords):
		return ": this control has no return words"
	case (t == 200 || t == 210) && d.UnitsWords == G70G71:
		return ": this control has G70 for inch and G71 for mm"
	case (t == 700 || t == 710) && d.UnitsWords == G20G21:
		return ": this control has G20 for inch and G21 for mm"
	}
	return ""
}

func (p *Interpreter) mCode(w *Word) {
	t := w.tenths()
	g := noGroup
	if t >= 0 && t < int64(len(mGroup)) {
		g = mGroup[t]
	}
	switch {
	case g == noGroup:
		p.fault(w.Col, "unknown code M"+w.Text, "an M code of plain RS-274")
		return
	case t == 190 && p.d.lacks(Oriented):
		p.fault(w.Col, "M19: this control has no oriented stop", "M0, and a comment that tells the operator how to turn the tip")
	}
	p.join(g, t, w)
}

// join puts a code into its group, where it must be alone.
func (p *Interpreter) join(g group, t int64, w *Word) {
	if p.c.in[g] >= 0 {
		p.fault(w.Col, fmt.Sprintf("%c%s and %c%s are both of the group %s", p.c.word[g].Letter, p.c.word[g].Text, w.Letter, w.Text, groupNames[g]), "one code of a group in a block")
		return
	}
	p.c.in[g], p.c.word[g] = t, w
}

// get takes a word that the block has a use for.
func (p *Interpreter) get(letter byte) *Word {
	if i := letter - 'A'; p.c.have>>i&1 != 0 {
		return p.c.words[i]
	}
	return nil
}

// take is get, and marks the word as used.
func (p *Interpreter) take(letter byte) *Word {
	i := letter - 'A'
	if p.c.have>>i&1 == 0 {
		return nil
	}
	p.c.have &^= 1 << i
	return p.c.words[i]
}
