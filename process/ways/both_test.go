package ways

import (
	"os"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
)

// TestOutboardBeyondBothFaces: the bearing that a job of both faces is advised to take stands beyond the
// casting, 700 mm long, from either face as a cut begins; through a closed seat none is advised.
func TestOutboardBeyondBothFaces(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/swing-bridge/both.toml")
	if err != nil {
		t.Fatal(err)
	}
	both := func(old, new string) *process.Job {
		job, err := files.Job("both.toml", []byte(strings.Replace(string(data), old, new, 1)), nil)
		if err != nil {
			t.Fatal(err)
		}
		return job
	}
	job := both("", "")
	all := supported(job)
	if len(all) != 1 {
		t.Fatalf("%d ways, want one", len(all))
	}
	j := *job
	j.Bar.Steps = append([]process.Step(nil), job.Bar.Steps...)
	all[0].edit(&j)
	if beyond := (j.Bar.Outboard.At - j.Bar.CutterAt).MM(); beyond < 700 || j.Bar.Stickout() < j.Bar.Outboard.At {
		t.Errorf("the bearing stands %g mm beyond the tip, the bar ends at %v", beyond, j.Bar.Stickout())
	}
	through := strings.LastIndex(string(data), "[[sweep]]") // no sweep goes through a closed seat
	data = append(data[:through:through], data[strings.Index(string(data), "[lineup]"):]...)
	if all := supported(both("to = 60, diameter", "to = 60, blind = true, relief = 3, diameter")); all != nil {
		t.Errorf("through a closed seat: %v", all)
	}
}

// A key and one within it are not both written; another that only begins alike is another.
func TestKeysThatMeet(t *testing.T) {
	for _, x := range []struct {
		a, b string
		want bool
	}{
		{"cutter.set_by", "cutter.set_by", true},
		{"bar.steps", "bar.steps[2].length", true},
		{"bar.steps[2].length", "bar.steps", true},
		{"bar.outboard", "bar.outboard.at", true},
		{"cutter.lead", "cutter.leader", false},
		{"bar.steps[1].length", "bar.steps[2].length", false},
	} {
		one, other := change{keys: []key{{path: x.a}}}, change{keys: []key{{path: "units"}, {path: x.b}}}
		if got := meet(x.a, x.b); got != x.want || apart(one, []change{other}) == x.want {
			t.Errorf("%s and %s meet: %v", x.a, x.b, got)
		}
	}
}
