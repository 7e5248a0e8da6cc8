package record_test

import (
	"math/rand/v2"
	"testing"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	. "borewright/process/record"
	"borewright/process/slow"
)

// Whatever was entered, a record comes back: a row for every visit of the first
// plan, and of each what the last entry for its highest pass says. The row is
// held against the entries themselves.
func TestAnyResultsAreRecorded(t *testing.T) {
	draw := rand.New(rand.NewPCG(7, 11))
	rounds := slow.Rounds(t, "drawn results of each job", 40, 3)
	kinds := []process.CutKind{0, process.WitnessCut, process.RoughCut, process.SemiFinishCut, process.SpringCut, process.FinishCut, process.SleeveFitted}
	measured, unplanned := 0, 0
	for _, name := range []string{"lock-winch", "hand-pump"} {
		job := recordJob(t, name+"/job.toml")
		first := plan.Make(job)
		for range rounds {
			res := &process.Results{File: "r.toml"}
			for range 1 + draw.IntN(3) {
				b := job.Bores[draw.IntN(len(job.Bores))]
				size := func() qty.Diameter { return b.Finish.High + qty.Diameter(draw.Int64N(2e6)-1e6) }
				if draw.IntN(8) == 0 {
					size = func() qty.Diameter { return qty.DiameterMM(2000 * draw.Float64()) }
				}
				m := process.Measured{
					Station: b.Station, Visit: draw.IntN(4), Pass: 1 + draw.IntN(9), Kind: kinds[draw.IntN(len(kinds))], Setting: size(), Before: size(),
					Feed: qty.FromMM(draw.Float64()), Speed: qty.RevPerMin(200 * draw.Float64()), Marked: []float64{0}, Bare: []float64{90}, Place: "r.toml:1:1",
				}
				for range 1 + draw.IntN(3) {
					m.Sizes = append(m.Sizes, process.Size{Depth: process.Unplaced, At: -1, Diameter: size()})
				}
				res.Entries = append(res.Entries, m)
			}
			rows := Of(first, plan.MakeAfter(job, res))
			visits := 0
			for _, b := range first.Bores {
				visits += len(b.Visits)
				if b.Home != nil {
					visits++
				}
			}
			if len(rows) != visits {
				t.Fatalf("%s: %d rows for %d visits of %+v", name, len(rows), visits, res.Entries)
			}
			for _, r := range rows {
				if len(r.Cuts) == 0 {
					unplanned++
					if r.Done || r.In || r.Least != 0 {
						t.Fatalf("%s: nothing was cut, and the record says %+v", name, r)
					}
					continue
				}
				measured++
				sizes := map[qty.Diameter]bool{}
				for _, e := range res.Entries {
					sizes[e.Least()], sizes[e.Most()] = true, true
				}
				if !sizes[r.Least] || !sizes[r.Most] || r.Least > r.Most {
					t.Fatalf("%s: %v to %v was never entered", name, r.Least, r.Most)
				}
				if in := r.Least >= r.Limits.Low && r.Most <= r.Limits.High; in != r.In || in != (r.Off == 0) {
					t.Fatalf("%s: %v to %v in %v to %v: in %v, off by %v", name, r.Least, r.Most, r.Limits.Low, r.Limits.High, r.In, r.Off)
				}
			}
		}
	}
	if measured < 4 || unplanned < 4 {
		t.Errorf("%d rows measured, %d not: the draw is too narrow", measured, unplanned)
	}
}
