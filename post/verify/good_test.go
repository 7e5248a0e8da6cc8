package verify

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

func mm(v float64) qty.Length        { return qty.FromMM(v) }
func in(v float64) qty.Length        { return qty.FromInches(v) }
func dmm(v float64) qty.Diameter     { return qty.DiameterMM(v) }
func din(v float64) qty.Diameter     { return qty.Diameter(qty.FromInches(v)) }
func at(l qty.Length) *schedule.Hold { return &schedule.Hold{Minutes: l.MM()} }
func steps(d ...float64) []process.Step { // diameter and length in turn, mm
	var out []process.Step
	for i := 0; i < len(d); i += 2 {
		out = append(out, process.Step{Diameter: dmm(d[i]), Length: mm(d[i+1])})
	}
	return out
}

// planMM is an invented job in mm: an idler bore behind a cover and a web, by
// table feed, three passes, oriented shift with the tip up.
func planMM() *plan.Plan {
	j := &process.Job{
		Units: qty.Metric, Number: "WG-77", Title: "idler",
		Machine: &process.Machine{
			ID: "mill", Nose: dmm(230), Quill: dmm(110), QuillTravel: mm(600),
			FeedBy: []process.FeedBy{process.TableFeed, process.QuillFeed},
			Speeds: process.Range{Least: 10, Most: 800}, Feeds: process.Range{Least: 0.02, Most: 2},
			Travels: []process.Travel{{Axis: 'X', Travel: mm(1500)}, {Axis: 'Y', Travel: mm(1200)}, {Axis: 'Z', Travel: mm(900)}, {Axis: 'W', Travel: mm(800)}},
			Control: &process.Control{
				DecimalPoint: true, WholePlaces: 4, PartPlaces: 3, Units: qty.Metric, UnitsWord: process.G20G21,
				BlockNumbers: true, BlockStep: 10, Dwell: process.DwellSeconds, DwellWord: 'P',
				OrientedStop: true, TipAtStop: process.TipPlusY, Comments: true, Percent: true, ProgramNumber: 1204,
				FeedAxis: 'Z', QuillAxis: 'W', LineMost: 72, WorkOffset: 54, SpaceWords: true,
			},
		},
		Stations: []process.Station{
			{Name: "cover", From: 0, To: mm(35), Diameter: dmm(110)},
			{Name: "web", From: mm(180), To: mm(215), Diameter: dmm(100)},
			{Name: "idler", From: mm(368), To: mm(429), Diameter: dmm(80)},
		},
		Bores: []process.Bore{{Station: 2}},
		Bar:   process.Bar{Steps: steps(100, 60, 57, 440), CutterAt: mm(490)},
	}
	v := plan.Visit{Visit: schedule.Visit{
		N: 1, Title: fact.AsWritten("bore the idler"), From: mm(368), To: mm(429), Clear: mm(365), End: mm(431.5),
		Start: dmm(80), StartMost: dmm(80.6),
		Limits: schedule.Limits{Low: dmm(85), Aim: dmm(85.0175), High: dmm(85.035), Fit: "H7"},
		Passes: []schedule.Pass{
			{N: 1, Kind: schedule.Rough, Setting: dmm(83), Feed: mm(0.2), Speed: 150, Spring: mm(0.03)},
			{N: 2, Kind: schedule.SemiFinish, Setting: dmm(84.6), Feed: mm(0.1), Speed: 180, Spring: mm(0.01), Hold: at(mm(5))},
			{N: 3, Kind: schedule.Finish, Setting: dmm(85.024), Feed: mm(0.1), Speed: 180, Spring: mm(0.007), Hold: at(mm(5))},
		},
	}}
	comesOut(&v, mm(1))
	return &plan.Plan{Job: j, Feasible: true, Bores: []plan.Bore{{Bore: j.Bores[0], Station: j.Stations[2], Visits: []plan.Visit{v}}}}
}

// comesOut has every pass of a visit come out off the wall by a shift, or fed where
// it is 0.
func comesOut(v *plan.Visit, shift qty.Length) {
	for i := range v.Passes {
		v.Passes[i].Out = schedule.WayOut{By: process.FeedOut}
		if shift != 0 {
			v.Passes[i].Out = schedule.WayOut{By: process.ShiftOut, Shift: shift}
		}
	}
}

// planBlind is planMM with the idler's far end closed: fed out, by feed per
// revolution, the cutter at the very end of the bar.
func planBlind() *plan.Plan {
	p := planMM()
	j := p.Job
	j.Bar.CutterAt = j.Bar.Stickout()
	j.Stations[2].Blind, j.Stations[2].Relief = true, mm(2)
	p.Bores[0].Station = j.Stations[2]
	v := &p.Bores[0].Visits[0]
	v.End = mm(430.5)
	comesOut(v, 0)
	c := j.Machine.Control
	c.FeedPerRev, c.OrientedStop, c.TipAtStop, c.ProgramNumber = true, false, process.TipUnknown, 0
	return p
}

// planInch is an invented job in inch, table feed by Z.
func planInch() *plan.Plan {
	p := planMM()
	j := p.Job
	j.Units = qty.Inches
	c := j.Machine.Control
	c.Units, c.PartPlaces, c.FeedPerRev, c.Percent, c.ProgramNumber, c.TipAtStop = qty.Inches, 4, true, false, 0, process.TipMinusX
	j.Stations = []process.Station{
		{Name: "cover pocket", From: 0, To: in(1.375), Diameter: din(4.3307)},
		{Name: "bearing wall", From: in(7.25), To: in(8.625), Diameter: din(3.937)},
		{Name: "idler", From: in(14.5), To: in(16.875), Diameter: din(3.156)},
	}
	j.Bar.Steps = []process.Step{{Diameter: din(5), Length: in(2.5)}, {Diameter: din(2.25), Length: in(17.5)}}
	j.Bar.CutterAt = in(19.9)
	p.Bores[0].Station = j.Stations[2]
	p.Bores[0].Visits[0] = plan.Visit{Visit: schedule.Visit{
		N: 1, Title: fact.AsWritten("bore the housing for the sleeve"), From: in(14.5), To: in(16.875), Clear: in(14.375), End: in(16.95),
		Start: din(3.156), StartMost: din(3.178), Limits: schedule.Limits{Low: din(3.375), Aim: din(3.3755), High: din(3.3759), Fit: "H7"},
		Passes: []schedule.Pass{
			{N: 1, Kind: schedule.Rough, Setting: din(3.2), Feed: in(0.008), Speed: 210, Spring: in(0.0012)},
			{N: 2, Kind: schedule.SemiFinish, Setting: din(3.34), Feed: in(0.004), Speed: 250, Spring: in(0.0004), Hold: at(mm(5))},
			{N: 3, Kind: schedule.Finish, Setting: din(3.3757), Feed: in(0.004), Speed: 250, Spring: in(0.0003), Hold: at(mm(5))},
		},
	}}
	comesOut(&p.Bores[0].Visits[0], in(0.04))
	return p
}

// planCycles is planInch on a control with cycles and feed a minute.
func planCycles() *plan.Plan {
	p := planInch()
	c := p.Job.Machine.Control
	c.Cycles, c.ReturnWords, c.FeedPerRev, c.OrientedStop, c.TipAtStop = true, true, false, false, process.TipUnknown
	c.Percent, c.ProgramNumber = true, 300
	comesOut(&p.Bores[0].Visits[0], 0)
	return p
}

// planCyclesBlind is planBlind on a control with cycles, no N words and its own
// work offset.
func planCyclesBlind() *plan.Plan {
	p := planBlind()
	c := p.Job.Machine.Control
	c.Cycles, c.ReturnWords, c.BlockNumbers, c.Percent, c.WorkOffset = true, true, false, false, 55
	return p
}

// planFixed is planMM on an old control: fixed format, G70/G71, W for the
// table, no comments, no N words, the tip toward -X.
func planFixed() *plan.Plan {
	p := planMM()
	c := p.Job.Machine.Control
	c.DecimalPoint, c.DropZeros, c.UnitsWord, c.FeedAxis, c.QuillAxis = false, process.LeadingZeros, process.G70G71, 'W', 'Z'
	c.Comments, c.BlockNumbers, c.Percent, c.ProgramNumber, c.WorkOffset, c.TipAtStop = false, false, false, 0, 0, process.TipMinusX
	return p
}

// planQuill is one closed bore near the face, by quill, in fixed inch format.
func planQuill() *plan.Plan {
	p := planInch()
	j := p.Job
	c := j.Machine.Control
	c.DecimalPoint, c.WholePlaces, c.PartPlaces, c.DropZeros = false, 3, 4, process.TrailingZeros
	c.FeedPerRev, c.OrientedStop, c.TipAtStop, c.Percent = false, false, process.TipUnknown, true
	c.FeedAxis, c.QuillAxis, c.Dwell, c.DwellWord = 'W', 'Z', process.DwellMilliseconds, 'F'
	j.Machine.Quill = din(3.5)
	j.Stations = []process.Station{{Name: "end bore", From: in(0.5), To: in(4), Diameter: din(4), Blind: true, Relief: in(0.08)}}
	j.Bores[0].Station = 0
	j.Bar = process.Bar{
		Steps: []process.Step{{Diameter: din(2.25), Length: in(4)}}, FeedBy: process.QuillFeed,
		CutterAt: in(4), Standoff: in(8),
	}
	p.Bores[0] = plan.Bore{Bore: j.Bores[0], Station: j.Stations[0], Visits: []plan.Visit{{Visit: schedule.Visit{
		N: 1, Title: fact.AsWritten("bore to size"), From: in(0.5), To: in(4), Clear: in(0.375), End: in(4.05),
		Start: din(4), StartMost: din(4.01), Limits: schedule.Limits{Low: din(4.125), Aim: din(4.1257), High: din(4.1264)},
		Passes: []schedule.Pass{
			{N: 1, Kind: schedule.Rough, Setting: din(4.08), Feed: in(0.006), Speed: 160, Spring: in(0.0008)},
			{N: 2, Kind: schedule.Finish, Setting: din(4.126), Feed: in(0.003), Speed: 200, Spring: in(0.0003), Hold: at(mm(5))},
		},
	}}}}
	return p
}

// good are the programs written by hand, with the plan that each cuts.
var good = []struct {
	file string
	plan func() *plan.Plan
	why  string
}{
	{"shift-mm.nc", planMM, "G94, oriented shift off +Y, % and O"},
	{"shift-inch.nc", planInch, "G95, modal feed, stops with no M5 where the spindle stands, shift off -X"},
	{"feed-out-blind-mm.nc", planBlind, "moves written out, dwell at the closed end"},
	{"cycle-inch.nc", planCycles, "G85 under G98 from the clear depth"},
	{"cycle-blind-mm.nc", planCyclesBlind, "G89, no spaces, G55"},
	{"fixed-mm.nc", planFixed, "fixed format, leading zeros dropped, W, no comments"},
	{"fixed-quill-inch.nc", planQuill, "fixed format, trailing zeros dropped, quill feed, dwell by F in ms"},
}

func program(t testing.TB, file string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "verify", file))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestGoodProgramsAreProven(t *testing.T) {
	for _, g := range good {
		t.Run(g.file, func(t *testing.T) {
			p := g.plan()
			r := Check(program(t, g.file), g.file, p, 0, 0)
			for _, f := range r.Findings {
				t.Error(said(f))
			}
			if !r.Proven {
				t.Error("not proven")
			}
			v := &p.Bores[0].Visits[0]
			if len(r.Cuts) != len(v.Passes) {
				t.Fatalf("%d cuts, %d passes", len(r.Cuts), len(v.Passes))
			}
			minutes := 0.0
			for i, c := range r.Cuts {
				q := v.Passes[i]
				if c.Pass != q.N || c.Setting != q.Setting || c.Diameter != q.Setting || c.From != v.Clear || c.To != v.End || (c.Feed-q.Feed).Abs() > 20 || c.Speed != float64(q.Speed) {
					t.Errorf("cut %d: %+v", i, c)
				}
				minutes += q.Speed.Minutes(v.End-v.Clear, q.Feed)
			}
			if v.Shift() == 0 {
				minutes *= 2
			}
			// rapids at 1500 mm/min and dwells are less than a minute a pass
			if r.Minutes < minutes || r.Minutes > minutes+float64(2*len(v.Passes)) {
				t.Errorf("%.2f minutes, the feeds alone are %.2f", r.Minutes, minutes)
			}
			last := v.Passes[len(v.Passes)-1]
			if r.FinalSize != last.Setting-qty.Diameter(last.Spring) {
				t.Errorf("final size %v", r.FinalSize)
			}
			if len(r.Near) == 0 {
				t.Error("no clearances")
			}
			if b, k, ok := Identify(program(t, g.file), p); !ok || b != 0 || k != 0 {
				t.Errorf("identified as %d, %d, %v", b, k, ok)
			}
		})
	}
}

// The metal of a pass is a ring: π/4·(D² − d²)·l.
func TestRemovedIsTheRing(t *testing.T) {
	r := Check(program(t, "shift-mm.nc"), "", planMM(), 0, 0)
	const l = 61.0
	ring := func(d, D float64) float64 { return math.Pi / 4 * (D*D - d*d) * l }
	for i, want := range []float64{ring(80.3, 83), ring(83, 84.6), ring(84.6, 85.024)} {
		if got := r.Cuts[i].Removed; math.Abs(got-want) > 1e-6*want {
			t.Errorf("pass %d: %.3f mm³, want %.3f", i+1, got, want)
		}
	}
}

// The least room by hand: the bar is Ø57, so 21.5 mm in the web (Ø100); in the
// cover (Ø110) the Ø100 shoulder enters 1.5 mm deep at the end of the feed, and
// the 1 mm shift leaves 4 mm. In the idler the cutter, off the wall by the
// shift, is nearest: 1 mm less half of the spring.
func TestNearest(t *testing.T) {
	r := Check(program(t, "shift-mm.nc"), "", planMM(), 0, 0)
	want := []Clearance{
		{"cover", "bar step 1", mm(4), false, mm(431.5), 0},
		{"web", "cutter", mm(50) - mm(85.024)/2, false, mm(180), 0},
		{"idler", "cutter", mm(1) - mm(0.03)/2, false, mm(429), 0},
	}
	if len(r.Near) != len(want) {
		t.Fatalf("%+v", r.Near)
	}
	for i, w := range want {
		g := r.Near[i]
		if g.Station != w.Station || g.Part != w.Part || (g.Room-w.Room).Abs() > 2 || g.Depth != w.Depth {
			t.Errorf("%+v, want %+v", g, w)
		}
	}
}

func TestDialect(t *testing.T) {
	d := script.Dialect(planQuill().Job.Machine.Control)
	if d.Numbers != rs274.DropTrailing || d.Whole != 3 || d.Part != 4 || d.DwellUnit != rs274.Milliseconds || d.DwellWord != 'F' ||
		d.Percent != rs274.Required || d.Lacks != rs274.PerRev|rs274.Cycles|rs274.ReturnWords|rs274.Oriented|rs274.GearWords|rs274.Returns {
		t.Errorf("%+v", d)
	}
	d = script.Dialect(planFixed().Job.Machine.Control)
	if d.Numbers != rs274.DropLeading || d.UnitsWords != rs274.G70G71 || d.Percent != rs274.Refused || d.Lacks&rs274.Comments == 0 {
		t.Errorf("%+v", d)
	}
}

func BenchmarkCheck(b *testing.B) {
	p, text := planMM(), program(b, "shift-mm.nc")
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if r := Check(text, "shift-mm.nc", p, 0, 0); !r.Proven {
			b.Fatal(r.Findings)
		}
	}
}

// A long hopeless program: the speed per byte, and that findings stay bounded.
func BenchmarkCheckLong(b *testing.B) {
	line := "G1 X1.5 Y-2. Z-3.25 F100.\nG0 Z-500.\n(SET CUTTER TO DIA 9)\nM0\n"
	text := []byte(strings.Repeat(line, 1<<20/len(line)))
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		Check(text, "", planMM(), 0, 0)
	}
}
