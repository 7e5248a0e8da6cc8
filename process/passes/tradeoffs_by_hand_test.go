package passes_test

import (
	"math"
	"strings"
	"testing"

	"borewright/process/schedule"
	"borewright/process/slow"
)

// Two passes, one feed, one speed: what is left of the old shape is worked by
// hand for every stock that may be left for the finish. The least of them is
// planned where a little more is allowed, and refused where a little less is.
func TestRoundnessByHand(t *testing.T) {
	m := usualMill()
	m.start, m.offset, m.passes, m.radial, m.tilt = 99.2, 0.15, 2, 4, 0.4
	m.feeds, m.speeds, m.springRough, m.springFinish = []float64{0.2}, []float64{160}, 0.5, 0.3
	m.power, m.low, m.high = 4, 99.9, 100.1
	e := newExhaustive(&m)
	least := math.Inf(1)
	for _, depth := range e.depths {
		s := state{rLeast: m.start/2 - m.offset, rMost: m.start/2 + m.offset}
		semi := plannedCut{depth: e.aim - depth - s.rLeast, feed: 0.2, rpm: 160}
		if semi.depth < depth || semi.depth > 0.5 || depth < 0.03 {
			continue
		}
		s = e.after(e.after(s, semi, 0), plannedCut{depth: depth, feed: 0.2, rpm: 160}, 0)
		least = math.Min(least, s.rMost-s.rLeast+m.runout)
	}
	for share, want := range map[float64]bool{0.97: false, 1.03: true} {
		m.round = math.Round(share*least*1e6) / 1e6
		p, why := m.answer(t)
		if p.Feasible != want {
			t.Errorf("%.4f left by hand, %.4f allowed: feasible %v, %s", least, m.round, p.Feasible, why)
		}
		if !want && !strings.Contains(why, "roundness") && !strings.Contains(why, "passes") {
			t.Errorf("%.4f left by hand, %.4f allowed: %s", least, m.round, why)
		}
		if want {
			ps := p.Bores[0].Visits[0].Passes
			if got := ps[len(ps)-1].OutOfRound.MM(); math.Abs(got-least) > 0.05*least {
				t.Errorf("%.4f left, by hand %.4f", got, least)
			}
		}
	}
}

// What a weight is worth decides between two ways at some length of the bore:
// by hand the one is dearer a little below it and the other a little above. The
// planner must change its mind between the two. Margins against chatter by hand
// and by the planner differ by a few per cent, which moves that length most.
func TestWeightsByHand(t *testing.T) {
	slow.Test(t, "searches many lengths of bore")
	for _, x := range []struct {
		name   string
		change func(*handMill)
		first  func(*exhaustive) // leaves only the one way
		second func(*exhaustive)
		is     func(passes, rpm, feed float64) bool // the first way
		apart  float64                              // how near the planner must come, as a share of the length
	}{
		{"chatter: slow and quiet, or fast and singing",
			func(m *handMill) {
				m.start, m.steps, m.damping = 99.2, []handStep{{60, 300}}, [2]float64{0.01, 0.03}
				m.feeds, m.speeds, m.depthMost = []float64{0.2}, []float64{200, 400}, 0.6
				m.finish[1] = 200
			},
			func(e *exhaustive) { e.rpmF = []float64{200} }, func(e *exhaustive) { e.rpmF = []float64{400} },
			func(passes, rpm, feed float64) bool { return rpm == 200 }, 0.25},
		{"a change of gear: the last passes as the rough, or faster",
			func(m *handMill) {
				m.start, m.damping, m.ra = 98, [2]float64{0.2, 0.3}, 12.5
				m.feeds, m.speeds = []float64{0.2}, []float64{250, 400}
			},
			func(e *exhaustive) { e.roughs, e.rpmF = 1, []float64{250} }, func(e *exhaustive) { e.roughs, e.rpmF = 1, []float64{400} },
			func(passes, rpm, feed float64) bool { return rpm == 250 }, 0.1},
		{"a missed size: fine and sure, or coarse and doubtful",
			func(m *handMill) {
				m.start, m.radial, m.tilt, m.springFinish, m.springRough = 99.2, 3, 0.5, 0.2, 0.5
				m.low, m.high, m.forceError, m.nose = 99.986, 100.014, 0.3, 1.6
				m.feeds, m.damping = []float64{0.1, 0.2}, [2]float64{0.2, 0.3}
			},
			func(e *exhaustive) { e.feeds = []float64{0.1} }, func(e *exhaustive) { e.feeds = []float64{0.2} },
			func(passes, rpm, feed float64) bool { return feed == 0.1 }, 0.1},
	} {
		price := func(to float64, only func(*exhaustive)) float64 {
			m := usualMill()
			x.change(&m)
			m.to = to
			e := newExhaustive(&m)
			if only != nil {
				feeds := e.feeds
				only(e)
				defer func() { e.feeds = feeds }()
			}
			e.run(state{rLeast: m.start/2 - m.offset, rMost: m.start/2 + m.offset}, e.roughs)
			return e.best
		}
		lo, hi := 35.0, 300.0
		if a, b := price(lo, x.first)-price(lo, x.second), price(hi, x.first)-price(hi, x.second); a > 0 || b < 0 || math.IsNaN(a) || math.IsNaN(b) {
			t.Errorf("%s: at %v mm %.3f apart, at %v mm %.3f: no length between", x.name, lo, a, hi, b)
			continue
		}
		for range 10 {
			if mid := (lo + hi) / 2; price(mid, x.first) <= price(mid, x.second)+1e-9 {
				lo = mid
			} else {
				hi = mid
			}
		}
		even := (lo + hi) / 2
		for share, want := range map[float64]bool{1 - x.apart: true, 1 + x.apart: false} {
			m := usualMill()
			x.change(&m)
			m.to = math.Round((30+share*(even-30))*1e3) / 1e3
			_, ps := m.plan(t)
			q := ps[len(ps)-1]
			if got := x.is(float64(len(ps)), float64(q.Speed), q.Feed.MM()); got != want {
				t.Errorf("%s: even by hand with a bore to %.1f; to %.1f the finish is at %v rev/min and %v", x.name, even, m.to, q.Speed, q.Feed.MM())
			}
		}
		t.Logf("%s: even to %.1f", x.name, even)
	}
}

// One deep cut at 0.05 mm a turn would be quicker than two at 0.2, and no shop roughs so
// fine; where the machine has nothing coarser that the spindle can turn, it does.
func TestFineRoughsByHand(t *testing.T) {
	for _, x := range []struct {
		feeds []float64
		fine  bool
	}{{[]float64{0.05, 0.2}, false}, {[]float64{0.05}, true}} {
		m := usualMill()
		m.start, m.torque, m.power, m.feeds, m.passes = 97.4, 12, 0.3, x.feeds, 4
		m.damping, m.ra, m.depthMost, m.to = [2]float64{0.2, 0.3}, 12.5, 1.05, 50
		_, ps := m.plan(t)
		if fine := ps[0].Feed.MM() < 0.06; fine != x.fine || ps[0].Kind != schedule.Rough {
			t.Errorf("feeds %v: %s at %v", x.feeds, ps[0].Kind, ps[0].Feed.MM())
		}
	}
}

// Where all else is even the last cut takes 0.1 and the one before it 0.2, as
// shops leave them (from memory: 0.1 to 0.5 and 0.4 to 1.0 on diameter).
func TestCustomByHand(t *testing.T) {
	for _, start := range []float64{97, 98} {
		m := usualMill()
		m.start = start
		_, ps := m.plan(t)
		n := len(ps)
		if n != 3 || math.Abs(ps[1].Depth.MM()-0.2) > 0.002 || math.Abs(ps[2].Depth.MM()-0.1) > 0.002 {
			t.Errorf("from %v: %d passes, the last two %.3f and %.3f deep", start, n, ps[n-2].Depth.MM(), ps[n-1].Depth.MM())
		}
	}
}

// A bar that sings is turned slower, down to half of the slowest that the material's
// table gives for either kind of pass.
func TestSlowerSpeedsByHand(t *testing.T) {
	for _, x := range []struct {
		rough, finish [2]float64 // of the table, m/min
		least         float64    // speed that is left to the finish, m/min
	}{{[2]float64{60, 90}, [2]float64{60, 200}, 30}, {[2]float64{150, 160}, [2]float64{190, 200}, 75}, {[2]float64{190, 200}, [2]float64{120, 200}, 60}} {
		m := usualMill()
		m.start, m.steps, m.damping, m.depthMost = 99.2, []handStep{{60, 300}}, [2]float64{0.005, 0.015}, 0.6
		m.to, m.feeds, m.roughs, m.finish, m.speeds = 40, []float64{0.2}, x.rough, x.finish, nil
		for n := 50.0; n < 540; n += 5 {
			m.speeds = append(m.speeds, n)
		}
		_, ps := m.plan(t)
		want := 5 * math.Ceil(x.least*1000/(math.Pi*100)/5)
		if q := ps[len(ps)-1]; float64(q.Speed) != want {
			t.Errorf("bands %v, %v: the finish turns at %v, by hand %v (%v)", x.rough, x.finish, q.Speed, want, q.Stability)
		}
	}
}
