package geom

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"borewright/process/fact"

	"pgregory.net/rapid"
)

// ring reads radii at equal spacing from 12 o'clock on.
func ring(radii ...float64) []Point {
	var ps []Point
	for i, r := range radii {
		ps = append(ps, Point{360 * float64(i) / float64(len(radii)), r})
	}
	return ps
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %.1g", what, got, want, tol)
	}
}

// ISO 841: Z towards the viewer, Y up, X = Y × Z, and clock positions in that
// view.
func TestClockAgainstMachineAxes(t *testing.T) {
	y, z := [3]float64{0, 1, 0}, [3]float64{0, 0, 1}
	x := [3]float64{y[1]*z[2] - y[2]*z[1], y[2]*z[0] - y[0]*z[2], y[0]*z[1] - y[1]*z[0]}
	if x != [3]float64{1, 0, 0} { // to the right of a viewer who has Y up and Z in the face
		t.Fatalf("Y × Z = %v", x)
	}
	for _, c := range []struct {
		clock float64
		want  Vec
	}{{0, Vec{0, 1}}, {90, Vec{1, 0}}, {180, Vec{0, -1}}, {270, Vec{-1, 0}}, {-90, Vec{-1, 0}}, {450, Vec{1, 0}}} {
		if got := AtClock(c.clock); got != c.want {
			t.Errorf("clock %g is %v, want %v", c.clock, got, c.want)
		}
	}
	v := AtClock(30) // 1 o'clock: half right, mostly up
	near(t, "1 o'clock, x", v.X, 0.5, 1e-15)
	near(t, "1 o'clock, y", v.Y, math.Sqrt(3)/2, 1e-15)
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-1000, 1000).Draw(t, "clock")
		back := AtClock(a).Clock()
		if d := math.Abs(math.Mod(back-a+1080+180, 360) - 180); d > 1e-9 && 360-d > 1e-9 {
			t.Fatalf("%g came back as %g", a, back)
		}
	})
}

type reference struct {
	Name          string
	Clock, Radius []float64
	LS            struct{ X, Y, R, RONt, RONp, RONv, RONq float64 }
	MZ, MC, MI    struct {
		X, Y, Outer, Inner float64
		Alone              bool
	}
}

// The numbers were made by a general-purpose library: scipy, see
// testdata/geom/circles.py.
func TestCirclesAgainstReference(t *testing.T) {
	data, err := os.ReadFile("../../testdata/geom/circles.json")
	if err != nil {
		t.Fatal(err)
	}
	var rows []reference
	if err := json.Unmarshal(data, &rows); err != nil {
		t.Fatal(err)
	}
	if len(rows) < 13 {
		t.Fatalf("only %d sets", len(rows))
	}
	for _, r := range rows {
		t.Run(r.Name, func(t *testing.T) {
			ps := make([]Point, len(r.Clock))
			for i := range ps {
				ps[i] = Point{r.Clock[i], r.Radius[i]}
			}
			c, err := LeastSquares(ps)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "LSC x", c.X, r.LS.X, 1e-8)
			near(t, "LSC y", c.Y, r.LS.Y, 1e-8)
			near(t, "LSC r", c.R, r.LS.R, 1e-8)
			near(t, "RONt", c.RONt(), r.LS.RONt, 1e-8)
			near(t, "RONp", c.Outer-c.R, r.LS.RONp, 1e-8)
			near(t, "RONv", c.R-c.Inner, r.LS.RONv, 1e-8)
			near(t, "RONq", ronq(ps, c), r.LS.RONq, 1e-8)
			for _, k := range []struct {
				name string
				fit  func([]Point) (Circle, error)
				want struct {
					X, Y, Outer, Inner float64
					Alone              bool
				}
			}{{"MZC", MinZone, r.MZ}, {"MCC", MinCircumscribed, r.MC}, {"MIC", MaxInscribed, r.MI}} {
				c, err := k.fit(ps)
				if err != nil {
					t.Fatalf("%s: %v", k.name, err)
				}
				if !k.want.Alone {
					t.Fatalf("%s: the reference is not unique; choose another set", k.name)
				}
				near(t, k.name+" x", c.X, k.want.X, 1e-6)
				near(t, k.name+" y", c.Y, k.want.Y, 1e-6)
				near(t, k.name+" outer", c.Outer, k.want.Outer, 1e-6)
				near(t, k.name+" inner", c.Inner, k.want.Inner, 1e-6)
				near(t, k.name+" zone", c.RONt(), k.want.Outer-k.want.Inner, 1e-8)
			}
		})
	}
}

// Shared formulas collection, section 10: eight readings in µm, worked there
// by linear program and by a direct nonlinear solve with R0 = 50 mm. Its angles
// run anticlockwise from +X.
func TestEightReadings(t *testing.T) {
	var ps []Point
	for i, d := range []float64{0, 2, 2, 4, 1, 3, 4, -2} {
		ps = append(ps, Point{90 - 45*float64(i), 50 + d/1000})
	}
	for _, row := range []struct {
		name                     string
		fit                      func([]Point) (Circle, error)
		x, y, outer, inner, ront float64
		tol                      float64
	}{
		// The linear closed form rounds at 1e-4 µm, and R0 = 50 mm bends LSC's by 4e-5.
		{"LSC", LeastSquares, -1.4874, 0.3839, 1.7500 + 2.6339, 1.7500 - 2.4268, 5.0607, 1e-4},
		{"MZC", MinZone, -1.9142, -0.3787, 3.6213, -0.9142, 4.5355, 1e-4},
		{"MCC", MinCircumscribed, -1.4142, -0.5858, 3.4142, 3.4142 - 4.8284, 4.8284, 1e-4},
		{"MIC", MaxInscribed, -0.9497, 1.9497, 0.0503 + 5.8995, 0.0503, 5.8995, 1e-4},
	} {
		c, err := row.fit(ps)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.name+" x", c.X*1e3, row.x, row.tol)
		near(t, row.name+" y", c.Y*1e3, row.y, row.tol)
		near(t, row.name+" outer", (c.Outer-50)*1e3, row.outer, row.tol)
		near(t, row.name+" inner", (c.Inner-50)*1e3, row.inner, row.tol)
		near(t, row.name+" RONt", c.RONt()*1e3, row.ront, row.tol)
	}
	c, _ := LeastSquares(ps)
	near(t, "RONp", (c.Outer-c.R)*1e3, 2.6339, 1e-4)
	near(t, "RONv", (c.R-c.Inner)*1e3, 2.4268, 1e-4)
	near(t, "RONq", ronq(ps, c)*1e3, 1.5835, 1e-4)
}

// ronq is the root mean square deviation of readings from a circle (ISO
// 12181-1: RONp and RONv are the largest outward and inward).
func ronq(ps []Point, c Circle) float64 {
	var sum float64
	for _, p := range ps {
		s, co := math.Sincos(p.Clock * math.Pi / 180)
		d := math.Hypot(p.Radius*s-c.X, p.Radius*co-c.Y) - c.R
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(ps)))
}

func TestDegenerateReadings(t *testing.T) {
	two := ring(50, 50.4)
	c, err := MinCircumscribed(two)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two opposite: radius", c.R, 50.2, 1e-12)
	near(t, "two opposite: y", c.Y, -0.2, 1e-12)

	// Two opposite readings hold the circumscribed circle of four: the middle
	// between them, wherever the others let a linear program go.
	c, err = MinCircumscribed(ring(50.3, 50, 50.3, 50))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "oval: x", c.X, 0, 1e-12)
	near(t, "oval: y", c.Y, 0, 1e-12)
	near(t, "oval: radius", c.R, 50.3, 1e-12)

	// An inscribed circle in four readings of an oval: from √(r²+s²) = R−s.
	c, err = MaxInscribed(ring(50.3, 50, 50.3, 50))
	if err != nil {
		t.Fatal(err)
	}
	s := (50.3*50.3 - 50*50) / (2 * 50.3)
	near(t, "oval: inscribed radius", c.R, 50.3-s, 1e-12)
	near(t, "oval: inscribed offset", math.Abs(c.Y), s, 1e-9)

	// Perfectly round: every reading touches.
	for _, f := range []func([]Point) (Circle, error){LeastSquares, MinCircumscribed, MaxInscribed, MinZone} {
		for _, n := range []int{3, 4, 8, 90, 360} {
			radii := make([]float64, n)
			for i := range radii {
				radii[i] = 40
			}
			c, err := f(ring(radii...))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "round: radius", c.R, 40, 1e-10)
			near(t, "round: offset", c.Centre().Length(), 0, 1e-10)
			near(t, "round: RONt", c.RONt(), 0, 1e-10)
		}
	}

	// Readings twice at the same place change only the least squares circle.
	base := ring(50, 50.1, 50.05, 50.2, 49.9)
	twice := append(append([]Point{}, base...), base[1], base[3], base[3])
	for _, f := range []func([]Point) (Circle, error){MinCircumscribed, MaxInscribed, MinZone} {
		a, _ := f(base)
		b, err := f(twice)
		if err != nil || math.Abs(a.X-b.X)+math.Abs(a.Y-b.Y)+math.Abs(a.R-b.R) > 1e-12 {
			t.Errorf("repeated places moved the circle: %v, %v, %v", a, b, err)
		}
	}

	for _, bad := range []struct {
		why  string
		ps   []Point
		want fact.Kind
	}{
		{"none", nil, TooFewReadings},
		{"two", two, TooFewReadings},
		{"one place three times", []Point{{0, 50}, {0, 50}, {360, 50}}, ReadingsOnLine},
		{"on a line through the axis", []Point{{0, 50}, {180, 50}, {0, 49}}, ReadingsOnLine},
		{"NaN", []Point{{0, 50}, {90, math.NaN()}, {180, 50}}, NotAReading},
		{"infinite clock", []Point{{0, 50}, {math.Inf(1), 50}, {180, 50}}, NotAReading},
		{"radius 0", []Point{{0, 50}, {90, 0}, {180, 50}}, NotAReading},
	} {
		for i, f := range []func([]Point) (Circle, error){LeastSquares, MaxInscribed, MinZone} {
			if _, err := f(bad.ps); kindOf(err) != bad.want {
				t.Errorf("%s, fit %d: %v, want %v", bad.why, i, err, bad.want)
			}
		}
	}
	open := []Point{{0, 50}, {30, 50.1}, {60, 50}, {90, 50.2}}
	if _, err := MaxInscribed(open); kindOf(err) != OpenInside {
		t.Errorf("a quarter of a bore has an inscribed circle: %v", err)
	}
}

// drawReadings invents a worn bore, sometimes with an offset as large as the
// stock or a good part of the radius.
func drawReadings(t *rapid.T, most int) []Point {
	n := rapid.IntRange(5, most).Draw(t, "n")
	stock := rapid.SampledFrom([]float64{0.001, 0.05, 1, 8}).Draw(t, "stock")
	ecc := rapid.Float64Range(0, 1).Draw(t, "offset") * stock
	dir := rapid.Float64Range(0, 360).Draw(t, "direction")
	var ps []Point
	for i := range n {
		clock := (float64(i) + rapid.Float64Range(-0.4, 0.4).Draw(t, "place")) * 360 / float64(n)
		s := math.Sin((clock - dir) * math.Pi / 180)
		c := math.Cos((clock - dir) * math.Pi / 180)
		r := 40 + stock*rapid.Float64Range(0, 1).Draw(t, "wear")
		ps = append(ps, Point{clock, ecc*c + math.Sqrt(r*r-ecc*ecc*s*s)})
	}
	return ps
}

// Against brute force: every pair and every triple of readings.
func TestCircumscribedAndInscribedByBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps := drawReadings(t, 14)
		vs, _ := places(ps, 3)
		least, most := math.Inf(1), 0.0
		for i := range vs {
			for j := range i {
				m := vs[i].Plus(vs[j]).Times(0.5)
				least = math.Min(least, farthestFrom(vs, m))
				for k := range j {
					if m, ok := circumcentre(vs[i], vs[j], vs[k]); ok {
						least = math.Min(least, farthestFrom(vs, m))
						r := nearestTo(vs, m)
						if r >= m.Distance(vs[i])-1e-9 && openTurn([]Vec{vs[i], vs[j], vs[k]}, m) <= 180 {
							most = math.Max(most, r)
						}
					}
				}
			}
		}
		mc, err := MinCircumscribed(ps)
		if err != nil || math.Abs(mc.R-least) > 1e-9 {
			t.Fatalf("circumscribed %v (%v), brute force %v", mc.R, err, least)
		}
		mi, err := MaxInscribed(ps)
		if most == 0 {
			if err == nil {
				t.Fatalf("inscribed %v where there is none", mi)
			}
			return
		}
		if err != nil || math.Abs(mi.R-most) > 1e-9 {
			t.Fatalf("inscribed %v (%v), brute force %v", mi.R, err, most)
		}
	})
}

// No centre on a grid, refined about its best places, may do better than the
// minimum zone; and the usual order holds (formulas collection, section 10).
func TestZoneByBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps := drawReadings(t, 40)
		vs, _ := places(ps, 3)
		mz, err := MinZone(ps)
		if err != nil {
			t.Fatal(err)
		}
		ls, _ := LeastSquares(ps)
		mc, _ := MinCircumscribed(ps)
		zone := func(c Vec) float64 { return farthestFrom(vs, c) - nearestTo(vs, c) }
		near := mz.RONt() - 1e-10
		if ls.RONt() < near || mc.RONt() < near {
			t.Fatalf("zone %v over LSC %v or MCC %v", mz.RONt(), ls.RONt(), mc.RONt())
		}
		if mi, err := MaxInscribed(ps); err == nil && mi.RONt() < near {
			t.Fatalf("zone %v over MIC %v", mz.RONt(), mi.RONt())
		}
		best, at := ls.RONt(), ls.Centre()
		for step, reach := ls.RONt()/8, 16; step > ls.RONt()*1e-5; step, reach = step/4, 6 {
			mid := at
			for i := -reach; i <= reach; i++ {
				for j := -reach; j <= reach; j++ {
					c := mid.Plus(Vec{float64(i) * step, float64(j) * step})
					if w := zone(c); w < best && openTurn(vs, c) <= 180 {
						best, at = w, c
					}
				}
			}
		}
		if best < near {
			t.Fatalf("brute force found %v at %v, below %v at %v,%v", best, at, mz.RONt(), mz.X, mz.Y)
		}
	})
}

// Readings that are no circle, on a short arc: whole steps of Gauss-Newton run
// away from these, and shorter ones come to the least sum all the same. No
// circle near by is better.
func TestLeastSquaresOnAShortArc(t *testing.T) {
	ps := []Point{{0, 50}, {3, 52}, {5, 50}, {15, 54}}
	c, err := LeastSquares(ps)
	if err != nil {
		t.Fatal(err)
	}
	sum := func(x, y float64) (sum float64) {
		var d []float64
		mean := 0.0
		for _, p := range ps {
			s, c := math.Sincos(p.Clock * math.Pi / 180)
			d = append(d, math.Hypot(p.Radius*s-x, p.Radius*c-y))
			mean += d[len(d)-1] / float64(len(ps))
		}
		for _, d := range d {
			sum += (d - mean) * (d - mean)
		}
		return sum
	}
	least := sum(c.X, c.Y)
	for _, far := range []float64{0.1, 1, 10, 100} {
		for deg := range 36 {
			s, k := math.Sincos(float64(deg) * math.Pi / 18)
			if got := sum(c.X+far*s, c.Y+far*k); got < least {
				t.Errorf("%g mm away the sum of squares is %.6f, at the centre %.6f", far, got, least)
			}
		}
	}
}

// Three places on a line have no circle through them, in whatever order they come;
// a right angle has its circle on the long side.
func TestThreeOnALine(t *testing.T) {
	a, b, c := Vec{1, 1}, Vec{2, 3}, Vec{4, 7}
	for _, p := range [][3]Vec{{a, b, c}, {a, c, b}, {b, a, c}, {b, c, a}, {c, a, b}, {c, b, a}} {
		if m, ok := circumcentre(p[0], p[1], p[2]); ok {
			t.Errorf("%v: %v", p, m)
		}
	}
	if m, ok := circumcentre(Vec{0, 0}, Vec{6, 0}, Vec{0, 8}); !ok || m.Distance(Vec{3, 4}) > 1e-12 {
		t.Errorf("%v %v", m, ok)
	}
	if c := (Vec{}).Clock(); c != 0 {
		t.Errorf("no shift points to %g°", c)
	}
}

// The worst direction of an ellipse of doubt, by hand: half axes 3 and 1 along the
// axes and at 45°, and a circle.
func TestWorstDirection(t *testing.T) {
	near(t, "along the axes", worst(9, 0, 1), 3, 1e-12)
	near(t, "across", worst(1, 0, 9), 3, 1e-12)
	near(t, "at 45°", worst(5, 4, 5), 3, 1e-12)
	near(t, "round", worst(4, 0, 4), 2, 1e-12)
	near(t, "on a line", worst(2, 2, 2), 2, 1e-12)
}

// The least squares circle is where the sum of squares is flat, and it does not
// matter about which axis the readings were taken.
func TestLeastSquaresProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps := drawReadings(t, 60)
		c, err := LeastSquares(ps)
		if err != nil {
			t.Fatal(err)
		}
		vs, _ := places(ps, 3)
		s0, _ := spread(vs, c.Centre())
		for _, d := range []Vec{{1e-4, 0}, {-1e-4, 0}, {0, 1e-4}, {0, -1e-4}} {
			if s, _ := spread(vs, c.Centre().Plus(d)); s < s0 {
				t.Fatalf("moving the centre by %v helps: %v < %v", d, s, s0)
			}
		}
		shift := Vec{rapid.Float64Range(-20, 20).Draw(t, "dx"), rapid.Float64Range(-20, 20).Draw(t, "dy")}
		var moved []Point
		for _, v := range vs {
			w := v.Plus(shift)
			moved = append(moved, Point{w.Clock(), w.Length()})
		}
		d, err := LeastSquares(moved)
		if err != nil || d.Centre().Distance(c.Centre().Plus(shift)) > 1e-9 || math.Abs(d.R-c.R) > 1e-9 {
			t.Fatalf("moved axis: %v,%v,%v became %v,%v,%v (%v)", c.X, c.Y, c.R, d.X, d.Y, d.R, err)
		}
	})
}

func benchReadings(n int) []Point {
	ps := make([]Point, n)
	for i := range ps {
		a := 2 * math.Pi * float64(i) / float64(n)
		wob := math.Mod(float64(i)*0.6180339887, 1)
		ps[i] = Point{360 * float64(i) / float64(n), 50 + 0.3*math.Cos(a) + 0.1*math.Cos(2*a+1) + 0.02*wob}
	}
	return ps
}

func BenchmarkCircles(b *testing.B) {
	for _, n := range []int{8, 360} {
		ps := benchReadings(n)
		for _, f := range []struct {
			name string
			fit  func([]Point) (Circle, error)
		}{{"LeastSquares", LeastSquares}, {"MinCircumscribed", MinCircumscribed}, {"MaxInscribed", MaxInscribed}, {"MinZone", MinZone}} {
			b.Run(f.name+map[int]string{8: "/8", 360: "/360"}[n], func(b *testing.B) {
				for b.Loop() {
					if _, err := f.fit(ps); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
