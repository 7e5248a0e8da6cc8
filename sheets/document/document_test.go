package document

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/files"
	"borewright/process/landing"
	"borewright/process/measured"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/record"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/sleeve"
	"borewright/process/slow"
)

var examples = []string{"lock-winch/job.toml", "lock-winch/manual.toml", "hand-pump/job.toml", "gear-case/job.toml", "ferry-ramp/job.toml", "slip-winch/job.toml", "tide-pump/job.toml", "wheel-shaft/job.toml", "swing-bridge/far.toml", "swing-bridge/both.toml"}

// shipped is an example job.
func shipped(t testing.TB, name string) *process.Job {
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

// plan.json carries exactly these names.
func TestDocumentNames(t *testing.T) {
	data, err := Write(plan.Make(shipped(t, "gear-case/job.toml")))
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, name := range []string{"schema", "job", "number", "revision", "title", "feasible", "reasons", "bores", "station", "passes",
		"n", "kind", "cutter_setting_mm", "diameter_mm", "low", "expected", "high", "depth_of_cut_mm", "feed_mm_per_rev",
		"speed_rev_per_min", "cutting_force_n", "feed_force_n", "radial_force_n", "spring_mm", "power_w", "torque_nm", "ra_um",
		"minutes", "limited_by"} {
		if !strings.Contains(text, `"`+name+`":`) {
			t.Errorf("plan.json lacks %q", name)
		}
	}
	again, _ := Write(plan.Make(shipped(t, "gear-case/job.toml")))
	if diff := cmp.Diff(text, string(again)); diff != "" {
		t.Errorf("planned twice, two answers:\n%s", diff)
	}
}

// The JSON of a line-up and a worn bore carries the names of SI and the figures
// of the plan.
func TestLineUpJSON(t *testing.T) {
	p := plan.Make(shipped(t, "lock-winch/job.toml"))
	data, err := WriteLineUp(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	var d struct {
		Offset struct{ X, Y *float64 } `json:"offset_mm"`
		Tilt   struct{ X, Y *float64 } `json:"tilt_mrad"`
		At     []struct {
			Station     string
			X           *float64 `json:"x_mm"`
			Y           *float64 `json:"y_mm"`
			Uncertainty *float64 `json:"uncertainty_mm"`
		} `json:"at_station"`
		CleanUp struct {
			True *float64 `json:"true_axis"`
			Own  *float64 `json:"own_axis"`
		} `json:"cleanup_diameter_mm"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		t.Fatal(err)
	}
	if d.Offset.X == nil || d.Offset.Y == nil || d.Tilt.X == nil || d.Tilt.Y == nil || len(d.At) != 3 || d.CleanUp.True == nil || d.CleanUp.Own == nil {
		t.Fatalf("%s", data)
	}
	for _, a := range d.At {
		if a.Station == "" || a.X == nil || a.Y == nil || *a.Uncertainty <= 0 {
			t.Errorf("%+v", a)
		}
	}
	if got := *d.CleanUp.True; got != p.Bores[0].CleanUp.TrueAxis.MM() {
		t.Errorf("true axis %v", got)
	}
	if strings.Contains(string(data), "-0,") || strings.Contains(string(data), "-0\n") {
		t.Error("a minus nought")
	}
}

// The names of plan.json that tell of sleeves.
func TestSleeveDocument(t *testing.T) {
	p := plan.Make(shipped(t, "lock-winch/job.toml"))
	data, err := WriteSleeves(p)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := Write(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"station", "material", "finish", "outside_mm", "housing_mm", "interference_um", "bore_closure_um", "wall_mm",
		"finished_before", "bored_in_place", "final_clearance", "expected_um", "at_work_um", "pressure_mpa", "force_n", "housing_to_c", "clearance_um", "lobes_um"} {
		if !strings.Contains(string(data), `"`+name+`":`) {
			t.Errorf("no %q in %s", name, data)
		}
		if name != "station" && !strings.Contains(string(whole), `"`+name+`":`) {
			t.Errorf("no %q in plan.json", name)
		}
	}
	type span struct{ Min, Max float64 }
	var d struct {
		Bores []struct {
			Passes []struct{ N int }
			Visits []struct {
				First int `json:"first_pass"`
				Last  int `json:"last_pass"`
			}
			Sleeve struct {
				Final struct {
					OK       bool
					Expected span `json:"expected_um"`
				} `json:"final_clearance"`
			}
		}
	}
	if err := json.Unmarshal(whole, &d); err != nil {
		t.Fatal(err)
	}
	b := d.Bores[0]
	if len(b.Visits) != 2 || b.Visits[0].First != 1 || b.Visits[1].Last != len(b.Passes) {
		t.Errorf("visits %+v of %d passes", b.Visits, len(b.Passes))
	}
	if c := b.Sleeve.Final; !c.OK || c.Expected.Min < 0 || c.Expected.Max > 45 {
		t.Errorf("final %+v µm", c)
	}
}

// TestEveryFieldIsDescribed walks the structs of a plan by reflection: a field that
// no description names, or excuses with a reason, is one that no document and no
// comparison shows.
func TestEveryFieldIsDescribed(t *testing.T) {
	for _, x := range []field.Described{
		&plan.Plan{}, &plan.Bore{}, &plan.Visit{}, &schedule.Visit{}, &schedule.Landing{}, &schedule.Limits{}, &schedule.WayOut{}, &schedule.Pass{}, &schedule.Hold{}, &setup.Stability{},
		&landing.Budget{}, &landing.Share{}, &measured.Findings{}, &measured.Cut{}, &measured.Factor{},
		&place.LineUp{}, &place.Swept{}, &place.Move{}, &place.Turn{}, &place.Shim{}, &place.CleanUp{}, &place.Circles{}, &place.Shadow{}, &place.Reach{}, &place.Choice{},
		&sleeve.Sleeve{}, &sleeve.FinalClearance{}, &sleeve.Detail{}, &record.AsBuilt{},
	} {
		for _, f := range field.Undescribed(x) {
			t.Errorf("%s is not described", f)
		}
	}
}

// Nothing measured, nothing changed.
func TestNothingMeasured(t *testing.T) {
	for _, name := range examples[:slow.Rounds(t, "examples", len(examples), 2)] {
		job := shipped(t, name)
		a, _ := Write(plan.Make(job))
		b, _ := Write(plan.MakeAfter(job, &process.Results{File: "job.results.toml"}))
		if diff := cmp.Diff(string(a), string(b)); diff != "" {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
}

// The JSON of reach carries the verdict of every visit and every bar of the shop.
func TestReachNames(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/lock-winch/bars.toml")
	if err != nil {
		t.Fatal(err)
	}
	bars, err := files.Bars("bars.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Make(shipped(t, "lock-winch/manual.toml"))
	choices, err := p.Choose(bars.Bars)
	if err != nil {
		t.Fatal(err)
	}
	data, err = WriteReach(p, choices)
	var d struct {
		Verdict string
		Visits  []struct {
			Verdict  string
			Tightest struct {
				Room *float64 `json:"room_mm"`
			}
			Largest float64 `json:"largest_bar_diameter_mm"`
		}
		Bars []struct{ Name, Verdict string }
	}
	if err != nil || json.Unmarshal(data, &d) != nil || len(d.Visits) != 2 || len(d.Bars) != len(bars.Bars) || d.Visits[0].Tightest.Room == nil || d.Visits[0].Largest < 60 || d.Verdict != "tight" {
		t.Errorf("%v\n%s", err, data)
	}
}
