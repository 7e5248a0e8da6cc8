package files

import (
	"errors"
	"fmt"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/qty"
)

// A job that says nothing of lining up gets the usual figures, and the bore's
// own diameter where the dial ran.
func TestLineUpDefaults(t *testing.T) {
	j := mustLoad(t, reboreJob)
	want := process.LineUp{Dial: 2540, Repeats: 2540, Coaxial: 12_700, Square: 0.05, Parallel: 0.1}
	if diff := cmp.Diff(want, j.LineUp); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if s := j.Sweeps[0]; s.Diameter != j.Stations[0].Diameter || s.Stylus != 0 || s.Droop != 0 {
		t.Errorf("%+v", s)
	}
	if j.Cutter.Ahead != 0 || j.Cutter.Behind != qty.Inch/2 || j.Limits.ChipRoom != qty.FromInches(0.06) {
		t.Errorf("cutter ahead %v, behind %v; chip room %v", j.Cutter.Ahead, j.Cutter.Behind, j.Limits.ChipRoom)
	}
}

// TestShopBars reads the shipped list, and tells every mistake of a bad one.
func TestShopBars(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/lock-winch/bars.toml")
	if err != nil {
		t.Fatal(err)
	}
	list, err := Bars("bars.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	bars := list.Bars
	if len(bars) != 6 {
		t.Fatalf("%d bars", len(bars))
	}
	if b := bars[1]; b.CutterAt != 20*qty.Inch || b.Least != qty.Diameter(qty.FromInches(2.25*1.06)) || b.Most != qty.Diameter(qty.FromInches(3.6)) {
		t.Errorf("%+v", b)
	}
	if b := bars[2]; b.CutterAt != 20*qty.Inch || bars[5].CutterAt != 20*qty.Inch || b.Most != qty.Diameter(qty.FromInches(3.6)) || b.Steps[1].Hole != qty.Diameter(qty.Inch/2) {
		t.Errorf("%+v", b)
	}

	bad := `units = "in"
[[bar]]
name = "a"
steps = [ { diameter = 2, length = 10, hole = 3 } ]
[[bar]]
name = "a"
steps = [ { diameter = 2, length = 10 } ]
cutter_at = 12
least = 4
most = 3
[[bar]]
steps = [ { diametre = 2, length = 10 } ]
`
	_, err = Bars("bars.toml", []byte(bad), nil)
	want := `bars.toml:4:40: bar[1].steps[1].hole: Ø3 in in a step of Ø2 in; the hole must be smaller than the step
bars.toml:5:1: bar[2]: can be set from Ø4 in to Ø3 in only; the least is below the most
bars.toml:6:1: bar[2].name: "a" is already the name of bar 1; give each bar its own name
bars.toml:8:1: bar[2].cutter_at: 12 in is beyond the end of the bar, 10 in; it counts from the spindle nose, and cannot be more than all steps together
bars.toml:11:1: bar[3].name: is missing; write name = "no. 4 bar" (what the shop calls it)
bars.toml:12:13: bar[3].steps[1].diametre: is not a key of a bar.steps; did you mean diameter?`
	if err == nil {
		t.Fatal("loads")
	}
	if diff := cmp.Diff(want, err.Error()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}

	_, err = Bars("bars.toml", []byte("units = \"in\"\n[[bars]]\nname = \"a\"\nsteps = [ { diameter = 2, length = 10 } ]\n"), nil)
	if got := fmt.Sprint(err); got != "bars.toml:2:1: bars: is not a key of the list of bars and cutters; did you mean bar?" {
		t.Error(got)
	}

	// Named by a job, its mistakes are listed with the job's.
	open := func(path string) ([]byte, error) {
		switch path {
		case "bars.toml":
			return data, nil
		case "bad.toml":
			return []byte("units = \"in\"\nbar = 3\n"), nil
		}
		return nil, errors.New("no such file")
	}
	j, err := Job("job.toml", []byte("bars = \"bars.toml\"\n"+reboreJob), open)
	if err != nil || len(j.Shop) != 6 {
		t.Fatalf("%v, %v", j, err)
	}
	for name, want := range map[string]string{
		"bad.toml": `job.toml:1:1: bars: the file "bad.toml" has mistakes; they are listed below with its name
bad.toml:2:1: bar: 3 is a number; write a list of tables, as in bar = [ { name = "no. 4", steps = [ { diameter = 2.25, length = 17.5 } ] } ]`,
		"lost.toml": `job.toml:1:1: bars: the file "lost.toml" cannot be read: no such file; give a path relative to the job file`,
	} {
		_, err := Job("job.toml", []byte("bars = \""+name+"\"\n"+reboreJob), open)
		if err == nil {
			t.Fatal("loads")
		}
		if diff := cmp.Diff(want, err.Error()); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
	}
}
