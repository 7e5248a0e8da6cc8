package fit

import (
	"borewright/process/qty"
	"encoding/json"
	"fmt"
	"testing"
)

func TestZ(t *testing.T) {
	for _, s := range []string{"50 H7/p6", "2.0000in H7/s6", "80mm H7", "30 js6", "50 H7/k6", "2500 H7/f7", "60 P7/h6", "1 h01", "3.375in H7/p6", "0.5 H7/u6"} {
		d, err := Parse(s)
		if err != nil {
			t.Fatal(err)
		}
		f, err := d.Resolve()
		if err != nil {
			t.Fatal(err)
		}
		fmt.Println(Sketch(f))
		j, _ := json.Marshal(f.Figures())
		fmt.Println(string(j))
	}
	p := PressInput{Units: qty.Inches, Length: 60.3, Hub: Ring{Name: "grey iron", Outside: 130, OutsideMost: 180, E: 110000, Nu: .26, Alpha: 11e-6, Tensile: 250, Brittle: true, HeatMost: 200},
		Sleeve: Ring{Name: "steel", E: 207000, Nu: .29, Alpha: 11.5e-6, Yield: 310, Tensile: 400, HeatMost: 200}, Blind: true, RzHub: 10, RzSleeve: 6.3, Friction: Band{.06, .12}, Room: 20, Service: Band{10, 60}}
	in := SleeveInput{Press: p, CleanUp: qty.DiameterMM(84.9), FinishLow: 80e6, FinishHigh: 80.03e6, Fit: "H7/p6", Allowance: qty.FromMM(.4), Make: qty.FromMM(.02),
		Roundness: 10000, Ra: 1600, BeforeLocation: 10000, BeforeRoundness: 8000, InPlace: Capability{Size: 6000, Roundness: 4000, Ra: 1600, Location: 0}}
	for _, u := range []qty.Unit{0, 1} {
		in.Press.Units = u
		r, err := Sleeve(in)
		fmt.Println(err)
		b, _ := json.MarshalIndent(r, "", " ")
		fmt.Println(string(b))
		if u == 1 {
			in.Bond = &Compounds()[1]
			in.Fit = "H7/e7"
			r, err := Sleeve(in)
			fmt.Println(err)
			b, _ := json.MarshalIndent(r, "", " ")
			fmt.Println(string(b))
		}
	}
}
