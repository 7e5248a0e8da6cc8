package passes_test

import (
	"maps"
	"math"
	"slices"
	"testing"

	"borewright/process"
	"borewright/process/slow"
)

// wall is the radius of a bore round the clock, mm, on the true axis.
type wall []float64

// revolve follows the tip once through the bore at a setting: at each clock
// position it cuts the depth that its push leaves of the overlap there,
//
//	a + c·(F_p(a) ∓ l·F_f(a)) = setting − wall,
//
// found by halving. way is +1 going in, away from the nose of the spindle, where
// the feed force bends the bar toward the wall, and −1 coming out.
func (m *handMill) revolve(w wall, setting, c, lean, feed, speed, way float64) wall {
	out := make(wall, len(w))
	push := func(a float64) float64 {
		if a <= 0 {
			return 0
		}
		f := m.cut(a, feed, speed, 0)
		return c * (f.radial - way*lean*f.feed)
	}
	for i, r := range w {
		lo, hi := 0.0, max(0, setting-r)
		for range 18 {
			if a := (lo + hi) / 2; r+a+push(a) < setting {
				lo = a
			} else {
				hi = a
			}
		}
		out[i] = r + (lo+hi)/2
	}
	return out
}

// A bar that turns in the bore, followed round the clock through every pass, in and
// out as the plan says the cutter comes out: what the plan expects of size and of
// roundness comes true within 2 µm and 2 % of the spring.
func TestTheTurningBarMakesThePlannedBore(t *testing.T) {
	base := usualMill()
	base.start, base.offset, base.round, base.springRough = 97, 0.1, 0.02, 0.25
	with := func(change func(*handMill)) handMill {
		m := base
		m.steps = append([]handStep(nil), base.steps...)
		change(&m)
		return m
	}
	bars := map[string]handMill{
		"short":       with(func(m *handMill) {}),
		"slender":     with(func(m *handMill) { m.steps, m.springFinish = []handStep{{60, 380}}, 0.1 }),
		"soft nose":   with(func(m *handMill) { m.radial, m.tilt, m.springFinish = 20, 0.5, 0.1 }),
		"square edge": with(func(m *handMill) { m.lead, m.radial, m.tilt = 90, 40, 1 }),
		"two steps":   with(func(m *handMill) { m.steps = []handStep{{80, 60}, {60, 220}} }),
		"steel":       with(func(m *handMill) { m.kc11, m.mc, m.group, m.ra = 2200, 0.14, "P", 12 }),
		"far off":     with(func(m *handMill) { m.offset, m.start = 0.4, 95 }),
		"small nose":  with(func(m *handMill) { m.nose, m.ra = 0.4, 12 }),
		"deep":        with(func(m *handMill) { m.start = 92 }),
		"drawn out":   with(func(m *handMill) { m.radial, m.tilt, m.springFinish, m.moreBore = 40, 1, 0.1, "way_out = \"draw\"\n" }),
	}
	names := slices.Sorted(maps.Keys(bars))
	few := slow.Rounds(t, "bars that turn", len(names), 3)
	for i := range few {
		name := names[i*len(names)/few]
		m := bars[name]
		t.Run(name, func(t *testing.T) {
			_, ps := m.plan(t)
			c := m.compliance()
			w := make(wall, 7) // half of the clock: the other half is alike
			for i := range w {
				a := math.Pi * float64(i) / float64(len(w)-1)
				w[i] = math.Sqrt(m.start*m.start/4-math.Pow(m.offset*math.Sin(a), 2)) + m.offset*math.Cos(a)
			}
			for _, q := range ps {
				s, feed, speed := q.Setting.MM()/2, q.Feed.MM(), float64(q.Cutting)
				w = m.revolve(w, s, c, m.lean(s), feed, speed, 1)
				if q.Out.By == process.FeedOut {
					w = m.revolve(w, s, c, m.lean(s), feed, speed, -1)
				}
				least, most := math.Inf(1), 0.0
				for _, r := range w {
					least, most = min(least, r), max(most, r)
				}
				size, round := least+most, most-least+m.runout
				band := 0.002 + 0.02*q.Spring.MM()
				if math.Abs(size-q.Expected.MM()) > band {
					t.Errorf("pass %d, %v: %.4f comes out, %.4f is expected, spring %.4f", q.N, q.Kind, size, q.Expected.MM(), q.Spring.MM())
				}
				if math.Abs(round-q.OutOfRound.MM()) > band {
					t.Errorf("pass %d, %v: round within %.4f, %.4f is expected", q.N, q.Kind, round, q.OutOfRound.MM())
				}
			}
		})
	}
}
