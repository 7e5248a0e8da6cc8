package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// mill is a horizontal mill with a casting on its table, in exact geometry:
// x right, y up, z depth, of the spindle.
type mill struct {
	p, d [3]float64 // a place on the bores' axis at their face, and its direction
	r    float64
	// grad is the dial's graduation; 0: reads exactly. droop hangs the dial.
	grad, droop, stylus float64
}

func dot3(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (m mill) show(v float64) float64 {
	v /= math.Cos(m.stylus * math.Pi / 180)
	if m.grad == 0 {
		return v
	}
	return math.Round(v/m.grad) * m.grad
}

// bore reads the wall: where does a ray from the dial's carrier at depth z meet
// the cylinder.
func (m mill) bore(station string, z float64, clocks []float64) Sweep {
	sw := Sweep{Station: station, Depth: z, Clock: clocks, Diameter: 2 * m.r, Droop: m.droop, Stylus: m.stylus}
	for _, c := range clocks {
		u := AtClock(c)
		ray := [3]float64{u.X, u.Y, 0}
		q := [3]float64{-m.p[0], -m.droop - m.p[1], z - m.p[2]}
		ud, qd := dot3(ray, m.d), dot3(q, m.d)
		a := 1 - ud*ud
		b := dot3(q, ray) - qd*ud
		k := dot3(q, q) - qd*qd - m.r*m.r
		sw.Dial = append(sw.Dial, m.show((-b+math.Sqrt(b*b-a*k))/a-m.r))
	}
	return sw
}

func (m mill) face(dia float64, clocks []float64) Sweep {
	sw := Sweep{Station: "face", Face: true, Diameter: dia, Clock: clocks, Stylus: m.stylus}
	for _, c := range clocks {
		u := AtClock(c).Times(dia / 2)
		// (u + z − p)·d = 0
		z := m.p[2] + ((m.p[0]-u.X)*m.d[0]+(m.p[1]-u.Y)*m.d[1])/m.d[2]
		sw.Dial = append(sw.Dial, m.show(z))
	}
	return sw
}

// turned turns the work counterclockwise, seen from above, about the table's
// centre, which stands somewhere to the side.
func (m mill) turned(rad, centreX, centreZ float64) mill {
	s, c := math.Sincos(rad)
	x, z := m.p[0]-centreX, m.p[2]-centreZ
	m.p[0], m.p[2] = centreX+x*c-z*s, centreZ+x*s+z*c
	m.d[0], m.d[2] = m.d[0]*c-m.d[2]*s, m.d[0]*s+m.d[2]*c
	return m
}

// shimmed raises one end of the work by h; the other pack, below the bore, is
// the pivot.
func (m mill) shimmed(under End, h float64, p Packs) mill {
	a, pivot := math.Asin(h/(p.Far-p.Near)), p.Far
	if under == FarEnd {
		a, pivot = -a, p.Near
	}
	const below = -150
	s, c := math.Sincos(a)
	y, z := m.p[1]-below, m.p[2]-pivot
	m.p[1], m.p[2] = below+y*c-z*s, pivot+z*c+y*s
	m.d[1], m.d[2] = m.d[1]*c-m.d[2]*s, m.d[2]*c+m.d[1]*s
	return m
}

// moved moves spindle against work as advised.
func (m mill) moved(by [2]Move) mill {
	m.p[0] -= by[0].By
	m.p[1] -= by[1].By
	return m
}

func leaning(tx, ty float64) [3]float64 {
	n := math.Sqrt(tx*tx + ty*ty + 1)
	return [3]float64{tx / n, ty / n, 1 / n}
}

// Following the advice, words and all, brings the sweep at the bore to nothing
// within what the dial can show. The bounds are worked out, not tuned. Rounding
// to graduation g moves a centre swept at eight places by at most
// (2/8)·(g/2)·Σ|cos| = 0.653 g; TIR shows that twice, and the two readings it
// is taken from are themselves rounded: 2·0.653 + 1 = 2.31 g. With tilt from a
// face on a 300 circle it is carried 245 mm: 0.653·(1 + 245/150) = 1.72 g, so
// 4.44 g. An exact dial must show nothing.
func TestFollowingTheAdvice(t *testing.T) {
	clocks := []float64{0, 45, 90, 135, 180, 225, 270, 315}
	rapid.Check(t, func(t *rapid.T) {
		within := func(lo, hi float64, what string) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
		m := mill{
			p:     [3]float64{within(-2, 2, "x"), within(-2, 2, "y"), 0},
			d:     leaning(within(-3e-3, 3e-3, "tilt x"), within(-3e-3, 3e-3, "tilt y")),
			r:     within(30, 80, "radius"),
			grad:  rapid.SampledFrom([]float64{0, 0.002, 0.01}).Draw(t, "graduation"),
			droop: within(0, 0.05, "droop"), stylus: rapid.SampledFrom([]float64{0, 15}).Draw(t, "stylus"),
		}
		table, packs := Table{Centre: within(-50, 400, "table centre"), Stop: 600}, Packs{Near: 30, Far: 380}
		side := within(-300, 300, "table centre to the side")
		useFace := rapid.Bool().Draw(t, "by face")
		look := func(m mill) *LineUp {
			s := LineUpInput{
				Dial: Dial{Graduation: m.grad}, Table: &table, Packs: &packs,
				Stations: []Target{{Station: "rear", Depth: 250}},
				Sweeps:   []Sweep{m.bore("front", 5, clocks)},
			}
			if useFace {
				s.Sweeps = append(s.Sweeps, m.face(300, clocks))
			} else {
				s.Sweeps = append(s.Sweeps, m.bore("rear", 250, clocks))
			}
			l, err := NewLineUp(s)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
		for range 2 { // a turn of 3 mrad is not small to a micron: once more
			a := look(m).Advice
			m = m.shimmed(a.Shim.Under, a.Shim.Thick, packs)
			swing := math.Atan(a.Turn.AtStop / table.Stop)
			if a.Turn.Sense == Clockwise {
				swing = -swing
			}
			m = m.turned(swing, side, table.Centre)
			m = m.moved(look(m).Advice.AsItStands)
		}
		// A dial hung 0.05 low bends its own sweep by droop²/2R.
		const slack = 0.05*0.05/60 + 1e-5
		most := 2.31*m.grad + slack
		if useFace {
			most = 4.44*m.grad + slack
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for k, v := range m.bore("rear", 250, clocks).Dial {
			v = v*math.Cos(m.stylus*math.Pi/180) - m.droop*AtClock(clocks[k]).Y // what hangs reads high
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
		if hi-lo > most {
			t.Fatalf("swept again: TIR %v, at most %v may be left", hi-lo, most)
		}
	})
}

// One go with table centre and packings stated: shim, turn and move from the
// same sweeps, to the second order of the angle.
func TestAdviceInOneGo(t *testing.T) {
	m := mill{p: [3]float64{0.4, -0.3, 0}, d: leaning(1e-3, 0.5e-3), r: 50}
	packs := Packs{Near: 30, Far: 380}
	l := lineUp(t, LineUpInput{
		Sweeps: []Sweep{m.bore("front", 5, quarters), m.bore("rear", 250, quarters)},
		Table:  &Table{Centre: 200, Stop: 600}, Packs: &packs,
		Stations: []Target{{Station: "blind", Depth: 350}},
	})
	near(t, "tilt x", l.Tilt.X, 1, 1e-5)
	near(t, "tilt y", l.Tilt.Y, 0.5, 1e-5)
	a := l.Advice
	if a.Shim.Under != NearEnd || a.Turn.FarEnd != Left || !a.Turn.Sure || !a.Shim.Sure {
		t.Errorf("%+v", a)
	}
	m = m.shimmed(a.Shim.Under, a.Shim.Thick, packs).turned(math.Atan(a.Turn.AtStop/600), 100, 200).moved(a.Move)
	sw := m.bore("blind", 350, quarters)
	for _, v := range sw.Dial {
		near(t, "sweep after", v, 0, 0.0005)
	}
}

func BenchmarkLineUp(b *testing.B) {
	m := mill{p: [3]float64{0.4, -0.3, 0}, d: leaning(1e-3, 0.5e-3), r: 50, grad: 0.002}
	s := LineUpInput{
		Sweeps:   []Sweep{m.bore("front", 5, quarters), m.bore("rear", 250, quarters), m.face(300, quarters)},
		Dial:     Dial{Graduation: 0.002, Repeats: 0.002},
		Stations: []Target{{Station: "blind", Depth: 350}},
	}
	for b.Loop() {
		if _, err := NewLineUp(s); err != nil {
			b.Fatal(err)
		}
	}
}
