package joining

import (
	"math"
	"testing"
)

// Contraction from 20 °C, mm for each m. Steel: NBS Monograph 29 as printed in the selected
// data of Brookhaven (dry ice 1.062, nitrogen 1.930); a steel of bridge trunnions, integrated
// from a table of its expansion (Kaw), 1.899 and 1.039, lies within 2 %. Stainless 304 and 6061
// by the polynomials of NIST (from memory), worked out here; tin bronze 1.69 and 3.2, an
// estimate; brass 3.5 in nitrogen (Ekin's table, from memory).
func TestShrinks(t *testing.T) {
	ss := func(k float64) float64 {
		return -295.54 - 0.39811*k + 9.2683e-3*k*k - 2.0261e-5*k*k*k + 1.7127e-8*k*k*k*k
	}
	al := func(k float64) float64 { return -412.77 - 0.30389*k + 8.7696e-3*k*k - 9.9821e-6*k*k*k }
	for _, r := range []struct {
		m           Metal
		alpha, t    float64
		want, withi float64
	}{
		{Steel, 12e-6, -196, 1.930, 0.004}, {Steel, 12e-6, -78.5, 1.062, 0.004}, {Steel, 12e-6, -40, 0.669, 0.006}, {Steel, 12e-6, -20, 0.453, 0.006},
		{Steel, 12e-6, -193, 1.92, 1e-3}, {Steel, 12e-6, -173, 1.82, 1e-3}, {Steel, 12e-6, -153, 1.70, 1e-3}, {Steel, 12e-6, -133, 1.55, 1e-3}, // 80 to 140 K
		{Steel, 12e-6, -113, 1.38, 1e-3}, {Steel, 12e-6, -93, 1.20, 1e-3}, {Steel, 12e-6, -73, 1.01, 1e-3}, {Steel, 12e-6, -53, 0.807, 1e-3}, // 160 to 220 K
		{Steel, 12e-6, -196, 1.899, 0.02 * 1.899}, {Steel, 12e-6, -78.5, 1.039, 0.025 * 1.039},
		{Stainless, 17e-6, -196, -(ss(77.35) - ss(293)) / 100, 0.004}, {Stainless, 17e-6, -78, -(ss(195) - ss(293)) / 100, 0.004}, {Stainless, 17e-6, -100, -(ss(173) - ss(293)) / 100, 0.004},
		{Aluminum, 23.6e-6, -196, -(al(77.35) - al(293)) / 100, 0.004}, {Aluminum, 23.6e-6, -78, -(al(195) - al(293)) / 100, 0.005},
		{Copper, 18e-6, -196, 3.2, 0.02}, {Copper, 18e-6, -78.5, 1.69, 0.04}, {Copper, 20e-6, -196, 3.5, 0.06},
		{Steel, 12e-6, 20, 0, 1e-9}, {Steel, 12e-6, 100, -0.96, 1e-9},
	} {
		if got := 1000 * r.m.Shrinks(r.alpha, r.t); math.Abs(got-r.want) > r.withi {
			t.Errorf("%d at %g °C: %.4f mm/m, want %.4f", r.m, r.t, got, r.want)
		}
	}
	// What α of the room would say: 30 % more for steel in nitrogen, 28 % more for aluminum.
	if over := 11.7e-6 * 215.6 / Steel.Shrinks(12e-6, -196); math.Abs(over-1.307) > 0.01 {
		t.Errorf("α of the room overstates steel by %.3f", over)
	}
}

// A part shrinks the more the colder it is, without a step.
func TestShrinksWithoutASteps(t *testing.T) {
	for m := Steel; m <= Aluminum; m++ {
		last := m.Shrinks(12e-6, 25)
		for c := 24.0; c >= -196; c-- {
			now := m.Shrinks(12e-6, c)
			if now <= last || now-last > 13e-6 {
				t.Fatalf("%d at %g °C: %g after %g", m, c, now, last)
			}
			last = now
		}
	}
}

// Finite elements, axisymmetric, mesh halved: a flush boss gets the mean rise of the area, one on a web
// no more than the least that its cases show (a bore of 100, boss and casting on diameter).
func TestOpens(t *testing.T) {
	for _, r := range []struct {
		z          Zone
		mean, most float64
		why        string
	}{
		{Zone{}, 1, 1, "the whole casting"},
		{Zone{Heated: 150, Casting: 600, Length: 100}, 0.036, 0.036, "flush in a big plate"},
		{Zone{Heated: 180, Casting: 600, Length: 100}, 0.064, 0.064, "flush"},
		{Zone{Heated: 300, Casting: 600, Length: 100}, 0.229, 0.229, "flush, heated far out"},
		{Zone{Heated: 150, Casting: 300, Length: 100}, 0.156, 0.156, "flush in a small plate"},
		{Zone{Heated: 150, Casting: 600, Web: 10, Length: 100}, 0.60, 0.64, "on a web in the middle"},
		{Zone{Heated: 150, Casting: 600, Web: 20, Length: 100}, 0.36, 0.41, "the same, 20"},
		{Zone{Heated: 150, Casting: 1200, Web: 20, Length: 100}, 0.36, 0.39, "the same, a larger casting"},
		{Zone{Heated: 150, Casting: 600, Web: 40, Length: 100}, 0.12, 0.14, "the same, 40"},
		{Zone{Heated: 180, Casting: 600, Web: 20, Length: 100}, 0.36, 0.58, "a thicker boss"},
		{Zone{Heated: 150, Casting: 600, Web: 20, Length: 60}, 0.15, 0.39, "a shorter boss"},
		{Zone{Heated: 150, Casting: 600, Web: 100, Length: 100}, 0.036, 0.036, "a web as thick as the boss is none"},
	} {
		if got := r.z.Opens(100); got < r.mean-0.0005 || got > r.most+0.0005 {
			t.Errorf("%s: %.4f, want %g to %g", r.why, got, r.mean, r.most)
		}
	}
	last := 1.0
	for web := 1.0; web <= 100; web++ {
		now := Zone{Heated: 150, Casting: 600, Web: web, Length: 100}.Opens(100)
		if now > last+1e-12 {
			t.Fatalf("a web of %g opens more than a thinner one: %g, %g", web, now, last)
		}
		last = now
	}
}

// Times by the lumped formulas of the reference, worked out there: in air h 15, walls of 3, 5, 8, 12 mm
// of steel 310, 520, 830, 1250 s; in 30 s a wall of 5 loses about 6 % of its contraction. In
// the bore with 0.025 of air on the radius 11, 18, 29, 43 s (aluminum 7, 12, 20, 29 s); with an
// interference of 0.06, a clearance of 0.10 and a wall of 5 it grips after 18 s.
func TestTimes(t *testing.T) {
	for wall, want := range map[float64]float64{3: 310, 5: 520, 8: 830, 12: 1250} {
		away := 216.0
		if got := Steel.InAir(wall, away*(1-1/math.E), away); math.Abs(got-want) > 0.02*want {
			t.Errorf("in air, wall %g: %.0f s, want %g", wall, got, want)
		}
	}
	if got := Steel.InAir(5, 0.06*216, 216); math.Abs(got-31) > 3 {
		t.Errorf("6 %% are lost after %.0f s", got)
	}
	for _, r := range []struct {
		m          Metal
		wall, want float64
	}{{Steel, 3, 11}, {Steel, 5, 18}, {Steel, 8, 29}, {Steel, 12, 43}, {Aluminum, 5, 12}, {Aluminum, 12, 29}} {
		if got := r.m.Grips(r.wall, 0.1, 0.1/(1-1/math.E)); math.Abs(got-r.want) > 0.06*r.want {
			t.Errorf("in the bore, wall %g: %.1f s, want %g", r.wall, got, r.want)
		}
	}
	if got := Steel.Grips(5, 0.10, 0.16); math.Abs(got-18) > 1 {
		t.Errorf("grips after %.1f s", got)
	}
	if Steel.Grips(5, 0, 1) != 0 || Steel.Grips(5, 0.1, 0.1) != 0 || Steel.InAir(5, 0, 100) != 0 || Steel.InAir(5, 100, 100) != 0 {
		t.Error("nothing to wait for takes time")
	}
}
