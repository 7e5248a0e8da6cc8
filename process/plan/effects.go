package plan

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"borewright/process"
	"borewright/process/qty"
)

// Effect is what a change comes to: the whole change, or one part of it made
// alone to the old job, planned anew.
type Effect struct {
	Part     string        // "all together", "the bar alone"
	Feasible [2]bool       // old, new
	Spring   [2]qty.Length // most of any finish pass, on diameter
	Chance   [2]float64    // of landing every visit on size, by the same trials as the plan
	Minutes  [2]float64
}

// Effects weighs the difference between two plans, and each part of it alone.
// Nil where one of them was not made from a job here, or nothing that is
// planned with differs.
func Effects(old, new *Plan) []Effect {
	if old == nil || new == nil || !old.made || !new.made {
		return nil
	}
	a, b := old.Job, new.Job
	var out []Effect
	for _, part := range []struct {
		name string
		same bool
		swap func(j *process.Job)
	}{
		{"stations and bores alone", reflect.DeepEqual(a.Stations, b.Stations) && reflect.DeepEqual(a.Bores, b.Bores),
			func(j *process.Job) { j.Stations, j.Bores, j.Sweeps = b.Stations, b.Bores, b.Sweeps }},
		{"the sleeve alone", reflect.DeepEqual(a.Sleeve, b.Sleeve), func(j *process.Job) { j.Sleeve = b.Sleeve }},
		{"the bar alone", reflect.DeepEqual(a.Bar, b.Bar), func(j *process.Job) { j.Bar = b.Bar }},
		{"the cutter alone", reflect.DeepEqual(a.Cutter, b.Cutter), func(j *process.Job) { j.Cutter = b.Cutter }},
		{"the machine alone", reflect.DeepEqual(a.Machine, b.Machine), func(j *process.Job) { j.Machine = b.Machine }},
		{"the work material alone", reflect.DeepEqual(a.Material, b.Material), func(j *process.Job) { j.Material = b.Material }},
		{"limits allowed alone", reflect.DeepEqual(a.Limits, b.Limits), func(j *process.Job) { j.Limits = b.Limits }},
	} {
		if part.same {
			continue
		}
		j := *a
		part.swap(&j)
		out = append(out, effect(part.name, old, try(&j, old.known, true)))
	}
	all := effect("all together", old, new)
	if len(out) == 0 && all.Spring[0] == all.Spring[1] && all.Chance[0] == all.Chance[1] && all.Minutes[0] == all.Minutes[1] {
		return nil
	}
	return append([]Effect{all}, out...)
}

// EffectOf is what a change comes to: the effect of the part of the job that it
// belongs to, made alone. A change that stands among the visits is a result
// itself, of all changes together. False where nothing is known of it.
func EffectOf(c Change, list []Effect) (Effect, bool) {
	part := ""
	switch w := c.Where; {
	case w == "the bar", w == "the cutter", w == "the sleeve", w == "the machine", w == "the work material", w == "limits allowed":
		part = w + " alone"
	case strings.HasPrefix(w, "station "), strings.HasPrefix(w, "sweep "), strings.HasPrefix(w, "bore ") && !strings.Contains(w, ","):
		part = "stations and bores alone"
	case strings.HasPrefix(w, "bore "), w == "the plan":
		part = "all together"
	}
	for _, e := range list {
		if e.Part == part {
			return e, true
		}
	}
	return Effect{}, false
}

func effect(part string, old, new *Plan) Effect {
	e := Effect{Part: part}
	for i, p := range []*Plan{old, new} {
		e.Feasible[i], e.Minutes[i], e.Chance[i] = p.Feasible, p.Minutes, 1
		for _, b := range p.Bores {
			for _, v := range b.Visits {
				for _, q := range v.Passes {
					if q.Kind == Finish {
						e.Spring[i] = max(e.Spring[i], q.Spring)
					}
				}
				if v.Budget != nil {
					e.Chance[i] *= v.Budget.Chance
				}
			}
		}
	}
	return e
}

// ReadDocument reads a plan.json back: number, revision, stations and passes,
// which is all that it holds. Figures print in u.
func ReadDocument(data []byte, u qty.Unit) (*Plan, error) {
	var d Document
	if err := json.Unmarshal(data, &d); err != nil {
		return nil, err
	}
	if d.Schema != Schema {
		return nil, fmt.Errorf("its schema is %q; %q is read", d.Schema, Schema)
	}
	p := &Plan{Job: &process.Job{Units: u, Number: d.Job.Number, Revision: d.Job.Revision, Title: d.Job.Title}, Feasible: d.Feasible}
	for _, r := range d.Reasons {
		p.Reasons = append(p.Reasons, Reason{What: r})
	}
	for i, b := range d.Bores {
		p.Job.Stations = append(p.Job.Stations, process.Station{Name: b.Station})
		bore := Bore{Bore: process.Bore{Station: i}, Station: p.Job.Stations[i]}
		var v Visit
		for _, q := range b.Passes {
			v.Passes = append(v.Passes, Pass{
				N: q.N, Kind: kindOf(q.Kind), Setting: qty.DiameterMM(q.CutterSetting), Low: qty.DiameterMM(q.Diameter.Low),
				Expected: qty.DiameterMM(q.Diameter.Expected), High: qty.DiameterMM(q.Diameter.High), Depth: qty.FromMM(q.DepthOfCut),
				Feed: qty.FromMM(q.FeedPerRev), Speed: qty.RevPerMin(q.SpeedRevPerMin), Cutting: qty.RevPerMin(q.SpeedRevPerMin).At(qty.DiameterMM(q.CutterSetting)),
				CuttingForce: qty.Force(q.CuttingForce), FeedForce: qty.Force(q.FeedForce), RadialForce: qty.Force(q.RadialForce),
				Power: qty.Power(q.Power), Torque: qty.Torque(q.Torque), Spring: qty.FromMM(q.Spring), Ra: qty.FromMM(q.Ra / 1000), Minutes: q.Minutes, LimitedBy: q.LimitedBy,
				OutOfRound: qty.FromMM(q.OutOfRound), Taper: qty.FromMM(q.Taper), Stress: q.Stress,
				Stability: Stability{Margin: [2]float64{q.Chatter.Least, q.Chatter.Most}, Hz: q.Chatter.Hz},
			})
			p.Minutes += q.Minutes
		}
		bore.Visits = []Visit{v}
		p.Bores = append(p.Bores, bore)
	}
	return p, nil
}
