package document

import (
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/sleeve"
	"borewright/sheets/words"
)

// DocumentSleeves are the sleeves of a job, as the command sleeve writes them.
type DocumentSleeves struct {
	Schema   string               `json:"schema"`
	Job      DocumentJob          `json:"job"`
	Feasible bool                 `json:"feasible"`
	Reasons  []string             `json:"reasons"`
	Sleeves  []DocumentBoreSleeve `json:"sleeves"`
}

// DocumentBoreSleeve is the sleeve of one bore.
type DocumentBoreSleeve struct {
	Station string `json:"station"`
	*DocumentSleeve
}

// DocumentVisit is one visit of a bore; first and last count its passes, 0
// where it has none.
type DocumentVisit struct {
	N     int    `json:"n"`
	Title string `json:"title"`
	First int    `json:"first_pass"`
	Last  int    `json:"last_pass"`
}

// DocumentSleeve is a sleeve in SI units.
type DocumentSleeve struct {
	Material     string             `json:"material"`
	Hold         string             `json:"hold"`
	Fit          string             `json:"fit"`
	Finish       string             `json:"finish"` // "in place" or "before"
	Why          string             `json:"why"`
	Other        string             `json:"other"`
	Outside      float64            `json:"outside_mm"`
	Housing      DocumentRange      `json:"housing_mm"`
	Turned       DocumentRange      `json:"outside_limits_mm"`
	Interference DocumentRange      `json:"interference_um"` // negative: a gap
	Match        float64            `json:"match_um"`
	Length       DocumentRange      `json:"length_mm"`
	Wall         float64            `json:"wall_mm"`
	Weight       float64            `json:"weight_kg"` // as turned
	Hub          DocumentRange      `json:"housing_metal_mm"`
	Assumed      bool               `json:"housing_metal_assumed"`
	Before       DocumentWay        `json:"finished_before"`
	Here         DocumentWay        `json:"bored_in_place"`
	Final        *DocumentFinal     `json:"final_clearance,omitempty"`
	Closure      DocumentRange      `json:"bore_closure_um"`
	Pressure     *DocumentRange     `json:"pressure_mpa,omitempty"`
	Service      DocumentRange      `json:"service_c"`
	AtWork       *DocumentRange     `json:"service_pressure_mpa,omitempty"`
	Stresses     []DocumentStress   `json:"stresses,omitempty"`
	PressForce   []DocumentStroke   `json:"press_force,omitempty"`
	Joints       []DocumentJoint    `json:"joints"`
	Assembly     []DocumentAssembly `json:"assembly"`
	Chuck        DocumentChuck      `json:"chuck"`
	Order        []DocumentStep     `json:"order"`
	Cautions     []string           `json:"cautions"`
	Stops        []string           `json:"stops"`
}

// DocumentRange is a least and a most.
type DocumentRange struct {
	Min float64 `json:"min"`
	Max float64 `json:"max"`
}

// DocumentWay is one order of work for the inside.
type DocumentWay struct {
	Inside    DocumentRange `json:"inside_mm"`
	Closure   DocumentRange `json:"bore_closure_um"`
	Stock     DocumentRange `json:"stock_um"`
	Size      DocumentRange `json:"size_mm"`
	Roundness float64       `json:"roundness_um"`
	OffCentre float64       `json:"off_centre_um"`
	Ra        float64       `json:"ra_um"` // 0: as asked of the lathe
	Lands     bool          `json:"lands"`
	Why       []string      `json:"why"`
}

// DocumentFinal is the clearance on the part that goes in.
type DocumentFinal struct {
	Part     DocumentRange  `json:"part_mm"`
	Asked    DocumentRange  `json:"asked_um"`
	Expected *DocumentRange `json:"expected_um,omitempty"` // left out: not known
	AtWork   *DocumentRange `json:"at_work_um,omitempty"`  // over service_c; left out with it
	PartOf   string         `json:"part_material"`         // "": not stated, steel is assumed
	OK       bool           `json:"ok"`
}

// DocumentAtHome is the measuring of a sleeve that is not cut again; n is the
// number that its entry is made under.
type DocumentAtHome struct {
	N        int              `json:"n"`
	Diameter DocumentDiameter `json:"diameter_mm"`
	Measure  []string         `json:"measure"`
}

func homeDoc(w words.Words, b *plan.Bore) *DocumentAtHome {
	h := b.Home
	if h == nil {
		return nil
	}
	return &DocumentAtHome{h.N, DocumentDiameter{h.Low.MM(), h.Expected.MM(), h.High.MM()}, w.Each(h.Hold.Measure)}
}

// DocumentStress is a stress against what is allowed.
type DocumentStress struct {
	Where      string        `json:"where"`
	Hoop       DocumentRange `json:"hoop_mpa"`
	Equivalent float64       `json:"equivalent_mpa"`
	Allowed    float64       `json:"allowed_mpa"`
	Criterion  string        `json:"criterion"`
	OK         bool          `json:"ok"`
}

// DocumentStroke is the press force at one depth.
type DocumentStroke struct {
	Depth float64       `json:"depth_mm"`
	Force DocumentRange `json:"force_n"`
}

// DocumentJoint is one way of holding.
type DocumentJoint struct {
	Way       string        `json:"way"`
	Taken     bool          `json:"taken"`
	Torque    DocumentRange `json:"torque_nm"`
	PushOut   DocumentRange `json:"push_out_n"`
	Closure   DocumentRange `json:"bore_closure_um"`
	HubHoop   float64       `json:"housing_hoop_mpa"`
	OffCentre float64       `json:"off_centre_um"`
	Hottest   float64       `json:"hottest_use_c"` // 0: not bound by the joint
	Reserve   float64       `json:"times_load"`    // 0: no load is stated
	Sound     bool          `json:"sound"`
	Note      string        `json:"note"`
	Reasons   []string      `json:"reasons"`
}

// DocumentAssembly is one way to put it in.
type DocumentAssembly struct {
	Way       string   `json:"way"`
	Possible  bool     `json:"possible"`
	HubTo     float64  `json:"housing_to_c"`
	SleeveTo  float64  `json:"sleeve_to_c"`
	Clearance float64  `json:"clearance_um"`
	Force     float64  `json:"force_n"`
	Why       string   `json:"why"`
	Cautions  []string `json:"cautions"`
}

// DocumentChuck is the ring in a three-jaw chuck.
type DocumentChuck struct {
	Grip     float64  `json:"grip_n"`
	Lobes    float64  `json:"lobes_um"`
	SixPads  float64  `json:"six_pads_um"`
	Allowed  float64  `json:"allowed_um"`
	GripMost float64  `json:"grip_most_n"`
	Instead  []string `json:"instead"`
}

// DocumentStep is one step of the order of work.
type DocumentStep struct {
	Text string `json:"text"`
	Hold bool   `json:"hold"`
}

// Sleeves gives the sleeves of a plan as they are written to JSON.
func Sleeves(p *plan.Plan) DocumentSleeves {
	d := Of(p)
	out := DocumentSleeves{Schema: "borewright/sleeve/1", Job: d.Job, Feasible: d.Feasible, Reasons: d.Reasons, Sleeves: []DocumentBoreSleeve{}}
	for _, b := range d.Bores {
		if b.Sleeve != nil {
			out.Sleeves = append(out.Sleeves, DocumentBoreSleeve{b.Station, b.Sleeve})
		}
	}
	return out
}

func visitsDoc(w words.Words, b *plan.Bore) []DocumentVisit {
	out := []DocumentVisit{}
	for _, v := range b.Visits {
		d := DocumentVisit{N: v.N, Title: w.Say(v.Title)}
		if n := len(v.Passes); n > 0 {
			d.First, d.Last = v.Passes[0].N, v.Passes[n-1].N
		}
		out = append(out, d)
	}
	return out
}

func sleeveDoc(s *sleeve.Sleeve) *DocumentSleeve {
	if s == nil {
		return nil
	}
	d := &DocumentSleeve{
		Material: materialName(s.Material), Hold: s.Fastening.String(), Fit: s.Fit, Finish: "before", Why: s.Why, Other: s.Other,
		Outside: s.Outside.MM(), Housing: sizesMM(s.Housing), Turned: sizesMM(s.Turned), Interference: microns(s.Interference), Match: s.Match.Microns(),
		Length: DocumentRange{s.Length.Least.MM(), s.Length.Most.MM()}, Wall: s.Wall.MM(), Weight: places(s.Weight(), 3),
		Hub: DocumentRange{places(s.Hub.Least.MM(), 3), places(s.Hub.Most.MM(), 3)}, Assumed: s.Assumed,
		Before: wayDoc(s.Before), Here: wayDoc(s.Here), Closure: microns(s.Closure), Service: rounded(s.Service, 1),
		Chuck: DocumentChuck{places(float64(s.Chuck.Grip), 0), places(s.Chuck.Lobes.Microns(), 2), places(s.Chuck.SixPads.Microns(), 2),
			places(s.Chuck.Allowed.Microns(), 2), places(float64(s.Chuck.GripMost), 0), some(s.Chuck.Instead)},
		Order: []DocumentStep{}, Cautions: some(s.Cautions), Stops: some(s.Stops), Joints: []DocumentJoint{}, Assembly: []DocumentAssembly{},
	}
	if s.InPlace {
		d.Finish = "in place"
	}
	if f := s.Final; f != nil {
		d.Final = &DocumentFinal{Part: sizesMM(f.Part), Asked: microns(f.Asked), PartOf: materialName(f.PartOf), OK: f.OK}
		if s.Taken().Known() {
			d.Final.Expected, d.Final.AtWork = new(microns(f.Expected)), new(microns(f.AtWork))
		}
	}
	if len(s.Stresses) > 0 {
		p, w := rounded(s.Pressure, 2), rounded(s.AtWork, 2)
		d.Pressure, d.AtWork = &p, &w
	}
	for _, x := range s.Stresses {
		d.Stresses = append(d.Stresses, DocumentStress{x.Where, rounded(x.Hoop, 1), places(x.Equivalent, 1), places(x.Allowed, 1), x.Criterion, x.OK})
	}
	for _, x := range s.PressForce {
		d.PressForce = append(d.PressForce, DocumentStroke{places(x.Depth.MM(), 3), rounded(x.Force, 0)})
	}
	for _, j := range s.Joints {
		d.Joints = append(d.Joints, DocumentJoint{j.Way, j.Taken, rounded(j.Torque, 1), rounded(j.PushOut, 0), microns(j.Closure),
			places(j.HubHoop, 1), places(j.OffCentre.Microns(), 1), j.HottestUse, places(j.Reserve, 2), j.Sound, j.Note, some(j.Reasons)})
	}
	for _, a := range s.Assembly {
		d.Assembly = append(d.Assembly, DocumentAssembly{a.Name, a.Possible, places(a.HubTo, 1), places(a.SleeveTo, 1), places(a.Clearance.Microns(), 1),
			places(float64(a.Force), 0), a.Why, some(a.Cautions)})
	}
	for _, o := range s.Order {
		d.Order = append(d.Order, DocumentStep(o))
	}
	return d
}

func wayDoc(w sleeve.SleeveWay) DocumentWay {
	return DocumentWay{sizesMM(w.Inside), microns(w.Closure), microns(w.Stock), DocumentRange{w.Low.MM(), w.High.MM()},
		places(w.Roundness.Microns(), 2), places(w.OffCentre.Microns(), 2), places(w.Ra.Microns(), 2), w.Lands, some(w.Why)}
}

func sizesMM(d [2]qty.Diameter) DocumentRange { return DocumentRange{d[0].MM(), d[1].MM()} }

func microns(s sleeve.Span) DocumentRange {
	return DocumentRange{places(s.Least.Microns(), 1), places(s.Most.Microns(), 1)}
}

func rounded[T ~float64](v [2]T, n int) DocumentRange {
	return DocumentRange{places(float64(v[0]), n), places(float64(v[1]), n)}
}

// some is the list, never nil: JSON then has [] and not null.
func some(l []string) []string {
	if l == nil {
		return []string{}
	}
	return l
}

// materialName is what a material is called, "" where none is stated.
func materialName(m *process.Material) string {
	switch {
	case m == nil:
		return ""
	case m.Name != "":
		return m.Name
	}
	return m.ID
}
