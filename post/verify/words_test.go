package verify

import (
	"regexp"
	"strings"
	"testing"

	"borewright/post/verify/script"
	"borewright/process/slow"
)

// wordsOf is the control of the machine that the rows below are written for, less
// what a row says anew.
const wordsOf = "oriented_stop = true\ntip_at_stop = \"+X\"\nfeed_per_rev = true\nfeed_axis = \"Z\"\nquill_axis = \"W\"\n"

// machineWords are the words that a machine file asks for by property: for each the
// program as it is written must be proven, and every edit of it found: the first old
// becomes new.
var machineWords = []struct {
	property, control string
	visit             int    // of the winch: 0 bores gray iron, 1 the steel sleeve in it
	has               string // stands in the program
	edits             []wordEdit
}{
	{"every place written", "drop_zeros = \"none\"\nwhole_places = 3", 0, "G0 X000.0000 Y000.0000", []wordEdit{
		{"a zero in front left out", "X000.0000", "X00.0000", script.KindSyntax, "2 digits before the point"},
		{"a zero behind left out", "X000.0000", "X000.000", script.KindSyntax, "3 behind it"},
		{"a digit more in front", "Z-014", "Z-0014", script.KindSyntax, "4 digits before the point"},
	}},
	{"no more places than there are", "whole_places = 2", 0, "G0 Z-14.", []wordEdit{
		{"a digit more in front", "Z-14", "Z-014", script.KindSyntax, "3 digits before the point"},
	}},
	{"no zeros in front", "drop_zeros = \"leading\"", 0, "G0 X.0000 Y.0000", nil},
	{"no zeros behind", "drop_zeros = \"trailing\"", 0, "G0 X0. Y0.", nil},
	{"restart marks", "restart_step = 1000", 0, "N2000 M5", []wordEdit{
		{"none for a pass", "N2000 ", "N1995 ", script.KindStop, "pass 2 has no restart mark"},
		{"that of another pass", "N2000 ", "N3000 ", script.KindStop, "N3000 a second time"},
		{"twice", "N10 G17", "N1000 G17", script.KindStop, "N1000 a second time: the first is in line"},
		{"behind the stop", "N2000 M5\nN2010 M0\nN2020 ", "N1991 M5\nN1992 M0\nN2000 ", script.KindStop, "N2000, the restart mark of pass 2, is not at its stop"},
		{"beside a move before it", "N1120 G0 Z2.0000\nN1130 G0 X0.0000 Y0.0000\n", "N2000 G0 Z2.0000\nN1130 G0 X0.0000 Y0.0000\n", script.KindStop, "N2000 a second time"},
		{"the remark's step", "IS N1000 TIMES", "IS N100 TIMES", script.KindRemark, "N1000"},
	}},
	{"restart marks alone", "block_numbers = false\nrestart_step = 1", 0, "N5 M5", []wordEdit{
		{"none", "N3 ", "", script.KindStop, "pass 3 has no restart mark"},
		{"in front of the hold that comes before", "N2 M5\n", "M5\n", script.KindStop, "pass 2 has no restart mark"},
	}},
	{"coolant", "coolant = \"M8\"", 1, "M8\n", []wordEdit{
		{"turned on as the spindle starts", " M3\n", " M3\nM8\n", "", ""},
		{"not turned on", " M8\n", " M9\n", script.KindCoolant, "feeds with the coolant off; M8 in front of the bore"},
		{"the other kind", " M8\n", " M7\n", script.KindCoolant, "M7 turns on what this control does not have"},
		{"turned off before the way out", " M8\n", " M8\nM9\n", script.KindCoolant, "feeds with the coolant off"},
		{"on at a stop", "M0\n", "M8\nM0\n", script.KindCoolant, "a stop with the coolant on; M9 in a block before M0"},
		{"the remark's word", "COOLANT: M8", "COOLANT: M7", script.KindRemark, "M7"},
		{"the remark turned", "M9 BEFORE EACH STOP", "M9 AFTER EACH STOP", script.KindRemark, "AFTER"},
	}},
	{"coolant, gray iron", "coolant = \"M8\"", 0, "IS CUT DRY", []wordEdit{
		{"turned on", " M3\n", " M3\nM8\n", script.KindCoolant, "Gray iron, 180 to 220 HB is cut dry"},
	}},
	{"spindle ranges", "gear = [ { word = \"M41\", speeds = [1, 40] }, { word = \"M42\", speeds = [36, 9000] } ]", 0, "M41\nN250 {S} M3", []wordEdit{
		{"none called", "N70 M41\n", "", script.KindSpindle, "the spindle starts without a word for its range; M41 in a block before it: 1 to 40 rev/min"},
		{"another", "N240 M41", "N240 M42", script.KindSpindle, "starts in the range M42; M41"},
		{"one that is not there", "N240 M41", "N240 M43", script.KindCode, "M43: no range of this machine"},
		{"shifted as it turns", "N250 {S} M3\n", "N250 {S} M3\nM41\n", script.KindSpindle, "while it turns"},
		{"beside the start", "N240 M41\nN250 {S} M3", "N250 M41 {S} M3", script.KindSyntax, "M41 beside M3"},
		{"the remark's range", "(  RANGE M41)", "(  RANGE M42)", script.KindRemark, "M42"},
	}},
	{"home by G28", "home_word = \"G28\"\nhome_axes = [\"feed\", \"X\"]", 0, "N30 G91 G28 Z0.0000\nN40 G91 G28 X0.0000\nN50 G90\n", []wordEdit{
		{"not at the start", "N30 G91 G28 Z0.0000\nN40 G91 G28 X0.0000\n", "", script.KindHome, "the first move before Z, then X has gone home"},
		{"X not at the start", "N40 G91 G28 X0.0000\n", "", script.KindHome, "the first move before X has gone home"},
		{"X first", "N30 G91 G28 Z0.0000\nN40 G91 G28 X0.0000\n", "N40 G91 G28 X0.0000\nN30 G91 G28 Z0.0000\n", script.KindAxis, "X goes home before the bar is out of the work; Z, then X"},
		{"both at once", "N30 G91 G28 Z0.0000\nN40 G91 G28 X0.0000\n", "N30 G91 G28 Z0.0000 X0.0000\n", script.KindAxis, "more than one slide goes home at once"},
		{"Y instead", "N40 G91 G28 X", "N40 G91 G28 Y", script.KindHome, "Y goes home here"},
		{"by way of an increment", "G91 G28 Z0.0000", "G91 G28 Z-5.0000", script.KindSyntax, "an increment"},
		{"by way of the zero of the work", "N30 G91 G28 Z0", "N30 G28 Z0", script.KindStart, "the first move along the bore"},
		{"incremental up to the next safe start", "N50 G90\n", "", "", ""},
		{"by way of the clear plane", "N30 G91 G28 Z0.0000", "N30 G28 Z2.0000", "", ""},
		{"by way of the zero across, at home of Z", "N40 G91 G28 X0.0000", "N40 G90 G28 X0.0000", script.KindStart, "moves across before the tip is known"},
		{"incremental for a move", "N50 G90\n", "N50 G91\n", script.KindCode, "G91"},
		{"the other word", "G91 G28 Z0.0000", "G53 G0 Z0.0000", script.KindCode, "G53"},
		{"with the spindle turning", "N30 G91", "{S} M3\nN30 G91", script.KindSpindle, "goes home with the spindle turning"},
		{"from inside", "{dwell}\n", "M5\nG91 G28 Z0.0000\nG90\n", script.KindRapid, "goes home from depth"},
		{"between passes", " M0\n", " M0\nG91 G28 Z0.0000\nG90\n", script.KindHome, ""},
		{"the remark's order", "BY G28: Z, THEN X", "BY G28: X, THEN Z", script.KindRemark, "X, THEN Z"},
	}},
	{"home by machine positions", "home_word = \"G53\"\nhome_axes = [\"feed\", \"Y\"]\nhome_at = [0, 609.6]", 0, "G53 G0 Z0.0000\n", []wordEdit{
		{"another position", "G53 G0 Y24.0", "G53 G0 Y42.0", script.KindHome, "Y goes to the machine position 42.0000 in; 24.0000 in"},
		{"a position of the work", "G53 G0 Z", "G0 Z", script.KindStart, "unknown place"},
		{"at feed", "G53 G0 Z", "G53 G1 Z", script.KindSyntax, "G53 without G0"},
		{"the remark's position", " 24.0000.", " 42.0000.", script.KindRemark, "42"},
	}},
	{"tool and length", "tool = 7\nlength_offset = 9\ngauge_line = 12.7", 0, "T7 M6\n", []wordEdit{
		{"not called", " T7 M6\n", " M5\n", script.KindTool, "the first move before the bar is called; T7 M6 at the start"},
		{"its number in a block before", "T7 M6\n", "T7\nM6\n", "", ""},
		{"the length beside the first move", " G43 H9\nN90 {S} M3\nN100 G0", " G40\nN90 {S} M3\nN100 G43 H9 G0", "", ""},
		{"another tool", "T7 M6", "T8 M6", script.KindTool, "T8: another tool's; T7"},
		{"without its number", "T7 M6", "M6", script.KindTool, "M6 without the number"},
		{"called again", " M0\n", " M0\nT7 M6\n", script.KindTool, "a second tool change"},
		{"called in the bore", "{dwell}\n", "T7 M6\n", script.KindTool, "a tool change with the spindle turning"},
		{"called with the spindle turning", "N30 T7 M6", "{S} M3\nN30 T7 M6", script.KindTool, "a tool change with the spindle turning"},
		{"no length", " G43 H9\n", " G49\n", script.KindTool, "moves along the bore without its length offset; G43 H9"},
		{"another length", " G43 H9\n", " G43 H7\n", script.KindTool, "H7: another tool's; H9"},
		{"a length that is no more", "{dwell}\n", "G49\n", script.KindTool, "the length offset changes with the tip at depth"},
		{"left in force at the end", " G49\n", " M5\n", script.KindTool, "the program ends with the length offset H9 in force"},
		{"the remark's number", "TOOL: T7", "TOOL: T8", script.KindRemark, "T8"},
		{"the remark's length", "OFFSET: H9", "OFFSET: H8", script.KindRemark, "H8"},
	}},
	{"tool, length and home", "tool = 7\nlength_offset = 9\nhome_word = \"G28\"", 0, "N30 G91 G28 Z0.0000\nN40 G90\nN50 T7 M6\n", []wordEdit{
		{"called before the way home", "N30 G91 G28 Z0.0000\nN40 G90\nN50 T7 M6\n", "N50 T7 M6\nN30 G91 G28 Z0.0000\nN40 G90\n", script.KindTool, "a tool change before Z has gone home"},
	}},
	{"no tool, no length", "", 0, "{S} M3", []wordEdit{
		{"a tool all the same", "N30 M5", "T7 M6\nN30 M5", script.KindCode, "M6: a tool change"},
		{"a length all the same", "{S} M3", "G43 H9\n{S} M3", script.KindCode, "G43: a tool length offset"},
	}},
	{"an angle of the oriented stop in S", "orient_word = \"S\"\norient_angle = 90\norient_settle = 0.5", 0, "S90 M19\nN140 G4 P0.500\n", []wordEdit{
		{"none", "S90 M19", "M19", script.KindRetract, "an oriented stop without its angle; M19 with S90: there the tip points to +X"},
		{"another", "S90 M19", "S270 M19", script.KindRetract, "at 270 degrees"},
		{"in the other word", "S90 M19", "R90. M19", script.KindSyntax, "R90. has no use"},
		{"as a speed", "S90 M19", "S90 M3", script.KindSpindle, "starts with the tip in the work"},
		{"no dwell", "N140 G4 P0.500\n", "", script.KindDwell, "moves before the spindle is at rest after the oriented stop; a dwell of 0.5 s"},
		{"too short a dwell", "G4 P0.500", "G4 P0.050", script.KindDwell, "a dwell of 0.5 s"},
		{"a longer dwell", "G4 P0.500", "G4 P1.500", "", ""},
		{"the remark's angle", "AT 90 DEG", "AT 270 DEG", script.KindRemark, "270"},
	}},
	{"an angle of the oriented stop in R", "orient_word = \"R\"\norient_angle = 270", 0, "R270. M19", []wordEdit{
		{"another", "R270. M19", "R90. M19", script.KindRetract, "at 90 degrees"},
		{"in the other word", "R270. M19", "S270 M19", script.KindCode, "S270 beside M19"},
	}},
	{"no angle", "", 0, "M19", []wordEdit{
		{"an angle all the same", "M19", "R90. M19", script.KindSyntax, "R90. has no use"},
	}},
	{"the bore measured further out", "hold_out = 300", 0, "G0 Z11.8110\n", []wordEdit{
		{"at the clear plane", "G0 Z11.8110\n", "\n", script.KindStop, "stops to measure with the tip 2.0000 in before the face; 11.8110 in before the face at least"},
		{"not far enough", "Z11.8110\n", "Z11.8100\n", script.KindStop, "stops to measure with the tip 11.8100 in"},
		{"further still", "Z11.8110\n", "Z12.8110\n", "", ""},
		{"across out there", "G0 Z11.8110\n", "G0 Z11.8110\nG0 X1.0000\n", script.KindAxis, "X goes to 1"},
		{"the remark's level", "THE TIP STANDS AT Z11.8110", "THE TIP STANDS AT Z1.8110", script.KindRemark, "1.811"},
		{"the header's level", "Z11.8110.)", "Z1.8110.)", script.KindRemark, "a remark says"},
	}},
	{"the other slide placed", "other_slide = \"placed\"", 0, "N70 G0 Z2.0000\nN80 G0 W0.0000\n", []wordEdit{
		{"left where it is", "N80 G0 W0.0000\n", "", script.KindAxis, "goes in before the other slide is placed; G0 W0"},
		{"elsewhere", "G0 W0.0000", "G0 W-4.0000", script.KindAxis, "the other slide goes to W -4.0000 in; W0"},
		{"from an unknown place", "N70 G0 Z2.0000\nN80 G0 W0.0000\n", "N80 G0 W0.0000\nN70 G0 Z2.0000\n", script.KindAxis, "before the bar is known to be out of the work"},
		{"too near", "N70 G0 Z2.0000\n", "N70 G0 Z0.5000\n", script.KindAxis, "goes in before the other slide is placed"},
		{"at feed", "G0 W0.0000", "G1 W0.0000 F1.0000", script.KindFeed, "at feed, where nothing is to be cut"},
		{"with the feeding slide", "N70 G0 Z2.0000\nN80 G0 W0.0000\n", "N70 G0 Z2.0000 W0.0000\n", script.KindAxis, "moves together with another slide"},
		{"with the spindle turning", "N80 G0 W0", "{S} M3\nN80 G0 W0", script.KindSpindle, "the other slide moves with the spindle turning"},
		{"in the bore", "{dwell}\n", "{dwell}\nG0 W-1.0000\n", script.KindAxis, "the other slide moves with the tip at depth 16.9"},
		{"in the cut", "G1 Z-16.9373", "G1 Z-16.9373 W-1.0000", script.KindAxis, "the other slide moves with the tip at depth 14.3750 in"},
		{"after the pass", "G0 X0.0000 Y0.0000\n(---- HOLD", "G0 X0.0000 Y0.0000\nG0 W-1.0000\n(---- HOLD", script.KindAxis, "after the first pass has begun"},
		{"home", "N70 G0 Z2.0000\n", "G91 G28 W0.0000\nG90\nN70 G0 Z2.0000\n", script.KindCode, "machine positions"},
		{"placed twice", "N80 G0 W0.0000\n", "N80 G0 W0.0000\nG0 W0.0000\n", "", ""},
		{"the remark's slide", "OTHER SLIDE: W STANDS AT W0", "OTHER SLIDE: W STANDS AT W1", script.KindRemark, "W1"},
		{"the remark turned", "IT NEVER MOVES", "IT MOVES", script.KindRemark, "a remark says"},
	}},
	{"the other slide placed from home", "other_slide = \"placed\"\nhome_word = \"G28\"\ntool = 7", 0, "T7 M6\nN60 G0 W0.0000\n", []wordEdit{
		{"before the way home", "N30 G91 G28 Z0.0000\n", "G0 W0.0000\nN30 G91 G28 Z0.0000\n", script.KindTool, "the other slide moves before the bar is called"},
		{"and the bar called after it", "N50 T7 M6\nN60 G0 W0.0000\n", "N60 G0 W0.0000\nN50 T7 M6\n", script.KindTool, "moves before the bar is called"},
		{"home as well", "N30 G91 G28 Z0.0000\n", "N30 G91 G28 Z0.0000\nG91 G28 W0.0000\n", script.KindHome, "the other slide or the table goes home"},
		{"left where it is", "N60 G0 W0.0000\n", "", script.KindAxis, "goes in before the other slide is placed"},
	}},
	{"the other slide stated", "other_slide = \"stated\"", 0, "OTHER SLIDE: W STANDS AT W0, THE QUILL HOME", []wordEdit{
		{"moved all the same", "N70 {S} M3\n", "G0 W0.0000\nN70 {S} M3\n", script.KindCode, "W moves the slide that stands still"},
		{"the remark's figure", "THE QUILL HOME", "THE QUILL OUT", script.KindRemark, "a remark says"},
	}},
	{"the table turned", "table_word = \"B\"\ntable_angle = 180", 0, "N70 G0 Z2.0000\nN80 G0 B180.\n", []wordEdit{
		{"not at all", "N80 G0 B180.\n", "", script.KindAxis, "goes in before the table is placed; G0 B180"},
		{"to the other face", "B180.", "B0", script.KindAxis, "the table turns to B0; "},
		{"before the bar is out", "N70 G0 Z2.0000\nN80 G0 B180.\n", "N80 G0 B180.\nN70 G0 Z2.0000\n", script.KindAxis, "the table moves before the bar is known to be out"},
		{"with the bar in the work", "{dwell}\n", "{dwell}\nG0 B0\n", script.KindAxis, "the table moves with the tip at depth 16.9"},
		{"after a pass", "G0 X0.0000 Y0.0000\n(---- HOLD", "G0 X0.0000 Y0.0000\nG0 B0\n(---- HOLD", script.KindAxis, "after the first pass has begun"},
		{"with the spindle turning", "N80 G0 B180.", "{S} M3\nN80 G0 B180.", script.KindSpindle, "the table moves with the spindle turning"},
		{"beside a move across", "N80 G0 B180.", "N80 G0 B180. X0.0000", script.KindAxis, "together with another slide"},
		{"the remark's angle", "TABLE: AT B180", "TABLE: AT B0", script.KindRemark, "B0"},
	}},
	{"no other slide, no table", "", 0, "{S} M3", []wordEdit{
		{"the table turned all the same", "{S} M3", "G0 B180.\n{S} M3", script.KindCode, "word B180."},
		{"the other slide moved all the same", "{S} M3", "G0 W0.0000\n{S} M3", script.KindCode, "W moves the slide that stands still"},
	}},
	{"a spring pass once more", "spring_again = \"/\"", 1, "/N520 M5\n/N530 M0\n/N540 G17", []wordEdit{
		{"one / lost at the start of the spindle", "/N560 S83 M3", "N560 S83 M3", script.KindCode, "a block without / among those of the pass taken again"},
		{"one / lost at the feed", "/N600 G1", "N600 G1", "", "-"},
		{"one / too many at a move of the plan", "N430 G1", "/N430 G1", "", "-"},
		{"one / too many at a stop of the plan", "N360 M0", "/N360 M0", "", "-"},
		{"one / too many at the start", "N10 G17", "/N10 G17", script.KindCode, "a block that the operator's switch can skip"},
		{"deeper the second time", "/N600 G1 Z-16.9284", "/N600 G1 Z-16.9384", script.KindDepth, "ends at depth 16.9384 in (block delete off)"},
		{"faster the second time", "/N560 S83", "/N560 S180", script.KindSpeed, "180 rev/min"},
		{"no stop before it", "/N530 M0\n", "", script.KindStop, "stop"},
		{"no stop to measure behind it", "/N680 M0\n", "", script.KindCode, "a block without / among those of the pass taken again"},
		{"shifted toward the wall", "/N640 G0 X-0.0390", "/N640 G0 X0.0390", script.KindRetract, "(block delete off)"},
		{"the remark's switch", "ON SKIPS IT, OFF TAKES IT", "OFF SKIPS IT, ON TAKES IT", script.KindRemark, "a remark says"},
		{"the switch at any time", "AND NOT AGAIN BEFORE THE NEXT STOP", "AND AGAIN BEFORE THE NEXT STOP", script.KindRemark, "a remark says"},
		{"what it takes", "IT TAKES DIA 0.0007", "IT TAKES DIA 0.0070", script.KindRemark, "0.0070"},
		{"the size below which it is taken", "MEASURED UNDER DIA 3.1501", "MEASURED UNDER DIA 3.1505", script.KindRemark, "3.1505"},
		{"over that size", "MEASURED UNDER DIA 3.1501", "MEASURED OVER DIA 3.1501", script.KindRemark, "OVER"},
		{"again after another pass", "HOLD AFTER PASS 9 AGAIN", "HOLD AFTER PASS 8 AGAIN", script.KindRemark, "PASS 8 AGAIN"},
		{"another pass again", "PASS 9 AGAIN: SPRING", "PASS 8 AGAIN: SPRING", script.KindRemark, "PASS 8 AGAIN"},
		{"another kind of pass again", "PASS 9 AGAIN: SPRING", "PASS 9 AGAIN: FINISH", script.KindRemark, "FINISH"},
		{"only with the switch off", "ONLY WITH BLOCK DELETE OFF", "ONLY WITH BLOCK DELETE ON", script.KindRemark, "a remark says"},
	}},
	{"a spring pass once more, in a visit without one", "spring_again = \"/\"", 0, "{S} M3", []wordEdit{
		{"a block to skip all the same", "N20 G54", "/N20 G54", script.KindCode, "a block that the operator's switch can skip"},
		{"a stop to skip", "N30 M5\n", "/N30 M5\n", script.KindCode, "a block that the operator's switch can skip"},
	}},
	{"no spring pass twice", "", 1, "S83 M3", []wordEdit{
		{"a block to skip all the same", "N380 G54", "/N380 G54", script.KindCode, "a block that the operator's switch can skip"},
	}},
	{"no home", "", 0, "{S} M3", []wordEdit{
		{"home all the same", "N30 M5", "G91 G28 Z0.0000\nG90\nN30 M5", script.KindCode, "goes home by machine positions"},
	}},
	{"no spindle ranges", "", 0, "{S} M3", []wordEdit{
		{"a range all the same", " {S} M3", " M41\n{S} M3", script.KindCode, "no words for ranges"},
	}},
	{"numbers without signs", "program_number = 1200", 0, "O1200", []wordEdit{
		{"a signed N", "N20 ", "N+20 ", script.KindSyntax, "N+20 has a sign"},
		{"a signed O", "O1200", "O+1200", script.KindSyntax, "O+1200 has a sign"},
		{"a signed S", " {S} M3", " S+9 M3", script.KindSyntax, "has a sign"},
	}},
}

type wordEdit struct {
	why, old, new string
	kind          Kind   // "": none, it does no harm
	what          string // part of What or Want; "-": anything is found
}

// allWords is a control that has every word.
const allWords = wordsOf + "other_slide = \"placed\"\ntable_word = \"B\"\ntable_angle = 90\ndrop_zeros = \"none\"\nrestart_step = 1000\ncoolant = \"M8\"\ntool = 7\nlength_offset = 9\nhome_word = \"G53\"\n" +
	"home_axes = [\"feed\", \"X\"]\nhome_at = [0, 254]\ngear = [ { word = \"M41\", speeds = [1, 70] }, { word = \"M42\", speeds = [50, 9000] } ]"

// The replay that the round trip rests on sees when one of these words is wrong.
func TestSameMovesSeesWords(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", allWords)
	good := string(written(t, p, 0, 1)) // bores steel
	if err := sameMoves([]byte(good), p, 0, 1); err != nil {
		t.Fatal(err)
	}
	for _, s := range [][2]string{
		{" M8\n", " M9\n"}, {" M8\n", " M7\n"}, {" M9\nN", " M8\nN"}, {" M42\n", " M41\n"}, {" M42\n", "\n"}, {"T7 M6", "T8 M6"}, {"T7 M6", "M5"},
		{"G43 H9", "G43 H8"}, {"G43 H9", "G49"}, {" G49\n", " M5\n"}, {"G53 G0 Z", "G53 G0 Y"}, {"X0010.0000", "X0011.0000"}, {"G53 G0 X0010.0000", "M5"}, {"G0 W0000.0000", "G0 W0000.1000"}, {"G0 W0000.0000", "M5"}, {"G0 B0090.", "G0 B0"}, {"G0 B0090.", "M5"},
	} {
		i := strings.Index(good, "G43") // of the pass, not of the head
		if strings.HasPrefix(s[0], "T7") || strings.Contains(s[0], "G53") || strings.HasPrefix(s[0], "X00") || strings.HasPrefix(s[0], "G0 ") {
			i = 0
		}
		i = max(i-10, 0)
		bad := good[:i] + strings.Replace(good[i:], s[0], s[1], 1)
		if bad == good {
			t.Errorf("no %q in the program", s[0])
		} else if sameMoves([]byte(bad), p, 0, 1) == nil {
			t.Errorf("%q for %q: not seen", s[1], s[0])
		}
	}
}

// figuresOf writes what a program takes from the plan: the speed of its first pass for {S},
// its first dwell at the bottom for {dwell}.
func figuresOf(program string) *strings.Replacer {
	first := func(re string) string { return regexp.MustCompile(re).FindString(program) }
	return strings.NewReplacer("{S}", strings.TrimSuffix(first(`S\d+ M3`), " M3"), "{dwell}", first(`G4 P[0-9.]+`))
}

// A pass that turns faster than the one before it needs its own range: without the word
// for it the program is not proven.
func TestRangeOfAFasterPass(t *testing.T) {
	p := planned(t, strings.Replace(shipped("gear-case/job.toml")(t), "\nunits", "\norder = \"bore_by_bore\"\nunits", 1), "cnc-110mm", wordsOf+"gear = [ { word = \"M41\", speeds = [1, 180] }, { word = \"M42\", speeds = [170, 9000] } ]")
	good := string(written(t, p, 0, 0))
	bad := regexp.MustCompile(`N\d+ M42\n`).ReplaceAllString(good, "")
	if bad == good {
		t.Fatalf("no pass needs the upper range:\n%s", good)
	}
	for _, f := range Check([]byte(bad), "", p, 0, 0).Findings {
		if f.Kind == script.KindSpindle && strings.Contains(f.What+"; "+f.Want, "starts in the range M41; M42 in a block before it: 170 to 9000 rev/min") {
			return
		}
	}
	t.Error("not found")
}

func TestMachineWords(t *testing.T) {
	job := shipped("lock-winch/job.toml")(t)
	step := slow.Rounds(t, "is the step from one property to the next", 1, 6)
	for i, m := range machineWords {
		if i%step != 0 {
			continue
		}
		p := planned(t, job, "cnc-110mm", wordsOf+m.control)
		for k := range p.Bores[0].Visits {
			if _, err := tripped(p, 0, k); err != nil {
				t.Errorf("%s, visit %d: %v", m.property, k+1, err)
			}
		}
		good := string(written(t, p, 0, m.visit))
		figures := figuresOf(good)
		if m.has = figures.Replace(m.has); !strings.Contains(good, m.has) {
			t.Errorf("%s: no %q in\n%s", m.property, m.has, good)
		}
		for _, l := range Check([]byte(good), "", p, 0, m.visit).NotHeld {
			t.Errorf("%s: not held: %s", m.property, l.Text)
		}
		for _, e := range m.edits {
			e.old = figures.Replace(e.old)
			bad := strings.Replace(good, e.old, figures.Replace(e.new), 1)
			if bad == good {
				t.Errorf("%s, %s: no %q in the program", m.property, e.why, e.old)
				continue
			}
			found := e.kind == "" && e.what == ""
			all := Check([]byte(bad), "", p, 0, m.visit).Findings
			for _, f := range all {
				found = e.kind != "" && found || f.Kind == e.kind && strings.Contains(f.What+"; "+f.Want, e.what)
			}
			if found = found || e.what == "-" && len(all) > 0; !found {
				t.Errorf("%s, %s: not found among %v", m.property, e.why, all)
			}
		}
	}
}
