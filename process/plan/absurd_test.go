package plan_test

import (
	"testing"

	. "borewright/process/plan"
	"borewright/process/qty"
)

// A job that no loader lets through, a bore to be cut to the size of a country, is answered:
// the grid of its roughing passes does not fill the memory.
func TestAbsurdStockIsAnswered(t *testing.T) {
	for _, name := range []string{"gear-case/job.toml", winch} {
		for _, d := range []qty.Diameter{qty.DiameterMM(1e6), qty.DiameterMM(1e12)} {
			job := shipped(t, name)
			f := &job.Bores[0].Finish
			f.Low, f.High = d, d.Plus(qty.Millimetre)
			if p := Attempt(job, nil); p.Feasible || len(p.Reasons) == 0 {
				t.Errorf("%s to %v: feasible %v, %d reasons", name, d, p.Feasible, len(p.Reasons))
			}
		}
	}
}
