package passes_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"borewright/process/plan"
	"borewright/process/schedule"
)

// answer plans a job that may not be feasible, and says why it is not; what would free
// it is not looked for.
func (m handMill) answer(t *testing.T) (*plan.Plan, string) {
	t.Helper()
	p := new(plan.Plan).Another(m.job(t))
	var why []string
	for _, r := range p.Reasons {
		why = append(why, inMetric(r.What))
	}
	return p, strings.Join(why, "; ")
}

// A rule is met on one side of its figure and not on the other. Each pair stands
// close about the figure, which is worked beside it.
func TestRulesOnBothSides(t *testing.T) {
	for _, x := range []struct {
		name     string
		yes, no  func(*handMill)
		stopped  string  // what the refusal says
		figure   float64 // the first figure after it, by hand
		decimals float64 // half a step of its print
	}{
		{ // 0.0025 for the print of setting and size and a tenth of 0.8 µm of spring are 0.0026
			"rounded sizes", func(m *handMill) { m.sure(); m.low, m.high = 99.9973, 100.0027 }, func(m *handMill) { m.sure(); m.low, m.high = 99.9976, 100.0024 },
			"stopped by size: known to ±", 0.0026, 0.0005,
		},
		{ // the deepest finish is 0.3: 2.5·0.115 = 0.2875, 2.5·0.125 = 0.3125
			"2.5 times the rounding of the edge", func(m *handMill) { m.rounding, m.minChip, m.start = 0.115, 0.1, 98 }, func(m *handMill) { m.rounding, m.minChip, m.start = 0.125, 0.1, 98 },
			"the edge rubs at depths below ", 0.3125, 0.0005,
		},
		{ // the least depth is twice the least chip, 2·1.2·0.12 = 0.288 and 2·1.3·0.12 = 0.312, where that is more
			"twice the least chip", func(m *handMill) { m.chipOf(1.2) }, func(m *handMill) { m.chipOf(1.3) },
			"the edge rubs at depths below ", 0.312, 0.0005,
		},
		{ // three times the rule of 4 for a steel bar
			"three times the overhang", func(m *handMill) { m.thin(358) }, func(m *handMill) { m.thin(362) },
			"the bar stands out ", 12.07, 0.05,
		},
		{
			"passes", func(m *handMill) { m.start, m.depthMost, m.passes = 96, 0.7, 4 }, func(m *handMill) { m.start, m.depthMost, m.passes = 96, 0.7, 3 },
			"it takes ", 4, 0,
		},
		{
			"feed_most", func(m *handMill) { m.feedMost = 0.05 }, func(m *handMill) { m.feedMost = 0.049 },
			"no feed of the machine is within", math.NaN(), 0,
		},
		{ // 99.9 / 2 + 0.07 = 50.02 all round, 50.015 allowed
			"it cleans up", func(m *handMill) { m.start, m.offset = 99.7, 0.16 }, func(m *handMill) { m.start, m.offset = 99.7, 0.17 },
			"the old bore reaches ", 100.04, 0.0005,
		},
	} {
		t.Run(x.name, func(t *testing.T) {
			m := usualMill()
			x.yes(&m)
			if p, why := m.answer(t); !p.Feasible {
				t.Errorf("refused: %s", why)
			}
			m = usualMill()
			x.no(&m)
			p, why := m.answer(t)
			if p.Feasible {
				ps := p.Bores[0].Visits[0].Passes
				t.Fatalf("planned, in %d passes; the last %.4f deep, feed %.3f", len(ps), ps[len(ps)-1].Depth.MM(), ps[len(ps)-1].Feed.MM())
			}
			_, after, is := strings.Cut(why, x.stopped)
			if !is {
				t.Fatalf("refused by %q, want %q", why, x.stopped)
			}
			if got := figures(after); !math.IsNaN(x.figure) && math.Abs(got[0]-x.figure) > x.decimals+1e-9 {
				t.Errorf("%s: %v, by hand %v", why, got[0], x.figure)
			}
		})
	}
}

// sure takes every doubt away but the repeat of the spring; the spindle turns truly.
func (m *handMill) sure() { m.setting, m.gauge, m.kelvin, m.forceError, m.runout = 0, 0, 0, 0, 1e-6 }

// chipOf is an edge whose least chip is so many times its rounding.
func (m *handMill) chipOf(share float64) {
	m.rounding, m.minChip, m.start = 0.12, share, 98.8
	m.feeds, m.nose, m.ra, m.springRough, m.springFinish, m.feedMost, m.raFactor = []float64{1, 1.2}, 3, 25, 1, 0.3, 2, 1
}

// thin is a bar of 30 mm, so far out.
func (m *handMill) thin(out float64) {
	m.steps, m.start, m.offset = []handStep{{30, out}}, 99, 0
	m.low, m.high, m.springRough, m.springFinish, m.round, m.nose = 99.7, 100.3, 2, 0.5, 0.2, 0.4
	m.feeds = []float64{0.05}
}

// byFeed is what the feed force makes of the spring of a pass, on diameter.
func (m *handMill) byFeed(q schedule.Pass) float64 {
	f := m.cut(q.Depth.MM(), q.Feed.MM(), float64(q.Cutting), 0)
	return f.sprung(m.compliance(), m.lean(q.Setting.MM()/2)).feed
}

// What is not known of a size, one cause at a time, is what the sheet allows
// either side of the size expected. JCGM 100: each alone is itself.
func TestDoubtByParts(t *testing.T) {
	soft := func(m *handMill) {
		m.sure()
		m.radial, m.tilt, m.springFinish, m.springRough, m.low, m.high = 1.5, 0.5, 0.5, 2, 99.9, 100.1
		m.start = 98.5
	}
	spring := func(ps []schedule.Pass, i int) float64 { return ps[i].Spring.MM() }
	// By a dial that reads finely; the first setting is made over the bar, ±0.013
	// (common practice, no source).
	increment := func(m *handMill) { m.sure(); m.setBy, m.dial = "increment", 0.001 }
	const overBar = 0.013
	both := func(m *handMill, ps []schedule.Pass, n int) float64 {
		return m.doubt(sprung{spring(ps, n-2), m.byFeed(ps[n-2])}, sprung{spring(ps, n-1), m.byFeed(ps[n-1])}, n-2)
	}
	for _, x := range []struct {
		name   string
		change func(*handMill)
		last   func(m *handMill, ps []schedule.Pass, n int) float64 // of the finish, which follows a measured cut
		semi   func(m *handMill, ps []schedule.Pass, n int) float64 // of the semi-finish, which does not
	}{
		{"setting", func(m *handMill) { m.sure(); m.setting = 0.02 },
			func(m *handMill, ps []schedule.Pass, n int) float64 { return 0.02 }, func(m *handMill, ps []schedule.Pass, n int) float64 { return 0.02 }},
		{"moves of 0.02, the first setting no better", func(m *handMill) { increment(m); m.setting = 0.02 },
			func(m *handMill, ps []schedule.Pass, n int) float64 { return 0.02 },
			func(m *handMill, ps []schedule.Pass, n int) float64 { return 0.02 * math.Sqrt(float64(n-1)) }},
		{"gauge, set anew: nothing carries over", func(m *handMill) { m.sure(); m.gauge = 0.02 },
			func(m *handMill, ps []schedule.Pass, n int) float64 { return 0 }, func(m *handMill, ps []schedule.Pass, n int) float64 { return 0 }},
		{"gauge, moved on from a first setting as good", func(m *handMill) { increment(m); m.gauge = overBar },
			func(m *handMill, ps []schedule.Pass, n int) float64 { return overBar / math.Sqrt2 }, func(m *handMill, ps []schedule.Pass, n int) float64 { return overBar }},
		{"temperature, 100 mm of iron by 11e-6 and 18 K", func(m *handMill) { m.sure(); m.kelvin = 18 },
			func(m *handMill, ps []schedule.Pass, n int) float64 { return 0.0198 }, func(m *handMill, ps []schedule.Pass, n int) float64 { return 0.0198 }},
		{"a tenth of the spring", soft,
			func(m *handMill, ps []schedule.Pass, n int) float64 { return 0.1 * spring(ps, n-1) }, func(m *handMill, ps []schedule.Pass, n int) float64 { return 0 }},
		{"a tenth of both springs", func(m *handMill) { soft(m); increment(m) },
			both, func(m *handMill, ps []schedule.Pass, n int) float64 { return overBar }},
		{"force, on the difference of two springs", func(m *handMill) { soft(m); increment(m); m.forceError, m.high = 1, 100.3 },
			both, func(m *handMill, ps []schedule.Pass, n int) float64 { return math.Hypot(overBar, spring(ps, n-2)) }},
		// A stiff nose that tilts, a short bar of a wide bore, and a square edge: much of the spring
		// is taken back by the arm of the feed force.
		{"force, where the feed force takes much of the spring back", func(m *handMill) {
			m.sure()
			m.forceError, m.lead, m.nose, m.steps, m.tilt, m.springFinish, m.springRough = 0.6, 90, 0.4, []handStep{{60, 100}}, 0.05, 0.5, 2
			m.low, m.high, m.ra = 99.9, 100.1, 12.5
		}, both, func(m *handMill, ps []schedule.Pass, n int) float64 {
			return math.Hypot(0.6*spring(ps, n-2), 0.8*m.byFeed(ps[n-2]))
		}},
		{"force, what the repeat leaves to be known", func(m *handMill) { soft(m); m.forceError, m.high = 1, 100.3 },
			both,
			func(m *handMill, ps []schedule.Pass, n int) float64 { return spring(ps, n-2) }},
	} {
		m := usualMill()
		m.low, m.high = 99.95, 100.05
		x.change(&m)
		_, ps := m.plan(t)
		n := len(ps)
		for i, want := range map[int]float64{n - 1: x.last(&m, ps, n), n - 2: x.semi(&m, ps, n)} {
			q := ps[i]
			if i == n-1 && q.Kind != schedule.Finish {
				t.Fatalf("%s: ends with %s", x.name, q.Kind)
			}
			// Each end is rounded to 0.001.
			if got := (q.High.MM() - q.Low.MM()) / 2; math.Abs(got-want) > 0.0006+0.002*want {
				t.Errorf("%s, %s: ±%.4f, by hand ±%.4f (spring %.4f)", x.name, q.Kind, got, want, q.Spring.MM())
			}
		}
	}
}

// A slender bar is cut with less depth and slower: an open derating table gives
// 0.75 of the depth and 0.85 of the speed at 4 diameters, 0.55 and 0.75 at 6; the
// ends, and straight lines between, are common practice, no source.
func TestSlenderBarIsSlowedByHand(t *testing.T) {
	for _, x := range []struct{ overhang, depth, speed float64 }{
		{2.9, 1, 1}, {3.5, 0.875, 0.925}, {4, 0.75, 0.85}, {5, 0.65, 0.80}, {6, 0.55, 0.75}, {6.5, 0.50, 0.725}, {7, 0.45, 0.70}, {8, 0.35, 0.70}, {9, 0.30, 0.70}, {10, 0.25, 0.70}, {11, 0.25, 0.70},
	} {
		m := usualMill()
		m.start, m.depthMost, m.passes, m.round = 97, 1, 30, 0.5
		m.steps = []handStep{{60, 60 * x.overhang}}
		m.damping = [2]float64{0.48, 0.48} // quiet at any speed
		m.springRough, m.springFinish, m.low, m.high, m.ra = 2, 0.5, 99.7, 100.3, 12.5
		m.feeds, m.speeds = []float64{0.1}, nil
		for n := 250.0; n <= 447; n += 2 {
			m.speeds = append(m.speeds, n-80)
		}
		_, ps := m.plan(t)
		told, rough := false, 0.0
		for _, q := range ps {
			top := m.roughs[1]
			if q.Kind >= schedule.SemiFinish {
				top = m.finish[1]
			}
			n := m.speeds[0]
			for _, s := range m.speeds {
				if s <= top*x.speed*1000/(math.Pi*100) {
					n = s
				}
			}
			if float64(q.Speed) != n && (q.Kind == schedule.Rough || float64(q.Speed) != rough) { // a finish may save the change of gear
				t.Errorf("%.1f diameters out, %s: %v rev/min, by hand %v", x.overhang, q.Kind, q.Speed, n)
			}
			if q.Kind == schedule.Rough {
				rough = float64(q.Speed)
			}
			if strings.HasPrefix(inMetric(q.LimitedBy), byDepth) {
				told = true
				if most := figures(inMetric(q.LimitedBy))[1]; math.Abs(most-x.depth) > 0.006 {
					t.Errorf("%.1f diameters out: %s; by hand %.3f", x.overhang, inMetric(q.LimitedBy), x.depth)
				}
			}
			if q.Depth.MM() > x.depth+0.001 {
				t.Errorf("%.1f diameters out: %.3f deep", x.overhang, q.Depth.MM())
			}
		}
		if !told {
			t.Errorf("%.1f diameters out: no pass is bound by its depth", x.overhang)
		}
	}
}

// At a closed end the edge runs into the groove with the nose, half a millimetre
// and what the straight edge leads by: (relief − r − 0.5)·tan κ is the deepest.
func TestRunOutByHand(t *testing.T) {
	m := usualMill()
	m.blind, m.relief, m.start, m.passes = true, 1.5, 97, 20
	_, ps := m.plan(t)
	want := (1.5 - 0.8 - 0.5) * math.Tan(75*math.Pi/180)
	for _, q := range ps {
		if q.Depth.MM() > want+0.0005 {
			t.Errorf("%s %.3f deep, by hand %.3f at the most", q.Kind, q.Depth.MM(), want)
		}
	}
	if got := inMetric(ps[0].LimitedBy); !strings.Contains(got, fmt.Sprintf("%.3f mm allowed by the run-out", want)) {
		t.Errorf("%q; by hand %.3f", got, want)
	}
}

// A witness cut is 0.15 deep, where it leaves stock for two finishes of 0.1, at
// the feed nearest to 0.1, no rougher than twice what is asked for. Common
// practice, no source.
func TestWitnessByHand(t *testing.T) {
	for _, x := range []struct {
		start, ra float64
		feeds     []float64
		feed      float64 // 0: none is cut
	}{
		{99.29, 6.3, []float64{0.05, 0.09, 0.12, 0.2}, 0.09},
		{99.29, 6.3, []float64{0.05, 0.08, 0.12, 0.2}, 0.12},
		{99.29, 0.7, []float64{0.05, 0.08, 0.12, 0.14}, 0.12},  // Ra 1.18 of 1.40
		{99.29, 0.46, []float64{0.05, 0.08, 0.12, 0.14}, 0.08}, // 0.59 of 0.92; 1.04 at 0.12
		{99.32, 6.3, []float64{0.05, 0.1}, 0},
	} {
		m := usualMill()
		m.witness, m.start, m.ra, m.feeds = true, x.start, x.ra, x.feeds
		_, ps := m.plan(t)
		q := ps[0]
		switch {
		case x.feed == 0 && q.Kind != schedule.Witness:
		case x.feed == 0 || q.Kind != schedule.Witness:
			t.Errorf("start %v: begins with %s", x.start, q.Kind)
		case math.Abs(q.Feed.MM()-x.feed) > 1e-9 || math.Abs(q.Depth.MM()-0.15) > 0.001:
			t.Errorf("start %v, Ra %v: witness %.4f deep at %v, by hand 0.15 at %v (Ra %.3f)", x.start, x.ra, q.Depth.MM(), q.Feed.MM(), x.feed, m.roughness(x.feed, 0.15))
		}
	}
}

// A stop before the finish pays where it saves more than it takes: a cutter set
// wrong outright 3 times in 100, at 240 minutes a spoiled bore, is 7.2 minutes.
// Common practice, no source.
func TestStopPaysByHand(t *testing.T) {
	for minutes, want := range map[float64]bool{7.1: true, 7.3: false} {
		m := usualMill()
		m.hold, m.low, m.high = minutes, 99.8, 100.2
		_, ps := m.plan(t)
		if got := ps[len(ps)-2].Hold != nil; got != want {
			t.Errorf("a stop of %v minutes: %v", minutes, got)
		}
	}
	m := usualMill() // dear, but without it more than 27 in 10,000 miss: the moves add up
	m.hold, m.low, m.high = 60, 99.992, 100.008
	m.setBy, m.dial, m.setting, m.gauge, m.kelvin = "increment", 0.001, 0.003, 0.002, 0.5
	m.runout = 1e-6
	if p, ps := m.plan(t); ps[len(ps)-2].Hold == nil {
		t.Errorf("no stop for %v", p.Bores[0].Visits[0].Budget)
	}
}

// The control's oriented stop: the bar moves off the wall by half the room behind
// it, a millimetre at the most and not below a fifth; the way back is then at
// 1500 mm/min, with 0.2 minutes to stop and shift.
func TestShiftByHand(t *testing.T) {
	for bar, want := range map[float64]float64{70: 1, 97.4: 0.4, 98.3: 0} {
		m := usualMill()
		m.moreNC = "[control]\nfeed_axis = \"W\"\noriented_stop = true\ntip_at_stop = \"+X\"\n"
		m.steps = []handStep{{bar, 180}}
		p, _ := m.answer(t)
		v := p.Bores[0].Visits[0]
		if got := v.Shift().MM(); math.Abs(got-want) > 1e-6 {
			t.Errorf("bar of %v in 99: shifted %v, by hand %v", bar, got, want)
		}
		for _, q := range v.Passes {
			if want == 0 {
				break
			}
			travel := v.End.MM() - 27
			minutes := travel/(q.Feed.MM()*float64(q.Speed)) + travel/1500 + 0.2 + 2*27/1500.0 + 0.3
			if math.Abs(q.Minutes-minutes) > 1e-3 {
				t.Errorf("bar of %v: %.4f minutes, by hand %.4f", bar, q.Minutes, minutes)
			}
		}
	}
}

// The most speed of the job binds where it is below that of the table.
func TestSpeedMostByHand(t *testing.T) {
	m := usualMill()
	m.speedMost = 249
	_, ps := m.plan(t)
	for _, q := range ps {
		if q.Speed != 160 {
			t.Errorf("%s at %v rev/min; the machine has 160 below 249", q.Kind, q.Speed)
		}
	}
}

// A finish is refused where the chip is thinner on average than the edge cuts:
// the section of the chip over the length of edge in it.
func TestThinChipByHand(t *testing.T) {
	for share, want := range map[float64]bool{0.98: true, 1.02: false} {
		m := usualMill()
		m.feeds, m.rounding, m.start = []float64{0.08}, 0.03, 98.4
		f := m.cut(0.3, 0.08, 100, 0)
		m.minChip = share * f.area / f.edge / m.rounding
		p, why := m.answer(t)
		if p.Feasible != want {
			t.Errorf("least chip %v of the chip's thickness: feasible %v, %s", share, p.Feasible, why)
		}
		if want {
			continue
		}
		_, after, is := strings.Cut(why, "stopped by chip: ")
		if got := figures(after); !is || math.Abs(got[0]-f.area/f.edge) > 0.0005 || math.Abs(got[1]-m.minChip*m.rounding) > 0.0001 {
			t.Errorf("%s; by hand %.4f of %.4f", why, f.area/f.edge, m.minChip*m.rounding)
		}
	}
}

// passes_most counts every pass of the visit: the witness cut before the
// roughing passes and the spring pass after the finish as well.
func TestPassesMostCountsAll(t *testing.T) {
	for most := 2.0; most <= 6; most++ {
		for name, change := range map[string]func(*handMill){
			"witness": func(m *handMill) { m.witness, m.start = true, 98 },
			"spring pass": func(m *handMill) {
				m.start, m.radial, m.tilt, m.springFinish, m.springRough = 97, 3, 0.4, 0.012, 0.5
				m.low, m.high, m.feeds = 99.97, 100.03, []float64{0.2}
			},
			"little stock": func(m *handMill) { m.witness, m.start = true, 99.2 },
		} {
			m := usualMill()
			m.passes = most
			change(&m)
			if p, _ := m.answer(t); p.Feasible && len(p.Bores[0].Visits[0].Passes) > int(most) {
				t.Errorf("%s: %d passes, %v allowed", name, len(p.Bores[0].Visits[0].Passes), most)
			}
		}
	}
}
