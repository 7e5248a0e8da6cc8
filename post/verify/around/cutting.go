package around

import (
	"fmt"
	"math"
	"slices"

	"borewright/post/verify/script"
	"borewright/process"
)

// Coolant is held where the control has a word for it; elsewhere programs turn it on and
// off as the shop likes.

// wets takes M7, M8 or M9.
func (f *Follower) wets(code int) {
	if code == 9 {
		f.coolant = nil
		return
	}
	own := f.c.Coolant
	if f.coolant == nil {
		f.coolant = map[int]bool{}
	}
	f.coolant[code] = true
	switch {
	case own == 0:
	case f.dry:
		f.add('M', script.KindCoolant, fmt.Sprintf("M%d turns the coolant on", code), f.v.Material.Called()+" is cut dry with this cutter")
	case code != int(own):
		f.add('M', script.KindCoolant, fmt.Sprintf("M%d turns on what this control does not have", code), own.String()+": its coolant")
	}
}

// wet holds a feed move against the coolant: once a pass.
func (f *Follower) wet(pass int) {
	own := f.c.Coolant
	if own == 0 || f.dry || f.coolant[int(own)] || f.dryAt == pass+1 {
		return
	}
	f.dryAt = pass + 1
	f.add('G', script.KindCoolant, "feeds with the coolant off", own.String()+" in front of the bore, M9 after the pass")
}

// stopDry holds a stop against the coolant: hands go to the cutter and the gauge into the
// bore.
func (f *Follower) stopDry() {
	if f.c.Coolant != 0 && len(f.coolant) > 0 {
		f.add('M', script.KindCoolant, "a stop with the coolant on", "M9 in a block before M0")
		f.coolant = nil
	}
}

// shift takes the word of a spindle range.
func (f *Follower) shift(word int) {
	if f.at.Turning {
		f.add('M', script.KindSpindle, fmt.Sprintf("M%d shifts the range of the spindle while it turns", word), "M5 in a block before it")
	}
	f.gear = word
}

// inGear holds the range in which the spindle starts against the control: the first that
// holds the speed of the pass, of the one to come or of the one under way.
func (f *Follower) inGear(speed float64) {
	var want *process.GearRange
	for _, pass := range []int{f.at.Last, f.at.Next} {
		if pass < 0 || pass >= len(f.v.Passes) || math.Abs(speed-float64(f.v.Passes[pass].Speed)) > 0.5 {
			continue // a wrong speed is found by turns
		}
		n := float64(f.v.Passes[pass].Speed)
		at := slices.IndexFunc(f.c.Gears, func(g process.GearRange) bool { return g.Least <= n && n <= g.Most })
		if at < 0 {
			continue
		}
		if want = &f.c.Gears[at]; f.gear == int(want.Word) {
			return
		}
	}
	if want == nil {
		return
	}
	what := fmt.Sprintf("the spindle starts in the range M%d", f.gear)
	if f.gear == 0 {
		what = "the spindle starts without a word for its range"
	}
	f.add('M', script.KindSpindle, what, fmt.Sprintf("%s in a block before it: %.6g to %.6g rev/min", want.Word, want.Least, want.Most))
}
