// Package offaxis holds the way of a bar that does not pass on its axis against the plan:
// in and out with the spindle stopped at its angle and the bar shifted away from the tip,
// across at the clear plane and at one depth in front of the bore, and nowhere else.
//
// It follows the program as post/verify does, and knows nothing of walls; what it asks for
// is worked out from the plan's shift and depth and from where the control says that the
// tip points.
package offaxis

import (
	"fmt"
	"math"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// LeastRoom is what must stay free on radius between a shifted bar, or its cutter, and a
// wall. Common practice, no source.
const LeastRoom = qty.Millimetre / 2

// Way is what the program of one visit has to do. A nil Way asks for nothing.
type Way struct {
	X, Y  qty.Length // of the shifted bar
	Level qty.Length // depth of the tip at which it comes back
	hands qty.Length // from here outward all is clear: in front of the face
	feeds qty.Length // depth at which the feed begins
	half  qty.Length
	least qty.Length
	tip   string
	wide  float64 // of the cutter to either side of its tip, nm
	out   *script.Findings
	say   func(qty.Length) string
	wrong bool // said, until the bar is in front of the work again
}

// Set is what a Way is made of: hands is how far in front of the face a bar is out of the
// work, feeds the depth at which the feed begins, Half what rounding may move a position.
type Set struct {
	Hands, Feeds, Half qty.Length
	Out                *script.Findings
	Say                func(qty.Length) string // prints a length
}

// New is the way of a visit whose plan has one; else nil.
func New(job *process.Job, in *schedule.OffAxis, s Set) *Way {
	if in == nil {
		return nil
	}
	c := job.Machine.Control
	w := &Way{Level: in.Level, hands: s.Hands, feeds: s.Feeds, half: s.Half, least: script.LeastInput(c), tip: c.TipAtStop.String(), out: s.Out, say: s.Say}
	switch c.TipAtStop { // the bar goes where the tip does not point
	case process.TipPlusX:
		w.X = -in.Shift
	case process.TipMinusX:
		w.X = in.Shift
	case process.TipPlusY:
		w.Y = -in.Shift
	case process.TipMinusY:
		w.Y = in.Shift
	}
	if w.wide = float64(job.Cutter.Beside); w.wide > 0 {
		return w
	}
	carries := qty.Diameter(0)
	at := job.Bar.CutterAt
	for _, step := range job.Bar.Steps {
		if at > 0 {
			carries = step.Diameter
		}
		at -= step.Length
	}
	w.wide = float64(carries) / 4
	return w
}

// Wrong reports that something was found since the last stop.
func (w *Way) Wrong() bool { return w != nil && w.wrong }

// Corners are the points of a cutter of radius r that stand furthest to the sides of its
// tip, from the bar's axis, with the tip where the control stops it: as far to either side as
// the job says, or a quarter of the bar, on the circle that the tip turns in. The tip itself is the last of them.
func (w *Way) Corners(r qty.Length) (corners [][2]qty.Length) {
	side := math.Min(w.wide, float64(r))
	along := math.Sqrt(float64(r)*float64(r) - side*side)
	long := math.Hypot(float64(w.X), float64(w.Y))
	if long == 0 {
		return nil
	}
	ux, uy := -float64(w.X)/long, -float64(w.Y)/long
	for _, s := range []float64{side, -side} {
		corners = append(corners, [2]qty.Length{qty.Length(math.Round(along*ux - s*uy)), qty.Length(math.Round(along*uy + s*ux))})
	}
	return append(corners, [2]qty.Length{qty.Length(math.Round(float64(r) * ux)), qty.Length(math.Round(float64(r) * uy))})
}

// shifted reports that the bar is known to stand off the axis as planned.
func (w *Way) shifted(p rs274.Position) bool {
	return p.Has(rs274.X|rs274.Y) && (p.X-w.X).Abs() <= w.half && (p.Y-w.Y).Abs() <= w.half
}

// onAxis reports that it is known to stand on the axis.
func (w *Way) onAxis(p rs274.Position) bool {
	return p.Has(rs274.X|rs274.Y) && p.X.Abs() <= w.half && p.Y.Abs() <= w.half
}

// atLevel reports that the tip stands where the bar comes across: rounded, or cut to the
// least input toward the spindle.
func (w *Way) atLevel(depth qty.Length) bool {
	return depth-w.Level <= w.half && w.Level-depth < w.least
}

// outside reports that the bar stands in front of the work.
func (w *Way) outside(depth qty.Length) bool { return -depth >= w.hands-w.half }

func (w *Way) add(line int, letter byte, kind script.Kind, what, want string) {
	if !w.wrong {
		w.out.Add(line, letter, kind, what, want)
	}
	w.wrong = true
}

func (w *Way) aside() string { return fmt.Sprintf("X %s, Y %s", w.say(w.X), w.say(w.Y)) }

func (w *Way) deep(depth qty.Length) string {
	if depth < 0 {
		return w.say(-depth) + " before the face"
	}
	return "depth " + w.say(depth)
}

// Along takes a rapid along the bore from one depth of the tip to another. It is taken
// where the way of the plan has the bar off its axis; else the caller judges it.
func (w *Way) Along(e *rs274.Event, d0, d1 qty.Length) (taken bool) {
	if w == nil {
		return false
	}
	near, far := min(d0, d1), max(d0, d1)
	if w.outside(far) || near > w.Level-w.least {
		return false
	}
	want := fmt.Sprintf("M19 at the clear plane, there to %s, so to %s and back to X0 Y0 there; and out the same way", w.aside(), w.deep(w.Level))
	switch {
	case !w.shifted(e.From):
		w.add(e.Line, 0, script.KindAxis, "goes past a station that the tip does not pass "+w.at(e.From), want)
	case e.Spindle != rs274.OrientedStop:
		w.add(e.Line, 0, script.KindSpindle, "goes off the axis without an oriented stop: the tip may be anywhere", want)
	case far-w.Level > w.half:
		w.add(e.Line, 0, script.KindLevel, fmt.Sprintf("goes off the axis from %s to %s", w.deep(d0), w.deep(d1)), fmt.Sprintf("across at %s", w.deep(w.Level)))
	}
	return true
}

// Stops takes a stop: what comes after it is another way in.
func (w *Way) Stops() {
	if w != nil {
		w.wrong = false
	}
}

// at says where the bar stands.
func (w *Way) at(p rs274.Position) string {
	switch {
	case !p.Has(rs274.X | rs274.Y):
		return "before X and Y are known"
	case w.onAxis(p):
		return "on the axis"
	}
	return fmt.Sprintf("at X %s, Y %s", w.say(p.X), w.say(p.Y))
}

// to says where a bar goes that is neither on its axis nor shifted as planned.
func (w *Way) to(p rs274.Position) string {
	if !p.Has(rs274.X | rs274.Y) {
		return "goes across " + w.at(p)
	}
	return fmt.Sprintf("goes across to X %s, Y %s", w.say(p.X), w.say(p.Y))
}

// Across takes a rapid across in front of the bore.
func (w *Way) Across(e *rs274.Event, depth qty.Length) (taken bool) {
	if w == nil {
		return false
	}
	want := fmt.Sprintf("M19, and to %s at the clear plane; back to X0 Y0 at %s", w.aside(), w.deep(w.Level))
	switch {
	case w.outside(depth):
		if !w.shifted(e.To) && !w.onAxis(e.To) && e.To.Has(rs274.X|rs274.Y) {
			w.add(e.Line, 0, script.KindAxis, w.to(e.To), want)
		}
		if w.shifted(e.To) && !e.From.Has(rs274.X|rs274.Y) {
			w.add(e.Line, 0, script.KindAxis, "the bar goes off its axis before it is known to stand on it", "X0 Y0 first, then "+want)
		}
	case !w.atLevel(depth):
		w.add(e.Line, 0, script.KindLevel, "moves across with the tip at "+w.deep(depth), want)
	case e.Spindle != rs274.OrientedStop:
		w.add(e.Line, 0, script.KindSpindle, "moves across in the work without an oriented stop: the tip may be anywhere", want)
	case !w.shifted(e.To) && !w.onAxis(e.To):
		w.add(e.Line, 0, script.KindAxis, w.to(e.To), want)
	}
	return true
}

// Starts takes a start of the spindle in the work. It is taken where the plan has it: in
// front of the bore, the bar back on its axis.
func (w *Way) Starts(e *rs274.Event, at rs274.Position, depth qty.Length) (taken bool) {
	if w == nil || depth < w.Level-w.least || depth > w.feeds+w.half {
		return w != nil && w.wrong
	}
	if !w.onAxis(at) {
		w.add(e.Line, 'M', script.KindSpindle, "the spindle starts with the bar "+w.at(at), "X0 Y0 first: off the axis the tip does not turn freely")
	}
	return true
}

// Orients takes an oriented stop: the spindle turns to its angle.
func (w *Way) Orients(line int, at rs274.Position, depth qty.Length) {
	if w != nil && !w.outside(depth) && !w.onAxis(at) {
		w.add(line, 'M', script.KindSpindle, "the spindle turns to its angle with the bar "+w.at(at), "M19 with the bar on its axis, or in front of the work")
	}
}

// Assumed says what is taken for granted.
func (w *Way) Assumed() []string {
	if w == nil {
		return nil
	}
	return []string{
		fmt.Sprintf("The cutter stands out no more than %s to either side of its tip: off the axis it has no more room.", w.say(qty.Length(w.wide))),
		fmt.Sprintf("Between the stations nothing stands in the circle of the tip at %s, where the bar comes back to its axis.", w.deep(w.Level)),
	}
}
