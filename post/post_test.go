package post

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
)

func program(t *testing.T, p *plan.Plan, bore, visit int) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, p, bore, visit); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// onlyWords are the lines that are neither comments nor percent signs.
func onlyWords(program string) string {
	var out []string
	for l := range strings.Lines(program) {
		if l[0] != '(' && l[0] != '%' {
			out = append(out, strings.TrimSpace(l))
		}
	}
	return strings.Join(out, "\n")
}

// one leaves a single pass in each visit.
func one(p *plan.Plan) *plan.Plan {
	for i := range p.Bores[0].Visits {
		p.Bores[0].Visits[i].Passes = p.Bores[0].Visits[i].Passes[:1]
	}
	return p
}

// TestWords: the words of one pass, one property of the control at a time. The
// order of words is that of the language's reference (safe start block by
// groups, order of letters in a block): NISTIR 6556, 3.8, and for fixed format,
// G70/G71, G95 and M19 from memory of EIA RS-274-D.
func TestWords(t *testing.T) {
	const cut = "S112 M3\nG0 Z2.2500\nG0 X0.0000 Y0.0000\nG0 Z-14.3800\nG1 Z-16.9550 F0.0090\nG4 P0.536\nG1 Z-14.3800 F0.0090\nM5\nG0 Z2.2500\nM5\nM0\nM5\nG0 Z2.2500\nM30"
	for _, c := range []struct {
		why    string
		change func(c *process.Control, p *plan.Plan)
		visit  int
		want   string
	}{
		{"as it stands", func(*process.Control, *plan.Plan) {}, 0,
			"O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut},
		{"no program number, no work offset, no percent", func(c *process.Control, _ *plan.Plan) { c.ProgramNumber, c.WorkOffset, c.Percent = 0, 0, false }, 0,
			"G17 G20 G40 G49 G90 G95\nM5\nM0\nG17 G20 G40 G49 G90 G95\n" + cut},
		{"cycles, return words", func(c *process.Control, _ *plan.Plan) { c.Cycles, c.ReturnWords = true, true }, 0,
			"O2041\nG17 G20 G40 G49 G80 G90 G95 G98\nG54\nM5\nM0\nG17 G20 G40 G49 G80 G90 G95 G98\nG54\nS112 M3\nG0 Z2.2500\nG0 X0.0000 Y0.0000\nG0 Z-14.3800\n" +
				"G89 X0.0000 Y0.0000 Z-16.9550 R-14.3800 P0.536 F0.0090\nG80\nM5\nG0 Z2.2500\nM5\nM0\nM5\nG0 Z2.2500\nM30"},
		{"an open bore needs no dwell: G85", func(c *process.Control, p *plan.Plan) {
			c.Cycles, p.Bores[0].Station.Blind, p.Bores[0].Visits[0].End = true, false, in(17)
		}, 0, "O2041\nG17 G20 G40 G49 G80 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G80 G90 G95\nG54\nS112 M3\nG0 Z2.2500\nG0 X0.0000 Y0.0000\nG0 Z-14.3800\n" +
			"G85 X0.0000 Y0.0000 Z-17.0000 R-14.3800 F0.0090\nG80\nM5\nG0 Z2.2500\nM5\nM0\nM5\nG0 Z2.2500\nM30"},
		{"a cycle block that is too long is written out", func(c *process.Control, _ *plan.Plan) { c.Cycles, c.LineMost = true, 40 }, 0,
			"O2041\nG17 G20 G40 G49 G80 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G80 G90 G95\nG54\n" + cut},
		{"cycles run along Z only", func(c *process.Control, _ *plan.Plan) { c.Cycles, c.FeedAxis = true, 'W' }, 0,
			strings.ReplaceAll("O2041\nG17 G20 G40 G49 G80 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G80 G90 G95\nG54\n"+cut, "Z", "W")},
		{"quill feed", func(_ *process.Control, p *plan.Plan) {
			p.Job.Bar.FeedBy, p.Job.Bar.Standoff = process.QuillFeed, in(24)
		}, 0,
			strings.ReplaceAll("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "Z", "W")},
		{"feed a minute: 0.009 in × 112", func(c *process.Control, _ *plan.Plan) { c.FeedPerRev = false }, 0,
			strings.ReplaceAll(strings.ReplaceAll("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "G95", "G94"), "F0.0090", "F1.0080")},
		{"dwell X in milliseconds", func(c *process.Control, _ *plan.Plan) { c.Dwell, c.DwellWord = process.DwellMilliseconds, 'X' }, 0,
			strings.ReplaceAll("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "P0.536", "X536")},
		{"dwell F in revolutions", func(c *process.Control, _ *plan.Plan) { c.Dwell, c.DwellWord = process.DwellRevolutions, 'F' }, 0,
			strings.ReplaceAll("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "P0.536", "F1")},
		{"fixed format 3.4, leading zeros dropped, tight, numbered", func(c *process.Control, _ *plan.Plan) {
			c.DecimalPoint, c.WholePlaces, c.DropZeros, c.SpaceWords, c.BlockNumbers, c.BlockStep = false, 3, process.LeadingZeros, false, true, 5
			c.UnitsWord, c.Dwell = process.G70G71, process.DwellMilliseconds
		}, 0, "O2041\nN5G17G70G40G49G90G95\nN10G54\nN15M5\nN20M0\nN25G17G70G40G49G90G95\nN30G54\nN35S112M3\nN40G0Z22500\nN45G0X0Y0\nN50G0Z-143800\n" +
			"N55G1Z-169550F90\nN60G4P536\nN65G1Z-143800F90\nN70M5\nN75G0Z22500\nN80M5\nN85M0\nN90M5\nN95G0Z22500\nN100M30"},
		{"fixed format 4.3 mm, trailing zeros dropped", func(c *process.Control, _ *plan.Plan) {
			c.DecimalPoint, c.WholePlaces, c.PartPlaces, c.DropZeros, c.Units = false, 4, 3, process.TrailingZeros, qty.Metric
		}, 0, "O2041\nG17 G21 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G21 G40 G49 G90 G95\nG54\nS112 M3\nG0 Z0055\nG0 X0 Y0\nG0 Z-0365252\n" +
			"G1 Z-0430657 F0000229\nG4 P0000536\nG1 Z-0365252 F0000229\nM5\nG0 Z0055\nM5\nM0\nM5\nG0 Z0055\nM30"},
		{"fixed format 4.3 mm, no zeros dropped", func(c *process.Control, _ *plan.Plan) {
			c.DecimalPoint, c.WholePlaces, c.PartPlaces, c.DropZeros, c.Units = false, 4, 3, process.KeptZeros, qty.Metric
		}, 0, "O2041\nG17 G21 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G21 G40 G49 G90 G95\nG54\nS112 M3\nG0 Z0055000\nG0 X0000000 Y0000000\nG0 Z-0365252\n" +
			"G1 Z-0430657 F0000229\nG4 P0000536\nG1 Z-0365252 F0000229\nM5\nG0 Z0055000\nM5\nM0\nM5\nG0 Z0055000\nM30"},
		{"coolant", func(c *process.Control, _ *plan.Plan) { c.Coolant = 8 }, 0,
			strings.NewReplacer("M5\nM0", "M9\nM5\nM0", "G1 Z-16.9550", "M8\nG1 Z-16.9550", "F0.0090\nM5\n", "F0.0090\nM9\nM5\n", "M5\nG0 Z2.2500\nM30", "M9\nM5\nG0 Z2.2500\nM30").
				Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"a metal that is cut dry", func(c *process.Control, p *plan.Plan) {
			c.Coolant = 8
			p.Bores[0].Visits[0].Material = &process.Material{Speeds: map[string]process.SpeedBand{"": {Dry: true}}}
		}, 0,
			strings.NewReplacer("M5\nM0", "M9\nM5\nM0", "M5\nG0 Z2.2500\nM30", "M9\nM5\nG0 Z2.2500\nM30").
				Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"spindle ranges: the first that holds the speed", func(c *process.Control, _ *plan.Plan) {
			c.Gears = []process.GearRange{{Word: 41, Least: 8, Most: 111}, {Word: 42, Least: 90, Most: 400}, {Word: 43, Least: 100, Most: 2500}}
		}, 0, strings.Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "S112 M3", "M42\nS112 M3", 1)},
		{"home by G28, the bar out first", func(c *process.Control, _ *plan.Plan) {
			c.HomeWord, c.HomeAxes = 28, []process.HomeAxis{process.HomeFeed, process.HomeY}
		}, 0, strings.NewReplacer("G54\nM5\nM0\nG17", "G54\nG91 G28 Z0.0000\nG91 G28 Y0.0000\nG90\nM5\nM0\nG17", "\nM30", "\nG91 G28 Z0.0000\nG91 G28 Y0.0000\nG90\nM30").
			Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"home by machine positions", func(c *process.Control, _ *plan.Plan) {
			c.HomeWord, c.HomeAxes, c.HomeAt = 53, []process.HomeAxis{process.HomeFeed, process.HomeX}, []qty.Length{0, in(-12.5)}
		}, 0, strings.NewReplacer("G54\nM5\nM0\nG17", "G54\nG53 G0 Z0.0000\nG53 G0 X-12.5000\nM5\nM0\nG17", "\nM30", "\nG53 G0 Z0.0000\nG53 G0 X-12.5000\nM30").
			Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"a bar in an outboard support does not go home", func(c *process.Control, p *plan.Plan) {
			c.HomeWord, c.HomeAxes, p.Job.Bar.Outboard = 28, []process.HomeAxis{process.HomeFeed}, &process.Support{At: in(30)}
		}, 0, strings.ReplaceAll("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "Z2.2500", "Z2.0000")},
		{"tool and length", func(c *process.Control, _ *plan.Plan) { c.Tool, c.LengthOffset = 7, 9 }, 0,
			"O2041\nG17 G20 G40 G49 G90 G95\nG54\nT7 M6\nM5\nM0\nG17 G20 G40 G90 G95\nG54\nG43 H9\n" + strings.Replace(cut, "\nM30", "\nG49\nM30", 1)},
		{"tool and length, home first", func(c *process.Control, _ *plan.Plan) {
			c.Tool, c.LengthOffset, c.HomeWord, c.HomeAxes = 7, 9, 28, []process.HomeAxis{process.HomeFeed}
		}, 0, "O2041\nG17 G20 G40 G49 G90 G95\nG54\nG91 G28 Z0.0000\nG90\nT7 M6\nM5\nM0\nG17 G20 G40 G90 G95\nG54\nG43 H9\n" +
			strings.Replace(cut, "\nM30", "\nG91 G28 Z0.0000\nG90\nG49\nM30", 1)},
		{"the length is Z's", func(c *process.Control, _ *plan.Plan) { c.LengthOffset, c.FeedAxis = 9, 'W' }, 0,
			strings.ReplaceAll("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "Z", "W")},
		{"restart marks, all blocks numbered", func(c *process.Control, _ *plan.Plan) { c.BlockNumbers, c.BlockStep, c.RestartStep = true, 5, 1000 }, 0,
			"O2041\nN5 G17 G20 G40 G49 G90 G95\nN10 G54\nN1000 M5\nN1005 M0\nN1010 G17 G20 G40 G49 G90 G95\nN1015 G54\nN1020 S112 M3\nN1025 G0 Z2.2500\nN1030 G0 X0.0000 Y0.0000\nN1035 G0 Z-14.3800\n" +
				"N1040 G1 Z-16.9550 F0.0090\nN1045 G4 P0.536\nN1050 G1 Z-14.3800 F0.0090\nN1055 M5\nN1060 G0 Z2.2500\nN1065 M5\nN1070 M0\nN1075 M5\nN1080 G0 Z2.2500\nN1085 M30"},
		{"restart marks alone", func(c *process.Control, _ *plan.Plan) { c.RestartStep = 1 }, 0,
			strings.Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "M5\nM0", "N1 M5\nM0", 1)},
		{"every place, with points", func(c *process.Control, _ *plan.Plan) { c.WholePlaces, c.DropZeros = 3, process.KeptZeros }, 0,
			strings.NewReplacer("Z2.2500", "Z002.2500", "X0.0000 Y0.0000", "X000.0000 Y000.0000", "-14.3800", "-014.3800", "-16.9550", "-016.9550", "F0.0090", "F000.0090", "P0.536", "P000.5360").
				Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"no leading zeros, with points", func(c *process.Control, _ *plan.Plan) { c.DropZeros = process.LeadingZeros }, 0,
			strings.NewReplacer("X0.0000 Y0.0000", "X.0000 Y.0000", "F0.0090", "F.0090", "P0.536", "P.536").
				Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"no trailing zeros, with points", func(c *process.Control, _ *plan.Plan) { c.DropZeros = process.TrailingZeros }, 0,
			strings.NewReplacer("Z2.2500", "Z2.25", "X0.0000 Y0.0000", "X0. Y0.", "-14.3800", "-14.38", "-16.9550", "-16.955", "F0.0090", "F0.009").
				Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"mm with G71", func(c *process.Control, _ *plan.Plan) {
			c.Units, c.PartPlaces, c.UnitsWord = qty.Metric, 3, process.G70G71
		}, 0,
			"O2041\nG17 G71 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G71 G40 G49 G90 G95\nG54\nS112 M3\nG0 Z55.000\nG0 X0.000 Y0.000\nG0 Z-365.252\n" +
				"G1 Z-430.657 F0.229\nG4 P0.536\nG1 Z-365.252 F0.229\nM5\nG0 Z55.000\nM5\nM0\nM5\nG0 Z55.000\nM30"},
		{"oriented stop: off the wall, out, back on the axis", func(c *process.Control, p *plan.Plan) {
			c.OrientedStop = true
			comesOut(&p.Bores[0].Visits[1], in(0.02), "why")
		}, 1,
			"O2042\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\nS180 M3\nG0 Z2.2500\nG0 X0.0000 Y0.0000\nG0 Z-14.3800\n" +
				"G1 Z-16.9550 F0.0060\nG4 P0.334\nM5\nM19\nG0 Y-0.0200\nG0 Z2.2500\nG0 X0.0000 Y0.0000\nM5\nM0\nM5\nG0 Z2.2500\nM30"},
		{"tip at -X: the bar moves to +X", func(c *process.Control, p *plan.Plan) {
			c.OrientedStop, c.TipAtStop = true, process.TipMinusX
			comesOut(&p.Bores[0].Visits[1], in(0.02), "why")
		}, 1,
			"O2042\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\nS180 M3\nG0 Z2.2500\nG0 X0.0000 Y0.0000\nG0 Z-14.3800\n" +
				"G1 Z-16.9550 F0.0060\nG4 P0.334\nM5\nM19\nG0 X0.0200\nG0 Z2.2500\nG0 X0.0000 Y0.0000\nM5\nM0\nM5\nG0 Z2.2500\nM30"},
		{"an oriented stop that the plan does not use", func(c *process.Control, _ *plan.Plan) { c.OrientedStop = true }, 0,
			"O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut},
		{"a slow geared step", func(_ *process.Control, p *plan.Plan) { p.Bores[0].Visits[0].Passes[0].Speed = 11.2 }, 0,
			strings.NewReplacer("S112", "S11.2", "P0.536", "P5.358").Replace("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n" + cut)},
		{"fixed format, a geared step of 18.5: a full turn takes 60/18.5 s", func(c *process.Control, p *plan.Plan) {
			c.DecimalPoint, c.WholePlaces, c.DropZeros = false, 3, process.LeadingZeros
			p.Bores[0].Visits[0].Passes[0].Speed = 18.5
		}, 0, "O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\nS19 M3\nG0 Z22500\nG0 X0 Y0\nG0 Z-143800\n" +
			"G1 Z-169550 F90\nG4 P32440\nG1 Z-143800 F90\nM5\nG0 Z22500\nM5\nM0\nM5\nG0 Z22500\nM30"},
		{"the bar's end past the cutter is outside too", func(_ *process.Control, p *plan.Plan) { p.Job.Bar.CutterAt = in(17) }, 0,
			strings.ReplaceAll("O2041\nG17 G20 G40 G49 G90 G95\nG54\nM5\nM0\nG17 G20 G40 G49 G90 G95\nG54\n"+cut, "Z2.2500", "Z5.0000")},
	} {
		ctl := control()
		ctl.BlockNumbers = false
		p := one(idler(ctl))
		p.Job.Bar.CutterAt = in(19.93) // the bar ends a little past the cutter, within the relief
		c.change(ctl, p)
		if got := onlyWords(program(t, p, 0, c.visit)); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.why, strings.ReplaceAll(got, "\n", " | "), strings.ReplaceAll(c.want, "\n", " | "))
		}
	}
}

// Every stop says what to do, and every measure of the plan is passed on.
func TestComments(t *testing.T) {
	p := idler(control())
	text := strings.Join(strings.Fields(strings.NewReplacer("(", " ", ")", " ").Replace(program(t, p, 0, 0))), " ")
	for _, want := range []string{
		"WG-204 REV C: LOCK-GATE WINCH, GEAR CASE 2: RESTORE IDLER BORE",
		"BORE IDLER, VISIT 1 OF 2: BORE THE HOUSING FOR THE SLEEVE",
		"UNITS: INCH", "X0 Y0 ON THE TRUE AXIS", "Z0 AT THE FACE THAT THE SPINDLE ENTERS", "Z PLUS AWAY FROM THE WORK", "Z FEEDS: TABLE",
		"DIA 2.2500 X 17.5000 IN STEEL", "HSS, NOSE RADIUS 0.0310 IN",
		"1 ROUGH: SET DIA 3.3005", "4 SPRING: SET DIA 3.3766",
		"PROVE OUT ABOVE THE WORK", "SINGLE BLOCK", "CHECK CLAMPING", "GUARDS SHUT", "LOCAL CODES", "WATCH FOR CHATTER",
		"BEFORE: SWEEP THE COVER POCKET",
		"PASS 1, 1 OF 4: ROUGH SET CUTTER TO DIA 3.3005 IN, SPRING ALLOWED FOR. EXPECT BORE DIA 3.2960 TO 3.3040 IN",
		"ONLY IF THE HOLD AFTER PASS 1 FOUND DIA 3.2960 TO 3.3040 IN",
		"LEAVE CUTTER AT DIA 3.3766 IN",
		"HOLD AFTER PASS 2", "MEASURE: BORE GAUGE AT DEPTH 14.7 IN AND 16.6 IN, CLOCK POSITIONS 12 AND 3",
		"MEASURE: WORK TEMPERATURE - LET THE CHIPS COOL", "THEN: ENTER THE FOUR SIZES",
		"FINISH SIZE: DIA 3.3750 TO 3.3763 IN, H7", // 85.760 mm is 3.37638 in: never rounded outward
		"THEN: DEBURR, CLEAN",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in the comments", want)
		}
	}
	p.Job.Bar.Outboard = &process.Support{}
	if text := program(t, p, 0, 0); !strings.Contains(text, "OUTBOARD SUPPORT") || strings.Contains(text, "BY HAND, BAR OUT OF THE WORK") {
		t.Error("a bar in a support cannot be moved aside, and X0 Y0 must be set before it goes in")
	}
	ctl := control()
	ctl.Comments = false
	if text := program(t, idler(ctl), 0, 0); strings.ContainsAny(text, "()") {
		t.Error("comments for a control that takes none")
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		why         string
		kind        Kind
		change      func(p *plan.Plan, c *process.Control)
		bore, visit int
		want        string
	}{
		{"not feasible", NoVisit, func(p *plan.Plan, _ *process.Control) {
			p.Feasible, p.Reasons = false, []plan.Reason{{Where: "wg-204.toml:31:1: bar", What: fact.AsWritten("springs 0.004 in")}}
		}, 0, 0, "wg-204.toml:31:1: bar: springs 0.004 in"},
		{"a manual mill", NoVisit, func(p *plan.Plan, _ *process.Control) { p.Job.Machine.Control = nil }, 0, 0, "no control"},
		{"no machine", NoVisit, func(p *plan.Plan, _ *process.Control) { p.Job.Machine = nil }, 0, 0, "no machine"},
		{"no such bore", NoVisit, func(*plan.Plan, *process.Control) {}, 1, 0, "bore 1"},
		{"no such visit", NoVisit, func(*plan.Plan, *process.Control) {}, 0, 2, "visit 2"},
		{"below zero", NoVisit, func(*plan.Plan, *process.Control) {}, 0, -1, "visit -1"},
		{"no passes", BadVisit, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].Passes = nil }, 0, 0, "no passes"},
		{"through the bottom", BadVisit, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].End = in(16.9551) }, 0, 0, "past the closed end"},
		{"depths crossed", BadVisit, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].Clear = in(14.6) }, 0, 0, "depths out of order"},
		{"no speed", BadVisit, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].Passes[1].Speed = 0 }, 0, 0, "pass 2: setting"},
		{"a feed that rounds to another", NoWord, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].Passes[1].Feed = in(0.00014) }, 0, 0, "more than 5 %"},
		{"a speed that rounds to another", NoWord, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].Passes[1].Speed = 0.12 }, 0, 0, "S word cannot say it"},
		{"a speed that no spindle range holds", NoWord, func(_ *plan.Plan, c *process.Control) { c.Gears = []process.GearRange{{Word: 41, Least: 8, Most: 100}} }, 0, 0, "none of the spindle ranges"},
		{"a restart mark of six digits", NoWord, func(p *plan.Plan, c *process.Control) { c.RestartStep, p.Bores[0].Visits[0].Passes[1].N = 10000, 11 }, 0, 0, "state restart_step = 9090 or less"},
		{"a restart mark that is passed", NoWord, func(_ *plan.Plan, c *process.Control) { c.BlockNumbers, c.BlockStep, c.RestartStep = true, 100, 1000 }, 0, 0, "the blocks before pass 2 go to"},
		{"a depth without room before the point", NoWord, func(_ *plan.Plan, c *process.Control) { c.WholePlaces = 1 }, 0, 0, "no room in 1 places before the point"},
		{"a depth without room in the format", NoWord, func(_ *plan.Plan, c *process.Control) { c.DecimalPoint, c.WholePlaces, c.PartPlaces = false, 1, 4 }, 0, 0, "no room in 1 places"},
		{"short travel", NoTravel, func(p *plan.Plan, _ *process.Control) { p.Job.Machine.Travels[0].Travel = in(18) }, 0, 0, "axis Z travels 18.0000 in;"},
		{"short quill", NoTravel, func(p *plan.Plan, _ *process.Control) {
			p.Job.Bar.FeedBy, p.Job.Bar.Standoff, p.Job.Machine.QuillTravel = process.QuillFeed, in(24), in(18)
		}, 0, 0, "the quill travels 18.0000 in; at the end of the cut it must come 20.9550 in out"},
		{"a quill that cannot leave the work", NoRoom, func(p *plan.Plan, _ *process.Control) {
			p.Job.Bar.FeedBy, p.Job.Bar.Standoff = process.QuillFeed, in(21.9)
		}, 0, 0, "stands 1.9000 in before the face, and 1.9686 in are needed to bring bar and cutter out of the work; stand off by 21.9686 in or more"},
		{"a bar whose end past the cutter the quill cannot bring out", NoRoom, func(p *plan.Plan, _ *process.Control) {
			p.Job.Bar.FeedBy, p.Job.Bar.Standoff, p.Job.Bar.CutterAt = process.QuillFeed, in(21), in(18)
		}, 0, 0, "stands 3.0000 in before the face, and 3.9686 in are needed"},
		{"a cutter that is put in inside the work", BadVisit, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].SetInside = true }, 0, 0,
			"idler: the cutter does not pass the bores on the way; it is put into the bar, set and taken out while the bar stands in the work. That is work for hands, by the sheet"},
		{"feed axis", BadControl, func(_ *plan.Plan, c *process.Control) { c.FeedAxis = 'Q' }, 0, 0, `table feed "Q"`},
		{"dwell word", BadControl, func(_ *plan.Plan, c *process.Control) { c.DwellWord = 'Q' }, 0, 0, `dwell word 'Q'`},
		{"line", BadControl, func(_ *plan.Plan, c *process.Control) { c.LineMost = 20 }, 0, 0, "longest line 20"},
		{"work offset", BadControl, func(_ *plan.Plan, c *process.Control) { c.WorkOffset = 5 }, 0, 0, "work offset"},
		{"tip", BadControl, func(p *plan.Plan, c *process.Control) {
			c.OrientedStop, c.TipAtStop = true, process.TipUnknown
			comesOut(&p.Bores[0].Visits[1], in(0.02), "why")
		}, 0, 1, "where the tip points at the oriented stop is not said"},
		{"a shift without an oriented stop", BadVisit, func(p *plan.Plan, c *process.Control) { comesOut(&p.Bores[0].Visits[1], in(0.02), "why") }, 0, 1,
			"pass 5 is shifted off the wall, and the control has no oriented stop"},
		{"a shift below nothing", BadVisit, func(p *plan.Plan, c *process.Control) {
			c.OrientedStop = true
			comesOut(&p.Bores[0].Visits[1], in(-0.02), "why")
		}, 0, 1, "pass 5 is shifted off the wall by -0.0200 in"},
		{"a shift below the last decimal", NoWord, func(p *plan.Plan, c *process.Control) {
			c.OrientedStop = true
			comesOut(&p.Bores[0].Visits[1], in(0.00006), "why")
		}, 0, 1, "the shift off the wall is 0.00006 in, less than the last of the control's 4 decimals, 0.00010 in"},
		{"a step to the bore below the last decimal", NoWord, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].Clear = in(14.49995) }, 0, 0,
			"the step from where the feed begins to the bore is 0.00005 in"},
		{"a line along the wall", BadVisit, func(p *plan.Plan, _ *process.Control) { p.Bores[0].Visits[0].Passes[1].Out.By = process.DrawOut }, 0, 0,
			`pass 2 comes out by "draw": a program feeds the cutter out or shifts it off the wall`},
		{"program number", BadControl, func(_ *plan.Plan, c *process.Control) { c.ProgramNumber = 9999 }, 0, 1, "program_number = 9999 in the machine file makes this program O10000"},
	} {
		ctl := control()
		p := idler(ctl)
		c.change(p, ctl)
		var b bytes.Buffer
		err := Write(&b, p, c.bore, c.visit)
		var no *Refusal
		if !errors.As(err, &no) || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes; want %q and nothing written", c.why, err, b.Len(), c.want)
		} else if no.Reasons[0].Kind != c.kind {
			t.Errorf("%s: kind %d, want %d", c.why, no.Reasons[0].Kind, c.kind)
		}
	}
	if err := Write(&bytes.Buffer{}, nil, 0, 0); err == nil {
		t.Error("no plan, and no error")
	}
}

// All that is wrong is said at once.
func TestAllRefusalsAtOnce(t *testing.T) {
	ctl := control()
	ctl.DwellWord, ctl.FeedAxis = 'Q', 'Q'
	p := idler(ctl)
	p.Bores[0].Visits[0].End = in(17)
	var no *Refusal
	if err := Write(&bytes.Buffer{}, p, 0, 0); !errors.As(err, &no) || len(no.Reasons) != 3 {
		t.Errorf("%v", err)
	}
}

type failing struct{ calls int }

func (f *failing) Write([]byte) (int, error) { f.calls++; return 0, errors.New("disk full") }

func TestOneWriteOrNone(t *testing.T) {
	f := &failing{}
	if err := Write(f, idler(control()), 0, 0); err == nil || f.calls != 1 {
		t.Errorf("%d calls, %v", f.calls, err)
	}
}

func TestSamePlanSameBytes(t *testing.T) {
	want := program(t, idler(control()), 0, 0)
	for range 5 {
		if program(t, idler(control()), 0, 0) != want {
			t.Fatal("the same plan gave other bytes")
		}
	}
}

// Block numbers rise by their step and never grow past five digits.
func TestBlockNumbers(t *testing.T) {
	ctl := control()
	ctl.BlockStep = 1000
	p := idler(ctl)
	for len(p.Bores[0].Visits[0].Passes) < 20 {
		p.Bores[0].Visits[0].Passes = append(p.Bores[0].Visits[0].Passes, p.Bores[0].Visits[0].Passes[1])
	}
	last, again := 0, false
	d, _ := dialect(ctl)
	s := rs274.NewScanner(strings.NewReader(program(t, p, 0, 0)), d)
	for s.Scan() {
		n := s.Block().Number()
		if n < 0 {
			continue
		}
		if n != last+1000 {
			again = true
			if n != 1000 || last != 99000 {
				t.Fatalf("N%d after N%d", n, last)
			}
		}
		last = n
	}
	if !again || len(s.Faults()) > 0 {
		t.Errorf("the test is too short for its purpose, or %v", s.Faults())
	}
}

// An operator who reads inches on a control that takes mm is told which figures
// are which.
func TestHeaderSaysTheUnits(t *testing.T) {
	ctl := control()
	flat := func() string {
		return strings.Join(strings.Fields(strings.NewReplacer("(", "", ")", "").Replace(program(t, idler(ctl), 0, 0))), " ")
	}
	if text := flat(); !strings.Contains(text, "UNITS: INCH, IN WORDS AND IN TEXT.") {
		t.Errorf("%.1500s", text)
	}
	ctl.Units = qty.Metric
	if text := flat(); !strings.Contains(text, "UNITS: WORDS OF THE PROGRAM IN MM, SIZES IN TEXT IN INCH.") || !strings.Contains(text, "SET DIA 3.3") {
		t.Errorf("%.1500s", text)
	}
}

// The header says what the words say, after the control's rounding.
func TestHeaderIsAsWritten(t *testing.T) {
	ctl := control()
	ctl.DecimalPoint, ctl.WholePlaces, ctl.PartPlaces, ctl.DropZeros, ctl.OrientedStop = false, 3, 3, process.LeadingZeros, true
	p := idler(ctl)
	v := &p.Bores[0].Visits[0]
	v.End = in(16.9373)
	comesOut(v, in(0.0394), "why")
	v.Passes[0].Feed, v.Passes[0].Speed = in(0.0061), 18.5
	text := program(t, p, 0, 0)
	for _, want := range []string{"FEED ENDS AT 16.9370 IN", "FEED 0.0060/REV", "S19", "MINUS BY 0.0390 IN"} {
		if !strings.Contains(strings.Join(strings.Fields(strings.NewReplacer("(", "", ")", "").Replace(text)), " "), want) {
			t.Errorf("no %q in\n%.2500s", want, text)
		}
	}
	ctl.FeedPerRev = false // F of 0.0061 · 19 = 0.116 in/min, which is 0.0061 in/rev
	if text = program(t, p, 0, 0); !strings.Contains(text, "FEED 0.0061/REV") || !strings.Contains(text, "F116") {
		t.Errorf("%.2500s", text)
	}
}

func TestFileName(t *testing.T) {
	name := func(number, revision string, stations ...string) string {
		p := &plan.Plan{Job: &process.Job{Number: number, Revision: revision}}
		for _, s := range stations {
			p.Bores = append(p.Bores, plan.Bore{Station: process.Station{Name: s}, Visits: make([]plan.Visit, 2)})
		}
		var all []string
		for i := range p.Bores {
			all = append(all, FileName(p, i, 1))
		}
		return strings.Join(all, " ")
	}
	long := strings.Repeat("a", 10_000)
	for _, c := range []struct{ got, want string }{
		{name("WG-204", "C", "idler"), "WG-204-C-idler-2.nc"},
		{name("WG-204", "", "idler"), "WG-204-idler-2.nc"},
		{name("../../etc", "C", "a/b\\c:d"), "etc-C-a-b-c-d-2.nc"},
		{name("WG 204", "C", "bearing wall, left"), "WG-204-C-bearing-wall-left-2.nc"},
		{name("", "", "%\n()\u202e"), "program-2.nc"},
		{name("-x", ".", "Ø Bohrung Süd"), "x-0ED4-Bohrung-Sud-2.nc"},
		{name("204", "🔧", "idler"), "204-0CF2-idler-2.nc"}, // nor pictures
		{name("204", "🎯", "idler"), "204-B204-idler-2.nc"},
		{name("A", "B", "Idler", "idler"), "A-B-Idler-bore1-2.nc A-B-idler-bore2-2.nc"},
		{name("A", "B", "x", "x!", "x-bore1"), "A-B-x-bore1-2.nc A-B-x-bore2-2.nc A-B-x-bore1-bore3-2.nc"},
		{name(long, long, long), long[:40] + "-467E-" + long[:40] + "-467E-" + long[:40] + "-2.nc"},
		{name("WG-20", "2026-11-02", "idler"), "WG-20-2026-11-02-idler-2.nc"},
		{name("WG-20", "2026-11-07", "idler"), "WG-20-2026-11-07-idler-2.nc"},
		{name("ЛЕБ-20", "B", "idler"), "20-11B9-B-idler-2.nc"}, // letters that no control has: CRC-32 of the number, as zlib reckons it, tells two jobs apart
		{name("РАМ-20", "B", "idler"), "20-6BB9-B-idler-2.nc"},
		{name("ЛЕБ", "", "idler"), "DE96-idler-2.nc"},
		{name("SUD-3", "B", "Süd"), "SUD-3-B-Sud-2.nc"},
		{name("SÜD-3", "B", "Süd"), "SUD-3-8A92-B-Sud-2.nc"}, // nor do two that differ by the mark of a letter share a name
		{name("SÛD-3", "é", "Süd"), "SUD-3-1745-e-0E04-Sud-2.nc"},
		{FileName(nil, 0, 0) + FileName(&plan.Plan{Job: &process.Job{}}, 0, 0), ""},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func ExampleFileName() {
	fmt.Println(FileName(idler(control()), 0, 0))
	// Output: WG-204-C-idler-1.nc
}
