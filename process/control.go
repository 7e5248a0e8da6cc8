package process

import (
	"fmt"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/storage"
)

// Letter is the letter of an axis or of a word; 0: not said.
type Letter byte

func (l Letter) String() string {
	if l == 0 {
		return ""
	}
	return string(rune(l))
}

// Zeros are the zeros that a program leaves out of its numbers.
type Zeros int

// The zeros; the first is as usual: with decimal points one zero before the point where
// nothing else stands there, and all behind it.
const (
	UsualZeros Zeros = iota
	LeadingZeros
	TrailingZeros
	KeptZeros // none is left out: every place is written
)

func (z Zeros) String() string { return [...]string{"", "leading", "trailing", "none"}[z] }

// UnitsWords are the words for inch and mm.
type UnitsWords int

// The words.
const (
	G20G21 UnitsWords = iota
	G70G71
)

func (w UnitsWords) String() string { return [...]string{"G20/G21", "G70/G71"}[w] }

// DwellIn is what a dwell is counted in.
type DwellIn int

// What a dwell is counted in.
const (
	DwellSeconds DwellIn = iota
	DwellMilliseconds
	DwellRevolutions
)

func (d DwellIn) String() string { return [...]string{"seconds", "milliseconds", "revolutions"}[d] }

// TipSide is where the tip points after an oriented stop, seen from the spindle.
type TipSide int

// The sides; the first is not said.
const (
	TipUnknown TipSide = iota
	TipPlusX
	TipMinusX
	TipPlusY
	TipMinusY
)

func (s TipSide) String() string { return [...]string{"", "+X", "-X", "+Y", "-Y"}[s] }

// Clock is the clock position there, degrees.
func (s TipSide) Clock() float64 { return [...]float64{0, 90, 270, 0, 180}[s] }

// WorkOffset is the G word of a work offset, 54 to 59; 0: none is called.
type WorkOffset int

func (w WorkOffset) String() string {
	if w == 0 {
		return "none"
	}
	return fmt.Sprintf("G%d", int(w))
}

// Coolant is the M word that turns the coolant on, 7 or 8; 0: none.
type Coolant int

func (c Coolant) String() string {
	if c == 0 {
		return "none"
	}
	return fmt.Sprintf("M%d", int(c))
}

// HomeWord is the G word by which slides go home, 28 or 53; 0: they do not.
type HomeWord int

func (w HomeWord) String() string {
	if w == 0 {
		return "none"
	}
	return fmt.Sprintf("G%d", int(w))
}

// HomeAxis is a slide that goes home.
type HomeAxis int

// The slides; the first is the one that feeds along the bore in the job.
const (
	HomeFeed HomeAxis = iota
	HomeX
	HomeY
)

func (a HomeAxis) String() string { return [...]string{"feed", "X", "Y"}[a] }

// GearWord is the M word of a range of the spindle.
type GearWord int

func (w GearWord) String() string { return fmt.Sprintf("M%d", int(w)) }

// GearRange is a range of spindle speeds that a word calls.
type GearRange struct {
	Word        GearWord
	Least, Most float64 // rev/min
}

// Describe says what the keys of a range are. M40 to M45 are common practice, no source.
func (g *GearRange) Describe(d *field.Desc) {
	field.Word(d, &g.Word, "word", 40, 41, 42, 43, 44, 45).Need().Example(`"M41"`).Says("its word")
	d.NumberEnds(&g.Least, &g.Most, "speeds", "rev/min").Need().Span("0..20000").Rising().Example("[8, 90]").Says("least and most speed in it")
	d.Verbatim(SpoilsSetting, "spindle range, ")
}

// Control says what a control takes, by property.
type Control struct {
	DecimalPoint  bool     // false: fixed format of Whole.Part places
	WholePlaces   int      // digits before the (implied) point, at most
	PartPlaces    int      // digits after the (implied) point that the control takes
	DropZeros     Zeros    // that are left out
	Units         qty.Unit // of the program
	AsJob         bool     // the file left them open: they are the job's
	UnitsWord     UnitsWords
	BlockNumbers  bool
	BlockStep     int
	RestartStep   int  // N word of the stop before a pass: this times the pass; 0: as it comes
	FeedPerRev    bool // G95; else G94 with feed per minute
	Cycles        bool // G85, G86, G89; else the moves are written out
	ReturnWords   bool // G98/G99 taken
	Dwell         DwellIn
	DwellWord     Letter       // P, X or F
	OrientedStop  bool         // M19
	TipAtStop     TipSide      // where the tip points after M19, seen from the spindle
	Comments      bool         // parentheses taken
	Percent       bool         // % before and after
	ProgramNumber int          // O word; 0: none
	FeedAxis      Letter       // Z or W, of the slide that feeds along the bore, table feed
	QuillAxis     Letter       // the same for quill feed
	LineMost      int          // longest block, characters
	WorkOffset    WorkOffset   // 0: none
	Tool          int          // T word of the bar; 0: it is not called
	LengthOffset  int          // H word of its length; 0: none
	GaugeLine     qty.Length   // from which lengths are measured, behind the face of the boring spindle
	HomeWord      HomeWord     // by which the slides go home at the start and at the end
	HomeAxes      []HomeAxis   // which, in order
	HomeAt        []qty.Length // G53: the machine position of each
	Coolant       Coolant      // 0: no words for it
	Gears         []GearRange  // ranges of the spindle; none: no words for them
	SpaceWords    bool         // a space between words
	LowerCase     bool         // small letters are read in words
	PlainText     bool         // comments in capitals, digits, spaces and + - . , / alone

	Stopping
	Placing
	storage.Storage

	UsualPlaces bool // PartPlaces was left open: 3 in mm, 4 in inches
}

// Describe says what the keys of a control are.
func (c *Control) Describe(d *field.Desc) {
	d.Units(&c.Units, "units").Otherwise("as the job").Example(`"in"|"mm"`).Says("units of the program")
	field.Word(d, &c.UnitsWord, "units_word", G20G21, G70G71).Default("G20/G21").Example(`"G20/G21"`).Says("words for inch and mm")
	d.Flag(&c.DecimalPoint, "decimal_point").Default("true").Example("true").Says("numbers carry a decimal point; true: Z-14.375; false: fixed format, digits alone")
	d.Count(&c.WholePlaces, "whole_places").Default("4").Span("1..6").Example("4").Says("digits before the point, at most; in fixed format the point is implied")
	d.Count(&c.PartPlaces, "part_places").Otherwise("4 in inch, 3 in mm").Span("1..6").Example("4|3").Says("digits after the point; in fixed format the point is implied")
	field.Word(d, &c.DropZeros, "drop_zeros", LeadingZeros, TrailingZeros, KeptZeros).Otherwise("leading, in fixed format").Example(`"leading"`).
		Says("the zeros that are left out of numbers; none: every place is written, X000.5000. In fixed format the place of the point hangs on it. With decimal points, where the key is left out, one zero stands before the point and all behind it")
	d.Flag(&c.BlockNumbers, "block_numbers").Default("true").Example("true").Says("blocks carry N words")
	d.Count(&c.BlockStep, "block_step").Default("10").Span("1..100").Example("10").Says("step between N words")
	d.Count(&c.RestartStep, "restart_step").Default("0").Span("0..10000").Example("1000").
		Says("N word of the stop before each pass: this times the number of the pass, N1000, N2000, so that a pass can be restarted by its number; with block_numbers = false these N words stand alone. 0: no marks").ZeroIsNone()
	d.Flag(&c.FeedPerRev, "feed_per_rev").Default("false").Example("true").Says("G95 is taken; else G94, feed a minute: feed times speed")
	d.Flag(&c.Cycles, "cycles").Default("false").Example("false").
		Says("G85, G86 and G89 are taken; else the moves are written out. G85 comes out at feed, G89 after a dwell; G86 is read, but never written: it leaves at rapid in contact with the wall")
	d.Flag(&c.ReturnWords, "return_words").Default("false").Example("false").Says("G98 and G99 are taken; G98 then stands in the start block")
	field.Word(d, &c.Dwell, "dwell", DwellSeconds, DwellMilliseconds, DwellRevolutions).Default("seconds").Example(`"seconds"`).Says("what a dwell is counted in")
	field.Word(d, &c.DwellWord, "dwell_word", 'P', 'X', 'F').Default("P").Example(`"P"`).Says("the letter of the dwell")
	d.Flag(&c.OrientedStop, "oriented_stop").Default("false").Example("true").Says("M19 stops the spindle in one place: cutters are shifted off the wall, and a bar that does not pass on its axis has a way in off the axis; false: the cutter feeds out, and such a bar is refused")
	field.Word(d, &c.TipAtStop, "tip_at_stop", TipPlusX, TipMinusX, TipPlusY, TipMinusY).Example(`"+X"`).Says("where the tip points after M19, seen from the spindle; needed with oriented_stop")
	d.Flag(&c.Comments, "comments").Default("true").Example("true").Says("remarks in parentheses are taken; they are written in capitals of ASCII")
	d.Flag(&c.Percent, "percent").Default("true").Example("true").Says("% on the first line of the program and on the last")
	d.Count(&c.ProgramNumber, "program_number").Default("0").Span("0..9999").Example("1204").
		Says("O word of the first visit's program; 0: none. The other visits count up, and each measurement moves the numbers on by two for each bore of the job")
	field.Word(d, &c.FeedAxis, "feed_axis", 'Z', 'W').Default("Z").Example(`"W"`).
		Says("the letter of the slide that feeds along the bore when the table feeds; where table and quill both feed, it is not that of quill_axis, so one of the two is stated")
	field.Word(d, &c.QuillAxis, "quill_axis", 'Z', 'W').Default("Z").Example(`"Z"`).Says("the letter of the quill, when the quill feeds")
	d.Count(&c.LineMost, "line_most").Default("72").Span("40..250").Example("72").Says("longest block, in characters; longer cycles are written out as moves")
	field.Word(d, &c.WorkOffset, "work_offset", 0, 54, 55, 56, 57, 58, 59).Default("G54").Example(`"G54"`).Says("work offset that is called")
	d.Count(&c.Tool, "tool").Default("0").Span("0..9999").Example("12").
		Says("the number that the bar has among the tools: it is called once (T12 M6), before the first stop, with the slides at home where there is a home_word. A bar that runs in an outboard support is put in by hand. 0: no tool is called").ZeroIsNone()
	d.Count(&c.LengthOffset, "length_offset").Default("0").Span("0..999").Example("12").
		Says("the number that the bar's length has among the offsets: G43 H12 holds in every pass, G49 ends it. Positions are of the tip all the same; it is the work offset that is then set by the gauge line. G43 acts on Z: where W feeds it is not called. 0: no length offset").ZeroIsNone()
	d.Length(&c.GaugeLine, "gauge_line").Default("0").Span("-20..20|-500..500").Example("0.5|12").
		Says("with length_offset: how far the line that tool lengths are measured from lies behind the face of the boring spindle. The length that the sheet gives for the offset counts from it")
	field.Word(d, &c.HomeWord, "home_word", 0, 28, 53).Default("none").Example(`"G28"`).
		Says("the word by which slides go home before the first stop and after the last pass: G28, to the reference position, or G53, to machine positions. A bar that runs in an outboard support stays where it is. none: the program ends at the clear plane")
	field.Words(d, &c.HomeAxes, "home_axes", 1, 3, HomeFeed, HomeX, HomeY).Otherwise("feed, with home_word").Example(`["feed", "X"]`).
		Says("the slides that go home, one after the other: first feed, the one that feeds along the bore, so that the bar comes out of the work before anything moves across").Joined()
	d.Lengths(&c.HomeAt, "home_at", 1, 3).Otherwise("0 each, with G53").Span("-400..400|-10000..10000").Example("[0, 24]|[0, 600]").
		Says("with G53: the machine position of each of home_axes")
	field.Word(d, &c.Coolant, "coolant", 0, 7, 8).Default("none").Example(`"M8"`).
		Says("the word that turns the coolant on. It is on while a pass cuts, and off (M9) before each stop; a metal that this cutter cuts dry (speed.hss.dry of the material) is cut without it. none: the program leaves the coolant alone")
	field.List(d, &c.Gears, "gear", 1, 6).Example(`[ { word = "M41", speeds = [8, 300] }, { word = "M42", speeds = [200, 2500] } ]`).
		Says("ranges of the spindle and the words that call them, written before each start of the spindle. A speed is taken in the first range that holds it, so the range of more torque stands first; leave it out where S alone finds the gear").
		Weighs(SpoilsSetting, "control, spindle ranges").NoComma()
	d.Either(&c.PlainText, "characters", "ascii", "plain").Default("ascii").Example(`"ascii"`).
		Says("what comments may hold: printing ASCII, or capitals, digits, spaces and + - . , / alone, as tape readers take").
		Weighs(SpoilsSetting, "control, plain text")
	d.Flag(&c.LowerCase, "lower_case").Default("false").Example("false").Says("small letters are taken in words; programs are written in capitals all the same")
	d.Flag(&c.SpaceWords, "space_words").Default("true").Example("true").Says("a space between words")
	d.Also(&c.Stopping)
	d.Also(&c.Placing)
	d.Also(&c.Storage)
	d.Verbatim(SpoilsSetting, "control, ")
	d.Worked("units and part_places were left out", &c.AsJob, &c.UsualPlaces)
}
