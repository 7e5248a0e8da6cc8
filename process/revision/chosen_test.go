package revision

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/slow"
)

// chooses is the net hauler's frame as it is shipped, with edits of the job and of its list, and what
// it chose.
func chooses(t *testing.T, edits ...string) *process.Job {
	t.Helper()
	edit := strings.NewReplacer(edits...)
	read := func(name string) ([]byte, error) {
		data, err := os.ReadFile(filepath.Join("../../testdata/jobs/net-hauler", name))
		return []byte(edit.Replace(string(data))), err
	}
	data, err := read("job.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := plan.Tooled(files.Job("job.toml", data, read))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// TestWhatIsChosenIsNoEdit: figures of a bar, of a cutter and of a stickout that were chosen are edits
// only where somebody wrote them.
func TestWhatIsChosenIsNoEdit(t *testing.T) {
	const (
		named   = `bars     = "rack.toml"`
		withBar = "bar = { name = \"C 60\" }\ncutter = { name = \"K1 carbide\" }\n" + named
		long    = "{ diameter = 60, length = 340 } ]\nmost"
		anyhow  = "{ diameter = 60, length = 340 } ]\nstickout = [240, 420]\nmost"
	)
	rows := []struct {
		why      string
		old, new []string
		want     []string // edits
		follows  string   // one of what follows; "": nothing need
	}{
		{"a bar struck from the list", nil, []string{`name     = "E 63 heavy metal"`, `name     = "E 64"`, "least    = 70", "least    = 85"},
			[]string{"bars", "bars"}, "bar.steps[1].diameter"},
		{"the bar of the list that is chosen is thinner", nil, []string{"{ diameter = 63, length = 340 }", "{ diameter = 62, length = 340 }"}, []string{"bar.steps[1].diameter"}, ""},
		{"another is chosen, since that before is thinner now", nil, []string{"{ diameter = 63, length = 340 }", "{ diameter = 35, length = 340 }"}, []string{"bar.steps[1].diameter"}, "bar.name"},
		{"a bar named instead of chosen", nil, []string{named, "bar.name = \"C 60\"\n" + named}, []string{"bar.name"}, "bar.steps[1].diameter"},
		{"a bore further in, and so a longer stickout", []string{long, anyhow, named, withBar}, []string{long, anyhow, named, withBar, "to = 295", "to = 310", "260.0, to = 295.0", "262.0, to = 312.0"},
			[]string{"station[1].from", "station[1].to"}, "bar.steps[1].length"},
		{"the same of the bar that a bore names", []string{long, anyhow, named, strings.ReplaceAll(withBar, "C 60", "B 50"), "station = \"rear web\"\nrepair", "station = \"rear web\"\nbar = \"C 60\"\nrepair"},
			[]string{long, anyhow, named, strings.ReplaceAll(withBar, "C 60", "B 50"), "station = \"rear web\"\nrepair", "station = \"rear web\"\nbar = \"C 60\"\nrepair", "260.0, to = 295.0", "262.0, to = 312.0"},
			[]string{"station[1].from", "station[1].to"}, "bar.steps[1].length"},
		{"a cap of the stickout too", []string{long, anyhow, named, withBar}, []string{long, strings.Replace(anyhow, "420", "410", 1), named, withBar}, []string{"bar.stickout"}, ""},
	}
	for _, c := range rows[:slow.Rounds(t, "pairs of jobs that choose", len(rows), 1)] {
		var edits, follow []string
		for _, x := range Compare(&plan.Plan{Job: chooses(t, c.old...)}, &plan.Plan{Job: chooses(t, c.new...)}) {
			switch x.From {
			case Edited:
				edits = append(edits, x.Key)
			case Follows:
				follow = append(follow, x.Key)
			}
		}
		slices.Sort(edits)
		if !slices.Equal(edits, c.want) || c.follows != "" && !slices.Contains(follow, c.follows) {
			t.Errorf("%s: edited %q, follows %q", c.why, edits, follow)
		}
	}
}
