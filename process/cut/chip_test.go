package cut

import (
	"fmt"
	"math"
	"testing"
)

// iron is grey iron GJL-250 by k_c1.1 1160 and m_c 0.26 (Kienzle-type
// constants as tabulated in Tschätsch, Praxis der Zerspantechnik; they agree
// with a printed k_c table, see TestPrinted). The thrust law is a test value
// of ours within the published 0.35–0.5 at h of some tenths of a millimetre.
var iron = Work{Kc11: 1160, Mc: 0.26, ThrustRatio: 0.22, ThrustFall: 0.40, Rake0: 2, RaFactor: 1.6, Group: "K"}

// plainEdge has every correction but that for boring at 1.
func plainEdge(nose, lead float64) Edge {
	return Edge{Nose: nose, Lead: lead, Trail: 15, Rake: 2, Factor: 1, Rounding: 0.008, MinChip: 0.3}
}

func mustNew(t testing.TB, w Work, e Edge) *Model {
	t.Helper()
	m, err := New(w, e)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// tool is the cutter as a set of points: it knows nothing of rays, panels or
// closed forms. A point is inside when its distance along every normal of the
// edge is within the nose radius.
type tool struct {
	r, front, back float64 // κ and κ′ in rad
}

func (t tool) inside(x, y float64) bool { // C at the origin
	ψ := math.Atan2(x, -y)
	if ψ > math.Pi/2+t.front && y > 0 { // wrapped: seen from behind
		ψ -= 2 * math.Pi
	}
	switch {
	case ψ > t.front:
		return x*math.Sin(t.front)-y*math.Cos(t.front) <= t.r
	case ψ < -t.back:
		return -x*math.Sin(t.back)-y*math.Cos(t.back) <= t.r
	}
	return math.Hypot(x, y) <= t.r
}

// brute integrates by a fine march along the edge, with each ray's end found
// by bisection on inside, and forces from specific itself.
func brute(m *Model, a, f float64, steps int) (cutting, feed, radial, area, length float64) {
	k := tool{m.r, rad(m.edge.Lead), rad(m.edge.Trail)}
	ray := func(x, y, θ, stop float64) float64 { // C at the origin, y = a at a − r
		s, c := math.Sincos(θ)
		chip := func(h float64) bool {
			px, py := x-h*s, y+h*c
			return !k.inside(px+f, py) && py < a-m.r
		}
		if !chip(1e-12) {
			return 0
		}
		lo, hi := 0.0, stop
		// The chip along a ray is one interval (K′ and the half-plane are convex).
		for range 60 {
			if mid := (lo + hi) / 2; chip(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	layers := func(h, edge, turn float64) (c, t float64) { // ∫(edge − turn·h)dc
		n := 64
		var c0, t0 float64
		for i := 1; i <= n; i++ {
			p := float64(i) / float64(n)
			at := h * p * p
			mid := h * (p - 0.5/float64(n)) * (p - 0.5/float64(n))
			kc, q, _ := specific(m.work, m.least, at)
			c1, t1 := kc*at, kc*q*at
			c += (edge - turn*mid) * (c1 - c0)
			t += (edge - turn*mid) * (t1 - t0)
			c0, t0 = c1, t1
		}
		return
	}
	add := func(h, θ, edge, turn float64) {
		if h <= 0 {
			return
		}
		c, t := layers(h, edge, turn)
		s, co := math.Sincos(θ)
		cutting += c
		feed += t * s
		radial += t * co
		area += h * (edge - turn*h/2)
		length += edge
	}
	dθ := (k.front + k.back) / float64(steps)
	for i := range steps {
		θ := -k.back + (float64(i)+0.5)*dθ
		s, c := math.Sincos(θ)
		add(ray(m.r*s, -m.r*c, θ, m.r), θ, m.r*dθ, dθ)
	}
	if m.yk < a {
		l := (a - m.yk) / math.Sin(k.front)
		ds := l / float64(steps)
		for i := range steps {
			d := (float64(i) + 0.5) * ds
			x, y := m.r*math.Sin(k.front)+d*math.Cos(k.front), -m.r*math.Cos(k.front)+d*math.Sin(k.front)
			add(ray(x, y, k.front, m.r+d*m.ridge), k.front, ds, 0)
		}
	}
	l := 1.5 * f
	ds := l / float64(steps)
	for i := range steps {
		d := (float64(i) + 0.5) * ds
		x, y := -m.r*math.Sin(k.back)-d*math.Cos(k.back), -m.r*math.Cos(k.back)+d*math.Sin(k.back)
		add(ray(x, y, -k.back, m.r+d*m.ridge), -k.back, ds, 0)
	}
	return
}

// TestBrute holds Force against the march, over fine and coarse feeds, deep
// and shallow cuts and every panel of the edge.
func TestBrute(t *testing.T) {
	worst := 0.0
	for _, nose := range []float64{0.2, 0.4, 0.8, 3} {
		for _, lead := range []float64{30, 60, 75, 90} {
			for _, trail := range []float64{1, 5, 15, 45} {
				e := plainEdge(nose, lead)
				e.Trail = trail
				m := mustNew(t, iron, e)
				for _, a := range []float64{0.01, 0.05, 0.15, 0.4, 1, 3} {
					for _, f := range []float64{0.02, 0.05, 0.1, 0.2, 0.4, 1} {
						got := m.Force(a, f, 100)
						c, fe, ra, ar, le := brute(m, a, f, 800)
						k := boringFactor
						in := fmt.Sprintf("r %g κ %g κ′ %g a %g f %g", nose, lead, trail, a, f)
						for _, x := range []struct {
							what      string
							got, want float64
							band      float64
						}{
							{"cutting", got.Cutting, c * k, 0.003}, {"radial", got.Radial, ra * k, 0.004},
							{"area", got.Area, ar, 0.003}, {"chip", got.Chip, ar / le, 0.01},
						} {
							d := math.Abs(x.got/x.want - 1)
							worst = math.Max(worst, d)
							if !(d <= x.band) {
								t.Errorf("%s: %s %.5g, march %.5g (%.2f %%)", in, x.what, x.got, x.want, 100*d)
							}
						}
						if d := math.Abs(got.Feed - fe*k); !(d <= 0.004*math.Hypot(fe, ra)*k) {
							t.Errorf("%s: feed %.5g, march %.5g", in, got.Feed, fe*k)
						}
					}
				}
			}
		}
	}
	t.Logf("worst %.3g", worst)
}
