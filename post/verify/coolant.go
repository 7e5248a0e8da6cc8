package verify

import (
	"fmt"

	"borewright/post/verify/script"
)

// Coolant is held where the control has a word for it; elsewhere programs turn it on and
// off as the shop likes.

// wets takes M7, M8 or M9.
func (f *follower) wets(code int) {
	if code == 9 {
		f.coolant = nil
		return
	}
	own := f.control.Coolant
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

// wet holds a feed move in the bore against the coolant: once a pass.
func (f *follower) wet(in bool) {
	pass := f.last + 1 // counted from 1
	if in && f.cut == nil {
		pass = f.next + 1
	}
	own := f.control.Coolant
	if own == 0 || f.dry || f.coolant[int(own)] || f.dryAt == pass {
		return
	}
	f.dryAt = pass
	f.add('G', script.KindCoolant, "feeds with the coolant off", own.String()+" in front of the bore, M9 after the pass")
}

// stopDry holds a stop against the coolant: hands go to the cutter and the gauge into the
// bore.
func (f *follower) stopDry() {
	if f.control.Coolant != 0 && len(f.coolant) > 0 {
		f.add('M', script.KindCoolant, "a stop with the coolant on", "M9 in a block before M0")
		f.coolant = nil
	}
}
