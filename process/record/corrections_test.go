package record_test

import (
	"slices"
	"testing"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	. "borewright/process/record"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// What a table says to set is what an entry of that size has planned: each row is entered as it
// stands, at its first size and at its last, and the whole job planned anew.
func TestCorrectionsAreWhatMeasuredPlans(t *testing.T) {
	jobs := []string{"slip-winch/job.toml", "lock-winch/job.toml", "lock-winch/manual.toml", "gear-case/job.toml", "hand-pump/job.toml", "ferry-ramp/job.toml", "tide-pump/job.toml"}
	for _, name := range jobs[:slow.Rounds(t, "every table of the examples entered row by row", len(jobs), 1)] {
		job := recordJob(t, name)
		p := plan.Make(job)
		for i, x := range p.Bores {
			for k, v := range x.Visits {
				for n, q := range v.Passes {
					list := Corrections(p, i, k, n)
					if q.Band != nil && len(list) > 0 {
						t.Errorf("%s, pass %d: a table behind a witness cut", name, q.N)
					}
					if q.Hold != nil && q.Kind == schedule.SemiFinish && len(list) == 0 {
						t.Errorf("%s, pass %d: no table beside its hold", name, q.N)
					}
					for _, c := range list {
						for _, says := range slices.Compact([]qty.Diameter{c.Low, c.High}) {
							if got := entered(t, job, p, x, q, says); got == nil || got.Setting != c.Next.Setting && got.Set.From == 0 || got.Set.Turns != c.Next.Set.Turns ||
								got.Set.Graduations != c.Next.Set.Graduations || got.Set.OverBar != c.Next.Set.OverBar || got.Feed != c.Next.Feed || got.Speed != c.Next.Speed || (got.Hone == nil) != (c.Next.Hone == nil) {
								t.Errorf("%s, pass %d, the gauge says %v: the table has %+v, entered it is %+v", name, q.N, job.Units.Bare(says), c.Next.Set, got)
							}
						}
					}
				}
			}
		}
	}
}

// entered is the pass that comes next once the bore was entered as read alike everywhere.
func entered(t *testing.T, job *process.Job, p *plan.Plan, x plan.Bore, q schedule.Pass, says qty.Diameter) *schedule.Pass {
	t.Helper()
	m, err := Fill(p, process.Measured{Station: x.Bore.Station, Pass: q.N, Place: "job.results.toml:2:1", Sizes: AtEnds(x.Station, says)})
	if err != nil {
		t.Fatal(err)
	}
	r := plan.MakeAfter(job, &process.Results{File: "job.results.toml", Entries: []process.Measured{m}})
	for _, y := range r.Bores {
		if r.Feasible && y.Bore.Station == x.Bore.Station && len(y.Visits) > 0 && len(y.Visits[0].Passes) > 0 {
			return &y.Visits[0].Passes[0]
		}
	}
	return nil
}

// A window of which the coarsest gauge shows too many steps has no table.
func TestNoTableOfTooManyRows(t *testing.T) {
	p := plan.Make(recordJob(t, "slip-winch/job.toml"))
	for n := range p.Bores[0].Visits[0].Passes {
		q := &p.Bores[0].Visits[0].Passes[n]
		q.High = q.Low + qty.Diameter(10*qty.Millimetre)
		if list := Corrections(p, 0, 0, n); list != nil {
			t.Errorf("pass %d: %d rows", q.N, len(list))
		}
	}
}
