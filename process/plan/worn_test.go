package plan_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
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
	few := slow.Rounds(t, "lands from 0.001 to 0.014 in", 14, 1)
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

// One edge bores all the bores of a job, one visit after the other. How far it has gone since it
// was honed is followed through them by hand, π·D for each feed along the bore; each visit begins
// with the land that the one before left.
func TestTheEdgeGoesOnFromBoreToBore(t *testing.T) {
	carried, honed := 0, 0
	for _, name := range []string{"gear-case/job.toml", "lock-winch/manual.toml"} {
		p := made(t, name)
		metres, least, most, from := 0.0, 0.0, 0.0, ""
		for _, at := range p.Turns() {
			b := p.Bores[at[0]]
			for _, v := range b.Visits[at[1] : at[1]+1] {
				if f := v.Flank; f == nil || f.From != from || math.Abs(f.Metres-metres) > 0.01*metres || f.Least != least || f.Most != most {
					t.Errorf("%s, %s: begins with %+v; it has gone %.0f m, its land is %.4f to %.4f mm, from %q", name, b.Station.Name, f, metres, least, most, from)
				}
				for _, q := range v.Passes {
					if q.Hone != nil {
						metres, least, most = 0, 0, 0
						honed++
					} else if from != "" && from != b.Station.Name {
						carried++
					}
					if q.Edge.Before.Least != least || q.Edge.Before.Most != most {
						t.Errorf("%s, pass %d: begins with a land of %.4f to %.4f mm, the pass before left %.4f to %.4f", name, q.N, q.Edge.Before.Least, q.Edge.Before.Most, least, most)
					}
					end := v.To
					if q.Band != nil { // the near end alone
						end = q.Band.To
					}
					went := math.Pi * q.Setting.MM() * (end - v.From).MM() / q.Feed.MM() / 1e3
					if q.Out.By == process.FeedOut {
						went *= 2
					}
					metres += went
					if math.Abs(q.Edge.After.Metres-metres) > 0.01*metres {
						t.Errorf("%s, pass %d: %.0f m since honing, by hand %.0f", name, q.N, q.Edge.After.Metres, metres)
					}
					least, most, from = q.Edge.After.Least, q.Edge.After.Most, b.Station.Name
				}
			}
		}
	}
	if carried == 0 || honed == 0 {
		t.Errorf("%d passes by an edge that another bore wore, honed %d times: one of them is not judged", carried, honed)
	}
}

// What was seen of the land at the last cut that was measured is what the next bore begins
// with: one of 0.15 mm is honed before its last passes, one of 0.01 mm is used on.
func TestTheLandSeenGoesOn(t *testing.T) {
	job := shipped(t, "gear-case/job.toml")
	job.Order = process.BoreByBore
	p := Make(job)
	first := p.Bores[0].Visits
	last := first[len(first)-1].Passes
	lands := map[float64]bool{0.15: true}
	if !testing.Short() {
		lands[0.01] = false
	}
	for land, hone := range lands {
		e := after(p, 0, 1, last[len(last)-1].N, first[len(first)-1].Limits.Aim.MM(), 0)
		e.Land = qty.FromMM(land)
		rest := MakeAfter(job, results(e))
		if !rest.Feasible || rest.Bores[0].Station.Name != p.Bores[1].Station.Name {
			t.Fatalf("seen worn by %.2f mm: %v", land, rest.Reasons)
		}
		v := rest.Bores[0].Visits[0]
		if v.Flank == nil || v.Flank.From != p.Bores[0].Station.Name || v.Flank.Likely < land || v.Flank.Likely > land+0.03 {
			t.Errorf("seen worn by %.2f mm: the next bore begins with %+v", land, v.Flank)
		}
		got := false
		for _, q := range v.Passes[:len(v.Passes)-1] {
			got = got || q.Hone != nil
		}
		if got != hone {
			t.Errorf("seen worn by %.2f mm: honed in the next bore is %v", land, got)
		}
	}
}
