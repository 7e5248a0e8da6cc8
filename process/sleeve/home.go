package sleeve

import (
	"fmt"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/passes"
)

// A sleeve that is finished on the lathe is not cut again. It is measured when
// it is home all the same: that is the bore which the drawing asks for.

// ToMeasure is what is to be measured when the sleeve is home, as pass n.
func (s *Sleeve) ToMeasure(job *process.Job, finish process.Finish, n int) *passes.Pass {
	u := job.Units
	return &passes.Pass{
		N: n, Kind: passes.Fitted, Low: s.Before.Low, Expected: s.Before.Low.Plus(s.Before.High.Minus(s.Before.Low) / 2), High: s.Before.High,
		Hold: &passes.Hold{Measure: written(
			fmt.Sprintf("diameter at three depths, four clock positions: expect %s to %s", u.Format(s.Before.Low.Length()), u.Say(s.Before.High.Length())),
			"limits "+u.SayLimits(finish.Low, finish.High),
		), Then: fact.AsWritten("Enter it; the record of the bore is then whole."), Minutes: job.Limits.HoldMinutes},
	}
}
