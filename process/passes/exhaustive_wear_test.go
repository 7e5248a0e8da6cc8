package passes_test

import (
	"fmt"
	"math"
	"testing"

	"borewright/process/schedule"
	"borewright/process/slow"
)

// handFlank is the land worn onto an edge, mm.
type handFlank struct{ least, likely, most float64 }

// begins is the bore and the edge before the first pass.
func (e *exhaustive) begins() state {
	s := state{rLeast: e.start/2 - e.offset, rMost: e.start/2 + e.offset}
	if e.wearing {
		s.edge = handFlank{e.handMill.land, e.handMill.land, e.handMill.land}
	}
	return s
}

// hones is whether the edge may be honed before the next pass: it is tried both ways where there is
// anything to take off.
func (e *exhaustive) hones(s state) []bool {
	if s.edge.likely > 0 {
		return []bool{false, true}
	}
	return []bool{false}
}

// honing is what it takes to hone an edge, minutes (from memory).
func honing(honed bool) float64 {
	if honed {
		return 4
	}
	return 0
}

// wear is the edge half way through a pass to a radius and at its end, and sets the land that the
// pass is worked with. fit is whether it may cut a rough so: it is not to end past 0.3 mm, unless it
// began with less than a quarter of that.
func (e *exhaustive) wear(at handFlank, p plannedCut, made float64) (mid, end handFlank, fit bool) {
	if e.land = 0; !e.wearing {
		return mid, end, true
	}
	if p.honed {
		at = handFlank{}
	}
	rate, went := e.wears(p.rpm*2*math.Pi*made/1000, p.kind), e.metres(p.feed, made)
	on := func(share float64) handFlank {
		return handFlank{at.least + share*went*rate[0], at.likely + share*went*rate[1], at.most + share*went*rate[2]}
	}
	mid, end = on(0.5), on(1)
	e.land = mid.likely
	return mid, end, p.kind != schedule.Rough || end.likely <= 0.3*(2-e.slack) || at.likely < 0.3/4*(2-e.slack)
}

// tired is whether the last passes, begun with an edge, end with more than a third of what a rough
// may, though they began with a quarter of that.
func (at handFlank) tired(semi plannedCut, end handFlank) bool {
	return !semi.honed && end.likely > 0.1 && at.likely >= 0.1/4
}

// unsure is how far a pass may come out smaller, mm on diameter, because its edge is worn as much more
// than is likely as it may be.
func (e *exhaustive) unsure(mid handFlank, f handCut, p plannedCut) float64 {
	half := (mid.most - mid.least) / 2
	if half <= 0 {
		return 0
	}
	e.land = mid.likely + half
	more := e.cutAt(p.depth, p.feed, p.rpm)
	e.land = mid.likely
	return 2 * e.c * (more.against(e.lean) - f.against(e.lean))
}

// keenFinish is a job whose finish springs further than it may by an edge that is not honed before
// the semi-finish.
func keenFinish(m *handMill) {
	m.start, m.to, m.wear, m.feeds, m.steps, m.springFinish = 97.5, 220, [2]float64{25, 110}, []float64{0.1}, []handStep{{60, 280}}, 0.0075
}

// quickMill cuts with one feed and a keen edge, set by the micrometer.
func quickMill(m *handMill) {
	m.feeds, m.setting, m.rounding, m.springFinish = []float64{0.2}, 0.005, 0.005, 0.1
}

// The search with an edge that wears, and may be honed before any roughing pass and before the
// semi-finish, against trying everything: every chain of up to two roughing passes, the edge honed or
// not before each. The search reckons with one wear for the roughs and one for the last passes, and
// what it finds it does again by the wear that it brings: it may cost 1 % more than the cheapest.
func TestPlannerAgainstExhaustiveSearchWithWear(t *testing.T) {
	base := func(m *handMill) {
		m.flank, m.wear, m.start, m.feeds = 890, [2]float64{60, 300}, 98, []float64{0.1, 0.2}
		m.steps, m.radial, m.tilt, m.springRough, m.springFinish, m.low, m.high = []handStep{{70, 280}}, 80, 1.2, 0.2, 0.1, 99.96, 100.04
	}
	jobs := []struct {
		name   string
		change func(*handMill)
	}{
		{"wears fast", func(m *handMill) { m.wear, m.to = [2]float64{200, 900}, 160 }},
		{"long bore, two roughs", func(m *handMill) {
			m.to, m.start, m.depthMost, m.springRough, m.feeds = 260, 97, 0.8, 0.4, []float64{0.2}
		}},
		{"worn at first", func(m *handMill) { m.land = 0.08 }},
		{"narrow limits", func(m *handMill) { m.to, m.low, m.high = 200, 99.975, 100.025 }},
		{"honed before the first pass", func(m *handMill) { // the spring of a rough by the worn edge is past its limit
			m.start, m.land, m.springRough, m.steps, m.low, m.high = 97, 0.08, 0.05, []handStep{{50, 280}}, 99.97, 100.03
		}},
		{"honed because it pays", func(m *handMill) {
			m.to, m.start, m.land, m.springRough, m.springFinish, m.steps = 110, 97, 0.02, 0.05, 0.03, []handStep{{50, 280}}
		}},
		{"worn to the end", func(m *handMill) { m.land = 0.28 }},
		{"past its end in the first pass", func(m *handMill) { m.land = 0.295 }},
		{"honed, or the finish springs too far", keenFinish},
		{"honing does not pay", func(m *handMill) { // it would make the size surer by less than it takes
			m.start, m.to, m.land, m.feeds, m.springRough, m.low, m.high = 97.5, 110, 0.02, []float64{0.1}, 0.05, 99.983, 100.017
			m.setting, m.gauge, m.kelvin = 0.008, 0.004, 0.67
		}},
		{"larger where the edge is keen", func(m *handMill) { // what it wears in the finish is taper, and takes a third of the limits
			m.start, m.to, m.wear, m.feeds, m.steps, m.low, m.high = 97.5, 160, [2]float64{200, 900}, []float64{0.1}, []handStep{{60, 280}}, 99.979, 100.021
			m.setting, m.gauge, m.kelvin = 0.006, 0.003, 0.67
		}},
		{"another edge in the finish", func(m *handMill) { // the semi-finish springs half as far as the finish, as deep, by a land of a third
			m.start, m.to, m.wear, m.land, m.feeds, m.steps, m.springRough = 99, 220, [2]float64{200, 900}, 0.02, []float64{0.1}, []handStep{{60, 280}}, 0.05
			m.low, m.high, m.setting, m.gauge, m.kelvin = 99.974, 100.026, 0.006, 0.003, 1
		}},
		{"a spring pass by an edge as worn as it is by then", func(m *handMill) { // by the wear of the finish it looks two minutes cheaper than it is
			quickMill(m)
			m.wear, m.land, m.damping = [2]float64{100, 500}, 0.08, [2]float64{0.1, 0.15}
			m.start, m.to, m.steps, m.radial, m.tilt, m.speeds = 98.6, 120, []handStep{{45, 180}}, 5, 0.4, []float64{160}
			m.low, m.high, m.springRough, m.hold, m.gauge, m.kelvin, m.nose = 100-0.014, 100+0.014, 0.5, 2, 0.003, 0.67, 1.2
		}},
		{"a spring pass after a finish that hardly opens the cutter", func(m *handMill) { // not honed: what it takes is counted once
			quickMill(m)
			m.wear, m.land, m.damping = [2]float64{25, 110}, 0.02, [2]float64{0.1, 0.15}
			m.start, m.to, m.steps, m.radial, m.tilt, m.speeds = 99.2, 45, []handStep{{45, 360}}, 30, 0.7, []float64{250}
			m.low, m.high, m.springRough, m.hold, m.gauge, m.kelvin, m.nose = 100-0.011, 100+0.011, 0.1, 6, 0.005, 1, 0.4
		}},
	}
	few, honed := slow.Rounds(t, "jobs with a wearing edge searched exhaustively", len(jobs), 1), 0
	for i := range few {
		x := jobs[i]
		t.Run(x.name, func(t *testing.T) {
			m := usualMill()
			base(&m)
			x.change(&m)
			_, ps := m.plan(t)
			said := ""
			for _, q := range ps {
				was := ""
				if q.Hone != nil {
					was, honed = "honed, ", honed+1
				}
				said += fmt.Sprintf("\n  %s%s %.4f at %g, %v rev/min", was, q.Kind, q.Depth.MM(), q.Feed.MM(), q.Speed)
			}
			e := newExhaustive(&m)
			e.wearing, e.slack, e.printed = true, 1.02, 0.0008
			cost, err := e.judge(ps)
			if err != nil {
				t.Errorf("%v%s", err, said)
			}
			e.slack, e.printed = 0.98, 0
			e.run(e.begins(), 2)
			t.Logf("planner %.3f, exhaustive %.3f of %d endings: %v%s", cost, e.best, e.tried, e.chain, said)
			best := e.best
			if cost > best*1.01 { // margins against chatter differ by some per cent, as without wear
				loud := newExhaustive(&m)
				loud.wearing, loud.slack, loud.louder = true, 0.98, 0.94
				loud.run(loud.begins(), 2)
				best = loud.best
			}
			if cost > best*1.01 {
				t.Errorf("the planner's chain costs %.3f, another %.3f: %v%s", cost, e.best, e.chain, said)
			}
		})
	}
	if honed == 0 {
		t.Error("no edge was honed")
	}
}
