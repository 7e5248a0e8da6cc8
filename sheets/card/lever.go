package card

import (
	"fmt"
	"math"
	"strings"

	"borewright/process"
)

// lever is the same in short: "step 5".
func lever(r process.Range, v float64) string {
	s, _, _ := strings.Cut(Step(r, v), " of ")
	return s
}

// Step says where v stands in a ladder of gears: "step 5 of 12". Plates are
// rounded, so a value within half a percent is the step.
func Step(r process.Range, v float64) string {
	for i, s := range r.Steps {
		if math.Abs(s-v) <= 0.005*s {
			return fmt.Sprintf("step %d of %d", i+1, len(r.Steps))
		}
	}
	return "not a step of this machine"
}
