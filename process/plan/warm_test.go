package plan_test

import (
	"math"
	"slices"
	"testing"

	"borewright/process/fact"
	"borewright/process/measured"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// A semi-finish is gauged in gray iron of 32 °C with a gauge of 20 °C. What is cut next is
// cut in the same warm work: the size that the gauge is then to read lies above the drawing's
// aim by the growth of the iron, 11e-6/K times 12 K, and cooled down the bore is on it. What
// is expected of the passes is worked out by the test's own formula.
func TestWarmWorkIsBoredToItsWarmSize(t *testing.T) {
	slow.Test(t, "what is bored after a warm semi-finish")
	p := made(t, "lock-winch/job.toml")
	job := p.Job
	b := p.Bores[0]
	v := b.Visits[0]
	aim := v.Limits.Aim.MM()
	grows := 11e-6 * 12 * aim
	var semi schedule.Pass
	for _, q := range v.Passes {
		if q.Kind == schedule.SemiFinish && q.Hold != nil {
			semi = q
		}
	}
	if semi.N == 0 {
		t.Fatal("no semi-finish is measured")
	}
	rest := func(celsius float64) (schedule.Visit, *Plan) {
		m := after(p, 0, 1, semi.N, semi.Expected.MM(), 0)
		m.WorkTemp, m.GaugeTemp = qty.FromCelsius(celsius), qty.FromCelsius(20)
		now := MakeAfter(job, results(m))
		if !now.Feasible {
			t.Fatalf("%v °C: %v", celsius, now.Reasons)
		}
		return now.Bores[0].Visits[0].Visit, now
	}
	cold, _ := rest(20)
	warm, now := rest(32)
	if got := warm.Limits.Aim.MM() - aim; math.Abs(got-grows) > 0.0013 {
		t.Errorf("the aim is moved by %.4f mm, %.4f by hand", got, grows)
	}
	if got := warm.Limits.Low.Minus(cold.Limits.Low).MM(); math.Abs(got-grows) > 0.0001 {
		t.Errorf("the low limit is moved by %.4f mm, %.4f by hand", got, grows)
	}
	if warm.Limits.High-warm.Limits.Low != cold.Limits.High-cold.Limits.Low {
		t.Error("the limits are no longer as far apart")
	}
	last := func(v schedule.Visit) schedule.Pass { return v.Passes[len(v.Passes)-1] }
	if got := last(warm).Expected.MM() - grows; math.Abs(got-aim) > 0.003 {
		t.Errorf("cooled down it will be %.4f, aimed at %.4f", got, aim)
	}
	if last(warm).Setting <= last(cold).Setting {
		t.Errorf("set to %v warm and %v cold", last(warm).Setting, last(cold).Setting)
	}
	if !slices.ContainsFunc(now.Cautions, func(f fact.Fact) bool { return f.Kind == measured.WorkWarm }) {
		t.Errorf("it is not said that the rest is for warm work: %v", now.Cautions)
	}

	// The finish reads its limits and 6 µm over in the warm work: by size at 20 °C it is in.
	finish := last(warm)
	m := after(now, 0, 1, finish.N, v.Limits.High.MM()+0.006, 0)
	m.WorkTemp, m.GaugeTemp = qty.FromCelsius(32), qty.FromCelsius(20)
	s := after(p, 0, 1, semi.N, semi.Expected.MM(), 0)
	s.WorkTemp, s.GaugeTemp = m.WorkTemp, m.GaugeTemp
	if done := MakeAfter(job, results(s, m)); !done.Feasible || done.Findings.Cuts[1].AtTwenty[1].MM() > v.Limits.High.MM() {
		t.Errorf("cooled down it is within its limits: %v", done.Reasons)
	}
	m.WorkTemp = 0
	if done := MakeAfter(job, results(s, m)); !slices.ContainsFunc(done.Cautions, func(f fact.Fact) bool { return f.Kind == measured.TurnLarger }) {
		t.Error("a size over its limits is taken as it is, and nothing says that the work was warm")
	}
}
