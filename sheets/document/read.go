package document

import (
	"borewright/process/plan"
	"encoding/json"
	"fmt"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/passes"
	"borewright/process/qty"
)

// Read reads a plan.json back: number, revision, stations and passes,
// which is all that it holds. Figures print in u.
func Read(data []byte, u qty.Unit) (*plan.Plan, error) {
	var d Document
	if err := json.Unmarshal(data, &d); err != nil {
		return nil, err
	}
	if d.Schema != Schema {
		return nil, fmt.Errorf("its schema is %q; %q is read", d.Schema, Schema)
	}
	p := &plan.Plan{Job: &process.Job{Units: u, Number: d.Job.Number, Revision: d.Job.Revision, Title: d.Job.Title}, Feasible: d.Feasible}
	for _, r := range d.Reasons {
		p.Reasons = append(p.Reasons, plan.Reason{What: fact.AsWritten(r)})
	}
	for i, b := range d.Bores {
		p.Job.Stations = append(p.Job.Stations, process.Station{Name: b.Station})
		bore := plan.Bore{Bore: process.Bore{Station: i}, Station: p.Job.Stations[i]}
		var v passes.Visit
		for _, q := range b.Passes {
			v.Passes = append(v.Passes, passes.Pass{
				N: q.N, Kind: passes.KindOf(q.Kind), Setting: qty.DiameterMM(q.CutterSetting), Low: qty.DiameterMM(q.Diameter.Low),
				Expected: qty.DiameterMM(q.Diameter.Expected), High: qty.DiameterMM(q.Diameter.High), Depth: qty.FromMM(q.DepthOfCut),
				Feed: qty.FromMM(q.FeedPerRev), Speed: qty.RevPerMin(q.SpeedRevPerMin), Cutting: qty.RevPerMin(q.SpeedRevPerMin).At(qty.DiameterMM(q.CutterSetting)),
				CuttingForce: qty.Force(q.CuttingForce), FeedForce: qty.Force(q.FeedForce), RadialForce: qty.Force(q.RadialForce),
				Power: qty.Power(q.Power), Torque: qty.Torque(q.Torque), Spring: qty.FromMM(q.Spring), Ra: qty.FromMM(q.Ra / 1000), Minutes: q.Minutes, LimitedBy: fact.AsWritten(q.LimitedBy),
				OutOfRound: qty.FromMM(q.OutOfRound), Taper: qty.FromMM(q.Taper), Stress: q.Stress,
				Stability: passes.Stability{Margin: [2]float64{q.Chatter.Least, q.Chatter.Most}, Hz: q.Chatter.Hz},
			})
			p.Minutes += q.Minutes
		}
		bore.Visits = []plan.Visit{{Visit: v}}
		p.Bores = append(p.Bores, bore)
	}
	return p, nil
}
