package pass

import (
	"math"

	"borewright/process/qty"
)

// FinishDepths are the radial depths tried for the last pass, mm: 0.05 to 0.6
// on diameter. Source: finish stock 0.1–0.4 mm on diameter with high-speed
// steel, 0.2–0.5 with carbide (from memory); below that only where the chip
// allows.
var FinishDepths = []float64{0.025, 0.04, 0.05, 0.065, 0.075, 0.09, 0.1, 0.125, 0.15, 0.175, 0.2, 0.25, DeepestFinish}

// DeepestFinish is the last of them.
const DeepestFinish = 0.3

// SemiMost is the deepest cut before the last, radial: the stock a shop leaves
// for a semi-finish is 0.4 to 1.0 mm on diameter (from memory).
const SemiMost = 0.5

// SemiSize is the radius to leave for a last pass of this depth, rounded to a
// half thousandth of an inch or a hundredth of a millimetre on diameter.
func (r *Judge) SemiSize(depth float64) float64 {
	step := 0.01
	if r.Job.Units == qty.Inches {
		step = 0.0005 * 25.4
	}
	return math.Round(2*(r.Aim-depth)/step) * step / 2
}

// LastFrom is the least radius, mm, that a semi-finish with its finish can begin from.
func (r *Judge) LastFrom() float64 {
	return r.SemiSize(DeepestFinish) - SemiMost - 1e-9
}

// RoundnessClasses is how many classes of out-of-round ways to a radius are told apart by:
// an uneven bore matters by what is left of it.
const RoundnessClasses = 12

// RoundnessClass is the class of a bore so uneven, mm. Each is twice the one below, above a tenth of
// what is asked for beyond what the spindle leaves; below that all are round.
func (r *Judge) RoundnessClass(uneven float64) int {
	floor := (r.Visit.Roundness - r.Job.Runout()).MM() / 10
	if uneven <= floor || floor <= 0 {
		return 0
	}
	return min(RoundnessClasses-1, 1+int(math.Log2(uneven/floor)))
}
