package passes_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"borewright/process/schedule"
	"borewright/process/slow"
)

// A mill whose radial and feed force are off by shares of their own, set and heated as a
// job says: of the sizes that each pass leaves with nothing measured before, 95 of 100 lie
// where the sheet says, also where the arm of the feed force takes back most of what the
// radial force springs the bar. Each pass cuts the bore that the one before should have left.
func TestWindowsHoldWhereForcesVaryApart(t *testing.T) {
	trials := slow.Rounds(t, "mills of each job", 4000, 1000)
	back := 0.0 // the most that the arm takes back, of what the radial force springs
	for name, change := range map[string]func(*handMill){
		"long and slender": func(m *handMill) { m.steps, m.springFinish = []handStep{{60, 380}}, 0.2 },
		"soft nose":        func(m *handMill) { m.radial, m.tilt, m.springFinish = 5, 0.3, 0.3 },
		"short, in a nose that tilts": func(m *handMill) {
			m.lead, m.nose, m.steps, m.tilt, m.springFinish, m.springRough, m.ra = 90, 0.4, []handStep{{60, 100}}, 0.02, 0.5, 2, 12.5
		},
	} {
		m := usualMill()
		m.start, m.low, m.high, m.setting, m.kelvin = 97, 99.9, 100.1, 0.003, 1
		change(&m)
		_, ps := m.plan(t)
		e := newExhaustive(&m)
		lean, rng := e.lean, rand.New(rand.NewPCG(11, 5))
		normal := func(half float64) float64 { return rng.NormFloat64() * half / 1.96 }
		r := m.start / 2
		for _, q := range ps {
			if q.Kind >= schedule.Spring { // after a measured cut
				break
			}
			f := e.cutAt(q.Depth.MM(), q.Feed.MM(), float64(q.Speed))
			back = math.Max(back, lean*f.feed/f.radial)
			in := 0
			for range trials {
				force := 1 + normal(m.forceError)
				e.lean = lean * (1 + normal(feedAlone*m.forceError))
				warm := m.alpha * 100 * normal(m.kelvin)
				over := (q.Setting.MM()+normal(m.setting))/2 - r
				lo, hi := 0.0, 2*over
				for range 30 {
					if a := (lo + hi) / 2; a+e.c*force*e.push(a, q.Feed.MM(), float64(q.Speed)) < over {
						lo = a
					} else {
						hi = a
					}
				}
				if d := 2*(r+lo) - warm; d >= q.Low.MM()-0.0005 && d <= q.High.MM()+0.0005 {
					in++
				}
			}
			e.lean = lean
			if share := float64(in) / float64(trials); share < 0.92 { // a straight law of doubt, and the draws
				t.Errorf("%s, pass %d, %s: %.3f of the sizes lie within %v to %v, spring %.1f µm", name, q.N, q.Kind, share, q.Low, q.High, q.Spring.Microns())
			} else {
				t.Logf("%s, pass %d, %s: %.3f, spring %.1f µm, of which feed force takes back %.2f", name, q.N, q.Kind, share, q.Spring.Microns(), lean*f.feed/f.radial)
			}
			r = q.Expected.MM() / 2
		}
	}
	if back < 0.6 {
		t.Errorf("feed force takes back %.2f of the spring at the most: nothing is judged of where it takes most", back)
	}
}
