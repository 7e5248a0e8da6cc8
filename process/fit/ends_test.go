package fit_test

import (
	"math"
	"testing"

	. "borewright/process/fit"
	"borewright/process/qty"
)

// A sleeve of 40 mm in a boss of 100 mm, bore and hub those of the finite elements
// (testdata/fit/short_sleeves.csv): the plane closure is 42.262 µm for an interference of
// 0.060 mm, and what is told holds every place of the two sleeves so long that were worked
// out there; the housing's tension and the press force are never told lower than of a full joint.
func TestShortSleeveByFiniteElements(t *testing.T) {
	iron := greyIron
	iron.E, iron.Nu, iron.Outside, iron.OutsideMost = 105e3, 0.26, 180, 180
	in := PressInput{Diameter: 100, Length: 100, Interference: Band{0.06, 0.06}, Hub: iron, Sleeve: steel,
		Friction: Band{0.06, 0.12}, Reference: 20, Service: Band{20, 20}}
	in.Sleeve.E, in.Sleeve.Nu, in.Sleeve.Inside = 206e3, 0.30, 90
	full := press(t, in)
	if math.Abs(full.Closure.Least-0.042262) > 1e-5 || full.Closure.Least != full.Closure.Most || full.Taper() != 0 {
		t.Fatalf("a full joint closes by %v", full.Closure)
	}
	in.Length, in.Boss = 40, 100
	short := press(t, in)
	least, most := 0.931*0.042262, 1.203*0.042262
	if short.Closure.Least > least || short.Closure.Most < most || short.Closure.Least < 0.97*least || short.Closure.Most > 1.07*most {
		t.Errorf("closes by %v, the elements %.5f to %.5f", short.Closure, least, most)
	}
	if taper := (1.197 - 0.931) * 0.042262; short.Taper() < taper || short.Taper() > 1.4*taper {
		t.Errorf("tapers by %.5f, the elements by %.5f", short.Taper(), taper)
	}
	if share := short.Stresses[0].Hoop.Most / full.Stresses[0].Hoop.Most; share < 1.18 || share > 1.25 {
		t.Errorf("tension %.3f of a full joint's, the elements 1.18", share)
	}
	if share := short.Pressure.Most / full.Pressure.Most; share < 1.156 || share > 1.17 || short.Pressure.Least != full.Pressure.Least {
		t.Errorf("pressure %v, of a full joint %v", short.Pressure, full.Pressure)
	}
	said := false
	for _, c := range short.Cautions {
		said = said || c.Kind == EndsDiffer
	}
	if !said || qty.FromMM(short.Taper()) == 0 {
		t.Errorf("nothing is said of the taper: %v", short.Cautions)
	}
	in.Length, in.Boss, in.Blind = 98, 100, true
	if blind := press(t, in); blind.Closure.Most < 1.257*0.042262 || blind.Closure.Least > 0.962*0.042262 {
		t.Errorf("in a blind housing it closes by %v", blind.Closure)
	}
}
