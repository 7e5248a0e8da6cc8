package verify

import (
	"errors"
	"fmt"

	"borewright/post/rs274"
	"borewright/post/verify/around"
	"borewright/post/verify/offaxis"
	"borewright/post/verify/remark"
	"borewright/post/verify/script"
	"borewright/post/verify/sentence"
	"borewright/post/verify/through"
	"borewright/post/verify/travels"
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
	out     *script.Findings
	u       qty.Unit   // the program's
	half    qty.Length // half the least input: what rounding may move a position
	letter  byte       // of the slide that feeds
	axis    rs274.Axes

	parts []part
	walls []wall
	bores []through.Bore // that are cut; v goes over all of them
	gaps  *through.Way   // between them
	shape *shape
	near  map[int]Clearance

	astray    int                 // line at which the way of the bar went wrong, until it is right again; 0: none
	misread   []int               // lines of words that were not read as they stand
	dipped    int                 // line of a rapid into the work since the last cut; 0: none
	into      bool                // the move under way is a rapid into the bore: said as such, and once
	wrongAt   map[qty.Length]bool // depths that were found to be wrong: levels, and where feeds begin
	spindle   rs274.Spindle
	rate      float64          // speed that was held last while it turns, rev/min
	acted     int              // line of the last move or dwell
	saidS     map[float64]bool // S words that are the speed of no pass, said by the text
	rateWrong bool             // and was not the plan's: said once, not at every move
	around    *around.Follower // what the program does around its cuts
	way       *offaxis.Way     // where the bar does not pass on its axis
	pos       rs274.Position
	said      map[int][]remark.Remark // comments of the stops, by line
	speaks    bool                    // at some stop the comments say what to do: then they must at each
	places    map[int]sentence.Place  // of the stops passed, by line
	plane     qty.Length              // in front of the face, where the most stops are; 0: not known
	spoken    bool                    // a remark came since the last cut
	optional  int                     // line of an optional stop since the last cut
	stops     []halt                  // since the last cut
	setting   qty.Diameter
	lastSet   qty.Diameter // in the last cut

	next   int // index of the pass that is to come
	last   int // of the last one cut; -1: none
	cut    *feeding
	exit   exit
	levels []qty.Length // of stops, of moves onto the axis and of the end, in front of the face

	before []around.Stand // bores that do not stand as found

	cuts    []Cut
	minutes float64
	final   qty.Diameter
	line    int
	ended   bool
	unread  bool // too many faults to be read as meant
	travel  travels.Ways
	again   int    // index of the pass that is cut a second time; -1: none
	span    [2]int // lines of the stop to measure before it, and of the one behind it
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
	aside   bool // shifted to a wrong place: said
	missed  bool // by a rapid move into the bore, where the pass was to be cut
}

func newFollower(p *plan.Plan, bores []through.Bore, v *plan.Visit, out *script.Findings) *follower {
	j := p.Job
	f := &follower{
		job: j, control: j.Machine.Control, v: v, out: out, u: j.Machine.Control.Units,
		half: script.LeastInput(j.Machine.Control)/2 + 1, letter: byte(j.FeedLetter()), last: -1, again: -1,
		parts: partsOf(j), before: around.Before(p, bores[0].Visit, bores[0].Index), walls: wallsOf(p, bores),
		shape: newShape(bores), bores: bores,
		near: map[int]Clearance{}, places: map[int]sentence.Place{}, wrongAt: map[qty.Length]bool{}, travel: travels.Ways{},
	}
	f.axis = rs274.Z
	if f.letter == 'W' {
		f.axis = rs274.W
	}
	f.gaps = through.New(bores, through.Set{Half: f.half, Least: script.LeastInput(f.control), Letter: f.letter, Add: f.add, Say: f.deep,
		Other: func(what, want string) {
			f.out.Put(Finding{Line: f.line, Kind: script.KindFeed, What: what, Want: want, OtherWay: true})
		}})
	f.way = offaxis.New(j, v.OffAxis, offaxis.Set{Hands: f.handsLevel(), Feeds: v.Clear, Half: f.half, Out: out, Say: f.say})
	return f
}

// add notes a finding. What is wrong with the way of the bar is said once: not again before
// it stands on the axis in front of the work, because the rest follows from it.
func (f *follower) add(letter byte, kind Kind, what, want string) {
	switch kind {
	case script.KindAxis, script.KindRetract, script.KindBottom, script.KindRapid, script.KindStart, script.KindSpindle, script.KindClearance:
		if f.astray > 0 && f.astray != f.line {
			return
		}
		f.astray = f.line
	case script.KindDwell, script.KindLevel:
		if f.astray > 0 {
			return
		}
	}
	f.out.Add(f.line, letter, kind, what, want)
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

func (f *follower) dia(d qty.Diameter) string { return "Ø" + f.say(d.Length()) }

func (f *follower) near0(a, b qty.Length) bool { return (a - b).Abs() <= f.half }

// atDepth reports that a depth is the one planned: rounded to the nearest least
// input, or cut to it toward the spindle. A depth that the control can say is
// that one alone.
func (f *follower) atDepth(is, want qty.Length) bool {
	return is-want <= f.half && want-is < script.LeastInput(f.control)
}

func (f *follower) outside(depth qty.Length) bool { return depth <= f.v.Clear+f.half }

// clearOf reports that the tip stands in front of the face and of the bore, so
// that a hand can reach the cutter.
func (f *follower) clearOf(depth qty.Length) bool { return f.outside(depth) && depth < 0 }

// onAxis reports that the bar is known to stand on the true axis.
func (f *follower) onAxis(p rs274.Position) bool {
	return p.Has(rs274.X|rs274.Y) && f.near0(p.X, 0) && f.near0(p.Y, 0)
}

func (f *follower) offAxis(p rs274.Position) string {
	if !p.Has(rs274.X | rs274.Y) {
		return "before X and Y are known"
	}
	return fmt.Sprintf("at X %s, Y %s", f.say(p.X), f.say(p.Y))
}

func (f *follower) level(depth qty.Length) {
	if len(f.levels) < stopsMost {
		f.levels = append(f.levels, depth)
	}
}

// errEnough ends a replay early.
var errEnough = errors.New("enough seen")

// halt is a stop between two cuts.
type halt struct {
	line    int
	after   int        // line of the last move, dwell or stop before it
	set     bool       // its comments tell to set the cutter, or to leave it
	measure bool       // to measure
	hone    bool       // to hone the edge
	out     qty.Length // of the tip in front of the face
}
