package feature

import (
	"math"

	"borewright/process/field"
	"borewright/process/qty"
)

// Keeper is what stands in the joint.
type Keeper int

// The keepers.
const (
	Dowel Keeper = iota
	Screw
)

func (k Keeper) String() string { return [...]string{"pin", "screw"}[k] }

// Pin is a pin or screw along the joint, half in the sleeve and half in the housing.
type Pin struct {
	By       Keeper
	At       []float64 // clock positions
	Diameter qty.Diameter
	Length   qty.Length // in the joint
	End      End        // that it is put in at
}

// Describe says what its keys are.
func (p *Pin) Describe(d *field.Desc) {
	field.Word(d, &p.By, "by", Dowel, Screw).Default("pin").Example(`"screw"`).Says("what it is").
		Weighs(SpoilsFit, "by")
	d.Numbers(&p.At, "at", "°", 1, 8).Clock().Need().Span("0..360").Example(`["6"]`).Says("clock positions, "+clocks).
		Weighs(SpoilsFit, "at")
	d.Diameter(&p.Diameter, "diameter").Need().Span(">0..2|>0..50").Example("0.19|5").Says("its diameter; usual is about the wall").
		Weighs(SpoilsFit, "diameter")
	d.Length(&p.Length, "length").Need().Span(">0..10|>0..250").Example("0.5|12").Says("its length in the joint; usual is two to three times its diameter").
		Weighs(SpoilsFit, "long")
	field.Word(d, &p.End, "end", Near, Far).Default("near").Example(`"far"`).Says("end of the sleeve that it is put in at; near is toward the spindle").
		Weighs(SpoilsFit, "end")
}

// Stresses that a pin across a joint is counted with, MPa: shear of a pin of mild
// steel, and bearing on iron or bronze. Common practice, from memory.
const (
	PinShear   = 60.0
	PinBearing = 100.0
)

// Torque is what the pins hold alone on a joint of diameter d, N·m: the less of shear
// along the joint and of bearing on half the pin.
//
//	T = n τ D l d/2    T = n p (D/2) l d/2
//
// D the pin's diameter, l its length, d the joint's, mm; τ and p as above. Source:
// equilibrium; a half pin in each part.
func (p *Pin) Torque(d qty.Diameter) float64 {
	if p == nil {
		return 0
	}
	one := math.Min(PinShear*p.Diameter.MM(), PinBearing*p.Diameter.MM()/2)
	return float64(len(p.At)) * one * p.Length.MM() * d.MM() / 2 / 1000
}

// LeadIn is the chamfer on the nose of a sleeve.
type LeadIn struct {
	Angle  float64 // a side, degrees
	Length qty.Length
}

// Describe says what its keys are.
func (l *LeadIn) Describe(d *field.Desc) {
	d.Number(&l.Angle, "angle", "°").Default("15").Span("2..45").Example("15").Says("its angle a side, to the axis").
		Weighs(SpoilsFit, "angle")
	d.Length(&l.Length, "length").Need().Span(">0..2|>0..50").Example("0.08|2").Says("its length along the axis").
		Weighs(SpoilsFit, "long")
}

// OnDiameter is what it takes off the nose.
func (l LeadIn) OnDiameter() qty.Length {
	return qty.FromMM(2 * l.Length.MM() * math.Tan(l.Angle*math.Pi/180))
}

// Way is a way out for trapped air.
type Way int

// The ways.
const (
	Channel Way = iota // a groove along the whole outside of the sleeve
	Flat               // a flat filed or milled along it
	Drilled            // a hole in the bottom of the housing
)

func (w Way) String() string { return [...]string{"groove", "flat", "hole"}[w] }

// Vent is the way out of the air.
type Vent struct {
	By    Way
	At    float64    // clock position
	Width qty.Length // of the groove; of a hole: its diameter
	Depth qty.Length // of groove or flat, from the outside of the sleeve
}

// Describe says what its keys are.
func (v *Vent) Describe(d *field.Desc) {
	field.Word(d, &v.By, "by", Channel, Flat, Drilled).Default("groove").Example(`"flat"`).
		Says("groove or flat: along the whole outside of the sleeve; hole: in the bottom of the housing").
		Weighs(SpoilsFit, "by")
	d.Number(&v.At, "at", "°").Clock().Default("180").Span("0..360").Example(`"6"`).Says("clock position, "+clocks).
		Weighs(SpoilsFit, "at").As(qty.KindClock)
	d.Length(&v.Width, "width").Span(">0..1|>0..25").Example("0.12|3").Says("width of the groove, or diameter of the hole").
		Weighs(SpoilsFit, "wide").ZeroIsNone()
	d.Length(&v.Depth, "depth").Span(">0..1|>0..25").Example("0.03|0.8").Says("depth of groove or flat, from the outside of the sleeve").
		Weighs(SpoilsFit, "deep").ZeroIsNone()
}

// Wide is how wide it is on the outside of a sleeve of diameter d, mm: a flat as wide
// as the chord of its depth, w = 2√(dh − h²).
func (v Vent) Wide(d qty.Diameter) float64 {
	if v.By == Flat {
		h := v.Depth.MM()
		return 2 * math.Sqrt(math.Max(0, d.MM()*h-h*h))
	}
	return v.Width.MM()
}
