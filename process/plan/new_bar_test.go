package plan_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/slow"
)

// shortRack is the example's rack with only those bars that do not do.
func shortRack(t *testing.T) (job, rack string) {
	t.Helper()
	read := func(name string) string {
		data, err := os.ReadFile("../../testdata/jobs/net-hauler/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	whole := regexp.MustCompile(`(?s)\[\[bar\]\]\nname += "(B 50|C 60|E 63 heavy metal|F 80)"\n.*?\n\n`)
	cut := whole.ReplaceAllString(read("rack.toml"), "")
	if n := strings.Count(cut, "[[bar]]"); n != 2 {
		t.Fatalf("%d bars are left", n)
	}
	return read("job.toml"), cut
}

// A bar of the list cannot be changed from the job file: what is told is an entry for the list,
// which the list takes as it is told, and the job then plans with it as was promised, left open
// and with the bar named.
func TestBarToAddPlansAsWritten(t *testing.T) {
	slow.Test(t, "a search of ways, planned in full")
	text, rack := shortRack(t)
	open := func(list string) func(string) ([]byte, error) {
		return func(string) ([]byte, error) { return []byte(list), nil }
	}
	job, err := Tooled(files.Job("job.toml", []byte(text), open(rack)))
	if err != nil {
		t.Fatal(err)
	}
	p := Make(job)
	found := p.Free()
	told := 0
	for _, w := range found {
		if len(w.Bars) == 0 {
			continue
		}
		told++
		longer := rack + "\n" + w.Entry()
		list, err := files.Bars("rack.toml", []byte(longer), nil)
		if err != nil {
			t.Errorf("%s\nis not read: %v", w.Entry(), err)
			continue
		}
		if got := list.Bars[len(list.Bars)-1]; got.Name != w.Bars[0].Name || len(got.Steps) != len(w.Bars[0].Steps) || got.CutterAt != w.Bars[0].CutterAt {
			t.Errorf("%s\nis read as %+v", w.Entry(), got)
		}
		as, err := Tooled(applied(t, text, w, longer))
		if err != nil {
			t.Errorf("left open: %v", err)
		} else if !Make(as).Feasible {
			t.Errorf("left open: %s with %s does not do", as.Bar.Name, as.Cutter.Name)
		}
		named := strings.Replace(text, "bars     =", "bar.name = \""+w.Bars[0].Name+"\"\ncutter.name = \""+p.Job.Cutter.Name+"\"\nbars     =", 1)
		one, err := applied(t, named, w, longer)
		if err != nil {
			t.Fatal(err)
		}
		if q := Make(one); !q.Feasible || q.Minutes != w.Minutes {
			t.Errorf("%s\ngives feasible %v in %.2f minutes, and %.2f were told: %v", w.Entry(), q.Feasible, q.Minutes, w.Minutes, q.Reasons)
		}
	}
	if p.Feasible || told == 0 {
		t.Errorf("feasible %v, %d of %d ways add a bar", p.Feasible, told, len(found))
	}
}
