package proof

import (
	"encoding/json"
	"io"
	"math"

	"borewright/post/verify"
	"borewright/process/plan"
)

// job says which job and which revision of it.
type job struct {
	Number   string `json:"number"`
	Revision string `json:"revision"`
	Title    string `json:"title"`
}

// schema names the layout of a report as JSON. Fields are added, never renamed.
const schema = "borewright/proof/1"

// document is a report as JSON: always SI, the unit in the field's name.
type document struct {
	Schema     string      `json:"schema"`
	Program    string      `json:"program"`
	Job        job         `json:"job"`
	Station    string      `json:"station"`
	Visit      int         `json:"visit"`
	Proven     bool        `json:"proven"`
	Findings   []finding   `json:"findings"`
	Cuts       []cut       `json:"cuts"`
	Stations   []piece     `json:"stations"`
	Clearances []clearance `json:"clearances"`
	FinalSize  float64     `json:"final_size_mm"` // 0: nothing was cut
	Minutes    float64     `json:"motion_minutes"`
	Assumed    []string    `json:"assumed"`
	NotHeld    []remark    `json:"remarks_not_held"`
}

// remark is one that says nothing of the plan.
type remark struct {
	Line int    `json:"line"`
	Text string `json:"text"`
}

// finding is one finding; line 0 is the program as a whole.
type finding struct {
	Line   int         `json:"line"`
	Column int         `json:"column"`
	Kind   verify.Kind `json:"kind"`
	What   string      `json:"what"`
	Want   string      `json:"want"`
}

// cut is one pass as the program cuts it; pass 0 is none of the plan.
type cut struct {
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

// piece is a length of a station as the program leaves it. Limits are
// left out where the visit has none.
type piece struct {
	Station  string   `json:"station"`
	From     float64  `json:"from_mm"`
	To       float64  `json:"to_mm"`
	Cut      bool     `json:"cut"`
	Diameter float64  `json:"diameter_mm"`
	Low      *float64 `json:"limit_low_mm,omitempty"`
	High     *float64 `json:"limit_high_mm,omitempty"`
	Within   *bool    `json:"within_limits,omitempty"`
}

// clearance is the least room at a station.
type clearance struct {
	Station string  `json:"station"`
	Part    string  `json:"part"`
	Room    float64 `json:"room_mm"`
	Along   bool    `json:"along_bore"` // to a closed end; else radial
	Depth   float64 `json:"tip_depth_mm"`
	Line    int     `json:"line"`
}

// documentOf is the report of a program that was held against p.Bores[bore] and
// its Visits[visit].
func documentOf(r verify.Report, program string, p *plan.Plan, bore, visit int) document {
	d := document{
		Schema: schema, Program: program, Proven: r.Proven,
		Job:      job{Number: p.Job.Number, Revision: p.Job.Revision, Title: p.Job.Title},
		Station:  p.Bores[bore].Station.Name,
		Visit:    p.Bores[bore].Visits[visit].N,
		NotHeld:  []remark{},
		Findings: []finding{}, Cuts: []cut{}, Stations: []piece{}, Clearances: []clearance{},
		FinalSize: r.FinalSize.MM(), Minutes: places(r.Minutes, 2), Assumed: append([]string{}, r.Assumed...),
	}
	for _, f := range r.Findings {
		d.Findings = append(d.Findings, finding{f.Line, f.Col, f.Kind, f.What, f.Want})
	}
	for _, l := range r.NotHeld {
		d.NotHeld = append(d.NotHeld, remark{l.Line, l.Text})
	}
	for _, c := range r.Cuts {
		d.Cuts = append(d.Cuts, cut{
			Line: c.Line, Pass: c.Pass, CutterSetting: c.Setting.MM(), Diameter: c.Diameter.MM(), From: c.From.MM(), To: c.To.MM(),
			Feed: places(c.Feed.MM(), 5), Speed: c.Speed, Removed: places(c.Removed, 1),
		})
	}
	for _, s := range r.Shape {
		x := piece{Station: s.Station, From: s.From.MM(), To: s.To.MM(), Cut: s.Cut, Diameter: s.Diameter.MM()}
		if s.High > 0 {
			low, high, within := s.Low.MM(), s.High.MM(), s.Within
			x.Low, x.High, x.Within = &low, &high, &within
		}
		d.Stations = append(d.Stations, x)
	}
	for _, c := range r.Near {
		d.Clearances = append(d.Clearances, clearance{c.Station, c.Part, c.Room.MM(), c.Along, c.Depth.MM(), c.Line})
	}
	return d
}

// places rounds for print; it is the one rounding that JSON gets.
func places(x float64, n int) float64 {
	s := math.Pow10(n)
	return math.Round(x*s) / s
}

// WriteJSON prints the report of a program, held against p.Bores[bore] and its
// Visits[visit], as JSON: in SI, indented, with a line end.
func WriteJSON(w io.Writer, r verify.Report, program string, p *plan.Plan, bore, visit int) error {
	b, err := json.MarshalIndent(documentOf(r, program, p, bore, visit), "", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(b, '\n'))
	return err
}
