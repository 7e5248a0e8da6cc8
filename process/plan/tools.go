package plan

import (
	"slices"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/named"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// For is the plan as it stands for one visit: with a job that has bar and cutter of that visit.
// It is the plan itself where the visit is cut with those of the job.
func (p *Plan) For(bore, visit int) *Plan {
	t := p.Bores[bore].Visits[visit].Tools
	if p.Job == nil || t == nil && !faces.Both(p.Job) {
		return p
	}
	q := *p
	q.Job = p.Job.Using(t)
	if face := p.Bores[bore].Bore.Face; faces.Both(p.Job) {
		q.Job = p.Seen(p.Job, face).Using(t)
		q.LineUp = p.line(q.Job)
		q.Bores = slices.Clone(p.Bores)
		for i := range q.Bores {
			b := &q.Bores[i]
			if k := p.Job.BoreAt(b.Bore.Station); k >= 0 {
				if b.Bore = q.Job.Bores[k]; b.Bore.Station >= 0 {
					b.Station = q.Job.Stations[b.Bore.Station]
				}
			}
		}
	}
	return &q
}

// Tools are those that the visits are cut with, each once, in the order of the work; nil among
// them stands for bar and cutter of the job.
func (p *Plan) Tools() (all []*process.Tools) {
	seen := map[*process.Tools]bool{}
	for _, at := range p.Turns() {
		if t := p.Bores[at[0]].Visits[at[1]].Tools; !seen[t] {
			seen[t] = true
			all = append(all, t)
		}
	}
	return all
}

// Several is whether not all visits are cut with bar and cutter of the job.
func (p *Plan) Several() bool {
	all := p.Tools()
	return len(all) > 1 || len(all) == 1 && all[0] != nil
}

// knownOf is what was learned of the tools that a visit is cut with.
type knownOf struct {
	k *measured.Learned
	t *process.Tools
}

// Known is as of setup.SpringFactor.
func (k knownOf) Known(m *process.Material, first setup.Known) setup.Known {
	return k.k.KnownOf(k.t, m, first)
}

// cutFrom is what visits are planned with: tools, and the face that they are cut from.
type cutFrom struct {
	t *process.Tools
	f process.Face
}

// planningWith is what visits are planned with that are cut with these tools from a face.
func (p *Plan) planningWith(t *process.Tools, f process.Face) (*passes.Planning, error) {
	if t == nil && p.sides == nil {
		return p.with, nil
	}
	if s := p.others[cutFrom{t, f}]; s != nil {
		return s, nil
	}
	bar, err := setup.New(p.Seen(p.Job, f).Using(t))
	if err != nil {
		return nil, err
	}
	s := passes.New(bar)
	s.Trials, s.Brief = p.with.Trials, p.with.Brief
	if p.known != nil {
		s.Learned = knownOf{p.known, t}
	}
	if p.others == nil {
		p.others = map[cutFrom]*passes.Planning{}
	}
	p.others[cutFrom{t, f}] = s
	return s, nil
}

// by is what a bore is planned with: its roughing, or all else. Bars that no beam can be made of
// were refused before (others).
func (p *Plan) by(bore int, rough bool) *passes.Planning {
	s, err := p.planningWith(p.Job.ToolsOf(bore, rough), p.Job.Bores[bore].Face)
	if err != nil {
		return p.with
	}
	return s
}

// tooled sees that the bars of the bores can be planned with, and says what is to be minded of
// each.
func (p *Plan) checkTools() {
	for _, f := range p.from() {
		for _, t := range p.Job.AllTools() {
			if t == nil && p.sides == nil || p.sides != nil && !faces.Cuts(p.sides.Job[f].Using(t)) {
				continue
			}
			where := p.Job.Using(t).Where("bar")
			s, err := p.planningWith(t, f)
			if err != nil {
				p.stop(where, fact.New(BarUnknown, fact.Because(err)))
				continue
			}
			if why := place.QuillShort(s.Job); !why.None() && t != nil {
				p.stop(where, why)
			}
			if why := tooLong(s.Setup); !why.None() && t != nil {
				p.stop(where, why)
			}
			p.Cautions = append(p.Cautions, p.mindTools(t, s.Setup)...)
		}
	}
}

// droop is how far the bar hangs that a depth of the line is finished with.
func (p *Plan) droop(job *process.Job, tip qty.Length) float64 {
	for i, b := range job.Bores {
		if !job.Here(b) {
			continue
		}
		if st := job.Stations[b.Station]; st.From <= tip && tip <= st.To {
			return p.by(i, false).Droop(tip)
		}
	}
	return p.with.Droop(tip)
}

// edge is the edge of the cutter that is in the bar, as it stands now.
func (p *Plan) edge(s *passes.Planning) *schedule.EdgeFound {
	name := s.Job.Cutter.Name
	e := p.edges[name]
	if e == nil {
		if e = p.known.Edge(name); e == nil {
			e = &schedule.EdgeFound{Flank: s.Begun()}
		}
	}
	return e
}

// leave puts down how a visit leaves the edge of its cutter.
func (p *Plan) leave(s *passes.Planning, e *schedule.EdgeFound) {
	if p.edges == nil {
		p.edges = map[string]*schedule.EdgeFound{}
	}
	p.edges[s.Job.Cutter.Name] = e
}

// changeMinutes is what it takes to change the bar in the spindle, seat it, see that it runs true
// and set its cutter for the first time (common practice, no source).
const changeMinutes = 15

// changes puts the order to change bar and cutter before each visit that is not cut with those of
// the visit before it, and to fit or take out the bush that the bar runs in, behind what is done
// while the casting rests.
func (p *Plan) changes() {
	held := ""
	last := p.Job
	several := false
	for _, t := range p.Tools() {
		several = several || !named.InHand(p.Job, p.Job.Using(t))
	}
	for n, at := range p.turns {
		v := &p.Bores[at[0]].Visits[at[1]]
		k := p.Job.Using(v.Tools)
		var say []fact.Fact
		if held != "" && (v.Bush == nil || v.Bush.Station != held) {
			say = append(say, fact.New(OutOfBush, fact.Name(held)))
			held = ""
		}
		if several && n == 0 || !named.InHand(last, k) {
			say = append(say, fact.New(TakeTools, fact.Name(k.Bar.Called()), fact.Name(k.Cutter.Called()), fact.Figure(qty.Plain(k.Bar.CutterAt))))
		}
		if last = k; v.Bush != nil && held == "" {
			held = v.Bush.Station
			say = append(say, fact.New(FitBush, fact.Name(held), fact.Figure(v.Bush.Over), fact.Figure(qty.Plain(v.Bush.Play))), fact.New(MindBush))
		}
		if len(say) == 0 {
			continue
		}
		rest := len(v.Rest())
		v.Before = append(append(append([]fact.Fact{}, v.Before[:rest]...), say...), v.Before[rest:]...)
		if n > 0 {
			p.Minutes += changeMinutes
		}
	}
}
