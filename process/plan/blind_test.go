package plan_test

import (
	"slices"
	"strings"
	"testing"

	prop "pgregory.net/rapid"

	. "borewright/process/plan"
	"borewright/process/qty"
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
