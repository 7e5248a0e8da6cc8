package verify

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"borewright/post/rs274"
	"borewright/post/verify/remark"
	"borewright/post/verify/script"
	"borewright/post/verify/sentence"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// stopsMost are the stops that are kept: more than any program has.
const stopsMost = 5000

// stop is M0: the one moment at which hands may be at the cutter.
func (f *follower) stop(e *rs274.Event) {
	f.way.Stops()
	if f.spindle.Turning() {
		f.add('M', script.KindSpindle, "a stop with the spindle turning", "M5 in a block before M0")
	}
	if f.spindle == rs274.OrientedStop {
		f.add('M', script.KindSpindle, "a stop with the spindle held at its angle by the drive", "M5 in a block before M0: hands go to the cutter")
	}
	switch depth := f.depthOf(f.pos); {
	case !f.pos.Has(f.axis):
		// Before the first move the tip is wherever the operator left it.
		if (f.last >= 0 || len(f.cuts) > 0) && f.astray == 0 {
			f.add('M', script.KindStop, "stops at an unknown place", "G0 to the level in front of the face first")
		}
	case f.astray > 0: // said
		f.exit.active = false
	case f.wrongAt[depth]: // said
		if !f.clearOf(depth) {
			f.astray = f.line
		}
	case !f.clearOf(depth):
		f.astray = f.line
		f.add('M', script.KindStop, fmt.Sprintf("stops with the tip at %s, where no hand reaches the cutter", f.deep(depth)), "the stop in front of the face")
	case !f.onAxis(f.pos) && f.pos.Known&(rs274.X|rs274.Y) != 0:
		f.astray = f.line
		f.add('M', script.KindStop, "stops with the bar off the axis", "X0 Y0 before the stop")
	default:
		f.roomForHands("stops", depth)
		f.level(depth)
	}
	orders := remark.Read(f.said[e.Line])
	if e.Optional {
		f.optional = e.Line // it is none of the plan's: the operator's switch can skip it
	} else if len(f.stops) < stopsMost {
		f.stops = append(f.stops, halt{e.Line, f.acted, orders.Set, orders.Measure, orders.Hone, -f.depthOf(f.pos)})
	}
	switch {
	case f.again < 0 || e.Optional:
	case f.last == f.again-1 && f.span[0] == 0:
		f.span[0] = e.Line
	case f.last == f.again && f.span[1] == 0:
		f.span[1] = e.Line
	}
	f.align(orders)
	if len(f.places) < stopsMost {
		at := sentence.Place{Before: f.next, After: f.last}
		if f.next >= len(f.v.Passes) {
			at.Before = -1
		}
		f.places[e.Line] = at
	}
	if f.next >= len(f.v.Passes) {
		return
	}
	p := &f.v.Passes[f.next]
	f.setting = p.Setting
	if orders.Leave && p.Setting != f.lastSet {
		f.add('(', script.KindSetting, "the comment says to leave the cutter as it is", fmt.Sprintf("to set it: pass %d is cut at %s", p.N, f.dia(p.Setting)))
	}
}

// handsNeed is how far outside the end of the bar past the tip must stand before
// hands set the cutter and gauge the bore. Common practice, no source.
func (f *follower) handsNeed() qty.Length {
	if f.job.Units == qty.Inches {
		return qty.Inch
	}
	return 25 * qty.Millimetre
}

// handsLevel is how far in front of the face the tip must stand at a stop. A
// bar in an outboard support never comes out of the work.
func (f *follower) handsLevel() qty.Length {
	if f.job.Bar.Outboard != nil {
		return f.handsNeed()
	}
	return f.handsNeed() + max(0, f.job.Bar.Stickout()-f.job.Bar.CutterAt)
}

// roomForHands finds a stop or an end that is in front of the face, but too near.
func (f *follower) roomForHands(what string, depth qty.Length) {
	least := f.handsLevel()
	if -depth >= least-f.half || f.wrongAt[depth] {
		return
	}
	f.wrongAt[depth] = true
	f.add(f.letter, script.KindStop, fmt.Sprintf("%s with the tip %s", what, f.deep(depth)),
		fmt.Sprintf("%s before the face at least: the end of the bar past the tip out of the work, and %s for hands and gauge", f.say(least), f.say(f.handsNeed())))
}

// align holds the setting that the stop's comments state against the plan. The
// setting of a later pass means that those between are missing.
func (f *follower) align(orders remark.Orders) {
	if len(orders.Sizes) == 0 {
		return
	}
	if f.next >= len(f.v.Passes) {
		f.add('(', script.KindSetting, "sets the cutter after the last pass", "no setting: all passes are cut")
		return
	}
	fits := func(p *schedule.Pass) bool {
		for _, n := range orders.Sizes {
			if !f.states(n, p.Setting) {
				return false
			}
		}
		return true
	}
	for i := f.next; i < len(f.v.Passes); i++ {
		if !fits(&f.v.Passes[i]) {
			continue
		}
		if i > f.next {
			f.add('(', script.KindPass, script.NotCut+" before this stop: "+f.named(f.next, i), "the passes in the plan's order")
			f.next = i
		}
		return
	}
	p := &f.v.Passes[f.next]
	wrong := orders.Sizes[max(slices.IndexFunc(orders.Sizes, func(n remark.Size) bool { return !f.states(n, p.Setting) }), 0)]
	f.add('(', script.KindSetting, "the comment says to set the cutter to "+f.stated(wrong),
		fmt.Sprintf("pass %d is cut at %s", p.N, f.dia(p.Setting)))
}

// holdOut is how far in front of the face the bore is measured; 0: anywhere that hands have
// room. A bar in an outboard support stays where it is.
func (f *follower) holdOut() qty.Length {
	if f.job.Bar.Outboard != nil {
		return 0
	}
	return f.control.HoldOut
}

// named lists passes from one index up to another.
func (f *follower) named(from, to int) string {
	var out []string
	for i := from; i < to; i++ {
		p := &f.v.Passes[i]
		out = append(out, fmt.Sprintf("pass %d (%s, %s)", p.N, p.Kind, f.dia(p.Setting)))
	}
	return strings.Join(out, ", ")
}

// gap holds what came between the last cut and pass next (all passes: the end
// of the program) against the plan: the passes left out and the stops. Before
// each pass there is a stop to set the cutter, or to leave it as it is, and
// after a pass with a hold one to measure.
func (f *follower) gap(next int, letter byte) {
	all := len(f.v.Passes)
	if next == all && f.next < all {
		f.add(letter, script.KindPass, script.NotCut+": "+f.named(f.next, all), fmt.Sprintf("%d passes", all))
	}
	hold := f.last >= 0 && f.v.Passes[f.last].Hold != nil
	need := 0
	var want []string
	if hold {
		need++
		want = append(want, fmt.Sprintf("one to measure after pass %d", f.v.Passes[f.last].N))
	}
	if next < all {
		need++
		want = append(want, fmt.Sprintf("one to set the cutter for pass %d to %s", f.v.Passes[next].N, f.dia(f.v.Passes[next].Setting)))
	}
	for i := 0; i < len(f.stops) && len(f.stops) > need && need > 0; { // a stop more, where hands may be, does no harm
		if h := f.stops[i]; h.set || h.measure {
			i++
		} else {
			f.stops = slices.Delete(f.stops, i, i+1)
		}
	}
	if out := f.holdOut(); hold && out > 0 && len(f.stops) > 0 && f.stops[0].out < out-f.half {
		f.out.Add(f.stops[0].line, f.letter, script.KindStop, fmt.Sprintf("stops to measure with the tip %s", f.deep(-f.stops[0].out)), fmt.Sprintf("%s before the face at least: there is room for the gauge", f.say(out)))
	}
	set, measure := false, false
	for _, h := range f.stops {
		set, measure = set || h.set, measure || h.measure
	}
	switch have := len(f.stops); {
	case have < need:
		what := "no stop before this"
		if have > 0 {
			what = "one stop before this"
		}
		if f.optional > 0 {
			f.out.Add(f.optional, 'M', script.KindStop, "an optional stop: the operator's switch can skip it", "M0: "+strings.Join(want, ", and "))
			break
		}
		f.out.Add(f.line, letter, script.KindStop, what, strings.Join(want, ", and "))
	case have > need && need > 0 && (set || next == all) && (measure || !hold):
	case have > need && need > 0 && !f.speaks:
	case have > need:
		also := "none here"
		if need > 0 {
			also = strings.Join(want, ", and ")
		}
		f.out.Add(f.stops[need].line, 'M', script.KindStop, fmt.Sprintf("%d stops where the plan has %d", have, need), also)
	case have > 0 && (f.out.Blames(f.stops[0].line, script.KindSpindle) || f.out.Blames(f.stops[have-1].line, script.KindSpindle)): // said
	case hold && !measure && (set || f.speaks), hold && need == 2 && f.stops[0].set && !f.stops[0].measure:
		f.out.Add(f.stops[0].line, 'M', script.KindStop, "the stop does not say to measure", want[0])
	case next < all && !set && (measure || f.speaks), next < all && f.stops[have-1].measure && !f.stops[have-1].set:
		f.out.Add(f.stops[have-1].line, 'M', script.KindStop, "the stop does not say to set the cutter", want[len(want)-1])
	}
	if next < all && len(f.stops) > 0 && next != f.again { // which has no mark of its own
		stop := f.stops[len(f.stops)-1]
		f.around.Restart(f.v.Passes[next].N, stop.line, stop.after)
	}
	if next < all && len(f.stops) == need && !f.out.Blames(f.stops[need-1].line, script.KindStop) {
		f.keen(&f.v.Passes[next], set || measure || f.speaks)
	}
	f.stops, f.optional = f.stops[:0], 0
}

// keen holds what the stops before a pass say of the edge against the plan, where they say
// anything at all.
func (f *follower) keen(p *schedule.Pass, speaks bool) {
	last, says := f.stops[len(f.stops)-1].line, slices.ContainsFunc(f.stops, func(h halt) bool { return h.hone })
	switch {
	case p.Hone != nil && !says && speaks:
		f.out.Add(last, 'M', script.KindStop, "the stop does not say to hone the edge or to change the bit", fmt.Sprintf("pass %d is planned with a keen edge", p.N))
	case p.Hone == nil && says:
		f.out.Add(last, 'M', script.KindStop, "the stop says to hone the edge or to change the bit", fmt.Sprintf("pass %d is planned with the edge as it is", p.N))
	}
}

// stopLines are the lines of the stops passed, cutLines those of passes that were cut.
func (f *follower) stopLines() []int { return slices.Sorted(maps.Keys(f.places)) }

func (f *follower) cutLines() (lines []int) {
	for _, c := range f.cuts {
		if c.Pass > 0 {
			lines = append(lines, c.Line)
		}
	}
	return lines
}
