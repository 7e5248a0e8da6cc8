// Package feature is what a sleeve has besides its two diameters, as a job writes it:
// the stop that it is brought home against, oil holes, grooves inside, a pin across the
// joint, the lead-in, the vent, and what the mill cuts at the mouth of the housing. Each is described once for the reader of job files;
// checks.go holds them against each other and against the ring that they are cut in,
// notch.go says in closed form what a hole or a groove does to the stress of the ring.
//
// Depths are from the near end of the sleeve inward; a flange at that end stands in
// front of it. Clock positions are degrees clockwise from 12 o'clock, seen from the
// spindle. The package knows no job.
package feature

import (
	"borewright/process/field"
	"borewright/process/qty"
)

// Ranks of process, which stands above; its tests hold the two together.
const (
	SpoilsFit field.Rank = 2
)

// Made is all that a sleeve has besides its two diameters.
type Made struct {
	Stop    *Stop // nil: none, the ends stay just inside the housing
	Holes   []Hole
	Grooves []Groove
	Pin     *Pin    // nil: none
	LeadIn  *LeadIn // nil: as is usual for the size
	Vent    *Vent   // nil: as the lathe sheet advises
	Mouth   *Mouth  // nil: the edge of the housing is broken by hand
	Recess  *Recess // nil: none
}

// None is whether nothing was written.
func (m *Made) None() bool {
	return m.Stop == nil && m.Pin == nil && m.LeadIn == nil && m.Vent == nil && len(m.Holes) == 0 && len(m.Grooves) == 0 && m.Mouth == nil && m.Recess == nil
}

// Describe says what the keys are; they stand in the table of the sleeve.
func (m *Made) Describe(d *field.Desc) {
	field.Maybe(d, &m.Stop, "stop").Example("{ by = \"flange\", diameter = 3.75, thickness = 0.2, faced = true }|{ by = \"flange\", diameter = 96, thickness = 5, faced = true }").
		Says("what the sleeve is brought home against; left out: nothing, its ends stay just inside the housing").
		Weighs(SpoilsFit, "stop").YesNo("one", "none")
	field.List(d, &m.Holes, "hole", 0, 24).Example(`[ { at = ["12"], depth = 1.2, diameter = 0.19 } ]|[ { at = ["12"], depth = 30, diameter = 5 } ]`).
		Says("oil holes through the wall, one entry a ring of holes alike, each met by a hole of the housing").
		Weighs(SpoilsFit, "oil hole")
	field.List(d, &m.Grooves, "groove", 0, 24).Example(`[ { kind = "oil", from = 1.1, width = 0.2, depth = 0.04 } ]|[ { kind = "oil", from = 28, width = 5, depth = 1 } ]`).
		Says("grooves inside, one entry a groove; round the bore, or along it where at is given").
		Weighs(SpoilsFit, "groove")
	field.Maybe(d, &m.Pin, "pin").Example(`{ at = ["6"], diameter = 0.19, length = 0.5 }|{ at = ["6"], diameter = 5, length = 12 }`).
		Says("a pin or screw along the joint, half in the sleeve and half in the housing, that keeps the sleeve from turning").
		Weighs(SpoilsFit, "pin across the joint").YesNo("one", "none")
	field.Maybe(d, &m.LeadIn, "lead_in").Otherwise("15° a side by a fortieth of the outside, or 5° on a thin wall").Example(`{ angle = 15, length = 0.08 }|{ angle = 15, length = 2 }`).
		Says("chamfer on the nose of the sleeve, the end that goes in first").
		Weighs(SpoilsFit, "lead-in").YesNo("stated", "usual")
	field.Maybe(d, &m.Vent, "vent").Example(`{ by = "groove", at = "6", width = 0.12, depth = 0.03 }|{ by = "groove", at = "6", width = 3, depth = 0.8 }`).
		Says("the way out of the air that a sleeve traps in a blind housing").
		Weighs(SpoilsFit, "vent").YesNo("stated", "usual")
	m.describeMill(d)
}

// By is what brings a sleeve to a stop.
type By int

// The stops.
const (
	Flange   By = iota // a rim of the sleeve that bears on the face of the housing
	Shoulder           // a step at the far end of the housing that the sleeve's end bears on
)

func (b By) String() string { return [...]string{"flange", "shoulder"}[b] }

// End is one end of a sleeve.
type End int

// The ends.
const (
	Near End = iota // toward the spindle
	Far
)

func (e End) String() string { return [...]string{"near", "far"}[e] }

// Stop is what a sleeve is brought home against.
type Stop struct {
	By        By
	Diameter  qty.Diameter // of the flange
	Thickness qty.Length   // of the flange
	End       End          // that the flange is at
	Faced     bool         // the seat of it is faced square to the bore
}

// Describe says what its keys are.
func (s *Stop) Describe(d *field.Desc) {
	field.Word(d, &s.By, "by", Flange, Shoulder).Default("flange").Example(`"flange"`).
		Says("flange: a rim that bears on the face of the housing; shoulder: the step at the far end of the housing, which the sleeve's end bears on").
		Weighs(SpoilsFit, "by")
	d.Diameter(&s.Diameter, "diameter").Span(">0..100|>0..2500").Example("3.75|96").Says("diameter of the flange").
		Weighs(SpoilsFit, "diameter of the flange").ZeroIsNone()
	d.Length(&s.Thickness, "thickness").Span(">0..4|>0..100").Example("0.2|5").Says("thickness of the flange; usual is the wall").
		Weighs(SpoilsFit, "thickness of the flange").ZeroIsNone()
	field.Word(d, &s.End, "end", Near, Far).Default("near").Example(`"far"`).Says("end of the sleeve that the flange is at; near is toward the spindle").
		Weighs(SpoilsFit, "end of the flange")
	d.Flag(&s.Faced, "faced").Default("false").Example("true").
		Says("the seat that it bears on is faced square to the bore, from the same line-up").
		Weighs(SpoilsFit, "its seat").YesNo("faced", "as found")
}

// Hole is a ring of oil holes.
type Hole struct {
	At       []float64 // clock positions, degrees
	Depth    qty.Length
	Diameter qty.Diameter
}

// Describe says what its keys are.
func (h *Hole) Describe(d *field.Desc) {
	d.Numbers(&h.At, "at", "°", 1, 24).Clock().Need().Span("0..360").Example(`["12", "4:30"]`).Says("clock positions, "+clocks).
		Weighs(SpoilsFit, "at")
	d.Length(&h.Depth, "depth").Need().Span("0..100|0..2500").Example("1.2|30").Says("depth of its middle"+inside).
		Weighs(SpoilsFit, "depth")
	d.Diameter(&h.Diameter, "diameter").Need().Span(">0..2|>0..50").Example("0.19|5").Says("its diameter").
		Weighs(SpoilsFit, "diameter")
}

// What several keys are counted from.
const (
	clocks = "degrees clockwise from 12 o'clock, seen from the spindle, or hours in quotes, as \"4:30\""
	inside = ", from the near end of the sleeve (behind a flange there)"
)

// Kind is what a groove is for.
type Kind int

// The kinds.
const (
	Oil Kind = iota
	Seal
)

func (k Kind) String() string { return [...]string{"oil", "seal"}[k] }

// Groove is a groove in the bore of a sleeve. It runs round; or along, at clock
// positions.
type Groove struct {
	Kind   Kind
	From   qty.Length // depth of its near edge
	Width  qty.Length // along the bore; of one along the bore: across
	Depth  qty.Length // into the wall, from the finished bore
	At     []float64  // clock positions of one along the bore; nil: it runs round
	Length qty.Length // of one along the bore
}

// To is the depth of its far edge.
func (g Groove) To() qty.Length {
	if g.Along() {
		return g.From + g.Length
	}
	return g.From + g.Width
}

// Along is whether it runs along the bore.
func (g Groove) Along() bool { return len(g.At) > 0 }

// Describe says what its keys are.
func (g *Groove) Describe(d *field.Desc) {
	field.Word(d, &g.Kind, "kind", Oil, Seal).Default("oil").Example(`"seal"`).Says("what it is for").
		Weighs(SpoilsFit, "for")
	d.Length(&g.From, "from").Need().Span("0..100|0..2500").Example("1.1|28").Says("depth of its near edge"+inside).
		Weighs(SpoilsFit, "from")
	d.Length(&g.Width, "width").Need().Span(">0..4|>0..100").Example("0.2|5").Says("its width").
		Weighs(SpoilsFit, "width")
	d.Length(&g.Depth, "depth").Need().Span(">0..2|>0..50").Example("0.04|1").Says("its depth in the wall, from the finished bore").
		Weighs(SpoilsFit, "deep")
	d.Numbers(&g.At, "at", "°", 1, 24).Clock().Span("0..360").Example(`["3"]`).Says("where it runs along the bore: clock positions, "+clocks+"; left out: it runs round").
		Weighs(SpoilsFit, "at")
	d.Length(&g.Length, "length").Span(">0..100|>0..2500").Example("1.5|40").Says("its length, where it runs along the bore").
		Weighs(SpoilsFit, "long").ZeroIsNone()
}
