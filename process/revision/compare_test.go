package revision

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/feature"
	"borewright/process/field"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/geom"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/sleeve"
	"borewright/process/slow"
)

// comparePlan is a full plan with no zero figure in it, so that a field left
// out of the comparison shows. Invented.
func comparePlan() *plan.Plan {
	mm := qty.FromMM
	d := qty.DiameterMM
	speeds := map[string]process.SpeedBand{"hss": {Rough: [2]qty.CuttingSpeed{18, 25}, Finish: [2]qty.CuttingSpeed{25, 30}, Source: "x"}}
	iron := &process.Material{ID: "iron", Name: "gray iron", Group: "K", Kc11: 1160, Mc: 0.26, ThrustRatio: 0.5, ThrustFall: 0.1,
		Rake0: 2, E: 105e3, Nu: 0.26, Rm: 250, Re: 165, Brittle: true, Alpha: 1.1e-5, Rho: 7200, RaFactor: 1.7, Speeds: speeds, HeatMost: 200}
	steel := &process.Material{ID: "steel", Name: "steel tube", Group: "P", Kc11: 1500, Mc: 0.25, ThrustRatio: 0.4, ThrustFall: 0.1,
		Rake0: 6, E: 205e3, Nu: 0.29, Rm: 550, Re: 400, Brittle: true, Alpha: 1.2e-5, Rho: 7850, RaFactor: 1.4, Speeds: speeds, HeatMost: 150}
	bar := process.BarMaterial{ID: "steel", Name: "steel", E: 205e3, Nu: 0.29, Rho: 7850, Allowed: 80, Reach: 4, Damping: [2]float64{0.1, 0.2}, Source: "x"}
	hold := &schedule.Hold{Measure: []fact.Fact{fact.AsWritten("bore at three depths")}, Then: fact.AsWritten("set the next pass"), Minutes: 8}
	job := &process.Job{
		File: "a.toml", Units: qty.Metric, Number: "N-1", Revision: "A", Title: "t", Customer: "c", Notes: []string{"n"},
		Machine: &process.Machine{ID: "m", Name: "mill", Nose: d(220), Quill: d(125), QuillTravel: mm(700),
			FeedBy: []process.FeedBy{process.TableFeed}, Speeds: process.Range{Steps: []float64{45, 63}, Least: 45, Most: 63},
			Feeds: process.Range{Steps: []float64{0.1, 0.2}, Least: 0.1, Most: 0.2}, Power: 11e3, Torque: 900,
			Travels: []process.Travel{{Axis: 'X', Travel: mm(2000), What: "table"}}, Radial: 300, Tilt: 3, Damping: [2]float64{0.02, 0.05},
			Dial: mm(0.02), SetDial: mm(0.02), Source: "x",
			Control: &process.Control{DecimalPoint: true, WholePlaces: 4, PartPlaces: 3, DropZeros: process.LeadingZeros, UnitsWord: process.G20G21,
				BlockStep: 10, Dwell: process.DwellSeconds, DwellWord: 'P', TipAtStop: process.TipPlusX, ProgramNumber: 1, FeedAxis: 'Z', QuillAxis: 'W', LineMost: 80, WorkOffset: 54}},
		Material: iron,
		Stations: []process.Station{{Name: "outer", From: mm(1), To: mm(60), Diameter: d(90), Wall: mm(9), WallMost: mm(12), Relief: mm(1)},
			{Name: "inner", From: mm(250), To: mm(310), Diameter: d(80), Wall: mm(9), WallMost: mm(12), Relief: mm(2)}},
		Bores: []process.Bore{{Station: 1, Repair: process.SleeveRepair,
			Finish: process.Finish{Nominal: d(80), Low: d(80), High: d(80.03), Fit: "H7", Mating: d(79.9), Clearance: [2]qty.Length{mm(0.1), mm(0.2)}},
			Ra:     mm(0.0016), Roundness: mm(0.01), Offset: mm(0.2), PartOf: steel,
			Wear: []process.Reading{{Depth: mm(260), At: []float64{0, 90}, Radius: []qty.Length{mm(40), mm(40.1)}, Across: []qty.Diameter{d(80), d(80.2)}}}}},
		Bar: process.Bar{Name: "b", Steps: []process.Step{{Diameter: d(60), Hole: d(10), Length: mm(400), Material: bar}}, CutterAt: mm(390), Standoff: mm(50),
			Outboard: &process.Support{At: mm(390), Clearance: mm(0.03), Stiffness: 200}},
		Cutter: process.Cutter{Material: &process.CutterMaterial{ID: "hss", Name: "high speed steel", Class: "hss", Force: 1.2, Edge: mm(0.008), MinChip: 0.3, Rake: 10, Source: "x"},
			NoseRadius: mm(0.8), Lead: 75, Trail: 15, Rake: 10, EdgeRadius: mm(0.008), Least: d(75), Most: d(120), SpeedRough: 20, SpeedFinish: 25},
		Sleeve: &process.Sleeve{Material: steel, Outside: d(88), Fit: "H7/p6", Gap: mm(0.05), Allowance: mm(0.4), Length: mm(60),
			Standard: []qty.Diameter{d(86), d(88)}, Wall: mm(2.5), Match: mm(0.01), Lathe: mm(0.02), Runout: mm(0.01), Rz: [2]qty.Length{8000, 6300},
			Friction: [2]float64{0.06, 0.12}, Service: [2]float64{20, 70}, Location: mm(0.02), Torque: 60, Thrust: 2000, PressCapacity: 2e5, KeepCool: "seals", Grip: 2000, Compound: "high strength"},
		Sweeps: []process.Sweep{{Station: 0, Depth: mm(5), Face: true, Diameter: d(100), At: []float64{0, 180}, Dial: []qty.Length{mm(0.01), mm(0.02)}}},
		Limits: process.Limits{SpringRough: mm(0.1), SpringFinish: mm(0.02), DepthMost: mm(2), FeedMost: mm(0.4), SpeedMost: 200, Overhang: 4,
			ForceError: 0.3, SettingError: mm(0.01), GaugeError: mm(0.005), Temperature: 2, PassesMost: 12, HoldMinutes: 8},
	}
	pass := func(n int, k schedule.Kind, set float64) schedule.Pass {
		return schedule.Pass{N: n, Kind: k, Setting: d(set), Low: d(set - 0.02), Expected: d(set - 0.01), High: d(set), Depth: mm(0.5), Feed: mm(0.2), Speed: 63,
			Cutting: 16, CuttingForce: 400, FeedForce: 100, RadialForce: 150, Spring: mm(0.01), Power: 300, Torque: 20, Stress: 5,
			Ra: mm(0.0016), OutOfRound: mm(0.004), Minutes: 3, LimitedBy: fact.AsWritten("spring"), Hold: hold}
	}
	return &plan.Plan{Job: job, Feasible: true, Reasons: []plan.Reason{{Where: "w", What: fact.AsWritten("what")}}, Cautions: []fact.Fact{fact.AsWritten("mind")}, Minutes: 60,
		Bores: []plan.Bore{{Bore: job.Bores[0], Station: job.Stations[1], Sleeve: compareSleeve(steel), Visits: []plan.Visit{{Visit: schedule.Visit{
			N: 1, Title: fact.AsWritten("housing"), Before: []fact.Fact{fact.AsWritten("before")}, After: []fact.Fact{fact.AsWritten("after")}, Material: iron,
			From: mm(250), To: mm(310), Clear: mm(245), End: mm(311), Start: d(80.1), StartMost: d(80.6),
			Limits: schedule.Limits{Low: d(88), Aim: d(88.015), High: d(88.03), Fit: "H7"}, Ra: mm(0.0016), Roundness: mm(0.01),
			Compliance: [2]float64{0.05, 0.07}, Overhang: 5,
			RoughOut: schedule.WayOut{By: process.DrawOut, Clock: 180, Why: fact.AsWritten("why")}, LastOut: schedule.WayOut{By: process.ShiftOut, Clock: 90, Shift: mm(0.5), Why: fact.AsWritten("why")},
			Mouth:  []schedule.MouthCut{{Kind: schedule.LeadIn, Setting: d(90), Begin: mm(1), Touch: mm(2), End: mm(3), Leaves: d(89), Angle: 20, Edge: mm(4), Feed: mm(0.1), Speed: 200, Last: true, Hand: true, Minutes: 1}},
			Passes: []schedule.Pass{pass(1, schedule.Rough, 84), pass(2, schedule.Rough, 87), pass(3, schedule.SemiFinish, 87.7), pass(4, schedule.Finish, 88.02)}}}}}}}
}

func TestCompareSaysNothingOfTheSame(t *testing.T) {
	if got := Compare(comparePlan(), comparePlan()); len(got) != 0 {
		t.Errorf("the same plan twice: %+v", got)
	}
	if got := Compare(nil, nil); len(got) != 0 {
		t.Errorf("nothing twice: %+v", got)
	}
	// Either may be missing, and nothing may be lost for it.
	if a, b := Compare(nil, comparePlan()), Compare(comparePlan(), nil); len(a) != len(b) || len(a) < 50 {
		t.Errorf("against nothing: %d changes one way, %d the other", len(a), len(b))
	}
}

// Every figure of a plan, changed by itself, must show. What need not: the
// copies of job data that a planned bore carries, how the part that goes in would
// cut, what follows from other figures, where a figure was published, where in its
// file a reason points, how each pass comes out (it is compared for the visit), why
// it cannot (it stops the plan), the number a pass has because another was added, the
// ends of a ladder that has steps, the material that the bar's steps carry,
// deviations that the limits carry, whether a limit was left out, what a hand
// does for a setting, what a way in takes (it is in the time of each pass), how the bar hangs and swings, how near a
// pass comes to its limits, what ways out are ranked by, and how far the edge is worn besides what documents have.
func TestCompareMissesNoField(t *testing.T) {
	skip := func(path string) bool {
		for _, s := range []string{"Job.File", "Source", "Bores[0].Bore.", "Job.Machine.Speeds.Least", "Job.Machine.Speeds.Most",
			"Job.Machine.Feeds.Least", "Job.Machine.Feeds.Most", "Visits[0].Visit.Turned", "Visits[0].Visit.Lined", ".Visit.Unexplained", ".Visit.Rested", "Visits[0].Visit.Banded", "Visits[0].Visit.WayIn", "Visit.Out[", "CuttingForce", "FeedForce", "RadialForce",
			".Power", ".Torque", ".Stress", "Visits[0].Material", "Sleeve.Material", "Job.Places", "Job.Open.", "Job.Turned", "Job.Closed", "Job.Candidates", "Job.Candidates", "Job.Bar.Drawn", "Job.Bar.Stated", "Job.Bar.Material.", ".Finish.Upper", ".Finish.Lower", "Visits[0].N", "Reasons[0].Where", "Sleeve.Before.Order", "Sleeve.Here.Order", ".Out.", ".NoWayOut", ".OutRadial", ".SpringIn", "Job.Limits.SettingUsual", "Job.Limits.SpringUsual", ".Set.", ".Visit.Bar.", "].Limits[", ".Edge.Honed", ".Edge.Dull", ".Edge.IfNot", ".Edge.Mean.Least", ".Edge.Mean.M", ".Edge.Before.Likely", ".Edge.Before.M", ".Edge.After.L", ".Visit.Flank", ".Visit.Short", ".Outcome.Feasible", ".Outcome.Stops", ".Outcome.Short", ".Outcome.Noisiest.Hz"} {
			if strings.Contains(path, s) && !strings.HasPrefix(path, "Job.Machine.Power") && !strings.HasPrefix(path, "Job.Machine.Torque") {
				return true
			}
		}
		if strings.HasPrefix(path, "Bores[0].Station.") || strings.Contains(path, ".Passes[") && strings.HasSuffix(path, "].N") {
			return true
		}
		if strings.Contains(path, ".PartOf.") && path != "Job.Bores[0].PartOf.Name" && path != "Job.Bores[0].PartOf.Alpha" {
			return true
		}
		return strings.HasSuffix(path, ".ID") && path != "Job.Machine.ID" // the name is compared
	}
	seen := 0
	step := slow.Rounds(t, "is the step from field to field", 1, 4)
	for i, path := range slices.Sorted(maps.Keys(leaves(reflect.ValueOf(comparePlan()).Elem(), ""))) {
		if skip(path) || i%step != 0 {
			continue
		}
		p := comparePlan()
		leaves(reflect.ValueOf(p).Elem(), "")[path]()
		if len(Compare(comparePlan(), p)) == 0 {
			t.Errorf("%s: changed, and Compare says nothing", path)
		}
		seen++
	}
	if seen < 200/step {
		t.Errorf("only %d fields were tried", seen)
	}
}

// leaves finds every settable figure under v and how to change it.
func leaves(v reflect.Value, path string) map[string]func() {
	out := map[string]func(){}
	var walk func(reflect.Value, string)
	walk = func(v reflect.Value, path string) {
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem(), path)
			}
		case reflect.Struct:
			for i := range v.NumField() {
				if f := v.Type().Field(i); f.IsExported() {
					walk(v.Field(i), strings.TrimPrefix(path+"."+f.Name, "."))
				}
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i))
			}
		case reflect.Bool:
			out[path] = func() { v.SetBool(!v.Bool()) }
		case reflect.Int, reflect.Int64:
			out[path] = func() { v.SetInt(v.Int() + 1) }
			// What is worked out is compared to the last figure that is printed; what is
			// written, to the nanometre.
			if worked := strings.HasPrefix(path, "Bores["); worked && (v.Type() == reflect.TypeFor[qty.Length]() || v.Type() == reflect.TypeFor[qty.Diameter]()) {
				out[path] = func() { v.SetInt(v.Int() + 10_000) }
			}
			if v.Type() == reflect.TypeFor[process.Repair]() {
				out[path] = func() { v.SetInt(1 - v.Int()) }
			}
			if v.Type() == reflect.TypeFor[schedule.Kind]() {
				out[path] = func() { v.SetInt((v.Int() + 1) % 5) }
			}
		case reflect.Float64:
			out[path] = func() { v.SetFloat(v.Float()*1.01 + 1e-9) }
			if !strings.HasPrefix(path, "Job.") {
				out[path] = func() { v.SetFloat(v.Float() + max(math.Abs(v.Float()), 2)) }
			} else if strings.Contains(path, ".Damping[") { // told to four decimals
				out[path] = func() { v.SetFloat(v.Float() + 1e-4) }
			}
		case reflect.String:
			out[path] = func() { v.SetString(v.String() + "!") }
		}
	}
	walk(v, path)
	return out
}

func TestCompareOrder(t *testing.T) {
	a, b := comparePlan(), comparePlan()
	b.Job.Title = "other"                                                                       // words
	b.Bores[0].Visits[0].Passes[2].Feed = qty.FromMM(0.1)                                       // feed
	b.Bores[0].Visits[0].Passes[2].Setting = qty.DiameterMM(87.72)                              // setting
	b.Job.Bar.Steps[0].Length = qty.FromMM(420)                                                 // reach, twice: the stickout follows
	b.Job.Sleeve.Fit = "H7/s6"                                                                  // fit
	b.Job.Bores[0].Finish.High = qty.DiameterMM(80.02)                                          // size
	b.Feasible = false                                                                          // proof
	b.Job.Stations = append(b.Job.Stations, process.Station{Name: "far", Diameter: 70_000_000}) // reach
	inner := fact.New(InBore, fact.Name("inner"))
	third := fact.New(InPass, fact.New(InVisit, inner, fact.Count(1)), fact.Count(3), fact.Name("semi-finish"), nil)
	want := []Change{
		{process.SpoilsProof, WholeJob, fact.New(InPlan), Result, "", "proof", field.TextOf("proven"), field.TextOf("NOT PROVEN")},
		{process.SpoilsSize, StationsAndBores, inner, Edited, "bore[0].finish.high", "finish, high", field.FigureOf(qty.Diameter(80_030_000)), field.FigureOf(qty.Diameter(80_020_000))},
		{process.SpoilsFit, TheSleeve, fact.New(InSleeve), Edited, "sleeve.fit", "fit in the housing", field.TextOf("H7/p6"), field.TextOf("H7/s6")},
		{process.SpoilsReach, StationsAndBores, fact.New(InStation, fact.Name("far")), Edited, "station", "the station", field.None(), field.FigureOf(qty.Diameter(70_000_000))},
		{process.SpoilsReach, TheBar, fact.New(InBar), Edited, "bar.steps[0].length", "step 1 length", field.FigureOf(qty.Length(400_000_000)), field.FigureOf(qty.Length(420_000_000))},
		{process.SpoilsReach, TheBar, fact.New(InBar), Follows, "bar", "stickout", field.FigureOf(qty.Length(400_000_000)), field.FigureOf(qty.Length(420_000_000))},
		{process.SpoilsSetting, WholeJob, third, Result, "", "cutter setting", field.FigureOf(qty.Diameter(87_700_000)), field.FigureOf(qty.Diameter(87_720_000))},
		{process.SpoilsFeed, WholeJob, third, Result, "", "feed", field.FigureOf(qty.KindFeed.Of(0.2)), field.FigureOf(qty.KindFeed.Of(0.1))},
		{process.SpoilsWords, "", fact.New(InJob), Edited, "title", "title", field.TextOf("t"), field.TextOf("other")},
	}
	if d := cmp.Diff(want, Compare(a, b)); d != "" {
		t.Error(d)
	}
}

func TestComparePasses(t *testing.T) {
	dia := qty.DiameterMM
	p := func(k schedule.Kind, mm float64) schedule.Pass { return schedule.Pass{Kind: k, Setting: dia(mm)} }
	old := []schedule.Pass{p(schedule.Rough, 84), p(schedule.Rough, 87), p(schedule.SemiFinish, 87.7), p(schedule.Finish, 88.02)}
	for _, tc := range []struct {
		why  string
		new  []schedule.Pass
		want []pairing
	}{
		{"nothing changed", old, []pairing{{0, 0}, {1, 1}, {2, 2}, {3, 3}}},
		{"a rough pass added between: the others keep their partners",
			[]schedule.Pass{p(schedule.Rough, 84), p(schedule.Rough, 85.5), p(schedule.Rough, 87), p(schedule.SemiFinish, 87.7), p(schedule.Finish, 88.02)},
			[]pairing{{0, 0}, {-1, 1}, {1, 2}, {2, 3}, {3, 4}}},
		{"a witness cut added in front", append([]schedule.Pass{p(schedule.Witness, 80.7)}, old...),
			[]pairing{{-1, 0}, {0, 1}, {1, 2}, {2, 3}, {3, 4}}},
		{"the nearer of two rough passes stays", []schedule.Pass{p(schedule.Rough, 86.9), p(schedule.SemiFinish, 87.7), p(schedule.Finish, 88.02)},
			[]pairing{{0, -1}, {1, 0}, {2, 1}, {3, 2}}},
		{"a spring pass in place of the semi-finish is one out, one in",
			[]schedule.Pass{p(schedule.Rough, 84), p(schedule.Rough, 87), p(schedule.Spring, 87.7), p(schedule.Finish, 88.02)},
			[]pairing{{0, 0}, {1, 1}, {2, -1}, {-1, 2}, {3, 3}}},
		{"all gone", nil, []pairing{{0, -1}, {1, -1}, {2, -1}, {3, -1}}},
	} {
		if d := cmp.Diff(tc.want, pairPasses(old, tc.new), cmp.AllowUnexported(pairing{})); d != "" {
			t.Errorf("%s: %s", tc.why, d)
		}
	}
}

func TestCompareRenamedStation(t *testing.T) {
	a, b := comparePlan(), comparePlan()
	b.Job.Stations[0].Name = "cover pocket"
	for _, c := range Compare(a, b) {
		if c.Spoils == process.SpoilsReach {
			t.Errorf("a new name at the same depth is words, not reach: %+v", c)
		}
	}
	b = comparePlan()
	b.Job.Stations[0], b.Job.Stations[1] = b.Job.Stations[1], b.Job.Stations[0]
	b.Job.Bores[0].Station = 0
	b.Job.Sweeps[0].Station = 1
	want := []string{"place in the line", "place in the line"}
	var got []string
	for _, c := range Compare(a, b) {
		got = append(got, c.What)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("two stations changed places: %s", d)
	}
}

func TestCompareDroppedHold(t *testing.T) {
	a, b := comparePlan(), comparePlan()
	b.Bores[0].Visits[0].Passes[2].Hold = nil
	got := Compare(a, b)
	if len(got) != 1 || got[0].Spoils != process.SpoilsSize || got[0].What != "hold point" || got[0].New.Is != field.ValueNone {
		t.Errorf("a dropped hold point can spoil the size: %+v", got)
	}
}

// compareSleeve has something in every field. Invented.
func compareSleeve(m *process.Material) *sleeve.Sleeve {
	d, mm := qty.DiameterMM, qty.FromMM
	two := [2]qty.Diameter{d(80), d(80.02)}
	some := iso286.Range{Least: mm(0.01), Most: mm(0.02)}
	way := fit.Option{Inside: two, Closure: some, Stock: some, Low: d(80), High: d(80.02), Roundness: 3000, OffCentre: 5000, Ra: 1600, Lands: true, Why: []fact.Fact{fact.AsWritten("why")}}
	return &sleeve.Sleeve{
		Material: m, Fit: "H7/r6", Outside: d(86), Housing: two, Turned: two, Match: 10_000, Interference: some, Length: some, Wall: mm(3), Hub: some, Assumed: true,
		InPlace: true, Asked: process.BoreInPlace, Why: fact.AsWritten("why"), Other: fact.AsWritten("other"), Before: way, Here: way,
		Final:     &sleeve.FinalClearance{Part: two, Asked: some, Expected: some, AtWork: some, PartOf: m, OK: true},
		Effective: some, Closure: some, Pressure: fit.Band{Least: 3, Most: 9}, Service: [2]float64{20, 70}, AtWork: fit.Band{Least: 2, Most: 8},
		Stresses:   []fit.Stress{{Where: fit.HubBore, Hoop: fit.Band{Least: 10, Most: 20}, Equivalent: 20, Allowed: 90, Criterion: fit.BrittleTension, OK: true}},
		PressForce: []fit.Stroke{{Depth: 15, Force: fit.Band{Least: 1000, Most: 2000}}},
		Joints: []fit.Joint{{Method: fit.ByPress, Taken: true, Torque: fit.Band{Least: 100, Most: 200}, PushOut: fit.Band{Least: 1e3, Most: 2e3}, Closure: fit.Band{Least: 0.01, Most: 0.02}, HubHoop: 20,
			OffCentre: 0.005, ServiceMost: 150, Reserve: 2.5, Sound: true, Note: fact.AsWritten("note"), Factors: []fit.Factor{{Why: fact.AsWritten("hot"), By: fit.Band{Least: 0.7, Most: 0.8}}}, Reasons: []fact.Fact{fact.AsWritten("r")}}},
		Assembly: []fit.Assembly{{Method: fit.ByPress, Possible: true, HubTo: 20, SleeveTo: 20, Clearance: -0.02, Force: 2000, InAir: 30, Grips: 9, Why: fact.AsWritten("why"), Cautions: []fact.Fact{fact.AsWritten("mind")}}},
		Bonding:  []fact.Fact{fact.AsWritten("clean")},
		Chuck:    fit.ChuckResult{Grip: 2000, Allowed: 0.002, Outside: 86, Inside: 80, GripMost: 100, Lobes: 0.005, SixPads: 0.0005, Thick: true, Instead: []fact.Fact{fact.AsWritten("soft jaws")}},
		LeadIn:   feature.LeadIn{Angle: 15, Length: mm(2)},
		Raised:   []sleeve.Raised{{What: fact.AsWritten("hole"), Where: fit.HubBore, Plain: 20, Times: 3, Peak: 60, Judged: 28, Allowed: 90, OK: true}},
		Details:  []sleeve.Detail{{What: fact.AsWritten("vent"), How: fact.AsWritten("a groove")}}, Lathe: []fact.Fact{fact.AsWritten("turn")}, Order: []fit.Step{{Text: fact.AsWritten("measure"), Hold: true}}, Cautions: []fact.Fact{fact.AsWritten("mind")}, Stops: []fact.Fact{fact.AsWritten("stop")},
	}
}

// A sentence in which only figures differ is one change; the same one from
// another line of the file is none.
func TestCompareSentences(t *testing.T) {
	a, b := comparePlan(), comparePlan()
	a.Reasons = []plan.Reason{{Where: "a.toml:3:1", What: fact.AsWritten("too long by 5 mm")}, {What: fact.AsWritten("too fat")}}
	b.Reasons = []plan.Reason{{Where: "b.toml:9:1", What: fact.AsWritten("too fat")}, {Where: "b.toml:3:1", What: fact.AsWritten("too long by 6.5 mm")}}
	var got []Change
	for _, c := range Compare(a, b) {
		if c.What == "what stops it" {
			got = append(got, c)
		}
	}
	if len(got) != 1 || !fact.Equal(got[0].Old.Fact, a.Reasons[0].What) || !fact.Equal(got[0].New.Fact, b.Reasons[1].What) {
		t.Errorf("%+v", got)
	}
}

// Of a line-up the advice is compared, each by itself; against none, all of it is
// new.
func TestCompareLineUp(t *testing.T) {
	lined := func(x, y, turn, shim float64) *place.LineUp {
		l := &place.LineUp{Move: [2]place.Move{{Axis: "X", Move: geom.Move{By: x}}, {Axis: "Y", Move: geom.Move{By: y}}}}
		if turn != 0 {
			l.Turn = &place.Turn{Turn: geom.Turn{Mrad: turn}}
		}
		if shim != 0 {
			l.Shim = &place.Shim{PerSpan: qty.FromMM(0.3 * shim), Span: qty.FromMM(300)}
		}
		return l
	}
	for why, tc := range map[string]struct {
		old, new *place.LineUp
		want     []string
	}{
		"the same":       {lined(0.1, 0.2, 1, 2), lined(0.1, 0.2, 1, 2), nil},
		"X":              {lined(0.1, 0.2, 1, 2), lined(0.11, 0.2, 1, 2), []string{"move X"}},
		"Y":              {lined(0.1, 0.2, 1, 2), lined(0.1, 0.21, 1, 2), []string{"move Y"}},
		"turn":           {lined(0.1, 0.2, 1, 2), lined(0.1, 0.2, 1.1, 2), []string{"turn of the table"}},
		"shim":           {lined(0.1, 0.2, 1, 2), lined(0.1, 0.2, 1, 2.1), []string{"shim"}},
		"no turn":        {lined(0.1, 0.2, 1, 2), lined(0.1, 0.2, 0, 2), []string{"turn of the table"}},
		"none before":    {nil, lined(0, 0.2, 1, 2), []string{"turn of the table", "shim", "move X", "move Y"}},
		"none after":     {lined(0.1, 0, 0, 0), nil, []string{"move X", "move Y"}},
		"none in either": {nil, nil, nil},
	} {
		a, b := comparePlan(), comparePlan()
		a.LineUp, b.LineUp = tc.old, tc.new
		var got []string
		for _, c := range Compare(a, b) {
			if c.Where.Kind != InLiningUp || c.Spoils != process.SpoilsSize {
				t.Errorf("%s: %+v", why, c)
			}
			got = append(got, c.What)
		}
		if d := cmp.Diff(tc.want, got); d != "" {
			t.Errorf("%s: %s", why, d)
		}
	}
}
