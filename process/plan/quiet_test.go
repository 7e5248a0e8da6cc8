package plan

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
	job := shipped(t, winch)
	p := Make(job)
	v := p.Bores[0].Visits[1]
	last := v.Passes[len(v.Passes)-1]
	said := strings.Join(p.Cautions, " ")
	for what, change := range map[string]func(*process.Job){
		"with 95 rev/min":                 func(*process.Job) {},
		"with a nose radius of 0.0155 in": func(j *process.Job) { j.Cutter.NoseRadius = qty.FromInches(0.0155) },
		"with 18° of rake":                func(j *process.Job) { j.Cutter.Rake = 18 },
	} {
		n := float64(last.Speed)
		if strings.Contains(what, "rev/min") {
			n = 95
		}
		q := Make(changed(t, winch, func(j *process.Job, _ *process.Sleeve) { change(j) }))
		r, ok := q.setup.again(q.Bores[0].Visits[1].PassVisit, q.Bores[0].Station)
		if !ok {
			t.Fatal(what)
		}
		speed := float64(qty.RevPerMin(n).At(v.Limits.Aim))
		s := r.stability(r.soundAt(last.Depth.MM(), last.Feed.MM(), speed), speed)
		if want := fmt.Sprintf("%s %s", s.margins(), what); !strings.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
		if s.middle() < worthwhile*last.Stability.middle() || math.IsNaN(s.middle()) {
			t.Errorf("%s: %v is no cure for %v", what, s, last.Stability)
		}
	}
	if !strings.Contains(said, "Each alone, pass 7 would be at") {
		t.Error(said)
	}
}
