package bar

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// TestGuideByHandbook holds a long plain bar on a rigid nose, with a rigid bush, to the tables of
// beams fixed at one end and supported at the other (any handbook, as Roark's Formulas for
// Stress and Strain, or a manual of steel construction; from memory):
//
//	load P between, a from the bush and c from the nose, l = a + c: R = P·c²·(a + 2l)/(2l³), δ = P·a²·c³·(3l + a)/(12·E·I·l³)
//	load P on the overhang, a beyond the bush at l:               R = P·(1 + 3a/(2l)),     δ = P·a²·(3l + 4a)/(12·E·I)
func TestGuideByHandbook(t *testing.T) {
	const d, long, e = 20.0, 3000.0, 207000.0
	ei := e * math.Pi / 64 * math.Pow(d, 4)
	inf := math.Inf(1)
	for _, c := range []float64{600, 1300, 2000, 2900} {
		first, err := New([]Section{{D: d, Length: long, E: e, Nu: 0.29, Rho: 7850}}, Root{Radial: inf, Tilt: inf}, c, &Support{At: 1, Stiffness: inf}, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range []float64{900, 1500, 2950} {
			b, err := first.Guided(l)
			if err != nil {
				t.Fatal(err)
			}
			r, give := 1+3*(c-l)/(2*l), (c-l)*(c-l)*(3*l+4*(c-l))/(12*ei)
			if a := l - c; a > 0 {
				r, give = c*c*(a+2*l)/(2*l*l*l), a*a*c*c*c*(3*l+a)/(12*ei*l*l*l)
			}
			at := fmt.Sprintf("cutter at %g, bush at %g: ", c, l)
			within(t, at+"follows", b.Follows(), r, 1e-3) // shear besides
			if got := b.Compliance(); math.Abs(got-give) > 3e-3*give+2e-6 {
				t.Errorf("%sgives %g mm/N, want %g", at, got, give)
			}
		}
	}
	if first, _ := New([]Section{{D: d, Length: long, E: e, Nu: 0.29, Rho: 7850}}, Root{Radial: inf, Tilt: inf}, long, nil, 0); first.Follows() != 0 {
		t.Error("a bar without a bush follows it")
	} else if _, err := first.Guided(100); err == nil {
		t.Error("a bar without a bush is guided")
	}
}

// ends is the state of a beam behind a length of it: deflection, slope of the section, moment,
// shear, 1.
type ends [5][5]float64

func (m ends) after(first ends) (out ends) {
	for i := range 5 {
		for j := range 5 {
			for k := range 5 {
				out[i][j] += m[i][k] * first[k][j]
			}
		}
	}
	return out
}

// field is a plain length l of Timoshenko's beam: w′ = θ + V/(κ_s·G·A), θ′ = M/(E·I), M′ = −V, V′ = 0.
func fieldOf(l, ei, kga float64) ends {
	return ends{
		{1, l, l * l / 2 / ei, l/kga - l*l*l/6/ei, 0},
		{0, 1, l / ei, -l * l / 2 / ei, 0},
		{0, 0, 1, -l, 0}, {0, 0, 0, 1, 0}, {0, 0, 0, 0, 1},
	}
}

// TestGuideByTransfer holds a plain bar in a soft nose and a soft bush, on either side of the
// cutter, to transfer matrices of Timoshenko's beam: a unit load at the cutter, and a bush
// that stands aside by 1 mm.
func TestGuideByTransfer(t *testing.T) {
	const d, hole, long, e, nu = 60.0, 12.0, 900.0, 207000.0, 0.29
	const radial, tilt, bush, cutter = 2e5, 1.5e9, 8e4, 500.0
	b, err := New([]Section{{D: d, Hole: hole, Length: long, E: e, Nu: nu, Rho: 7850}}, Root{Radial: radial, Tilt: tilt}, cutter, &Support{At: 880, Stiffness: bush}, 0)
	if err != nil {
		t.Fatal(err)
	}
	m := hole / d
	q := (1 + m*m) * (1 + m*m)
	kga := 6 * (1 + nu) * q / ((7+6*nu)*q + (20+12*nu)*m*m) * e / 2 / (1 + nu) * math.Pi / 4 * (d*d - hole*hole)
	ei := e * math.Pi / 64 * (d*d*d*d - hole*hole*hole*hole)
	// tip gives the deflection at the cutter for a load there and a bush that stands aside.
	tip := func(at, load, moment, aside float64) float64 {
		points := map[float64]ends{}
		one := ends{{1}, {0, 1}, {0, 0, 1}, {0, 0, 0, 1}, {0, 0, 0, 0, 1}}
		on := one
		on[3][4], on[2][4] = -load, -moment // the shear on the far side is less by the load
		points[cutter] = on
		held := one
		held[3][0], held[3][4] = bush, -bush*aside
		points[at] = held
		whole, x := one, 0.0
		var toCutter ends
		for _, p := range []float64{min(at, cutter), max(at, cutter)} {
			whole = fieldOf(p-x, ei, kga).after(whole)
			if p == cutter {
				toCutter = whole
			}
			whole, x = points[p].after(whole), p
		}
		whole = fieldOf(long-x, ei, kga).after(whole)
		// At the nose V = radial·w and M = tilt·θ, by the signs of the field; the far end is free.
		first := func(row [5]float64) (w, th, c float64) { return row[0] + row[3]*radial, row[1] + row[2]*tilt, row[4] }
		w1, t1, c1 := first(whole[2])
		w2, t2, c2 := first(whole[3])
		var x0 mat.VecDense
		if err := x0.SolveVec(mat.NewDense(2, 2, []float64{w1, t1, w2, t2}), mat.NewVecDense(2, []float64{-c1, -c2})); err != nil {
			t.Fatal(err)
		}
		w, th, c := first(toCutter[0])
		return w*x0.AtVec(0) + th*x0.AtVec(1) + c
	}
	for _, at := range []float64{120, 380, 499, 520, 610, 700, 880} {
		b, err := b.Guided(at)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("bush at %g: ", at)
		within(t, name+"compliance", b.Compliance(), tip(at, 1, 0, 0), 1e-7)
		if got, want := b.ArmCompliance(), tip(at, 0, 1, 0); math.Abs(got-want) > 1e-7*math.Abs(want)+1e-13 {
			t.Errorf("%sarm %g, want %g", name, got, want)
		}
		within(t, name+"follows", b.Follows(), tip(at, 0, 0, 1), 1e-7)
		var modes float64 // all of them give what the bar gives at rest
		for _, m := range modesOf(t, b) {
			modes += 1 / m.Stiffness
		}
		within(t, name+"modes", modes, b.Compliance(), 1e-6)
	}
}
