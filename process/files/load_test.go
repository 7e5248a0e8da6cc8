package files

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"borewright/process"
	"borewright/process/doubt"
	"borewright/process/fit"
	"borewright/process/qty"
)

func mustLoad(t *testing.T, file string) *process.Job {
	t.Helper()
	j, err := Job("job.toml", []byte(file), nil)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func goodFile(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../testdata/process/good", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// TestFullJob reads every figure of a job in inches back in nanometres,
// worked out by hand from 25.4 mm to the inch.
func TestFullJob(t *testing.T) {
	j := mustLoad(t, goodFile(t, "inch-full.toml"))
	want := &process.Job{
		File: "job.toml", Units: qty.Inches, Number: "PX-77", Revision: "D",
		Title: "Press frame: rebore three lugs, line bar", Customer: "Mill Lane Forge",
		Notes: []string{"Leave the paint on.", "Dowels stay in."},
		Order: process.BoreByBore,
		Stations: []process.Station{
			{Name: "near lug", From: 6_350_000, To: 57_150_000, Diameter: 101_854_000, Swept: true, Wall: 38_100_000, WallMost: 57_150_000},
			{Name: "middle lug", From: 228_600_000, To: 279_400_000, Diameter: 101_900_000},
			{Name: "far lug", From: 457_200_000, To: 508_000_000, Diameter: 101_904_800, Relief: 2_540_000},
		},
		Bores: []process.Bore{
			{Station: 0, Finish: process.Finish{Nominal: 104_775_000, Low: 104_775_000, High: 104_813_100}, Ra: 3200, Roundness: 15_240, Offset: 127_000, First: true, WayOut: process.DrawOut, LineAt: 180},
			{Station: 1, Finish: process.Finish{Nominal: 104_749_600, Mating: 104_749_600, Low: 104_775_000, High: 104_813_100, Clearance: [2]qty.Length{25_400, 63_500}},
				Ra: 3175, Roundness: 19_050, Witness: true, Wear: []process.Reading{
					{Depth: 241_300_000, At: []float64{0, 120, 240}, Radius: []qty.Length{50_952_400, 51_079_400, 51_308_000}},
					{Depth: 266_700_000, At: []float64{0, 90}, Across: []qty.Diameter{101_904_800, 102_362_000}},
				}},
			{Station: 2, Finish: process.Finish{Nominal: 104_775_000, Low: 104_762_300, High: 104_813_100, Upper: 38_100, Lower: -12_700}, Ra: 3175, Roundness: 25_400, Witness: true},
		},
		Bar: process.Bar{Name: "line bar 3", Steps: []process.Step{
			{Diameter: 82_550_000, Hole: 19_050_000, Length: 101_600_000, Material: *BarMaterialByID("tungsten-alloy")},
			{Diameter: 76_200_000, Length: 1_168_400_000, Material: *BarMaterialByID("steel")},
		}, Material: *BarMaterialByID("steel"), CutterAt: 609_600_000, Outboard: &process.Support{At: 1_168_400_000, Clearance: 50_800, Stiffness: 80}},
		Cutter: process.Cutter{Material: CutterMaterialByID("carbide-coated"), NoseRadius: 1_193_800, Lead: 90, Trail: 5,
			EdgeRadius: 30_480, Land: 25_400, Least: 91_440_000, Most: 114_300_000, Ahead: 1_270_000, Behind: 10_160_000, Beside: 12_700_000, SpeedRough: 91.44, SpeedFinish: 121.92,
			SetBy: process.OverBar, Bar: 76_189_840},
		Sweeps: []process.Sweep{
			{Depth: 12_700_000, Diameter: 101_859_080, At: []float64{0, 90, 180, 270}, Dial: []qty.Length{0, 25_400, 76_200, 50_800},
				Further: true, Stylus: 12, Droop: 38_100, OutOfRound: 20_320},
			{Depth: 6_350_000, Face: true, Diameter: 152_400_000, At: []float64{0, 90, 180, 270}, Dial: []qty.Length{0, -25_400, 0, 25_400}},
		},
		LineUp: process.LineUp{Dial: 12_700, Repeats: 5_080, Coaxial: 25_400, Square: 0.08, Parallel: 0.2,
			Table: &process.Rotary{Centre: 254_000_000, Stop: 609_600_000}, Packs: &process.Packs{Near: -38_100_000, Far: 482_600_000}},
		Limits: process.Limits{ChipRoom: 2_540_000, SpringRough: 152_400, SpringFinish: 25_400, DepthMost: 2_540_000, FeedMost: 304_800, SpeedMost: 250, Overhang: 5,
			ForceError: 0.25, SettingError: 12_700, GaugeError: 7620, Temperature: 3, PassesMost: 12, RestStock: 762_000, HoldMinutes: 8, HandRate: 381_000_000, Sing: true},
		Machine: machineByID("hbm-5in"), Material: MaterialByID("cast-steel"),
	}
	opts := cmp.Options{cmpopts.IgnoreFields(process.Job{}, "Places"), cmpopts.EquateEmpty(), cmpopts.EquateApprox(1e-12, 0)}
	if diff := cmp.Diff(want, j, opts); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestSleeveJobs reads what the inch job cannot hold.
func TestSleeveJobs(t *testing.T) {
	j := mustLoad(t, goodFile(t, "mm-sleeve.toml"))
	want := &process.Sleeve{Material: MaterialByID("leaded-bronze"), Outside: 158_000_000, Hold: process.Bond, Gap: 80_000, Allowance: 600_000, Length: 58_000_000, StandsOut: [2]qty.Length{10 * qty.Millimetre},
		Chosen: true, Standard: []qty.Diameter{150_000_000, 158_000_000, 165_000_000}, Match: 10_000, Lathe: 20_000, Runout: 10_000,
		Service: [2]float64{20, 70}, Grip: 2000, Compound: "high strength, hot service",
		Load: fit.Swelling, Wet: fit.Oil, Joining: 150_000, Heated: 240_000_000, Casting: 600_000_000, Web: 20_000_000}
	if diff := cmp.Diff(want, j.Sleeve); diff != "" {
		t.Errorf("bonded (-want +got):\n%s", diff)
	}
	if j.Bar.FeedBy != process.QuillFeed || j.Bar.Standoff != 150*qty.Millimetre || !j.Stations[0].Blind {
		t.Errorf("bar %+v, station %+v", j.Bar, j.Stations[0])
	}
	// 150 H8: +63/0 µm (ISO 286-2:2010, Table 6; from memory).
	if f := j.Bores[0].Finish; f.Low != 150_000_000 || f.High != 150_063_000 || f.Fit != "H8" || f.Aim() != 150_031_500 {
		t.Errorf("150 H8 is read as %+v", f)
	}
	j = mustLoad(t, goodFile(t, "mm-press.toml"))
	if s := j.Sleeve; s.Fit != "H7/s6" || s.Gap != 0 || s.Hold != process.Press || s.Allowance != 400*qty.Micrometre || s.Length != 0 {
		t.Errorf("pressed: %+v", s)
	}
	if s := j.Sleeve; s.Finish != process.BoreInPlace || s.Wall != 2_500_000 || s.Rz != [2]qty.Length{8000, 6300} || s.Friction != [2]float64{0.06, 0.12} ||
		s.Service != [2]float64{-10, 60} || s.Location != 20_000 || s.Torque != 60 || s.Thrust != 2000 || s.PressCapacity != 200e3 || s.KeepCool == "" || s.Grip != 1500 ||
		j.Bores[0].Part != [2]qty.Diameter{149_985_000, 150_000_000} || j.Bores[0].PartOf == nil || j.Bores[0].PartOf.ID != "steel-4140" {
		t.Errorf("pressed: %+v, part %v", s, j.Bores[0].Part)
	}
	// 5.9055 in is 149.9997 mm, in a file in millimetres.
	if f := j.Bores[0].Finish; f.Low != 149_999_700 || f.Nominal != f.Low {
		t.Errorf("low limit is read as %d", f.Low)
	}
}

// A bore and a sleeve by classes of ANSI B4.1, as an inch shop writes them.
// 3.625 RC4: hole 3.6250 to 3.6272 in (Machinery's Handbook 31 Table 8a: 3.15 to 4.73 in, +2.2
// thou, from memory).
func TestInchFits(t *testing.T) {
	j := mustLoad(t, strings.Replace(reboreJob, `"H7"`, `"rc 4"`, 1))
	if f := j.Bores[0].Finish; f.Fit != "RC4" || f.Low != qty.Diameter(qty.FromInches(3.625)) || f.High != qty.Diameter(qty.FromInches(3.6272)) {
		t.Errorf("3.625 RC4 is read as %+v", f)
	}
	j = mustLoad(t, strings.Replace(sleeveJob, "outside  = 86", "outside  = 86\nfit = \"fn2\"", 1))
	if j.Sleeve.Fit != "FN2" {
		t.Errorf("fn2 is read as %q", j.Sleeve.Fit)
	}
}

// TestDesignJob loads the process description that the design page shows.
func TestDesignJob(t *testing.T) {
	j := mustLoad(t, `
units    = "in"
number   = "WG-204"
revision = "C"
title    = "Lock-gate winch, gear case 2: restore idler bore"
machine  = "hbm-5in"
material = "gray-iron-200hb"
station = [
  { name = "cover pocket", from = 0.0,  to = 1.375, diameter = 4.3307, swept = true },
  { name = "bearing wall", from = 7.25, to = 8.625, diameter = 3.9370 },
  { name = "idler",        from = 14.5, to = 16.875, diameter = 3.156, blind = true, relief = 0.08 },
]
[[bore]]
station   = "idler"
repair    = "sleeve"
finish    = { diameter = 3.1496, fit = "H7" }
ra        = 63
roundness = 0.0004
wear      = [ { depth = 14.8, at = [0, 90, 180, 270], radius = [1.578, 1.589, 1.580, 1.577] } ]
[bar]
steps   = [ { diameter = 5.0, length = 2.5 }, { diameter = 2.25, length = 17.5 } ]
feed_by = "table"
[cutter]
material = "hss"
nose_radius = 0.031
lead = 75
rake = 10
[sleeve]
material = "steel-1026"
outside  = 3.375
hold     = "press"
[[sweep]]
station = "cover pocket"
depth   = 0.2
at      = [0, 90, 180, 270]
dial    = [0, 0.0004, 0.0010, 0.0005]
`)
	// 80 H7 is +30/0 µm (ISO 286-2:2010, Table 6; from memory). 3.1496 in is
	// 79.99984 mm, in the same range of sizes.
	if f := j.Bores[0].Finish; f.Low != 79_999_840 || f.High != 80_029_840 {
		t.Errorf("limits %d to %d", f.Low, f.High)
	}
}

// A list that is written and empty is as one that is left out.
func TestNoReadings(t *testing.T) {
	const wear = `wear    = [ { depth = 6.2, at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755] } ]`
	if !strings.Contains(reboreJob, wear) {
		t.Fatal("the job has other readings")
	}
	if j := mustLoad(t, strings.Replace(reboreJob, wear, "wear = []", 1)); len(j.Bores[0].Wear) != 0 {
		t.Errorf("%v", j.Bores[0].Wear)
	}
}

// TestDefaults holds what is taken for keys left out, in both units.
func TestDefaults(t *testing.T) {
	in := mustLoad(t, reboreJob)
	mm := mustLoad(t, strings.Replace(sleeveJob, "wear ", "#", 1))
	for _, row := range []struct {
		what          string
		got, wantInch any
		gotMM, wantMM any
	}{
		{"ra", mustLoad(t, strings.Replace(reboreJob, "ra  ", "#", 1)).Bores[0].Ra, qty.FromMicroInches(125), mm.Bores[0].Ra, 3200 * qty.Nanometre},
		{"roundness: half the tolerance of 3.625 H7 (35 µm) and 80 H7 (30 µm)", in.Bores[0].Roundness, 17_500 * qty.Nanometre, mm.Bores[0].Roundness, 15 * qty.Micrometre},
		{"witness", in.Bores[0].Witness, true, mm.Bores[0].Witness, true},
		{"wall_most as wall", in.Stations[1].WallMost, qty.Length(0), mm.Stations[2].WallMost, 32 * qty.Millimetre},
		{"bar material", in.Bar.Steps[1].Material.ID, "steel", mm.Bar.Steps[0].Material.ID, "steel"},
		{"feed_by", in.Bar.FeedBy, process.TableFeed, mm.Bar.FeedBy, process.TableFeed},
		{"cutter_at: the end", in.Bar.CutterAt, qty.FromInches(9.5), mm.Bar.CutterAt, 505 * qty.Millimetre},
		{"lead", in.Cutter.Lead, 75.0, mm.Cutter.Lead, 75.0},
		{"trail", in.Cutter.Trail, 15.0, mm.Cutter.Trail, 15.0},
		{"rake of carbide, of hss", in.Cutter.Rake, 5.0, mm.Cutter.Rake, 8.0},
		{"edge of carbide, of hss", in.Cutter.EdgeRadius, 12 * qty.Micrometre, mm.Cutter.EdgeRadius, 8 * qty.Micrometre},
		{"least: 1.06 × 2.5 in, × 57 mm", in.Cutter.Least, qty.Diameter(qty.FromInches(2.65)), mm.Cutter.Least, qty.DiameterMM(60.42)},
		{"most: 1.6 × 2.5 in, × 57 mm", in.Cutter.Most, qty.Diameter(qty.FromInches(4)), mm.Cutter.Most, qty.DiameterMM(91.2)},
		{"spring_finish", in.Limits.SpringFinish, qty.FromInches(0.0008), mm.Limits.SpringFinish, qty.FromMM(0.02)},
		{"depth_most", in.Limits.DepthMost, qty.FromInches(0.12), mm.Limits.DepthMost, 3 * qty.Millimetre},
		{"feed_most", in.Limits.FeedMost, qty.FromInches(0.02), mm.Limits.FeedMost, qty.FromMM(0.5)},
		{"setting_error", in.Limits.SettingError, qty.FromInches(0.0003), mm.Limits.SettingError, qty.FromMM(0.008)},
		{"gauge_error", in.Limits.GaugeError, qty.FromInches(0.0002), mm.Limits.GaugeError, qty.FromMM(0.005)},
		{"force_error", in.Limits.ForceError, 0.30, mm.Limits.ForceError, 0.30},
		{"temperature", in.Limits.Temperature, 2.0, mm.Limits.Temperature, 2.0},
		{"passes_most", in.Limits.PassesMost, 20, mm.Limits.PassesMost, 20},
		{"hand_rate", in.Limits.HandRate, qty.FromInches(20), mm.Limits.HandRate, qty.FromMM(500)},
		{"hold_minutes", in.Limits.HoldMinutes, 6.0, mm.Limits.HoldMinutes, 6.0},
		{"overhang of steel", in.Limits.Overhang, 4.0, mm.Limits.Overhang, 4.0},
		{"speed_most: the machine's", in.Limits.SpeedMost, qty.RevPerMin(0), mm.Limits.SpeedMost, qty.RevPerMin(0)},
		{"no sleeve; fit", in.Sleeve == nil, true, mm.Sleeve.Fit, "H7/r6"},
		{"allowance", 0, 0, mm.Sleeve.Allowance, qty.FromMM(0.4)},
		{"sleeve finish", 0, 0, mm.Sleeve.Finish, process.Decide},
		{"sleeve match", 0, 0, mm.Sleeve.Match, qty.FromMM(0.01)},
		// The readings reach 80.72 mm; 80.03 and two walls of 2.5 mm want 85.03.
		{"sleeve outside", 0, 0, mustLoad(t, strings.Replace(sleeveJob, "outside  = 86", "", 1)).Sleeve.Outside, qty.DiameterMM(86)},
	} {
		if row.got != row.wantInch || row.gotMM != row.wantMM {
			t.Errorf("%s: inch %v (want %v), mm %v (want %v)", row.what, row.got, row.wantInch, row.gotMM, row.wantMM)
		}
	}
}

// TestStandoff holds how far the nose is put from the face with quill feed:
// the quill is flush when the tip stands 0.25 in (6 mm) before the first bore,
// and never nearer than 1 in (25 mm).
func TestStandoff(t *testing.T) {
	for _, row := range []struct {
		why, file string
		want      qty.Length
	}{
		// Tip 9.5 in from the nose, bore at 6 in: 9.5 − (6 − 0.25).
		{"long bar", strings.Replace(reboreJob, `"table"`, `"quill"`, 1), qty.FromInches(3.75)},
		{"short bar", edit(t, reboreJob, `"table"`, `"quill"`, "length = 7.5", "length = 4.0", "diameter = 4.75", "diameter = 5.5"), qty.FromInches(1)},
		// A program brings the tip 50 mm in front of the face to be set.
		{"a control", edit(t, reboreJob, `"hbm-5in"`, `"cnc-110mm"`, `"table"`, `"quill"`), qty.FromInches(11.5)},
		{"stated", strings.Replace(reboreJob, `"table"`, "\"quill\"\nstandoff = 4", 1), qty.FromInches(4)},
		{"chosen by 0", strings.Replace(reboreJob, `"table"`, "\"quill\"\nstandoff = 0", 1), qty.FromInches(3.75)},
		{"table feed", reboreJob, 0},
	} {
		if got := mustLoad(t, row.file).Bar.Standoff; got != row.want {
			t.Errorf("%s: standoff %v, want %v", row.why, got.Inches(), row.want.Inches())
		}
	}
}

// TestSameJobInBothUnits writes one job in each unit and expects one job.
func TestSameJobInBothUnits(t *testing.T) {
	inch := mustLoad(t, reboreJob)
	words := reboreJob
	for _, n := range []string{"4.75", "3.546", "7.25", "3.625", "6.2", "0.031", "0.2"} {
		words = strings.ReplaceAll(words, " = "+n, fmt.Sprintf(" = \"%s in\"", n))
	}
	words = edit(t, words, `units    = "in"`, `units    = "mm"`, "to = 1.0", `to = "1.0 in"`, "from = 6.0", `from = "152.4 mm"`,
		"diameter = 3.5,", `diameter = "3.5 in",`, "length = 2.0", `length = "2.0 in"`, "diameter = 2.5,", `diameter = 63.5,`, "length = 7.5", `length = "190.5 mm"`,
		"ra      = 63", `ra      = "63 µin"`, "radius = [1.773, 1.7765, 1.782, 1.7755]", `radius = [45.0342, 45.1231, 45.2628, 45.0977]`,
		"dial    = [0, 0.0004, 0.0010, 0.0005]", `dial = [0, "10.16 µm", "0.0010 in", 0.0127]`)
	mm := mustLoad(t, words)
	mm.Units, mm.Limits, mm.LineUp, mm.Cutter.Behind = inch.Units, inch.Limits, inch.LineUp, inch.Cutter.Behind // the defaults are round in each unit
	if diff := cmp.Diff(inch, mm, cmpopts.IgnoreFields(process.Job{}, "Places")); diff != "" {
		t.Errorf("(-inch +mm):\n%s", diff)
	}
}

func TestWhere(t *testing.T) {
	j := mustLoad(t, reboreJob)
	for key, want := range map[string]string{
		"units": "job.toml:1:1", "station[1]": "job.toml:10:3", "station[1].diameter": "job.toml:10:43",
		"bore[0]": "job.toml:13:1", "bore[0].finish": "job.toml:16:1", "bore[0].finish.fit": "job.toml:16:31",
		"bore[0].finish.low": "job.toml:16:1", "bore[0].roundness": "job.toml:13:1",
		"bore[0].wear[0].radius[2]": "job.toml:18:77",
		"bar":                       "job.toml:20:1", "bar.steps[1].diameter": "job.toml:21:49", "bar.outboard.at": "job.toml:20:1",
		"limits.overhang": "job.toml:1:1", "nothing": "job.toml:1:1", "": "job.toml:1:1",
	} {
		if got := j.Where(key); got != want {
			t.Errorf("Where(%q) = %s, want %s", key, got, want)
		}
	}
	if got := (&process.Job{}).Where("bar"); got != "job.toml:1:1" {
		t.Errorf("a job made by hand: %s", got)
	}
}

// TestColumns counts characters, not bytes, and lines of every ending.
func TestColumns(t *testing.T) {
	file := "\ufeffunits = \"mm\" # µµµ\r\n\r\n# Ø\r\nlimits = { temperature = 2, spring_rough = \"5 µm\", force_errors = 1 }\r\n"
	_, err := Job("job.toml", []byte(file), nil)
	if err == nil || !strings.Contains(err.Error(), "job.toml:4:52: limits.force_errors: is not a key") {
		t.Errorf("%v", err)
	}
}

func TestTemplate(t *testing.T) {
	for _, u := range []qty.Unit{qty.Inches, qty.Metric} {
		data := Template(u)
		j, err := Job("new.toml", data, nil)
		if err != nil {
			t.Errorf("%s: %v", u, err)
			continue
		}
		if d := doubt.Of(j); len(d) > 0 || j.Units != u {
			t.Errorf("%s: units %s, doubts %q", u, j.Units, d)
		}
		for i, line := range strings.Split(string(data), "\n") {
			if len([]rune(line)) > 80 {
				t.Errorf("%s line %d is wider than 80 columns", u, i+1)
			}
		}
		// The sleeve that stands there as a remark works when its # are taken
		// away and the repair is named.
		lines := strings.Split(string(data), "\n")
		for i, in := 0, false; i < len(lines); i++ {
			if in = (in || lines[i] == "# [sleeve]") && lines[i] != ""; in {
				lines[i] = strings.TrimPrefix(lines[i], "# ")
			}
		}
		s := edit(t, strings.Join(lines, "\n"), `repair  = "rebore"`, `repair  = "sleeve"`)
		if j, err := Job("new.toml", []byte(s), nil); err != nil || j.Sleeve == nil {
			t.Errorf("%s, sleeved: %v", u, err)
		}
	}
}

// TestOwnFiles lets a job name files of the user's own.
func TestOwnFiles(t *testing.T) {
	mill, err := catalog.ReadFile("catalog/machines/hbm-5in.toml")
	if err != nil {
		t.Fatal(err)
	}
	iron, _ := catalog.ReadFile("catalog/materials/gray-iron-200hb.toml")
	tool, _ := catalog.ReadFile("catalog/cutters/hss.toml")
	steel, _ := catalog.ReadFile("catalog/bars/steel.toml")
	files := map[string][]byte{"mills/ours.toml": mill, "iron.toml": iron, "tool.toml": tool, "steel.toml": steel,
		"bad.toml": bytes.Replace(bytes.Replace(mill, []byte("tilt    = 4"), []byte("tilt = \"4\"\nwidth = 3"), 1), []byte("nose         = 9.25"), []byte("nose = 4.0"), 1)}
	open := func(path string) ([]byte, error) {
		if data, ok := files[path]; ok {
			return data, nil
		}
		return nil, errors.New("no such file")
	}
	job := edit(t, reboreJob, `"hbm-5in"`, `"mills/ours.toml"`, `"gray-iron-200hb"`, `"iron.toml"`, `"carbide"`, `"tool.toml"`, `feed_by = "table"`, `material = "steel.toml"`)
	j, err := Job("job.toml", []byte(job), open)
	if err != nil {
		t.Fatal(err)
	}
	if j.Machine.ID != "ours" || j.Material.ID != "iron" || j.Cutter.Material.ID != "tool" || j.Bar.Steps[0].Material.ID != "steel" {
		t.Errorf("IDs %q %q %q %q", j.Machine.ID, j.Material.ID, j.Cutter.Material.ID, j.Bar.Steps[0].Material.ID)
	}
	want := machineByID("hbm-5in")
	want.ID = "ours"
	if diff := cmp.Diff(want, j.Machine); diff != "" {
		t.Errorf("a copy of a built-in machine differs:\n%s", diff)
	}

	_, err = Job("job.toml", []byte(edit(t, reboreJob, `"hbm-5in"`, `"bad.toml"`, `"gray-iron-200hb"`, `"lost.toml"`, "ra      = 63", "ra      = 63\nnose_radius = 1")), open)
	text := `job.toml:5:1: machine: the file "bad.toml" has mistakes; they are listed below with its name
job.toml:6:1: material: the file "lost.toml" cannot be read: no such file; give a path relative to the job file, or a built-in material: {materials}
job.toml:18:1: bore[1].nose_radius: is not a key of a bore; nose_radius belongs in [cutter]
bad.toml:8:1: quill: Ø5 in is not smaller than the nose, Ø4 in; the quill slides in the nose and must be thinner
bad.toml:38:1: tilt: "4" is a text; write a number (MN·m/rad), as in tilt = 4
bad.toml:39:1: width: is not a key of the machine file; its keys are units, name, nose, quill, quill_travel, feed_by, speeds, speed_range, feeds, feed_range, power, torque, travel, radial, tilt, force_factor, joint_damping, damping, runout_error, index_place, index_angle, dial, set_dial, dial_turn, source, control`
	if err == nil {
		t.Fatal("loads")
	}
	if diff := cmp.Diff(withBuiltIns(text), err.Error()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestMachineAndCutterThatCannot: what only a file of the user's own brings.
func TestMachineAndCutterThatCannot(t *testing.T) {
	mill, _ := catalog.ReadFile("catalog/machines/hbm-5in.toml")
	iron, _ := catalog.ReadFile("catalog/materials/gray-iron-200hb.toml")
	s := string(iron)
	i, end := strings.Index(s, "[speed.carbide]"), strings.Index(s, "[source]")
	files := map[string]string{
		"quill.toml": edit(t, string(mill), `["table", "quill"]`, `["quill"]`),
		"table.toml": edit(t, string(mill), `["table", "quill"]`, `["table"]`),
		"iron.toml":  s[:i] + s[end:],
	}
	open := func(path string) ([]byte, error) { return []byte(files[path]), nil }
	for _, row := range []struct {
		why   string
		edits []string
		want  string
	}{
		{"no table feed, none asked for", []string{`"hbm-5in"`, `"quill.toml"`, `feed_by = "table"`, ``},
			`job.toml:20:1: bar: quill cannot feed by the table; write feed_by = "quill"`},
		{"no quill feed", []string{`"hbm-5in"`, `"table.toml"`, `feed_by = "table"`, `feed_by = "quill"`},
			`job.toml:22:1: bar.feed_by: table cannot feed by the quill; write feed_by = "table"`},
		{"no speeds for the cutter", []string{`"gray-iron-200hb"`, `"iron.toml"`},
			`job.toml:25:1: cutter.material: iron has no cutting speeds for carbide; choose another, or write cutter.speed = { rough = …, finish = … }`},
	} {
		_, err := Job("job.toml", []byte(edit(t, reboreJob, row.edits...)), open)
		if err == nil || err.Error() != row.want {
			t.Errorf("%s: %v", row.why, err)
		}
	}
	job := edit(t, reboreJob, `"gray-iron-200hb"`, `"iron.toml"`, "nose_radius = 0.031", "nose_radius = 0.031\nspeed = { rough = 200, finish = 300 }")
	if _, err := Job("job.toml", []byte(job), open); err != nil {
		t.Errorf("speeds of the job's own: %v", err)
	}
}

// A list under wall is the wall round the clock: a circle about another centre is
// known as one, and its thinnest may stand between two readings.
func TestWallRoundTheClock(t *testing.T) {
	var all []string
	for at := 0.; at < 360; at += 45 { // outside radius 66, 6 off toward 4 o'clock; the bore is 40.05
		th := (at - 120) * math.Pi / 180
		all = append(all, fmt.Sprintf("{ at = %g, metal = %.4f }", at, 6*math.Cos(th)+math.Sqrt(66*66-math.Pow(6*math.Sin(th), 2))-40.05))
	}
	for _, key := range []string{"wall", "walls"} {
		j := mustLoad(t, strings.Replace(sleeveJob, "wall = 19, wall_most = 32", key+" = [ "+strings.Join(all, ", ")+" ]", 1))
		s := j.Stations[2]
		if d := s.Wall - qty.FromMM(66-6-40.05); d.Abs() > qty.Micrometre {
			t.Errorf("thin %v", s.Wall)
		}
		if d := s.WallMost - qty.FromMM(66+6-40.05); d.Abs() > qty.Micrometre {
			t.Errorf("thick %v", s.WallMost)
		}
		w, ok := s.WallRound()
		if !ok || !w.Round || math.Abs(w.At-300) > 0.01 {
			t.Errorf("%+v", w)
		}
	}
}
