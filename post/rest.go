package post

import (
	"fmt"

	"borewright/process/plan"
)

// visitName is the part of a file name that tells visits apart: the visit's
// number, and the pass after which a plan for the rest takes over. A program
// for the rest never has the name of the one it takes the place of, because a
// control keeps its programs in one flat store.
func visitName(v plan.Visit, index int) string {
	n := v.N
	if n == 0 {
		n = index + 1
	}
	if v.Behind > 0 {
		return fmt.Sprintf("%d-after-%d", n, v.Behind)
	}
	return fmt.Sprint(n)
}
