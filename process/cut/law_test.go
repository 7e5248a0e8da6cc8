package cut

import (
	"math"
	"testing"
)

// TestTable holds the table against the law it stands for, between rows.
func TestTable(t *testing.T) {
	var worst, slopes float64
	for _, mc := range []float64{0, 0.17, 0.26, 0.3} {
		w := iron
		w.Mc = mc
		for _, least := range []float64{0, 0.0024, 0.012} {
			l := newLaw(w, least)
			for h := 1e-4; h < 15; h *= 1.0137 {
				kc, q, _ := specific(w, least, h)
				a, b, x := l.cell(h)
				worst = max(worst, math.Abs((a.c+x*(b.c-a.c))/(kc*h)-1), math.Abs((a.t+x*(b.t-a.t))/(kc*q*h)-1))
				d := h * 1e-5
				k1, q1, _ := specific(w, least, h+d)
				k0, q0, _ := specific(w, least, h-d)
				slopes = max(slopes, math.Abs((a.dt+x*(b.dt-a.dt))*2*d/(k1*q1*(h+d)-k0*q0*(h-d))-1))
			}
		}
	}
	if worst > 6e-5 || slopes > 5e-4 {
		t.Errorf("force off by %.2g, slope by %.2g", worst, slopes)
	}
}

// TestArcTable holds the curved part, h·c − ∫c dh, against its closed form for a
// plain power: c = k·h^p gives p/(1+p)·k·h^(1+p).
func TestArcTable(t *testing.T) {
	l := newLaw(iron, 0)
	for h := 1e-3; h < 10; h *= 1.31 {
		a, b, x := l.cell(h)
		p := 1 - iron.Mc
		within(t, "∫ h dc", a.cc+x*(b.cc-a.cc), p/(1+p)*iron.Kc11*math.Pow(h, 1+p), 2e-4)
	}
}

// TestThrust: published bounds of thrust over cutting force. Fine finishing
// 0.6–1.2 (ploughing literature after Albrecht 1960), grey iron at ordinary
// chips 0.35–0.5 (textbook range); both from memory. The power law alone would
// give 3.2 at h = 1.2 µm.
func TestThrust(t *testing.T) {
	for _, c := range []struct{ h, lo, hi float64 }{
		{1e-6, 0.6, 1.2}, {0.0012, 0.6, 1.2}, {0.005, 0.6, 1.2}, {0.02, 0.6, 1.2}, {0.05, 0.6, 1.2}, {0.15, 0.35, 0.5}, {0.3, 0.34, 0.5},
	} {
		if _, q, _ := specific(iron, 0.0024, c.h); q < c.lo || q > c.hi {
			t.Errorf("h %g: %.3f, published %g–%g", c.h, q, c.lo, c.hi)
		}
	}
}

// TestTriplet: where the cap does not act yet, the thrust law is near the
// published triplet of steel; constants from memory and doubtful, so an order
// check within 12 %.
func TestTriplet(t *testing.T) {
	p := load(t).Triplet
	for _, h := range []float64{0.05, 0.1, 0.2, 0.4, 0.8} {
		c := p.Kc11 * math.Pow(h, 1-p.Mc)
		f, r := p.Kf11*math.Pow(h, 1-p.Mf), p.Kp11*math.Pow(h, 1-p.Mp)
		_, q, _ := specific(iron, 0, h)
		within(t, "thrust over cutting force", q, math.Hypot(f, r)/c, 0.12)
	}
}

// TestFactors holds each correction to the figure it is taken from (sources at
// the functions; all from memory).
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		what          string
		got, from, to float64
	}{
		{"speed 40: about 1.15 at 30–50 m/min", SpeedFactor(40), 1.09, 1.15},
		{"speed 30", SpeedFactor(30), 1.12, 1.16},
		{"speed 100", SpeedFactor(100), 1, 1},
		{"speed 200", SpeedFactor(200), 1, 1},
		{"speed 0", SpeedFactor(0), 1.14, 1.15},
		{"speed just above the step", SpeedFactor(25.0001), 1.1486, 1.1487},
		{"rake as measured", RakeFactor(6, 6), 1, 1},
		{"10° more rake, 1.5 % a degree", RakeFactor(16, 6), 0.85, 0.85},
		{"and thrust 4 % a degree", RakeFactor(16, 6) * RakeThrust(16, 6), 0.6, 0.6 + 1e-12},
	} {
		if !(c.got >= c.from-1e-12 && c.got <= c.to+1e-12) {
			t.Errorf("%s: %g, want %g–%g", c.what, c.got, c.from, c.to)
		}
	}
	plain, blunt := plainEdge(0.8, 75), plainEdge(0.8, 75)
	blunt.Factor, blunt.Rake = 1.2, plain.Rake-10
	a, b := mustNew(t, iron, plain).Force(0.1, 0.1, 60), mustNew(t, iron, blunt).Force(0.1, 0.1, 60)
	within(t, "10° less rake and 1.2 for the cutter, cutting", b.Cutting/a.Cutting, 1.15*1.2, 1e-9)
	within(t, "10° less rake and 1.2 for the cutter, radial", b.Radial/a.Radial, 1.4*1.2, 1e-9)
}
