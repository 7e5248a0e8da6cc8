package pass

import "borewright/process/setup"

// Uneven is by how much the play of an outboard bearing makes a bore out of round,
// radial: the bar stands differently in its bush as the tip goes round.
func (r *Judge) Uneven(c Cut) float64 {
	b, _ := r.Bush(c.Force, c.Radius, setup.In)
	if c.Fed {
		b, _ = r.Bush(c.Back, c.Radius, setup.Out)
	}
	return b.Uneven
}
