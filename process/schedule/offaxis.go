package schedule

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/qty"
)

// OffAxis is how the program of a visit takes the cutter past stations that are too small
// for the circle of its tip: in front of the work the spindle stops with the tip at Clock,
// the bar moves away from the tip by Shift, goes in to Level, and comes back to its axis
// there. After each pass it comes out the same way.
type OffAxis struct {
	Clock float64    // where the tip stands, degrees clockwise from 12 o'clock, seen from the spindle
	Shift qty.Length // of the bar, opposite to the tip
	Level qty.Length // depth of the tip at which the bar comes back to its axis, and leaves it
	Least qty.Length // that the shift may be
	Most  qty.Length
	Wide  qty.Length // that the cutter may stand out to either side of its tip
	Sides []Sides    // stations that it passes so, from the spindle
}

// Sides is the room on radius in one station, on both sides of the shifted bar.
type Sides struct {
	Station  string
	From, To qty.Length // depths of the tip between which the cutter stands in it
	Tip      qty.Length // between cutter and wall
	Cutter   bool       // it stands in it; else only the bar does, and From, To and Tip are 0
	Back     qty.Length // between the bar and the wall behind it
	Bar      bool       // it stands in it
}

// Describe says what documents and a comparison have of it.
func (o *OffAxis) Describe(d *field.Desc) {
	d.Figure(&o.Clock, qty.KindClock, "tip_at").Decimals(0).Weighs(process.SpoilsReach, "tip as it goes in")
	d.Length(&o.Shift, "shift_mm").Decimals(5).Weighs(process.SpoilsReach, "bar off its axis as it goes in")
	d.Length(&o.Level, "level_mm").Decimals(5).Weighs(process.SpoilsReach, "back to the axis at")
	d.Length(&o.Least, "shift_least_mm").Decimals(5)
	d.Length(&o.Most, "shift_most_mm").Decimals(5)
	d.Length(&o.Wide, "cutter_to_either_side_mm").Decimals(5)
	field.List(d, &o.Sides, "stations", 0, field.Any)
}

// Describe says what documents have of one station.
func (s *Sides) Describe(d *field.Desc) {
	d.Text(&s.Station, "station")
	in, bar := func() bool { return s.Cutter }, func() bool { return s.Bar }
	d.Length(&s.From, "tip_from_mm").Decimals(5).NullUnless(in)
	d.Length(&s.To, "tip_to_mm").Decimals(5).NullUnless(in)
	d.Length(&s.Tip, "room_at_tip_mm").Decimals(5).NullUnless(in)
	d.Length(&s.Back, "room_behind_bar_mm").Decimals(5).NullUnless(bar)
	d.Worked("in what is left out", &s.Cutter, &s.Bar)
}
