package revision

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/fact"
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
	if len(list) != 3 || list[0].Part != WholeJob || list[1].Part != TheBar || list[2].Part != TheLimits {
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

// What the cutter is usually set to follows from the bar: an edit of the bar alone has the effect of
// the bar, and none of the cutter.
func TestBarTakesItsUsualSizesAlong(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("../../testdata/jobs", "lock-winch/job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	load := func(edits ...string) *plan.Plan {
		job, err := files.Job("job.toml", []byte(strings.NewReplacer(edits...).Replace(string(data))), nil)
		if err != nil {
			t.Fatal(err)
		}
		return plan.Make(job)
	}
	old := load()
	stouter := load("diameter = 2.25,", "diameter = 2.3,")
	if old.Job.Cutter.Most == stouter.Job.Cutter.Most {
		t.Fatal("the usual sizes do not follow the bar")
	}
	list := Effects(old, stouter)
	if len(list) != 2 || list[1].Part != TheBar || list[1].Minutes != list[0].Minutes {
		t.Errorf("%+v", list)
	}
	if list = Effects(old, load("diameter = 2.25,", "diameter = 2.3,", "nose_radius = 0.031", "nose_radius = 0.016")); len(list) != 3 || list[2].Part != TheCutter {
		t.Errorf("%+v", list)
	}
}

// A change carries what the part of the job that it belongs to comes to, made
// alone; a figure of a pass is a result of all of them. What the stations are
// called changes nothing in that.
func TestEffectOf(t *testing.T) {
	for _, name := range []string{"inner", "a, b", "the bar", "the plan"} {
		a, b := comparePlan(), comparePlan()
		for _, p := range []*plan.Plan{a, b} {
			p.Job.Stations[1].Name, p.Bores[0].Station.Name = name, name
		}
		b.Job.Title = "other"
		b.Job.Stations[1].Wall += 1000
		b.Job.Bores[0].Ra += 1000
		b.Job.Bar.Steps[0].Length += 1000
		b.Job.Limits.PassesMost++
		b.Bores[0].Visits[0].Passes[2].Feed += 1000
		b.Minutes++
		var list []Effect
		for _, p := range []fact.Kind{WholeJob, StationsAndBores, TheSleeve, TheBar, TheCutter, TheMachine, TheMaterial, TheLimits} {
			list = append(list, Effect{Part: p})
		}
		want := map[string]fact.Kind{
			"title": "", "least wall": StationsAndBores, "Ra asked for": StationsAndBores, "stickout": TheBar, "step 1 length": TheBar,
			"passes, most": TheLimits, "feed": WholeJob, "time in all": WholeJob,
		}
		for _, c := range Compare(a, b) {
			e, ok := EffectOf(c, list)
			if part, there := want[c.What]; !there || e.Part != part || ok != (part != "") {
				t.Errorf("a bore called %q: %v, %s: %q, want %q", name, c.Where, c.What, e.Part, part)
			}
			delete(want, c.What)
		}
		for what := range want {
			t.Errorf("a bore called %q: nothing of %s", name, what)
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
