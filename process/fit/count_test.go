package fit_test

import (
	"math"
	"testing"

	. "borewright/process/fit"
	"borewright/process/fit/joining"
)

// What heat leaves of a compound that is good to 150 °C: 0.6 to 0.7 at 100, 0.5 to 0.6 at 120,
// 0.3 to 0.5 at 150; of one good to 200: 0.6 to 0.8 at 150, 0.5 to 0.6 at 175, 0.3 to 0.4 at 200
// (curves of the trade, from memory; within 0.15, which is how far they differ).
func TestHeatOfABond(t *testing.T) {
	for _, r := range []struct {
		c           Compound
		hot         float64
		least, most float64
	}{
		{Compounds()[1], 60, 1, 1}, {Compounds()[1], 100, 0.6, 0.7}, {Compounds()[1], 120, 0.5, 0.6}, {Compounds()[1], 150, 0.3, 0.5},
		{Compounds()[3], 150, 0.6, 0.8}, {Compounds()[3], 175, 0.5, 0.6}, {Compounds()[3], 200, 0.3, 0.4},
	} {
		b, err := Bond(BondInput{Diameter: 20, Length: 18, Gap: Band{0.03, 0.06}, Compound: r.c, ServiceMost: r.hot})
		if err != nil {
			t.Fatal(err)
		}
		least, most := b.Strength.Least/r.c.Strength.Least, b.Strength.Most/r.c.Strength.Most
		if math.Abs(least-r.least) > 0.15 || math.Abs(most-r.most) > 0.15 || least > most {
			t.Errorf("%s at %g °C: %.2f to %.2f, want %g to %g", r.c.Name, r.hot, least, most, r.least, r.most)
		}
	}
}

// A working shear after all factors of about 2 to 4 MPa, steel in iron at 80 °C under a
// swelling load, with half in reserve (texts on bonded joints and trade figures, from memory).
func TestWorkingShear(t *testing.T) {
	b, err := Bond(BondInput{Diameter: 86, Length: 60, Gap: Band{0.04, 0.06}, Compound: Compounds()[1], ServiceMost: 80, Load: Swelling, Unlike: true})
	if err != nil || b.Strength.Least/2 < 0.8 || b.Strength.Most/2 > 5 || (b.Strength.Least+b.Strength.Most)/4 < 2 || (b.Strength.Least+b.Strength.Most)/4 > 4 {
		t.Errorf("%+v, %v", b.Strength, err)
	}
	// Each factor is said once, and they make up what is left.
	left := Compounds()[1].Strength
	for _, f := range b.Factors {
		left = left.Times(f.By)
		if said(f.Why) == "" {
			t.Error("a factor without its reason")
		}
	}
	if !near(left.Least, b.Strength.Least, 1e-12) || !near(left.Most, b.Strength.Most, 1e-12) || len(b.Factors) != 3 {
		t.Errorf("%d factors leave %v of %v", len(b.Factors), left, b.Strength)
	}
}

// Press and bond bear the same load: friction keeps more of it than a film, and the press force
// is not less for it.
func TestLoadOfAPress(t *testing.T) {
	in := pressOf(85.725, 80, 150, 0.06, greyIron, steel)
	steady := press(t, in)
	for l, share := range map[Load]Band{Swelling: {0.7, 0.9}, Reversing: {0.5, 0.7}, Shock: {0.4, 0.6}} {
		in.Load = l
		p := press(t, in)
		if !near(p.PushOut.Least, share.Least*steady.PushOut.Least, 1e-12) || !near(p.Torque.Most, share.Most*steady.Torque.Most, 1e-12) || p.PressForce[3] != steady.PressForce[3] || len(p.Factors) != 1 {
			t.Errorf("%v: %+v of %+v", l, p.PushOut, steady.PushOut)
		}
	}
}

// A flush boss heated alone in a big cold casting: (150² − 85.725²)/(600² − 85.725²) = 0.0430 of
// the free growth. No temperature the iron bears opens it: 0.043 × 11e-6 × 85.725 × 180 = 0.0073.
func TestBossInAColdCasting(t *testing.T) {
	in := pressOf(85.725, 80, 150, 0.06, greyIron, steel)
	in.Zone = joining.Zone{Heated: 150, Casting: 600}
	p := press(t, in)
	if y := p.Ways[ByHeat-1]; y.Possible || y.HubTo != 200 || math.Abs(y.Clearance-(0.0430*11e-6*85.725*180-0.06)) > 1e-5 {
		t.Errorf("flush: %+v", y)
	}
	in.Zone.Web = in.Length / 10 // 0.64 at the web: (0.01 + 0.0857)/(0.64 × 11e-6 × 85.725) = 158.6 K
	in.Interference = Band{0.01, 0.01}
	if y := press(t, in).Ways[ByHeat-1]; !y.Possible || math.Abs(y.HubTo-20-158.6) > 0.1 {
		t.Errorf("on a web: %+v", y)
	}
}

// The times stand with the way, and in its cautions. Nitrogen, a wall of 10 in bronze: 15 K of
// the 216 are lost in the open in τ·ln(216/201), τ = 3.1e-3 × 10/(2 × 15e-6) = 1033 s, 74 s.
func TestTimesOfAWay(t *testing.T) {
	in := pressOf(100, 80, 180, 0.05, greyIron, steel)
	in.Sleeve.Metal, in.Sleeve.Alpha = joining.Copper, 18e-6
	p := press(t, in)
	y := p.Ways[ByNitrogen-1]
	if !y.Possible || math.Abs(y.InAir-74.4) > 0.5 || y.Grips <= 0 || said(y.Cautions[0]) == "" {
		t.Errorf("%+v", y)
	}
	if h := p.Ways[ByHeat-1]; h.InAir != 0 {
		t.Errorf("heat: %+v", h)
	}
	if p.Ways[0].Grips != 0 {
		t.Error("a press stroke has no time to meet")
	}
}
