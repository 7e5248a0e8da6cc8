package passes_test

import (
	"math"
	"testing"

	"borewright/process/passes"
	"borewright/process/setup"
)

// A finish costs for chatter what its own depth costs: priced a step of the search's table deeper,
// one of 0.04 mm looks as loud as one of 0.05, and this slender bar is planned with the deeper one,
// 1.3 % dearer than the cheapest chain.
func TestFinishIsPricedAtItsOwnDepth(t *testing.T) {
	m := slenderFinish()
	_, ps := m.plan(t)
	e := newExhaustive(&m)
	e.slack, e.printed = 1.02, 0.0008
	cost, err := e.judge(ps)
	if err != nil {
		t.Fatal(err)
	}
	e.slack, e.printed = 0.98, 0
	e.run(e.begins(), 0)
	if cost > e.best*1.005 {
		t.Errorf("the planner's chain costs %.3f, another %.3f: %v", cost, e.best, e.chain)
	}
}

// Every finish that the search looks at costs what the hand mill's own chatter says, to 0.35 minutes:
// a margin two hundredths off. Priced 0.005 mm deeper one of 0.025 mm costs half a minute more.
func TestFinishesArePricedByHand(t *testing.T) {
	m := slenderFinish()
	p, _ := m.plan(t)
	v := p.Bores[0].Visits[0].Visit
	v.Passes = nil
	bar, err := setup.New(p.Job)
	if err != nil {
		t.Fatal(err)
	}
	r, err := passes.New(bar).Prepare(&v, p.Bores[0].Station, false)
	if err != nil {
		t.Fatal(err)
	}
	e, depths := newExhaustive(&m), map[float64]bool{}
	for _, f := range r.FinishPrices() {
		depths[f.Depth] = true
		if by := e.price(f.Depth, f.Feed, f.RPM); math.Abs(f.Minutes-by) > 0.35 {
			t.Errorf("%.4f mm at %g, %g rev/min costs %.3f min, by hand %.3f", f.Depth, f.Feed, f.RPM, f.Minutes, by)
		}
	}
	if len(depths) < 13 {
		t.Errorf("%d depths are priced", len(depths))
	}
}

// slenderFinish is a bar that may sing in a finish.
func slenderFinish() handMill {
	m := usualMill()
	m.start, m.steps, m.springFinish, m.springRough, m.feeds = 99.2, []handStep{{60, 360}}, 0.05, 0.3, []float64{0.05}
	m.radial, m.low, m.high, m.damping = 80, 99.96, 100.04, [2]float64{0.02, 0.15}
	return m
}
