package plan

import (
	"math"

	"borewright/process"
	"borewright/process/choice"
	"borewright/process/fact"
	"borewright/process/setup"
	"borewright/process/ways"
)

// Better is what would better a plan that stands: quieten it, make it surer to land or,
// where nothing is amiss, quicker. Each is planned anew.
func (p *Plan) Better() []ways.Way {
	if !p.Feasible || len(p.Bores) == 0 {
		return nil
	}
	return ways.Better(p.asked(), p.outcome())
}

// sought is what would free a plan that something stops. Each change is planned anew, when it is first asked for.
func (p *Plan) sought() ways.Found {
	if p.Feasible || p.Seek == nil {
		return ways.Found{}
	}
	return p.Seek()
}

// Free is what would free a plan that something stops, all of it together.
func (p *Plan) Free() []ways.Way { return p.sought().Ways }

// NoBar is why no bar to make would free a plan that something stops; nothing where one does, or
// where the room of the bar is not what is short.
func (p *Plan) NoBar() fact.Fact { return p.sought().NoBar }

// Metals are the bar to make by what it is made of, the cheapest first, where a dearer one gives more.
func (p *Plan) Metals() []ways.Metal { return p.sought().Metals }

// Ways is what would free a plan that something stops, and what would better one that
// stands.
func (p *Plan) Ways() []ways.Way {
	if !p.Feasible {
		return p.Free()
	}
	return p.Better()
}

// asked is the job with what is known of the room of the bar and of the sleeve.
func (p *Plan) asked() *ways.Asked {
	a := &ways.Asked{Job: p.Job, Learned: p.known, Try: func(job *process.Job, how ways.Effort) ways.Outcome {
		return try(choice.Stood(&choice.Asked{Job: job, Lay: laidOut}), p.known, map[ways.Effort]effort{ways.Stands: stands, ways.Judged: judged, ways.Trialed: weighed}[how]).outcome()
	}}
	for _, b := range p.Bores {
		if b.CleanUp != nil {
			a.Next = max(a.Next, b.CleanUp.Next)
		}
		for _, v := range b.Visits {
			a.Visits = append(a.Visits, ways.Visit{Reach: v.Reach, Tools: v.Tools})
		}
	}
	a.Shop, _ = p.Choose(p.Job.Shop) // a list that cannot be tried frees nothing
	return a
}

// outcome is how a plan stands beside another.
func (p *Plan) outcome() ways.Outcome {
	o := ways.Outcome{Feasible: p.Feasible, Stops: len(p.Reasons), Barred: p.bars, Short: p.short, Minutes: p.Minutes, Chance: 1, Noisiest: setup.Stability{Margin: [2]float64{math.Inf(1), math.Inf(1)}}}
	for _, r := range p.Reasons {
		o.AnyBar = o.AnyBar || r.anyBar
	}
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			o.Short = max(o.Short, v.Short)
			o.Passes += len(v.Passes)
			for _, q := range v.Passes {
				if q.Stability.Margin[0] < o.Noisiest.Margin[0] {
					o.Noisiest = q.Stability
				}
			}
			if v.Budget != nil {
				o.Chance = min(o.Chance, v.Budget.Chance)
			}
		}
	}
	if p.with == nil || !p.with.Trials {
		o.Chance = 0
	}
	return o
}
