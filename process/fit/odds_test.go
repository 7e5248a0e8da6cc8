package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	. "borewright/process/fit"
	"borewright/process/qty"
	"borewright/process/slow"
)

// lands says of a sleeve as a shop makes one, drawn anew, whether it comes home within limits: the bore
// turned, the closure by Lamé's rings, form, axis. Worked here, mm and MPa.
//
//	p = δ / {d[(C_o+ν_o)/E_o + (C_i−ν_i)/E_i]},  closure 2d²d_i·p/(E_i(d²−d_i²))
//
// Source: Shigley's Mechanical Engineering Design, 8th ed., Eq. 7-39 and section 3-14.
func lands(in SleeveInput, housing, outside [2]float64, inside [2]float64, rng *rand.Rand) bool {
	within := func(b [2]float64) float64 { return (b[0]+b[1])/2 + (b[1]-b[0])/2/1.96*rng.NormFloat64() }
	bore := within(inside)
	d := (housing[0] + housing[1]) / 2
	tight := within(outside) - within(housing)
	tight -= within([2]float64{0, 0.8 * (in.Press.RzHub + in.Press.RzSleeve) / 1000})
	closes := func(hub float64) float64 {
		co, ci := (hub*hub+d*d)/(hub*hub-d*d), (d*d+bore*bore)/(d*d-bore*bore)
		if math.IsInf(hub, 1) {
			co = 1
		}
		h, s := in.Press.Hub, in.Press.Sleeve
		p := max(0, tight) / (d * ((co+h.Nu)/h.E + (ci-s.Nu)/s.E))
		return p * 2 * d * d * bore / (s.E * (d*d - bore*bore))
	}
	stiff := rng.Float64()
	size := bore - (1-stiff)*closes(in.Press.Hub.Outside) - stiff*closes(in.Press.Hub.OutsideMost)
	lathe, shape, spindle := in.BeforeForm.Lathe.MM()*rng.Float64(), in.BeforeForm.Shape.MM()*rng.Float64(), in.BeforeForm.Spindle.MM()
	if in.Roundness > 0 && lathe+shape+spindle > in.Roundness.MM() {
		return false
	}
	across := (lathe+spindle)/2 + shape
	axis := math.Abs(in.BeforeLocation.MM() / 1.96 * rng.NormFloat64())
	if in.LocationAllowed > 0 {
		if axis > in.LocationAllowed.MM() {
			return false
		}
		axis = 0
	}
	return size-across-2*axis >= in.BoreLow.MM() && size+across <= in.BoreHigh.MM()
}

// The chance of the lathe way against plain trials of the test's own, and the rule it
// serves: what lands in 99.9 of 100 is taken, though all errors at their worst would not.
func TestOddsAgainstPlainTrials(t *testing.T) {
	n := slow.Rounds(t, "sleeves turned", 2_000_000, 60_000)
	byOdds := 0
	for name, change := range map[string]func(*SleeveInput){
		"as it comes": func(*SleeveInput) {},
		"wider limits": func(in *SleeveInput) {
			in.BoreHigh, in.BeforeLocation = in.BoreLow.Plus(120*qty.Micrometre), 0
		},
		"as good as surely": func(in *SleeveInput) {
			in.BoreLow, in.BoreHigh, in.BeforeLocation = qty.DiameterMM(79.975), qty.DiameterMM(80.060), qty.Micrometre
		},
		"out of round": func(in *SleeveInput) {
			in.BoreHigh, in.Roundness, in.LocationAllowed = in.BoreLow.Plus(150*qty.Micrometre), 9*qty.Micrometre, 20*qty.Micrometre
			in.BeforeForm = Form{Lathe: 4 * qty.Micrometre, Spindle: 3 * qty.Micrometre, Shape: 4 * qty.Micrometre}
		},
	} {
		in := repair()
		in.BeforeForm = Form{Lathe: 2 * qty.Micrometre, Spindle: 3 * qty.Micrometre, Shape: 2 * qty.Micrometre}
		change(&in)
		r, err := Sleeve(in)
		if err != nil {
			t.Fatal(err)
		}
		b := r.FinishedBefore
		mm := func(a, b qty.Diameter) [2]float64 { return [2]float64{a.MM(), b.MM()} }
		rng, in2 := rand.New(rand.NewPCG(3, 9)), 0
		for range n {
			if lands(in, mm(r.HousingLow, r.HousingHigh), mm(r.OutsideLow, r.OutsideHigh), mm(b.Inside[0], b.Inside[1]), rng) {
				in2++
			}
		}
		want := float64(in2) / float64(n)
		if math.Abs(b.Chance-want) > 0.002+3*math.Sqrt(want*(1-want)/float64(n)) {
			t.Errorf("%s: lands in %.4f, by plain trials %.4f", name, b.Chance, want)
		}
		t.Logf("%s: %.4f, by plain trials %.4f; at the worst %v, by its chance %v", name, b.Chance, want, b.Why == nil, b.ByOdds)
		if b.ByOdds {
			byOdds++
			if !b.Lands || len(b.Why) == 0 || want < 0.998 || r.Choice != FinishBefore {
				t.Errorf("%s: taken by its chance, %.4f: %+v", name, want, b)
			}
		} else if b.Lands != (len(b.Why) == 0) || !b.Lands && want > 0.9995 {
			t.Errorf("%s: %.4f land, and it is refused: %+v", name, want, b)
		}
	}
	if byOdds == 0 {
		t.Error("no way was taken by its chance")
	}
}
