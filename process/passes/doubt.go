package passes

import (
	"math"

	"borewright/process/setup"
)

// finishDoubt is how far the finish may land from the size aimed at, ± on
// diameter (95 %), against half the tolerance.
func (r *Planner) finishDoubt(c, semi cutAt, left float64) (doubt, half float64) {
	doubt = r.doubtMeasured(r.spring(semi), r.spring(c)) + r.taper(c)/2 + left + rounding
	return doubt, r.v.Limits.High.Minus(r.v.Limits.Low).MM() / 2
}

// rounding is what printing sizes to 0.0001 in or 0.001 mm adds to the doubt of
// one: half a step each for setting and size.
const rounding = 0.0025

// spring is that of a cut, on diameter.
func (r *Planner) spring(c cutAt) float64 { return 2 * r.Middle.Push(c.force, c.radius, setup.In) }

// taper is the difference in diameter between the ends of the bore where the
// stickout grows.
func (r *Planner) taper(c cutAt) float64 { return r.Taper(c.force, c.radius, setup.In) }

// SpringRepeats is how well the spring of one cut repeats in the next, as a
// fraction of it (95 %): edge, hardness and chips vary even when nothing is
// changed. Common practice, no source.
const SpringRepeats = 0.10

// doubtMeasured is what remains unknown (± on diameter, 95 %) of the size that
// a pass leaves, when the pass before was measured: setting, gauge,
// temperature, repeat of the spring, and the force model's error on the
// difference of the two springs only. Independent parts are added by squares
// (JCGM 100, the usual law).
func (r *Planner) doubtMeasured(before, now float64) float64 {
	l := r.Job.Limits
	return BySquares(l.SettingError.MM(), l.GaugeError.MM(), r.Warm(), SpringRepeats*now, r.Doubt*(now-before))
}

// doubtBlind is the same with no measurement before: the whole spring is only
// as well known as the force model.
func (r *Planner) doubtBlind(now float64) float64 {
	l := r.Job.Limits
	return BySquares(l.SettingError.MM(), r.Warm(), r.Doubt*now)
}

// doubtLearned is what remains unknown (± on diameter, 95 %) of the size that a
// pass leaves when the spring has been learned: setting, temperature, repeat of
// the spring, and what is still unknown of it. The gauge's error stands in the
// last. Added by squares (JCGM 100, the usual law).
func (r *Planner) doubtLearned(now float64) float64 {
	return BySquares(r.Job.Limits.SettingError.MM(), r.Warm(), SpringRepeats*now, r.Doubt*now)
}

// Warm is the size error from work and gauge at different temperatures:
// α·D·ΔT.
func (r *Planner) Warm() float64 {
	return r.v.Material.Alpha * r.v.Limits.Aim.MM() * r.Job.Limits.Temperature
}

func BySquares(parts ...float64) float64 {
	var s float64
	for _, p := range parts {
		s += p * p
	}
	return math.Sqrt(s)
}
