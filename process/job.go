// Package process is a repair job as its author wrote it and what was measured
// since: the structs of job, machine, materials, cutter, bar and results, with
// the description of each field (process/field) under its declaration, and what
// follows from the job alone. process/files reads them.
//
// What belongs here: what a key means. What does not: reading and refusing
// (process/files), what a careful colleague would ask (process/doubt), and anything
// that is planned.
package process

import (
	"cmp"
	"fmt"
	"slices"

	"borewright/process/candidate"
	"borewright/process/field"
	"borewright/process/hub"
	"borewright/process/qty"
	"borewright/process/source"
)

// Job is a process description that has been read, defaulted and checked.
// All lengths are nanometres, whatever the file was written in.
type Job struct {
	File     string   // name the job was loaded by, for messages
	Units    qty.Unit // what the file is written in and the sheets print
	Number   string
	Revision string
	Title    string
	Customer string // optional
	Notes    []string

	Machine  *Machine
	Material *Material // of the casting

	Stations   []Station  // inward from the face that the spindle enters
	Through    qty.Length // from the near face to the far one, where bores of both are bored; else 0
	Seen       *Face      // the face that all of it is seen from (process/faces); nil: it is as written
	Closed     string     // seen from one face: the station of the other that is closed; "": none
	ClosedAt   qty.Length // and how deep, seen from here, the inside of its closed end lies: the wall is in front of it
	Bores      []Bore
	Order      Order      // over the bores
	Rough      ToolsNamed // what bores are roughed with that are roughed apart, and that name no other
	Bar        Bar
	Cutter     Cutter
	Sleeve     *Sleeve // nil when no bore is sleeved
	Sweeps     []Sweep
	LineUp     LineUp
	Shop       []ShopBar             // bars the shop owns; nil: no list is named
	Drawer     []ShopCutter          // cutters the shop owns; nil: none are listed
	Choose     candidate.Choose      // for what the lists give a bar and a cutter
	Open       candidate.Open        // what is to be chosen from these lists
	Candidates []candidate.Candidate // what bar and cutter were chosen from, the best first; nil: nothing was left open
	Stickouts  []candidate.Stickout  // what its stickout was chosen from, that chosen first; nil: it is as the bar has it
	Limits     Limits

	Places map[string]source.Pos // key path -> where it stands in the file

	Turned bool   // seen from a face that is finished after the other
	Used   *Tools // that stand in the place of its own; nil: it has its own
}

// Describe says what the keys of a job file are.
func (j *Job) Describe(d *field.Desc) {
	d.Units(&j.Units, "units").Need().Example(`"in"`).
		Says("what a bare length in this file is in, \"in\" or \"mm\"; a text may carry its own unit, as \"80 mm\" or \"3.150 in\", or be a fraction of an inch, as \"2 1/8\"").
		Weighs(SpoilsSetting, "units")
	d.Name(&j.Number, "number").Need().Example(`"WG-204"`).Says("job number").
		Weighs(SpoilsWords, "number").ZeroIsNone()
	d.Name(&j.Revision, "revision").Need().Example(`"C"`).Says("revision of this job").
		Weighs(SpoilsWords, "revision").ZeroIsNone()
	d.Text(&j.Title, "title").Need().Example(`"Gear case 2: restore idler bore"`).Says("what the job is, in one line").
		Weighs(SpoilsWords, "title").ZeroIsNone()
	d.Text(&j.Customer, "customer").Example(`"Weir Gate Works"`).Says("who the work is for").
		Weighs(SpoilsWords, "customer").ZeroIsNone()
	d.Texts(&j.Notes, "notes", 0, 30).Example(`["Keep the dowel holes."]`).Says("remarks that are printed on the sheet").
		Weighs(SpoilsWords, "note")
	d.Link(&j.Machine, "machine").Need().Example(`"hbm-5in"`).
		Says("the boring mill: one of the built-in ones, or a path ending in .toml relative to this file; its keys are machine.…")
	d.Link(&j.Material, "material").Need().Example(`"gray-iron-200hb"`).
		Says("what the casting is made of: built in, or a path ending in .toml; its keys are material.…")
	field.List(d, &j.Stations, "station", 1, 60).Need().Example(`[ { name = "idler", from = 14.5, to = 16.875, diameter = 3.156 } ]`).
		Says("the line of bores, one entry a piece, inward from the face that the spindle enters")
	d.Length(&j.Through, "face_to_face").Default("0").Span(spanDepths).Example("27.5|700").
		Says("distance between the two faces, where bores of both are bored in this job: depth of the far face, seen from the near one").
		Weighs(SpoilsReach, "face to face").ZeroIsNone()
	field.List(d, &j.Bores, "bore", 1, 30).Need().Example(`[ { station = "idler", repair = "rebore", finish = { diameter = 3.25, fit = "H7" } } ]`).
		Says("a bore to be restored, one entry each, in the order in which they are cut")
	field.Word(d, &j.Order, "order", RoughFirst, BoreByBore).Default("rough_first").Example(`"bore_by_bore"`).
		Says("of several bores. rough_first: all are roughed, the casting rests, then each is finished; bore_by_bore: each is finished before the next is begun").
		Weighs(SpoilsSetting, "order over the bores")
	d.Table(&j.Rough, "rough").Otherwise("as the finish").Example(`{ bar = "F 80" }`).Says("what the bores are roughed with, where they are roughed apart")
	d.Table(&j.Bar, "bar").Need().Unless("bars").Example(`{ steps = [ { diameter = 2.25, length = 17.5 } ] }`).Says("what stands out of the spindle nose").Apart()
	d.Link(&j.Shop, "bars").Example(`"shop-bars.toml"`).
		Says("list of the bars that the shop owns, a path ending in .toml relative to this file; its keys are bars.…. Its cutters are taken too, where cutters is left out. Where bar has no steps, one of these is chosen, or taken by bar.name")
	d.Link(&j.Drawer, "cutters").Otherwise("the cutters in the list of bars").Example(`"shop-cutters.toml"`).
		Says("list of the cutters that the shop owns, a path ending in .toml relative to this file; its keys are bars.cutter.…. Where cutter has no material, one of these is chosen, or taken by cutter.name")
	field.Word(d, &j.Choose, "choose", candidate.OnePair, candidate.ByBore).Default("one_pair").Example(`"by_bore"`).Says("what the lists give, where bar or cutter is left to them. one_pair: one bar with one cutter for all cuts; by_bore: also another for a bore, or for roughing, where it pays to change, and to a bore that names only a bar or only a cutter the other").Weighs(SpoilsReach, "bar and cutter chosen")
	d.Table(&j.Cutter, "cutter").Need().Unless("bars", "cutters").Example(`{ material = "carbide", nose_radius = 0.031 }|{ material = "carbide", nose_radius = 0.8 }`).
		Says("the single-point tool in the bar").Apart()
	field.Maybe(d, &j.Sleeve, "sleeve").Example(`{ material = "steel-1026", outside = 3.375 }|{ material = "steel-1026", outside = 86 }`).
		Says("the sleeve, where a bore has repair = \"sleeve\"").Apart()
	field.List(d, &j.Sweeps, "sweep", 0, 60).Example(`[ { station = "cover pocket", depth = 0.2, at = [0, 90, 180, 270], dial = [0, 0.0004, 0.0010, 0.0005] } ]`).
		Says("one run of a dial round a bore or a face, the spindle turned by hand")
	d.Table(&j.LineUp, "lineup").Default("{}").Example("{ dial = 0.0001, table_centre = 9, table_stop = 24 }|{ dial = 0.002, table_centre = 230, table_stop = 600 }").
		Says("what the work is lined up with, and how true it was made").Apart()
	d.Table(&j.Limits, "limits").Default("{}").Example("{ spring_finish = 0.0006 }|{ spring_finish = 0.015 }").
		Says("what the author of the job allows").Apart()
	d.Worked("of the file, and of what it leaves to the lists", &j.File, &j.Places, &j.Open, &j.Candidates, &j.Stickouts, &j.Used, &j.Seen, &j.Turned, &j.Closed, &j.ClosedAt)
}

// Ranges that several keys share. A range keeps slips of unit and decimal point
// out; what a sound job needs is judged in the check files.
const (
	spanDepths    = "0..400|0..10000"
	spanDiameters = ">0..100|>0..2500"
	spanBars      = ">0..40|>0..1000"
	clocks        = "degrees clockwise from 12 o'clock, seen from the spindle, or hours in quotes, as \"4:30\""
)

// Station is one piece of the line of bores. From and To are depths from its face, inward
// positive.
type Station struct {
	Name     string
	Face     Face // that its depths count from
	From, To qty.Length
	Diameter qty.Diameter // as it is now; the least, for a worn bore
	Swept    bool         // a dial can be run around it
	Blind    bool         // its far end is closed
	Relief   qty.Length   // run-out groove at the closed end: depth beyond To that the cutter may use
	Wall     qty.Length   // least metal around the bore; 0: not stated
	WallMost qty.Length   // most metal around the bore; 0: same as Wall
	Walls    []WallAt     // the metal round the clock, where it was measured; Wall and WallMost follow from it
}

// RunOut is how far past its work the tip goes on, and the room it keeps to a
// blind bottom. Common practice, no source.
const RunOut = qty.Millimetre / 2

// Describe says what the keys of a station are.
func (s *Station) Describe(d *field.Desc) {
	d.Name(&s.Name, "name").Need().Example(`"idler"`).Says("what it is called; no two alike").
		Weighs(SpoilsWords, "name")
	field.Word(d, &s.Face, "face", NearFace, FarFace).Otherwise("that of the bore in it, else that of the first bore").Example(`"far"`).
		Says("the face that its depths count from, and its clock positions are seen from").
		Weighs(SpoilsReach, "depths count from the face")
	d.Length(&s.From, "from").Need().Span(spanDepths).Example("14.5|368").Says("depth at which it begins, from the face").
		Weighs(SpoilsReach, "from")
	d.Length(&s.To, "to").Need().Span(spanDepths).Example("16.875|429").Says("depth at which it ends").
		Weighs(SpoilsReach, "to")
	d.Diameter(&s.Diameter, "diameter").Need().Span(spanDiameters).Example("3.156|80.16").Says("its diameter as it is now; the least, where it is worn").
		Weighs(SpoilsReach, "diameter")
	d.Flag(&s.Swept, "swept").Default("false").Example("true").Says("a dial can be run around it").
		Weighs(SpoilsSize, "swept")
	d.Flag(&s.Blind, "blind").Default("false").Example("true").Says("its far end is closed").
		Weighs(SpoilsReach, "far end").YesNo("closed", "open")
	d.Length(&s.Relief, "relief").Default("0").Span("0..4|0..100").Example("0.08|2").
		Says("run-out groove at the closed end: how far past the end the cutter may go").
		Weighs(SpoilsReach, "relief").ZeroIsNone()
	d.Length(&s.Wall, "wall").Default("0").Span("0..40|0..1000").Example("0.75|20").Says("least metal around the bore; 0: not stated. A list is read as walls").ListAs("walls").
		Weighs(SpoilsFit, "least wall").ZeroIsNone()
	d.Length(&s.WallMost, "wall_most").Otherwise("as wall").Span("0..40|0..1000").Example("1.25|32").Says("most metal around the bore").
		Weighs(SpoilsFit, "most wall").ZeroIsNone()
	field.List(d, &s.Walls, "walls", 3, 72).Example(`[ { at = 0, metal = 0.5 }, { at = 120, metal = 1.1 }, { at = 240, metal = 1.1 } ]|[ { at = 0, metal = 13 }, { at = 120, metal = 28 }, { at = 240, metal = 28 } ]`).
		Says("metal around the bore as it is now, round the clock, in place of wall and wall_most; every 60 degrees or closer tells a bore out of the middle from a flat").
		Weighs(SpoilsFit, "wall round the clock")
}

// WallAt is the metal beside a bore at one clock position.
type WallAt struct {
	At    float64 // degrees
	Metal qty.Length
}

// Describe says what the keys of one reading of the wall are.
func (w *WallAt) Describe(d *field.Desc) {
	d.Number(&w.At, "at", "°").Clock().Need().Span("0..360").Example("90").Says("clock position, "+clocks).
		Weighs(SpoilsFit, "at").As(qty.KindClock)
	d.Length(&w.Metal, "metal").Need().Span(">0..40|>0..1000").Example("0.75|20").Says("metal from the bore to the outside there").
		Weighs(SpoilsFit, "metal")
}

// WallRound is the metal around the bore as it was read round the clock; ok is false
// where it was not.
func (s Station) WallRound() (w hub.Wall, ok bool) {
	if len(s.Walls) == 0 {
		return hub.Wall{}, false
	}
	var all []hub.Reading
	for _, m := range s.Walls {
		all = append(all, hub.Reading{Clock: m.At, Metal: m.Metal.MM()})
	}
	return hub.Around(s.Diameter.MM()/2, all), true
}

// Length is how deep the station is.
func (s Station) Length() qty.Length { return s.To - s.From }

// Repair is what is done to a worn bore.
type Repair int

// The repairs.
const (
	Rebore       Repair = iota // bore to a new size in the parent metal
	SleeveRepair               // bore for a sleeve, fit it, bring the sleeve to size
)

func (r Repair) String() string {
	if r == SleeveRepair {
		return "sleeve"
	}
	return "rebore"
}

// OutBy is how a cutter comes out of the bore after a pass.
type OutBy int

// The ways out.
const (
	OutAsFits OutBy = iota // not stated
	DrawOut                // spindle stopped, tip turned to a clock position, drawn along the wall: leaves a line
	ShiftOut               // spindle stopped, the bar moved off the wall, opposite to the tip, before it comes out
	FeedOut                // turning, at the feed and setting of the pass: a second cut
)

func (o OutBy) String() string {
	return [...]string{"as fits", "draw", "shift", "feed"}[o]
}

// OutByOf is the way out of a word.
func OutByOf(word string) (OutBy, error) {
	for o := DrawOut; o <= FeedOut; o++ {
		if o.String() == word {
			return o, nil
		}
	}
	return OutAsFits, fmt.Errorf("%q is no way out; it is draw, shift or feed", word)
}

// Bore is one bore to be restored.
type Bore struct {
	Station   int  // index into Job.Stations
	Face      Face // that it is bored from, and that depths count from
	Repair    Repair
	Finish    Finish
	Ra        qty.Length // roughness asked for, arithmetic mean (ISO 21920-2)
	Roundness qty.Length // radial peak to valley asked for (ISO 1101); 0: half the size tolerance is taken by the loader, never 0 after loading
	Offset    qty.Length // how far the old bore's axis may stand from the true one, when no wear readings say so
	Wear      []Reading
	Witness   bool            // begin with a witness cut
	First     bool            // it is finished before the others are begun
	With      string          // the station whose bore it is cut through with, at one setting; "": it is cut alone
	WayOut    OutBy           // how the cutter comes out; OutAsFits: as suits mill, bar and pass
	LineAt    float64         // clock position of the tip where it is drawn out along the wall, degrees
	Part      [2]qty.Diameter // smallest and largest size of the part that goes in; zero: not stated
	PartOf    *Material       // what that part is made of; nil: not stated

	Bar, Cutter    string     // of the shop's lists, by name; "": those of the job
	Guide          *Guide     // bush behind it that the end of the bar runs in; nil: as the job has it
	Rough          ToolsNamed // what it is roughed with where it is roughed apart
	CutBy, RoughBy *Tools     // the same found; nil: bar and cutter of the job
}

// Describe says what the keys of a bore are.
func (b *Bore) Describe(d *field.Desc) {
	d.LinkName(&b.Station, "station").Need().Example(`"idler"`).Says("the name of its station")
	field.Word(d, &b.Face, "face", NearFace, FarFace).Default("near").Example(`"far"`).
		Says("the face it is bored from. far: after half a turn of the table; depths, clock positions and sweeps of a bore are ALWAYS those seen from its own face. Bores of both faces in one job need face_to_face").
		Weighs(SpoilsReach, "bored from the face")
	field.Word(d, &b.Repair, "repair", Rebore, SleeveRepair).Need().Example(`"sleeve"`).
		Says("rebore: to a new size in the parent metal; sleeve: bore out, fit a sleeve, bring the sleeve to size").
		Weighs(SpoilsSize, "repair")
	d.Table(&b.Finish, "finish").Need().Example(`{ diameter = 3.1496, fit = "H7" }|{ diameter = 80, fit = "H7" }`).
		Says("the size it must come to, stated in one of four ways: diameter and fit; low and high; diameter, upper and lower; mating and clearance")
	d.Rough(&b.Ra, "ra").Default("125|3.2").Span("4..1000|0.1..25").Example("63|1.6").Says("roughness asked for, Ra").
		Weighs(SpoilsSize, "Ra asked for")
	d.Length(&b.Roundness, "roundness").Otherwise("half the size tolerance").Span(">0..0.2|>0..5").Example("0.0004|0.01").
		Says("roundness asked for, radial (ISO 1101)").
		Weighs(SpoilsSize, "roundness asked for").Fine()
	d.Length(&b.Offset, "offset").Default("0").Span("0..1|0..25").Example("0.010|0.25").
		Says("how far the old axis may stand from the true one where no readings tell").
		Weighs(SpoilsSetting, "old axis off the true one, most").ZeroIsNone()
	d.Flag(&b.Witness, "witness").Default("true").Example("false").Says("begin with a light cut that shows where the axis is; left out, there is none of bores that are cut through at one setting (with)").
		Weighs(SpoilsSetting, "witness cut")
	d.Flag(&b.First, "first").Default("false").Example("true").
		Says("finish it before the others are begun: they are lined up from it, or it carries the bar").
		Weighs(SpoilsSetting, "finished before the others are begun")
	d.Name(&b.With, "with").Example(`"outer lug"`).
		Says("the first station of bores in one line that are cut through at one setting, one after the other: each of the others names it. They have the same finish, way out and no witness cut, on a mill worked by hand").
		Weighs(SpoilsSetting, "cut through at one setting with").ZeroIsNone()
	field.Word(d, &b.WayOut, "way_out", DrawOut, ShiftOut, FeedOut).Otherwise("drawn out after roughing by hand; shifted after the rest where the bar can be, else fed").Example(`"feed"`).
		Says("how the cutter comes out after every pass. draw: stopped, along the wall, which leaves a line in the bore (by hand only); shift: stopped and moved off the wall first; feed: turning, which cuts a second time").
		Weighs(SpoilsSize, "way out asked for").ZeroIsNone()
	d.Number(&b.LineAt, "line_at", "°").Clock().Default("0").Span("0..360").Example("180").
		Says("where the tip points when it is drawn out along the wall and may leave a line, "+clocks).
		Weighs(SpoilsSetting, "tip where it is drawn out").As(qty.KindClock)
	d.DiameterPair(&b.Part, "part").Span(spanDiameters).Example("[3.1491, 3.1496]|[79.987, 80]").Rising().
		Says("smallest and largest size of the part that goes in; the final clearance is worked out against it").
		WeighEnds(SpoilsSize, "part that goes in, smallest", "part that goes in, largest").ZeroIsNone()
	d.Name(&b.Bar, "bar").Otherwise("the bar of the job").Example(`"C 60"`).Says("what the shop's list calls the bar that this bore is cut with").
		Weighs(SpoilsReach, "bar").ZeroIsNone()
	d.Name(&b.Cutter, "cutter").Otherwise("the cutter of the job").Example(`"K5 short"`).Says("what the shop's list calls the cutter that this bore is cut with").
		Weighs(SpoilsReach, "cutter").ZeroIsNone()
	d.Table(&b.Rough, "rough").Otherwise("as rough of the job, else as the finish").Example(`{ bar = "F 80" }`).Says("what the bore is roughed with, where it is roughed apart")
	field.Maybe(d, &b.Guide, "guide").Otherwise("as bar.outboard").Example(`{ station = "far web", clearance = 0.001 }|{ station = "far web", clearance = 0.025 }`).
		Says("bush in a station behind it that the end of the bar runs in while this bore is cut").
		Weighs(SpoilsReach, "bush for the bar").YesNo("fitted", "none").Last()
	d.Worked("from the shop's lists", &b.CutBy, &b.RoughBy)
	d.Link(&b.PartOf, "part_material").Otherwise("steel is assumed").Example(`"steel-4140"`).
		Says("what that part is made of, from the same list as material: for its clearance at work").
		Weighs(SpoilsFit, "part that goes in, made of")
	field.List(d, &b.Wear, "wear", 0, 60).Example(`[ { depth = 14.8, at = [0, 90, 180, 270], radius = [1.578, 1.589, 1.580, 1.577] } ]`).
		Says("readings of the worn bore, one entry a depth, with either radius or across").
		Weighs(SpoilsSetting, "wear reading")
}

// Finish is the size the bore must come to, however it was stated.
type Finish struct {
	Nominal   qty.Diameter
	Low, High qty.Diameter // limits of size, never rounded outward
	Upper     qty.Length   // deviations from Nominal, where it was stated by them
	Lower     qty.Length
	Fit       string        // class of ISO 286, or of ANSI B4.1, as written; "" when stated by limits
	Mating    qty.Diameter  // size of the part that runs in it; 0: not stated
	Clearance [2]qty.Length // least and most diametral clearance asked for, with Mating
}

// Describe says what the keys of a finish are.
func (f *Finish) Describe(d *field.Desc) {
	d.Diameter(&f.Nominal, "diameter").Span(spanDiameters).Example("3.1496|80").Says("nominal size, with fit or with upper and lower").
		Weighs(SpoilsSize, "nominal size").ZeroIsNone()
	d.Name(&f.Fit, "fit").Example(`"H7"`).Says("hole class of ISO 286, as H7; or a class of ANSI B4.1, as RC4, whose hole is meant (borewright fit says what each means)").
		Weighs(SpoilsSize, "fit").ZeroIsNone()
	d.Diameter(&f.Low, "low").Span(spanDiameters).Example("3.1496|80").Says("smallest diameter allowed, with high").
		Weighs(SpoilsSize, "finish, low")
	d.Diameter(&f.High, "high").Span(spanDiameters).Example("3.1508|80.03").Says("largest diameter allowed, with low").
		Weighs(SpoilsSize, "finish, high")
	d.Length(&f.Upper, "upper").Span("-0.4..0.4|-10..10").Example("0.0012|0.03").Says("upper deviation from diameter, with its sign")
	d.Length(&f.Lower, "lower").Span("-0.4..0.4|-10..10").Example("0|0").Says("lower deviation from diameter, with its sign")
	d.Diameter(&f.Mating, "mating").Span(spanDiameters).Example("3.1490|79.985").Says("measured size of the part that goes in, with clearance").
		Weighs(SpoilsSize, "mating size").ZeroIsNone()
	d.LengthPair(&f.Clearance, "clearance").Span("-0.4..0.4|-10..10").Example("[0.0005, 0.0015]|[0.012, 0.040]").Rising().
		Says("least and most clearance on diameter; below 0 is tight").
		WeighEnds(SpoilsSize, "least clearance", "most clearance").ZeroIsNone()
}

// Aim is the middle of the limits.
func (f Finish) Aim() qty.Diameter { return f.Low + (f.High-f.Low)/2 }

// Tolerance is the distance between the limits, on diameter.
func (f Finish) Tolerance() qty.Length { return f.High.Minus(f.Low) }

// Reading is one set of readings of the worn bore at one depth. Either Radius
// (from the true axis) or Across (two-point diameters, each at its clock
// position and the one opposite) is filled, as long as At.
type Reading struct {
	Depth  qty.Length
	At     []float64 // clock positions in degrees from 12 o'clock, clockwise seen from the spindle
	Radius []qty.Length
	Across []qty.Diameter
}

// Describe says what the keys of readings of a worn bore are.
func (r *Reading) Describe(d *field.Desc) {
	d.Length(&r.Depth, "depth").Need().Span(spanDepths).Example("14.8|376").Says("depth of the readings, from the face").
		Weighs(SpoilsSetting, "depth")
	d.Numbers(&r.At, "at", "°", 1, 360).Clock().Need().Span("0..360").Example("[0, 90, 180, 270]").Says("clock positions, " + clocks)
	d.Lengths(&r.Radius, "radius", 1, 360).Span(">0..50|>0..1250").Example("[1.578, 1.589, 1.580, 1.577]|[40.08, 40.36, 40.13, 40.06]").
		Says("radius from the true axis at each position").
		Weighs(SpoilsSetting, "radius").Fine().Clocked(&r.At)
	d.Diameters(&r.Across, "across", 1, 360).Span(spanDiameters).Example("[3.158, 3.166, 3.160]|[80.21, 80.42, 80.26]").
		Says("diameter across, at each position and the one opposite").
		Weighs(SpoilsSetting, "across").Clocked(&r.At)
}

// FeedLetter is the axis along the bore as programs call it: Z or W; Z where the machine
// has no control.
func (j *Job) FeedLetter() Letter {
	if j.Machine == nil || j.Machine.Control == nil {
		return 'Z'
	}
	letter := j.Machine.Control.FeedAxis
	if j.Bar.FeedBy == QuillFeed {
		letter = j.Machine.Control.QuillAxis
	}
	return cmp.Or(letter, 'Z')
}

// BoreAt is the index in Bores of the bore at a station; -1: nothing is bored there.
func (j *Job) BoreAt(station int) int {
	return slices.IndexFunc(j.Bores, func(b Bore) bool { return b.Station == station })
}

// Where is the place of a key path such as "bore[0].finish" or "bar", as
// "job.toml:31:1"; of the nearest table around it when the file leaves the key
// out.
func (j *Job) Where(key string) string {
	p := source.Where(j.Places, key)
	return fmt.Sprintf("%s:%d:%d", source.FileName(j.File), p.Line, p.Col)
}

// MostWorn is the largest diameter about the true axis that the readings show;
// 0 without readings.
func (b Bore) MostWorn() qty.Diameter {
	var most qty.Diameter
	for _, w := range b.Wear {
		for _, r := range w.Radius {
			most = max(most, qty.FromRadius(r))
		}
		for _, d := range w.Across {
			most = max(most, d)
		}
	}
	return most
}
