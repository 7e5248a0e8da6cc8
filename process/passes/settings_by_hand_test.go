package passes_test

import (
	"math"
	"reflect"
	"testing"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Every setting can be made by the hand that makes it, whatever the way: whole
// graduations from the setting before, to a half where it stands already; a reading of
// the micrometer, (bar + setting)/2; a figure of the gauge. Each opens the cutter by
// two graduations at least, and the finish is still aimed at the middle of the
// limits, to what can be set.
func TestSettingsByHand(t *testing.T) {
	for _, x := range []struct {
		name   string
		change func(*handMill)
	}{
		{"a coarse dial", func(m *handMill) { m.setBy, m.dial = "increment", 0.05 }},
		{"a dial", func(m *handMill) { m.setBy, m.dial = "increment", 0.02 }},
		{"a dial with turns", func(m *handMill) { m.setBy, m.dial, m.moreNC = "increment", 0.02, "dial_turn = 0.3\n" }},
		{"a fine head", func(m *handMill) { m.setBy, m.dial = "increment", 0.002 }},
		{"over the bar", func(m *handMill) { m.setBy = "over_bar" }},
		{"to a gauge", func(m *handMill) { m.setBy = "preset" }},
	} {
		m := usualMill()
		m.start, m.springFinish, m.radial, m.tilt, m.low, m.high, m.passes = 96, 0.1, 20, 0.8, 99.96, 100.04, 10
		x.change(&m)
		c := m.compliance()
		_, ps := m.plan(t)
		rLeast, turned, moves := m.start/2, 0, 0
		for i, q := range ps {
			turned += q.Set.Turns
			set := q.Setting.MM()
			// The depth that the bar leaves of it: a + push(a) = overlap.
			lo, hi := 0.0, set/2-rLeast
			for range 40 {
				if a := (lo + hi) / 2; a+c*m.cut(a, q.Feed.MM(), float64(q.Cutting), 0).against(m.lean(set/2)) < set/2-rLeast {
					lo = a
				} else {
					hi = a
				}
			}
			rLeast += lo
			if i > 0 {
				move, least := set-ps[i-1].Setting.MM(), map[string]float64{"increment": 2 * m.dial, "over_bar": 0.004, "preset": 0.002}[m.setBy]
				for _, l := range q.Limits {
					if l.What.Kind != schedule.LimitMove {
						continue
					}
					if moves++; l.What.Nth(1) != fact.FineMM(move) || l.What.Nth(2) != fact.FineMM(least) || math.Abs(l.Used-least/move) > 0.02*l.Used {
						t.Errorf("%s, pass %d is moved on by %.4f: %v, %.3f of it", x.name, q.N, move, l.What, l.Used)
					}
				}
			}
			switch m.setBy {
			case "increment":
				if i == 0 {
					if got, want := q.Set.OverBar.MM(), (70+set)/2; q.Set.From != 0 || math.Abs(got-want) > 0.0006 {
						t.Errorf("%s: first set from %v, over bar and tip %.4f, by hand %.4f", x.name, q.Set.From, got, want)
					}
					continue
				}
				turn := 0.3
				if m.moreNC == "" {
					turn = 0
					if q.Set.Turns != 0 {
						t.Errorf("%s: %d turns of a dial that has none stated", x.name, q.Set.Turns)
					}
				} else if math.Abs(q.Set.Graduations)*m.dial >= turn {
					t.Errorf("%s: %v graduations are a turn", x.name, q.Set.Graduations)
				}
				by := float64(q.Set.Turns)*turn + q.Set.Graduations*m.dial
				if before := ps[i-1].Setting; q.Set.From != before || math.Abs(set-before.MM()-by) > 0.0006 {
					t.Errorf("%s, pass %d: %v to %v is turned by %.4f", x.name, q.N, before, q.Setting, by)
				}
				if q.Set.Graduations != math.Round(q.Set.Graduations) {
					t.Errorf("%s, pass %d: %v graduations", x.name, q.N, q.Set.Graduations)
				}
				if q.Kind != schedule.Spring && by < 2*m.dial-1e-9 {
					t.Errorf("%s, pass %d opens by %.4f", x.name, q.N, by)
				}
			case "over_bar":
				if got := 2*q.Set.OverBar.MM() - 70; math.Abs(got-set) > 1e-6 {
					t.Errorf("%s: %v over bar and tip is %.4f, set %.4f", x.name, q.Set.OverBar, got, set)
				}
			default:
				if q.Set != (schedule.Set{}) {
					t.Errorf("%s: %+v", x.name, q.Set)
				}
			}
		}
		if moves == 0 {
			t.Errorf("%s: no limit on how far the cutter is opened", x.name)
		}
		if m.moreNC != "" && turned < 1 {
			t.Errorf("%s: %d turns in all", x.name, turned)
		}
		if math.Abs(2*rLeast-100) > 0.0005+m.reads() {
			t.Errorf("%s: the finish makes %.4f by hand, aimed at 100", x.name, 2*rLeast)
		}
	}
}

// A pass that nothing but a closed cutter, or one that is hardly moved, lands is cut so, and the
// plan says of which and by how much; of no other.
func TestClosingIsToldByHand(t *testing.T) {
	seen := map[fact.Kind]bool{}
	for _, x := range []struct{ bore, dial, springFinish, springRough, radial, tilt float64 }{
		{99.5, 0.4, 0.04, 0.2, 300, 4},
		{99, 0.01, 0.02, 2, 2, 0.07},
		{99.1, 0.01, 0.03, 2, 1.5, 0.05}, // the semi-finish springs by more than the finish takes
	} {
		m := usualMill()
		m.start, m.setBy, m.dial, m.springFinish, m.springRough, m.radial, m.tilt, m.passes = x.bore, "increment", x.dial, x.springFinish, x.springRough, x.radial, x.tilt, 2
		p, ps := m.plan(t)
		told := map[fact.Arg]fact.Fact{}
		for _, c := range p.Cautions {
			if c.Kind == schedule.MovesLittle || c.Kind == schedule.Closes {
				told[c.Nth(1)] = c
			}
		}
		for i := 1; i < len(ps); i++ {
			move, c := ps[i].Setting.Minus(ps[i-1].Setting).MM(), told[fact.Count(ps[i].N)]
			want := fact.Fact{}
			switch by := fact.Figure(qty.Fine(qty.FromMM(math.Abs(move)))); {
			case ps[i].Kind == schedule.Spring || move > 2*m.dial-1e-6:
			case move > -1e-6:
				want = fact.New(schedule.MovesLittle, fact.Count(ps[i].N), by)
			default:
				want = fact.New(schedule.Closes, fact.Count(ps[i].N), by)
			}
			seen[want.Kind] = true
			if !reflect.DeepEqual(c, want) {
				t.Errorf("dial %.2f, pass %d is moved on by %.3f: told %v, want %v", m.dial, ps[i].N, move, c, want)
			}
		}
	}
	if !seen[schedule.MovesLittle] || !seen[schedule.Closes] {
		t.Errorf("only %v are seen", seen)
	}
}

// reads is half of the last step that a finish can be set by where nothing was
// measured, on diameter: the last figure of the sheet, or two of a micrometer over the
// bar.
func (m *handMill) reads() float64 {
	if m.setBy == "over_bar" {
		return 0.001
	}
	return 0.0005
}
