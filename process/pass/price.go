package pass

import (
	"math"

	"borewright/process/schedule"
	"borewright/process/setup"
)

// MissMinutes is what a bore out of limits costs, in minutes: half a shift to
// put it right, if it can be. Common practice, no source. It only weighs one
// chain against another.
const MissMinutes = 240

// MissPrice is what the chance costs, in minutes, that a size known to ±doubt (95 %) falls outside
// ±half, normally distributed: erfc(half/(σ√2)) of MissMinutes, σ = doubt/1.96.
func MissPrice(doubt, half float64) float64 {
	if doubt <= 0 {
		return 0
	}
	return MissMinutes * math.Erfc(half/(doubt/1.96)/math.Sqrt2)
}

// LeastMiss is that of any pass, whatever it springs and goes before it.
func (r *Judge) LeastMiss() float64 { return MissPrice(r.LeastDoubt(Cut{})) }

// gearMinutes is what a change of gear costs between two passes, in minutes: the spindle is
// stopped, the levers are moved and the gears brought into mesh. Common practice, no
// source.
const gearMinutes = 1

// GearPrice is what changes of gear cost on the machine: nothing where its spindle turns at any
// speed of a range.
func (r *Judge) GearPrice() float64 {
	if len(r.Job.Machine.Speeds.Steps) == 0 {
		return 0
	}
	return gearMinutes
}

// Unusual is what leaving the custom of the trade costs, in minutes: a shop
// likes to leave UsualFinish for the last cut and usualSemi for the one before
// it, and half a minute saved is no reason to surprise it. Radial depths, mm.
func Unusual(semi, finish float64) float64 {
	return 8*math.Abs(finish-UsualFinish) + 2*math.Abs(semi-usualSemi)
}

// UsualFinish is the stock a shop likes to leave for the last cut, radial.
// Source: finish stock 0.2–0.5 mm on diameter for carbide, 0.1–0.4 for
// high-speed steel (from memory).
const UsualFinish = 0.1

// usualSemi is the middle of the 0.4 to 1.0 mm on diameter that a shop leaves
// for a semi-finish (from memory), radial, at its light end: the bars here are
// slender.
const usualSemi = 0.2

// chatterMinutes is what a pass that may chatter costs on top of its time for each
// halving of its margin below the edge: stopping, trying another speed, and a bore
// to clean up after it. It weighs one pass against another, and more than what
// twice the speed saves in most bores: quiet goes before fast. Common practice, no
// source.
const chatterMinutes = 12

// fasterMinutes is what a finish costs that is not quiet and is turned faster than the
// roughing pass before it: it is done where the roughness asked for leaves no other
// way. Common practice, no source.
const fasterMinutes = MissMinutes

// FasterPrice is what it costs, in minutes, to turn a finish that stands so faster
// than the pass before it: quiet before fast. A speed that the job gives costs
// nothing.
func (r *Judge) FasterPrice(s setup.Stability) float64 {
	if s.Chatter() == setup.Quiet || r.Job.Cutter.SpeedFinish > 0 {
		return 0
	}
	return fasterMinutes
}

// mostHalvings is where the price of chatter ends: at a margin of 1/64 there is
// nothing left to tell apart.
const mostHalvings = 6

// ChatterPrice is the price of a margin below the edge, in minutes: nothing where
// it is quiet at the middle of what damps it.
func ChatterPrice(s setup.Stability) float64 {
	m := s.Middle()
	if m >= 1 {
		return 0
	}
	return chatterMinutes * math.Min(mostHalvings, -math.Log2(m))
}

// Quieter is whether a pass that takes so much, mm, costs less at one feed, mm/rev, than at a faster one,
// the price of chatter counted.
func (r *Judge) Quieter(total, feed, faster float64, pick Pick, radius float64, out schedule.WayOut) bool {
	cost := func(feed float64) float64 {
		return r.MinutesOf(feed, pick.RPM, out) + ChatterPrice(r.StabilityOf(r.CutFor(total, feed, pick, radius, out), r.NewLand()))
	}
	return cost(feed) < cost(faster)
}
