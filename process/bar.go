package process

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/field"
	"borewright/process/qty"
)

// FeedBy says what moves along the bore.
type FeedBy int

// What can feed.
const (
	TableFeed FeedBy = iota // the table or column: stickout stays
	QuillFeed               // the quill: stickout grows as it feeds
)

func (f FeedBy) String() string {
	if f == QuillFeed {
		return "quill"
	}
	return "table"
}

// Bar is what stands out of the spindle nose.
type Bar struct {
	Name     string      // from the built-in or the shop's list, or ""
	Steps    []Step      // from the spindle nose outward, adapter and extended quill included
	Material BarMaterial // of the steps that do not name their own
	FeedBy   FeedBy
	CutterAt qty.Length // from the nose to the cutter's tip, along the bar, before the quill feeds
	Standoff qty.Length // quill feed: spindle nose to the face, which does not change as it feeds
	Outboard *Support   // nil: the bar ends in the air
	Inboard  *Inboard   // of a line bar, which the spindle only turns; nil: the bar stands in the nose

	Stands   [2]qty.Length // from the nose to its free end, where it is clamped at any length between; zero: as Steps say
	QuillOut qty.Length    // how far the quill may be drawn out and clamped; 0: it stays home
	Drawn    qty.Length    // how far it is drawn out: the first of the steps
	Stated   bool          // the job states where a bar that could be clamped anywhere is clamped
	Listed   *Bar          // as it was before its stickout was chosen; nil: none was
}

// Describe says what the keys of a bar are.
func (b *Bar) Describe(d *field.Desc) {
	d.Name(&b.Name, "name").Example(`"no. 4 bar"`).Says("what the shop calls it; where bars are listed and steps is left out: that bar of the list").
		Weighs(SpoilsReach, "name").ZeroIsNone()
	field.List(d, &b.Steps, "steps", 1, 20).Need().Unless("bars").Example(`[ { diameter = 5.0, length = 2.5 }, { diameter = 2.25, length = 17.5 } ]|[ { diameter = 110, length = 60 }, { diameter = 57, length = 445 } ]`).
		Says("its cylinders from the nose outward, extended quill and adapter included").
		Weighs(SpoilsReach, "step").NoComma().Last()
	d.Link(&b.Material, "material").Default("steel").Example(`"steel"`).
		Says("what the bar is made of: built in, or a path ending in .toml; its keys are bar.material.…")
	field.Word(d, &b.FeedBy, "feed_by", TableFeed, QuillFeed).Default("table").Example(`"table"`).
		Says("what moves along the bore: the table (or column), or the quill, whose stickout grows as it feeds").
		Weighs(SpoilsReach, "fed by")
	d.Length(&b.CutterAt, "cutter_at").Otherwise("at the free end of the bar").Span(">0..400|>0..10000").Example("19.5|495").
		Says("from the spindle nose to the tip of the cutter, along the bar, before the quill feeds").
		Weighs(SpoilsReach, "cutter from the nose")
	d.Length(&b.Standoff, "standoff").Otherwise("so that the quill is flush with the nose when the tip stands clear of the first bore, or with a control 2 in (50 mm) in front of the face; at least 1 in (25 mm)").Span("0..400|0..10000").Example("2.5|60").
		Says("quill feed: from the spindle nose to the face; it does not change in the cut").
		Weighs(SpoilsReach, "nose to face").ZeroIsNone()
	d.LengthPair(&b.Stands, "stickout").Span(">0..400|>0..10000").Rising().Example("[10, 22]|[250, 560]").
		Says("least and most that it can stand out, from the spindle nose to its free end, where a straight shank is clamped at any length: the shortest that reaches all bores it cuts is chosen, and its slender step is so much shorter or longer than steps has it. Left out: it stands as steps has it, held by its taper. bar.cutter_at of a job sets a bar of the list to that").
		Weighs(SpoilsReach, "stickout it can be clamped at").ZeroIsNone()
	d.Length(&b.QuillOut, "quill_out").Default("0").Span("0..200|0..5000").Example("6|150").
		Says("table feed: how far the quill may be drawn out and clamped, where that gives less at the cutter than a bar that stands out further. 0: it stays home").
		Weighs(SpoilsReach, "quill may be drawn out").ZeroIsNone()
	field.Maybe(d, &b.Outboard, "outboard").Example(`{ at = 34, clearance = 0.0015 }|{ at = 860, clearance = 0.04 }`).
		Says("outboard bearing or bush that the bar runs in").
		Weighs(SpoilsReach, "outboard support").YesNo("fitted", "none").Last()
	field.Maybe(d, &b.Inboard, "inboard").Example(`{ at = 8, clearance = 0.001 }|{ at = 200, clearance = 0.025 }`).
		Says("the bearing in front of the spindle that a line bar runs in; with the outboard one it carries the bar, and the spindle only turns it, through a driver that floats").
		Weighs(SpoilsReach, "inboard bearing").YesNo("fitted", "none").Last()
	d.Worked("how far the quill is drawn out, a step of the bar; whether the job states how the bar is clamped; the bar before its stickout was chosen", &b.Drawn, &b.Stated, &b.Listed)
}

// Stickout is the length of the bar from the nose to its free end.
func (b Bar) Stickout() qty.Length {
	var l qty.Length
	for _, s := range b.Steps {
		l += s.Length
	}
	return l
}

// Adjustable is whether its stickout is to be chosen.
func (b Bar) Adjustable() bool {
	return b.Outboard == nil && !b.Stated && (b.Stands[1] > 0 || b.QuillOut > 0 && b.FeedBy == TableFeed)
}

// LeastLeft is what stands out of its slender step where the bar is clamped as far in as it can be.
func (b Bar) LeastLeft() qty.Length {
	return b.Steps[b.Slender()].Length + b.Stands[0] - (b.Stickout() - b.Drawn)
}

// Slender is the step that is longest for its diameter.
func (b Bar) Slender() int {
	best := 0
	for i, s := range b.Steps {
		if s.Length.MM()/s.Diameter.MM() > b.Steps[best].Length.MM()/b.Steps[best].Diameter.MM() {
			best = i
		}
	}
	return best
}

// ClampedAt is the bar as it stands out so far, from the nose to its free end.
func (b Bar) ClampedAt(out qty.Length) Bar {
	more := out - b.Stickout()
	b.Steps = slices.Clone(b.Steps)
	b.Steps[b.Slender()].Length += more
	b.CutterAt += more
	return b
}

// UsualSizes are the smallest and largest that a cutter is usually set to in this bar; 0 where it
// has no step at the cutter. Common practice, no source.
func (b Bar) UsualSizes() (least, most qty.Diameter) {
	at := b.StepAt(b.CutterAt)
	if at < 0 {
		return 0, 0
	}
	d := float64(b.Steps[at].Diameter)
	return qty.Diameter(math.Round(d * 1.06)), qty.Diameter(math.Round(d * 1.6))
}

// StepAt is the step that a place along the bar lies in, -1 beyond its ends.
func (b Bar) StepAt(l qty.Length) int {
	var end qty.Length
	for i, s := range b.Steps {
		if end += s.Length; l > 0 && l <= end {
			return i
		}
	}
	return -1
}

// Called is the bar by its name, "the bar" where it has none.
func (b Bar) Called() string { return cmp.Or(b.Name, "the bar") }

// Called is the cutter by its name, "the cutter" where it has none.
func (c Cutter) Called() string { return cmp.Or(c.Name, "the cutter") }

// TipHome is the depth of the tip with the quill home, by quill feed.
func (b Bar) TipHome() qty.Length { return b.CutterAt - b.Standoff }

// Step is one cylinder of the bar.
type Step struct {
	Diameter qty.Diameter
	Hole     qty.Diameter // coolant or core hole; 0: solid
	Length   qty.Length
	Material BarMaterial
}

// Describe says what the keys of a step of a bar are.
func (s *Step) Describe(d *field.Desc) {
	d.Diameter(&s.Diameter, "diameter").Need().Span(spanBars).Example("2.25|57").Says("diameter of the step").
		JSON("diameter_mm").Decimals(5).Weighs(SpoilsReach, "diameter").ZeroIsNone()
	d.Length(&s.Length, "length").Need().Span(">0..200|>0..5000").Example("17.5|445").Says("length of the step").
		JSON("length_mm").Decimals(5).Weighs(SpoilsReach, "length").ZeroIsNone()
	d.Diameter(&s.Hole, "hole").Default("0").Span("0..40|0..1000").Example("0.5|12").Says("hole along it, for coolant or a core; 0: solid").
		Weighs(SpoilsReach, "hole").ZeroIsNone()
	d.Link(&s.Material, "material").Otherwise("as bar.material").Example(`"tungsten-alloy"`).Says("what this step is made of").
		Weighs(SpoilsReach, "material").ZeroIsNone()
}

// Support is an outboard bearing that stands on the machine, or a bush in the work.
type Support struct {
	At         qty.Length // from the spindle nose to the middle of the bearing; of a bush in the work see Job.GuideAt
	Station    string     // that a bush is fitted in, which goes with the work; "": it stands on the machine
	Clearance  qty.Length // running clearance, on diameter
	Stiffness  float64    // radial, N/µm
	PlaceError qty.Length // of a bush in the work: how far its bore may stand off the line of bores, ±
}

// Describe says what the keys of an outboard support are.
func (s *Support) Describe(d *field.Desc) {
	d.Length(&s.At, "at").Otherwise("worked out of station; one of the two is needed").Span(">0..400|>0..10000").Example("34|860").Says("from the spindle nose to the middle of the bearing").
		Weighs(SpoilsReach, "outboard support from the nose").ZeroIsNone()
	d.Name(&s.Station, "station").Example(`"far web"`).
		Says("in place of at: the station behind the work, good or bored in a job before, that a bush for the bar is fitted in. It goes with the work, so with table feed it comes nearer to the nose as the cut goes on").
		Weighs(SpoilsReach, "bush for the bar in").ZeroIsNone()
	d.Length(&s.PlaceError, "place_error").Default("0.0005|0.013").Span("0..0.04|0..1").Example("0.0004|0.01").
		Says("of a bush in a station: how far its bore may stand off the line of bores. The default is from memory, better swept").
		Weighs(SpoilsSize, "bush off the line of bores").ZeroIsNone()
	d.Length(&s.Clearance, "clearance").Default("0.0015|0.04").Span("0..0.04|0..1").Example("0.0015|0.04").Says("running clearance on diameter").
		Weighs(SpoilsReach, "outboard running clearance").ZeroIsNone()
	d.Number(&s.Stiffness, "stiffness", "N/µm").Default("100").Span("1..5000").Example("100").
		Says("radial stiffness of the support; the default is from memory, better measured").
		Weighs(SpoilsReach, "outboard stiffness")
}

// Inboard is the bearing of a line bar in front of the spindle.
type Inboard struct {
	Support
	Journals qty.Length // what journals and bearings of the bar alone leave a bore out of round, radial peak to valley
}

// Describe says what the keys of an inboard bearing are.
func (s *Inboard) Describe(d *field.Desc) {
	d.Worked("of a bush in the work", &s.Station, &s.PlaceError)
	d.Length(&s.At, "at").Need().Span(">0..400|>0..10000").Example("8|200").Says("from the spindle nose to the middle of the bearing").
		Weighs(SpoilsReach, "inboard bearing from the nose").ZeroIsNone()
	d.Length(&s.Clearance, "clearance").Default("0.001|0.025").Span("0..0.04|0..1").Example("0.001|0.025").Says("running clearance on diameter").
		Weighs(SpoilsReach, "inboard running clearance").ZeroIsNone()
	d.Number(&s.Stiffness, "stiffness", "N/µm").Default("100").Span("1..5000").Example("100").
		Says("radial stiffness of the bearing with its stand; the default is from memory, better measured").
		Weighs(SpoilsReach, "inboard stiffness")
	d.Length(&s.Journals, "journal_error").Default("0.0002|0.005").Span(">0..0.004|>0..0.1").Example("0.00015|0.004").
		Says("what the journals of the bar and both bearings alone leave a bore out of round, radial peak to valley; it takes the place of the machine's runout_error, which does not reach the bar. The default is from memory").
		Weighs(SpoilsSize, "error of journals and bearings")
}

// Runout is what alone leaves a bore out of round, radial peak to valley: spindle and its
// bearings, or the journals and bearings of a line bar.
func (j *Job) Runout() qty.Length {
	if in := j.Bar.Inboard; in != nil {
		return in.Journals
	}
	return j.Machine.Runout
}

// Cutter is the single-point tool in the bar. Angles are ISO 3002-1, degrees.
type Cutter struct {
	Name                    string // what the shop calls it, or ""
	Material                *CutterMaterial
	NoseRadius              qty.Length
	Lead                    float64          // tool cutting edge angle κr, between the edge and the direction of feed; 90: square shoulder
	Trail                   float64          // tool minor cutting edge angle κr′, behind the nose
	Rake                    float64          // orthogonal rake γo
	EdgeRadius              qty.Length       // rounding of the edge itself
	Land                    qty.Length       // worn land on the flank when the job begins; 0: freshly honed
	Least                   qty.Diameter     // smallest diameter the cutter can be set to in this bar
	Most                    qty.Diameter     // largest
	Ahead, Behind           qty.Length       // how far it stands out along the bar in front of and behind the tip
	Beside                  qty.Length       // how far it stands out to either side of the tip; 0: a quarter of the bar at the cutter
	SpeedRough, SpeedFinish qty.CuttingSpeed // overrides; 0: from the material's table
	SetBy                   SetBy            // how it is set
	Bar                     qty.Diameter     // the bar at the cutter as measured, under a micrometer over bar and tip
}

// Describe says what the keys of a cutter are.
func (c *Cutter) Describe(d *field.Desc) {
	d.Name(&c.Name, "name").Example(`"bit 7"`).Says("what the shop calls it; where cutters are listed and its material is left out: that cutter of the list").
		Weighs(SpoilsSetting, "name").ZeroIsNone()
	d.Link(&c.Material, "material").Need().Unless("bars", "cutters").Example(`"carbide"`).
		Says("what the edge is made of: built in, or a path ending in .toml; its keys are cutter.material.…").
		Weighs(SpoilsSetting, "material")
	d.Length(&c.NoseRadius, "nose_radius").Need().Unless("bars", "cutters").Span(">0..0.5|>0..12").Example("0.031|0.8").Says("radius of the nose").
		Weighs(SpoilsSetting, "nose radius")
	d.Number(&c.Lead, "lead", "°").Default("75").Span("30..95").Beyond("it is counted from the direction of feed: a bit ground 15° back from square has lead = 75").Example("75").
		Says("angle between the edge and the direction of feed, κr of ISO 3002; 90 cuts a square shoulder").
		Weighs(SpoilsSetting, "lead")
	d.Number(&c.Trail, "trail", "°").Default("15").Span("1..60").Example("15").Says("the same behind the nose, κr′").
		Weighs(SpoilsSetting, "trail")
	d.Number(&c.Rake, "rake", "°").Otherwise("usual for the cutter material").Span("-20..35").Example("8").Says("orthogonal rake, γo").
		Weighs(SpoilsSetting, "rake")
	d.Length(&c.EdgeRadius, "edge_radius").Otherwise("usual for the cutter material").Span(">0..0.01|>0..0.25").Example("0.0005|0.012").
		Says("rounding of the edge itself").
		Weighs(SpoilsSetting, "edge rounding").Fine()
	d.Length(&c.Land, "land").Default("0").Span("0..0.04|0..1").Example("0.002|0.05").
		Says("width of the worn land on the flank when the job begins; 0: new or freshly honed").
		Weighs(SpoilsSetting, "worn land at the start").ZeroIsNone().Fine()
	d.Diameter(&c.Least, "least").Otherwise("1.06 × the bar at the cutter").Span(spanDiameters).Example("2.5|64").
		Says("smallest diameter that the cutter can be set to in this bar").
		Weighs(SpoilsReach, "smallest setting").ZeroIsNone()
	d.Diameter(&c.Most, "most").Otherwise("1.6 × the bar at the cutter").Span(spanDiameters).Example("3.8|96").
		Says("largest diameter that the cutter can be set to").
		Weighs(SpoilsReach, "largest setting").ZeroIsNone()
	d.Length(&c.Ahead, "ahead").Default("0").Span("0..4|0..100").Example("0.06|1.5").
		Says("how far cutter or holder stands out along the bar in front of the tip, at the tip's radius").
		Weighs(SpoilsReach, "stands out in front of the tip")
	d.Length(&c.Behind, "behind").Default("0.5|12").Span("0..4|0..100").Example("0.5|12").Says("the same behind the tip").
		Weighs(SpoilsReach, "stands out behind the tip")
	d.Length(&c.Beside, "beside").Otherwise("a quarter of the bar at the cutter").Span(">0..4|>0..100").Example("0.5|12").
		Says("how far cutter or holder stands out to either side of the tip, for a bar that goes in off its axis").
		Weighs(SpoilsReach, "stands out beside the tip").ZeroIsNone()
	field.Word(d, &c.SetBy, "set_by", Increment, OverBar, Preset).Default("increment").Example(`"over_bar"`).
		Says("how the cutter is set: increment: moved on from where it stands, by a dial or the screw of a head; over_bar: a micrometer over bar and tip each time; preset: to a gauge each time").
		Weighs(SpoilsSetting, "set by")
	d.Diameter(&c.Bar, "bar").Otherwise("the bar's step at the cutter").Span(spanBars).Example("2.2496|57.14").
		Says("the bar at the cutter as measured, which a micrometer over bar and tip rests on").
		Weighs(SpoilsSetting, "bar at the cutter, measured").Fine().ZeroIsNone()
	d.Group("speed", func(d *field.Desc) {
		d.Speed(&c.SpeedRough, "rough").Span("3..3000|1..1000").Example("60|18").Says("cutting speed for roughing").
			Weighs(SpoilsFeed, "cutting speed, roughing").ZeroIsNone()
		d.Speed(&c.SpeedFinish, "finish").Span("3..3000|1..1000").Example("80|25").Says("cutting speed for finishing").
			Weighs(SpoilsFeed, "cutting speed, finishing").ZeroIsNone()
	}).Example("{ rough = 60, finish = 80 }|{ rough = 18, finish = 25 }").
		Says("cutting speeds to use instead of those of the material's table")
}
