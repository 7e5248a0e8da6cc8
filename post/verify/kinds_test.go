package verify

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Each row damages one good program, or the plan it is held against, and names
// the finding that must come, at the line of the mark (a piece of the damaged
// text; "": anywhere).
var kindRows = []struct {
	why      string
	file     string
	old, new string // the first old becomes new; "" for neither: the plan is changed
	change   func(*plan.Plan)
	kind     Kind
	mark     string // found in the damaged program, its line is the finding's
	what     string // part of What or Want
}{
	{"a control would not read it", "shift-mm.nc", "G0 Z-365.", "G0 Z-365", nil, script.KindSyntax, "N90 ", "no decimal point"},
	{"no end", "shift-mm.nc", "N470 M30\n", "", nil, script.KindSyntax, "", "no end"},

	{"wrong units", "shift-mm.nc", "N10 G17 G21", "N10 G17 G20", nil, script.KindStart, "N10 ", "G20 sets the wrong units"},
	{"no units", "fixed-mm.nc", "G71", "", nil, script.KindStart, "G0W60000", "no units"},
	{"units of the other pair", "fixed-mm.nc", "G71", "G21", nil, script.KindSyntax, "", "G71 for mm"},
	{"no plane", "shift-inch.nc", "G20 G17 G90", "G20 G90", nil, script.KindStart, "N20 ", "no plane"},
	{"not absolute", "shift-inch.nc", "G20 G17 G90", "G20 G17", nil, script.KindStart, "N20 ", "absolute"},
	{"compensation left", "shift-inch.nc", "G40 G80 G95", "G80 G95", nil, script.KindStart, "N20 ", "compensation"},
	{"cycles left", "cycle-blind-mm.nc", "G17G21G40G80G90", "G17G21G40G90", nil, script.KindStart, "G0Z55.", "cycles"},
	{"length offset left", "shift-inch.nc", "G90 G49", "G90", nil, script.KindStart, "N20 ", "length offset"},
	{"no feed mode", "fixed-mm.nc", "G90G94", "G90", nil, script.KindStart, "G0W60000", "feed mode"},
	{"no work offset", "shift-inch.nc", "N15 G54\n", "", nil, script.KindStart, "N20 ", "work offset"},
	{"no return level", "cycle-blind-mm.nc", "G95G98", "G95", nil, script.KindStart, "G0Z55.", "return level"},
	{"no program number", "cycle-inch.nc", "O0300\n", "", nil, script.KindStart, "N70 ", "no program number"},
	{"another program's number", "cycle-inch.nc", "O0300", "O0301", nil, script.KindStart, "N70 ", "O301"},
	{"across before out", "shift-inch.nc", "N20 G0 Z2.5\nN25 X0 Y0", "N20 G0 X0 Y0\nN25 Z2.5", nil, script.KindStart, "N20 ", "moves across before"},
	{"first move goes in", "shift-mm.nc", "G0 Z60.", "G0 Z-60.", nil, script.KindStart, "N70 ", "unknown place"},

	{"another plane", "shift-mm.nc", "N50 G17", "N50 G18", nil, script.KindCode, "N50 ", "another plane"},
	{"incremental", "shift-mm.nc", "N180 G17 G21 G40 G49 G90", "N180 G17 G21 G40 G49 G91", nil, script.KindCode, "N180 ", "incremental"},
	{"another work offset", "shift-mm.nc", "N20 G54", "N20 G55", nil, script.KindCode, "N20 ", "another work offset"},
	{"block delete", "shift-mm.nc", "N110 M5", "/N110 M5", nil, script.KindCode, "/N110", "switch can skip"},
	{"the slide that stands still", "shift-mm.nc", "N140 G0 Z60.", "N140 G0 Z60. W5.", nil, script.KindCode, "N140", "W moves the slide"},
	{"the other slide placed with the bar in an outboard support", "shift-mm.nc", "N70 ", "G0 W0.\nN70 ", func(p *plan.Plan) {
		p.Job.Machine.Control.OtherSlide, p.Job.Bar.Outboard = process.OtherPlaced, &process.Support{At: mm(600)}
	}, script.KindCode, "G0 W0.", "W moves the slide"},
	{"the table turned with the bar in an outboard support", "shift-mm.nc", "N70 ", "G0 B0\nN70 ", func(p *plan.Plan) {
		p.Job.Machine.Control.TableWord, p.Job.Bar.Outboard = 'B', &process.Support{At: mm(600)}
	}, script.KindCode, "G0 B0", "word B0"},
	{"a rotary axis", "shift-mm.nc", "N80 G0 X0. Y0.", "N80 G0 X0. Y0. B90.", nil, script.KindCode, "N80 ", "word B90"},
	{"an arc", "shift-mm.nc", "N150 G0 Y0.", "N150 G2 Y0. J.5 F30.", nil, script.KindCode, "N150 ", "an arc"},
	{"units changed later", "shift-mm.nc", "N180 G17 G21", "N180 G17 G20", nil, script.KindStart, "N180 ", "wrong units"},
	{"tool change", "shift-mm.nc", "N30 M5", "N30 M6", nil, script.KindCode, "N30 ", "tool change"},

	{"a pass left out, by the comments", "shift-mm.nc", "(SET CUTTER TO DIA 83.000 MM)", "(SET CUTTER TO DIA 84.600 MM)", nil, script.KindPass, "N40 ", "pass 1 (rough"},
	{"a pass too many in the plan", "shift-mm.nc", "", "", func(p *plan.Plan) {
		v := &p.Bores[0].Visits[0]
		v.Passes = append(v.Passes, v.Passes[2])
		v.Passes[3].N = 4
	}, script.KindPass, "N470 ", "pass 4 (finish"},
	{"a pass too many in the program", "shift-mm.nc", "", "", func(p *plan.Plan) {
		v := &p.Bores[0].Visits[0]
		v.Passes = v.Passes[:2]
	}, script.KindPass, "", "one cut more"},

	{"feed begins too soon", "shift-mm.nc", "N90 G0 Z-365.", "N90 G0 Z-364.", nil, script.KindDepth, "N100 ", "begins at depth 364.000 mm"},
	{"rapid past where the feed begins", "shift-mm.nc", "N90 G0 Z-365.", "N90 G0 Z-366.", nil, script.KindRapid, "N90 ", "rapid to depth 365.000 mm at most"},
	{"feed ends short", "shift-mm.nc", "Z-431.5", "Z-413.5", nil, script.KindDepth, "N100 ", "ends at depth 413.500 mm"},
	{"feeds in again", "feed-out-blind-mm.nc", "N11 G1 Z-365.", "M3\nN98 G1 Z-430.6\nN11 G1 Z-365.", nil, script.KindDepth, "N98 ", "without having come out"},
	{"stops on the way out, and feeds in again", "feed-out-blind-mm.nc", "N11 G1 Z-365.", "N97 G1 Z-400.\nN98 G1 Z-430.5\nN11 G1 Z-365.", nil, script.KindRetract, "N97 ", "stops on the way out"},

	{"feed a hundred times", "shift-mm.nc", "F30.", "F3000.", nil, script.KindFeed, "N100 ", "pass 1: feed 3000.000 mm/min"},
	{"feed not the machine's", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Machine.Feeds.Least = 0.3 }, script.KindFeed, "N100 ", "not one of the machine's"},
	{"feed a revolution taken for a minute", "feed-out-blind-mm.nc", "N9 G1 Z-430.5 F0.2", "N9 G1 Z-430.5 F0.02", nil, script.KindFeed, "N9 ", "feed 0.020 mm/rev"},
	{"no feed", "shift-mm.nc", " F30.", "", nil, script.KindFeed, "N100 ", "without a feed"},
	{"feeds where nothing is cut", "shift-mm.nc", "N140 G0 Z60.", "N140 G0 Z-365.\nN141 G1 Z60.", nil, script.KindFeed, "N141 ", "nothing is to be cut"},
	{"feeds all the way out", "feed-out-blind-mm.nc", "N11 G1 Z-365.", "N11 G1 Z55.", nil, script.KindFeed, "N11 ", "past depth 365.000 mm"},
	{"feeds out faster", "feed-out-blind-mm.nc", "N11 G1 Z-365.", "N11 G1 Z-365. F0.5", nil, script.KindFeed, "N11 ", "feed 0.500 mm/rev"},

	{"wrong speed", "shift-mm.nc", "S150", "S510", nil, script.KindSpeed, "N60 ", "turns at 510 rev/min; 150 rev/min: the speed of pass 1"},
	{"speed beyond the machine", "shift-mm.nc", "S150", "S1500", nil, script.KindSpeed, "N60 ", "the machine has 10 to 800 rev/min"},
	{"speed not on the ladder", "shift-mm.nc", "", "", func(p *plan.Plan) {
		p.Job.Machine.Speeds = process.Range{Steps: []float64{100, 160, 180}, Least: 100, Most: 180}
	}, script.KindSpeed, "N60 ", "3 steps"},
	{"no speed", "fixed-mm.nc", "S150M3", "M3", nil, script.KindSyntax, "M3\n", "M3 without a speed"},

	{"a speed where nothing is cut", "shift-mm.nc", "N80 G0 X0. Y0.", "N80 G0 X0. Y0.\nN81 S700 M3\nN82 G0 Z-365.\nN83 S150 M3", nil, script.KindSpeed, "N81 ", "turns at 700 rev/min"},
	{"another pass's speed on the way in", "shift-mm.nc", "S150 M3", "S180 M3\nG0 Z55.\nS150 M3", nil, script.KindSpeed, "S180 M3", "turns at 180 rev/min"},
	{"the speed of the pass before on the way in", "shift-mm.nc", "N190 S180 M3", "N190 S150 M3\nG0 Z55.\nN191 S180 M3", nil, script.KindSpeed, "N190 ", "turns at 150 rev/min"},
	{"an S on the turning spindle, then a stop", "shift-mm.nc", "N110 M5", "N109 S700\nN110 M5", nil, script.KindSpeed, "N109 ", "speed of no pass"},
	{"started at another speed after the cut", "cycle-inch.nc", "N110 G80", "N110 G80\nN111 S250 M3", nil, script.KindSpeed, "N111 ", "250 rev/min"},
	{"an S that starts nothing", "shift-mm.nc", "N110 M5", "N109 S90\nN110 M5\nN111 S90", nil, script.KindSpeed, "N111 ", "speed of no pass"},
	{"an angle beside the oriented stop", "shift-mm.nc", "N120 M19", "N120 M19 S180", nil, script.KindCode, "N120 ", "angle at which the spindle stops"},
	{"an S beside M5", "shift-mm.nc", "N110 M5", "N110 M5 S150", nil, script.KindCode, "N110 ", "beside M5"},

	{"feeds with the spindle stopped", "fixed-mm.nc", "S150M3", "S150M5", nil, script.KindSpindle, "G0W-", "goes in with the spindle standing"},
	{"backward", "shift-mm.nc", "S150 M3", "S150 M4", nil, script.KindSpindle, "N60 ", "backward"},
	{"starts in the bore", "shift-mm.nc", "N120 M19", "N120 M3", nil, script.KindSpindle, "N120 ", "starts with the tip in the work"},
	{"goes in standing", "shift-inch.nc", "N35 M3 S210\nN38 G0 Z2.5\nN39 G0 X0 Y0\nN40 G0 Z-14.375", "N35 S210\nN38 G0 Z2.5\nN39 G0 X0 Y0\nN40 G0 Z-14.375\nN41 M3", nil, script.KindSpindle, "N40 ", "goes in with the spindle standing"},
	{"comes out turning", "cycle-inch.nc", "N120 M5\n", "", nil, script.KindSpindle, "N130 ", "turning"},
	{"orients while it turns", "shift-mm.nc", "N110 M5\n", "", nil, script.KindSpindle, "N120 ", "M5 in a block before M19"},
	{"stops while it turns", "shift-mm.nc", "N110 M5\n", "N110 M0\n", nil, script.KindSpindle, "N110 ", "a stop with the spindle turning"},

	{"stops while the drive holds it", "shift-inch.nc", "N72 M5\n", "", nil, script.KindSpindle, "N75 ", "held at its angle"},

	{"the bar is not called", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Machine.Control.Tool = 3 }, script.KindTool, "N70 ", "the first move before the bar is called"},
	{"called with the bar in an outboard support", "shift-mm.nc", "N70 ", "T3 M6\nN70 ", func(p *plan.Plan) {
		p.Job.Machine.Control.Tool, p.Job.Bar.Outboard = 3, &process.Support{At: mm(600)}
	}, script.KindTool, "T3 ", "in an outboard support"},
	{"does not go home", "shift-mm.nc", "", "", func(p *plan.Plan) {
		p.Job.Machine.Control.HomeWord, p.Job.Machine.Control.HomeAxes = 28, []process.HomeAxis{process.HomeFeed}
	}, script.KindHome, "N70 ", "the first move before Z has gone home"},
	{"goes home in an outboard support", "shift-mm.nc", "N70 ", "G91 G28 Z0.\nG90\nN70 ", func(p *plan.Plan) {
		p.Job.Machine.Control.HomeWord, p.Job.Machine.Control.HomeAxes = 28, []process.HomeAxis{process.HomeFeed}
		p.Job.Bar.Outboard = &process.Support{At: mm(600)}
	}, script.KindHome, "G91 ", "in an outboard support"},
	{"cut without its coolant", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Machine.Control.Coolant = 8 }, script.KindCoolant, "N100 ", "feeds with the coolant off"},

	{"no dwell at the bottom", "feed-out-blind-mm.nc", "N10 G4 P0.8\n", "", nil, script.KindDwell, "N11 ", "without a dwell"},
	{"too short", "feed-out-blind-mm.nc", "P0.8", "P0.08", nil, script.KindDwell, "N10 ", "0.200 turns"},
	{"too long", "feed-out-blind-mm.nc", "P0.8", "P8.", nil, script.KindDwell, "N10 ", "20.000 turns"},
	{"too short at the step that S calls", "feed-out-blind-mm.nc", "P0.8", "P0.4", func(p *plan.Plan) { p.Bores[0].Visits[0].Passes[0].Speed = 149.6 }, script.KindDwell, "N10 ", "0.997 turns"},
	{"where the cut is over", "feed-out-blind-mm.nc", "N12 M5", "G4 P1.\nN12 M5", nil, script.KindDwell, "G4 P1.", "where nothing is cut"},
	{"in an open bore", "shift-mm.nc", "N110 M5", "N109 G4 P1.\nN110 M5", nil, script.KindDwell, "N109 ", "does not ask"},
	{"after M5", "feed-out-blind-mm.nc", "N10 G4 P0.8", "N10 M5\nG4 P0.8", nil, script.KindSpindle, "N11 ", "feeds with the spindle stopped"},

	{"no stop before the first pass", "shift-mm.nc", "N40 M0\n", "", nil, script.KindStop, "N100 ", "no stop before this"},
	{"one of two stops lost", "shift-mm.nc", "N300 M0\n", "", nil, script.KindStop, "N380 ", "one stop before this"},
	{"no stop to measure at the end", "shift-inch.nc", "N170 M0\n", "", nil, script.KindStop, "N175 ", "to measure after pass 3"},
	{"a stop too many", "shift-mm.nc", "N460 M5", "N459 M3 S180\nM5\n(SET CUTTER TO DIA 85.024 MM)\nN460 M0", nil, script.KindSetting, "N460 ", "after the last pass"},
	{"optional", "shift-mm.nc", "N40 M0", "N40 M1", nil, script.KindStop, "N40 ", "optional"},
	{"in the bore", "shift-mm.nc", "N110 M5", "N110 M5\nN111 M0", nil, script.KindStop, "N111 ", "no hand reaches"},
	{"no room for hands", "shift-mm.nc", "N140 G0 Z60.", "N140 G0 Z34.", nil, script.KindLevel, "N150 ", "35.000 mm before the face at least"},
	{"in and out again before a pass", "shift-mm.nc", "N90 G0 Z-365.", "N88 G0 Z-300.\nN89 G0 Z60.\nN90 G0 Z-365.", nil, script.KindLevel, "N88 ", "comes out again with nothing cut"},
	{"in and out again behind one", "shift-mm.nc", "N150 G0 Y0.\n", "N150 G0 Y0.\nN151 G0 Z-1.\nN152 G0 Z60.\n", nil, script.KindLevel, "N151 ", "comes out again with nothing cut"},
	{"no room for hands at the end", "fixed-mm.nc", "M5\nM0\nM2", "M5\nM0\nG0W20000\nM2", nil, script.KindStop, "M2", "35.000 mm before the face at least"},
	{"off the axis", "shift-mm.nc", "N150 G0 Y0.\n", "", nil, script.KindStop, "N170 ", "off the axis"},
	{"says the wrong thing", "shift-inch.nc", "(SET CUTTER DIA 3.3400)", "(GAUGE THE BORE)", nil, script.KindStop, "N75 ", "does not say to set"},
	{"does not say to measure", "shift-inch.nc", "(MEASURE, BOTH ENDS)\nN170", "(SET CUTTER)\nN170", nil, script.KindStop, "N170 ", "does not say to measure"},

	{"a mistyped setting", "shift-mm.nc", "DIA 84.600 MM", "DIA 84.060 MM", nil, script.KindSetting, "N170 ", "84.060"},
	{"a setting without a word before it", "shift-inch.nc", "(CUTTER DIA 3.3757)", "(CUTTER DIA 3.3575)", nil, script.KindSetting, "N125 ", "3.3575"},
	{"in the other unit", "cycle-inch.nc", "DIA 3.2000 IN", "DIA 3.2000 MM", nil, script.KindSetting, "N40 ", "Ø3.2000 in"},
	{"set after the last pass", "shift-inch.nc", "(MEASURE, BOTH ENDS)\nN170", "(MEASURE, THEN SET CUTTER TO DIA 3.4)\nN170", nil, script.KindSetting, "N170 ", "after the last pass"},

	{"rapid out where it must feed", "feed-out-blind-mm.nc", "N11 G1 Z-365.", "N11 G0 Z-365.", nil, script.KindRetract, "N11 ", "comes out at rapid"},
	{"feed out where it must shift", "shift-mm.nc", "N110 M5\nN120 M19\nN130 G0 Y-1.\nN140 G0 Z60.\n", "N110 G1 Z-365.\nN120 M5\nN140 G0 Z60.\n", nil, script.KindRetract, "N110 ", "the cutter feeds out"},
	{"no oriented stop", "shift-mm.nc", "N120 M19\n", "", nil, script.KindRetract, "N130 ", "without an oriented stop"},
	{"no shift", "shift-mm.nc", "N130 G0 Y-1.\n", "", nil, script.KindRetract, "N140 ", "comes out at X 0.000 mm, Y 0.000 mm"},
	{"toward the tip", "shift-mm.nc", "Y-1.", "Y1.", nil, script.KindRetract, "N130 ", "Y -1.000 mm"},
	{"across the tip", "shift-mm.nc", "G0 Y-1.", "G0 X-1.", nil, script.KindRetract, "N130 ", "Y -1.000 mm"},
	{"a tenth of the shift", "shift-mm.nc", "Y-1.", "Y-0.1", nil, script.KindRetract, "N130 ", "Y -1.000 mm: off the wall"},
	{"back to the axis in the bore", "shift-mm.nc", "N140 G0 Z60.\nN150 G0 Y0.", "N140 G0 Y0.\nN150 G0 Z60.", nil, script.KindRetract, "N140 ", "still in the bore"},
	{"half way out", "shift-mm.nc", "N140 G0 Z60.", "N140 G0 Z-400.", nil, script.KindRetract, "N140 ", "stops on the way out"},

	{"goes in off the axis", "shift-mm.nc", "N220 G0 Z-365.", "N220 G0 X2.\nN221 G0 Z-365.", nil, script.KindAxis, "N220 ", "X goes to 2.000"},
	{"before X and Y are known", "shift-mm.nc", "N80 G0 X0. Y0.\n", "", nil, script.KindAxis, "N90 ", "before X and Y are known"},
	{"along and across at once", "shift-mm.nc", "N140 G0 Z60.\nN150 G0 Y0.", "N140 G0 Z60. Y0.", nil, script.KindAxis, "N140 ", "at once"},
	{"feeds across", "shift-mm.nc", "N130 G0 Y-1.", "N130 G1 Y-1.", nil, script.KindAxis, "N130 ", "feeds across"},
	{"another place", "shift-mm.nc", "N210 G0 X0. Y0.", "N210 G0 X0.5 Y0.", nil, script.KindAxis, "N210 ", "X goes to 0.500"},

	{"G0 for G1", "shift-mm.nc", "N100 G1", "N100 G0", nil, script.KindRapid, "N100 ", "1.500 mm deep in the metal of idler"},
	{"rapid on the finished wall", "feed-out-blind-mm.nc", "N29 M5", "N29 G0 Z-420.\nM5", nil, script.KindRapid, "N29 ", "rapid into the bore"},
	{"a cutter too big for the way in", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Stations[1].Diameter = dmm(84) }, script.KindRapid, "N220 ", "metal of web"},

	{"rapid to the blind bottom", "feed-out-blind-mm.nc", "N8 G0 Z-365.", "N8 G0 Z-430.", nil, script.KindBottom, "N8 ", "rapid to the blind bottom"},
	{"the tip into the closed end", "feed-out-blind-mm.nc", "N9 G1 Z-430.5", "N9 G1 Z-431.5", nil, script.KindBottom, "N9 ", "runs 0.500 mm into the closed end"},
	{"the bar's end into the closed end", "feed-out-blind-mm.nc", "", "", func(p *plan.Plan) { p.Job.Bar.CutterAt -= mm(0.8) }, script.KindBottom, "N9 ", "bar step 2 runs 0.300 mm"},

	{"bar against a wall on the way", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Stations[1].Diameter = dmm(57) }, script.KindClearance, "N90 ", "bar step 2 (Ø57.000 mm) meets the wall of web"},
	{"bar against a wall by the shift", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Stations[0].Diameter = dmm(101.5) }, script.KindClearance, "N130 ", "bar step 1"},
	{"bar against the bore itself", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Bores[0].Visits[0].Start = dmm(56) }, script.KindClearance, "N90 ", "wall of idler"},
	{"nose against the face", "shift-mm.nc", "", "", func(p *plan.Plan) {
		b := &p.Job.Bar
		b.Steps[len(b.Steps)-1].Length -= b.CutterAt - mm(431)
		b.CutterAt = mm(431)
	}, script.KindClearance, "N100 ", "spindle nose (Ø230.000 mm) meets the wall of cover"},
	{"quill into the bore", "fixed-quill-inch.nc", "", "", func(p *plan.Plan) {
		p.Job.Bar.Steps[0].Length, p.Job.Bar.CutterAt, p.Job.Machine.Quill = in(3), in(3), din(4)
		p.Job.Machine.QuillTravel = in(40)
	}, script.KindClearance, "N8 ", "quill (Ø4.0000 in) meets the wall"},
	{"cutter through another bore at feed", "shift-mm.nc", "N90 G0 Z-365.", "N90 G1 Z-365. F30.", func(p *plan.Plan) { p.Job.Stations[1].Diameter = dmm(82) }, script.KindClearance, "N90 ", "cuts into web"},
	{"across while the bar stands in the work", "shift-inch.nc", "N20 G0 Z2.5\nN25 X0 Y0", "N20 G0 Z.05\nN25 X0 Y0", nil, script.KindClearance, "N25 ", "stands in the work"},

	{"more than the table has", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Machine.Travels[2].Travel = mm(491) }, script.KindTravel, "N100 ", "at most 491.000 mm"},
	{"more than the quill has", "fixed-quill-inch.nc", "", "", func(p *plan.Plan) { p.Job.Machine.QuillTravel = in(8) }, script.KindTravel, "N8 ", "comes 8.0500 in out"},
	{"quill behind its home", "fixed-quill-inch.nc", "Z003", "Z005", nil, script.KindTravel, "N3 ", "1.0000 in back behind its home"},

	{"crosses where the feed begins, in the first pass", "shift-mm.nc", "N80 G0 X0. Y0.\nN90 G0 Z-365.", "N80 G0 X0.\nN90 G0 Z-365.\nN91 G0 Y0.", nil, script.KindAxis, "N90 ", "goes in before X and Y are known"},
	{"crosses where the feed begins, on the way out", "shift-inch.nc", "N110 G0 Z2.5\nN115 G0 X0.", "N110 G0 Z-14.375\nN115 G0 X0.\nN116 G0 Z2.5", nil, script.KindLevel, "N115 ", "moves across with the tip at depth 14.3750 in"},
	{"crosses in front of the face, too near", "shift-mm.nc", "N140 G0 Z60.", "N140 G0 Z20.", nil, script.KindLevel, "N150 ", "moves across with the tip at 20.000 mm before the face"},
	{"another level", "shift-mm.nc", "N140 G0 Z60.", "N140 G0 Z6.", nil, script.KindLevel, "N150 ", "moves across with the tip at 6.000 mm before the face"},

	{"ends in the bore", "fixed-mm.nc", "M5\nM19\nG0X1000\nG0W60000\nG0X0\nM5\nM0\nM2", "M5\nM19\nM2", nil, script.KindEnd, "M2", "depth 431.500"},
	{"ends turning", "fixed-mm.nc", "M2", "M3\nM2", nil, script.KindEnd, "M2", "spindle turning"},
	{"ends off the axis", "fixed-mm.nc", "G0X0\nM5\nM0\nM2", "M5\nM0\nM2", nil, script.KindStop, "M0\nM2", "off the axis"},

	{"not within limits", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Bores[0].Visits[0].Limits.High = dmm(85.01) }, script.KindSize, "N470 ", "Ø85.017 mm"},
	{"not over its length", "shift-mm.nc", "N380 G1 Z-431.5", "N380 G1 Z-400.", nil, script.KindDepth, "N380 ", "the feed ends at depth 400.000 mm"},
	{"longer than the feed", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Bores[0].Visits[0].To = mm(435) }, script.KindSize, "N470 ", "not brought to size from depth 431.500 mm"},

	{"no plan", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Job.Machine.Control = nil }, script.KindPlan, "", "without a control"},
	{"not feasible", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Feasible = false }, script.KindPlan, "", "not feasible"},
	{"no passes", "shift-mm.nc", "", "", func(p *plan.Plan) { p.Bores[0].Visits[0].Passes = nil }, script.KindPlan, "", "no passes"},
}

func planOf(t testing.TB, file string) *plan.Plan {
	for _, g := range good {
		if g.file == file {
			return g.plan()
		}
	}
	t.Fatalf("no plan for %s", file)
	return nil
}

func TestEachKind(t *testing.T) {
	seen := map[Kind]bool{}
	for _, row := range kindRows {
		seen[row.kind] = true
		t.Run(string(row.kind)+"/"+row.why, func(t *testing.T) {
			text, p := string(program(t, row.file)), planOf(t, row.file)
			if row.old != "" {
				if !strings.Contains(text, row.old) {
					t.Fatalf("%q is not in %s", row.old, row.file)
				}
				text = strings.Replace(text, row.old, row.new, 1)
			}
			if row.change != nil {
				row.change(p)
			}
			line := 0
			if row.mark != "" {
				i := strings.Index(text, row.mark)
				if i < 0 {
					t.Fatalf("%q is not in the damaged program", row.mark)
				}
				line = 1 + strings.Count(text[:i], "\n")
			}
			r := Check([]byte(text), row.file, p, 0, 0)
			if r.Proven {
				t.Fatal("proven")
			}
			for _, f := range r.Findings {
				if bad := unclear(f); bad != "" {
					t.Error(bad)
				}
			}
			for _, f := range r.Findings {
				if f.Kind == row.kind && (line == 0 || f.Line == line) && strings.Contains(f.What+"; "+f.Want, row.what) {
					return
				}
			}
			var all strings.Builder
			for _, f := range r.Findings {
				fmt.Fprintf(&all, "\n  %s", said(f))
			}
			t.Errorf("no finding %q at line %d with %q in:%s", row.kind, line, row.what, all.String())
		})
	}
	for _, k := range []Kind{
		script.KindPlan, script.KindSyntax, script.KindStart, script.KindCode, script.KindPass, script.KindDepth, script.KindFeed, script.KindSpeed, script.KindSpindle, script.KindCoolant, script.KindDwell, script.KindStop,
		script.KindSetting, script.KindRetract, script.KindAxis, script.KindRapid, script.KindBottom, script.KindClearance, script.KindTravel, script.KindLevel, script.KindTool, script.KindHome, script.KindEnd, script.KindSize,
	} {
		if !seen[k] {
			t.Errorf("no row for %s", k)
		}
	}
}

// One level that is too near everywhere is found as well, and the least that
// does is proven.
func TestRoomForHands(t *testing.T) {
	text := program(t, "shift-mm.nc")
	for _, c := range []struct {
		level  string
		proven bool
	}{{"Z0.1", false}, {"Z34.9", false}, {"Z35.", true}} {
		r := Check(bytes.ReplaceAll(text, []byte("Z60."), []byte(c.level)), "", planMM(), 0, 0)
		if r.Proven != c.proven {
			t.Errorf("%s: %v", c.level, r.Findings)
		}
	}
}

// A plan that feeds out, as with an outboard bearing, is not cut by a program that
// stops the tip and draws it out along the wall, though the mill could.
func TestDrawnOutWithoutAShift(t *testing.T) {
	text := string(program(t, "shift-mm.nc"))
	for _, y := range []string{"N130 G0 Y-1.\n", "N150 G0 Y0.\n"} {
		if !strings.Contains(text, y) {
			t.Fatalf("no %q", y)
		}
		text = strings.Replace(text, y, "", 1)
	}
	p := planMM()
	comesOut(&p.Bores[0].Visits[0], 0)
	line := 1 + strings.Count(text[:strings.Index(text, "N140 G0 Z60.")], "\n")
	for _, f := range Check([]byte(text), "", p, 0, 0).Findings {
		if f.Kind == script.KindRetract && f.Line == line && strings.Contains(f.What, "at rapid") && strings.Contains(f.Want, "feeds out") {
			return
		}
	}
	t.Errorf("line %d: the way out is not found", line)
}

// An S word while the spindle stands starts nothing; it is let through where it
// is the speed of a pass, which some posts write ahead of M3.
func TestSpeedWhileTheSpindleStands(t *testing.T) {
	text := program(t, "shift-mm.nc") // 150, 180 and 220 rev/min
	for s, proven := range map[string]bool{"S150": true, "S180": true, "S150.6": false, "S149.4": false, "S0": false, "S-150": false, "S300": false} {
		r := Check(bytes.Replace(text, []byte("N20 G54\n"), []byte("N20 G54\nN25 "+s+"\n"), 1), "", planMM(), 0, 0)
		if r.Proven != proven {
			t.Errorf("%s: %v", s, r.Findings)
		}
	}
}

// A finding stands at the word that is to blame.
func TestColumns(t *testing.T) {
	text := bytes.Replace(program(t, "shift-mm.nc"), []byte("N100 G1 Z-431.5 F30."), []byte("N100 G1 Z-413.5 F300."), 1)
	r := Check(text, "", planMM(), 0, 0)
	want := map[Kind]int{script.KindDepth: 9, script.KindFeed: 17}
	for _, f := range r.Findings {
		if c, ok := want[f.Kind]; ok && f.Line == 16 {
			if f.Col != c {
				t.Errorf("%s: column %d, want %d", said(f), f.Col, c)
			}
			delete(want, f.Kind)
		}
	}
	if len(want) > 0 {
		t.Errorf("not found: %v", want)
	}
}

// A pass missing from the middle is named, and the rest is still held against
// its own passes.
func TestMissingPassIsNamed(t *testing.T) {
	text := string(program(t, "shift-mm.nc"))
	i, j := strings.Index(text, "(PASS 2"), strings.Index(text, "(PASS 3")
	r := Check([]byte(text[:i]+text[j:]), "", planMM(), 0, 0)
	if len(r.Findings) != 1 || r.Findings[0].Kind != script.KindPass || !strings.Contains(r.Findings[0].What, "pass 2 (semi-finish, Ø84.600 mm)") {
		t.Errorf("%v", r.Findings)
	}
	if len(r.Cuts) != 2 || r.Cuts[1].Pass != 3 || r.Cuts[1].Setting != dmm(85.024) {
		t.Errorf("%+v", r.Cuts)
	}
}

// Two visits of one bore that cut from and to the same depths are told apart.
func TestIdentify(t *testing.T) {
	p := planCycles()
	p.Bores[0].Station.Name = "idler"
	inside := p.Bores[0].Visits[0]
	inside.N, inside.Title = 2, fact.AsWritten("bore the sleeve in place")
	inside.Passes = append([]schedule.Pass(nil), inside.Passes...)
	for i := range inside.Passes {
		inside.Passes[i].Setting -= din(0.25)
	}
	other := planQuill().Bores[0]
	p.Bores[0].Visits = append(p.Bores[0].Visits, inside)
	p.Bores = append([]plan.Bore{other}, p.Bores...)
	text := program(t, "cycle-inch.nc")
	if b, v, ok := Identify(text, p); !ok || b != 1 || v != 0 {
		t.Errorf("%d, %d, %v", b, v, ok)
	}
	for _, s := range [][2]string{{"3.2000", "2.9500"}, {"3.3400", "3.0900"}, {"3.3757", "3.1257"}} {
		text = bytes.ReplaceAll(text, []byte(s[0]), []byte(s[1]))
	}
	if b, v, ok := Identify(text, p); !ok || b != 1 || v != 1 {
		t.Errorf("sleeve: %d, %d, %v", b, v, ok)
	}
	bare := regexp.MustCompile(`TO DIA [0-9.]+`).ReplaceAll(text, nil)
	if _, _, ok := Identify(bare, p); ok {
		t.Error("nothing tells the two apart, and one was chosen")
	}
	named := bytes.Replace(bare, []byte("O0300\n"), []byte("O0300\n(BORE IDLER, VISIT 2 OF 2)\n"), 1)
	if b, v, ok := Identify(named, p); !ok || b != 1 || v != 1 {
		t.Errorf("by its number: %d, %d, %v", b, v, ok)
	}
	for _, none := range []string{"", "%", "G0 X1", "(IDLER)\nM30"} {
		if _, _, ok := Identify([]byte(none), p); ok {
			t.Errorf("%q was taken for a program of the plan", none)
		}
	}
	if b, v, ok := Identify([]byte("(BORE IDLER, VISIT 2 OF 2: BORE)\nM30"), p); !ok || b != 1 || v != 1 {
		t.Errorf("by bore and visit alone: %d, %d, %v", b, v, ok)
	}
	if _, _, ok := Identify([]byte("(BORE IDLER, VISIT 2 OF 2: BORE)\n(BORE IDLER, VISIT 1 OF 2: BORE)\nM30"), p); ok {
		t.Error("two visits named, and one was chosen")
	}
	if _, _, ok := Identify(text, nil); ok {
		t.Error("no plan")
	}
}

// Units of the job and of the control may differ: positions are rounded to the
// control's least input, and the comments are in the job's units.
func TestInchJobOnMetricControl(t *testing.T) {
	p := planInch()
	c := p.Job.Machine.Control
	c.Units, c.PartPlaces = qty.Metric, 3
	p.Job.Machine.Travels = nil
	text := string(program(t, "shift-inch.nc"))
	for _, s := range [][2]string{
		{"G20", "G21"}, {"Z2.5\n", "Z60.\n"}, {"Z-14.375", "Z-365.125"}, {"Z-16.95", "Z-430.53"}, {"F.008", "F.203"}, {"F.004", "F.102"}, {"X.04", "X1.016"},
	} {
		text = strings.ReplaceAll(text, s[0], s[1])
	}
	if r := Check([]byte(text), "", p, 0, 0); !r.Proven {
		t.Errorf("%v", r.Findings)
	}
}
