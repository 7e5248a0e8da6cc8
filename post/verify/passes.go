package verify

import (
	"fmt"
	"slices"

	"borewright/post/rs274"
	"borewright/post/verify/around"
	"borewright/post/verify/script"
	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// feedIn is a feed move into the bore: a cut, or the rest of one.
func (f *follower) feedIn(e *rs274.Event, s *stroke) {
	perRev := perRev(e)
	if f.cut == nil {
		f.beginCut(e, s, perRev)
	}
	if f.cut.pass >= 0 {
		f.feedOf(e, f.cut.pass)
	}
	f.gaps.Feed(s.d1)
	f.cut.to = s.d1
}

// beginCut opens a cut and finds the pass that it stands for.
func (f *follower) beginCut(e *rs274.Event, s *stroke, perRev qty.Length) {
	f.dipped = 0
	f.gaps.Begin()
	f.cut = &feeding{line: e.Line, pass: -1, from: s.d0, to: s.d0, feed: perRev, speed: e.Speed}
	if f.exit.missed && f.exit.active { // the rest of the pass: said
		f.cut.pass = f.exit.pass
		f.exit = exit{}
		return
	}
	if f.exit.active {
		f.add(f.letter, script.KindDepth, fmt.Sprintf("feeds in again at %s without having come out", f.deep(s.d0)), "one feed a pass, from "+f.deep(f.v.Clear))
	}
	again, missed := f.cutsAgain(), f.exit.missed
	f.exit, f.spoken = exit{}, false
	if again { // so that what comes after it is held against the plan
		if f.cut.pass = f.last; !missed {
			f.add(f.letter, script.KindPass, fmt.Sprintf("pass %d is cut again", f.v.Passes[f.last].N), "one feed a pass, and a stop before the next")
		}
		return
	}
	if f.next >= len(f.v.Passes) {
		f.gap(f.next, f.letter)
		f.add(f.letter, script.KindPass, "one cut more than the plan has", fmt.Sprintf("%d passes", len(f.v.Passes)))
		return
	}
	f.gap(f.next, f.letter)
	p := &f.v.Passes[f.next]
	f.cut.pass = f.next
	if f.setting == 0 {
		f.setting = p.Setting
	}
	if !f.atDepth(s.d0, f.v.Clear) && !(f.way.Wrong() && f.wrongAt[s.d0]) {
		f.wrongAt[s.d0] = true
		f.add(f.letter, script.KindDepth, fmt.Sprintf("pass %d: the feed begins at %s", p.N, f.deep(s.d0)), "it begins at "+f.deep(f.v.Clear))
	}
	f.last, f.next = f.next, f.next+1
}

// cutsAgain is whether a cut begins with nothing between it and the last, no stop and no
// remark, in a program that says before each pass what to set.
func (f *follower) cutsAgain() bool {
	return f.last >= 0 && f.speaks && len(f.stops) == 0 && !f.spoken && f.next != f.again
}

// endOf is where the feed of a pass ends: at the end of the cut, or of the band that a
// witness cut marks.
func endOf(v *plan.Visit, pass int) qty.Length {
	if pass >= 0 && pass < len(v.Passes) && v.Passes[pass].Band != nil {
		return v.Passes[pass].Band.To
	}
	return v.End
}

// atBottom is whether the feed of the pass under way ends at a closed end.
func (f *follower) atBottom() bool {
	return f.shape.station.Blind && endOf(f.v, f.exit.pass) == f.v.End
}

// endCut closes the cut in progress, if there is one.
func (f *follower) endCut() {
	c := f.cut
	if c == nil {
		return
	}
	f.cut = nil
	f.lastSet = f.setting
	if c.pass >= 0 {
		p := &f.v.Passes[c.pass]
		if end := endOf(f.v, c.pass); f.gaps.Ends() {
			f.astray = f.line // what follows is not said beside it
			f.shape.cut(c.to, end, f.setting, f.springs(p.N))
		} else if !f.atDepth(c.to, end) {
			want := "it ends at " + f.deep(end)
			if p.Band != nil {
				want += ": a witness cut marks a band at the near end, and the old bore stays behind it"
			}
			f.out.Add(c.line, f.letter, script.KindDepth, fmt.Sprintf("pass %d: the feed ends at %s", p.N, f.deep(c.to)), want)
		}
	}
	f.keep(c)
	f.exit = exit{active: !f.outside(c.to), pass: c.pass, depth: c.to}
}

// keep notes what a feed has cut of one bore, or of several that it went through.
func (f *follower) keep(c *feeding) {
	number := 0
	if c.pass >= 0 {
		number = f.v.Passes[c.pass].N
	}
	cut := Cut{Pass: number, Setting: f.setting, From: c.from, To: c.to, Feed: c.feed, Speed: c.speed, Line: c.line}
	cut.Removed = f.shape.cut(c.from, c.to, f.setting, f.springs(number))
	for _, s := range f.shape.spans {
		if s.from >= c.from && s.to <= c.to {
			cut.Diameter = max(cut.Diameter, qty.DiameterMM(2*s.mean))
		}
	}
	if len(f.cuts) < script.Most {
		f.cuts = append(f.cuts, cut)
	}
}

// springs are those of a pass, by its number, in each of the bores, by its station.
func (f *follower) springs(number int) func(station int) qty.Length {
	return func(station int) qty.Length {
		for _, b := range f.bores {
			for i := range b.Visit.Passes {
				if p := &b.Visit.Passes[i]; b.Index == station && p.N == number {
					return p.Spring
				}
			}
		}
		return 0
	}
}

// leave is a move out along the bore, at feed or rapid.
func (f *follower) leave(e *rs274.Event, s *stroke) {
	if f.outside(s.d0) {
		return
	}
	if f.exit.active {
		f.comeOut(e)
	}
	if f.outside(s.d1) {
		f.exit.active = false
	} else if !f.gaps.Back(e, s.d0, s.d1) {
		f.add(f.letter, script.KindRetract, fmt.Sprintf("stops on the way out at %s", f.deep(s.d1)), fmt.Sprintf("out to %s at least", f.deep(f.v.Clear)))
	}
}

// comeOut holds the way out against the plan.
func (f *follower) comeOut(e *rs274.Event) {
	if f.exit.faulted {
		return
	}
	f.exit.faulted = true
	if f.atBottom() && !f.exit.dwelt {
		f.add(0, script.KindDwell, "comes off the blind bottom without a dwell", "a dwell of one turn at least, so that the bottom is cut all round")
	}
	shift := f.off()
	wantX, wantY := f.shifted()
	switch {
	case e.Motion == rs274.Feed && shift > 0:
		f.add('G', script.KindRetract, "the cutter feeds out", fmt.Sprintf("M5, M19, a shift of %s off the wall, then G0 out", f.say(shift)))
	case e.Motion == rs274.Feed:
	case shift == 0:
		f.add('G', script.KindRetract, "the cutter comes out at rapid", "it feeds out, turning, as it went in")
	case e.Spindle != rs274.OrientedStop:
		f.add('G', script.KindRetract, "comes out at rapid without an oriented stop: the tip may be anywhere", "M5 and M19 before the shift")
	case !f.near0(e.From.X, wantX) || !f.near0(e.From.Y, wantY):
		f.add(0, script.KindRetract, "comes out "+f.offAxis(e.From), fmt.Sprintf("at X %s, Y %s: %s off the wall, opposite to the tip", f.say(wantX), f.say(wantY), f.say(shift)))
	}
}

// off is how far off the wall the plan moves the bar after the pass that was cut
// last, or after the first where none was; 0: the cutter feeds out.
func (f *follower) off() qty.Length {
	at := max(f.last, 0)
	if at >= len(f.v.Passes) || f.v.Passes[at].Out.By != process.ShiftOut {
		return 0
	}
	return f.v.Passes[at].Out.Shift
}

// shifted is where the bar's axis stands after the planned shift: opposite to
// the tip.
func (f *follower) shifted() (x, y qty.Length) {
	x, y = tipSense(f.control)
	by := f.off()
	return -x * by, -y * by
}

// shift is a rapid move across.
func (f *follower) shift(e *rs274.Event, s *stroke) {
	if e.From.Has(f.axis) && f.outside(s.d1) && f.way.Across(e, s.d1) {
		f.wrongAt[s.d1] = f.wrongAt[s.d1] || f.way.Wrong()
		return
	}
	if f.outside(s.d1) || !e.From.Has(f.axis) {
		said := !e.From.Has(e.From.Moved(e.To)&(rs274.X|rs274.Y)) && f.job.Bar.Outboard == nil && f.beside(s.d1) // by move
		if least := f.handsLevel(); e.From.Has(f.axis) && -s.d1 < least-f.half && !said && !f.wrongAt[s.d1] {
			f.wrongAt[s.d1] = true
			f.add(0, script.KindLevel, "moves across with the tip at "+f.deep(s.d1),
				fmt.Sprintf("X0 Y0 at the clear plane, %s before the face at least, in every pass", f.say(least)))
		}
		for _, a := range []struct {
			letter byte
			axis   rs274.Axes
			at     qty.Length
		}{{'X', rs274.X, e.To.X}, {'Y', rs274.Y, e.To.Y}} {
			if e.To.Has(a.axis) && e.From.Moved(e.To)&a.axis != 0 && !f.near0(a.at, 0) {
				f.add(a.letter, script.KindAxis, fmt.Sprintf("%c goes to %s", a.letter, f.say(a.at)), fmt.Sprintf("%c0: the true axis", a.letter))
			}
		}
		return
	}
	x, y := f.shifted()
	want := "no move across in the bore"
	if f.off() > 0 {
		want = fmt.Sprintf("M19, then X %s, Y %s: off the wall, opposite to the tip", f.say(x), f.say(y))
	}
	switch {
	case f.off() > 0 && f.near0(e.To.X, x) && f.near0(e.To.Y, y) && f.exit.active:
		if e.Spindle != rs274.OrientedStop {
			f.exit.faulted, f.exit.aside = true, true
			f.add(0, script.KindRetract, "shifts in the bore without an oriented stop", want)
		}
	case f.onAxis(e.To):
		f.add(0, script.KindRetract, "goes back to the axis with the tip still in the bore", fmt.Sprintf("out to %s first", f.deep(f.v.Clear)))
	default:
		f.exit.faulted, f.exit.aside = true, true
		f.add(0, script.KindRetract, "shifts in the bore to a place "+f.offAxis(e.To), want)
	}
}

// Turns of the spindle that a dwell at a blind bottom may last: one to cut all
// round, and not so many that the edge rubs. Common practice, no source.
const (
	turnsLeast = 1.0
	turnsMost  = 4.0
)

// dwell holds a pause against the plan.
func (f *follower) dwell(e *rs274.Event) {
	f.endCut()
	turning := e.Spindle.Turning()
	if !turning && f.control.Dwell != process.DwellRevolutions || turning && (!f.pos.Has(f.axis) || f.clearOf(f.depthOf(f.pos))) {
		return // to let the spindle settle or come up: nothing is cut
	}
	letter := byte('P')
	if e.Cycle == 0 && f.control.DwellWord != 0 {
		letter = byte(f.control.DwellWord)
	}
	switch {
	case !f.exit.active: // the tip is in the air: it does no harm
		f.out.Put(Finding{Line: f.line, Kind: script.KindDwell, OtherWay: true, What: "a dwell in the work where nothing is cut", Want: "a dwell at a blind bottom alone"})
	case !f.atBottom() || !f.exit.active || f.exit.dwelt || f.exit.faulted || !f.onAxis(f.pos):
		f.add(letter, script.KindDwell, "a dwell that the plan does not ask for", "a dwell at a blind bottom alone")
		return
	case !e.Spindle.Turning():
		f.add(letter, script.KindDwell, "a dwell with the spindle stopped", "the dwell before M5")
		return
	}
	f.exit.dwelt = true
	// A geared step may be slower than the S word that calls it: then the time
	// must do for the plan's speed.
	turns, most := e.Revs, e.Revs
	if f.rateWrong && f.exit.pass >= 0 && e.Seconds > 0 { // the speed is said; the dwell is for the plan's
		turns = e.Seconds * float64(f.v.Passes[f.exit.pass].Speed) / 60
		most = turns
	}
	if f.exit.pass >= 0 && e.Seconds > 0 && f.control.Dwell != process.DwellRevolutions { // timed, not counted
		turns = min(turns, e.Seconds*float64(f.v.Passes[f.exit.pass].Speed)/60)
	}
	// Half a millisecond short of a turn is a turn that was rounded.
	if slack := 0.0005 * e.Speed / 60; turns < turnsLeast-slack || most > turnsMost {
		if most > turnsMost {
			turns = most
		}
		f.add(letter, script.KindDwell, fmt.Sprintf("a dwell of %.3f turns", turns), fmt.Sprintf("%.0f to %.0f turns of the spindle", turnsLeast, turnsMost))
	}
}

// size holds the bore that the program leaves against the limits.
func (f *follower) size() {
	if f.last < 0 {
		return
	}
	for i := len(f.bores) - 1; i >= 0; i-- {
		l, spring := f.bores[i].Visit.Limits, f.springs(f.v.Passes[f.last].N)(f.bores[i].Index)
		if f.final = f.lastSet - qty.Diameter(spring); f.final >= l.Low && f.final <= l.High {
			continue
		}
		f.add('M', script.KindSize, fmt.Sprintf("the last pass leaves %s: set to %s, less %s of spring", f.dia(f.final), f.dia(f.lastSet), f.fine(spring)),
			fmt.Sprintf("%s to %s", f.say(l.Low.Length()), f.say(l.High.Length())))
	}
	for _, s := range f.shape.spans {
		if s.to <= f.v.From || s.from >= f.v.To {
			continue
		}
		if qty.DiameterMM(2*s.mean) < f.lastSet {
			f.add('M', script.KindSize, fmt.Sprintf("not brought to size from %s to %s", f.deep(max(s.from, f.v.From)), f.deep(min(s.to, f.v.To))),
				fmt.Sprintf("the last pass from %s to %s", f.deep(f.v.From), f.deep(f.v.To)))
		}
	}
}

// pieces is the line of bores as the program leaves it: the station that is
// bored by its spans, like ones joined; the others as they are.
func (f *follower) pieces() []Piece {
	var out []Piece
	for i, st := range f.job.Stations {
		if !slices.ContainsFunc(f.bores, func(b through.Bore) bool { return b.Index == i }) {
			out = append(out, Piece{Station: st.Name, From: st.From, To: st.To, Diameter: around.WideAt(f.job, f.before, i)})
			continue
		}
		first := len(out)
		for _, s := range f.shape.spans {
			from, to := max(s.from, f.v.From), min(s.to, f.v.To)
			if from >= to || s.station != i {
				continue
			}
			d := qty.FromRadius(s.radius)
			if n := len(out); n > first && out[n-1].Diameter == d && out[n-1].Cut == s.cut {
				out[n-1].To = to
				continue
			}
			out = append(out, Piece{
				Station: st.Name, From: from, To: to, Cut: s.cut, Diameter: d,
				Low: f.v.Limits.Low, High: f.v.Limits.High, Within: f.v.Limits.Low <= d && d <= f.v.Limits.High,
			})
		}
	}
	return out
}
