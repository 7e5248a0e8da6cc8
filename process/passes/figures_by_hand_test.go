package passes_test

import (
	"math"
	"testing"

	"borewright/process/schedule"
)

// The margin against chatter, the roughness and the minutes of every pass, and
// how long the tip travels, are those by hand.
func TestFiguresByHand(t *testing.T) {
	for name, change := range map[string]func(*handMill){
		"short bar":   func(m *handMill) {},
		"deep cut":    func(m *handMill) { m.start = 92 },
		"slender":     func(m *handMill) { m.steps, m.feeds = []handStep{{60, 380}}, []float64{0.05} },
		"two steps":   func(m *handMill) { m.steps = []handStep{{80, 60}, {60, 220}} },
		"soft nose":   func(m *handMill) { m.radial, m.tilt, m.springFinish = 40, 1, 0.1 },
		"square edge": func(m *handMill) { m.lead, m.start = 90, 96 },
		"worn edge":   func(m *handMill) { m.land, m.wear, m.indent = 0.05, [2]float64{100, 500}, [2]float64{2e4, 1e5} },
		// The first pass cuts at six tenths of the speed of the last.
		"much stock": func(m *handMill) {
			m.steps, m.start, m.passes, m.speedOwn, m.springRough = []handStep{{50, 270}}, 60, 20, [2]float64{60, 60}, 0
		},
		"slow and soft": func(m *handMill) { m.speedOwn = [2]float64{20, 20}; m.speeds = []float64{25, 40, 60}; m.power = 4 },
	} {
		t.Run(name, func(t *testing.T) {
			m := usualMill()
			change(&m)
			p, ps := m.plan(t)
			c, ms := m.compliance(), m.modes()
			near := func(what string, got, want, band float64) {
				t.Helper()
				if math.Abs(got-want) > band*math.Abs(want) {
					t.Errorf("%s: %.5g, by hand %.5g", what, got, want)
				}
			}
			v := p.Bores[0].Visits[0]
			deepest := math.Min(m.depthMost*m.lighter(), (m.low+m.high-2*m.start)/4)
			end := m.to + m.nose + 0.5
			if m.lead < 90 {
				end += deepest / math.Tan(m.lead*math.Pi/180)
			}
			near("the tip goes to", v.End.MM(), end, 1e-4)
			total, metres, radius := 0.0, 0.0, m.start/2
			for i, q := range ps {
				depth, feed, speed := q.Depth.MM(), q.Feed.MM(), float64(q.Cutting)
				f := m.cut(depth, feed, speed, 0)
				near("F_c", float64(q.CuttingForce), f.cutting, 0.01)
				near("F_f", float64(q.FeedForce), f.feed, 0.02)
				near("F_p", float64(q.RadialForce), f.radial, 0.015)
				near("power", float64(q.Power), f.cutting*speed/60, 0.01)
				near("torque", float64(q.Torque), f.cutting*q.Setting.MM()/2000, 0.01)
				near("spring", q.Spring.MM(), 2*c*f.against(m.lean(q.Setting.MM()/2)), 0.015)
				near("Ra", q.Ra.Microns(), m.roughness(feed, depth), 0.01)
				near("v_c", speed, math.Pi*q.Setting.MM()*float64(q.Speed)/1000, 0.001)
				near("stress", q.Stress, m.limits(handPass{kind: q.Kind, depth: depth, feed: feed, speed: speed, radius: q.Setting.MM() / 2}, c)[byStress].value, 0.01)
				radius += depth
				if spring := 2 * c * f.against(m.lean(q.Setting.MM()/2)); math.Abs(q.Setting.MM()-2*radius-spring) > 0.0007+0.015*spring {
					t.Errorf("pass %d is set to %.4f, by hand %.4f", q.N, q.Setting.MM(), 2*radius+spring)
				}
				went := m.metres(feed, radius)
				land := m.landAt(metres, metres+went)
				metres += went
				near("land, least", q.Land.Least, land[0], 1e-3)
				near("land, most", q.Land.Most, land[1], 1e-3)
				// The planner's gain is off by the order of feed over nose radius where the motion leans.
				for k, margin := range m.margins(ms, ms.edgeOfChatter, depth, feed, speed, land) {
					near("margin against chatter", q.Stability.Margin[k], margin, 0.05+0.25*feed/m.nose)
				}
				near("chatter at", q.Stability.Hz, ms[0].omega/2/math.Pi*math.Sqrt(1+2*m.damping[0]), 0.02)
				// Through and out from 3 mm in front; then to the clear plane and
				// back at 1500 mm/min; 0.3 min to begin.
				minutes := byHand(end-m.from+3, feed, float64(q.Speed), q.Kind != schedule.Rough) + 2*(m.from-3)/1500 + 0.3
				near("minutes", q.Minutes, minutes, 1e-3)
				if total += minutes; q.Hold != nil {
					total += m.hold
				} else {
					total += m.hold / 2
				}
				if i == len(ps)-1 && q.Hold == nil {
					t.Error("the bore is not measured")
				}
			}
			near("all of it", p.Minutes, total, 1e-3)
		})
	}
}
