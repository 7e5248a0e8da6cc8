package programs

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
)

// Lugs that are cut through at one setting have one program for each visit, and what is measured in
// any of them was cut by it.
func TestLugsOfOneSettingHaveOneProgram(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "ferry-ramp", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), `"hbm-5in"`, `"cnc-110mm"`, 1)
	job, err := files.Job("job.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Make(job)
	all, err := Of(p)
	if err != nil || len(all) != 2 {
		t.Fatal(len(all), err)
	}
	for i := range p.Bores {
		q := p.Bores[i].Visits[0].Passes[0]
		by := CutBy(job, nil, process.Measured{Station: p.Bores[i].Bore.Station, Pass: q.N, Setting: q.Setting, Feed: q.Feed, Speed: q.Speed})
		if by.Name == "" || by.Name != all[0].Called.Name || by.Sum != all[0].Called.Sum {
			t.Errorf("%s was cut by %v, want %v", p.Bores[i].Station.Name, by, all[0].Called)
		}
	}
}
