package pass

import "borewright/process/setup"

// Uneven is by how much a pass makes a bore out of round itself, radial peak to valley:
// by the error of the spindle in its bearings, and by the play of an outboard bearing, as
// the bar stands differently in its bush while the tip goes round. The two lie as they
// happen to, and add at the worst.
func (r *Judge) Uneven(c Cut) float64 { return r.Job.Runout().MM() + r.swung(c) }

// Across is by how much a two-point diameter stands above and below its middle for what
// Uneven is. Of the lobes that a spindle makes an even number shows across the bore in
// full, an odd number not at all; which they are is not known, so half of it counts.
func (r *Judge) Across(c Cut) float64 { return r.Job.Runout().MM()/2 + r.swung(c) }

// swung is what the play of an outboard bearing does.
func (r *Judge) swung(c Cut) float64 {
	b, _ := r.Bush(c.Force, c.Radius, setup.In)
	if c.Fed {
		b, _ = r.Bush(c.Back, c.Radius, setup.Out)
	}
	return b.Uneven
}
