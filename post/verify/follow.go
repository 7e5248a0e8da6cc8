package verify

import (
	"bytes"
	"fmt"

	"borewright/post/rs274"
	"borewright/post/verify/remark"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// rapidRate is what the time of a rapid move is reckoned with, mm/min. It
// weighs time and nothing else. Common practice, no source.
const rapidRate = 1500.0

// follower goes through the program with the machine, and knows at every
// moment where the plan stands.
type follower struct {
	job     *process.Job
	control *process.Control
	v       *plan.Visit
	out     *findings
	u       qty.Unit   // the program's
	half    qty.Length // half the least input: what rounding may move a position
	letter  byte       // of the slide that feeds
	axis    rs274.Axes

	parts []part
	walls []wall
	shape *shape
	near  map[int]Clearance

	spindle rs274.Spindle
	pos     rs274.Position
	said    map[int][]remark.Remark // comments of the stops, by line
	speaks  bool                    // at some stop the comments say what to do: then they must at each
	stops   []halt                  // since the last cut
	setting qty.Diameter
	lastSet qty.Diameter // in the last cut

	next   int // index of the pass that is to come
	last   int // of the last one cut; -1: none
	cut    *feeding
	exit   exit
	levels []level

	cuts    []Cut
	minutes float64
	final   qty.Diameter
	line    int
	ended   bool
	travel  map[byte]*travel
}

// feeding is a cut in progress.
type feeding struct {
	line     int
	pass     int // index; -1: none that the plan has
	from, to qty.Length
	feed     qty.Length // a revolution
	speed    float64
}

// exit is the way out after a cut, until the tip is clear of the bore.
type exit struct {
	active  bool
	pass    int
	depth   qty.Length
	dwelt   bool
	faulted bool
}

// level is where a move along the bore ends that is not the start of a feed.
type level struct {
	line  int
	depth qty.Length
	stop  bool
}

// travel is how far an axis goes, and at which lines it is furthest.
type travel struct {
	least, most     qty.Length
	leastAt, mostAt int
}

func newFollower(p *plan.Plan, bore int, v *plan.Visit, out *findings) *follower {
	j, b := p.Job, &p.Bores[bore]
	f := &follower{
		job: j, control: j.Machine.Control, v: v, out: out, u: j.Machine.Control.Units,
		half: leastInput(j.Machine.Control)/2 + 1, letter: j.FeedLetter()[0], last: -1,
		parts: partsOf(j), walls: wallsOf(p, bore),
		shape: newShape(b.Bore.Station, b.Station, v),
		near:  map[int]Clearance{}, travel: map[byte]*travel{},
	}
	f.axis = rs274.Z
	if f.letter == 'W' {
		f.axis = rs274.W
	}
	return f
}

// run replays the program to its end.
func (f *follower) run(program []byte, d rs274.Dialect) {
	for _, said := range f.said {
		f.speaks = f.speaks || remark.Read(said).Any()
	}
	faults, err := rs274.Replay(bytes.NewReader(program), d, func(e rs274.Event) error {
		f.event(&e)
		if f.out.full() {
			return errEnough
		}
		return nil
	})
	for _, x := range faults {
		f.out.put(noted{Finding: Finding{Line: x.Line, Col: x.Col, Kind: KindSyntax, What: x.What, Want: x.Want}})
	}
	if err != nil {
		return // errEnough: there is no other
	}
	if !f.ended {
		f.finish()
		f.add('M', KindEnd, "the program stops without an end", "M5, then M30")
	}
	f.judgeLevels()
	f.judgeTravels()
}

func (f *follower) add(letter byte, kind Kind, what, want string) {
	f.out.add(f.line, letter, kind, what, want)
}

func (f *follower) event(e *rs274.Event) {
	f.line = e.Line
	bound(&e.From)
	bound(&e.To)
	switch e.Kind {
	case rs274.Message:
		return // read with the stops
	case rs274.Move:
		f.pos = e.From
		f.move(e)
		f.pos = e.To
	case rs274.Dwell:
		f.minutes += e.Seconds / 60
		f.dwell(e)
	case rs274.Stop:
		f.endCut()
		f.stop(e)
	case rs274.SpindleOn:
		f.endCut()
		f.spindleOn(e)
	case rs274.SpindleOff, rs274.ToolChange:
		f.endCut()
	case rs274.Orient:
		f.endCut()
		if f.spindle.Turning() {
			f.add('M', KindSpindle, "an oriented stop with the spindle turning", "M5 in a block before M19: not every control brakes first")
		}
	case rs274.End:
		f.ended = true
		if f.spindle.Turning() {
			f.add('M', KindEnd, "the program ends with the spindle turning", "M5 in a block before the end")
		}
		f.finish()
	}
	f.spindle = e.Spindle
}

// bound keeps absurd positions (a number of 15 digits) where sums of them do
// not overflow. They are findings all the same.
func bound(p *rs274.Position) {
	for _, l := range []*qty.Length{&p.X, &p.Y, &p.Z, &p.W} {
		*l = min(max(*l, -endless), endless)
	}
}

// depthOf is where the tip is at a position.
func (f *follower) depthOf(p rs274.Position) qty.Length { return -p.Linear(f.letter) }

// deep says where the tip is in words.
func (f *follower) deep(depth qty.Length) string {
	if depth < 0 {
		return f.say(-depth) + " before the face"
	}
	return "depth " + f.say(depth)
}

// say prints a length as the job's gauges read it, with the program's own
// number beside it where that is in other units.
func (f *follower) say(l qty.Length) string {
	if f.job.Units == f.u {
		return f.u.Say(l)
	}
	return fmt.Sprintf("%s (%s)", f.job.Units.Say(l), f.u.Say(l))
}

func (f *follower) fine(l qty.Length) string {
	return f.job.Units.Say(qty.Fine(l))
}

func (f *follower) dia(d qty.Diameter) string  { return "Ø" + f.say(d.Length()) }
func (f *follower) near0(a, b qty.Length) bool { return (a - b).Abs() <= f.half }

// atDepth reports that a depth is the one planned: rounded to the nearest least
// input, or cut to it toward the spindle. A depth that the control can say is
// that one alone.
func (f *follower) atDepth(is, want qty.Length) bool {
	return is-want <= f.half && want-is < leastInput(f.control)
}

func (f *follower) outside(depth qty.Length) bool { return depth <= f.v.Clear+f.half }

// clearOf reports that the tip stands in front of the face and of the bore, so
// that a hand can reach the cutter.
func (f *follower) clearOf(depth qty.Length) bool { return f.outside(depth) && depth < 0 }

// move takes one move.
func (f *follower) move(e *rs274.Event) {
	if e.Motion == rs274.Arc {
		f.endCut()
		return // said by the words
	}
	moved := e.From.Moved(e.To)
	along, across := moved&f.axis != 0, moved&(rs274.X|rs274.Y) != 0
	if !along && !across {
		return // another slide: said by the words
	}
	f.widen(e)
	s := f.strokeOf(e)
	if across && !e.From.Has(f.axis) {
		f.add(0, KindStart, "moves across before the tip is known to be out of the work",
			fmt.Sprintf("G0 %c to a level in front of the face first", f.letter))
	} else if across && !e.From.Has(moved&(rs274.X|rs274.Y)) && f.job.Bar.Outboard == nil && f.beside(s.d0) {
		f.add(0, KindClearance, "moves across from an unknown place while the bar stands in the work",
			fmt.Sprintf("G0 %c further out first", f.letter))
	}
	if along && across {
		f.add(f.letter, KindAxis, "moves along the bore and across it at once", "one at a time: out alone, across alone, in alone")
	}
	if along && !e.From.Has(f.axis) && !f.clearOf(s.d1) {
		f.add(f.letter, KindStart, fmt.Sprintf("the first move along the bore goes to %s from an unknown place", f.deep(s.d1)),
			"a level in front of the face first")
	}
	f.bar(&s)
	if e.Motion == rs274.Feed {
		f.feedMove(e, &s, across)
	} else {
		f.rapidMove(e, &s, along, across)
	}
}

// strokeOf is the move as the tip makes it. A place that is not known yet is
// taken to be where the move ends.
func (f *follower) strokeOf(e *rs274.Event) stroke {
	from := e.From
	if !from.Has(rs274.X) {
		from.X = e.To.X
	}
	if !from.Has(rs274.Y) {
		from.Y = e.To.Y
	}
	s := stroke{
		x0: from.X, y0: from.Y, d0: f.depthOf(from), x1: e.To.X, y1: e.To.Y, d1: f.depthOf(e.To),
		bent: e.Motion == rs274.Rapid,
	}
	if !e.From.Has(f.axis) {
		s.d0 = s.d1
	}
	return s
}

// onAxis reports that the bar is known to stand on the true axis.
func (f *follower) onAxis(p rs274.Position) bool {
	return p.Has(rs274.X|rs274.Y) && f.near0(p.X, 0) && f.near0(p.Y, 0)
}

// rapidMove takes a move at rapid.
func (f *follower) rapidMove(e *rs274.Event, s *stroke, along, across bool) {
	f.endCut()
	f.minutes += length(s) / rapidRate
	f.tipRapid(e, s)
	if across && !along {
		f.shift(e, s)
		return
	}
	if s.d1 > s.d0 || !e.From.Has(f.axis) { // in
		if e.From.Has(f.axis) {
			if !f.onAxis(e.To) {
				f.add(f.letter, KindAxis, "goes in "+f.offAxis(e.To), "X0 Y0 before each entry")
			}
			if !e.Spindle.Turning() && s.d1 >= f.v.Clear-2*f.half {
				f.add(f.letter, KindSpindle, "goes in with the spindle standing", "S and M3 in front of the face, where it can be seen to turn")
			}
		}
		switch {
		case f.outside(s.d1):
		case f.shape.station.Blind && s.d1 >= f.v.To:
			f.add(f.letter, KindBottom, fmt.Sprintf("rapid to the blind bottom, %s", f.deep(s.d1)),
				fmt.Sprintf("rapid to %s at most, and feed from there", f.deep(f.v.Clear)))
		default:
			f.add(f.letter, KindRapid, fmt.Sprintf("rapid into the bore, to %s", f.deep(s.d1)),
				fmt.Sprintf("rapid to %s at most, and feed from there", f.deep(f.v.Clear)))
		}
	} else {
		if f.outside(s.d0) && s.d0 >= f.v.Clear-2*f.half && e.Spindle.Turning() {
			f.add(f.letter, KindSpindle, "comes out to the hands with the spindle turning", "M5 before the bar comes out of the work")
		}
		f.leave(e, s)
	}
	f.note(s.d1)
}

// note keeps the end of a move along the bore for judgeLevels.
func (f *follower) note(depth qty.Length) {
	if f.outside(depth) && !f.atDepth(depth, f.v.Clear) {
		f.level(depth, false)
	}
}

func (f *follower) level(depth qty.Length, stop bool) {
	for _, l := range f.levels {
		if l.depth == depth && l.stop == stop && !stop {
			return // one place a level is enough, and keeps memory small
		}
	}
	if len(f.levels) < 10000 {
		f.levels = append(f.levels, level{f.line, depth, stop})
	}
}

func (f *follower) offAxis(p rs274.Position) string {
	if !p.Has(rs274.X | rs274.Y) {
		return "before X and Y are known"
	}
	return fmt.Sprintf("at X %s, Y %s", f.say(p.X), f.say(p.Y))
}

// feedMove takes a move at feed.
func (f *follower) feedMove(e *rs274.Event, s *stroke, across bool) {
	f.feedState(e)
	f.minutes += f.feedMinutes(e, s)
	f.tipFeed(s)
	if across {
		f.endCut()
		f.add(0, KindAxis, "feeds across the bore", "feed along the bore alone; the bar shifts by G0")
		return
	}
	if !f.onAxis(e.To) {
		f.add(f.letter, KindAxis, "feeds "+f.offAxis(e.To), "X0 Y0: the bore is cut on the true axis")
	}
	if s.d1 > s.d0 {
		f.feedIn(e, s)
		return
	}
	f.endCut()
	if f.outside(s.d0) {
		f.add('G', KindFeed, fmt.Sprintf("feeds from %s to %s, where nothing is to be cut", f.deep(s.d0), f.deep(s.d1)), "G0")
	} else {
		pass := f.exit.pass
		if !f.exit.active {
			pass = f.last
		}
		f.feedOf(e, pass)
		if s.d1 < f.v.Clear-2*f.half {
			f.add('G', KindFeed, fmt.Sprintf("feeds out to %s, past %s where the bore ends", f.deep(s.d1), f.deep(f.v.Clear)),
				fmt.Sprintf("feed out to %s, then G0; a cycle under G98 begins from there", f.deep(f.v.Clear)))
		}
		f.leave(e, s)
	}
	f.note(s.d1)
}

// finish closes the books at the end of the program.
func (f *follower) finish() {
	f.endCut()
	switch {
	case !f.pos.Has(f.axis):
	case !f.clearOf(f.depthOf(f.pos)):
		f.add('M', KindEnd, fmt.Sprintf("the program ends with the tip at %s", f.deep(f.depthOf(f.pos))),
			fmt.Sprintf("G0 %c to the level in front of the face first", f.letter))
	case !f.onAxis(f.pos):
		f.add('M', KindEnd, "the program ends with the bar off the axis", "X0 Y0 before the end")
	default:
		f.roomForHands("ends", f.depthOf(f.pos))
		f.level(f.depthOf(f.pos), true)
	}
	f.gap(len(f.v.Passes), 'M')
	f.size()
}

// judgeLevels finds moves that end in front of the bore where no stop is: one
// level, the same at every stop, is what an operator can rely on.
func (f *follower) judgeLevels() {
	count := map[qty.Length]int{}
	best, most := qty.Length(0), 0
	for _, l := range f.levels {
		if !l.stop {
			continue
		}
		count[l.depth]++
		if n := count[l.depth]; n > most || n == most && l.depth < best {
			best, most = l.depth, n
		}
	}
	if most == 0 {
		return
	}
	for _, l := range f.levels {
		if !f.near0(l.depth, best) {
			f.out.add(l.line, f.letter, KindLevel, fmt.Sprintf("ends at %s", f.deep(l.depth)),
				fmt.Sprintf("%s, where the program stops elsewhere, or %s, where the feed begins", f.deep(best), f.deep(f.v.Clear)))
		}
	}
}
