package passes_test

import "testing"

// A finish costs for chatter what its own depth costs: priced a step of the search's table deeper,
// one of 0.04 mm looks as loud as one of 0.05, and this slender bar is planned with the deeper one,
// 1.3 % dearer than the cheapest chain.
func TestFinishIsPricedAtItsOwnDepth(t *testing.T) {
	m := usualMill()
	m.start, m.steps, m.springFinish, m.springRough, m.feeds = 99.2, []handStep{{60, 360}}, 0.05, 0.3, []float64{0.05}
	m.radial, m.low, m.high, m.damping = 80, 99.96, 100.04, [2]float64{0.02, 0.15}
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
