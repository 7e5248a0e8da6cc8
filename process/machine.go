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
	Damping     [2]float64 // damping ratio of the bar in this spindle, least and most
	Dial        qty.Length // graduation of the axis dials
	SetDial     qty.Length // graduation that a cutter is set by, on diameter
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
	d.NumberEnds(&m.Speeds.Least, &m.Speeds.Most, "speed_range", "rev/min").Span(">0..20000").Example("[8, 2500]").Says("least and most spindle speed, where any between can be had")
	d.LengthsMM(&m.Feeds.Steps, "feeds", 1, 100).Span(">0..1|>0..25").Example("[0.0015, 0.002, 0.0025]|[0.04, 0.05, 0.063]").
		Says("the ladder of feeds a revolution, rising; or feed_range")
	d.LengthEndsMM(&m.Feeds.Least, &m.Feeds.Most, "feed_range").Span(">0..1|>0..25").Example("[0.0004, 0.2]|[0.01, 5]").
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
	d.NumberPair(&m.Damping, "damping", "").Need().Span(">0..0.5").Example("[0.02, 0.05]").Says("damping ratio of a bar in this spindle, least and most").
		WeighEnds(SpoilsFeed, "damping, least", "damping, most")
	d.Length(&m.Dial, "dial").Need().Span(">0..0.04|>0..1").Example("0.001|0.01").Says("graduation of the axis dials or scales").
		Weighs(SpoilsSetting, "axis dial")
	d.Length(&m.SetDial, "set_dial").Need().Span(">0..0.04|>0..1").Example("0.001|0.02").Says("graduation that a cutter is set by, on diameter").
		Weighs(SpoilsSetting, "cutter dial")
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
	Axis   string     // "X", "Y", "Z", "W", "B"
	Travel qty.Length // 0 for a rotary axis
	What   string     // "table, across", in words
}

// Describe says what the keys of an axis are.
func (t *Travel) Describe(d *field.Desc) {
	d.Choice(&t.Axis, "axis", "X", "Y", "Z", "W", "U", "V", "B").Need().Example(`"X"`).Says("its letter (ISO 841)").
		Weighs(SpoilsReach, field.Itself).ZeroIsNone()
	d.Length(&t.Travel, "travel").Default("0").Span("0..2000|0..50000").Example("72|1600").Says("how far it goes; 0 for a rotary axis").
		Weighs(SpoilsReach, "travel").ZeroIsNone()
	d.Name(&t.What, "what").Need().Example(`"table, across"`).Says("what moves, in words").
		Weighs(SpoilsWords, "moves").ZeroIsNone()
}

// Control says what a control takes, by property.
type Control struct {
	DecimalPoint  bool     // false: fixed format of Whole.Part places
	WholePlaces   int      // fixed format: digits before the implied point
	PartPlaces    int      // digits after the (implied) point that the control takes
	DropZeros     string   // fixed format: "leading" or "trailing" zeros are left out
	Units         qty.Unit // of the program
	AsJob         bool     // the file left them open: they are the job\'s
	UnitsWord     string   // "G20/G21" or "G70/G71"
	BlockNumbers  bool
	BlockStep     int
	FeedPerRev    bool   // G95; else G94 with feed per minute
	Cycles        bool   // G85, G86, G89; else the moves are written out
	ReturnWords   bool   // G98/G99 taken
	Dwell         string // "seconds", "milliseconds" or "revolutions"
	DwellWord     string // "P" or "X" or "F"
	OrientedStop  bool   // M19
	TipAtStop     string // where the tip points after M19, seen from the spindle: "+X", "-X", "+Y", "-Y"
	Comments      bool   // parentheses taken
	Percent       bool   // % before and after
	ProgramNumber int    // O word; 0: none
	FeedAxis      string // "Z" or "W" for the slide that feeds along the bore, table feed
	QuillAxis     string // the same for quill feed
	LineMost      int    // longest block, characters
	WorkOffset    string // "G54"; "": none
	SpaceWords    bool   // a space between words
	PlainText     bool   // comments in capitals, digits, spaces and + - . , / alone

	UsualPlaces bool // PartPlaces was left open: 3 in mm, 4 in inches
}

// Describe says what the keys of a control are.
func (c *Control) Describe(d *field.Desc) {
	d.Units(&c.Units, "units").Otherwise("as the job").Example(`"in"|"mm"`).Says("units of the program")
	d.Choice(&c.UnitsWord, "units_word", "G20/G21", "G70/G71").Default("G20/G21").Example(`"G20/G21"`).Says("words for inch and mm")
	d.Flag(&c.DecimalPoint, "decimal_point").Default("true").Example("true").Says("numbers carry a decimal point; true: Z-14.375; false: fixed format, digits alone")
	d.Count(&c.WholePlaces, "whole_places").Default("4").Span("1..6").Example("4").Says("digits before the point; in fixed format the point is implied")
	d.Count(&c.PartPlaces, "part_places").Otherwise("4 in inch, 3 in mm").Span("1..6").Example("4|3").Says("digits after the point; in fixed format the point is implied")
	d.Choice(&c.DropZeros, "drop_zeros", "leading", "trailing").Otherwise("leading, in fixed format").Example(`"leading"`).Says("fixed format: the zeros that are left out")
	d.Flag(&c.BlockNumbers, "block_numbers").Default("true").Example("true").Says("blocks carry N words")
	d.Count(&c.BlockStep, "block_step").Default("10").Span("1..100").Example("10").Says("step between N words")
	d.Flag(&c.FeedPerRev, "feed_per_rev").Default("false").Example("true").Says("G95 is taken; else G94, feed a minute: feed times speed")
	d.Flag(&c.Cycles, "cycles").Default("false").Example("false").
		Says("G85, G86 and G89 are taken; else the moves are written out. G85 comes out at feed, G89 after a dwell; G86 is read, but never written: it leaves at rapid in contact with the wall")
	d.Flag(&c.ReturnWords, "return_words").Default("false").Example("false").Says("G98 and G99 are taken; G98 then stands in the start block")
	d.Choice(&c.Dwell, "dwell", "seconds", "milliseconds", "revolutions").Default("seconds").Example(`"seconds"`).Says("what a dwell is counted in")
	d.Choice(&c.DwellWord, "dwell_word", "P", "X", "F").Default("P").Example(`"P"`).Says("the letter of the dwell")
	d.Flag(&c.OrientedStop, "oriented_stop").Default("false").Example("true").Says("M19 stops the spindle in one place; false: the cutter feeds out")
	d.Choice(&c.TipAtStop, "tip_at_stop", "+X", "-X", "+Y", "-Y").Example(`"+X"`).Says("where the tip points after M19, seen from the spindle; needed with oriented_stop")
	d.Flag(&c.Comments, "comments").Default("true").Example("true").Says("remarks in parentheses are taken; they are written in capitals of ASCII")
	d.Flag(&c.Percent, "percent").Default("true").Example("true").Says("% on the first line of the program and on the last")
	d.Count(&c.ProgramNumber, "program_number").Default("0").Span("0..9999").Example("1204").
		Says("O word of the first visit's program; 0: none. The other visits count up, and each measurement moves the numbers on by two for each bore of the job")
	d.Choice(&c.FeedAxis, "feed_axis", "Z", "W").Default("Z").Example(`"W"`).
		Says("the letter of the slide that feeds along the bore when the table feeds; where table and quill both feed, it is not that of quill_axis, so one of the two is stated")
	d.Choice(&c.QuillAxis, "quill_axis", "Z", "W").Default("Z").Example(`"Z"`).Says("the letter of the quill, when the quill feeds")
	d.Count(&c.LineMost, "line_most").Default("72").Span("40..250").Example("72").Says("longest block, in characters; longer cycles are written out as moves")
	d.Choice(&c.WorkOffset, "work_offset", "none", "G54", "G55", "G56", "G57", "G58", "G59").Default("G54").Example(`"G54"`).Says("work offset that is called")
	d.Either(&c.PlainText, "characters", "ascii", "plain").Default("ascii").Example(`"ascii"`).
		Says("what comments may hold: printing ASCII, or capitals, digits, spaces and + - . , / alone, as tape readers take").
		Weighs(SpoilsSetting, "control, plain text")
	d.Flag(&c.SpaceWords, "space_words").Default("true").Example("true").Says("a space between words")
	d.Verbatim(SpoilsSetting, "control, ")
	d.Worked("units and part_places were left out", &c.AsJob, &c.UsualPlaces)
}
