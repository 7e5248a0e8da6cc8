package verify

import (
	"bytes"
	"fmt"

	"borewright/post/rs274"
	"borewright/post/verify/around"
	"borewright/post/verify/remark"
	"borewright/post/verify/script"
	"borewright/process/qty"
)

// screen is how many faults of an unreadable program are shown: as many as a person
// mends before looking again.
const screen = 12

// run replays the program to its end.
func (f *follower) run(program []byte, d rs274.Dialect) {
	for _, said := range f.said {
		f.speaks = f.speaks || remark.Read(said).Any()
	}
	faults, err := rs274.Replay(bytes.NewReader(program), d, func(e rs274.Event) error {
		f.event(&e)
		if f.out.Full() {
			return errEnough
		}
		return nil
	})
	if len(faults) > screen { // it was not read as meant: what it does is a guess
		f.out.Unreadable(faults[:screen], len(faults)-screen, len(faults) >= 200)
		f.unread = true
		return
	}
	for _, x := range script.Faults(faults) {
		if f.out.Said(x) {
			continue
		}
		if script.Misread(x) {
			f.misread = append(f.misread, x.Line)
		}
		f.out.Put(Finding{Line: x.Line, Col: x.Col, Kind: script.KindSyntax, What: x.What, Want: x.Want})
	}
	if err != nil {
		return // errEnough: there is no other
	}
	if !f.ended {
		f.finish() // that it has no end is a fault of its text
	}
	f.clearPlane()
	f.travel.Judge(f.job, f.letter, f.out, f.say, f.deep)
}

func (f *follower) event(e *rs274.Event) {
	f.line = e.Line
	bound(&e.From)
	bound(&e.To)
	if e.Kind == rs274.Message {
		f.spoken = true // read with the stops
		return
	}
	if f.span[0] > 0 && f.span[1] == 0 && !e.Deleted {
		f.add(0, script.KindCode, "a block without / among those of the pass taken again", "/ in front of it: with block delete on it would be left of them")
	}
	f.around.Take(e, f.place(e))
	switch e.Kind {
	case rs274.Move:
		f.pos = e.From
		f.move(e)
		f.pos = e.To
		if f.pos.Has(f.axis) && f.clearOf(f.depthOf(f.pos)) && f.onAxis(f.pos) && f.line != f.astray {
			f.astray = 0
		}
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
	case rs274.Return:
		f.endCut()
		f.pos.Known &^= e.Axes
	case rs274.Orient:
		f.endCut()
		f.way.Orients(e.Line, f.pos, f.depthOf(f.pos))
		if f.spindle.Turning() {
			f.add('M', script.KindSpindle, "an oriented stop with the spindle turning", "M5 in a block before M19: not every control brakes first")
		}
	case rs274.End:
		f.ended = true
		if f.spindle.Turning() {
			f.add('M', script.KindEnd, "the program ends with the spindle turning", "M5 in a block before the end")
		}
		f.finish()
	}
	if e.Kind == rs274.Move || e.Kind == rs274.Dwell || e.Kind == rs274.Stop {
		f.acted = e.Line
	}
	f.turns(e)
	f.spindle = e.Spindle
}

// place is where the program stands before an event.
func (f *follower) place(e *rs274.Event) around.Place {
	at := around.Place{Line: e.Line, Turning: f.spindle.Turning(), Stopped: len(f.stops) > 0, Last: f.last, Next: f.next, Feeds: f.last}
	if f.pos.Has(f.axis) {
		depth := f.depthOf(f.pos)
		at.Inside, at.Tip = !f.clearOf(depth), f.deep(depth)
		at.Near = -depth < f.handsLevel()-f.half
	}
	at.Enters = e.Kind == rs274.Move && e.To.Has(f.axis) && -f.depthOf(e.To) < f.handsLevel()-f.half
	if f.cut == nil && e.Kind == rs274.Move && f.depthOf(e.To) > f.depthOf(e.From) {
		at.Feeds = f.next
	}
	return at
}

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
	f.travel.Goes(e.To, f.line, f.letter, f.axis)
	s := f.strokeOf(e)
	if across && !e.From.Has(f.axis) {
		f.add(0, script.KindStart, "moves across before the tip is known to be out of the work", fmt.Sprintf("G0 %c to a level in front of the face first", f.letter))
	} else if across && !e.From.Has(moved&(rs274.X|rs274.Y)) && f.job.Bar.Outboard == nil && f.beside(s.d0) {
		f.add(0, script.KindClearance, "moves across from an unknown place while the bar stands in the work", fmt.Sprintf("G0 %c further out first", f.letter))
	}
	if along && across {
		f.add(f.letter, script.KindAxis, "moves along the bore and across it at once", "one at a time: out alone, across alone, in alone")
	} else if across && f.clearOf(s.d0) && f.onAxis(e.To) {
		f.level(s.d0)
	}
	if along && !e.From.Has(f.axis) && !f.clearOf(s.d1) {
		f.add(f.letter, script.KindStart, fmt.Sprintf("the first move along the bore goes to %s from an unknown place", f.deep(s.d1)),
			"a level in front of the face first")
	}
	hop := e.Motion == rs274.Rapid && f.cut != nil && along && !across && s.d1 > s.d0 && f.gaps.Hops(s.d0)
	f.into = e.Motion == rs274.Rapid && !hop && along && e.From.Has(f.axis) && s.d1 > s.d0 && !f.outside(s.d1)
	f.bar(&s)
	switch {
	case hop:
		f.hop(e, &s)
	case e.Motion == rs274.Feed:
		f.feedMove(e, &s, across)
	default:
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

// hop is a rapid move from one bore to the next, in a pass that cuts several.
func (f *follower) hop(e *rs274.Event, s *stroke) {
	f.minutes += length(s) / rapidRate
	worst := f.tipRapid(e, s)
	end, clear := f.gaps.Hop(e, s.d0, s.d1)
	f.cut.to = max(end, s.d0) // what is cut short is said: the rest is taken as cut
	f.keep(f.cut)
	f.cut.from, f.cut.to = min(clear, s.d1), s.d1
	if worst != "" && !f.out.Has(f.line, f.line) {
		f.add('G', script.KindRapid, "rapid with "+worst, "the tip clear of the wall, or feed with the spindle turning")
	}
}

// rapidMove takes a move at rapid.
func (f *follower) rapidMove(e *rs274.Event, s *stroke, along, across bool) {
	f.endCut()
	f.minutes += length(s) / rapidRate
	worst := f.tipRapid(e, s)
	defer func() { // what is wrong with the way is said as such
		if worst != "" && !f.into && !f.out.Blames(f.line, script.KindRetract) && !f.exit.aside && !f.way.Wrong() {
			f.add('G', script.KindRapid, "rapid with "+worst, "the tip clear of the wall, or feed with the spindle turning")
		}
	}()
	if across && !along {
		f.shift(e, s)
		return
	}
	off := e.From.Has(f.axis) && f.way.Along(e, s.d0, s.d1)
	if off && !f.way.Wrong() {
		f.roomOffAxis(s)
	}
	if s.d1 > s.d0 || !e.From.Has(f.axis) { // in
		if e.From.Has(f.axis) && !off {
			if !f.onAxis(e.To) && -s.d1 < f.handsLevel()-f.half { // nearer in on the clear side does no harm
				f.add(f.letter, script.KindAxis, "goes in "+f.offAxis(e.To), "X0 Y0 before each entry")
			}
			if !e.Spindle.Turning() && s.d1 >= f.v.Clear-2*f.half {
				f.add(f.letter, script.KindSpindle, "goes in with the spindle standing", "S and M3 in front of the face, where it can be seen to turn")
			}
		}
		if !f.outside(s.d1) && !(off && f.way.Wrong() && s.d1 < f.v.From) {
			kind, what := script.KindRapid, "rapid into the bore, to "
			if f.shape.station.Blind && s.d1 >= f.v.To {
				kind, what = script.KindBottom, "rapid to the blind bottom, "
			}
			if what += f.deep(s.d1); worst != "" {
				what += ", " + worst
			}
			f.add(f.letter, kind, what, fmt.Sprintf("rapid to %s at most, and feed from there", f.deep(f.v.Clear)))
			f.miss(s)
		} else if e.From.Has(f.axis) && s.d1 >= 0 && f.dipped == 0 {
			f.dipped = f.line
		}
	} else {
		if f.dipped > 0 && !f.out.Has(f.dipped, f.line) {
			f.out.Add(f.dipped, f.letter, script.KindLevel, "goes into the work and comes out again with nothing cut", "once in for each pass, to where its feed begins")
		}
		f.dipped = 0
		if f.outside(s.d0) && s.d0 >= f.v.Clear-2*f.half && e.Spindle.Turning() && !f.way.Wrong() {
			f.add(f.letter, script.KindSpindle, "comes out to the hands with the spindle turning", "M5 before the bar comes out of the work")
		}
		f.leave(e, s)
	}
}

// miss takes a rapid move into the bore for the pass in the place of which it stands,
// so that what comes after it is held against the plan as if the pass had been cut.
func (f *follower) miss(s *stroke) {
	if f.next >= len(f.v.Passes) || f.last >= 0 && len(f.stops) == 0 || f.exit.active {
		return
	}
	f.gap(f.next, f.letter)
	f.spoken = false
	p := &f.v.Passes[f.next]
	f.last, f.next, f.lastSet = f.next, f.next+1, p.Setting
	f.shape.cut(f.v.Clear, max(s.d1, endOf(f.v, f.last)), p.Setting, f.springs(p.N))
	f.exit = exit{active: true, missed: true, pass: f.last, depth: s.d1}
}

// feedMove takes a move at feed.
func (f *follower) feedMove(e *rs274.Event, s *stroke, across bool) {
	f.feedState(e)
	f.minutes += f.feedMinutes(e, s)
	f.tipFeed(s)
	if across {
		f.endCut()
		f.add(0, script.KindAxis, "feeds across the bore", "feed along the bore alone; the bar shifts by G0")
		return
	}
	if !f.onAxis(e.To) {
		f.add(f.letter, script.KindAxis, "feeds "+f.offAxis(e.To), "X0 Y0: the bore is cut on the true axis")
	}
	if s.d1 > s.d0 && f.cut == nil && f.outside(s.d1) && e.From.Has(f.axis) {
		f.out.Put(Finding{Line: f.line, Kind: script.KindFeed, OtherWay: true, What: fmt.Sprintf("feeds from %s to %s, %s", f.deep(s.d0), f.deep(s.d1), script.Nothing), Want: "G0"})
		return
	}
	if s.d1 > s.d0 {
		f.feedIn(e, s)
		return
	}
	f.endCut()
	if f.outside(s.d0) {
		f.add('G', script.KindFeed, fmt.Sprintf("feeds from %s to %s, %s", f.deep(s.d0), f.deep(s.d1), script.Nothing), "G0")
	} else {
		pass := f.exit.pass
		if !f.exit.active {
			pass = f.last
		}
		f.feedOf(e, pass)
		if s.d1 < f.v.Clear && !f.atDepth(s.d1, f.v.Clear) {
			f.add('G', script.KindFeed, fmt.Sprintf("feeds out to %s, past %s where the bore ends", f.deep(s.d1), f.deep(f.v.Clear)),
				fmt.Sprintf("feed out to %s, then G0; a cycle under G98 begins from there", f.deep(f.v.Clear)))
		}
		if f.outside(s.d1) {
			f.gaps.Out(s.d1)
		}
		f.leave(e, s)
	}
}

// finish closes the books at the end of the program.
func (f *follower) finish() {
	f.endCut()
	switch {
	case !f.pos.Has(f.axis):
	case f.astray > 0: // said
	case !f.clearOf(f.depthOf(f.pos)):
		f.add('M', script.KindEnd, fmt.Sprintf("the program ends with the tip at %s", f.deep(f.depthOf(f.pos))),
			fmt.Sprintf("G0 %c to the level in front of the face first", f.letter))
	case !f.onAxis(f.pos) && f.pos.Known&(rs274.X|rs274.Y) != 0: // else where the hand left it
		f.add('M', script.KindEnd, "the program ends with the bar off the axis", "X0 Y0 before the end")
	default:
		f.roomForHands("ends", f.depthOf(f.pos))
		f.level(f.depthOf(f.pos))
	}
	f.gap(len(f.v.Passes), 'M')
	f.size()
}

// clearPlane finds the level at which the most stops are, the furthest in of those that
// have as many.
func (f *follower) clearPlane() {
	count := map[qty.Length]int{}
	most := 0
	for _, depth := range f.levels {
		if out := f.holdOut(); out > 0 && f.near0(-depth, out) {
			continue // where the bore is measured
		}
		count[depth]++
		if n := count[depth]; n > most || n == most && depth > -f.plane {
			f.plane, most = -depth, n
		}
	}
}
