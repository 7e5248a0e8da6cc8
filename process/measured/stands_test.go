package measured_test

import (
	"os"
	"testing"

	"borewright/process"
	"borewright/process/files"
	. "borewright/process/measured"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/process/slow"
)

// Where a job stands by its entries alone is where the planner has it: finished where nothing
// is left to be cut, out where the plan stops at a size over the limits. Sizes lie about
// the limits of the bore, after its last pass.
func TestStandsAsPlanned(t *testing.T) {
	seen := map[Work]int{}
	for _, name := range []string{"slip-winch", "lock-winch"} {
		data, err := os.ReadFile("../../testdata/jobs/" + name + "/job.toml")
		if err != nil {
			t.Fatal(err)
		}
		job, err := files.Job("job.toml", data, nil)
		if err != nil {
			t.Fatal(err)
		}
		p := plan.Make(job)
		b := p.Bores[0]
		if s := StandOf(job, nil); s.Work != NotBegun {
			t.Errorf("%s: nothing measured: %+v", name, s)
		}
		sleeved := b.Bore.Repair == process.SleeveRepair
		rounds := slow.Rounds(t, "sizes about the limits", 12, 3)
		for n := range rounds {
			results := &process.Results{File: "r.toml"}
			enter := func(q int, d qty.Diameter) {
				m, err := record.Fill(plan.MakeAfter(job, results), process.Measured{Station: b.Bore.Station, Pass: q, Sizes: record.AtEnds(b.Station, d)})
				if err != nil {
					t.Fatal(err)
				}
				results.Entries = append(results.Entries, m)
			}
			if sleeved { // the housing first, in its limits
				last := b.Visits[0].Passes[len(b.Visits[0].Passes)-1]
				enter(last.N, last.Expected)
				if s := StandOf(job, results); s.Work != InWork || s.Pass != last.N {
					t.Errorf("%s: the housing is done: %+v", name, s)
				}
			}
			final := b.Visits[len(b.Visits)-1]
			q := final.Passes[len(final.Passes)-1]
			wide := b.Bore.Finish.High.Minus(b.Bore.Finish.Low)
			d := b.Bore.Finish.Low.Plus(-wide + qty.Length(3*int64(wide)*int64(2*n+1)/int64(2*rounds)))
			enter(q.N, d)
			now := plan.MakeAfter(job, results)
			s := StandOf(job, results)
			seen[s.Work]++
			want := InWork
			switch {
			case now.Feasible && len(now.Bores) == 0:
				want = Finished
			case d > b.Bore.Finish.High:
				want = Out
			}
			held := s.Work == Held && want == InWork && (d < q.Low || d > q.High)
			if s.Work != want && !held {
				t.Errorf("%s: %v in %v to %v: %v, and the plan says %v (feasible %v, %d bores left)", name, d, b.Bore.Finish.Low, b.Bore.Finish.High, s.Work, want, now.Feasible, len(now.Bores))
			}
			if (s.Work == Out) == now.Feasible && want == Out {
				t.Errorf("%s: out at %v, and the plan goes on", name, d)
			}
		}
	}
	if seen[Finished] == 0 || seen[Out] == 0 || seen[Held]+seen[InWork] == 0 {
		t.Errorf("the sizes lie too close: %v", seen)
	}
}
