package document

import (
	"borewright/process/plan"
	"encoding/json"
	"math"

	"borewright/process/fact"
	"borewright/process/passes"
	"borewright/sheets/words"
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

	ForceError float64           `json:"force_error"` // every force may be off by this share, either way (95 %), before it is measured
	LineUp     *DocumentLineUp   `json:"lineup,omitempty"`
	Reach      string            `json:"reach"`              // "clear", "tight" or "does not pass"
	Measured   *DocumentMeasured `json:"measured,omitempty"` // what this plan goes on from
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

	Landing []DocumentLanding `json:"landing"` // one a visit, in order
	Visits  []DocumentVisit   `json:"visits"`
	Sleeve  *DocumentSleeve   `json:"sleeve,omitempty"`
	AtHome  *DocumentAtHome   `json:"sleeve_to_measure,omitempty"` // finished on the lathe: what is left to do when it is home
	CleanUp *DocumentCleanUp  `json:"cleanup_diameter_mm,omitempty"`
}

// DocumentLanding is the chance that a visit lands on size.
type DocumentLanding struct {
	Chance     float64         `json:"chance"`            // measured and corrected at the hold points
	Unmeasured float64         `json:"chance_unmeasured"` // the same without measuring before the last pass
	Share      float64         `json:"correction"`        // of what the bore is out at the hold, by which the next setting is shifted
	Low        float64         `json:"low_mm"`            // 95 of 100 land between
	High       float64         `json:"high_mm"`
	Trials     int             `json:"trials"`
	Scatter    []DocumentShare `json:"scatter"`
	Compliance [2]float64      `json:"compliance_um_per_n"` // at the cutter, least and most along the bore
	Overhang   float64         `json:"overhang"`            // stickout over diameter
}

// DocumentShare is one cause of scatter and its share of the variance.
type DocumentShare struct {
	Cause string  `json:"cause"`
	Share float64 `json:"share"`
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

	OutOfRound float64         `json:"out_of_round_mm"` // left of the old shape, radial
	Taper      float64         `json:"taper_mm"`        // on diameter
	Stress     float64         `json:"bar_stress_mpa"`
	Chatter    DocumentChatter `json:"chatter"`
}

// DocumentChatter is how a pass stands against chatter: the limit of the cut's
// stiffness over its stiffness, at the least and the most damping.
type DocumentChatter struct {
	Voice string  `json:"voice"` // "quiet", "may sing" or "will sing"
	Least float64 `json:"margin_least"`
	Most  float64 `json:"margin_most"`
	Hz    float64 `json:"hz"`
}

// DocumentDiameter is what the gauge should say.
type DocumentDiameter struct {
	Low      float64 `json:"low"`
	Expected float64 `json:"expected"`
	High     float64 `json:"high"`
}

// Of gives the plan as it is written to plan.json.
func Of(p *plan.Plan) Document {
	w := words.In(p.Job.Units)
	d := Document{
		Schema:   Schema,
		Job:      DocumentJob{p.Job.Number, p.Job.Revision, p.Job.Title},
		Feasible: p.Feasible, Reasons: []string{}, Bores: []DocumentBore{}, ForceError: p.Job.Limits.ForceError,
		LineUp: lineUpDoc(p.LineUp, w), Reach: w.Say(p.ReachVerdict().Fact()),
	}
	for _, r := range p.Reasons {
		d.Reasons = append(d.Reasons, w.Say(r.What))
	}
	for _, b := range p.Bores {
		out := DocumentBore{
			Station: b.Station.Name, Passes: []DocumentPass{}, Landing: []DocumentLanding{},
			Visits: visitsDoc(w, &b), Sleeve: sleeveDoc(b.Sleeve), AtHome: homeDoc(w, &b),
		}
		for _, v := range b.Visits {
			if v.Budget != nil {
				out.Landing = append(out.Landing, landing(w, &v))
			}
			for _, q := range v.Passes {
				out.Passes = append(out.Passes, passDoc(w, &q))
			}
		}
		if b.CleanUp != nil {
			w := cleanUpDoc(b.CleanUp, b.Station.Name, w)
			out.CleanUp = &w.CleanUp
		}
		d.Bores = append(d.Bores, out)
	}
	d.Measured = measuredDoc(w, p.Findings)
	return d
}

func passDoc(w words.Words, q *passes.Pass) DocumentPass {
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
		LimitedBy:      w.Say(q.LimitedBy),
		OutOfRound:     places(q.OutOfRound.MM(), 5),
		Taper:          places(q.Taper.MM(), 5),
		Stress:         places(q.Stress, 1),
		Chatter: DocumentChatter{
			Voice: w.Say(fact.New(q.Stability.Chatter())), Least: places(min(q.Stability.Margin[0], 1e6), 3),
			Most: places(min(q.Stability.Margin[1], 1e6), 3), Hz: places(q.Stability.Hz, 1),
		},
	}
}

func landing(w words.Words, v *plan.Visit) DocumentLanding {
	b := v.Budget
	d := DocumentLanding{
		Chance: b.Chance, Unmeasured: b.Blind, Share: b.Gain, Low: b.Low.MM(), High: b.High.MM(), Trials: b.Trials, Scatter: []DocumentShare{},
		Compliance: [2]float64{places(v.Compliance[0], 4), places(v.Compliance[1], 4)}, Overhang: places(v.Overhang, 2),
	}
	for _, s := range b.Shares {
		d.Scatter = append(d.Scatter, DocumentShare{w.Say(fact.New(s.Cause)), places(s.Of, 4)})
	}
	return d
}

// places rounds for print; it is the one rounding that JSON gets.
func places(x float64, n int) float64 {
	s := math.Pow10(n)
	return math.Round(x*s)/s + 0 // no -0
}

// Write is the document of a plan, indented, with a line end.
func Write(p *plan.Plan) ([]byte, error) {
	b, err := json.MarshalIndent(Of(p), "", "  ")
	return append(b, '\n'), err
}
