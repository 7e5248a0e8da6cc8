package remark

import (
	"slices"
	"strings"
	"testing"

	"borewright/post/rs274"
	"borewright/process/qty"
)

// What a gauge should say is not what the cutter is set to.
func TestRead(t *testing.T) {
	for _, row := range []struct {
		why          string
		lines        []string
		set, measure bool
		sizes        []float64
	}{
		{"plain", []string{"SET CUTTER TO DIA 3.3750"}, true, false, []float64{3.375}},
		{"in lower case, with a unit", []string{"set cutter to dia 85.000mm, spring allowed for."}, true, false, []float64{85}},
		{"written together", []string{"SET DIA3.375IN"}, true, false, []float64{3.375}},
		{"over two lines", []string{"SET CUTTER TO", "DIA 84.6"}, true, false, []float64{84.6}},
		{"left as it is", []string{"Leave cutter at dia 84.600 mm: same setting again."}, true, false, []float64{84.6}},
		{"gauge words after it", []string{"SET CUTTER TO DIA 84.6", "EXPECT BORE DIA 84.5 TO 84.7 AFTER THIS PASS"}, true, false, []float64{84.6}},
		{"gauge words before it", []string{"AFTER THE HOLD OF PASS 1: SIZE FOUND THERE DIA 80.1 TO 80.2", "SET CUTTER: DIAMETER = 84.6"}, true, false, []float64{84.6}},
		{"without DIA", []string{"SET TOOL TO 84.6"}, true, false, []float64{84.6}},
		{"DIA after it", []string{"SET CUTTER AT 84.6 DIA, PASS 2 OF 3, S90"}, true, false, []float64{84.6}},
		{"a set-up is no order", []string{"LEAVE THE SET-UP STANDING"}, false, false, nil},
		{"a setting to come is no order", []string{"SET THE NEXT PASS SMALLER BY 4 TENTHS", "KEEP THE NEXT SETTING"}, false, false, nil},
		{"a hold spoken of is no order", []string{"ONLY IF THE HOLD AFTER PASS 4 FOUND DIA 84.6", "ROOM FOR THE GAUGE"}, false, false, nil},
		{"a measuring stop", []string{"MEASURE: DIAMETER AT BOTH ENDS", "WHERE THE CUTTER MARKED, DIA 84", "LIMITS DIA 85.000 TO 85.035"}, false, true, nil},
		{"setting is not set", []string{"SPRING IS SETTING MINUS SIZE FOUND"}, false, false, nil},
		{"no number", []string{"SET CUTTER TO DIA"}, true, false, nil},
		{"nonsense", []string{"SET DIA ...", "SET DIA -", "DIA 1.2.3"}, true, false, nil},
	} {
		var said []Remark
		for i, text := range row.lines {
			said = append(said, Remark{i + 1, text})
		}
		got := Read(said)
		if got.Set != row.set || got.Measure != row.measure || len(got.Sizes) != len(row.sizes) {
			t.Errorf("%s: %+v", row.why, got)
			continue
		}
		for i, v := range row.sizes {
			if got.Sizes[i].Value != v {
				t.Errorf("%s: %+v", row.why, got.Sizes)
			}
		}
	}
}

// A size states a diameter to the last decimal that is printed, in the unit that
// stands beside it, or, where none does, in any unit of job and program.
func TestSizeStates(t *testing.T) {
	d := qty.Diameter(qty.Inches.Of(3.375)) // 85.725 mm
	for _, c := range []struct {
		said string
		want bool
	}{
		{"SET CUTTER TO 3.3750 IN", true}, {"SET CUTTER TO 3.3750 INCH", true}, {"SET CUTTER TO 3.3750", true}, {"SET CUTTER TO 85.725", true},
		{"SET CUTTER TO 85.725 MM", true}, {"SET CUTTER TO 3.3750 MM", false}, {"SET CUTTER TO 85.725 IN", false}, {"SET CUTTER TO 3.3751 IN", false},
		{"SET CUTTER TO 85.726 MM", false},
	} {
		o := Read([]Remark{{1, c.said}})
		if len(o.Sizes) != 1 || o.Sizes[0].States(d, qty.Inches, qty.Metric) != c.want {
			t.Errorf("%s: %+v", c.said, o.Sizes)
		}
	}
}

// The header names pass, setting, tip and units; each at its own line.
func TestHeader(t *testing.T) {
	said := []Remark{{3, "UNITS: MM"}, {4, "BAR DIA 60.0 X 300"}, {5, "1 ROUGH: SET DIA 83.000, DEPTH 1.5"}, {6, "2 FINISH: SET"}, {7, " DIA 85.024 MM"}, {8, "THE TIP STOPS AT +X"}}
	got := Settings(said)
	want := []Setting{{1, Size{Line: 5, Text: "83.000", Value: 83}}, {2, Size{7, "85.024", 85.024, qty.Metric, true}}}
	if !slices.Equal(got, want) {
		t.Errorf("%+v", got)
	}
	if got := Tips(said); !slices.Equal(got, []Remark{{8, "+X"}}) {
		t.Errorf("%+v", got)
	}
	if got := Units(said); !slices.Equal(got, []UnitsSaid{{3, qty.Metric, false}}) {
		t.Errorf("%+v", got)
	}
	two := []Remark{{1, "UNITS: WORDS OF THE PROGRAM IN INCH,"}, {2, "SIZES IN TEXT IN MM."}}
	if got := Units(two); !slices.Equal(got, []UnitsSaid{{1, qty.Inches, false}, {2, qty.Metric, true}}) {
		t.Errorf("%+v", got)
	}
}

// A comment belongs to the stop it stands at; M5 may come between, a move not.
func TestGathered(t *testing.T) {
	const program = "(HEADER)\nG0 Z50.\n(BEFORE)\nM5\nM0 (ON IT)\n(AFTER)\nS90 M3\n(BESIDE A MOVE)\nG1 Z-10.\nM0\nM30\n"
	s := rs274.NewScanner(strings.NewReader(program), rs274.Dialect{Numbers: rs274.PointMay})
	var g Gathered
	moved := false
	for s.Scan() {
		b := s.Block()
		g.Take(b, moved)
		for _, w := range b.Words {
			moved = moved || w.Letter == 'Z'
		}
	}
	if want := []Remark{{3, "BEFORE"}, {5, "ON IT"}, {6, "AFTER"}}; !slices.Equal(g.Stops[5], want) || len(g.Stops) != 2 || len(g.Stops[10]) > 0 {
		t.Errorf("%+v", g.Stops)
	}
	if len(g.Apart) != 2 || !g.Apart[0].Header || g.Apart[0].Said[0].Text != "HEADER" || g.Apart[1].Header || g.Apart[1].Said[0].Line != 8 {
		t.Errorf("%+v", g.Apart)
	}
}
