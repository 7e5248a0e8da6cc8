package passes

import (
	"reflect"
	"testing"

	"borewright/process/pass"
	"borewright/process/schedule"
)

// A visit that is planned once more with one set-up has the passes, the stops and the chance that it has where
// nothing was planned before: numbered alike, where they are taken as they were written, or otherwise. Its
// cutter comes out as the line-up of then says, and what becomes of its passes leaves the others alone.
func TestPlannedOnceMoreIsPlannedAlike(t *testing.T) {
	for _, name := range []string{"lock-winch", "gear-case", "hand-pump"} {
		job := exampleJob(t, name+"/job.toml")
		for _, first := range []int{1, 4} {
			once := firstPlanner(t, job, nil)
			v := *once.Visit
			v.Passes, v.Budget = nil, nil
			again, err := once.plan.Prepare(&v, once.st, true)
			if err != nil {
				t.Fatal(err)
			}
			v.LastOut.Clock, v.RoughOut.Clock = 7, 7
			if why := again.Plan(first); !why.None() {
				t.Fatal(why)
			}
			for i, p := range again.Visit.Passes {
				if p.Out.Clock != 7 {
					t.Errorf("%s, from %d: pass %d comes out at %v", name, first, p.N, p.Out.Clock)
				}
				again.Visit.Passes[i].Out = once.Visit.OutAfter(p.Kind)
			}
			fresh := plannerOf(t, job, firstVisit(t, job), true)
			pass.Travel(fresh.Setup, fresh.Visit, fresh.st)
			if why := fresh.Plan(first); !why.None() {
				t.Fatal(why)
			}
			if !reflect.DeepEqual(again.Visit.Passes, fresh.Visit.Passes) || !reflect.DeepEqual(again.Visit.Budget, fresh.Visit.Budget) {
				t.Errorf("%s, from %d: planned once more\n%+v\nanew\n%+v", name, first, again.Visit.Passes, fresh.Visit.Passes)
			}
			if !reflect.DeepEqual(again.wears, fresh.wears) {
				t.Errorf("%s, from %d: the edge once more\n%+v\nanew\n%+v", name, first, again.wears, fresh.wears)
			}
			held := once.Visit.Passes[0].Hold
			again.Visit.Passes[0].Hold = &schedule.Hold{Minutes: 99}
			if once.Visit.Passes[0].Hold != held {
				t.Errorf("%s, from %d: a stop of the one visit is that of the other", name, first)
			}
		}
	}
}
