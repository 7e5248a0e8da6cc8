package plan_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	prop "pgregory.net/rapid"

	"borewright/process/fact"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// A nose radius that the run-out at the closed end has no room for is a reason,
// whatever else is wrong with the cutter; it once was a panic.
func TestNoseAgainstTheRunOut(t *testing.T) {
	job := shipped(t, "lock-winch/job.toml")
	job.Cutter.NoseRadius = qty.FromInches(0.0625)
	if p := Attempt(job, nil); p.Feasible || !strings.Contains(said(p, p.Reasons[len(p.Reasons)-1].What), "leaves a nose radius of 0.0625 in no room") {
		t.Errorf("%+v", p.Reasons)
	}
	base := shipped(t, "lock-winch/job.toml")
	prop.Check(t, func(t *prop.T) {
		j := *base
		job := &j
		job.Stations = slices.Clone(base.Stations)
		mm := func(lo, hi float64, what string) qty.Length {
			return qty.FromMM(prop.Float64Range(lo, hi).Draw(t, what))
		}
		job.Cutter.NoseRadius, job.Stations[2].Relief = mm(0.05, 5, "nose"), mm(0, 8, "relief")
		job.Cutter.Lead = prop.Float64Range(35, 95).Draw(t, "lead")
		job.Limits.DepthMost, job.Limits.FeedMost = mm(0.01, 5, "depth"), mm(0.02, 1, "feed")
		if p := Attempt(job, nil); !p.Feasible && len(p.Reasons) == 0 {
			t.Error("no plan, and no reason")
		}
	})
}

// A groove that is refused has no depth of cut for the planner either, and the one
// that the refusal asks for is taken.
func TestGrooveOfAFileIsThePlanners(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, lead := range []string{"60", "75", "92"} {
		with := func(relief string) string {
			return strings.NewReplacer("relief = 0.08", "relief = "+relief, "lead        = 75", "lead = "+lead).Replace(string(data))
		}
		const narrow = "0.0506" // nose 0.031 and half a millimetre are 0.05069 in
		_, err := files.Job("job.toml", []byte(with(narrow)), nil)
		found := regexp.MustCompile(`need ([0-9.]+) in`).FindStringSubmatch(fmt.Sprint(err))
		if found == nil {
			t.Errorf("lead %s: a groove of %s in: %v", lead, narrow, err)
			continue
		}
		job := load(t, with("0.08"))
		job.Stations[2].Relief = qty.FromInches(0.0506)
		if p := Attempt(job, nil); !says(p, schedule.NoRunOut) {
			t.Errorf("lead %s: the planner finds room in a groove that is refused", lead)
		}
		if p := Attempt(load(t, with(found[1])), nil); says(p, schedule.NoRunOut) {
			t.Errorf("lead %s: no room in a groove of %s, as the refusal asks", lead, found[1])
		}
	}
}

func says(p *Plan, k fact.Kind) bool {
	return slices.ContainsFunc(p.Reasons, func(r Reason) bool {
		what := r.What
		for what.Kind == OfVisit {
			what = what.Args[2].(fact.Fact)
		}
		return what.Kind == k
	})
}
