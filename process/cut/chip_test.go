package cut

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"borewright/process/slow"
)

// iron is grey iron GJL-250 by k_c1.1 1160 and m_c 0.26 (testdata/cut). The
// thrust law is the power of h that comes closest to the triplet there.
var iron = Work{Kc11: 1160, Mc: 0.26, ThrustRatio: 0.22, ThrustFall: 0.40, Rake0: 2, RaFactor: 1.6, Group: "K"}

// plainEdge has every correction but that for boring at 1.
func plainEdge(nose, lead float64) Edge {
	return Edge{Nose: nose, Lead: lead, Trail: 15, Rake: 2, Factor: 1, Rounding: 0.008, MinChip: 0.3}
}

func mustNew(t interface{ Fatal(...any) }, w Work, e Edge) *Model {
	m, err := New(w, e)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// tool is the cutter as a set of points about the nose's centre: it knows
// nothing of panels or closed forms. A point is inside when its distance along
// every normal of the edge is within the nose radius.
type tool struct{ r, front, back float64 } // κ and κ′ in rad

func (t tool) inside(x, y float64) bool {
	ψ := math.Atan2(x, -y)
	switch {
	case ψ > t.front:
		return x*math.Sin(t.front)-y*math.Cos(t.front) <= t.r
	case ψ < -t.back:
		return -x*math.Sin(t.back)-y*math.Cos(t.back) <= t.r
	}
	return math.Hypot(x, y) <= t.r
}

// march is the reference for Force: it walks the edge in fine steps, finds each
// ray's end by bisection on inside, and takes forces from specific, layer by
// layer. dip moves the tool into the wall while the old surfaces stay. all goes in one
// direction, normal to the line between the ends of the edge that cuts; pieces has
// every piece by its own normal.
func march(m *Model, a, f, dip float64, steps int) (all, pieces Force) {
	var out Force
	k := tool{m.r, rad(m.edge.Lead), rad(m.edge.Trail)}
	top := a + dip - m.r
	ray := func(x, y, θ, stop float64) float64 {
		s, c := math.Sincos(θ)
		chip := func(h float64) bool {
			px, py := x-h*s, y+h*c
			return !k.inside(px+f, py-dip) && py < top
		}
		if !chip(1e-12) {
			return 0
		}
		lo, hi := 0.0, stop
		for range 50 {
			if mid := (lo + hi) / 2; chip(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	var length, rises, along, thrust float64
	add := func(h, θ, edge, turn float64) {
		if h <= 0 {
			return
		}
		const n = 32
		var c, t, c0, t0 float64
		for i := 1; i <= n; i++ {
			at := h * float64(i*i) / (n * n)
			mid := h * (float64(i) - 0.5) * (float64(i) - 0.5) / (n * n)
			kc, q, _ := specific(m.work, m.least, at)
			c += (edge - turn*mid) * (kc*at - c0)
			t += (edge - turn*mid) * (kc*q*at - t0)
			c0, t0 = kc*at, kc*q*at
		}
		s, co := math.Sincos(θ)
		out.Cutting += c * boringFactor
		out.Feed += t * s * boringFactor
		out.Radial += t * co * boringFactor
		out.Area += h * (edge - turn*h/2)
		length, rises, along, thrust = length+edge, rises+edge*s, along+edge*co, thrust+t*boringFactor
	}
	high := math.Acos(max(-1, 1-(a+dip)/m.r))
	from, to := -min(k.back, math.Asin(min(1, 0.7*f/m.r)), high), min(k.front, high)
	dθ := (to - from) / float64(steps)
	for i := range steps {
		θ := from + (float64(i)+0.5)*dθ
		s, c := math.Sincos(θ)
		add(ray(m.r*s, -m.r*c, θ, m.r), θ, m.r*dθ, dθ)
	}
	line := func(θ, l float64) {
		s, c := math.Sincos(θ)
		sign := math.Copysign(1, θ)
		for i := range steps {
			d := (float64(i) + 0.5) * l / float64(steps)
			x, y := m.r*s+sign*d*c, -m.r*c+sign*d*s
			add(ray(x, y, θ, m.r+d*m.ridge), θ, l/float64(steps), 0)
		}
	}
	if m.yk < a+dip {
		line(k.front, (a+dip-m.yk)/math.Sin(k.front))
	}
	if f > 2*m.r*m.sp {
		line(-k.back, 1.2*f)
	}
	out.Chip = out.Area / length
	all = out
	all.Feed, all.Radial = thrust*rises/math.Hypot(rises, along), thrust*along/math.Hypot(rises, along)
	return all, out
}

// TestMarch holds Force against the march, over every panel of the edge. At
// feeds up to half the nose radius, which is all that is ever bored with, the
// quadrature is good to 0.3 %; coarser ones meet corners inside a panel. The march
// knows the ends of the edge to half a step, and with it the direction of the thrust.
func TestMarch(t *testing.T) {
	steps := slow.Rounds(t, "steps along each edge", 400, 100)
	fine, coarse := 0.0, 0.0
	for _, nose := range []float64{0.2, 0.8, 3} {
		for _, lead := range []float64{30, 75, 90} {
			for _, trail := range []float64{2, 15, 45} {
				e := plainEdge(nose, lead)
				e.Trail = trail
				m := mustNew(t, iron, e)
				for _, a := range []float64{0.02, 0.1, 0.5, 2} {
					for _, f := range []float64{0.02, 0.1, 0.4, 1} {
						got := m.Force(a, f, 100)
						want, _ := march(m, a, f, 0, steps)
						worst := max(math.Abs(got.Cutting/want.Cutting-1), math.Abs(got.Radial/want.Radial-1),
							math.Abs(got.Area/want.Area-1), math.Abs(got.Feed-want.Feed)/math.Hypot(want.Feed, want.Radial))
						band := 0.06
						if f <= nose/2 {
							band, fine = 0.003+0.5/float64(steps), max(fine, worst)
						}
						coarse = max(coarse, worst)
						if !(worst <= band) || !(math.Abs(got.Chip/want.Chip-1) < max(band, 0.01)) {
							t.Errorf("r %g κ %g κ′ %g a %g f %g: %.4g, march %.4g", nose, lead, trail, a, f, got, want)
						}
					}
				}
			}
		}
	}
	t.Logf("worst %.2g at feeds up to half the nose radius, %.2g at all", fine, coarse)
}

// TestArea: what a revolution takes away is feed times depth less the crest
// that it leaves, whose section follows from the profile of feed marks alone.
// Within 1 %: a long edge behind the nose with a free end has a corner inside
// its panel. Over 90° of lead 2 %: where the depth ends on the arc above the
// nose's centre, the corner of the chip over that end is not reckoned (2.01 % at
// 100°); leads are drawn from 30° to 95°, what a job may state. For a round nose the crest is f·r − f/2·√(r²−f²/4) − r²·asin(f/2r), plane geometry.
func TestArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nose := rapid.Float64Range(0.2, 3).Draw(t, "nose")
		e := plainEdge(nose, rapid.Float64Range(30, 95).Draw(t, "lead"))
		e.Trail = rapid.Float64Range(1, 50).Draw(t, "trail")
		m := mustNew(t, iron, e)
		f := rapid.Float64Range(0.02, 0.5).Draw(t, "feed") * nose
		a := m.Rt(f) * rapid.Float64Range(1.05, 300).Draw(t, "depth")
		k := m.marks()
		x := k.left(f)
		crest := k.area(x) + k.area(x+f)
		if f < 2*nose*min(m.sp, m.sk) {
			whole := f*nose - f/2*math.Sqrt(nose*nose-f*f/4) - nose*nose*math.Asin(f/(2*nose))
			if math.Abs(crest-whole) > 1e-6*f*nose {
				t.Fatalf("crest %g, closed form %g", crest, whole)
			}
		}
		band := 0.01
		if m.ck < 0 {
			band = 0.02
		}
		if got, want := m.Force(a, f, 100).Area, f*a-crest; math.Abs(got/want-1) > band {
			t.Fatalf("a %g f %g: area %g, want %g", a, f, got, want)
		}
	})
}

// TestOneThickness: with k_c constant the force is k_c times the area, whatever
// the shape.
func TestOneThickness(t *testing.T) {
	w := iron
	w.Mc = 0
	for _, lead := range []float64{45, 75, 90, 95} {
		m := mustNew(t, w, plainEdge(0.8, lead))
		for _, a := range []float64{0.05, 0.4, 2} {
			f := m.Force(a, 0.2, 100)
			if want := 1160 * boringFactor * f.Area; math.Abs(f.Cutting/want-1) > 1e-4 {
				t.Errorf("κ %g a %g: %g, want %g", lead, a, f.Cutting, want)
			}
		}
	}
}

// TestRegenMarch holds Regen against the march with the tool moved a little
// into the wall, and with a lean back along the feed, and the force that drives such a motion. Regen takes the far end of a ray to move as the near end does,
// which is off by the order of feed over nose radius.
func TestRegenMarch(t *testing.T) {
	steps := slow.Rounds(t, "steps along each edge", 3000, 300)
	for _, lead := range []float64{45, 75, 90} {
		m := mustNew(t, iron, plainEdge(0.8, lead))
		for _, a := range []float64{0.05, 0.2, 0.5, 2} {
			for _, f := range []float64{0.05, 0.1, 0.2} {
				const d = 2e-5
				for _, lean := range []float64{0, 0.3, -0.3} {
					_, in := march(m, a, f-lean*d, d, steps)
					_, out := march(m, a, f+lean*d, -d, steps)
					want := (in.Radial - lean*in.Feed - out.Radial + lean*out.Feed) / (2 * d)
					if got := m.Regen(a, f, 100, lean); math.Abs(got/want-1) > 0.07+0.25*math.Abs(lean) {
						t.Errorf("κ %g a %g f %g lean %g: %.5g N/mm, march %.5g", lead, a, f, lean, got, want)
					}
				}
			}
		}
	}
}

// A rough cut leans on the feed, a cut inside the nose radius on the bar.
func ExampleModel_Force() {
	m, err := New(
		Work{Kc11: 1160, Mc: 0.26, ThrustRatio: 0.22, ThrustFall: 0.40, Rake0: 2, RaFactor: 1.6, Group: "K"},
		Edge{Nose: 0.8, Lead: 75, Trail: 15, Rake: 2, Factor: 1, Rounding: 0.008, MinChip: 0.3},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	rough, finish := m.Force(2, 0.25, 100), m.Force(0.1, 0.1, 100)
	fmt.Printf("rough:  cutting %.0f N, radial %.0f N, feed %.0f N\n", rough.Cutting, rough.Radial, rough.Feed)
	fmt.Printf("finish: cutting %.0f N, radial %.0f N, feed %.0f N\n", finish.Cutting, finish.Radial, finish.Feed)
	// Output:
	// rough:  cutting 1046 N, radial 237 N, feed 369 N
	// finish: cutting 36 N, radial 30 N, feed 7 N
}
