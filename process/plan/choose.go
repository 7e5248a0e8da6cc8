package plan

import (
	"borewright/process"
	"borewright/process/choice"
	"borewright/process/fact"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Tooled is a job with bar and cutter: as it is where it names both, else with those that are
// chosen from the shop's lists, and with what they were chosen from. The choice goes by the job
// alone, not by what was measured since. It takes what files.Job gives, and hands an error of it
// on; its own, of type source.Errors, is that no pair of the lists suits the job.
func Tooled(job *process.Job, err error) (*process.Job, error) {
	if err != nil {
		return nil, err
	}
	a := &choice.Asked{Job: job, Change: changeMinutes, Lay: laidOut, Try: func(job *process.Job) choice.Outcome {
		return outcomeOf(try(job, nil, inEarnest))
	}}
	if job.Open.Any() {
		if a.Job, err = choice.Make(a); err != nil {
			return nil, err
		}
	}
	return choice.Stickout(a), nil
}

// outcomeOf is a plan as a choice judges it.
func outcomeOf(p *Plan) choice.Outcome {
	o := choice.Outcome{Feasible: p.Feasible, Minutes: p.Minutes, Bores: make([][]schedule.Visit, len(p.Job.Bores))}
	for i := range p.Job.Bores {
		o.Lines = append(o.Lines, p.line(p.seenBy(i)))
	}
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			i := p.Job.BoreAt(b.Bore.Station)
			o.Bores[i] = append(o.Bores[i], v.Visit)
		}
	}
	for _, at := range p.turns {
		if at[0] >= len(p.Bores) || at[1] >= len(p.Bores[at[0]].Visits) {
			continue
		}
		b := &p.Bores[at[0]]
		v := &b.Visits[at[1]]
		with := p.Job.Using(v.Tools)
		o.Cuts = append(o.Cuts, choice.Cut{Bar: with.Bar, Bore: p.Job.BoreAt(b.Bore.Station), Rough: v.Part == schedule.Roughing,
			Cut: len(v.Passes) > 0 && (v.Reach == nil || len(v.Reach.Why) == 0), Minutes: v.Minutes(with.Limits.HoldMinutes, b.Station.Name), Visit: v.Visit})
	}
	if len(p.Reasons) > 0 {
		o.Why = p.Reasons[0].What
	}
	return o
}

// laidOut are the visits of a job. Those of a sleeve are known when they are planned.
func laidOut(job *process.Job) choice.Outcome {
	if job.Sleeve != nil {
		whole := *job
		whole.Order = process.BoreByBore // a visit that roughs alone has no size to land
		return outcomeOf(try(&whole, nil, brief))
	}
	p := &Plan{Job: job, Feasible: true}
	p.bothSides()
	for i, f := range p.from() {
		seen := p.Seen(job, f)
		bar, err := setup.New(seen)
		if err != nil {
			return choice.Outcome{}
		}
		line, _ := place.NewLineUp(seen, bar.Droop) // nil where the sweeps cannot be used
		if i == 0 {
			p.with, p.LineUp = passes.New(bar), line
		}
		if p.sides != nil {
			p.sides.Line[f] = line
		}
	}
	for i, b := range job.Bores {
		s := p.by(i, false)
		st, b := job.Stations[b.Station], s.Job.Bores[i]
		out := Bore{Bore: job.Bores[i], Station: st}
		_, list, err := visits(s, b, place.AsFound(st, b), [2]qty.Diameter{}, nil)
		if err != nil {
			return choice.Outcome{}
		}
		for _, v := range list {
			out.Visits = append(out.Visits, Visit{Visit: v})
		}
		p.Bores = append(p.Bores, out)
	}
	return outcomeOf(p)
}

// tooled is Tooled for a plan; where nothing suits, the plan says so.
func tooled(job *process.Job) (*process.Job, *Plan) {
	j, err := Tooled(job, nil)
	if err == nil {
		return j, nil
	}
	p := &Plan{Job: job, made: true}
	p.stop(job.Where("bars"), fact.AsWritten(err.Error()))
	return nil, p
}
