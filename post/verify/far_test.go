package verify

import (
	"strings"
	"testing"
)

// TestTableComesHalfRound: for bores from the far face the table stands half a turn further
// than the machine file says, and no other place of it is proven.
func TestTableComesHalfRound(t *testing.T) {
	control := "units_word = \"G20/G21\"\ndecimal_point = true\nwhole_places = 5\nfeed_per_rev = true\nreturn_words = true\ndwell = \"seconds\"\ndwell_word = \"P\"\noriented_stop = true\ntip_at_stop = \"+X\"\ncomments = true\nfeed_axis = \"Z\"\nquill_axis = \"W\"\nwork_offset = \"G54\"\ntable_word = \"B\"\ntable_angle = 210"
	p := planned(t, shipped("swing-bridge/far.toml")(t), "cnc-110mm", control)
	program := string(written(t, p, 0, 0))
	if !strings.Contains(program, "B30.") || !strings.Contains(program, "AT B30,") {
		t.Fatalf("no B30 in\n%s", program)
	}
	if got := Check([]byte(program), "far.nc", p, 0, 0); !got.Proven {
		t.Fatalf("%v", got.Findings)
	}
	for _, edit := range [][2]string{{"B30.", "B210."}, {"B30.", "B31."}, {"AT B30,", "AT B210,"}} {
		got := Check([]byte(strings.Replace(program, edit[0], edit[1], 1)), "far.nc", p, 0, 0)
		if got.Proven {
			t.Errorf("%s for %s is proven", edit[1], edit[0])
		}
	}
}

// TestLineBarProgram: a program for a line bar in two bearings is proven, says so before its
// first pass, and never brings the bar home.
func TestLineBarProgram(t *testing.T) {
	text := shipped("wheel-shaft/job.toml")(t)
	i, j := strings.Index(text, "[[bore]]\nstation = \"gear seat\""), strings.Index(text, "[bar]")
	text = strings.NewReplacer("standoff  = 880", "standoff  = 900", "at = 800", "at = 820", "at = 1600", "at = 1620").Replace(text[:i] + text[j:])
	p := planned(t, text, "cnc-110mm", "")
	program := string(written(t, p, 0, 0))
	flat := strings.Join(strings.Fields(strings.NewReplacer("(", " ", ")", " ").Replace(program)), " ")
	for _, want := range []string{"THE BAR RUNS IN TWO BEARINGS, TURNED BY A DRIVER THAT FLOATS", "THE CUTTER STAYS BETWEEN THEM", "GAUGE BESIDE IT"} {
		if !strings.Contains(flat, want) {
			t.Errorf("%q is not said", want)
		}
	}
	if got := Check([]byte(program), "far.nc", p, 0, 0); !got.Proven {
		t.Fatalf("%v", got.Findings)
	}
	if got := Check([]byte(strings.Replace(program, "TWO BEARINGS", "ONE BEARING", 1)), "line.nc", p, 0, 0); got.Proven {
		t.Error("another caution is proven")
	}
}
