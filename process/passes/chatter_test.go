package passes

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/qty"
)

func TestRuns(t *testing.T) {
	for want, n := range map[string][]int{"": nil, "7": {7}, "6, 7": {6, 7}, "1, 3 to 5": {1, 3, 4, 5}, "1 to 25": {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25}} {
		if got := runs(n); got != want {
			t.Errorf("%v: %q, want %q", n, got, want)
		}
	}
}

// What the caution promises of another speed, nose radius or rake is what a job
// with it comes to at the same depth and feed.
func TestCuresAreThoseOfTheJob(t *testing.T) {
	inside := func(change func(*process.Job)) *Planner {
		job := exampleJob(t, "lock-winch/job.toml")
		change(job)
		v := firstVisit(t, job)
		v.Material, v.Limits = job.Sleeve.Material, FinishLimits(job.Units, job.Bores[0])
		v.Start, v.StartMost = v.Limits.Low.Plus(-30*qty.Thou), v.Limits.Low.Plus(-28*qty.Thou)
		return plannerOf(t, job, v, false)
	}
	r := inside(func(*process.Job) {})
	if why := r.Plan(5); why != "" {
		t.Fatal(why)
	}
	last := r.v.Passes[len(r.v.Passes)-1]
	said := r.chatterCaution()
	for what, change := range map[string]func(*process.Job){
		"with 95 rev/min":                 func(*process.Job) {},
		"with a nose radius of 0.0155 in": func(j *process.Job) { j.Cutter.NoseRadius = qty.FromInches(0.0155) },
		"with 18° of rake":                func(j *process.Job) { j.Cutter.Rake = 18 },
	} {
		n := float64(last.Speed)
		if strings.Contains(what, "rev/min") {
			n = 95
		}
		q := inside(change)
		speed := float64(qty.RevPerMin(n).At(r.v.Limits.Aim))
		s := q.stability(q.stiffnessAt(last.Depth.MM(), last.Feed.MM(), speed), speed)
		if want := fmt.Sprintf("%s %s", s.margins(), what); !strings.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
		if s.middle() < worthwhile*last.Stability.middle() || math.IsNaN(s.middle()) {
			t.Errorf("%s: %v is no cure for %v", what, s, last.Stability)
		}
	}
	if !strings.Contains(said, fmt.Sprintf("Each alone, pass %d would be at", last.N)) {
		t.Error(said)
	}
}
