package verify

import (
	"fmt"
	"math"
	"slices"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// feedState holds the spindle and the words against a feed move.
func (f *follower) feedState(e *rs274.Event) {
	switch {
	case !e.Spindle.Turning():
		f.add('G', script.KindSpindle, "feeds with the spindle stopped", "S and M3 before it")
	}
	if e.Speed <= 0 {
		f.add('G', script.KindSpeed, "feeds without a speed", "S before it")
	}
	if e.Feed <= 0 {
		f.add('G', script.KindFeed, script.NoFeed, "F in its block")
	}
}

func (f *follower) feedMinutes(e *rs274.Event, s *stroke) float64 {
	rate := e.Feed.MM()
	if e.PerRev {
		rate *= e.Speed
	}
	if rate <= 0 {
		return 0
	}
	return length(s) / rate
}

// spindleOn holds a start of the spindle against the machine.
func (f *follower) spindleOn(e *rs274.Event) {
	if f.spindle != e.Spindle && f.pos.Has(f.axis) && !f.clearOf(f.depthOf(f.pos)) && !f.way.Starts(e, f.pos, f.depthOf(f.pos)) {
		f.add('M', script.KindSpindle, "the spindle starts with the tip in the work", "M3 in front of the face, where it can be seen to turn")
	}
	if e.Spindle == rs274.Counter {
		f.add('M', script.KindSpindle, "the spindle turns backward", "M3: the cutter cuts clockwise, seen toward the work")
	}
	if e.Speed <= 0 {
		f.add('M', script.KindSpeed, "the spindle starts without a speed", "S with it")
		f.rate = e.Speed
	}
}

// turns holds the speed of a turning spindle against the plan: that of the pass
// under way, or in front of the bore that of the pass to come. A long bar whirls
// at other speeds, cut or no cut, and hands or the work may be near.
func (f *follower) turns(e *rs274.Event) {
	if !e.Spindle.Turning() {
		f.rate = 0
		return
	}
	if e.Speed == f.rate || e.Speed <= 0 {
		return // held, or said
	}
	f.rate, f.rateWrong = e.Speed, false
	own := []int{f.last, f.next}
	inside := e.To.Has(f.axis) && -f.depthOf(e.To) < f.handsLevel()-f.half
	switch {
	case f.cut != nil || f.exit.active, f.last >= 0 && len(f.stops) == 0 && inside:
		own = own[:1]
	case len(f.stops) > 0:
		own = own[1:]
	}
	n := len(f.v.Passes)
	var want *schedule.Pass
	for _, i := range own {
		if i < 0 || i >= n {
			continue
		}
		if want = &f.v.Passes[i]; math.Abs(e.Speed-float64(want.Speed)) <= 0.5 {
			if r := f.job.Machine.Speeds; outOf(r, e.Speed, 0.5) {
				f.add('S', script.KindSpeed, fmt.Sprintf("S%.6g is not one of the machine's speeds", e.Speed), ladderText(r, "rev/min"))
			}
			return
		}
	}
	f.rateWrong = true
	if f.saidS[e.Speed] {
		return // the S word alone: said there
	}
	if want == nil {
		if !slices.ContainsFunc(f.v.Passes, func(p schedule.Pass) bool { return math.Abs(e.Speed-float64(p.Speed)) <= 0.5 }) {
			f.add('S', script.KindSpeed, fmt.Sprintf("the spindle turns at %.6g rev/min", e.Speed), "nothing that turns: all passes are cut")
		}
		return // else a cut that no pass stands for: said there
	}
	right := fmt.Sprintf("%.6g rev/min: the speed of pass %d", float64(want.Speed), want.N)
	if r := f.job.Machine.Speeds; outOf(r, e.Speed, 0.5) {
		right += fmt.Sprintf("; the machine has %s", ladderText(r, "rev/min"))
	}
	f.add('S', script.KindSpeed, fmt.Sprintf("the spindle turns at %.6g rev/min", e.Speed), right)
}

// perRev is the feed of a move a revolution.
func perRev(e *rs274.Event) qty.Length {
	if e.PerRev {
		return e.Feed
	}
	if e.Speed <= 0 {
		return 0
	}
	return qty.FromMM(e.Feed.MM() / e.Speed)
}

// feedOf holds F of a feed move against a pass of the plan. A feed a
// minute is f·n: of the speed that the program has, or of the plan's where
// the control takes whole revolutions only.
func (f *follower) feedOf(e *rs274.Event, pass int) {
	if pass < 0 || pass >= len(f.v.Passes) || e.Feed <= 0 || e.Speed <= 0 {
		return // said elsewhere
	}
	p := &f.v.Passes[pass]
	least := script.LeastInput(f.control)
	slack := (least / 2).MM() // of the feed a revolution
	var ok bool
	var is, want string
	if e.PerRev {
		ok = f.near0(e.Feed, p.Feed)
		is, want = f.say(e.Feed)+"/rev", f.say(p.Feed)+"/rev"
	} else {
		with := func(n float64) qty.Length { return qty.FromMM(p.Feed.MM() * n) }
		ok = f.near0(e.Feed, with(e.Speed)) || f.near0(e.Feed, with(float64(p.Speed)))
		slack = least.MM() / e.Speed
		is, want = f.say(e.Feed)+"/min", fmt.Sprintf("%s/min (%s/rev)", f.say(with(float64(p.Speed))), f.say(p.Feed))
	}
	if !ok {
		f.add('F', script.KindFeed, fmt.Sprintf("pass %d: feed %s", p.N, is), "the plan has "+want)
	}
	if r := f.job.Machine.Feeds; ok && !f.rateWrong && outOf(r, perRev(e).MM(), slack+1e-6+perRev(e).MM()*0.005) {
		f.add('F', script.KindFeed, fmt.Sprintf("the feed, %s/rev, is not one of the machine's", f.fine(perRev(e))), f.feedsText(r))
	}
}

// outOf reports that a value is not the machine's. On a ladder it must be one
// of the steps; slack is what rounding may do.
func outOf(r process.Range, v, slack float64) bool {
	if len(r.Steps) > 0 {
		return !slices.ContainsFunc(r.Steps, func(s float64) bool { return math.Abs(s-v) <= slack })
	}
	return r.Most > 0 && (v < r.Least-slack || v > r.Most+slack)
}

// feedsText is ladderText for feeds, which the machine holds in mm and a person
// reads in the job's units.
func (f *follower) feedsText(r process.Range) string {
	u := f.job.Units
	span := u.FormatFine(qty.FromMM(r.Least)) + " to " + f.fine(qty.FromMM(r.Most)) + "/rev"
	if len(r.Steps) > 0 {
		return fmt.Sprintf("one of its %d steps from %s", len(r.Steps), span)
	}
	return span
}

func ladderText(r process.Range, unit string) string {
	if len(r.Steps) > 0 {
		return fmt.Sprintf("one of its %d steps from %.6g to %.6g %s", len(r.Steps), r.Steps[0], r.Steps[len(r.Steps)-1], unit)
	}
	return fmt.Sprintf("%.6g to %.6g %s", r.Least, r.Most, unit)
}
