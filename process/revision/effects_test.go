package revision

import (
	"os"
	"path/filepath"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
)

// The effect of one part is that of the old job with this part changed,
// planned by itself; the same plans have none.
func TestEffects(t *testing.T) {
	old := plan.Make(revisionJob(t, "lock-winch/job.toml"))
	if e := Effects(old, plan.Make(revisionJob(t, "lock-winch/job.toml"))); e != nil {
		t.Errorf("nothing changed: %+v", e)
	}
	longer := revisionJob(t, "lock-winch/job.toml")
	longer.Bar.Steps[1].Length += qty.Inch
	longer.Bar.CutterAt += qty.Inch
	longer.Limits.HoldMinutes = 10
	both := plan.Make(longer)
	barOnly := *old.Job
	barOnly.Bar = longer.Bar
	alone := plan.Make(&barOnly)
	list := Effects(old, both)
	if len(list) != 3 || list[0].Part != "all together" || list[1].Part != "the bar alone" || list[2].Part != "limits allowed alone" {
		t.Fatalf("%+v", list)
	}
	if list[0].Minutes != [2]float64{old.Minutes, both.Minutes} || list[1].Minutes[1] != alone.Minutes || list[2].Minutes[1] <= old.Minutes {
		t.Errorf("minutes: %+v", list)
	}
	for _, e := range list {
		if e.Spring[0] <= 0 {
			t.Errorf("%+v", e)
		}
	}
	// The chance is the one that the sheets of the plans print.
	chance := func(p *plan.Plan) float64 {
		c := 1.0
		for _, v := range p.Bores[0].Visits {
			c *= v.Budget.Chance
		}
		return c
	}
	if want := [2]float64{chance(old), chance(both)}; list[0].Chance != want || list[1].Chance != [2]float64{want[0], chance(alone)} {
		t.Errorf("chances %+v, the plans say %v and %v", list, want, chance(alone))
	}
}

// Every change of the bar carries what the bar alone comes to; a figure of a
// pass is a result of all of them.
func TestEffectOf(t *testing.T) {
	list := []Effect{{Part: "all together"}, {Part: "the bar alone"}, {Part: "stations and bores alone"}}
	for where, want := range map[string]string{
		"the bar": "the bar alone", "station idler": "stations and bores alone", "bore idler": "stations and bores alone",
		"bore idler, visit 1, pass 2 (rough)": "all together", "the plan": "all together", "the cutter": "", "the job": "",
	} {
		e, ok := EffectOf(Change{Where: where}, list)
		if e.Part != want || ok != (want != "") {
			t.Errorf("%s: %q, want %q", where, e.Part, want)
		}
	}
}

// revisionJob reads one of the example jobs.
func revisionJob(t *testing.T, name string) *process.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}
