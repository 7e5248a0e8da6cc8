package passes

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

func TestRuns(t *testing.T) {
	one := func(n int) fact.Fact { return fact.New(schedule.OnePass, fact.Count(n)) }
	to := func(a, b int) fact.Fact { return fact.New(schedule.PassesTo, fact.Count(a), fact.Count(b)) }
	for _, row := range []struct {
		n    []int
		want []fact.Fact
	}{
		{nil, nil},
		{[]int{7}, []fact.Fact{one(7)}},
		{[]int{6, 7}, []fact.Fact{one(6), one(7)}},
		{[]int{1, 3, 4, 5}, []fact.Fact{one(1), to(3, 5)}},
		{[]int{1, 2, 3, 4}, []fact.Fact{to(1, 4)}},
	} {
		if got := schedule.Runs(row.n); !slices.EqualFunc(got, row.want, fact.Equal) {
			t.Errorf("%v: %v, want %v", row.n, got, row.want)
		}
	}
}

// What the caution promises of another speed, nose radius or rake is what a job
// with it comes to at the same depth and feed.
func TestCuresAreThoseOfTheJob(t *testing.T) {
	inside := func(change func(*process.Job)) *Planner {
		job := exampleJob(t, "lock-winch/job.toml")
		metal := *job.Sleeve.Material
		metal.Indentation = [2]float64{1e3, 90e3} // it sings
		metal.Flank = 0                           // nothing is gained by honing
		job.Limits.Sing, job.Cutter.SpeedRough, job.Cutter.SpeedFinish = true, 48, 48
		change(job)
		v := firstVisit(t, job)
		v.Material, v.Limits = &metal, schedule.FinishLimits(job.Units, job.Bores[0])
		v.Start, v.StartMost = v.Limits.Low.Plus(-30*qty.Thou), v.Limits.Low.Plus(-28*qty.Thou)
		return plannerOf(t, job, v, false)
	}
	r := inside(func(*process.Job) {})
	if why := r.Plan(5); !why.None() {
		t.Fatal(why)
	}
	last := slices.MinFunc(r.Visit.Passes, func(a, b schedule.Pass) int { return cmp.Compare(a.Stability.Margin[1], b.Stability.Margin[1]) })
	slow := r.SpeedAtMost(float64(last.Speed) / 2)
	said := r.Chatters()
	cures := fact.AsList(said.Nth(4))[0]
	for _, cure := range []struct {
		kind   fact.Kind
		what   qty.Quantity
		speed  float64
		change func(*process.Job)
	}{
		{setup.SlowerSpeed, qty.RevPerMin(slow), slow, func(*process.Job) {}},
		{setup.SmallerNose, qty.FromInches(0.0155), float64(last.Speed), func(j *process.Job) { j.Cutter.NoseRadius = qty.FromInches(0.0155) }},
		{setup.KeenerRake, qty.KindAngle.Of(18), float64(last.Speed), func(j *process.Job) { j.Cutter.Rake = 18 }},
	} {
		q := inside(cure.change)
		speed := float64(last.Cutting) * cure.speed / float64(last.Speed)
		s := q.Stability(q.Stiffness(last.Depth.MM(), last.Feed.MM(), speed, setup.In), speed, last.Land)
		want := fact.New(cure.kind, s.Margins(), fact.Figure(cure.what))
		if !slices.ContainsFunc(fact.AsList(cures.Nth(2)), func(f fact.Fact) bool { return fact.Reads(qty.Inches, f, want) }) {
			t.Errorf("%v is not in %v", want, cures)
		}
		if s.Middle() < 1.2*last.Stability.Middle() || math.IsNaN(s.Middle()) {
			t.Errorf("%s: %v is no cure for %v", cure.kind, s, last.Stability)
		}
	}
	if n, _ := fact.AsFigure(cures.Nth(1)); n != qty.KindCount.Of(float64(last.N)) {
		t.Error(said)
	}
}
