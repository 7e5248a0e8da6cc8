// Package around holds what a program does around its cuts by words that a machine file
// asks for: the tool and its length, the way home, coolant, the range of the spindle, and
// the marks by which a pass is restarted. What a control has no word for is not looked
// for here: the words of the script say so, or it is free.
//
// It follows the program event by event, as post/verify does, and knows nothing of walls,
// sizes and depths: where the tip is, it is told.
package around

import (
	"fmt"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/plan"
)

// Follower follows one program of a visit.
type Follower struct {
	c       *process.Control
	job     *process.Job
	far     bool // the bore is bored from the far face
	v       *plan.Visit
	out     *script.Findings
	letter  byte // of the slide that feeds
	axis    rs274.Axes
	dry     bool          // the metal is cut without coolant by this cutter
	numbers map[int][]int // lines of N words that are restart marks

	at      Place
	moved   bool         // something has
	homed   string       // letters of the slides that have gone home since
	called  bool         // the tool
	offset  int          // length offset in force
	said    int          // a wrong one that was found, + 1
	gear    int          // M word of the range of the spindle in force; 0: none called
	coolant map[int]bool // by M word: on
	settle  float64      // seconds of dwell that are missing after an oriented stop
	dryAt   int          // the pass, from 1, at which it was last found off
	entered bool         // the tip has gone nearer than the clear plane
	missed  bool         // and what was to be placed was not
}

// Place is where the program stands when something happens.
type Place struct {
	Line    int
	Inside  bool   // the tip is known not to be in front of the face
	Tip     string // where it is, in words
	Near    bool   // it is known, and nearer to the face than hands and the bar's end need
	Enters  bool   // and is so after this
	Turning bool   // the spindle, before
	Stopped bool   // at a stop, since the last cut
	Last    int    // index of the last pass cut, -1: none
	Next    int    // and of the one to come
	Feeds   int    // feed move: index of the pass that it belongs to
}

// New follows the program of a visit; axis is that of the slide that feeds, numbers are
// those of the script.
func New(j *process.Job, b *plan.Bore, v *plan.Visit, axis rs274.Axes, numbers map[int][]int, out *script.Findings) *Follower {
	f := &Follower{c: j.Machine.Control, job: j, far: b.Bore.Face == process.FarFace, v: v, out: out, letter: byte(j.FeedLetter()), axis: axis, numbers: numbers}
	if m, c := v.Material, j.Cutter.Material; m != nil && c != nil {
		f.dry = m.Speeds[c.Class].Dry
	}
	return f
}

func (f *Follower) add(letter byte, kind script.Kind, what, want string) {
	f.out.Add(f.at.Line, letter, kind, what, want)
}

// Take takes the next event. f may be nil.
func (f *Follower) Take(e *rs274.Event, at Place) {
	if f == nil {
		return
	}
	f.at = at
	switch e.Kind {
	case rs274.Orient:
		f.orient(e)
	case rs274.Dwell:
		f.settle -= e.Seconds
	case rs274.Move:
		f.rest()
		if f.place(e); f.apart(e.From.Moved(e.To)) {
			return
		}
		f.enter(e)
		f.leaveHome(e)
		f.length(e)
		if e.Motion == rs274.Feed {
			f.wet(at.Feeds)
		}
	case rs274.Return:
		f.goHome(e)
	case rs274.ToolChange:
		f.call(e)
	case rs274.LengthOffset:
		f.change(e)
	case rs274.Coolant:
		f.wets(e.Code)
	case rs274.Gear:
		f.shift(e.Code)
	case rs274.SpindleOn:
		f.inGear(e.Speed)
	case rs274.Stop:
		f.stopDry()
	case rs274.End:
		f.atHome('M', "the program ends")
		if f.offset != 0 {
			f.add('M', script.KindTool, fmt.Sprintf("the program ends with the length offset H%d in force", f.offset), "G49 before the end: the next program must not begin with it")
		}
	}
}

// Assumed says what is taken for granted.
func (f *Follower) Assumed() (out []string) {
	if homes := f.homes(); homes != "" {
		out = append(out, "The way home ("+inTurn(homes)+") is clear, and home of "+homes[:1]+" lies in front of the face, further out than the clear plane.")
	}
	if h := f.wantLength(); h != 0 {
		out = append(out, fmt.Sprintf("The length offset H%d holds the length of this bar as it is held, to the tip.", h))
	}
	switch other, table := f.placed(); {
	case table != 0:
		out = append(out, "Where the table turns and the other slide moves, nothing stands in the way of the work's corners and of the bar.")
	case other != 0:
		out = append(out, "Where the other slide moves, nothing stands in the way of the bar.")
	}
	return out
}
