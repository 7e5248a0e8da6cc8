package rs274

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

const outside = "../../testdata/rs274/outside/"

// TestOutside holds words and end points against two general-purpose readers
// of the npm registry, recorded in testdata/rs274/outside (see make.js there):
// gcode-parser 2.2.0 and gcode-interpreter 3.0.0. They are asked only about
// what they know: the words, and the end points of G0 to G3 in X, Y and Z.
func TestOutside(t *testing.T) {
	data, err := os.ReadFile(outside + "outside.json")
	if err != nil {
		t.Fatal(err)
	}
	var record struct {
		Programs []struct {
			Name  string
			Words []struct {
				Line  int
				Words [][2]any
			}
			Moves []move
		}
	}
	if err := json.Unmarshal(data, &record); err != nil {
		t.Fatal(err)
	}
	if len(record.Programs) < 5 {
		t.Fatalf("%d programs recorded", len(record.Programs))
	}
	for _, p := range record.Programs {
		text, err := os.ReadFile(outside + p.Name)
		if err != nil {
			t.Fatal(err)
		}
		s := NewScanner(strings.NewReader(string(text)), Dialect{})
		for _, want := range p.Words {
			if !s.Scan() {
				t.Fatalf("%s ends before line %d", p.Name, want.Line)
			}
			for len(s.Block().Words) == 0 {
				s.Scan()
			}
			b := s.Block()
			if b.Line != want.Line || len(b.Words) != len(want.Words) {
				t.Fatalf("%s:%d: %d words; want line %d, %d words", p.Name, b.Line, len(b.Words), want.Line, len(want.Words))
			}
			for i, w := range b.Words {
				if string(w.Letter) != want.Words[i][0] || w.Value != want.Words[i][1] {
					t.Errorf("%s:%d: word %d is %c%v, want %v", p.Name, b.Line, i+1, w.Letter, w.Value, want.Words[i])
				}
			}
		}
		if s.Scan() || len(s.Faults()) > 0 {
			t.Errorf("%s goes on at line %d; faults %v", p.Name, s.Block().Line, s.Faults())
		}
		got, want := movesOf(t, string(text)), distinct(p.Moves)
		for i := range max(len(got), len(want)) {
			if i >= len(got) || i >= len(want) || got[i] != want[i] {
				t.Errorf("%s: moves\n got %v\nwant %v", p.Name, got, want)
				break
			}
		}
	}
}

// move is an end point in the units of the program, 1e-6 of them.
type move struct {
	Code    int
	X, Y, Z float64
}

func movesOf(t *testing.T, text string) []move {
	code := map[Motion]int{Rapid: 0, Feed: 1}
	var all []move
	faults, err := Replay(strings.NewReader(text), Dialect{}, func(e Event) error {
		if e.Kind != Move {
			return nil
		}
		n := code[e.Motion]
		if e.Motion == Arc {
			n = 3
			if e.Clockwise {
				n = 2
			}
		}
		in := func(l byte) float64 {
			f := e.To.Linear(l).MM()
			if e.Units != 0 {
				f = e.To.Linear(l).Inches()
			}
			return f
		}
		all = append(all, move{n, in('X'), in('Y'), in('Z')})
		return nil
	})
	if err != nil || len(faults) > 0 {
		t.Errorf("%v %v", faults, err)
	}
	return distinct(all)
}

// distinct leaves out moves that end where the one before them ended: one side
// records a block that moves nothing, the other a slide W that the first does
// not know.
func distinct(all []move) []move {
	var out []move
	for i, m := range all {
		if i == 0 || m != all[i-1] {
			out = append(out, m)
		}
	}
	return out
}
