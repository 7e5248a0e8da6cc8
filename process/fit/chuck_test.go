package fit_test

import (
	. "borewright/process/fit"
	"math"
	"strings"
	"testing"
)

// Printed coefficients: Timoshenko's ring under two opposite loads shortens by
// 0.149 WR³/EI and widens by 0.137; Roark's table for three loads gives the
// radial 0.0159 and 0.0143 (recalled).
func TestRingCoefficients(t *testing.T) {
	for _, r := range []struct {
		n       int
		at, mid float64
		within  float64
		source  string
	}{
		{2, 0.149 / 2, 0.137 / 2, 0.0006, "Timoshenko, Strength of Materials, ring under two loads, from memory"},
		{3, 0.0159, 0.0143, 0.0005, "Roark, circular ring table, from memory"},
	} {
		at, mid := RingCoefficients(r.n)
		if math.Abs(at-r.at) > r.within || math.Abs(mid-r.mid) > r.within {
			t.Errorf("%d loads: %.5f %.5f: %s", r.n, at, mid, r.source)
		}
	}
	// Straight beam elements; testdata/fit/reference.py says how.
	for _, row := range readCSV(t, "ring_lobes.csv") {
		v := numbers(t, row)
		at, mid := RingCoefficients(int(v[0]))
		if !near(at, v[1], 2e-4) || !near(mid, v[2], 2e-4) {
			t.Errorf("%g loads: %.6g %.6g, beam elements %v", v[0], at, mid, v[1:3])
		}
	}
}

// Inextensible ring, energy of each harmonic: n equal loads excite the
// multiples of n, u(θ) = Σ nW R³/(π EI) · cos kθ/(k²−1)², k = n, 2n, 3n…
func TestRingAgainstFourierSeries(t *testing.T) {
	for n := 2; n <= 12; n++ {
		var at, mid float64
		for j := 1; j <= 2000; j++ {
			k := float64(n * j)
			term := float64(n) / math.Pi / ((k*k - 1) * (k*k - 1))
			at += term
			if j%2 == 0 {
				mid -= term
			} else {
				mid += term
			}
		}
		a, m := RingCoefficients(n)
		if !near(a, at, 1e-8) || !near(m, mid, 1e-8) {
			t.Errorf("%d loads: %.8f %.8f, series %.8f %.8f", n, a, m, at, mid)
		}
	}
}

func TestChuck(t *testing.T) {
	// R 52.5, wall 5, width 50 mm, iron, 2 kN a jaw: 80.5 µm in, 72.0 out.
	// Computed from the same formulas, no published answer.
	in := ChuckInput{Outside: 110, Inside: 100, Width: 50, E: 110e3, Jaws: 3, Grip: 2000}
	r, err := Chuck(in)
	if err != nil || math.Abs(r.Lobes-(0.0805+0.0720)) > 1e-4 || r.Thick {
		t.Errorf("%+v %v", r, err)
	}
	if r.SixPads >= r.Lobes/15 || !strings.Contains(said(r.Instead...), "Six pads for the same grip in all: 0.0080 mm") {
		t.Errorf("six pads: %g %q", r.SixPads, r.Instead)
	}
	in.Allowed = 0.005
	r, _ = Chuck(in)
	if in.Grip = r.GripMost; in.Grip <= 0 {
		t.Fatal(in.Grip)
	}
	if r, _ = Chuck(in); !near(r.Lobes, 0.005, 1e-9) {
		t.Errorf("%g N a jaw gives %g", in.Grip, r.Lobes)
	}
	if r, _ = Chuck(ChuckInput{Outside: 120, Inside: 80, Width: 50, E: 110e3, Jaws: 3, Grip: 2000}); !r.Thick {
		t.Error("a wall of 20 on 50 is thin")
	}
	if _, err := Chuck(ChuckInput{Outside: 80, Inside: 90, Jaws: 1}); err == nil || faults(err) != 3 {
		t.Error(err)
	}
}
