package passes

import (
	"math"

	"borewright/process/pass"
)

// missMinutes is what a bore out of limits costs, in minutes: half a shift to
// put it right, if it can be. Common practice, no source. It only weighs one
// chain against another.
const missMinutes = 240

// missChance is the chance that a size known to ±doubt (95 %) falls outside
// ±half, normally distributed: erfc(half/(σ√2)), σ = doubt/1.96.
func missChance(doubt, half float64) float64 {
	if doubt <= 0 {
		return 0
	}
	return math.Erfc(half / (doubt / 1.96) / math.Sqrt2)
}

// gearMinutes is what a change of gear costs between two passes, in minutes: the spindle is
// stopped, the levers are moved and the gears brought into mesh. Common practice, no
// source.
const gearMinutes = 1

// gears is what changes of gear cost on the machine: nothing where its spindle turns at any
// speed of a range.
func (r *Planner) gears() float64 {
	if len(r.Job.Machine.Speeds.Steps) == 0 {
		return 0
	}
	return gearMinutes
}

// gearPrice is what it costs to turn a pass at another speed than the pass before it.
func (r *Planner) gearPrice(before *chain, pick pass.Pick) float64 {
	if t := r.turned(before); math.IsInf(t, 1) || t == pick.RPM {
		return 0
	}
	return r.gears()
}

// unusual is what leaving the custom of the trade costs, in minutes: a shop
// likes to leave usualFinish for the last cut and usualSemi for the one before
// it, and half a minute saved is no reason to surprise it. Radial depths, mm.
func unusual(semi, finish float64) float64 {
	return 8*math.Abs(finish-usualFinish) + 2*math.Abs(semi-usualSemi)
}

// usualFinish is the stock a shop likes to leave for the last cut, radial.
// Source: finish stock 0.2–0.5 mm on diameter for carbide, 0.1–0.4 for
// high-speed steel (from memory).
const usualFinish = 0.1

// usualSemi is the middle of the 0.4 to 1.0 mm on diameter that a shop leaves
// for a semi-finish (from memory), radial, at its light end: the bars here are
// slender.
const usualSemi = 0.2
