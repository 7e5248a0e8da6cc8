package passes_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// The chance of landing with no measurement before the last pass, against trials
// of the test's own: every pass from the one before the semi-finish is cut on a
// bar and a nose whose give is drawn, at the depth that solves a + c·F(a) =
// overlap, with the edge integrated by hand. One cause at a time, then all.
//
// As 95 % half-widths: the nose is known to a factor of 1.5 either way (common
// practice, no source), a spring repeats to a tenth, force, setting and K as
// the job says, a setting once for all passes and once for each; a steel bar grows by 11.5e-6 a K (any handbook), with its cutter.
func TestChanceByHand(t *testing.T) {
	base := func() handMill {
		m := usualMill()
		m.sure()
		m.start, m.radial, m.tilt, m.springFinish, m.springRough, m.round = 98, 4, 0.5, 0.2, 0.5, 0.05
		m.feeds, m.ra, m.hold = []float64{0.2}, 12.5, 1
		m.damping = [2]float64{0.45, 0.48} // quiet at any speed
		return m
	}
	trials := slow.Rounds(t, "trials of each cause", 4000, 2000)
	for _, x := range []struct {
		name   string
		half   float64
		change func(*handMill)
	}{
		{"nose", 0.007, func(m *handMill) {}},
		{"force", 0.010, func(m *handMill) { m.forceError = 0.8 }},
		{"setting", 0.012, func(m *handMill) { m.setting = 0.008 }},
		{"setting by increment", 0.018, func(m *handMill) { m.setting, m.setBy = 0.008, "increment" }},
		{"spindle", 0.014, func(m *handMill) { m.setting, m.runout = 0.006, 0.008 }},
		{"temperature", 0.015, func(m *handMill) { m.kelvin = 10 }},
		{"all", 0.020, func(m *handMill) { m.forceError, m.setting, m.kelvin, m.gauge = 0.3, 0.008, 4, 0.004 }},
	} {
		m := base()
		x.change(&m)
		m.low, m.high = 100-x.half, 100+x.half
		p, ps := m.lastThree(t)
		if p == nil {
			continue
		}
		before := len(p.Bores[0].Visits[0].Passes) - len(ps) // moves, up to the first of these
		e := newExhaustive(&m)
		rigid := m
		rigid.radial, rigid.tilt = 1e6, 1e6
		bar, barArm := rigid.compliance(), rigid.compliance()*rigid.lean(e.aim)
		whole, wholeArm := e.c, e.c*e.lean
		rng := rand.New(rand.NewPCG(7, 7))
		normal := func(half float64) float64 { return rng.NormFloat64() * half / 1.96 }
		landed := 0
		for range trials {
			nose := math.Exp(normal(math.Log(1.5)))
			c := bar + (whole-bar)*nose
			e.lean = (barArm + (wholeArm-barArm)*nose) / c
			c *= 1 + normal(m.forceError)
			e.lean *= 1 + normal(feedAlone*m.forceError)
			always := 11.5e-6 * 100 * normal(m.kelvin)
			warm := m.alpha * 100 * normal(m.kelvin)
			r := ps[0].Expected.MM() / 2 // of the roughing pass: what came before is cut away
			slip := 0.0
			if m.setBy == "increment" { // set once, and moved for each of the passes before these
				slip = normal(0.013)
				for range before {
					slip += normal(m.setting)
				}
			}
			for _, q := range ps[1:] {
				switch {
				case q.Kind == schedule.Spring: // nothing is touched
				case m.setBy == "increment":
					slip += normal(m.setting)
				default:
					slip = normal(m.setting)
				}
				g := c * (1 + normal(0.10))
				over := (q.Setting.MM()+always+slip)/2 - r
				lo, hi := 0.0, math.Max(0, over)
				for range 30 {
					if a := (lo + hi) / 2; a+g*e.push(a, q.Feed.MM(), float64(q.Speed)) < over {
						lo = a
					} else {
						hi = a
					}
				}
				r += lo
			}
			if d := 2*r - warm; d-m.runout/2 >= m.low && d+m.runout/2 <= m.high {
				landed++
			}
		}
		got, want := p.Bores[0].Visits[0].Budget.Blind, float64(landed)/float64(trials)
		// Two standard deviations of the trials, and what the planner's straight force leaves.
		if math.Abs(got-want) > 0.015+2*math.Sqrt(want*(1-want)/float64(trials)) {
			t.Errorf("%s: %.3f land unmeasured, by hand %.3f", x.name, got, want)
		}
		if testing.Verbose() {
			t.Logf("%s: %.3f, by hand %.3f; finish springs %.1f µm", x.name, got, want, ps[len(ps)-1].Spring.Microns())
		}
	}
}

// lastThree plans a job and gives its last three passes, the first of them a
// roughing pass.
func (m handMill) lastThree(t *testing.T) (*plan.Plan, []schedule.Pass) {
	t.Helper()
	p, why := m.answer(t)
	if !p.Feasible {
		t.Errorf("not feasible: %s", why)
		return nil, nil
	}
	ps := p.Bores[0].Visits[0].Passes
	if len(ps) < 3 || ps[len(ps)-3].Kind == schedule.Witness {
		t.Errorf("%d passes", len(ps))
		return nil, nil
	}
	for len(ps) > 3 {
		ps = ps[1:]
	}
	return p, ps
}
