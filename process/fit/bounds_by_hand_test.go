package fit_test

import (
	"math"
	"strings"
	"testing"

	"borewright/process/fact"
	. "borewright/process/fit"
	"borewright/process/qty"
)

// An input is taken on one side of its limit and refused on the other. Nothing is
// colder than -273.15 °C, and Poisson's ratio of what can be squeezed is below
// 0.5; the rest is where the formulas stop being meant (common practice, no
// source).
func TestInputsOnBothSides(t *testing.T) {
	for _, x := range []struct {
		kind    fact.Kind
		in, out func(*PressInput)
	}{
		{BadService, func(in *PressInput) { in.Service.Least = -273 }, func(in *PressInput) { in.Service.Least = -274 }},
		{BadService, func(in *PressInput) { in.Service.Most = 999 }, func(in *PressInput) { in.Service.Most = 1001 }},
		{BadRoom, func(in *PressInput) { in.Reference = -49 }, func(in *PressInput) { in.Reference = -51 }},
		{BadRoom, func(in *PressInput) { in.Reference = 59 }, func(in *PressInput) { in.Reference = 61 }},
		{BadPoisson, func(in *PressInput) { in.Hub.Nu = 0.49 }, func(in *PressInput) { in.Hub.Nu = 0.51 }},
		{BadExpansion, func(in *PressInput) { in.Sleeve.Alpha = 0.99e-3 }, func(in *PressInput) { in.Sleeve.Alpha = 1.01e-3 }},
		{BadRoughness, func(in *PressInput) { in.RzHub = 999 }, func(in *PressInput) { in.RzHub = 1001 }},
		{BadFriction, func(in *PressInput) { in.Friction.Most = 0.99 }, func(in *PressInput) { in.Friction.Most = 1.01 }},
		{BadInterference, func(in *PressInput) { in.Interference.Most = 8.5 }, func(in *PressInput) { in.Interference.Most = 8.6 }}, // a tenth of 85.725
	} {
		in := pressOf(85.725, 80, 150, 0.05, greyIron, steel)
		x.in(&in)
		if _, err := Press(in); err != nil {
			t.Errorf("%s: refused within its limit: %s", x.kind, refused(err))
		}
		x.out(&in)
		_, err := Press(in)
		if f, _ := fact.Of(err); f.Kind != x.kind {
			t.Errorf("%s: taken beyond its limit: %v", x.kind, err)
		}
	}
	in := pressOf(85.725, 80, 150, 0.05, greyIron, steel)
	in.RzHub = 1001 // the limit that is told is the one that is held
	if _, err := Press(in); !strings.Contains(refused(err), "must be 0 to 1000.00 µm; it is 1001.00 µm") {
		t.Error(refused(err))
	}
	in = pressOf(85.725, 80, 150, 0.05, greyIron, steel)
	in.Sleeve.Alpha = 0.002 // 2000 µm on a metre and degree
	if _, err := Press(in); !strings.HasSuffix(refused(err), "not 2000.0 µm/(m·K)") {
		t.Error(refused(err))
	}
}

// ISO 286 ends at 3150 mm, and so do the outsides.
func TestLargestOutside(t *testing.T) {
	all := StandardOutsides(qty.Metric, qty.DiameterMM(3141), qty.DiameterMM(3300))
	if n := len(all); n != 2 || all[n-1] != qty.DiameterMM(3150) {
		t.Error(all)
	}
}

// A fortieth of 85.725 mm is 2.14 mm: 2.0 to the nearest half millimetre, and
// 2.14/0.794 = 2.7, so 3/32, to the nearest thirty-second of an inch.
func TestLeadInIsRounded(t *testing.T) {
	for u, want := range map[qty.Unit]qty.Length{qty.Metric: 2 * qty.Millimetre, qty.Inches: 3 * qty.Inch / 32} {
		if c := LeadIn(u, qty.DiameterMM(85.725), 10*qty.Millimetre, 0); (c.Length - want).Abs() > 1 {
			t.Errorf("%v: %v, want %v", u, c.Length, want)
		}
	}
}

// The force to press a sleeve home rises with the length that is in: a quarter of
// it at a quarter, all of it at the end, μ·p·π·d·L, and no further.
func TestStrokesOfThePress(t *testing.T) {
	p := press(t, pressOf(85.725, 80, 150, 0.05, greyIron, steel))
	if len(p.PressForce) != 4 {
		t.Fatalf("%d strokes", len(p.PressForce))
	}
	for i, s := range p.PressForce {
		share := float64(i+1) / 4
		if want := share * 0.1 * p.Pressure.Most * math.Pi * 85.725 * 85.725; !near(s.Depth, share*85.725, 1e-12) || !near(s.Force.Most, want, 1e-9) {
			t.Errorf("stroke %d: %+v, by hand %.0f N", i+1, s, want)
		}
	}
}
