package sleeve

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/schedule"
)

// A sleeve that is finished on the lathe is not cut again. It is measured when
// it is home all the same: that is the bore which the drawing asks for.

// ToMeasure is what is to be measured when the sleeve is home, as pass n.
func (s *Sleeve) ToMeasure(job *process.Job, finish process.Finish, n int) *schedule.Pass {
	return &schedule.Pass{
		N: n, Kind: schedule.Fitted, Low: s.Before.Low, Expected: s.Before.Low.Plus(s.Before.High.Minus(s.Before.Low) / 2), High: s.Before.High,
		Hold: &schedule.Hold{
			Measure: []fact.Fact{fact.New(HomeSize, fact.Size(s.Before.Low), fact.Size(s.Before.High)), fact.New(HomeLimits, fact.Size(finish.Low), fact.Size(finish.High))},
			Then:    fact.New(EnterHome), Minutes: job.Limits.HoldMinutes,
		},
	}
}
