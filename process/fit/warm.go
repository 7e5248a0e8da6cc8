package fit

import "math"

// Tightens is how an interference between sleeve and housing changes from room
// temperature to work, on diameter, mm, over the service temperatures; negative:
// it is lost, or a gap opens. Sleeve and housing are equally warm.
//
//	Δδ = d (α_s − α_h)(T − T₀)
func (in PressInput) Tightens(d float64) Band {
	b := emptyBand()
	for _, t := range []float64{in.Service.Least, in.Service.Most} {
		b.hull(d * (in.Sleeve.Alpha - in.Hub.Alpha) * (t - in.Reference))
	}
	return b
}

// BoreGrows is how much the finished bore of a sleeve is larger at t °C than in
// the room, on diameter, mm, over the range of metal around the housing. The
// housing does not let the sleeve grow freely: where the sleeve's metal grows
// more, its outside is squeezed and its bore closes on itself.
//
//	ΔD = α_s D ΔT − c d (α_s − α_h) ΔT
//
// c is bore closure over interference, by Lamé (seat); the change is elastic
// and the same whatever the interference, as long as the parts touch. The film
// of a bond gives a little: c is then anything from 0 to that of a press fit.
func (in PressInput) BoreGrows(d, t float64, bonded bool) Band {
	free := in.Sleeve.Alpha * in.Sleeve.Inside * (t - in.Reference)
	held := d * (in.Sleeve.Alpha - in.Hub.Alpha) * (t - in.Reference)
	b := emptyBand()
	for _, outside := range []float64{in.Hub.Outside, math.Max(in.Hub.Outside, in.Hub.OutsideMost)} {
		b.hull(free - newSeat(d, outside, in.Hub, in.Sleeve).closing()*held)
	}
	if bonded {
		b.hull(free)
	}
	return b
}
