package pass

import (
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Apart is whether there is so much to rough that it is done apart from the finish: at least as
// much as stays for it.
func Apart(v *schedule.Visit, stock qty.Length) bool {
	return v.Limits.Aim.Minus(v.Start) >= 2*stock
}
