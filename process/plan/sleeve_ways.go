package plan

import (
	"fmt"

	"borewright/process"
	"borewright/process/qty"
)

// sleeveOtherwise brings the sleeve's inside to size the other way, or asks for
// closer work on the lathe: smallest change first.
func sleeveOtherwise(job *process.Job) []change {
	if job.Sleeve == nil {
		return nil
	}
	with := func(what string, f func(s *process.Sleeve)) change {
		j, s := *job, *job.Sleeve
		f(&s)
		j.Sleeve = &s
		return change{what, &j}
	}
	var out []change
	if job.Sleeve.Finish == process.FinishBefore {
		out = append(out, with("the sleeve bored in place", func(s *process.Sleeve) { s.Finish = process.BoreInPlace }))
	} else {
		out = append(out, with("the sleeve finished on the lathe", func(s *process.Sleeve) { s.Finish = process.FinishBefore }))
	}
	for _, part := range []float64{0.5, 0.25} {
		out = append(out, with(fmt.Sprintf("the sleeve turned to the housing within ±%s and held inside within %s, finished on the lathe",
			job.Units.Say(job.Units.Round(times(job.Sleeve.Match, part))), job.Units.Say(job.Units.Round(times(job.Sleeve.Lathe, part)))),
			func(s *process.Sleeve) {
				s.Finish = process.FinishBefore
				s.Match, s.Lathe = job.Units.Round(times(s.Match, part)), job.Units.Round(times(s.Lathe, part))
			}))
	}
	return out
}

func times(l qty.Length, f float64) qty.Length { return qty.FromMM(l.MM() * f) }
