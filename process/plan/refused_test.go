package plan_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	. "borewright/process/plan"
	"borewright/process/slow"
	"borewright/process/ways"
)

// refusedJob is an example that is altered so that it is stopped.
type refusedJob struct {
	name, of string
	alter    []string // pairs of old and new text
	more     string   // at its end
	ways     int      // that are told to free it, as many as where nothing is held for barred at the least
}

// refused are jobs that one thing stops which most changes cannot touch.
var refused = []refusedJob{
	{"no rounder than the spindle", "gear-case", []string{"\nroundness = 0.012", "\nroundness = 0.002"}, "", 1},
	{"too warm for a line bar", "wheel-shaft", nil, "\n[limits]\ntemperature = 40\n", 0},
	{"hardly any spring", "ferry-ramp", nil, "\n[limits]\nspring_rough = 0.0001\nspring_finish = 0.00005\n", 5},
	{"hardly any spring in roughing", "lock-winch", []string{"[limits]", "[limits]\nspring_rough = 0.0001"}, "", 1},
	{"no rounder than the spindle, by high-speed steel", "gear-case", []string{"\nroundness = 0.012", "\nroundness = 0.002", `"carbide-coated"`, `"hss"`}, "", 1},
	{"a sleeve that cannot bear its load", "lock-winch", []string{"H7/r6", "H7/p6", "[sleeve]", "[sleeve]\ntorque = 40000"}, "", 0},
	{"too warm for three lugs", "ferry-ramp", nil, "\n[limits]\ntemperature = 40\n", 1},
	{"two passes at the most", "ferry-ramp", nil, "\n[limits]\npasses_most = 2\n", 1},
}

func (x refusedJob) text(t testing.TB) string {
	t.Helper()
	return strings.NewReplacer(x.alter...).Replace(example(t, x.of+"/job.toml")) + x.more
}

// What a try holds for barred without a search is refused where it is planned in full: of all changes and
// pairs of them that are tried on these jobs in the long form, else of some. And what a try does plan comes out as the
// plan in full does.
func TestBarredIsRefused(t *testing.T) {
	t.Parallel()
	every, left := 40, slow.Rounds(t, "refused jobs, one in forty of what is tried planned in full", 3, 1, len(refused))
	if slow.Long() {
		every = 1
	}
	for _, x := range refused[len(refused)-left:] {
		t.Run(x.name, func(t *testing.T) {
			t.Parallel()
			all, found := Tries(Sought(load(t, x.text(t))))
			if len(found.Ways) < x.ways {
				t.Errorf("%d ways are told, %d were", len(found.Ways), x.ways)
			}
			barred, off := 0, rand.New(rand.NewPCG(7, 1)).IntN(every)
			for i, y := range all {
				if y.Barred {
					barred++
				}
				if i%every != off || y.How == ways.Trialed {
					continue
				}
				full := Attempt(y.Job, nil)
				switch {
				case y.Barred && full.Feasible:
					t.Errorf("try %d is barred, and planned in full it stands", i)
				case y.Feasible != full.Feasible:
					t.Errorf("try %d: it stands %v, planned in full %v", i, y.Feasible, full.Feasible)
				}
			}
			t.Logf("%d of %d tries are barred", barred, len(all))
			if barred == 0 {
				t.Error("none is barred")
			}
		})
	}
}
