package fit_test

import (
	. "borewright/process/fit"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// warmed solves two rings, each evenly warm, as one set of equations with
// gonum: in each ring u = A r + B/r, and in plane stress
//
//	σ_r = E/(1−ν²) [(1+ν)A − (1−ν)B/r² − (1+ν)αΔT]
//
// (Timoshenko and Goodier, Theory of Elasticity: thick cylinder, uniform
// temperature). Free inside and outside; at the interface stress and
// displacement agree. It returns the growth of the bore on diameter.
func warmed(d, di, do, dt float64, hub, sleeve Ring) float64 {
	rows := func(ring Ring, r float64) (a, b, rest float64) {
		k := ring.E / (1 - ring.Nu*ring.Nu)
		return k * (1 + ring.Nu), -k * (1 - ring.Nu) / (r * r), k * (1 + ring.Nu) * ring.Alpha * dt
	}
	ri, rd, ro := di/2, d/2, do/2
	var m mat.Dense
	a1, b1, c1 := rows(sleeve, ri)
	a2, b2, c2 := rows(hub, ro)
	as, bs, cs := rows(sleeve, rd)
	ah, bh, ch := rows(hub, rd)
	err := m.Solve(mat.NewDense(4, 4, []float64{
		a1, b1, 0, 0,
		0, 0, a2, b2,
		as, bs, -ah, -bh,
		rd * 1e5, 1e5 / rd, -rd * 1e5, -1e5 / rd, // scaled like the stresses
	}), mat.NewVecDense(4, []float64{c1, c2, cs - ch, 0}))
	if err != nil {
		return math.NaN()
	}
	return 2 * (m.At(0, 0)*ri + m.At(1, 0)/ri)
}

func TestBoreGrowsAsTwoRingsDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := func(what string) Ring {
			return Ring{E: rapid.Float64Range(7e4, 6e5).Draw(t, what+" E"), Nu: rapid.Float64Range(0.2, 0.36).Draw(t, what+" nu"),
				Alpha: rapid.Float64Range(5e-6, 25e-6).Draw(t, what+" alpha")}
		}
		hub, sleeve := ring("hub"), ring("sleeve")
		d := rapid.Float64Range(20, 400).Draw(t, "d")
		sleeve.Inside = d * rapid.Float64Range(0.5, 0.97).Draw(t, "bore")
		hub.Outside = d * rapid.Float64Range(1.05, 4).Draw(t, "outside")
		warm := rapid.Float64Range(-60, 180).Draw(t, "warm")
		in := PressInput{Hub: hub, Sleeve: sleeve, Reference: 20}
		got := in.BoreGrows(d, 20+warm, false)
		want := warmed(d, sleeve.Inside, hub.Outside, warm, hub, sleeve)
		if math.IsNaN(want) || math.Abs(got.Least-want) > 1e-9*d || math.Abs(got.Most-want) > 1e-9*d {
			t.Fatalf("grows %v mm, two rings %g", got, want)
		}
		in.Hub.OutsideMost = 2 * hub.Outside
		wide := in.BoreGrows(d, 20+warm, true)
		for _, x := range []float64{want, warmed(d, sleeve.Inside, 2*hub.Outside, warm, hub, sleeve), sleeve.Alpha * sleeve.Inside * warm} {
			if x < wide.Least-1e-9*d || x > wide.Most+1e-9*d {
				t.Fatalf("%g outside of %v", x, wide)
			}
		}
	})
}

// A bronze bush in iron runs warm: its bore grows as the iron lets it, and by
// hand, for a thin bush in a heavy housing, as the iron itself does.
func TestThinBushGrowsWithItsHousing(t *testing.T) {
	iron := greyIron
	iron.E, iron.Outside = 1e9, 1e6 // gives nothing
	bush := Ring{E: 1e5, Nu: 0.33, Alpha: 18e-6, Inside: 99.9}
	in := PressInput{Hub: iron, Sleeve: bush, Reference: 20}
	if got := in.BoreGrows(100, 70, false); !near(got.Least, 11e-6*50*100, 0.01) {
		t.Errorf("grows %v, iron alone 0.055", got)
	}
}

// What heat does to the film of a bond, by hand: steel in aluminium, Ø80, 50 K:
// 80·(23.5−11.5)·10⁻⁶·50 = 0.048 mm.
func TestBondPulledApart(t *testing.T) {
	in := PressInput{Hub: Ring{Alpha: 23.5e-6}, Sleeve: Ring{Alpha: 11.5e-6}, Reference: 20, Service: Band{20, 70}}
	tight := in.Tightens(80)
	if math.Abs(tight.Least+0.048) > 1e-12 || tight.Most != 0 {
		t.Fatalf("%v", tight)
	}
	for _, r := range []struct {
		gap, tightens Band
		reason        string
		warned        bool
	}{
		{Band{0.04, 0.06}, tight, "comes loose at work: heat or cold opens the gap by 0.048 mm, and the film is 0.040 mm at the closest pair; take metals that grow alike", false},
		{Band{0.10, 0.12}, tight, "", true},
		{Band{0.05, 0.07}, Band{-0.002, 0}, "", false},
		{Band{0.05, 0.07}, Band{0, 0.04}, "", false},
	} {
		b, err := Bond(BondInput{Diameter: 80, Length: 60, Gap: r.gap, Compound: Compounds()[1], ServiceMost: 70, Tightens: r.tightens})
		if err != nil || said(b.Reasons...) != r.reason || (len(b.Cautions) > len(Cautions(ByBond))) != r.warned {
			t.Errorf("%v %v: %q %q %v", r.gap, r.tightens, b.Reasons, b.Cautions, err)
		}
	}
}
