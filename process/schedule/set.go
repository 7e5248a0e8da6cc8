package schedule

import (
	"borewright/process/field"
	"borewright/process/qty"
)

// Set is what a hand does to set the cutter for a pass.
type Set struct {
	From        qty.Diameter // by increment: where the cutter stands before; 0: it is set anew
	Turns       int          // whole turns of the dial from there; below 0 it closes
	Graduations float64      // and graduations besides, to half a one; below 0 it closes
	OverBar     qty.Length   // what a micrometer over bar and tip reads; 0: none is used
}

// Describe says what documents have of a setting.
func (s *Set) Describe(d *field.Desc) {
	moved := func() bool { return s.From > 0 }
	d.Diameter(&s.From, "from_mm").NullUnless(moved)
	d.Count(&s.Turns, "dial_turns").NullUnless(moved)
	d.Number(&s.Graduations, "dial_graduations", "").Decimals(1).NullUnless(moved)
	d.Length(&s.OverBar, "over_bar_mm").NullUnless(func() bool { return s.OverBar > 0 })
}
