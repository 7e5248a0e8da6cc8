package plan_test

import (
	"bytes"
	"testing"

	"borewright/process"
	. "borewright/process/plan"
)

// byBore is a shipped job that leaves bar and cutter to its lists, and asks for them by bore.
func byBore(t testing.TB, name string, change ...string) *process.Job {
	return fromRack(t, name, func(path string, data []byte) []byte {
		if path == "job.toml" {
			data = append([]byte("choose = \"by_bore\"\n"), data...)
		}
		for i := 0; i+1 < len(change); i += 2 {
			data = bytes.ReplaceAll(data, []byte(change[i]), []byte(change[i+1]))
		}
		return data
	})
}

func TestScratch(t *testing.T) {
	for _, row := range append(judged[:0:0], append([]struct {
		name   string
		change []string
	}{{"two only", []string{"name  = \"B 50\"\nsteps = [ { diameter = 90, length = 60 }, { diameter = 50, length = 340 } ]\nmost  = 100", "name = \"B 50\"\nsteps = [ { diameter = 90, length = 60 }, { diameter = 50, length = 340 } ]\nmost  = 80", "E 63 heavy metal", "E 30", "diameter = 63, length", "diameter = 30, length", "least    = 70\nmost     = 110", "", "name  = \"C 60\"\nsteps = [ { diameter = 90, length = 60 }, { diameter = 60, length = 340 } ]\nmost  = 110", "name=\"C 60\"\nsteps = [ { diameter = 90, length = 60 }, { diameter = 60, length = 340 } ]\nmost=90"}}}, judged...)...) {
		j, err := Tooled(byBore(t, "net-hauler", row.change...), nil)
		if err != nil {
			t.Error(row.name, err)
			continue
		}
		p := Make(j)
		t.Logf("%s: one %v %.2f; by bore %.2f %v, own %s %s", row.name, j.Candidates[0].Feasible, j.Candidates[0].Reckoned(), priceOf(p), p.Feasible, j.Bar.Name, j.Cutter.Name)
		for _, c := range j.Candidates {
			if c.Station != "" && c.Why.None() {
				t.Logf("   %s rough %v: %s %s chosen %v planned %v %.1f (%.1f %.1f) %v", c.Station, c.Rough, c.Bar, c.Cutter, c.Chosen, c.Planned, c.Reckoned(), c.Sings, c.Misses, c.Why)
			}
		}
	}
}
