package process

import (
	"math"

	"borewright/process/field"
	"borewright/process/qty"
)

// Results is what was measured on a job, in the order in which it was entered.
type Results struct {
	File    string
	Entries []Measured
	Torn    int // line at which an entry begins that was not written whole, and is not counted; 0: none
}

// Measured is one entry: what the gauge said after one pass.
type Measured struct {
	ID         string
	Station    int // index into Job.Stations
	Visit      int // 0: not said
	Pass       int
	Kind       CutKind
	Revision   string
	Setting    qty.Diameter // of the cutter, in fact; 0: as planned
	CutTo      qty.Length   // witness cut: depth at which its feed ended; 0: it went through
	Before     qty.Diameter // the bore before the pass; 0: as planned
	Low        qty.Diameter // what the sheet said to expect; 0: as planned
	High       qty.Diameter
	Feed       qty.Length // a revolution; 0: as planned
	Speed      qty.RevPerMin
	Land       qty.Length // worn onto the edge half way through the pass, as planned or seen; 0: not known
	WayOut     OutBy      // how the cutter came out; OutAsFits: as planned
	Tooling    string     // marks.Tooling when it was cut; "": that of the job as it is now
	Sweeps     string     // marks.LinedUpBy then; "": as it is now
	Program    string     // file of the program that cut it; "": not said
	ProgramSum string     // and its check sum
	Sizes      []Size
	Marked     []float64  // witness cut: clock positions where it marked, degrees
	Bare       []float64  // and where not
	Ra         qty.Length // 0: not measured
	Remark     string
	By, When   string
	Gauge      string          // the bore gauge by its mark, "": not said
	Master     string          // and what it was set to: ring, micrometer, blocks
	WorkTemp   qty.Temperature // of the work where it was gauged; 0: not said
	GaugeTemp  qty.Temperature // of gauge and master then
	Place      string          // "job.results.toml:12:1"
}

// Describe says what the keys of an entry of a results file are.
func (m *Measured) Describe(d *field.Desc) {
	d.Name(&m.ID, "id").Example(`"5f1c09aa31d2"`).Says("tells this entry from all others; an entry written by hand does without")
	d.LinkName(&m.Station, "station").Need().Example(`"idler"`).Says("the bore, by the name of its station")
	d.Count(&m.Visit, "visit").Otherwise("that of the pass").Span("1..9").Example("1").Says("the visit to the bore")
	d.Count(&m.Pass, "pass").Need().Span("1..1000").Example("4").Says("the pass that was cut last, by its number on the sheet")
	field.Word(d, &m.Kind, "kind", WitnessCut, RoughCut, SemiFinishCut, SpringCut, FinishCut, SleeveFitted).Otherwise("as planned").Example(`"semi-finish"`).
		Says("what the pass was for; fitted: nothing was cut, a sleeve finished on the lathe is home")
	d.Name(&m.Revision, "revision").Example(`"C"`).Says("revision of the job that was worked to")
	d.Diameter(&m.Setting, "setting").Otherwise("as planned").Span(">0..100|>0..2500").Example("3.3721|85.65").Says("what the cutter was set to, in fact")
	d.Diameter(&m.Before, "before").Otherwise("as planned").Span(">0..100|>0..2500").Example("3.3333|84.67").
		Says("the bore before this pass, as measured or else as planned")
	d.Diameter(&m.Low, "low").Otherwise("as planned").Span(">0..100|>0..2500").Example("3.3693|85.58").Says("least that the sheet said to expect")
	d.Diameter(&m.High, "high").Otherwise("as planned").Span(">0..100|>0..2500").Example("3.3707|85.62").Says("most that the sheet said to expect")
	d.Length(&m.Feed, "feed").Otherwise("as planned").Span(">0..1|>0..25").Example("0.005|0.12").Per("rev").Says("feed a revolution of this pass")
	d.Turns(&m.Speed, "speed").Otherwise("as planned").Span(">0..20000").Example("90").Says("spindle speed of this pass")
	field.Word(d, &m.WayOut, "way_out", DrawOut, ShiftOut, FeedOut).Otherwise("as planned").Example(`"feed"`).Says("how the cutter came out of the bore after this pass, in fact")
	d.Length(&m.Land, "land").Otherwise("as planned").Span("0..0.04|0..1").Example("0.002|0.05").
		Says("width of the worn land on the flank half way through this pass")
	d.Length(&m.CutTo, "cut_to").Otherwise("it went through the bore").Span(">0..200|>0..5000").Example("15|381").
		Says("witness cut: the depth at which it ended, where it marked the near end of the bore alone")
	d.Name(&m.Tooling, "tooling").Otherwise("that of the job").Example(`"5b1e09c4"`).
		Says("mark of bar, cutter and spindle that it was cut with: nothing is learned of one bar from another")
	d.Name(&m.Sweeps, "sweeps").Otherwise("those of the job").Example(`"00c41d7a"`).Says("mark of the sweeps that the work was lined up by")
	d.Name(&m.Program, "program").Otherwise("not said").Example(`"WG-204-C-idler-1.nc"`).Says("the program that the pass was cut by, by the name of its file")
	d.Name(&m.ProgramSum, "program_sum").Otherwise("not said").Example(`"14EB-766B"`).Says("the check sum of that program")
	field.List(d, &m.Sizes, "size", 1, 200).Need().Example(`[ { depth = 14.6, at = 0, diameter = 3.3697 } ]`).Says("what the bore gauge said")
	d.Numbers(&m.Marked, "marked", "°", 0, 36).Clock().Span("0..360").Example("[0, 180, 270]").Says("witness cut: the clock positions where the cutter marked")
	d.Numbers(&m.Bare, "bare", "°", 0, 36).Clock().Span("0..360").Example("[90]").Says("witness cut: the clock positions where it did not")
	d.Rough(&m.Ra, "ra").Otherwise("not measured").Span(">0..2000|>0..50").Example("55|1.4").Says("roughness, where it was measured")
	d.Text(&m.Remark, "remark").Example(`"chatter marks at the far end"`).Says("what else was seen")
	d.Name(&m.By, "by").Example(`"second shift"`).Says("who measured")
	d.Name(&m.When, "when").Otherwise("by the clock").Example(`"2026-03-02 14:20"`).Says("when it was measured; measured writes what the clock says where nothing else is given")
	d.Name(&m.Gauge, "gauge").Otherwise("not said").Example(`"BG-3"`).Says("the bore gauge, by its mark")
	d.Name(&m.Master, "master").Otherwise("not said").Example(`"ring 85.000"`).Says("what the gauge was set to, by its mark: ring, gauge blocks or micrometer")
	d.Temperature(&m.WorkTemp, "work_temperature").Otherwise("not said").Span("-4..140|-20..60").Example("79|26").
		Says("temperature of the work where it was gauged; with that of the gauge every size is kept as it was read, and at 20 °C besides")
	d.Temperature(&m.GaugeTemp, "gauge_temperature").Otherwise("not said").Span("-4..140|-20..60").Example("68|20").Says("temperature of gauge and master as they were used")
	d.Worked("where it stands", &m.Place)
}

// CutKind is what a measured pass was for; its zero value is not said.
type CutKind int

// The kinds.
const (
	WitnessCut CutKind = 1 + iota
	RoughCut
	SemiFinishCut
	SpringCut
	FinishCut
	SleeveFitted // nothing was cut: a sleeve finished on the lathe is home
)

func (k CutKind) String() string {
	return [...]string{"", "witness", "rough", "semi-finish", "spring", "finish", "fitted"}[k]
}

// Size is one reading of the bore gauge, at a place or without one.
type Size struct {
	Depth    qty.Length // from the face; negative: not said
	At       float64    // clock position, degrees; negative: not said
	Diameter qty.Diameter
}

// Describe says what the keys of a reading of the bore gauge are.
func (s *Size) Describe(d *field.Desc) {
	d.Length(&s.Depth, "depth").Unset(Unplaced).Otherwise("not said").Span("0..400|0..10000").Example("14.6|371").Says("how deep, from the face")
	d.Number(&s.At, "at", "°").Clock().Unset(-1.0).Otherwise("not said").Span("0..360").Example("0").
		Says("clock position of one end of the gauge, degrees clockwise from 12 o'clock, seen from the spindle")
	d.Diameter(&s.Diameter, "diameter").Need().Span(">0..100|>0..2500").Example("3.3697|85.59").Says("two-point diameter there")
}

// Unplaced is the depth of a reading whose depth was not said.
const Unplaced qty.Length = -1

// Least and Most are the smallest and the largest of the readings, Mean their
// middle weighed alike.
func (m *Measured) Least() qty.Diameter { return m.over(func(a, b qty.Diameter) bool { return b < a }) }

// Most is the largest reading.
func (m *Measured) Most() qty.Diameter { return m.over(func(a, b qty.Diameter) bool { return b > a }) }

func (m *Measured) over(better func(a, b qty.Diameter) bool) qty.Diameter {
	var d qty.Diameter
	for i, s := range m.Sizes {
		if i == 0 || better(d, s.Diameter) {
			d = s.Diameter
		}
	}
	return d
}

// Mean is the mean of the readings, each depth weighed alike.
func (m *Measured) Mean() qty.Diameter {
	sum, n := map[qty.Length]float64{}, map[qty.Length]float64{}
	for _, s := range m.Sizes {
		sum[s.Depth] += float64(s.Diameter)
		n[s.Depth]++
	}
	var order []qty.Length // the sum must not hang on the order of a map
	seen := map[qty.Length]bool{}
	for _, s := range m.Sizes {
		if !seen[s.Depth] {
			seen[s.Depth] = true
			order = append(order, s.Depth)
		}
	}
	total := 0.0
	for _, d := range order {
		total += sum[d] / n[d]
	}
	return qty.Diameter(math.Round(total / math.Max(1, float64(len(order)))))
}
