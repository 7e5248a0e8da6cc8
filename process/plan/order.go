package plan

import (
	"cmp"
	"slices"

	"borewright/process/fact"
	"borewright/process/schedule"
)

// inOrder says in which order the visits come, why, and what is done between, once the bores of
// the plan are known.
func (p *Plan) inOrder(all []*work) {
	at := map[int]int{}
	for _, w := range all {
		at[w.i] = w.at
	}
	var turns [][2]int
	for _, t := range p.turns {
		if i := at[t[0]]; i >= 0 {
			turns = append(turns, [2]int{i, t[1]})
		}
	}
	p.turns = turns
	for i := range p.remarks {
		for k, t := range p.remarks[i].at {
			p.remarks[i].at[k][0] = at[t[0]]
		}
	}
	if len(p.Job.Bores) > 1 && len(p.Bores) > 0 {
		p.sayOrder(all)
		p.rest()
	}
}

// sayOrder gives the reasons of the order.
func (p *Plan) sayOrder(all []*work) {
	var roughed, others []fact.Fact
	say := func(k fact.Kind, args ...fact.Arg) { p.Order = append(p.Order, fact.New(k, args...)) }
	inside := false
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b *work) int { return cmp.Compare(p.Job.Turn(a.i), p.Job.Turn(b.i)) })
	for _, w := range all {
		name := fact.Name(w.Station.Name)
		switch {
		case w.at < 0 || len(w.Visits) == 0:
			continue
		case len(p.Job.Carries(w.i)) > 0:
			var carried []fact.Fact
			for _, i := range p.Job.Carries(w.i) {
				carried = append(carried, fact.New(Station, fact.Name(p.Job.Stations[p.Job.Bores[i].Station].Name)))
			}
			say(OrderCarries, name, fact.List(carried...))
		case w.Bore.Bore.First:
			say(OrderFirst, name)
		case w.Visits[0].Part == schedule.Roughing:
			roughed = append(roughed, fact.New(Station, name))
		case p.Job.Apart() && w.Visits[0].N == 1 && w.Visits[0].Behind == 0:
			others = append(others, fact.New(OrderNot, name, fact.Figure(w.Visits[0].Limits.Aim.Minus(w.Visits[0].Start)), fact.Figure(p.Job.Limits.RestStock)))
		}
		for _, v := range w.Visits {
			inside = inside || v.N > 1 && p.Job.Apart() && !w.Bore.Bore.First
		}
	}
	if !p.Job.Apart() {
		say(OrderByBore)
	}
	if len(roughed) > 0 {
		say(OrderApart, fact.List(roughed...))
	}
	p.Order = append(p.Order, others...)
	if inside && len(roughed) > 0 {
		say(OrderInside)
	}
}

// Rest is what is done while the casting rests before a visit; none: it does not rest then.
func (v *Visit) Rest() []fact.Fact {
	if len(v.Before) < restSteps || v.Before[0].Kind != RestCasting {
		return nil
	}
	return v.Before[:restSteps]
}

// restSteps is how many facts say it.
const restSteps = 3

// rest puts what is done while the casting rests before the first visit after roughing.
func (p *Plan) rest() {
	var roughed []fact.Fact
	for _, t := range p.turns {
		b := &p.Bores[t[0]]
		v := &b.Visits[t[1]]
		if v.Part == schedule.Roughing {
			roughed = append(roughed, fact.New(Station, fact.Name(b.Station.Name)))
			continue
		}
		if len(roughed) == 0 {
			continue // finished before
		}
		line := fact.New(RestLine)
		var swept []fact.Fact
		for _, s := range p.Job.Stations {
			if s.Swept && (p.sides == nil || s.Face == b.Bore.Face) {
				swept = append(swept, fact.New(Station, fact.Name(s.Name)))
			}
		}
		if len(swept) > 0 {
			line = fact.New(RestSweep, fact.List(swept...))
		}
		v.Before = append([]fact.Fact{fact.New(RestCasting), line, fact.New(RestGauge, fact.List(roughed...))}, v.Before...)
		return
	}
}
