package document

import (
	"encoding/json"
	"math"

	"borewright/process/geom"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/words"
)

// LineUpSchema and ReachSchema name the layouts of lineup --json and
// reach --json. Fields are added, never renamed.
const (
	LineUpSchema = "borewright/lineup/1"
	ReachSchema  = "borewright/reach/1"
)

// XY is a pair across the spindle: X to the right of the operator who looks at
// the work, Y up.
type XY struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// DocumentLineUp is where the line of bores stands and what to move. Lengths
// in mm, angles in mrad; every ± covers 95 %.
type DocumentLineUp struct {
	Station           string            `json:"station"`
	Offset            XY                `json:"offset_mm"`
	OffsetUncertainty float64           `json:"offset_uncertainty_mm"`
	Tilt              XY                `json:"tilt_mrad"`
	TiltUncertainty   float64           `json:"tilt_uncertainty_mrad"`
	BarDroop          float64           `json:"bar_droop_mm"`
	Assumption        string            `json:"assumption,omitempty"`
	Confirm           string            `json:"confirm,omitempty"`
	AtStation         []DocumentStation `json:"at_station"`
	Swept             []DocumentSwept   `json:"swept"`
	Advice            DocumentAdvice    `json:"advice"`
	Notes             []string          `json:"notes,omitempty"`
}

// DocumentStation is where the line stands at one station, against the axis
// that the bar cuts on.
type DocumentStation struct {
	Station     string  `json:"station"`
	Depth       float64 `json:"depth_mm"`
	X           float64 `json:"x_mm"`
	Y           float64 `json:"y_mm"`
	Uncertainty float64 `json:"uncertainty_mm"`
}

// DocumentSwept is what one sweep says; offset_mm of a bore, tilt_mrad of a
// face.
type DocumentSwept struct {
	Station  string    `json:"station"`
	Depth    float64   `json:"depth_mm"`
	Face     bool      `json:"face"`
	Offset   *XY       `json:"offset_mm,omitempty"`
	Tilt     *XY       `json:"tilt_mrad,omitempty"`
	TIR      float64   `json:"tir_mm"`
	Read     float64   `json:"read_mm"`
	Form     float64   `json:"form_mm"`
	OffLine  float64   `json:"off_line_mm"`
	Clock    []float64 `json:"clock_deg"`
	Dial     []float64 `json:"dial_mm"`
	Larger   string    `json:"larger"` // "nearer" or "further": what a larger reading means
	Expected []float64 `json:"dial_after_mm,omitempty"`
}

// DocumentAdvice is what to move, in the order to do it.
type DocumentAdvice struct {
	Shim       *DocumentShim  `json:"shim,omitempty"`
	Turn       *DocumentTurn  `json:"turn,omitempty"`
	SweepAgain bool           `json:"sweep_again"`
	Move       []DocumentMove `json:"move"`
}

// DocumentShim goes under one end of the work; thick_mm over over_mm between
// the packings, 0 where they are not stated.
type DocumentShim struct {
	Under string  `json:"under"`
	Thick float64 `json:"thick_mm"`
	Over  float64 `json:"over_mm"`
	Mrad  float64 `json:"mrad"`
}

// DocumentTurn is a turn of the table about the vertical.
type DocumentTurn struct {
	Mrad   float64 `json:"mrad"`
	Way    string  `json:"way"`
	FarEnd string  `json:"far_end"`
	AtStop float64 `json:"at_stop_mm"`
	Stop   float64 `json:"stop_mm"`
}

// DocumentMove brings spindle and work together along one axis; by_mm is how
// much the axis reading goes up (ISO 841).
type DocumentMove struct {
	Axis        string  `json:"axis"`
	By          float64 `json:"by_mm"`
	Spindle     string  `json:"spindle,omitempty"`
	Work        string  `json:"work,omitempty"`
	Graduations float64 `json:"graduations"`
}

// DocumentCleanUp is the diameters at which a worn bore cleans up.
type DocumentCleanUp struct {
	TrueAxis float64 `json:"true_axis"`
	OwnAxis  float64 `json:"own_axis,omitempty"` // left out: not known
}

// DocumentWorn is a worn bore as read.
type DocumentWorn struct {
	Station  string           `json:"station"`
	CleanUp  DocumentCleanUp  `json:"cleanup_diameter_mm"`
	OwnAt    *XY              `json:"own_axis_at_mm,omitempty"`
	Unseen   float64          `json:"unseen_mm"`
	Last     DocumentSpot     `json:"last_shadow"`
	First    DocumentSpot     `json:"first_cut"`
	Depths   []DocumentDepth  `json:"depths"`
	Shadows  []DocumentShadow `json:"shadow"`
	Doubtful []DocumentDoubt  `json:"doubtful"`
	Next     float64          `json:"next_sleeve_outside_mm,omitempty"`
	Words    string           `json:"words"`
}

// DocumentSpot is a place in the bore, radius about the true axis.
type DocumentSpot struct {
	Depth  float64 `json:"depth_mm"`
	Clock  float64 `json:"clock_deg"`
	Radius float64 `json:"radius_mm"`
}

// DocumentDepth is what the readings at one depth say; circles of ISO 12181-1.
type DocumentDepth struct {
	Depth         float64  `json:"depth_mm"`
	Readings      int      `json:"readings"`
	Centre        *XY      `json:"centre_mm,omitempty"`
	LeastSquares  float64  `json:"least_squares_diameter_mm,omitempty"`
	Circumscribed float64  `json:"minimum_circumscribed_diameter_mm,omitempty"`
	Inscribed     float64  `json:"maximum_inscribed_diameter_mm,omitempty"`
	Zone          *float64 `json:"minimum_zone_mm,omitempty"`
	RONt          *float64 `json:"ront_mm,omitempty"`
}

// DocumentShadow is what a bore of one size leaves uncut.
type DocumentShadow struct {
	Pass     int          `json:"pass"`
	Diameter float64      `json:"diameter_mm"`
	Deepest  float64      `json:"deepest_mm"`
	At       DocumentSpot `json:"at"`
	Readings int          `json:"readings"`
	UpTo     bool         `json:"up_to,omitempty"` // read across: no deeper than this, wherever the old bore stands
}

// DocumentDoubt is a reading that does not go with the others.
type DocumentDoubt struct {
	DocumentSpot
	Expected float64 `json:"expected_mm"`
}

// LineUpDocument is lineup --json. The line-up stands at the top, and so does
// the clean-up size of the bore that it is for; bores holds every worn bore.
type LineUpDocument struct {
	Schema string      `json:"schema"`
	Job    DocumentJob `json:"job"`
	*DocumentLineUp
	NoLine  string           `json:"no_line_up,omitempty"` // why the sweeps of the job cannot be used
	CleanUp *DocumentCleanUp `json:"cleanup_diameter_mm,omitempty"`
	Bores   []DocumentWorn   `json:"bores"`
}

func mm(l qty.Length) float64    { return places(l.MM(), 5) }
func angle(mrad float64) float64 { return places(mrad, 5) }
func nm(mm float64) float64      { return places(qty.FromMM(mm).MM(), 5) } // by whole nanometres, as every length
func xy(p geom.Vec) XY           { return XY{nm(p.X), nm(p.Y)} }
func angles(t geom.Vec) XY       { return XY{angle(t.X), angle(t.Y)} }
func spotDoc(s geom.Spot) DocumentSpot {
	return DocumentSpot{nm(s.Depth), places(s.Clock, 3), nm(s.Radius)}
}
func diameter(d qty.Diameter) float64 { return mm(d.Length()) }

// document is the line-up for JSON; nil for none.
func lineUpDoc(l *place.LineUp, w words.Words) *DocumentLineUp {
	if l == nil {
		return nil
	}
	d := &DocumentLineUp{
		Station: l.Station, Offset: xy(l.Offset), OffsetUncertainty: mm(l.Unsure), Tilt: angles(l.Tilt), TiltUncertainty: angle(l.TiltIs),
		BarDroop: mm(l.Droop), Assumption: w.Say(l.Assumption), Confirm: w.Sentence(l.Confirm),
	}
	for _, n := range l.Notes {
		d.Notes = append(d.Notes, w.Say(n))
	}
	for _, a := range l.At {
		d.AtStation = append(d.AtStation, DocumentStation{a.Station, nm(a.Depth), nm(a.X), nm(a.Y), nm(a.Uncertainty)})
	}
	for _, s := range l.Swept {
		x := DocumentSwept{Station: s.Station, Depth: nm(s.Depth), Face: s.Face, TIR: nm(s.TIR), Read: nm(s.Spread), Form: nm(s.Form), OffLine: nm(s.OffLine), Clock: s.As.At, Larger: "nearer"}
		if s.As.Further {
			x.Larger = "further"
		}
		if at, lean := xy(s.Offset), angles(s.Tilt); s.Face {
			x.Tilt = &lean
		} else {
			x.Offset = &at
		}
		for _, v := range s.As.Dial {
			x.Dial = append(x.Dial, mm(v))
		}
		for _, v := range s.Expected {
			x.Expected = append(x.Expected, mm(v))
		}
		d.Swept = append(d.Swept, x)
	}
	d.Advice.SweepAgain = l.SweepAgain
	if s := l.Shim; s != nil {
		d.Advice.Shim = &DocumentShim{w.Say(s.Under.Fact()), nm(s.Thick), mm(s.Over), angle(s.Slope())}
	}
	if t := l.Turn; t != nil {
		d.Advice.Turn = &DocumentTurn{angle(math.Abs(t.Mrad)), w.Say(t.Sense.Fact()), w.Say(t.FarEnd.Fact()), nm(t.AtStop), mm(t.Stop)}
	}
	for _, m := range l.Move {
		d.Advice.Move = append(d.Advice.Move, DocumentMove{m.Axis, nm(m.By), w.Say(m.Spindle.Fact()), w.Say(m.Work.Fact()), places(m.Graduations, 2)})
	}
	return d
}

// document is a worn bore for JSON.
func cleanUpDoc(c *place.CleanUp, station string, w words.Words) DocumentWorn {
	d := DocumentWorn{
		Station: station, CleanUp: DocumentCleanUp{diameter(c.TrueAxis), diameter(c.OwnAxis)}, Unseen: mm(c.Unseen),
		Last: spotDoc(c.Last), First: spotDoc(c.First), Next: diameter(c.Next), Words: w.Sentence(c.Why),
		Depths: []DocumentDepth{}, Shadows: []DocumentShadow{}, Doubtful: []DocumentDoubt{},
	}
	if c.OwnAxis > 0 {
		d.OwnAt = new(xy(c.Own))
	}
	for _, x := range c.Depths {
		at := DocumentDepth{Depth: mm(x.Depth), Readings: x.Readings, LeastSquares: diameter(x.LeastSquares), Circumscribed: diameter(x.Circumscribed), Inscribed: diameter(x.Inscribed)}
		if x.Inscribed > 0 {
			at.Zone = new(mm(x.Zone))
		}
		if x.LeastSquares > 0 {
			at.RONt = new(mm(x.OutOfRound))
		}
		if x.Centred {
			at.Centre = new(xy(x.Centre))
		}
		d.Depths = append(d.Depths, at)
	}
	for _, s := range c.Shadows {
		d.Shadows = append(d.Shadows, DocumentShadow{s.Pass, diameter(s.Size), mm(s.Deepest), spotDoc(s.At), s.Spots, s.UpTo})
	}
	for _, s := range c.Doubtful {
		d.Doubtful = append(d.Doubtful, DocumentDoubt{spotDoc(s.Spot), nm(s.Expected)})
	}
	return d
}

// WriteLineUp is the line-up and the clean-up sizes as JSON, indented, with a
// line end. size, over 0, adds the shadow that a bore of that diameter would
// leave.
func WriteLineUp(p *plan.Plan, size qty.Diameter) ([]byte, error) {
	speak := words.In(p.Job.Units)
	d := LineUpDocument{
		Schema: LineUpSchema, Job: DocumentJob{p.Job.Number, p.Job.Revision, p.Job.Title},
		DocumentLineUp: lineUpDoc(p.LineUp, speak), NoLine: speak.Sentence(p.NoLineUp()), Bores: []DocumentWorn{},
	}
	for _, b := range p.Bores {
		if b.CleanUp == nil {
			continue
		}
		c := *b.CleanUp
		if size > 0 {
			c.Shadows = append([]place.Shadow{c.Shadow(size)}, c.Shadows...)
		}
		w := cleanUpDoc(&c, b.Station.Name, speak)
		d.Bores = append(d.Bores, w)
		if d.CleanUp == nil && (p.LineUp == nil || p.LineUp.Station == b.Station.Name) {
			d.CleanUp = &w.CleanUp
		}
	}
	b, err := json.MarshalIndent(d, "", "  ")
	return append(b, '\n'), err
}
