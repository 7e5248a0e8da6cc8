package process

import (
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// Machine is a horizontal boring mill: what its spindle can do and what its
// control takes. Axis letters are ISO 841.
type Machine struct {
	ID, Name    string
	Nose        qty.Diameter // spindle nose (fixed sleeve that the quill slides in)
	Quill       qty.Diameter // boring spindle
	QuillTravel qty.Length
	FeedBy      []FeedBy   // what can feed along Z
	Speeds      Range      // rev/min
	Feeds       Range      // mm per revolution
	Power       qty.Power  // at the spindle, W
	Torque      qty.Torque // most at the spindle, N·m
	Travels     []Travel
	Radial      float64    // radial stiffness at the nose, N/µm
	Tilt        float64    // rotational stiffness at the nose, MN·m/rad
	ForceFactor float64    // on the cutting forces, as the shop's own cuts show it; 0 is 1
	Damping     [2]float64 // damping ratio of a bar in this spindle as measured, whatever bar; 0: not measured
	Joint       [2]float64 // damping ratio of the spindle itself, least and most, where Damping is 0
	IndexPlace  qty.Length // how well half a turn of the rotary table brings the axis back across, ±
	IndexAngle  float64    // how truly it comes half round, mrad, ±
	Runout      qty.Length // what spindle and bearings alone leave a bore out of round, radial peak to valley
	Dial        qty.Length // graduation of the axis dials
	SetDial     qty.Length // graduation that a cutter is set by, on diameter
	DialTurn    qty.Length // one turn of that dial, on diameter; 0: not stated
	Control     *Control   // nil: none, a manual mill
	Source      string
}

// Describe says what the keys of a machine file are.
func (m *Machine) Describe(d *field.Desc) {
	d.Units(nil, "units").Need().Example(`"in"|"mm"`).Says("what bare lengths, powers and torques in this file are in")
	d.Text(&m.Name, "name").Need().Example(`"Boring mill, 5 in spindle"`).Says("what it is called")
	d.Diameter(&m.Nose, "nose").Need().Span(">0..60|>0..1500").Example("9.25|230").Says("diameter of the spindle nose, in which the quill slides").
		Weighs(SpoilsReach, "nose")
	d.Diameter(&m.Quill, "quill").Need().Span(">0..40|>0..1000").Example("5|110").Says("diameter of the quill (boring spindle)").
		Weighs(SpoilsReach, "quill")
	d.Length(&m.QuillTravel, "quill_travel").Default("0").Span("0..200|0..5000").Example("36|550").Says("how far the quill comes out; 0: it does not").
		Weighs(SpoilsReach, "quill travel")
	field.Words(d, &m.FeedBy, "feed_by", 1, 2, TableFeed, QuillFeed).Need().Example(`["table", "quill"]`).Says("what can feed along the bore").
		Weighs(SpoilsReach, "feeds by").Joined()
	d.Numbers(&m.Speeds.Steps, "speeds", "rev/min", 1, 100).Span(">0..20000").Example("[6, 7.5, 9, 11, 14]").Says("the ladder of spindle speeds, rising; or speed_range")
	d.NumberEnds(&m.Speeds.Least, &m.Speeds.Most, "speed_range", "rev/min").Span(">0..20000").Example("[8, 2500]").Rising().Says("least and most spindle speed, where any between can be had")
	d.LengthsMM(&m.Feeds.Steps, "feeds", 1, 100).Span(">0..1|>0..25").Example("[0.0015, 0.002, 0.0025]|[0.04, 0.05, 0.063]").Per("rev").
		Says("the ladder of feeds a revolution, rising; or feed_range")
	d.LengthEndsMM(&m.Feeds.Least, &m.Feeds.Most, "feed_range").Span(">0..1|>0..25").Example("[0.0004, 0.2]|[0.01, 5]").Rising().Per("rev").
		Says("least and most feed a revolution, where any between can be had")
	d.Power(&m.Power, "power").Need().Span(">0..500|>0..400").Example(`"15 hp"|"22 kW"`).Says("power at the spindle").
		Weighs(SpoilsFeed, "power")
	d.Torque(&m.Torque, "torque").Need().Span(">0..100000|>0..150000").Example(`"2900 ft·lb"|"1500 N·m"`).Says("most torque at the spindle").
		Weighs(SpoilsFeed, "torque")
	field.List(d, &m.Travels, "travel", 1, 12).Need().Example(`[ { axis = "X", travel = 72, what = "table, across" } ]`).Says("the axes").
		Weighs(SpoilsReach, "axis").NoComma()
	d.Number(&m.Radial, "radial", "N/µm").Need().Span(">0..10000").Example("300").Says("radial stiffness at the nose").
		Weighs(SpoilsSetting, "stiffness at the nose")
	d.Number(&m.Tilt, "tilt", "MN·m/rad").Need().Span(">0..1000").Example("4").Says("stiffness against tilting at the nose").
		Weighs(SpoilsSetting, "stiffness in tilt")
	d.Number(&m.ForceFactor, "force_factor", "").Default("1").Span("0.3..3").Example("1.1").Says("factor on the cutting forces, as this shop's own cuts show it").
		Weighs(SpoilsSetting, "factor on cutting force")
	d.NumberPair(&m.Joint, "joint_damping", "").Span(">0..0.5").Rising().Example("[0.03, 0.1]").
		Says("damping ratio of the spindle with its bearings and its taper, and of an outboard bearing, least and most; a bar has the more of it the more of its give is the spindle's").
		WeighEnds(SpoilsFeed, "damping of the spindle, least", "damping of the spindle, most").ZeroIsNone()
	d.NumberPair(&m.Damping, "damping", "").Span(">0..0.5").Rising().Example("[0.02, 0.05]").
		Says("damping ratio of a bar in this spindle, least and most, where it was measured: used as it is for any bar; or joint_damping").
		WeighEnds(SpoilsFeed, "damping, least", "damping, most").ZeroIsNone()
	// A boring spindle in good order turns to 2 to 5 µm, by rolling or plain bearings alike;
	// acceptance sheets of mills promise a bore round to 5 to 10 µm (from memory). What a taper stands
	// off the axis is not in it: that only makes the tip's circle larger.
	d.Length(&m.Runout, "runout_error").Default("0.00012|0.003").Span(">0..0.004|>0..0.1").Example("0.00015|0.004").
		Says("how far out of round spindle and bearings alone leave a bore, peak to valley on the radius: no spindle turns truly. Measure it on a bore that a short bar has cut; the default is from memory").
		Weighs(SpoilsSize, "spindle and bearing error").Fine()
	d.Length(&m.IndexPlace, "index_place").Default("0.0006|0.015").Span(">0..0.2|>0..5").Example("0.0004|0.01").
		Says("how well half a turn of the rotary table brings an axis back to its mirrored place across, ±: by the centre of the table as it is known, and the turn. Sweep one bore from both faces; the default is from memory").
		Weighs(SpoilsSize, "half turn of the table, across").Fine()
	d.Number(&m.IndexAngle, "index_angle", "mrad").Default("0.04").Span(">0..5").Example("0.02").
		Says("how truly half a turn of the rotary table comes out, ±; 0.04 is 0.012 mm in 300 mm. Default from memory").
		Weighs(SpoilsSize, "half turn of the table, angle")
	d.Length(&m.Dial, "dial").Need().Span(">0..0.04|>0..1").Example("0.001|0.01").Says("graduation of the axis dials or scales").
		Weighs(SpoilsSetting, "axis dial")
	d.Length(&m.SetDial, "set_dial").Need().Span(">0..0.04|>0..1").Example("0.001|0.02").Says("graduation that a cutter is set by, on diameter").
		Weighs(SpoilsSetting, "cutter dial")
	d.Length(&m.DialTurn, "dial_turn").Default("0").Span("0..1|0..25").Example("0.05|1").
		Says("one turn of the dial that a cutter is set by, on diameter: a whole number of its graduations; 0: not stated, and moves are counted in graduations alone").
		Weighs(SpoilsSetting, "turn of the cutter dial").ZeroIsNone()
	d.Remarks(&m.Source, "source").Example(`{ all = "name plate and acceptance sheet", tilt = "measured" }`).
		Says("where the figures come from: all, or by key")
	field.Maybe(d, &m.Control, "control").Example("{ decimal_point = true }").
		Says("what the control takes; leave it out for a manual mill. A property that is left out is the plainest: decimal points, moves written out, feed a minute").
		Weighs(SpoilsSetting, "control").YesNo("has one", "none: worked by hand")
	d.Worked("name of the file", &m.ID)
}

// CanFeed reports whether f is among what the machine feeds by.
func (m *Machine) CanFeed(f FeedBy) bool {
	for _, g := range m.FeedBy {
		if g == f {
			return true
		}
	}
	return false
}

// Range is a ladder of gears or, where Steps is empty, anything from Least to
// Most.
type Range struct {
	Steps       []float64 // rising
	Least, Most float64
}

// What a Range is, in a comparison.
const (
	AnyOf fact.Kind = "range.any"   // least, most
	Gears fact.Kind = "range.gears" // each a Gear
	Gear  fact.Kind = "range.gear"
)

// Compared is the range, its numbers as figures of a kind.
func (r Range) Compared(k qty.Kind) field.Value {
	if len(r.Steps) == 0 {
		return field.FactOf(fact.New(AnyOf, fact.Figure(k.Of(r.Least)), fact.Figure(k.Of(r.Most))), false)
	}
	var gears []fact.Fact
	for _, x := range r.Steps {
		gears = append(gears, fact.New(Gear, fact.Figure(k.Of(x))))
	}
	return field.FactOf(fact.New(Gears, fact.List(gears...)), false)
}

// Travel is one axis of the machine.
type Travel struct {
	Axis   Letter     // X, Y, Z, W, U, V; B
	Travel qty.Length // 0 for a rotary axis
	What   string     // "table, across", in words
}

// Describe says what the keys of an axis are.
func (t *Travel) Describe(d *field.Desc) {
	field.Word(d, &t.Axis, "axis", 'X', 'Y', 'Z', 'W', 'U', 'V', 'B').Need().Example(`"X"`).Says("its letter (ISO 841)").
		Weighs(SpoilsReach, field.Itself).ZeroIsNone()
	d.Length(&t.Travel, "travel").Default("0").Span("0..2000|0..50000").Example("72|1600").Says("how far it goes; 0 for a rotary axis").
		Weighs(SpoilsReach, "travel").ZeroIsNone()
	d.Name(&t.What, "what").Need().Example(`"table, across"`).Says("what moves, in words").
		Weighs(SpoilsWords, "moves").ZeroIsNone()
}
