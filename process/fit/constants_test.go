package fit_test

import (
	"math"
	"testing"

	. "borewright/process/fit"
	"borewright/process/qty"
)

// What heat and cold give, by hand. Dry ice sublimes at −78 °C, nitrogen
// boils at −196 °C (physical constants); the sleeve is 15 K warmer in its seat
// (common practice, no source), at 210 and 92 K, where SAE 1020 has lost 0.9085 and 1.86 mm
// for each m (NBS Monograph 29, between two of its rows); this steel grows by 11.5, that one by 12.
func TestHeatAndColdByHand(t *testing.T) {
	in := pressOf(85.725, 80, 150, 0.093, greyIron, steel)
	p := press(t, in)
	for by, want := range map[Method]float64{
		ByDryIce:   0.9085e-3*11.5/12*85.725 - 0.093,
		ByNitrogen: 1.86e-3*11.5/12*85.725 - 0.093,
	} {
		if got := p.Ways[by-1].Clearance; p.Ways[by-1].Method != by || math.Abs(got-want) > 1e-9 {
			t.Errorf("%v: %+v, by hand %.5f", by, p.Ways[by-1], want)
		}
	}
	// A small seat still wants 0.05 mm to slide: (0.010 + 0.05)/(11e-6·40) = 136.36 K.
	if heat := press(t, pressOf(40, 32, 90, 0.010, greyIron, steel)).Ways[ByHeat-1]; !heat.Possible || math.Abs(heat.HubTo-156.364) > 0.001 {
		t.Errorf("a seat of 40: %+v", heat)
	}
	// What is asked for goes before: (0.010 + 0.03)/(11e-6·40) = 90.91 K.
	small := pressOf(40, 32, 90, 0.010, greyIron, steel)
	small.Joining = 0.03
	if heat := press(t, small).Ways[ByHeat-1]; math.Abs(heat.HubTo-110.909) > 0.001 || math.Abs(heat.Clearance-0.03) > 1e-9 {
		t.Errorf("0.03 asked for: %+v", heat)
	}
	// A metal whose limit is not stated is heated to 150 °C at the most.
	plain := greyIron
	plain.HeatMost = 0
	if heat := press(t, pressOf(85.725, 80, 150, 0.093, plain, steel)).Ways[ByHeat-1]; heat.Possible || heat.HubTo != 150 {
		t.Errorf("no limit stated: %+v", heat)
	}
}

// Shares of strength that are allowed: 0.4 of tensile strength in iron under
// tension, 0.4 of three times it under compression, 0.8 of yield in steel.
// Common practice, no source; iron bears about 3 times as much in compression
// (EN 1561, from memory).
func TestStrengthAllowed(t *testing.T) {
	p := press(t, pressOf(85.725, 80, 150, 0.05, greyIron, greyIron))
	q := press(t, pressOf(85.725, 80, 150, 0.05, steel, steel))
	for _, r := range []struct {
		what      string
		got, want float64
	}{
		{"iron hub", p.Stresses[0].Allowed, 100}, {"iron sleeve", p.Stresses[1].Allowed, 300}, {"iron sleeve's bore", p.Stresses[2].Allowed, 300},
		{"steel hub", q.Stresses[0].Allowed, 248}, {"steel sleeve", q.Stresses[1].Allowed, 248},
	} {
		if !near(r.got, r.want, 1e-12) {
			t.Errorf("%s: %g MPa allowed, want %g", r.what, r.got, r.want)
		}
	}
	thin := func(outside float64) int {
		return len(press(t, pressOf(85.725, 80, outside, 0.02, steel, steel)).Cautions)
	}
	if thin(85.725*1.45) != thin(85.725*1.55)+1 {
		t.Error("a hub under 1.5 times its bore is thin (common practice, no source)")
	}
}

// The kinds of compound: trade ranges, from memory; the 15 to 35 MPa stand on one
// page on ISO 10123 as well.
func TestCompounds(t *testing.T) {
	want := []Compound{
		{"low strength", Band{5, 12}, 0.02, 0.08, 0.15, 120},
		{"high strength", Band{15, 35}, 0.02, 0.08, 0.15, 150},
		{"high strength, gap filling, with activator", Band{15, 25}, 0.02, 0.08, 0.30, 120},
		{"high strength, hot service", Band{15, 25}, 0.02, 0.08, 0.15, 200},
	}
	got := Compounds()
	if len(got) != len(want) {
		t.Fatalf("%d compounds", len(got))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
}

// A bond keeps all its strength up to 60 °C and 0.3 of its least at the hottest it stands, in a
// straight line; a gap that opens by more than a
// twentieth of the film is warned of, by more than half of it is not planned.
// Trade figures, from memory, and common practice without a source.
func TestBondLimits(t *testing.T) {
	base := BondInput{Diameter: 80, Length: 60, Gap: Band{0.05, 0.07}, Compound: Compounds()[1], ServiceMost: 20}
	bond := func(change func(*BondInput)) BondResult {
		in := base
		change(&in)
		r, err := Bond(in)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for hot, want := range map[float64]float64{20: 15, 60: 15, 105: 9.75, 150: 4.5} {
		if r := bond(func(in *BondInput) { in.ServiceMost = hot }); !near(r.Strength.Least, want, 1e-12) {
			t.Errorf("%g °C: %g MPa", hot, r.Strength.Least)
		}
	}
	usual := len(Cautions(ByBond))
	for _, r := range []struct {
		opens            float64 // share of the least gap
		cautions, reason int
	}{{0.04, 0, 0}, {0.06, 1, 0}, {0.45, 1, 0}, {0.55, 0, 1}} {
		got := bond(func(in *BondInput) { in.Tightens = Band{-r.opens * 0.05, 0} })
		if len(got.Cautions)-usual != r.cautions || len(got.Reasons) != r.reason {
			t.Errorf("opens by %g of the film: %q %q", r.opens, said(got.Cautions[0]), got.Reasons)
		}
	}
}

// A ring is thick for the formula beyond a tenth of its mean radius (the usual
// bound of thin rings, any text on strength of materials). Jaws are 2 to 12.
func TestChuckLimits(t *testing.T) {
	ring := func(wall float64, jaws int) (ChuckResult, error) {
		return Chuck(ChuckInput{Outside: 100 + wall, Inside: 100 - wall, Width: 50, E: 110e3, Jaws: jaws, Grip: 2000})
	}
	for wall, thick := range map[float64]bool{4.9: false, 5.1: true, 9: true} {
		if r, err := ring(wall, 3); err != nil || r.Thick != thick {
			t.Errorf("wall %g on a mean radius of 50: thick %v, %v", wall, r.Thick, err)
		}
	}
	for jaws, ok := range map[int]bool{1: false, 2: true, 8: true, 12: true, 13: false} {
		if _, err := ring(3, jaws); (err == nil) != ok {
			t.Errorf("%d jaws: %v", jaws, err)
		}
	}
}

// Walls and outsides of repair sleeves: 2.5 mm up to 100 mm, 3 mm above, never
// under 0.025 of the bore; whole millimetres to 120 mm and fives above,
// sixteenths of an inch to 6 in and eighths above. Common practice, no source.
func TestWallsAndOutsides(t *testing.T) {
	for bore, want := range map[float64]float64{50: 2.5, 99: 2.5, 101: 3, 119: 3, 160: 4, 400: 10} {
		if got := LeastWall(qty.DiameterMM(bore)); got != qty.FromMM(want) {
			t.Errorf("wall round %g: %v mm", bore, got.MM())
		}
	}
	steps := func(u qty.Unit, from, upto float64) (all []float64) {
		for _, d := range StandardOutsides(u, qty.DiameterMM(from), qty.DiameterMM(upto)) {
			all = append(all, d.MM())
		}
		return all
	}
	for _, r := range []struct {
		u          qty.Unit
		from, upto float64
		want       []float64
	}{
		{qty.Metric, 40.5, 43, []float64{41, 42, 43}}, {qty.Metric, 119, 131, []float64{119, 120, 125, 130}},
		{qty.Inches, 3 * 25.4, 3.13 * 25.4, []float64{76.2, 76.2 + 25.4/16, 76.2 + 25.4/8}},
		{qty.Inches, 5.93 * 25.4, 6.26 * 25.4, []float64{5.9375 * 25.4, 6 * 25.4, 6.125 * 25.4, 6.25 * 25.4}},
	} {
		got := steps(r.u, r.from, r.upto)
		if len(got) != len(r.want) {
			t.Errorf("%v from %g: %v", r.u, r.from, got)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-r.want[i]) > 1e-6 {
				t.Errorf("%v from %g: %v, want %v", r.u, r.from, got, r.want)
			}
		}
	}
}

// Lead-in chamfers by hand: 15° a side over 0.025 of the outside, 1.5 to 3 mm,
// in half millimetres or thirty-seconds of an inch; 5° where 15° would take more
// than a third of the wall. Common practice, no source.
func TestLeadInByHand(t *testing.T) {
	tan15, tan5 := math.Tan(15*math.Pi/180), math.Tan(5*math.Pi/180)
	for _, r := range []struct {
		u                     qty.Unit
		outside, wall         float64
		length, angle, onDiam float64
	}{
		{qty.Metric, 40, 3, 1.5, 15, 2 * 1.5 * tan15}, {qty.Metric, 80, 3, 2, 15, 2 * 2 * tan15}, {qty.Metric, 300, 5, 3, 15, 2 * 3 * tan15},
		{qty.Metric, 80, 1, 2, 5, 2 * 2 * tan5}, {qty.Inches, 80, 3, 3 * 25.4 / 32, 15, 2 * 3 * 25.4 / 32 * tan15},
	} {
		c := LeadIn(r.u, qty.DiameterMM(r.outside), qty.FromMM(r.wall), 0)
		if c.AnglePerSide != r.angle || math.Abs(c.Length.MM()-r.length) > 1e-6 || math.Abs(c.OnDiameter.MM()-r.onDiam) > 2e-6 {
			t.Errorf("outside %g, wall %g: %+v", r.outside, r.wall, c)
		}
	}
}
