package feature

import (
	"fmt"
	"math"

	"borewright/process/field"
	"borewright/process/qty"
)

// Mouth is the lead-in cut in the housing on the mill, where the sleeve starts.
type Mouth struct {
	Angle  float64    // a side, degrees: that of the bit's edge to the axis
	Length qty.Length // along the bore
}

// Describe says what its keys are.
func (m *Mouth) Describe(d *field.Desc) {
	d.Number(&m.Angle, "angle", "°").Default("20").Span("5..60").Example("20").Says("its angle a side, to the axis: that of the bit's edge").
		Weighs(SpoilsFit, "angle")
	d.Length(&m.Length, "length").Need().Span(">0..0.5|>0..12").Example("0.06|1.5").Says("its length along the bore").
		Weighs(SpoilsFit, "long")
}

// Recess is a counterbore cut in the housing on the mill, for a flange at the near end.
type Recess struct {
	Diameter qty.Diameter
	Depth    qty.Length
}

// Describe says what its keys are.
func (r *Recess) Describe(d *field.Desc) {
	d.Diameter(&r.Diameter, "diameter").Need().Span(spanRecess).Example("3.8|98").Says("its diameter, wider than the flange").
		Weighs(SpoilsFit, "diameter")
	d.Length(&r.Depth, "depth").Need().Span(">0..2|>0..50").Example("0.2|5").Says("its depth, from where the housing begins").
		Weighs(SpoilsFit, "deep")
}

const spanRecess = ">0..100|>0..2500"

// describeMill are the keys of what the mill cuts at the mouth of the housing.
func (m *Made) describeMill(d *field.Desc) {
	field.Maybe(d, &m.Mouth, "mouth").Example("{ angle = 20, length = 0.06 }|{ angle = 20, length = 1.5 }").
		Says("lead-in cut in the housing on the mill, a pass of its own with a bit of its own after the last pass; left out: the edge is broken by hand").
		Weighs(SpoilsFit, "lead-in of the housing").YesNo("cut on the mill", "by hand")
	field.Maybe(d, &m.Recess, "recess").Example("{ diameter = 3.8, depth = 0.2 }|{ diameter = 98, depth = 5 }").
		Says("counterbore for a flange at the near end, cut on the mill after the last pass; its bottom is the seat of the flange, and the sleeve begins there").
		Weighs(SpoilsFit, "counterbore").YesNo("cut on the mill", "none")
}

// Room for a flange in its counterbore, on diameter, at the least. Common practice, no source.
const recessRoom = qty.Millimetre / 2

// Sunk is how much shorter than its station a seat is: the depth of the counterbore.
func (m *Made) Sunk() qty.Length {
	if m.Recess == nil {
		return 0
	}
	return m.Recess.Depth
}

// SeatCut is whether the seat of the stop is cut square to the bore.
func (m *Made) SeatCut() bool { return m.Stop != nil && m.Stop.Faced || m.Recess != nil }

// mouth holds against the housing what the mill cuts there.
func (f *faults) mouth() {
	b, r, l := f.b, f.m.Recess, f.m.Mouth
	if r != nil {
		switch {
		case !f.m.FlangeAt(Near):
			f.bad("recess", "write stop = { by = \"flange\", … }, or leave recess out", "a counterbore takes a flange at the near end, and the sleeve has none")
		case f.m.Stop.Diameter > 0 && r.Diameter < f.m.Stop.Diameter.Plus(recessRoom):
			f.bad("recess.diameter", fmt.Sprintf("make it %s at least", b.dia(f.m.Stop.Diameter.Plus(recessRoom))), "a flange of %s does not go into a counterbore of %s freely", b.dia(f.m.Stop.Diameter), b.dia(r.Diameter))
		case b.Front > 0 && r.Diameter >= b.Front:
			f.bad("recess.diameter", fmt.Sprintf("make it smaller than %s", b.dia(b.Front)), "a counterbore of %s is no step in the bore of %s in front of the seat", b.dia(r.Diameter), b.dia(b.Front))
		case b.Length < qty.Length(b.Outside)/5:
			f.bad("recess.depth", "make it shallower", "a counterbore %s deep leaves a seat of %s", b.say(r.Depth), b.say(b.Length))
		case b.Hub > 0 && r.Diameter.Minus(b.Outside)/2 > b.Hub/2:
			f.bad("recess.diameter", "make flange and counterbore smaller", "a counterbore of %s takes more than half of the %s of metal around the housing", b.dia(r.Diameter), b.say(b.Hub))
		}
	}
	if l != nil && l.Length > b.Length/4 {
		f.bad("mouth.length", "1 to 2.5 mm is usual, by the size of the bore", "a lead-in of %s takes more than a quarter of a seat of %s", b.say(l.Length), b.say(b.Length))
	}
}

// Wider is what the lead-in adds to the bore at its mouth, on diameter.
//
//	2 ℓ tan α
func (m Mouth) Wider() qty.Length {
	return qty.FromMM(2 * m.Length.MM() * math.Tan(m.Angle*math.Pi/180))
}
