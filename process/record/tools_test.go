package record_test

import (
	"os"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/marks"
	"borewright/process/plan"
	"borewright/process/qty"
	. "borewright/process/record"
)

// TestToolsOfVisits: where bores name their tools, the record has those of each visit, and those of
// each entry by its mark; the job's own among them.
func TestToolsOfVisits(t *testing.T) {
	read := func(name string) ([]byte, error) {
		data, err := os.ReadFile("../../testdata/jobs/net-hauler/" + name)
		return []byte(strings.NewReplacer("bars     =", "rough = { bar = \"C 60\" }\nbar = { name = \"B 50\" }\ncutter = { name = \"K1 carbide\" }\nbars =",
			"station = \"front web\"\nrepair", "station = \"front web\"\nbar = \"F 80\"\ncutter = \"K2 square\"\nrepair").Replace(string(data))), err
	}
	data, err := read("job.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, read)
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Make(job)
	rows := Of(p, p)
	want := [][2]string{{"C 60 and K2 square", "F 80 and K2 square"}, {"C 60 and K1 carbide", "B 50 and K1 carbide"}}
	if len(rows) != len(want) {
		t.Fatalf("%d rows: %+v", len(rows), p.Reasons)
	}
	for i, r := range rows {
		if got := [2]string{r.Rougher, r.With}; got != want[i] {
			t.Errorf("%s: %q, want %q", r.Station, got, want[i])
		}
	}
	entry := func(rough bool) process.Measured {
		return process.Measured{Station: job.Bores[1].Station, Pass: 2, Tooling: marks.Tooling(job.Using(job.ToolsOf(1, rough))), Sizes: []process.Size{{Diameter: qty.DiameterMM(76.5)}}}
	}
	for i, e := range Entries(p, &process.Results{Entries: []process.Measured{entry(true), entry(false)}}) {
		if e.With != want[1][i] {
			t.Errorf("entry %d was cut with %q, want %q", e.N, e.With, want[1][i])
		}
	}
}
