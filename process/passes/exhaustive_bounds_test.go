package passes_test

import (
	"testing"

	"borewright/process/schedule"
	"borewright/process/slow"
)

// What the search leaves out unseen it leaves out by bounds: what last passes cost at the least,
// and what a chain may cost in one round of the search. A bound that is too large hides the
// cheapest chain, and then another is planned. In most jobs the next chain costs nearly the same
// or falls under the same bound, and nothing is seen. In each of these jobs the next chain costs
// from 2 to 200 % more, and it is the one planned where what the job is named after is reckoned
// two to four times too large, or the bound of a round 7 % too small. So the search over
// everything shows it. The jobs were drawn at random and kept for what they show. They are held
// at 1 %, without the allowance for margins against chatter.
func TestBoundsAgainstExhaustiveSearch(t *testing.T) {
	spindle := func(m *handMill, radial, tilt, least, most float64) {
		m.radial, m.tilt, m.damping = radial, tilt, [2]float64{least, most}
	}
	doubt := func(m *handMill, half, force, setting, gauge, kelvin float64) {
		m.low, m.high, m.forceError, m.setting, m.gauge, m.kelvin = 100-half, 100+half, force, setting, gauge, kelvin
	}
	jobs := []struct {
		name   string // what would be too large
		spring bool   // the best ends with a spring pass
		roughs int    // passes that the exhaustive search tries, at least as many as its best takes
		change func(*handMill)
	}{
		{"the time of a spring pass", true, 0, func(m *handMill) {
			spindle(m, 10, 4, 0.2, 0.3)
			doubt(m, 0.025, 0.3, 0.003, 0.005, 0.67)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 98.6, 120, []handStep{{60, 360}}, []float64{0.08, 0.16}, []float64{100, 250}, 1.2
			m.springRough, m.springFinish, m.ra = 0.1, 0.012, 3.2
		}},
		{"the chatter of a spring pass", true, 0, func(m *handMill) {
			spindle(m, 300, 0.4, 0.05, 0.1)
			doubt(m, 0.015, 0.3, 0.005, 0.003, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 99.2, 60, []handStep{{50, 300}}, []float64{0.2}, []float64{100, 250}, 1.2
			m.springRough, m.springFinish = 0.5, 0.008
		}},
		{"the price of a size missed after a spring pass", true, 0, func(m *handMill) {
			spindle(m, 3, 1, 0.05, 0.1)
			doubt(m, 0.013, 0.4, 0.005, 0.007, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 98.8, 45, []handStep{{50, 180}}, []float64{0.08, 0.16}, []float64{160}, 0.4
			m.springRough, m.springFinish, m.offset, m.round, m.hold, m.rounding = 0.3, 0.02, 0.1, 0.01, 2, 0.005
		}},
		{"the price of a size missed without one", false, 0, func(m *handMill) {
			spindle(m, 100, 1, 0.2, 0.3)
			doubt(m, 0.012, 0.3, 0.005, 0.003, 0.67)
			m.start, m.to, m.steps, m.feeds, m.speeds = 99.2, 300, []handStep{{45, 300}}, []float64{0.2}, []float64{160}
			m.springRough, m.springFinish, m.ra, m.hold, m.rounding = 0.3, 0.04, 3.2, 2, 0.008
		}},
		{"what a chain costs, in a middle round", false, 1, func(m *handMill) {
			spindle(m, 30, 0.7, 0.1, 0.15)
			doubt(m, 0.011, 0.2, 0.004, 0.005, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 98.6, 45, []handStep{{50, 360}}, []float64{0.1}, []float64{160}, 1.2
			m.springRough, m.springFinish, m.hold, m.rounding = 0.1, 0.1, 2, 0.005
		}},
		{"the chatter of a spring pass where the finish could land alone", true, 0, func(m *handMill) {
			spindle(m, 5, 4, 0.05, 0.1)
			doubt(m, 0.012, 0.3, 0.003, 0.003, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 98.6, 45, []handStep{{60, 180}}, []float64{0.2}, []float64{160}, 1.2
			m.springRough, m.springFinish, m.hold, m.rounding = 0.3, 0.1, 2, 0.008
			m.flank, m.wear, m.land = 890, [2]float64{100, 500}, 0.02
		}},
		{"a round, with two roughing passes and a spring pass", true, 2, func(m *handMill) {
			spindle(m, 3, 4, 0.1, 0.15)
			doubt(m, 0.012, 0.5, 0.003, 0.003, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds = 98, 75, []handStep{{45, 300}}, []float64{0.05, 0.2}, []float64{160}
			m.springRough, m.springFinish, m.round, m.hold, m.rounding = 0.1, 0.02, 0.006, 2, 0.005
		}},
		{"what a chain costs in the first round", false, 1, func(m *handMill) {
			spindle(m, 30, 1, 0.1, 0.15)
			doubt(m, 0.02, 0.3, 0.003, 0.007, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 98.4, 45, []handStep{{50, 300}}, []float64{0.2}, []float64{160}, 0.4
			m.springRough, m.springFinish, m.round, m.hold, m.rounding = 0.1, 0.02, 0.006, 4, 0.008
		}},
		{"the time of a spring pass where the finish could land alone", true, 1, func(m *handMill) {
			spindle(m, 3, 1, 0.05, 0.1)
			doubt(m, 0.013, 0.5, 0.006, 0.007, 0.67)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 98.4, 75, []handStep{{70, 240}}, []float64{0.1, 0.2}, []float64{250}, 0.4
			m.springRough, m.springFinish, m.round, m.hold, m.rounding = 0.1, 0.1, 0.01, 2, 0.005
		}},
		{"the chatter of a finish", false, 1, func(m *handMill) {
			spindle(m, 300, 0.4, 0.02, 0.05)
			doubt(m, 0.018, 0.3, 0.003, 0.003, 2)
			m.start, m.to, m.steps, m.feeds, m.speeds, m.nose = 98, 200, []handStep{{60, 300}}, []float64{0.2}, []float64{160}, 0.4
			m.springRough, m.springFinish, m.hold, m.rounding = 0.1, 0.02, 10, 0.008
		}},
		{"the price of an unusual depth", false, 1, func(m *handMill) {
			spindle(m, 30, 0.4, 0.2, 0.3)
			doubt(m, 0.012, 0.3, 0.003, 0.003, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds = 99, 60, []handStep{{50, 300}}, []float64{0.05, 0.1, 0.2}, []float64{100, 250}
			m.springRough, m.springFinish, m.rounding = 0.1, 0.1, 0.008
		}},
		{"the time of a spring pass by a worn edge", true, 1, func(m *handMill) {
			spindle(m, 5, 0.7, 0.2, 0.3)
			doubt(m, 0.022, 0.5, 0.006, 0.005, 1)
			m.start, m.to, m.steps, m.feeds, m.speeds = 98.6, 90, []handStep{{70, 240}}, []float64{0.1}, []float64{250}
			m.springRough, m.springFinish, m.hold, m.rounding = 0.5, 0.02, 4, 0.005
			m.flank, m.wear, m.land = 890, [2]float64{100, 500}, 0.02
		}},
		{"the price of a size missed by a worn edge", true, 1, func(m *handMill) {
			spindle(m, 30, 1, 0.2, 0.3)
			doubt(m, 0.015, 0.5, 0.006, 0.005, 0.67)
			m.start, m.to, m.steps, m.feeds, m.speeds = 98.8, 90, []handStep{{45, 360}}, []float64{0.1}, []float64{250}
			m.springRough, m.springFinish, m.hold, m.rounding = 0.5, 0.02, 4, 0.005
			m.flank, m.wear, m.land = 890, [2]float64{60, 300}, 0.02
		}},
	}
	few := slow.Rounds(t, "jobs that show a bound too large", len(jobs), 7)
	for _, x := range jobs[:few] {
		t.Run(x.name, func(t *testing.T) {
			m := usualMill()
			x.change(&m)
			_, ps := m.plan(t)
			e := newExhaustive(&m)
			e.wearing, e.slack, e.printed = m.flank > 0, 1.02, 0.0008
			cost, err := e.judge(ps)
			if err != nil {
				t.Error(err)
			}
			e.slack, e.printed = 0.98, 0
			e.run(e.begins(), x.roughs)
			t.Logf("planner %.3f, exhaustive %.3f of %d endings: %v", cost, e.best, e.tried, e.chain)
			if cost > e.best*1.01 {
				t.Errorf("the planner's chain costs %.3f, another %.3f: %v", cost, e.best, e.chain)
			}
			if n := len(e.chain); n == 0 || (e.chain[n-1].kind == schedule.Spring) != x.spring {
				t.Errorf("the best ends with %v: this job shows nothing of a spring pass", e.chain)
			}
		})
	}
}
