package cut

import (
	"math"
	"testing"
)

// TestTorn: iron whose graphite is torn out to 0.8 µm comes no finer, and is left alone
// where feed and nose leave more. f 0.05, r 0.8, no rounding: 0.0025/(18·√3·0.8) =
// 0.100 µm, times 1.6 = 0.160; f 0.20: 1.604·1.6 = 2.57.
func TestTorn(t *testing.T) {
	torn := iron
	torn.RaLeast = 0.8e-3
	e := plainEdge(0.8, 75)
	e.Rounding = 0
	bare, m := mustNew(t, iron, e), mustNew(t, torn, e)
	within(t, "fine feed, bare", bare.Ra(0.05, 0.3, 60), 0.160e-3, 0.01)
	within(t, "fine feed", m.Ra(0.05, 0.3, 60), 0.8e-3, 1e-9)
	within(t, "coarse feed", m.Ra(0.2, 0.3, 60), 2.57e-3, 0.01)
	if m.Ra(0, 0.3, 60) != 0 {
		t.Error("no feed, no roughness")
	}
	torn.RaLeast = -1
	if _, err := New(torn, e); err == nil {
		t.Error("a roughness below nothing")
	}
}

// TestWhyRough: what makes a surface too rough, and what would be enough, worked by
// f²/(18·√3·r) and, of the least chip, h/(9·√3) (its feed is √(2·r·h)), by squares,
// times 1.6. What each figure leaves is worked here by the same.
func TestWhyRough(t *testing.T) {
	by := func(feed, nose, rounding float64) float64 {
		return 1.6e3 * math.Hypot(feed*feed/(18*math.Sqrt(3)*nose), 0.3*rounding/(9*math.Sqrt(3)))
	}
	for _, x := range []struct {
		why            string
		feed, rounding float64
		torn, asked    float64 // µm
		by             RaBy
		fed, nosed     bool // a feed would do, a nose would do
		honed          bool
	}{
		{"feed marks of 1.6·1.604 with a keen edge", 0.2, 0.008, 0, 1.6, RaByMarks, true, true, false},
		{"a hone of 35 µm alone leaves 1.08", 0.05, 0.035, 0, 0.8, RaByEdge, false, false, true},
		{"marks 0.58 and edge 0.62, the edge more: either would do", 0.095, 0.020, 0, 0.8, RaByEdge, true, true, true},
		{"marks 0.72, edge 0.37: either would do", 0.106, 0.012, 0, 0.8, RaByMarks, true, true, true},
		{"both too rough alone", 0.2, 0.035, 0, 0.8, RaByMarks, false, false, false},
		{"torn rougher than is asked for", 0.05, 0.008, 0.8, 0.4, RaByMetal, false, false, false},
		{"torn, and not what binds", 0.2, 0.008, 0.8, 1.6, RaByMarks, true, true, false},
	} {
		w, e := iron, plainEdge(0.8, 75)
		w.RaLeast, e.Rounding = x.torn/1e3, x.rounding
		m := mustNew(t, w, e)
		if ra := m.Ra(x.feed, 0.3, 60) * 1e3; ra <= x.asked || math.Abs(ra-math.Max(x.torn, by(x.feed, 0.8, x.rounding))) > 0.02*ra {
			t.Errorf("%s: Ra %.3f, by hand %.3f", x.why, ra, by(x.feed, 0.8, x.rounding))
		}
		c := m.WhyRough(x.feed, 0.3, 60, x.asked/1e3)
		if c.By != x.by || (c.Feed > 0) != x.fed || (c.Nose > 0) != x.nosed || (c.Rounding > 0) != x.honed {
			t.Errorf("%s: %+v", x.why, c)
		}
		for what, ra := range map[string]float64{
			"feed": by(c.Feed, 0.8, x.rounding), "nose": by(x.feed, c.Nose, x.rounding), "rounding": by(x.feed, 0.8, c.Rounding),
		} {
			if is := map[string]float64{"feed": c.Feed, "nose": c.Nose, "rounding": c.Rounding}[what]; is > 0 && math.Abs(ra-x.asked) > 0.02*x.asked {
				t.Errorf("%s: a %s of %.4f leaves %.3f by hand, %.3f is asked for", x.why, what, is, ra, x.asked)
			}
		}
	}
}
