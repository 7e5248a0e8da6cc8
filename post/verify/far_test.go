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

// TestProgramsOfBothFaces: of a job of both faces the program of each bore is written for its
// own face. It is proven with the table at its angle and with the face said at every stop to set
// the cutter, and with neither of the other face nor with the face left out.
func TestProgramsOfBothFaces(t *testing.T) {
	control := "units_word = \"G20/G21\"\ndecimal_point = true\nwhole_places = 5\nfeed_per_rev = true\nreturn_words = true\ndwell = \"seconds\"\ndwell_word = \"P\"\noriented_stop = true\ntip_at_stop = \"+X\"\ncomments = true\nfeed_axis = \"Z\"\nquill_axis = \"W\"\nwork_offset = \"G54\"\n"
	for _, table := range []string{"", "table_word = \"B\"\ntable_angle = 210"} {
		p := planned(t, shipped("swing-bridge/both.toml")(t), "cnc-110mm", control+table)
		var all []string
		for b, face := range []string{"NEAR", "FAR"} {
			program, other := string(written(t, p, b, 0)), map[string]string{"NEAR": "FAR", "FAR": "NEAR"}[face]
			all = append(all, program)
			says := "(ONLY WITH THE " + face + " FACE AT THE SPINDLE.)"
			if n := strings.Count(program, says); n != len(p.Bores[b].Visits[0].Passes) {
				t.Errorf("%s: said %d times", says, n)
			}
			if got := Check([]byte(program), "own.nc", p, b, 0); !got.Proven {
				t.Fatalf("%s: %v", face, got.Findings)
			}
			edits := [][2]string{{says, "(ONLY WITH THE " + other + " FACE AT THE SPINDLE.)"}, {says + "\n", ""},
				{"FROM THE " + face + " FACE, REBORE", "FROM THE " + other + " FACE, REBORE"}}
			if table != "" {
				angle := []string{"B210.", "B30."}
				edits = append(edits, [2]string{angle[b], angle[1-b]})
			}
			for _, e := range edits {
				edited := strings.Replace(program, e[0], e[1], 1)
				if edited == program {
					t.Fatalf("no %q in\n%s", e[0], program)
				}
				if got := Check([]byte(edited), "edited.nc", p, b, 0); got.Proven {
					t.Errorf("%q for %q is proven", e[1], e[0])
				} else if len(got.Findings) != 1 {
					t.Errorf("%q for %q: %v", e[1], e[0], got.Findings)
				}
			}
			without := strings.ReplaceAll(program, says+"\n", "")
			if got := Check([]byte(without), "without.nc", p, b, 0); got.Proven {
				t.Errorf("proven with no face said")
			}
		}
		for b := range all {
			if got := Check([]byte(all[1-b]), "other.nc", p, b, 0); got.Proven {
				t.Errorf("the program of the other face is proven for %s", p.Bores[b].Station.Name)
			}
		}
	}
}

// TestProgramsOfBothFacesHeld: with the bar in an outboard bearing, in two as a line bar, or in a bush in the seat of the other
// face, the program of each face is proven, says how the bar is held, and is not proven for the other.
func TestProgramsOfBothFacesHeld(t *testing.T) {
	for what, edits := range map[string][]string{
		"bearing": {"length = 200 } ]", "length = 1130 } ]\ncutter_at = 270\noutboard = { at = 1100 }"},
		"two":     {"{ diameter = 128, length = 70 }, { diameter = 100, length = 200 } ]", "{ diameter = 100, length = 2200 } ]\ncutter_at = 1060\ninboard = { at = 950 }\noutboard = { at = 1900 }"},
		"bush":    {"diameter   = 162.02\n", "", "{ diameter = 128, length = 70 }, { diameter = 100, length = 200 } ]", "{ diameter = 100, length = 1100 } ]\ncutter_at = 270", "station   = \"shore seat\"\nrepair", "station   = \"shore seat\"\nguide     = { station = \"bridge seat\" }\nrepair"},
	} {
		if testing.Short() && what != "bush" {
			continue
		}
		p := planned(t, strings.NewReplacer(edits...).Replace(shipped("swing-bridge/both.toml")(t)), "cnc-110mm", "")
		for b, face := range []string{"NEAR", "FAR"} {
			program := string(written(t, p, b, 0))
			held := what != "bush" || b == 0
			if (strings.Contains(program, "OUTBOARD SUPPORT") || strings.Contains(program, "TWO BEARINGS")) != held {
				t.Errorf("%s, %s face: said to be held, and is not, or the other way about", what, face)
			}
			got := Check([]byte(program), "own.nc", p, b, 0)
			if !got.Proven {
				t.Fatalf("%s, %s face: %v", what, face, got.Findings)
			}
			granted := map[string]string{"bearing": "The outboard support stands", "two": "Both bearings of the line bar", "bush": "The bush is in bridge seat"}[what]
			if strings.Contains(strings.Join(got.Assumed, " "), granted) != held {
				t.Errorf("%s, %s face: takes for granted %q", what, face, got.Assumed)
			}
			if Check([]byte(program), "other.nc", p, 1-b, 0).Proven {
				t.Errorf("%s: the program of the %s face is proven for the other", what, face)
			}
		}
	}
}
