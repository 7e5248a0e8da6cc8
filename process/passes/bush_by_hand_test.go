package passes_test

import (
	"math"
	"testing"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// A bush so wide that the bar does not touch it does nothing: each pass springs as the free
// bar does by hand, and the plan says so, with how far the bar moves and half of the play. A
// tight one holds the bar, and nothing is said.
func TestWideBushIsToldByHand(t *testing.T) {
	m := usualMill()
	m.steps, m.start, m.springFinish, m.low, m.high = []handStep{{70, 330}}, 98.6, 0.1, 99.95, 100.05
	m.bearing, m.bearingStiff, m.bush = 310, 200, 0.6
	free := m
	free.bearing = 0
	free.steps = []handStep{{70, m.tipAt()}}
	c := free.compliance()
	p, ps := m.plan(t)
	for _, q := range ps {
		f := m.cut(q.Depth.MM(), q.Feed.MM(), float64(q.Cutting), 0)
		if got, want := q.SpringIn.MM(), 2*c*f.against(free.lean(q.Setting.MM()/2)); math.Abs(got-want) > 0.02*want+1e-4 {
			t.Errorf("pass %d springs %.5f, the free bar %.5f by hand", q.N, got, want)
		}
	}
	told := func(list []fact.Fact) (fact.Fact, bool) {
		for _, f := range list {
			if f.Kind == schedule.OffBush {
				return f, true
			}
		}
		return fact.Fact{}, false
	}
	f, is := told(p.Cautions)
	if !is {
		t.Fatalf("not told that the bar does not touch its bearing: %v", p.Cautions)
	}
	moves, _ := fact.AsFigure(f.Nth(2))
	half, _ := fact.AsFigure(f.Nth(3))
	if f.Nth(1) == nil || half.Value != float64(qty.FromMM(0.3)) && math.Abs(half.Value-0.3) > 1e-9 || !(moves.Value > 0) {
		t.Errorf("told %v", f)
	}
	m.bush = 0.002
	if q, _ := m.plan(t); q != nil {
		if f, is := told(q.Cautions); is {
			t.Errorf("a tight bush: %v", f)
		}
	}
}
