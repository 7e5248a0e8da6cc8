package sheets

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/qty"
)

// change prints how far the cutter dial is turned from one setting to the
// next, in its graduations to a tenth, or as a length where the graduation is
// not known.
func change(u qty.Unit, from, to qty.Diameter, graduation qty.Length) string {
	d := to.Minus(from)
	sign := ""
	if d > 0 {
		sign = "+"
	}
	if graduation <= 0 {
		return sign + u.Format(d)
	}
	tenths := math.Round(float64(d) / float64(graduation) * 10)
	if tenths == 0 {
		return "0"
	}
	return sign + qty.KindNumber.Bare(tenths/10)
}

// step says where v stands in a ladder of gears: "step 5 of 12". Plates are
// rounded, so a value within half a percent is the step.
func step(r process.Range, v float64) string {
	for i, s := range r.Steps {
		if math.Abs(s-v) <= 0.005*s {
			return fmt.Sprintf("step %d of %d", i+1, len(r.Steps))
		}
	}
	return "not a step of this machine"
}
