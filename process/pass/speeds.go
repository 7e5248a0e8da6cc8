package pass

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/qty"
	"borewright/process/setup"
)

// With is a list of speeds with one more, from the fastest.
func With(list []Pick, p Pick) []Pick {
	i, is := slices.BinarySearchFunc(list, p, func(a, b Pick) int { return cmp.Compare(b.RPM, a.RPM) })
	if is {
		return list
	}
	return slices.Insert(slices.Clone(list), i, p)
}

// Pick is a speed of the spindle, within the band where it does not exceed most,
// m/min.
func (r *Judge) Pick(n, most float64) Pick {
	speed := float64(qty.RevPerMin(n).At(r.Visit.Limits.Aim))
	return Pick{RPM: n, Speed: speed, Within: speed <= most*1.02}
}

// Picks are the spindle speeds to try, from the fastest: the author's own
// alone, or the top of the band taken down for a slender bar, and slower ones in
// steps of 0.7 down to the slowest that does not fall below least, m/min, because a
// slow edge rubs chatter out. All at the size aimed at.
func (r *Judge) Picks(own float64, band [2]qty.CuttingSpeed, least float64) []Pick {
	v := own
	if v == 0 {
		v = float64(band[1]) * setup.SpeedShare(r.Overhang)
	}
	top := math.Min(float64(qty.CuttingSpeed(v).Turning(r.Visit.Limits.Aim)), 1e9) // a bore of no diameter turns without end
	if most := float64(r.Job.Limits.SpeedMost); most > 0 {
		top = math.Min(top, most)
	}
	var out []Pick
	try := func(n float64) {
		p := r.Pick(n, math.Max(v, float64(band[1])))
		if len(out) == 0 || own == 0 && p.Speed >= least && n < out[len(out)-1].RPM && len(out) < MostSpeeds {
			out = append(out, p)
		}
	}
	low := float64(qty.CuttingSpeed(least).Turning(r.Visit.Limits.Aim))
	for n := top; n > max(low, 1e-6); n *= 0.7 { // without a table low is 0, which n never comes to
		try(r.SpeedAtMost(n))
	}
	try(r.SpeedAtLeast(low))
	return out
}

// Slowest is how far below the least speed of the material's table one is still
// worth trying:
// slower, a carbide edge builds up and crumbles. Common practice, no source.
const Slowest = 0.5

// MostSpeeds is how many speeds are tried in roughing: in steps of 0.7 that is a
// range of 1 to 17.
const MostSpeeds = 9
