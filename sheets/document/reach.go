package document

import (
	"encoding/json"

	"borewright/process/geom"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/sheets/words"
)

// DocumentReach is whether the bar of one visit gets there. Lengths in mm.
type DocumentReach struct {
	Station    string            `json:"station"`
	Visit      int               `json:"visit"`
	Verdict    string            `json:"verdict"`
	Least      DocumentGap       `json:"tightest"`
	Gaps       []DocumentGap     `json:"gaps"`
	Entries    []DocumentEntry   `json:"cutter_goes_in"`
	QuillOut   float64           `json:"quill_out_mm,omitempty"`
	QuillShort float64           `json:"quill_short_mm,omitempty"`
	NoseBack   float64           `json:"nose_further_off_mm,omitempty"`
	Travel     float64           `json:"travel_needed_mm,omitempty"`
	TravelHas  float64           `json:"travel_mm,omitempty"`
	TravelAxis string            `json:"travel_axis,omitempty"`
	Largest    float64           `json:"largest_bar_diameter_mm"`
	Shortest   float64           `json:"shortest_stickout_mm"`
	Steps      []DocumentBarStep `json:"stiffest_bar"`
	Why        []string          `json:"why"`
}

// DocumentGap is the room between one part of what turns and one station;
// below 0 they would overlap.
type DocumentGap struct {
	Verdict  string  `json:"verdict"`
	Part     string  `json:"part"`
	Diameter float64 `json:"diameter_mm"`
	Station  string  `json:"station"`
	Room     float64 `json:"room_mm"`
	Wanted   float64 `json:"wanted_mm"`
	Needed   float64 `json:"needed_mm"`
	Axial    bool    `json:"axial"`
	Tip      float64 `json:"tip_depth_mm"`
	Pass     int     `json:"pass"`
	Phase    string  `json:"phase"`
}

// DocumentEntry is how the cutter of one pass comes to its bore.
type DocumentEntry struct {
	Pass    int             `json:"pass"`
	Setting float64         `json:"cutter_setting_mm"`
	Way     string          `json:"way"`
	Blocked string          `json:"does_not_pass,omitempty"`
	Shifts  []DocumentShift `json:"shifts,omitempty"`
	Open    []float64       `json:"open_from_to_mm,omitempty"`
}

// DocumentShift is how far the bar stands off its axis, away from the tip.
type DocumentShift struct {
	From  float64 `json:"tip_from_mm"`
	To    float64 `json:"tip_to_mm"`
	Least float64 `json:"least_mm"`
	Most  float64 `json:"most_mm"`
}

// DocumentBarStep is one cylinder of a bar.
type DocumentBarStep struct {
	Diameter float64 `json:"diameter_mm"`
	Length   float64 `json:"length_mm"`
}

// DocumentChoice is one bar of the shop's list, the best first.
type DocumentChoice struct {
	Name       string      `json:"name"`
	Verdict    string      `json:"verdict"`
	Sets       bool        `json:"cutter_sets_to_every_size"`
	Stickout   float64     `json:"stickout_mm"`
	Compliance float64     `json:"compliance_um_per_n"`
	Least      DocumentGap `json:"tightest"`
	Why        string      `json:"why,omitempty"`
}

// ReachDocument is reach --json.
type ReachDocument struct {
	Schema  string           `json:"schema"`
	Job     DocumentJob      `json:"job"`
	Verdict string           `json:"verdict"`
	Visits  []DocumentReach  `json:"visits"`
	Bars    []DocumentChoice `json:"bars"`
}

func gapDoc(g *geom.Gap, w words.Words) DocumentGap {
	if g == nil {
		return DocumentGap{}
	}
	return DocumentGap{w.Say(g.Verdict.Fact()), w.Say(g.Part.Fact()), nm(g.Diameter), g.Name, nm(g.Clearance), nm(g.Need.Wanted), nm(g.Need.Least), g.Axial, nm(g.Tip), g.N, w.Say(g.Phase.Fact())}
}

func reachDoc(r *place.Reach, station string, visit int, w words.Words) DocumentReach {
	d := DocumentReach{
		Station: station, Visit: visit, Verdict: w.Say(r.Verdict.Fact()), Least: gapDoc(r.Least, w),
		QuillOut: mm(r.QuillOut), QuillShort: mm(r.QuillShort), NoseBack: mm(r.NoseBack),
		Travel: mm(r.Travel), TravelHas: mm(r.TravelHas), TravelAxis: r.TravelAxis,
		Largest: diameter(r.Largest), Shortest: mm(r.Shortest),
		Gaps: []DocumentGap{}, Entries: []DocumentEntry{}, Steps: []DocumentBarStep{}, Why: []string{},
	}
	for _, f := range r.Why {
		d.Why = append(d.Why, w.Say(f))
	}
	for i := range r.Gaps {
		d.Gaps = append(d.Gaps, gapDoc(&r.Gaps[i], w))
	}
	for _, e := range r.Entries {
		x := DocumentEntry{Pass: e.N, Setting: nm(e.Setting), Way: w.Say(e.Way().Fact()), Blocked: e.Name}
		for _, s := range e.Shifts {
			x.Shifts = append(x.Shifts, DocumentShift{nm(s.From), nm(s.To), nm(s.Least), nm(s.Most)})
		}
		if e.Inside {
			x.Open = []float64{nm(e.OpenFrom), nm(e.OpenFrom + e.Open)}
		}
		d.Entries = append(d.Entries, x)
	}
	for _, s := range r.Steps {
		d.Steps = append(d.Steps, DocumentBarStep{diameter(s.Diameter), mm(s.Length)})
	}
	return d
}

// WriteReach is whether the bar gets there, and which of the shop's would, as
// JSON, indented, with a line end.
func WriteReach(p *plan.Plan, choices []place.Choice) ([]byte, error) {
	w := words.In(p.Job.Units)
	d := ReachDocument{
		Schema: ReachSchema, Job: DocumentJob{p.Job.Number, p.Job.Revision, p.Job.Title},
		Verdict: w.Say(p.ReachVerdict().Fact()), Visits: []DocumentReach{}, Bars: []DocumentChoice{},
	}
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			if v.Reach != nil {
				d.Visits = append(d.Visits, reachDoc(v.Reach, b.Station.Name, v.N, w))
			}
		}
	}
	for _, c := range choices {
		d.Bars = append(d.Bars, DocumentChoice{c.Name, w.Say(c.Verdict.Fact()), c.Sets, mm(c.Stickout), places(c.Compliance, 4), gapDoc(c.Least, w), w.Say(c.Why)})
	}
	b, err := json.MarshalIndent(d, "", "  ")
	return append(b, '\n'), err
}
