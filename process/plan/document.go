package plan

import (
	"encoding/json"
	"math"
)

// Schema names the layout of plan.json. Fields are added, never renamed.
const Schema = "borewright/plan/1"

// Document is the plan as JSON: always SI, the unit in the field's name.
type Document struct {
	Schema   string         `json:"schema"`
	Job      DocumentJob    `json:"job"`
	Feasible bool           `json:"feasible"`
	Reasons  []string       `json:"reasons"`
	Bores    []DocumentBore `json:"bores"`

	Measured *DocumentMeasured `json:"measured,omitempty"` // what this plan goes on from
}

// DocumentJob says which job and which revision of it.
type DocumentJob struct {
	Number   string `json:"number"`
	Revision string `json:"revision"`
	Title    string `json:"title"`
}

// DocumentBore is one bore; its passes count through all visits.
type DocumentBore struct {
	Station string         `json:"station"`
	Passes  []DocumentPass `json:"passes"`
}

// DocumentPass is one pass. ISO 3002-1 and -4 symbols: depth a_p (radial),
// feed f, speed n, forces F_c, F_f, F_p.
type DocumentPass struct {
	N              int              `json:"n"`
	Kind           string           `json:"kind"`
	CutterSetting  float64          `json:"cutter_setting_mm"`
	Diameter       DocumentDiameter `json:"diameter_mm"`
	DepthOfCut     float64          `json:"depth_of_cut_mm"`
	FeedPerRev     float64          `json:"feed_mm_per_rev"`
	SpeedRevPerMin float64          `json:"speed_rev_per_min"`
	CuttingForce   float64          `json:"cutting_force_n"`
	FeedForce      float64          `json:"feed_force_n"`
	RadialForce    float64          `json:"radial_force_n"`
	Spring         float64          `json:"spring_mm"`
	Power          float64          `json:"power_w"`
	Torque         float64          `json:"torque_nm"`
	Ra             float64          `json:"ra_um"`
	Minutes        float64          `json:"minutes"`
	LimitedBy      string           `json:"limited_by"`
}

// DocumentDiameter is what the gauge should say.
type DocumentDiameter struct {
	Low      float64 `json:"low"`
	Expected float64 `json:"expected"`
	High     float64 `json:"high"`
}

// Document gives the plan as it is written to plan.json.
func (p *Plan) Document() Document {
	d := Document{
		Schema:   Schema,
		Job:      DocumentJob{p.Job.Number, p.Job.Revision, p.Job.Title},
		Feasible: p.Feasible, Reasons: []string{}, Bores: []DocumentBore{},
	}
	for _, r := range p.Reasons {
		d.Reasons = append(d.Reasons, r.What)
	}
	for _, b := range p.Bores {
		out := DocumentBore{Station: b.Station.Name, Passes: []DocumentPass{}}
		for _, v := range b.Visits {
			for _, q := range v.Passes {
				out.Passes = append(out.Passes, q.document())
			}
		}
		d.Bores = append(d.Bores, out)
	}
	d.Measured = p.Sofar.document()
	return d
}

func (q *Pass) document() DocumentPass {
	return DocumentPass{
		N: q.N, Kind: q.Kind.String(),
		CutterSetting:  q.Setting.MM(),
		Diameter:       DocumentDiameter{q.Low.MM(), q.Expected.MM(), q.High.MM()},
		DepthOfCut:     places(q.Depth.MM(), 4),
		FeedPerRev:     q.Feed.MM(),
		SpeedRevPerMin: float64(q.Speed),
		CuttingForce:   places(float64(q.CuttingForce), 1),
		FeedForce:      places(float64(q.FeedForce), 1),
		RadialForce:    places(float64(q.RadialForce), 1),
		Spring:         places(q.Spring.MM(), 5),
		Power:          places(float64(q.Power), 1),
		Torque:         places(float64(q.Torque), 2),
		Ra:             places(q.Ra.Microns(), 2),
		Minutes:        places(q.Minutes, 2),
		LimitedBy:      q.LimitedBy,
	}
}

// places rounds for print; it is the one rounding that JSON gets.
func places(x float64, n int) float64 {
	s := math.Pow10(n)
	return math.Round(x*s) / s
}

// JSON is the document, indented, with a line end.
func (p *Plan) JSON() ([]byte, error) {
	b, err := json.MarshalIndent(p.Document(), "", "  ")
	return append(b, '\n'), err
}
