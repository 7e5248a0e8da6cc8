package cut

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestWornPublished holds a worn edge against measured turning: annealed hot-work
// steel of 200 HV, insert with a nose of 0.4 mm at 93°, honed and coated, edges
// worn to 0.1 and 0.3 mm on purpose, 350 m/min. Source: Canal & Borille,
// dissertation data, Instituto Tecnológico de Aeronáutica 2022, doi
// 10.34740/kaggle/ds/2205074, second set; a row is the mean over twelve runs at
// each of the feeds 0.07, 0.09, 0.11 and 0.13 mm. new is Fp of the same cut by a
// new edge, added what the worn edge measured more, Fc, Fp and Ff, N.
//
// At 0.3 mm Fp and Ff come within 25 %, the resultant within 15 %. At 0.1 mm the
// measured pressure is half as high in one pair of cuts as in the other: Fp comes
// within 30 %, but the feed force of the deeper cut is 3.3 times too high, and
// with it the resultant 1.8 times.
func TestWornPublished(t *testing.T) {
	h13 := iron
	h13.Flank = 890 // what the catalog gives a metal of 200 HB
	e := plainEdge(0.4, 93)
	m := mustNew(t, h13, e)
	rows := []struct {
		depth, land, new float64
		cutting, fp, ff  float64
		band, most       float64
	}{
		{0.25, 0.1, 53.3, 27.6, 42.2, 18.4, 0.30, 1.15},
		{0.25, 0.3, 53.3, 44.5, 134.3, 65.1, 0.35, 1.15},
		{0.50, 0.1, 70.4, 11.5, 31.3, 13.5, 2.4, 1.8},
		{0.50, 0.3, 70.4, 62.2, 156.5, 116.1, 0.35, 1.15},
	}
	for _, r := range rows {
		first := m.Worn(r.depth, 0.07, 350, r.land)
		var got Force
		for _, f := range []float64{0.07, 0.09, 0.11, 0.13} {
			w := m.Worn(r.depth, f, 350, r.land)
			got.Cutting, got.Feed, got.Radial = got.Cutting+w.Cutting/4, got.Feed+w.Feed/4, got.Radial+w.Radial/4
			within(t, "feed hardly matters", w.Radial, first.Radial, 0.10)
		}
		both, measured := math.Hypot(got.Radial, got.Feed), math.Hypot(r.fp, r.ff)
		t.Logf("a %.2f VB %.1f: Fc %.0f of %.0f, Fp %.0f of %.0f, Ff %.0f of %.0f N; thrust × %.2f of %.2f",
			r.depth, r.land, got.Cutting, r.cutting, got.Radial, r.fp, got.Feed, r.ff, 1+got.Radial/r.new, 1+r.fp/r.new)
		for what, pair := range map[string][2]float64{"Fp": {got.Radial, r.fp}, "Ff": {got.Feed, r.ff}} {
			if x := pair[0] / pair[1]; x < 1/(1+r.band) || x > 1+r.band {
				t.Errorf("a %g VB %g: %s %.1f, measured %.1f N", r.depth, r.land, what, pair[0], pair[1])
			}
		}
		if x := both / measured; x < 0.85 || x > r.most {
			t.Errorf("a %g VB %g: resultant %.1f, measured %.1f N", r.depth, r.land, both, measured)
		}
	}
	// Over the rows friction is 0.30 to 0.61 of the resultant.
	w := m.Worn(0.25, 0.1, 350, 0.2)
	c := m.Contact(0.25, 0.1)
	within(t, "friction", w.Cutting, 0.3*890*0.2*c.Edge, 1e-12)
	if m.Worn(0.25, 0.1, 350, 0) != (Force{}) || m.Worn(0, 0.1, 350, 0.2) != (Force{}) || m.Worn(0.25, 0.1, 350, math.NaN()) != (Force{}) {
		t.Error("no land or no cut adds no force")
	}
}

// TestContact holds the closed forms against a walk along the edge that the march
// also takes: from where the edge leaves the revolution before to the old surface.
func TestContact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := plainEdge(rapid.Float64Range(0.2, 3).Draw(t, "nose"), rapid.Float64Range(30, 95).Draw(t, "lead"))
		m := mustNew(t, iron, e)
		a := rapid.Float64Range(0.05, 4).Draw(t, "depth")
		if e.Lead > 90 { // the walk takes what lies behind the tip for the trailing side
			a = math.Min(a, -0.9*m.r*math.Tan(rad(e.Lead)))
		}
		f := rapid.Float64Range(0.02, 0.4).Draw(t, "feed") * e.Nose
		k := tool{m.r, rad(e.Lead), rad(e.Trail)}
		var want Contact
		add := func(x, y, θ, ds float64) {
			s, c := math.Sincos(θ)
			if y >= a-m.r || k.inside(x+f-1e-9*s, y+1e-9*c) {
				return
			}
			want.Edge += ds
			want.Feed, want.Radial = want.Feed+s*ds, want.Radial+c*ds
			want.Feed2, want.Both, want.Radial2 = want.Feed2+s*s*ds, want.Both+s*c*ds, want.Radial2+c*c*ds
		}
		const n = 20000
		turn := (k.front + k.back) / n
		for i := range n {
			θ := -k.back + (float64(i)+0.5)*turn
			s, c := math.Sincos(θ)
			add(m.r*s, -m.r*c, θ, m.r*turn)
		}
		s, c := math.Sincos(k.front)
		l := a / s / n
		for i := range n {
			d := (float64(i) + 0.5) * l
			add(m.r*s+d*c, -m.r*c+d*s, k.front, l)
		}
		got := m.Contact(a, f)
		off := 0.003 * want.Edge
		for what, p := range map[string][2]float64{"edge": {got.Edge, want.Edge}, "feed": {got.Feed, want.Feed}, "radial": {got.Radial, want.Radial},
			"feed²": {got.Feed2, want.Feed2}, "both": {got.Both, want.Both}, "radial²": {got.Radial2, want.Radial2}} {
			if math.Abs(p[0]-p[1]) > off {
				t.Errorf("%s %.5f, walked %.5f", what, p[0], p[1])
			}
		}
		if along := got.Along(0.3); math.Abs(along-(want.Radial2-0.6*want.Both+0.09*want.Feed2)) > off {
			t.Errorf("along a leaning motion %.5f", along)
		}
		if math.Abs(got.Edge-m.Edge(a, f)) > 1e-12 {
			t.Errorf("edge %g, of Edge %g", got.Edge, m.Edge(a, f))
		}
	})
}

// Metres by hand: 80 mm bore, 60 mm at 0.1 mm a turn is 600 turns of 0.2513 m.
func TestMetres(t *testing.T) {
	within(t, "metres", Metres(80, 60, 0.1), 150.8, 1e-3)
	n := NewEdge(0.008)
	within(t, "ground edge, least", n.Least, 0.005, 0.05) // 5 to 15 µm, from memory
	within(t, "ground edge, most", n.Most-0.020, 0.015, 0.05)
	n = NewEdge(0.035) // 20 to 60 µm, from memory
	within(t, "honed edge, least", n.Least, 0.020, 0.06)
	within(t, "honed edge, most", n.Most-0.020, 0.060, 0.06)
}
