package schedule

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/qty"
)

// MouthKind is what is cut at the mouth of a housing when its last pass is good.
type MouthKind int

// The cuts.
const (
	Counterbore MouthKind = iota // for a flange, with a square bit
	LeadIn                       // with a bit whose edge stands at its angle
)

func (k MouthKind) String() string { return [...]string{"counterbore", "lead-in"}[k] }

// MouthCut is one cut at the mouth: the bit feeds in along the bore, dwells, and feeds out.
// Depths are of the outer end of its edge.
type MouthCut struct {
	Kind    MouthKind
	Setting qty.Diameter // of the outer end of the edge
	Begin   qty.Length   // depth at which the feed begins
	Touch   qty.Length   // lead-in: depth at which the edge first touches the mouth
	End     qty.Length   // depth at which it ends
	Leaves  qty.Diameter // at the mouth, or of the counterbore
	Angle   float64      // lead-in: of the edge to the axis, degrees
	Edge    qty.Length   // lead-in: length of edge that it takes, along the axis
	Feed    qty.Length   // a revolution
	Speed   qty.RevPerMin
	Last    bool // of its kind
	Hand    bool // no program says it: it is cut by the sheet
	Minutes float64
}

// Describe says what documents and a comparison have of it.
func (m *MouthCut) Describe(d *field.Desc) {
	const fits = process.SpoilsFit
	field.Word(d, &m.Kind, "kind", Counterbore, LeadIn).Weighs(fits, "cut")
	d.Diameter(&m.Setting, "setting_mm").Decimals(5).Weighs(fits, "bit set to")
	d.Length(&m.Begin, "begin_mm").Decimals(5).Weighs(fits, "feed begins at")
	d.Length(&m.Touch, "touch_mm").Decimals(5).OmitEmpty().Weighs(fits, "edge touches at")
	d.Length(&m.End, "end_mm").Decimals(5).Weighs(fits, "feed ends at")
	d.Diameter(&m.Leaves, "leaves_mm").Decimals(5).Weighs(fits, "leaves")
	d.Number(&m.Angle, "angle_deg", "°").Decimals(2).OmitEmpty().Weighs(fits, "angle of the edge")
	d.Length(&m.Edge, "edge_mm").Decimals(5).OmitEmpty().Weighs(fits, "edge long")
	d.Length(&m.Feed, "feed_mm").Decimals(5).Weighs(process.SpoilsFeed, "feed").PerTurn()
	d.Turns(&m.Speed, "speed_rpm").Weighs(process.SpoilsFeed, "speed")
	d.Flag(&m.Hand, "by_hand").Weighs(fits, "cut by").YesNo("hand", "program")
	d.Number(&m.Minutes, "minutes", "min").Decimals(2).Weighs(process.SpoilsFeed, "minutes")
	d.Flag(&m.Last, "last").NoJSON().Weighs(process.SpoilsFit, "last of its kind")
}
