package verify

import (
	"encoding/json"
	"math"

	"borewright/process/plan"
)

// documentJob says which job and which revision of it.
type documentJob struct {
	Number   string `json:"number"`
	Revision string `json:"revision"`
	Title    string `json:"title"`
}

// Schema names the layout of a report as JSON. Fields are added, never renamed.
const Schema = "borewright/proof/1"

// Document is a report as JSON: always SI, the unit in the field's name.
type Document struct {
	Schema     string              `json:"schema"`
	Program    string              `json:"program"`
	Job        documentJob         `json:"job"`
	Station    string              `json:"station"`
	Visit      int                 `json:"visit"`
	Proven     bool                `json:"proven"`
	Findings   []DocumentFinding   `json:"findings"`
	Cuts       []DocumentCut       `json:"cuts"`
	Stations   []DocumentStation   `json:"stations"`
	Clearances []DocumentClearance `json:"clearances"`
	FinalSize  float64             `json:"final_size_mm"` // 0: nothing was cut
	Minutes    float64             `json:"motion_minutes"`
	Assumed    []string            `json:"assumed"`
}

// DocumentFinding is one finding; line 0 is the program as a whole.
type DocumentFinding struct {
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Kind   string `json:"kind"`
	What   string `json:"what"`
	Want   string `json:"want"`
}

// DocumentCut is one pass as the program cuts it; pass 0 is none of the plan.
type DocumentCut struct {
	Line          int     `json:"line"`
	Pass          int     `json:"pass"`
	CutterSetting float64 `json:"cutter_setting_mm"`
	Diameter      float64 `json:"diameter_as_set_mm"`
	From          float64 `json:"tip_from_mm"`
	To            float64 `json:"tip_to_mm"`
	Feed          float64 `json:"feed_mm_per_rev"`
	Speed         float64 `json:"speed_rev_per_min"`
	Removed       float64 `json:"removed_mm3"`
}

// DocumentStation is a length of a station as the program leaves it. Limits are
// left out where the visit has none.
type DocumentStation struct {
	Station  string   `json:"station"`
	From     float64  `json:"from_mm"`
	To       float64  `json:"to_mm"`
	Cut      bool     `json:"cut"`
	Diameter float64  `json:"diameter_mm"`
	Low      *float64 `json:"limit_low_mm,omitempty"`
	High     *float64 `json:"limit_high_mm,omitempty"`
	Within   *bool    `json:"within_limits,omitempty"`
}

// DocumentClearance is the least room at a station.
type DocumentClearance struct {
	Station string  `json:"station"`
	Part    string  `json:"part"`
	Room    float64 `json:"room_mm"`
	Along   bool    `json:"along_bore"` // to a closed end; else radial
	Depth   float64 `json:"tip_depth_mm"`
	Line    int     `json:"line"`
}

// Document gives the report of a program, held against p.Bores[bore] and its
// Visits[visit], as JSON carries it.
func (r Report) Document(program string, p *plan.Plan, bore, visit int) Document {
	d := Document{
		Schema: Schema, Program: program, Proven: r.Proven,
		Job:      documentJob{Number: p.Job.Number, Revision: p.Job.Revision, Title: p.Job.Title},
		Station:  p.Bores[bore].Station.Name,
		Visit:    p.Bores[bore].Visits[visit].N,
		Findings: []DocumentFinding{}, Cuts: []DocumentCut{}, Stations: []DocumentStation{}, Clearances: []DocumentClearance{},
		FinalSize: r.FinalSize.MM(), Minutes: places(r.Minutes, 2), Assumed: append([]string{}, r.Assumed...),
	}
	for _, f := range r.Findings {
		d.Findings = append(d.Findings, DocumentFinding{f.Line, f.Col, f.Kind, f.What, f.Want})
	}
	for _, c := range r.Cuts {
		d.Cuts = append(d.Cuts, DocumentCut{
			Line: c.Line, Pass: c.Pass, CutterSetting: c.Setting.MM(), Diameter: c.Diameter.MM(), From: c.From.MM(), To: c.To.MM(),
			Feed: places(c.Feed.MM(), 5), Speed: c.Speed, Removed: places(c.Removed, 1),
		})
	}
	for _, s := range r.Shape {
		x := DocumentStation{Station: s.Station, From: s.From.MM(), To: s.To.MM(), Cut: s.Cut, Diameter: s.Diameter.MM()}
		if s.High > 0 {
			low, high, within := s.Low.MM(), s.High.MM(), s.Within
			x.Low, x.High, x.Within = &low, &high, &within
		}
		d.Stations = append(d.Stations, x)
	}
	for _, c := range r.Near {
		d.Clearances = append(d.Clearances, DocumentClearance{c.Station, c.Part, c.Room.MM(), c.Along, c.Depth.MM(), c.Line})
	}
	return d
}

// places rounds for print; it is the one rounding that JSON gets.
func places(x float64, n int) float64 {
	s := math.Pow10(n)
	return math.Round(x*s) / s
}

// JSON is the document, indented, with a line end.
func (d Document) JSON() ([]byte, error) {
	b, err := json.MarshalIndent(d, "", "  ")
	return append(b, '\n'), err
}
