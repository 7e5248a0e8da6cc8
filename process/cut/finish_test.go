package cut

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestRoughness: f 0.20, r 0.8 → R_t 6.25 µm and R_a 1.60 µm, by R_t = f²/8r and
// R_a = f²/(18√3·r), 1.604 unrounded (Shaw; Boothroyd & Knight). The exact forms are larger by
// the order of (f/r)².
func TestRoughness(t *testing.T) {
	rt := func(feed, nose float64) float64 { return mustNew(t, iron, plainEdge(nose, 75)).Rt(feed) }
	within(t, "Rt", rt(0.2, 0.8), 6.25e-3, 0.005)
	within(t, "Ra", Ra(0.2, 0.8), 1.604e-3, 0.005)
	for _, f := range []float64{0.02, 0.05, 0.1} {
		within(t, "Rt, fine", rt(f, 1.6), f*f/(8*1.6), 1e-3)
		within(t, "Ra, fine", Ra(f, 1.6), f*f/(18*math.Sqrt(3)*1.6), 1e-3)
	}
	if rt(0, 1) != 0 || Ra(-1, 1) != 0 || rt(math.NaN(), 1) != 0 {
		t.Error("limits of Rt and Ra")
	}
}

// TestSharp: marks of straight edges alone, nose next to nothing: a triangle of
// height f/(cot κ + cot κ′), R_a a quarter of it (Boothroyd & Knight; plane
// geometry).
func TestSharp(t *testing.T) {
	m := mustNew(t, iron, plainEdge(0.002, 75))
	want := 0.3 / (1/math.Tan(rad(75)) + 1/math.Tan(rad(15)))
	within(t, "Rt", m.Rt(0.3), want, 0.03)
	within(t, "Ra", m.marks().ra(0.3), want/4, 0.03)
	square := mustNew(t, iron, plainEdge(0.002, 90))
	within(t, "Rt, square", square.Rt(0.3), 0.3*math.Tan(rad(15)), 0.03)
}

// TestMarks holds the exact R_a and R_t of any edge against the profile sampled
// in 4,000 steps.
func TestMarks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := plainEdge(rapid.Float64Range(0.05, 3).Draw(t, "nose"), rapid.Float64Range(30, 100).Draw(t, "lead"))
		e.Trail = rapid.Float64Range(0.1, 60).Draw(t, "trail")
		m := mustNew(t, iron, e)
		f := rapid.Float64Range(0.01, 2).Draw(t, "feed") * e.Nose
		k := m.marks()
		const n = 4000
		ys := make([]float64, n)
		var mean, dev, top float64
		for i := range ys {
			x := (float64(i)+0.5)/n*f - f
			y := min(k.height(x), k.height(x+f)) // the later pass leaves the lower edge
			ys[i], mean, top = y, mean+y/n, max(top, y)
		}
		for _, y := range ys {
			dev += math.Abs(y-mean) / n
		}
		if math.Abs(k.ra(f)-dev) > 2e-3*dev+1e-8 || math.Abs(m.Rt(f)-top) > 2e-3*top+1e-8 {
			t.Fatalf("f %g: Ra %g, sampled %g; Rt %g, sampled %g", f, k.ra(f), dev, m.Rt(f), top)
		}
	})
}

// TestExpected: a finish never gets better with more feed, steel is rougher at
// low speed, and an edge that rubs leaves a worse finish.
func TestExpected(t *testing.T) {
	iron1 := mustNew(t, iron, plainEdge(0.8, 75))
	steel := iron
	steel.Group = "P"
	steel1 := mustNew(t, steel, plainEdge(0.8, 75))
	last := 0.0
	for _, f := range []float64{0.01, 0.02, 0.05, 0.1, 0.2, 0.4, 0.8, 2} {
		ra := iron1.Ra(f, 0.2, 60)
		if ra < last {
			t.Errorf("feed %g: Ra falls to %g", f, ra)
		}
		last = ra
	}
	if iron1.Ra(0.1, 0.2, 25) != iron1.Ra(0.1, 0.2, 150) || steel1.Ra(0.1, 0.2, 25) < 1.5*steel1.Ra(0.1, 0.2, 150) {
		t.Error("speed")
	}
	if r := iron1.Ra(0.1, iron1.LeastDepth(), 60) / iron1.Ra(0.1, 0.2, 60); math.Abs(r-1.5) > 1e-9 {
		t.Errorf("rubbing multiplies Ra by %g", r)
	}
	// Real finish is usually 1–2 times the geometric one (formulas; from memory).
	within(t, "iron, f 0.2", iron1.Ra(0.2, 0.3, 60), 1.6*Ra(0.2, 0.8), 0.02)
}

// TestLeast: trade figures for the smallest reliable depth (from memory): ground
// high-speed steel 0.003–0.01 mm, ground carbide 0.005–0.02, coated insert
// 0.02–0.05.
func TestLeast(t *testing.T) {
	for _, c := range []struct{ round, lo, hi float64 }{{0.006, 0.003, 0.01}, {0.015, 0.005, 0.02}, {0.04, 0.02, 0.05}} {
		e := plainEdge(0.8, 75)
		e.Rounding = c.round
		m := mustNew(t, iron, e)
		if d := m.LeastDepth(); d < c.lo || d > c.hi {
			t.Errorf("rounding %g: least depth %g, trade says %g–%g", c.round, d, c.lo, c.hi)
		}
	}
	e := plainEdge(0.8, 75)
	e.Rounding = 0
	if m := mustNew(t, iron, e); m.LeastDepth() != 0 {
		t.Error("a perfectly sharp edge cuts anything")
	}
}

func BenchmarkRa(b *testing.B) {
	m := mustNew(b, iron, plainEdge(0.8, 75))
	for b.Loop() {
		m.Ra(0.2, 0.1, 60)
	}
}
