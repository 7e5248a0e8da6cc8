package plan_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/setup"
	"borewright/process/slow"
)

// wornWinch is the main example on the manual mill with an edge that comes with a land, in.
func wornWinch(t *testing.T, land float64) *process.Job {
	t.Helper()
	const name = "../../testdata/jobs/lock-winch/manual.toml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	worn := strings.Replace(string(text), "\n[cutter]\n", fmt.Sprintf("\n[cutter]\nland = %g\n", land), 1)
	job, err := files.Job(name, []byte(worn), os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// However far the edge is worn as the job begins, it can be honed before the first pass: the
// job is planned, costs what honing in each visit takes at the most, and is no quicker for
// more wear.
func TestAWornEdgeFreesNothing(t *testing.T) {
	fresh := Make(wornWinch(t, 0))
	if !fresh.Feasible {
		t.Fatal(fresh.Reasons)
	}
	last := fresh.Minutes
	few := slow.Rounds(t, "lands from 0.001 to 0.014 in", 14, 3)
	for i := 1; i <= few; i++ {
		land := 0.001 * float64(i*14/few)
		p := Make(wornWinch(t, land))
		if !p.Feasible {
			t.Errorf("worn by %.3f in: %s", land, said(p, p.Reasons[0].What))
			continue
		}
		most := fresh.Minutes
		for _, v := range p.Bores[0].Visits {
			most += setup.HoneMinutes
			for k, q := range v.Passes {
				if k > 0 && q.Hone == nil && q.Edge.Before.Likely == 0 {
					t.Errorf("worn by %.3f in: pass %d begins with no land, and is not honed", land, q.N)
				}
			}
		}
		if p.Minutes < last-1e-6 || p.Minutes > most+1e-6 {
			t.Errorf("worn by %.3f in: %.2f min; less worn %.2f, honed first in each visit %.2f", land, p.Minutes, last, most)
		}
		last = p.Minutes
	}
}

// A land rubs chatter out. A finish that sings by a honed edge is not planned because the edge
// is worn: whoever hones it makes it sing.
func TestAWornEdgeIsNoCure(t *testing.T) {
	refused := 0
	for _, length := range []float64{15, 17} {
		job := func(land float64) *process.Job {
			return thinBarJob(t, length, 1./32, "carbide", "steel-1045", fmt.Sprintf("land = %g", land))
		}
		if Attempt(job(0), nil).Feasible {
			continue
		}
		refused++
		for _, land := range []float64{0.002, 0.005, 0.010} {
			if Attempt(job(land), nil).Feasible {
				t.Errorf("%g in out: not feasible by a honed edge, and planned by one that is worn by %.3f in", length, land)
			}
		}
	}
	if refused == 0 {
		t.Error("none of the bars is refused with a honed edge")
	}
}
