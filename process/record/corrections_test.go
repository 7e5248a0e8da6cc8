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
// stands, at its first size and at its last, behind what other bores were cut to before it, and the
// whole job planned anew.
func TestCorrectionsAreWhatMeasuredPlans(t *testing.T) {
	jobs := []string{"slip-winch/job.toml", "lock-winch/job.toml", "lock-winch/manual.toml", "gear-case/job.toml", "hand-pump/job.toml", "ferry-ramp/job.toml", "tide-pump/job.toml"}
	for _, name := range jobs[:slow.Rounds(t, "every table of the examples entered row by row", len(jobs), 1)] {
		job := recordJob(t, name)
		first := plan.Make(job)
		for i, x := range first.Bores {
			for k, v := range x.Visits {
				p, before := cutBefore(t, job, first, i, k)
				bore := slices.IndexFunc(p.Bores, func(y plan.Bore) bool { return y.Bore.Station == x.Bore.Station })
				if bore < 0 {
					t.Fatalf("%s, %s: %v", name, x.Station.Name, p.Reasons)
				}
				at := slices.IndexFunc(p.Bores[bore].Visits, func(w plan.Visit) bool { return w.N == v.N && w.Part == v.Part })
				if at < 0 {
					t.Fatalf("%s, %s: visit %d is gone", name, x.Station.Name, k+1)
				}
				v := p.Bores[bore].Visits[at]
				for n, q := range v.Passes {
					list := Corrections(p, bore, at, n)
					if q.Band != nil && len(list) > 0 {
						t.Errorf("%s, pass %d: a table behind a witness cut", name, q.N)
					}
					if q.Hold != nil && q.Kind == schedule.SemiFinish && len(list) == 0 {
						t.Errorf("%s, pass %d: no table beside its hold", name, q.N)
					}
					for _, c := range list {
						for _, says := range slices.Compact([]qty.Diameter{c.Low, c.High}) {
							if got := entered(t, job, p, before, x, q, says); got == nil || got.Setting != c.Next.Setting && got.Set.From == 0 || got.Set.Turns != c.Next.Set.Turns ||
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

// cutBefore is the plan once all visits to other bores that come before one, by the indices of
// bore and visit, were cut as expected, with the entries that say so.
func cutBefore(t *testing.T, job *process.Job, p *plan.Plan, bore, visit int) (*plan.Plan, []process.Measured) {
	t.Helper()
	var all []process.Measured
	for _, at := range p.Turns() {
		if at == [2]int{bore, visit} {
			break
		}
		x := p.Bores[at[0]]
		if q := x.Visits[at[1]].Passes; at[0] != bore && len(q) > 0 {
			last := q[len(q)-1]
			m, err := Fill(p, process.Measured{Station: x.Bore.Station, Pass: last.N, Place: "job.results.toml:1:1", Sizes: AtEnds(x.Station, last.Expected)})
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, m)
		}
	}
	if len(all) == 0 {
		return p, nil
	}
	return plan.MakeAfter(job, &process.Results{File: "job.results.toml", Entries: all}), all
}

// entered is the pass that comes next once the bore was entered as read alike everywhere.
func entered(t *testing.T, job *process.Job, p *plan.Plan, before []process.Measured, x plan.Bore, q schedule.Pass, says qty.Diameter) *schedule.Pass {
	t.Helper()
	m, err := Fill(p, process.Measured{Station: x.Bore.Station, Pass: q.N, Place: "job.results.toml:2:1", Sizes: AtEnds(x.Station, says)})
	if err != nil {
		t.Fatal(err)
	}
	r := plan.MakeAfter(job, &process.Results{File: "job.results.toml", Entries: append(slices.Clone(before), m)})
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
