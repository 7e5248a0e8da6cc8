package files

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/storage"
)

// A job names its machine, and the loader finds it: only tests look one up.
func machineByID(id string) *process.Machine { return lookUp("machines", id, Machine) }

// TestBuiltIns loads all that is built in and sees that each figure says where
// it comes from.
func TestBuiltIns(t *testing.T) {
	var ids []string
	for _, m := range Machines() {
		ids = append(ids, m.ID)
		if machineByID(m.ID).ID != m.ID || m.Source == "" {
			t.Errorf("machine %q: look-up or source", m.ID)
		}
		// The nose gets stiffer, not softer, than the bars it holds; facts: 100 to
		// 400 N/µm, and 0.5 to 6 MN·m/rad from Morse to No. 50 taper (from memory).
		if m.Radial < 100 || m.Radial > 400 || m.Tilt < 0.5 || m.Tilt > 6 {
			t.Errorf("machine %q: stiffness %v N/µm, %v MN·m/rad", m.ID, m.Radial, m.Tilt)
		}
	}
	if len(ids) < 4 || !slices.IsSorted(ids) {
		t.Error(ids)
	}
	ids = nil
	for _, m := range Materials() {
		ids = append(ids, m.ID)
		if MaterialByID(m.ID).ID != m.ID {
			t.Errorf("material %q: look-up", m.ID)
		}
		for _, f := range field.Of(m) {
			if f.Kind == field.Number && m.Sources[f.Key] == "" {
				t.Errorf("material %q: %s has no source", m.ID, f.Key)
			}
		}
		for _, c := range process.CutterClasses() {
			b, ok := m.Speeds[c]
			if !ok || b.Source == "" || b.Rough[0] > b.Finish[0] || b.Rough[1] > b.Finish[1] {
				t.Errorf("material %q: speeds of %s: %+v", m.ID, c, b)
			}
		}
	}
	if len(ids) < 13 || !slices.IsSorted(ids) {
		t.Error(ids)
	}
	for _, c := range CutterMaterials() {
		if CutterMaterialByID(c.ID).ID != c.ID || c.Source == "" {
			t.Errorf("cutter %q: look-up or source", c.ID)
		}
	}
	for _, b := range BarMaterials() {
		if BarMaterialByID(b.ID).ID != b.ID || b.Source == "" {
			t.Errorf("bar %q: look-up or source", b.ID)
		}
	}
	if machineByID("none") != nil || MaterialByID("") != nil || CutterMaterialByID("../bars/steel") != nil || BarMaterialByID("hss") != nil {
		t.Error("finds what is not built in")
	}
	// What one caller does to a machine does not reach the next.
	machineByID("hbm-5in").Speeds.Steps[0] = 1
	if machineByID("hbm-5in").Speeds.Steps[0] != 6 {
		t.Error("built-in machines are shared")
	}
}

// TestLadders: gears are geometric ladders, rounded as name plates are, so no
// step may leave the true ratio by more than the rounding of two figures.
func TestLadders(t *testing.T) {
	m := machineByID("hbm-5in")
	if n := len(m.Speeds.Steps); n != 24 || m.Speeds.Least != 6 || m.Speeds.Most != 800 {
		t.Errorf("hbm-5in has %d speeds, %v to %v", n, m.Speeds.Least, m.Speeds.Most)
	}
	if n := len(m.Feeds.Steps); n != 16 || math.Abs(m.Feeds.Least-0.0015*25.4) > 1e-9 || math.Abs(m.Feeds.Most-0.060*25.4) > 1e-9 {
		t.Errorf("hbm-5in has %d feeds, %v to %v mm", n, m.Feeds.Least, m.Feeds.Most)
	}
	for _, m := range Machines() {
		for what, steps := range map[string][]float64{"speeds": m.Speeds.Steps, "feeds": m.Feeds.Steps} {
			if len(steps) == 0 {
				continue
			}
			ratio := math.Pow(steps[len(steps)-1]/steps[0], 1/float64(len(steps)-1))
			for i, s := range steps {
				if exact := steps[0] * math.Pow(ratio, float64(i)); math.Abs(s/exact-1) > 0.06 {
					t.Errorf("%s: %s step %d is %v, true %.4f", m.ID, what, i+1, s, exact)
				}
			}
		}
	}
}

// TestTorqueOfPower: the torque stated is what the power gives at the speed
// that the file names, P = 2π·n·T (closed form).
func TestTorqueOfPower(t *testing.T) {
	for id, rpm := range map[string]float64{"hbm-5in": 27, "hbm-4in": 25, "cnc-110mm": 140, "cnc-fixed-format": 64} {
		m := machineByID(id)
		if got := float64(m.Power) / (2 * math.Pi * rpm / 60); math.Abs(got/float64(m.Torque)-1) > 0.01 {
			t.Errorf("%s: %.0f W at %v rev/min gives %.0f N·m, not %.0f", id, float64(m.Power), rpm, got, float64(m.Torque))
		}
	}
	// 1 hp = 745.69987 W (NIST SP 811, Table B.8, "horsepower (550 ft·lbf/s)").
	if p := float64(machineByID("hbm-5in").Power) / 15; math.Abs(p-745.69987) > 1e-4 {
		t.Errorf("1 hp is %v W", p)
	}
	// 1 ft·lbf = 1.3558179 N·m (NIST SP 811, Table B.8).
	if n := float64(machineByID("hbm-5in").Torque) / 2900; math.Abs(n-1.3558179) > 1e-6 {
		t.Errorf("1 ft·lb is %v N·m", n)
	}
}

// TestThrust fits the thrust normal to a 75° edge over the cutting force,
//
//	(Ff·sin κ + Fp·cos κ)/Fc,  Fi = ki1.1·b·h^(1−mi),
//
// by a power of h over 0.05 to 0.4 mm, and holds the steels to it. Source of
// the constants: Koenig and Essel 1973 as reproduced in German textbooks, kf and
// kp from memory and doubtful.
func TestThrust(t *testing.T) {
	for _, row := range []struct {
		grade                  string
		kc, mc, kf, mf, kp, mp float64
		materials              []string
	}{
		{"St 50-2", 1990, 0.26, 351, 0.7, 274, 0.49, []string{"steel-1020", "steel-1026", "cast-steel"}},
		{"16MnCr5", 2100, 0.26, 391, 0.7, 324, 0.46, []string{"steel-4140"}},
		{"Ck60", 2130, 0.18, 347, 0.71, 250, 0.41, []string{"steel-1045"}},
	} {
		sin, cos := math.Sincos(75 * math.Pi / 180)
		const n = 13
		var sx, sy, sxx, sxy float64
		for i := range n {
			h := 0.05 * math.Pow(8, float64(i)/(n-1))
			x := math.Log(h)
			y := math.Log((row.kf*math.Pow(h, 1-row.mf)*sin + row.kp*math.Pow(h, 1-row.mp)*cos) / (row.kc * math.Pow(h, 1-row.mc)))
			sx, sy, sxx, sxy = sx+x, sy+y, sxx+x*x, sxy+x*y
		}
		slope := (n*sxy - sx*sy) / (n*sxx - sx*sx)
		ratio := math.Exp((sy - slope*sx) / n)
		for _, id := range row.materials {
			m := MaterialByID(id)
			if math.Abs(m.ThrustRatio-ratio) > 0.005 || math.Abs(m.ThrustFall+slope) > 0.005 {
				t.Errorf("%s: ratio %v fall %v, %s fits %.3f and %.3f", id, m.ThrustRatio, m.ThrustFall, row.grade, ratio, -slope)
			}
		}
	}
	// Gray iron, sharp: thrust over cutting force 0.35 to 0.5 at usual feeds
	// (textbook range, from memory); h = 0.24 mm is feed 0.25 mm at 75°.
	g := MaterialByID("gray-iron-200hb")
	for _, h := range []float64{0.13, 0.24} {
		if r := g.ThrustRatio * math.Pow(h, -g.ThrustFall); r < 0.35 || r > 0.5 {
			t.Errorf("gray iron: thrust over cutting force %.2f at h %v", r, h)
		}
	}
}

// TestPublishedFigures holds a few figures against the printed ones.
func TestPublishedFigures(t *testing.T) {
	for _, row := range []struct {
		what           string
		got, low, high float64
		source         string
	}{
		{"kc of gray iron at 45°, f 0.16 mm", kc("gray-iron-200hb", 0.16*math.Sin(math.Pi/4)), 2.05e3 * 0.975, 2.05e3 * 1.025, "kc against feed printed in a lathe work-holding norm, GJL-250"},
		{"kc of gray iron at 45°, f 1.6 mm", kc("gray-iron-200hb", 1.6*math.Sin(math.Pi/4)), 1.15e3 * 0.975, 1.15e3 * 1.025, "the same"},
		{"kc of 1026 at 45°, f 0.4 mm", kc("steel-1026", 0.4*math.Sin(math.Pi/4)), 2.75e3 * 0.98, 2.75e3 * 1.02, "the same, St 50-2"},
		{"E of steel bars, MPa", BarMaterialByID("steel").E, 207e3, 214e3, "Philpot, Mechanics of Materials, Table D.1b, 4140 and 4340"},
		{"E of malleable iron, MPa", MaterialByID("malleable-iron").E, 165e3, 179e3, "Hibbeler Appendix C 165; Philpot Table D.1b 179"},
		{"Rm of 4140, MPa", MaterialByID("steel-4140").Rm, 1014, 1014, "Philpot, Table D.1b, 4140 OQT 1100 F"},
		{"growth of gray iron, 1/K", MaterialByID("gray-iron-200hb").Alpha, 9.9e-6, 12e-6, "university lecture table 9.9 to 12e-6; Hibbeler Appendix C 12e-6"},
		{"finishing 304 with HSS, m/min", float64(MaterialByID("stainless-304").Speeds["hss"].Finish[1]), 24, 24, "USAF T.O. 1-1A-9 Table 2-8"},
		{"reach of a steel bar", BarMaterialByID("steel").Reach, 4, 4, "Machinery's Handbook; Stephenson and Agapiou"},
	} {
		if row.got < row.low*(1-1e-12) || row.got > row.high*(1+1e-12) {
			t.Errorf("%s: %v, want %v to %v (%s)", row.what, row.got, row.low, row.high, row.source)
		}
	}
}

// kc is Kienzle's specific cutting force, kc11·h^(−mc), N/mm².
func kc(id string, h float64) float64 {
	m := MaterialByID(id)
	return m.Kc11 * math.Pow(h, -m.Mc)
}

// TestBadFilesOfTheUser holds the mistakes of machine and material files.
func TestBadFilesOfTheUser(t *testing.T) {
	machine, _ := catalog.ReadFile("catalog/machines/cnc-110mm.toml")
	manual, _ := catalog.ReadFile("catalog/machines/hbm-5in.toml")
	material, _ := catalog.ReadFile("catalog/materials/brass.toml")
	cutter, _ := catalog.ReadFile("catalog/cutters/hss.toml")
	bar, _ := catalog.ReadFile("catalog/bars/steel.toml")
	load := map[string]func(text string) error{
		"machine":  func(s string) error { _, err := Machine("mill.toml", []byte(s)); return err },
		"material": func(s string) error { _, err := Material("metal.toml", []byte(s)); return err },
		"cutter":   func(s string) error { _, err := CutterMaterial("edge.toml", []byte(s)); return err },
		"bar":      func(s string) error { _, err := BarMaterial("bar.toml", []byte(s)); return err },
	}
	for _, row := range []struct {
		why, kind, file string
		edits           []string
		want            string
	}{
		{"gears and a range", "machine", string(machine), []string{"speed_range = [8, 2500]", "speeds = [8, 16]\nspeed_range = [8, 2500]"},
			`mill.toml:12:1: speed_range: stands beside speeds; give one: speeds for a gear box, speed_range for a drive without steps`},
		{"no speeds", "machine", string(machine), []string{"speed_range = [8, 2500]", ""},
			`mill.toml:1:1: speeds: is missing; write speeds = [6, 7.5, 9, 11, 14], or speed_range = [8, 2500]`},
		{"a ladder that falls", "machine", string(manual), []string{"9, 11, 14", "9, 14, 11"},
			`mill.toml:15:18: speeds[5]: the ladder does not rise here; list the steps from the lowest to the highest, each once`},
		{"a range reversed", "machine", string(machine), []string{"[0.01, 5]", "[5, 0.01]"},
			`mill.toml:12:1: feed_range: the first of the two, 5 mm/rev, is above the second, 0.01 mm/rev; write the smaller first`},
		{"damping reversed", "machine", string(machine), []string{"joint_damping = [0.03, 0.1]", "damping = [0.05, 0.02]"},
			`mill.toml:28:1: damping: the first of the two, 0.05, is above the second, 0.02; write the smaller first`},
		{"damping of the spindle reversed", "machine", string(machine), []string{"[0.03, 0.1]", "[0.1, 0.03]"},
			`mill.toml:28:1: joint_damping: the first of the two, 0.1, is above the second, 0.03; write the smaller first`},
		{"damping measured and not", "machine", string(machine), []string{"joint_damping = [0.03, 0.1]", "joint_damping = [0.03, 0.1]\ndamping = [0.02, 0.05]"},
			`mill.toml:28:1: joint_damping: stands beside damping; give one: damping where that of a bar in this spindle was measured, else joint_damping`},
		{"no damping", "machine", string(machine), []string{"joint_damping = [0.03, 0.1]", ""},
			`mill.toml:1:1: joint_damping: is missing; write joint_damping = [0.03, 0.1], or damping = [0.02, 0.05]`},
		{"quill twice", "machine", string(machine), []string{`["table", "quill"]`, `["quill", "quill"]`},
			`mill.toml:9:26: feed_by[2]: "quill" stands here twice; name each once`},
		{"a quill without travel", "machine", string(machine), []string{`quill_travel = 550`, ``},
			`mill.toml:9:1: feed_by: names the quill, whose quill_travel is 0; write quill_travel, or feed by the table alone`},
		{"quill thicker than the nose", "machine", string(machine), []string{`nose         = 221`, `nose         = 100`},
			`mill.toml:7:1: quill: Ø110 mm is not smaller than the nose, Ø100 mm; the quill slides in the nose and must be thinner`},
		{"torque in the wrong unit", "machine", string(machine), []string{`"1500 N·m"`, `"15 N·m"`},
			`mill.toml:16:1: torque: with this torque the power would be reached at 14006 rev/min, above the fastest speed 2500; check the units of torque and power`},
		{"a power without its unit", "machine", string(machine), []string{`"22 kW"`, `"22 PS"`},
			`mill.toml:15:1: power: "22 PS" is not a power (kW); write it as "22 kW"`},
		{"part of a graduation in a turn", "machine", string(machine), []string{`dial_turn = 0.5`, `dial_turn = 0.505`},
			`mill.toml:32:1: dial_turn: 0.505 mm is 50.5 graduations of 0.01 mm; one turn of the dial is a whole number of its graduations, four at least, both on diameter`},
		{"an axis twice", "machine", string(machine), []string{`axis = "Y"`, `axis = "X"`},
			`mill.toml:20:5: travel[2].axis: axis X stands here twice; give each axis its own letter`},
		{"both feed as Z", "machine", string(machine), []string{`quill_axis     = "W"`, `quill_axis     = "Z"`},
			`mill.toml:51:1: control.quill_axis: table and quill both feed as Z; give them different letters: feed_axis = "W", quill_axis = "Z" or the reverse`},
		{"an axis that is not there", "machine", string(machine), []string{`axis = "W"`, `axis = "U"`},
			`mill.toml:51:1: control.quill_axis: axis W is not among the travels; list it under travel, or name the letter that feeds`},
		{"no place of the tip", "machine", string(machine), []string{`tip_at_stop    = "+X"`, ``},
			`mill.toml:45:1: control.oriented_stop: does not say where the tip points after M19; write tip_at_stop = "+X" (or "-X", "+Y", "-Y") as seen from the spindle`},
		{"a tip without a stop", "machine", string(machine), []string{`oriented_stop  = true`, ``},
			`mill.toml:46:1: control.tip_at_stop: is given, but the spindle has no oriented stop; write oriented_stop = true, or leave tip_at_stop out`},
		{"a gauge line without a length", "machine", string(machine), []string{`cycles         = false`, "gauge_line = 12"},
			`mill.toml:41:1: control.gauge_line: is given, and no length offset is called; write length_offset, or leave it out`},
		{"across before out", "machine", string(machine), []string{`cycles         = false`, "home_word = \"G28\"\nhome_axes = [\"X\", \"feed\"]"},
			`mill.toml:42:14: control.home_axes[1]: X goes before the bar is out of the work; write "feed" first`},
		{"a slide twice", "machine", string(machine), []string{`cycles         = false`, "home_word = \"G28\"\nhome_axes = [\"feed\", \"X\", \"X\"]"},
			`mill.toml:42:27: control.home_axes[3]: X stands here twice; name each once`},
		{"nowhere to go", "machine", string(machine), []string{`cycles         = false`, "home_axes = [\"feed\"]"},
			`mill.toml:41:1: control.home_axes: is given, but no slide goes home; write home_word = "G28" or "G53", or leave it out`},
		{"two places to go", "machine", string(machine), []string{`cycles         = false`, "home_word = \"G28\"\nhome_at = [0]"},
			`mill.toml:42:1: control.home_at: is given, and G28 goes to the reference position; leave it out, or write home_word = "G53"`},
		{"fewer places than slides", "machine", string(machine), []string{`cycles         = false`, "home_word = \"G53\"\nhome_axes = [\"feed\", \"X\"]\nhome_at = [0]"},
			`mill.toml:43:1: control.home_at: 1 positions for 2 slides; give as many as home_axes`},
		{"a gap between spindle ranges", "machine", string(machine), []string{`cycles         = false`, `gear = [ { word = "M41", speeds = [1, 100] }, { word = "M42", speeds = [101, 9000] } ]`},
			`mill.toml:41:1: control.gear: holds no range for 100 rev/min, a speed of this machine; let the ranges meet, and cover speeds or speed_range`},
		{"a range twice", "machine", string(machine), []string{`cycles         = false`, `gear = [ { word = "M41", speeds = [1, 100] }, { word = "M41", speeds = [100, 9000] } ]`},
			`mill.toml:41:49: control.gear[2].word: M41 stands here twice; give each range its own word`},
		{"an angle without its letter", "machine", string(machine), []string{`cycles         = false`, `orient_angle = 90`},
			`mill.toml:41:1: control.orient_angle: stands alone; give both orient_word = "S" or "R" and orient_angle, or neither`},
		{"a settling dwell in turns", "machine", string(machine), []string{`dwell          = "seconds"`, "dwell = \"revolutions\"\norient_settle = 0.5"},
			`mill.toml:44:1: control.orient_settle: cannot be counted in revolutions: the spindle stands; leave it out, or write dwell = "seconds" or "milliseconds"`},
		{"a part of a name that is none", "machine", string(machine), []string{`cycles         = false`, `file_name = "{job}{visit}"`},
			`mill.toml:41:1: control.file_name: {job} is no part of a name; the parts are {number}, {revision}, {bore}, {visit}, {program}`},
		{"a name for all visits", "machine", string(machine), []string{`cycles         = false`, `file_name = "{number}"`},
			`mill.toml:41:1: control.file_name: does not tell the programs of a job apart; put {visit} or {program} in it`},
		{"a path for a name", "machine", string(machine), []string{`cycles         = false`, `file_name = "../{visit}"`},
			`mill.toml:41:1: control.file_name: "../{visit}" has characters that not every file system takes; write letters, digits, - and _, and parts in braces: {number}, {revision}, {bore}, {visit}, {program}`},
		{"a name by a number that is none", "machine", string(machine), []string{`cycles         = false`, `file_name = "P{program}"`},
			`mill.toml:41:1: control.file_name: {program} needs program_number; state it, or leave the part out`},
		{"an ending with its point", "machine", string(machine), []string{`cycles         = false`, `file_extension = ".nc"`},
			`mill.toml:41:1: control.file_extension: ".nc" is no ending of a file; give up to 8 letters and digits, without a point, or "none"`},
		{"one file without numbers", "machine", string(machine), []string{`cycles         = false`, `one_file = true`},
			`mill.toml:41:1: control.one_file: needs program_number: O words tell the programs of a file apart; state program_number, or one file for each visit`},
		{"one file named for a bore", "machine", string(machine), []string{`program_number = 0`, "program_number = 7\none_file = true\nfile_name = \"{bore}{visit}\""},
			`mill.toml:51:1: control.file_name: {bore} names one bore, and the file is of all; leave it out, or one_file`},
		{"a restart step of one block", "machine", string(machine), []string{`cycles         = false`, `restart_step = 10`},
			`mill.toml:41:1: control.restart_step: 10 is no more than block_step, 10; state more than one block takes: 1000`},
		{"a source of nothing", "machine", string(machine), []string{`[source]`, "[source]\nstifness = \"felt\""},
			`mill.toml:58:1: source.stifness: is not a key of the machine file; its keys are units, name, nose, quill, quill_travel, feed_by, speeds, speed_range, feeds, feed_range, power, torque, travel, radial, tilt, force_factor, joint_damping, damping, runout_error, index_place, index_angle, dial, set_dial, dial_turn, source, control`},
		{"syntax", "machine", string(machine), []string{`nose         = 221`, `nose         221`},
			`mill.toml:6:14: there is no = after the key; write key = value, as in title = "Gear case"`},
		{"yield above tensile", "material", string(material), []string{`yield      = 180`, `yield      = 480`},
			`metal.toml:17:1: yield: 480 MPa is above the tensile strength 400 MPa; yield cannot be above tensile`},
		{"speeds reversed", "material", string(material), []string{`rough  = [60, 100]`, `rough  = [100, 60]`},
			`metal.toml:23:1: speed.hss.rough: the first of the two, 100 m/min, is above the second, 60 m/min; write the smaller first`},
		{"a class of cutter that is none", "material", string(material), []string{`[speed.hss]`, `[speed.hs]`},
			`metal.toml:22:1: speed.hs: is not a key of [speed]; did you mean hss?`},
		{"modulus in MPa", "material", string(material), []string{`elasticity = 100`, `elasticity = 100000`},
			`metal.toml:14:1: elasticity: 100000 GPa is out of range; allowed is 10 to 700 GPa`},
		{"no such class", "cutter", string(cutter), []string{`class    = "hss"`, `class    = "ceramic"`},
			`edge.toml:3:1: class: "ceramic" is not known here; write "hss", "carbide" or "carbide-coated"`},
		{"no modulus", "bar", string(bar), []string{`elasticity = 207`, ``},
			`bar.toml:1:1: elasticity: is missing; write elasticity = 207 (modulus of elasticity)`},
		{"damping of a bar reversed", "bar", string(bar), []string{`[0.0002, 0.001]`, `[0.001, 0.0002]`},
			`bar.toml:7:1: damping: the first of the two, 0.001, is above the second, 0.0002; write the smaller first`},
	} {
		t.Run(row.why, func(t *testing.T) {
			err := load[row.kind](edit(t, row.file, row.edits...))
			if err == nil {
				t.Fatal("loads")
			}
			if diff := cmp.Diff(row.want, err.Error()); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// TestControls holds what the two numerical controls are said to take.
func TestControls(t *testing.T) {
	if machineByID("hbm-5in").Control != nil {
		t.Error("a manual mill has a control")
	}
	got := machineByID("cnc-fixed-format").Control
	want := &process.Control{WholePlaces: 3, PartPlaces: 4, DropZeros: process.LeadingZeros, Units: qty.Inches, UnitsWord: process.G70G71, BlockNumbers: true, BlockStep: 1,
		Dwell: process.DwellMilliseconds, DwellWord: 'X', Comments: true, Percent: true, FeedAxis: 'W', QuillAxis: 'Z', LineMost: 64, PlainText: true, Storage: storage.Storage{FileExtension: "nc"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	c := machineByID("cnc-110mm").Control
	if !c.DecimalPoint || !c.FeedPerRev || c.Cycles || !c.OrientedStop || c.TipAtStop != process.TipPlusX || c.FeedAxis != 'Z' || c.QuillAxis != 'W' || c.PartPlaces != 3 || c.Units != qty.Metric {
		t.Errorf("%+v", c)
	}
	// Left out, the places follow the units of the program.
	text, _ := catalog.ReadFile("catalog/machines/cnc-110mm.toml")
	s := edit(t, string(text), "[control]", "[control]\nunits = \"in\"")
	m, err := Machine("mill.toml", []byte(s))
	if err != nil || m.Control.PartPlaces != 4 || m.Control.Units != qty.Inches {
		t.Errorf("%+v, %v", m, err)
	}
}
