package plan_test

import (
	"testing"

	. "borewright/process/plan"
	"borewright/process/plan/thumb"
	"borewright/process/schedule"
)

// The rules that a plan is held against say for each visit where the edge is honed, or how far
// it is worn at the end: as the passes have it.
func TestWhyTheEdgeIsHoned(t *testing.T) {
	honed, used := 0, 0
	for _, name := range []string{"lock-winch/job.toml", "lock-winch/manual.toml", "ferry-ramp/job.toml"} {
		p := made(t, name)
		said := map[[2]int][]thumb.Why{}
		for _, w := range thumb.Of(p) {
			if w.Rule.Kind == RuleHone {
				said[[2]int{w.Bore, w.Visit}] = append(said[[2]int{w.Bore, w.Visit}], w)
			}
		}
		for i, b := range p.Bores {
			for k, v := range b.Visits {
				var want []string
				for _, q := range v.Passes {
					if q.Hone != nil {
						want = append(want, string(HereHoned))
						honed++
						if early := q.Hone.Why.Kind != schedule.HoneDull; early != !said[[2]int{i, k}][len(want)-1].Because.None() {
							t.Errorf("%s, pass %d: worn by %.3f mm, and the reason is %v", name, q.N, q.Hone.Worn, said[[2]int{i, k}][len(want)-1].Because)
						}
					}
				}
				if want == nil {
					want = []string{string(HereNotHoned)}
					used++
				}
				got := said[[2]int{i, k}]
				if len(got) != len(want) {
					t.Fatalf("%s, bore %d, visit %d: %d sentences, %v wanted", name, i+1, k+1, len(got), want)
				}
				for n := range got {
					if string(got[n].Here.Kind) != want[n] {
						t.Errorf("%s, bore %d, visit %d: %s, want %s", name, i+1, k+1, got[n].Here.Kind, want[n])
					}
				}
			}
		}
	}
	if honed == 0 || used == 0 {
		t.Errorf("%d honed, %d not: one of them is not judged", honed, used)
	}
}
