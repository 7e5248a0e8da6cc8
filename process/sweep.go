package process

import (
	"borewright/process/field"
	"borewright/process/qty"
)

// Sweep is one run of a dial round a bore (or a face), spindle turned by hand.
type Sweep struct {
	Station  int
	From     Face // that the dial was swung from, and that depth and clock positions are seen from
	Depth    qty.Length
	Face     bool         // dial on the face, at Diameter
	Diameter qty.Diameter // bore: of the bore where the dial runs; face: circle the dial runs on
	At       []float64    // clock positions, degrees as in Reading
	Dial     []qty.Length // dial readings as they are read
	Further  bool         // larger = further from the axis (bore), further in (face); else nearer: the plunger is pressed in

	Stylus     float64    // lever dial: angle between its travel and the direction measured, degrees
	Droop      qty.Length // how far the dial hangs below the spindle axis
	OutOfRound qty.Length // known form of the bore (radial) or face; 0: what the readings show
}

// Describe says what the keys of a sweep are.
func (s *Sweep) Describe(d *field.Desc) {
	d.LinkName(&s.Station, "station").Need().Example(`"cover pocket"`).Says("the name of its station; it must be one with swept = true")
	field.Word(d, &s.From, "swept_from", NearFace, FarFace).Otherwise("the face of its station").Example(`"far"`).
		Says("the face that it was swept from: its depth and clock positions are those seen from there").
		Weighs(SpoilsSize, "swept from the face")
	d.Length(&s.Depth, "depth").Otherwise("where the station begins, for a face").Span(spanDepths).Example("0.2|5").
		Says("depth at which the dial runs; needed in a bore").
		Weighs(SpoilsSize, "depth")
	d.Flag(&s.Face, "face").Default("false").Example("true").Says("the dial runs on the face around the bore").
		Weighs(SpoilsSize, "runs on").YesNo("face", "bore")
	d.Diameter(&s.Diameter, "diameter").Otherwise("the station's, for a bore").Span(spanDiameters).Example("6.0|150").
		Says("bore: its diameter where the dial runs; face: the circle that the dial runs on, needed there").
		Weighs(SpoilsSize, "diameter it runs on").ZeroIsNone()
	d.Numbers(&s.At, "at", "°", 3, 360).Clock().Need().Span("0..360").Example("[0, 90, 180, 270]").Says("clock positions, " + clocks)
	d.Lengths(&s.Dial, "dial", 3, 360).Need().Span("-0.5..0.5|-12..12").Example("[0, 0.0004, 0.0010, 0.0005]|[0, 0.01, 0.025, 0.012]").
		Says("dial reading at each position, as the dial shows it").
		Weighs(SpoilsSize, "dial").Fine().Clocked(&s.At).Last()
	d.Either(&s.Further, "larger", "nearer", "further").Default("nearer").Example(`"nearer"`).
		Says("where the metal stands when the dial reads larger: nearer (to the axis in a bore, to the spindle on a face), as dials read that count up when their plunger is pressed in, or further").
		Weighs(SpoilsSize, "a larger reading is")
	d.Number(&s.Stylus, "stylus", "°").Default("0").Span("-75..75").Example("15").
		Says("angle between the way a lever dial's stylus travels and the direction measured; 0 for a plunger").
		Weighs(SpoilsSize, "stylus")
	d.Length(&s.Droop, "droop").Default("0").Span("0..0.2|0..5").Example("0.0015|0.04").
		Says("how far the dial hangs below the spindle axis by the weight of bar, arm and dial; taken out of the offset").
		Weighs(SpoilsSize, "droop of the dial").Fine()
	d.Length(&s.OutOfRound, "out_of_round").Default("0").Span("0..0.2|0..5").Example("0.0008|0.02").
		Says("how far the bore is known to be out of round there (radial), or the face out of flat; widens the uncertainty").
		Weighs(SpoilsSize, "known out of round").Fine()
}

// LineUp is what the work is lined up with and how true it was made: what a
// line through dial sweeps rests on. Angles in mrad; every ± covers 95 %.
type LineUp struct {
	Dial     qty.Length // graduation of the dial that sweeps
	Repeats  qty.Length // how well it repeats, ±
	Coaxial  qty.Length // how far one bore may stand from the line of all, ±
	Square   float64    // how far a swept face may lean from square to the bores, ±
	Parallel float64    // how far the line may lean when nothing was swept that shows it, ±
	Table    *Rotary    // nil: not stated
	Packs    *Packs     // nil: not stated
}

// Describe says what the keys of a line-up are.
func (l *LineUp) Describe(d *field.Desc) {
	d.Length(&l.Dial, "dial").Default("0.0001|0.002").Span(">0..0.04|>0..1").Example("0.0001|0.002").Says("graduation of the dial that sweeps").
		Weighs(SpoilsSize, "graduation of the dial").Fine()
	d.Length(&l.Repeats, "repeats").Default("0.0001|0.002").Span("0..0.04|0..1").Example("0.0001|0.002").
		Says("how well that dial repeats, ±, 19 times in 20").
		Weighs(SpoilsSize, "repeatability of the dial").Fine()
	d.Length(&l.Coaxial, "coaxial").Default("0.0005|0.012").Span("0..0.2|0..5").Example("0.0005|0.012").
		Says("how far one bore may stand from the line that all were made on, ±").
		Weighs(SpoilsSize, "one bore off the line, most").Fine()
	d.Number(&l.Square, "square", "mrad").Default("0.05").Span("0..20").Example("0.05").
		Says("how far a swept face may lean from square to the bores, ±; 0.05 is 0.015 mm in 300 mm").
		Weighs(SpoilsSize, "swept face off square, most")
	d.Number(&l.Parallel, "parallel", "mrad").Default("0.1").Span(">0..20").Example("0.1").
		Says("how far the line may lean from the spindle when no sweep shows it and the work is set to a machined face, ±").
		Weighs(SpoilsSize, "line off the machined face, most")
	field.Part(d, &l.Table, func(t *Rotary) {
		d.Length(&t.Centre, "table_centre").Span("-400..400|-10000..10000").Example("9|230").
			Says("depth at which the centre of the rotary table lies, from the face; with table_stop").
			Weighs(SpoilsSize, "centre of the table")
		d.Length(&t.Stop, "table_stop").Span(">0..400|>0..10000").Example("24|600").
			Says("distance from the table's centre to the stop block or dial that its angle is set by").
			Weighs(SpoilsSize, "stop of the table")
	})
	field.Part(d, &l.Packs, func(p *Packs) {
		d.LengthEnds(&p.Near, &p.Far, "packs").Span("-400..400|-10000..10000").Example("[1.5, 15]|[40, 380]").
			Says("depths of the two packings (parallels, jacks) that the work rests on, the nearer to the spindle first; shims go there").
			WeighEnds(SpoilsSize, "near packing", "far packing")
	})
}

// Rotary is the rotary table that the work stands on.
type Rotary struct {
	Centre qty.Length // depth of its centre, from the face
	Stop   qty.Length // from its centre to where its angle is set
}

// Packs are the depths of the two packings that the work rests on.
type Packs struct{ Near, Far qty.Length }
