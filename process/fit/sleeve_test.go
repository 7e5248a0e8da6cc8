package fit_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"borewright/process/fact"
	. "borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/hub"
	"borewright/process/qty"
	"borewright/sheets/words"
	"pgregory.net/rapid"
)

// repair is an invented job: an 80 H7 bore in grey iron, worn past 84 mm.
func repair() SleeveInput {
	hub := greyIron
	hub.Outside, hub.OutsideMost = 130, 180
	return SleeveInput{
		Press: PressInput{Length: 60, Hub: hub, Sleeve: steel, RzHub: 10, RzSleeve: 6.3,
			Friction: Band{0.06, 0.12}, Reference: 20, Service: Band{10, 60}},
		CleanUp: qty.DiameterMM(84.6), BoreLow: qty.DiameterMM(80), BoreHigh: qty.DiameterMM(80.03), Fit: "H7/s6",
		Allowance: qty.FromMM(0.4), Make: qty.FromMM(0.02), Roundness: 10 * qty.Micrometre, Ra: qty.FromMM(0.0016),
		BeforeLocation: 15 * qty.Micrometre, BeforeForm: Form{Shape: 8 * qty.Micrometre},
		InPlace: Capability{Size: 6 * qty.Micrometre, Roundness: 4 * qty.Micrometre, Across: 4 * qty.Micrometre, Ra: qty.FromMM(0.0016)},
	}
}

func TestSleeveBoredInPlace(t *testing.T) {
	r, err := Sleeve(repair())
	if err != nil {
		t.Fatal(err)
	}
	if r.Outside != qty.DiameterMM(85) || r.HousingHigh != qty.DiameterMM(85.035) || r.OutsideLow != qty.DiameterMM(85.071) {
		t.Errorf("outside %v housing %v to %v sleeve %v", r.Outside, r.HousingLow, r.HousingHigh, r.OutsideLow)
	}
	if r.Choice != BoreInPlace || !r.BoredHere.Lands || r.FinishedBefore.Lands || len(r.Reasons) != 0 {
		t.Errorf("%v: %s %q", r.Choice, said(r.Why), r.Reasons)
	}
	for _, want := range []string{"finished before, it would land in 3", "closure alone differs by", "80.000 to 80.030 mm is allowed"} {
		if !strings.Contains(said(r.Why), want) {
			t.Errorf("%q does not say %q", said(r.Why), want)
		}
	}
	// The closure that the inside was made for is the closure of that inside.
	in := repair()
	in.Press.Diameter, in.Press.Interference = 85, InterferenceMM(r.Clearance)
	in.Press.Sleeve.Inside = (r.BoredHere.Inside[0] + r.BoredHere.Inside[1]).MM() / 2
	p := press(t, in.Press)
	if d := qty.FromMM(p.Closure.Most) - r.BoredHere.Closure.Most; d.Abs() > 5 {
		t.Errorf("closure is off by %d nm", d)
	}
	if left := r.BoredHere.Stock.Least; left < in.Allowance-qty.Micrometre || left > in.Allowance+qty.Micrometre {
		t.Errorf("least stock %v", left)
	}
	// Boring it out loosens the grip a little and never tightens it.
	if r.Finished.Pressure.Most >= r.Assembled.Pressure.Most || r.Finished.Pressure.Most < 0.8*r.Assembled.Pressure.Most {
		t.Errorf("pressure %v as pressed, %v at size", r.Assembled.Pressure, r.Finished.Pressure)
	}
	holds, text := 0, ""
	for _, s := range r.Steps {
		if s.Hold {
			holds++
		}
		text += said(s.Text) + "\n"
	}
	if holds != 4 {
		t.Errorf("%d hold points\n%s", holds, text)
	}
	for _, want := range []string{"Bore the housing to 85.000 to 85.035 mm", "outside 85.071 to 85.093 mm", "Measure the sleeve: 0.036 to 0.093 mm over the housing", "0.400 to 0."} {
		if !strings.Contains(text, want) {
			t.Errorf("no step says %q\n%s", want, text)
		}
	}
}

// A coarse bore and a sleeve matched to its housing can be finished first.
func TestSleeveFinishedBefore(t *testing.T) {
	in := repair()
	in.BoreHigh = qty.DiameterMM(80.074) // H9
	in.Match, in.Make, in.LocationAllowed = 5*qty.Micrometre, 10*qty.Micrometre, 30*qty.Micrometre
	r, err := Sleeve(in)
	if err != nil || r.Choice != FinishBefore || len(r.Reasons) != 0 {
		t.Fatalf("%v %s %q %v", r.Choice, said(r.Why), r.Reasons, err)
	}
	if r.Clearance != (iso286.Range{Least: -69500, Most: -59500}) { // middle of 36 to 93, ±5
		t.Errorf("%v", r.Clearance)
	}
	b := r.FinishedBefore
	if mid := (b.Low + b.High) / 2; qty.Length(mid-qty.DiameterMM(80.037)).Abs() > qty.Micrometre {
		t.Errorf("lands on %v", mid)
	}
	if b.Low < in.BoreLow || b.High > in.BoreHigh || b.High-b.Low < qty.Diameter(in.Make) {
		t.Errorf("band %v to %v", b.Low, b.High)
	}
	in.LocationAllowed = 10 * qty.Micrometre
	if r, _ = Sleeve(in); r.Choice != BoreInPlace || !strings.Contains(said(r.Why), "the axis can stand 0.015 mm off, 0.010 mm is allowed") {
		t.Errorf("%v %s", r.Choice, said(r.Why))
	}
	in.InPlace.Ra = qty.FromMM(0.0032)
	if r, _ = Sleeve(in); r.Choice != Undecided || len(r.Reasons) != 2 || !strings.Contains(said(r.Reasons[1]), "roughness 3.20 µm, 1.60 µm is allowed") {
		t.Errorf("%v %q", r.Choice, r.Reasons)
	}
}

// Asked for, an order of work is taken whatever lands; the result says so and
// what the other would do. A set-up that cannot bore in place says why.
func TestSleeveOrderAskedFor(t *testing.T) {
	in := repair()
	in.Order = FinishBefore
	r, err := Sleeve(in)
	if err != nil || r.Choice != FinishBefore || len(r.Reasons) != 1 || !strings.Contains(said(r.Why), "would land as well") {
		t.Errorf("%v %q %q %v", r.Choice, said(r.Why), r.Reasons, err)
	}
	in.Order = BoreInPlace
	if r, _ = Sleeve(in); r.Choice != BoreInPlace || len(r.Reasons) != 0 || !strings.Contains(said(r.Why), "would not: size") {
		t.Errorf("%v %q %q", r.Choice, said(r.Why), r.Reasons)
	}
	in.InPlace = Capability{Why: fact.AsWritten("the bar is too slack")}
	if r, _ = Sleeve(in); len(r.Reasons) != 1 || said(r.Reasons[0]) != "bore in place: the bar is too slack" {
		t.Errorf("%q", r.Reasons)
	}
	// Matched to its housing, it is turned by what is measured there.
	in = repair()
	in.Match = 5 * qty.Micrometre
	r, _ = Sleeve(in)
	text := ""
	for _, s := range r.Steps {
		text += said(s.Text) + "\n"
	}
	if !strings.Contains(text, "outside 0.060 to 0.069 mm over the housing as measured") { // middle of 36 to 93 µm, ±5: 59.5 to 69.5, rounded inward
		t.Errorf("%s", text)
	}
}

func TestSleeveOutside(t *testing.T) {
	in := repair()
	in.Units = qty.Inches
	in.BoreLow, in.BoreHigh = qty.Diameter(qty.FromInches(3.1496)), qty.Diameter(qty.FromInches(3.1508))
	if r, err := Sleeve(in); err != nil || r.Outside != qty.Diameter(qty.Inch)*27/8 {
		t.Errorf("%v %v, want 3.375 in", r.Outside, err)
	}
	in.Outside = qty.Diameter(qty.FromInches(3.3125))
	r, err := Sleeve(in)
	want := "a housing of 3.3125 in does not clean up: the old bore needs 3.3307 in; the smallest standard size that does is 3.3750 in"
	if err != nil || len(r.Reasons) == 0 || words.In(qty.Inches).Say(r.Reasons[0]) != want {
		t.Errorf("%q %v", r.Reasons, err)
	}
	in = repair()
	in.Wall = 4 * qty.Millimetre
	if r, err := Sleeve(in); err != nil || r.Outside != qty.DiameterMM(88) {
		t.Errorf("%v %v: 80.03 + 2·4 within limits of s6 is 88", r.Outside, err)
	}
	in.Standard = []qty.Diameter{qty.DiameterMM(86), qty.DiameterMM(84)}
	if _, err := Sleeve(in); err == nil || refused(err) != "none of the standard outsides cleans the bore up at 84.600 mm and leaves a wall of 4.000 mm; the largest is 86.000 mm" {
		t.Error(err)
	}
	if got := LeastWall(qty.DiameterMM(200)); got != 5*qty.Millimetre {
		t.Errorf("wall %v", got)
	}
	if s := StandardOutsides(qty.Metric, qty.DiameterMM(118.5), qty.DiameterMM(131)); len(s) != 4 || s[1] != qty.DiameterMM(120) || s[3] != qty.DiameterMM(130) {
		t.Errorf("%v", s)
	}
}

func TestSleeveRefuses(t *testing.T) {
	in := repair()
	in.BoreHigh, in.CleanUp, in.Make = in.BoreLow, 0, -1
	if _, err := Sleeve(in); err == nil || faults(err) != 3 {
		t.Error(err)
	}
	in = repair()
	in.Allowance = qty.FromMM(81)
	if _, err := Sleeve(in); err == nil || refused(err) != "the allowance of 81.000 mm is larger than the bore" {
		t.Error(err)
	}
	in = repair()
	in.Fit = "H7/Q6"
	if _, err := Sleeve(in); err == nil || !strings.Contains(refused(err), `no letter "Q"`) {
		t.Error(err)
	}
}

func TestSleeveProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := repair()
		finish := rapid.Float64Range(20, 300).Draw(t, "finish")
		in.BoreLow = qty.DiameterMM(finish)
		in.BoreHigh = in.BoreLow.Plus(qty.FromMM(rapid.Float64Range(0.01, 0.2).Draw(t, "tolerance")))
		in.CleanUp = in.BoreLow.Plus(qty.FromMM(rapid.Float64Range(0, 10).Draw(t, "wear")))
		in.Press.Hub.Outside = 2.5 * (finish + 20)
		in.Press.Hub.OutsideMost = 2 * in.Press.Hub.Outside
		in.Units = qty.Unit(rapid.IntRange(0, 1).Draw(t, "units"))
		in.Fit = rapid.SampledFrom([]string{"H7/p6", "H7/s6", "H7/r6", "H8/u7"}).Draw(t, "fit")
		r, err := Sleeve(in)
		if err != nil {
			t.Fatal(err)
		}
		if r.HousingLow < in.CleanUp || r.Wall < LeastWall(in.BoreHigh) {
			t.Fatalf("outside %v does not do", r.Outside)
		}
		step := qty.Length(2540) // the inside is made to a printed size
		if s := r.BoredHere.Stock; s.Least < in.Allowance-step || s.Least > in.Allowance+step {
			t.Fatalf("stock %v", s)
		}
		b := r.FinishedBefore
		if b.Lands && !b.ByOdds && (b.Low.Plus(-b.Across-2*b.OffCentre) < in.BoreLow || b.High > in.BoreHigh) {
			t.Fatalf("said to fit: %+v", b)
		}
		if c := r.Finished.Closure.Most / r.Finished.Effective.Most; c <= 0 || c >= 1.2 {
			t.Fatalf("closes by %g of the interference", c)
		}
	})
}

func TestBond(t *testing.T) {
	// The ISO 10123 specimen, pin 20 mm in a collar 18 mm long: 1131 mm².
	c := Compounds()[1]
	in := BondInput{Diameter: 20, Length: 18, Gap: Band{0.03, 0.06}, Compound: c, ServiceMost: 20}
	r, err := Bond(in)
	if err != nil || len(r.Reasons) != 0 {
		t.Fatalf("%+v %v", r, err)
	}
	if !near(r.PushOut.Least, 15*1130.97, 1e-4) || !near(r.Torque.Most, 35*1130.97*0.01, 1e-4) || r.OffCentre != 0.03 {
		t.Errorf("%+v", r)
	}
	for _, x := range []struct {
		why         string
		change      func(*BondInput)
		least, most float64 // shear strength left, MPa
		reason      string
	}{
		{"unlike metals", func(in *BondInput) { in.Unlike = true }, 7.5, 17.5, ""},
		{"wide gap at the loose end", func(in *BondInput) { in.Gap.Most = 0.12 }, 9, 35, ""},
		{"wide gap at both ends", func(in *BondInput) { in.Gap = Band{0.09, 0.12} }, 9, 28, ""},
		{"hot", func(in *BondInput) { in.ServiceMost = 120 }, 8, 70.0 / 3, ""},
		{"all three", func(in *BondInput) { in.Unlike, in.Gap.Most, in.ServiceMost = true, 0.12, 120 }, 2.4, 35.0 / 3, ""},
		{"too hot", func(in *BondInput) { in.ServiceMost = 160 }, 4.5, 17.5, "too hot: 160 °C at work, the compound is good to 150 °C"},
		{"swelling", func(in *BondInput) { in.Load = Swelling }, 4.5, 17.5, ""},
		{"reversing", func(in *BondInput) { in.Load = Reversing }, 3, 10.5, ""},
		{"shock", func(in *BondInput) { in.Load = Shock }, 3.75, 14, ""},
		{"oil", func(in *BondInput) { in.Wet = Oil }, 12, 35, ""},
		{"water", func(in *BondInput) { in.Wet = Water }, 9, 31.5, ""},
		{"fuel", func(in *BondInput) { in.Wet = Solvent }, 12, 35, ""},
		{"longer than its diameter", func(in *BondInput) { in.Length = 40 }, 7.5, 17.5, ""},
		{"too wide", func(in *BondInput) { in.Gap.Most = 0.2 }, 9, 35, "gap too wide: 0.200 mm at the loosest pair, 0.150 mm is the most it fills"},
		{"too small", func(in *BondInput) { in.Gap.Least = 0.01 }, 15, 35, "gap too small: 0.010 mm at the closest pair, 0.020 mm is the least that fills"},
		{"no gap", func(in *BondInput) { in.Gap.Least = -0.01 }, 15, 35, "no room for the compound: the closest pair has a gap of -0.010 mm; it wipes off. Take a looser fit"},
	} {
		y := in
		x.change(&y)
		r, err := Bond(y)
		if err != nil || !near(r.Strength.Least, x.least, 1e-9) || !near(r.Strength.Most, x.most, 1e-9) || said(r.Reasons...) != x.reason {
			t.Errorf("%s: %v %q %v", x.why, r.Strength, r.Reasons, err)
		}
	}
	if _, err := Bond(BondInput{Gap: Band{1, 0}, Compound: Compound{Strength: Band{2, 1}, GapLeast: 2, GapBest: 1}, ServiceMost: math.NaN(), Tightens: Band{1, 0}}); err == nil || faults(err) != 7 {
		t.Error(err)
	}
}

func TestJointsCompare(t *testing.T) {
	p := press(t, pressOf(85, 80, 150, 0.06, greyIron, steel)).Joint()
	c := Compounds()[1]
	b, _ := Bond(BondInput{Diameter: 85, Length: 85, Gap: Band{0.03, 0.06}, Compound: c, ServiceMost: 60, Unlike: true})
	h := b.Joint(c)
	if !p.Sound || !h.Sound || p.Closure.Most <= 0 || h.Closure.Most != 0 || h.HubHoop != 0 || h.ServiceMost != 150 {
		t.Errorf("%+v\n%+v", p, h)
	}
}

func TestSleeveBonded(t *testing.T) {
	in := repair()
	c := Compounds()[1]
	in.Bond, in.Fit = &c, "H7/f7"
	r, err := Sleeve(in)
	if err != nil || r.Bonded == nil || r.Assembled != nil || r.Choice != BoreInPlace || len(r.Reasons) != 0 {
		t.Fatalf("%v %q %v", r.Choice, r.Reasons, err)
	}
	if r.BoredHere.Closure != (iso286.Range{}) || r.FinishedBefore.OffCentre != in.BeforeLocation+qty.FromMM(r.Bonded.OffCentre) {
		t.Errorf("%+v", r.FinishedBefore)
	}
	in.Fit = "H7/p6"
	if r, _ = Sleeve(in); len(r.Reasons) == 0 || !strings.Contains(said(r.Reasons[0]), "no room for the compound") {
		t.Errorf("%q", r.Reasons)
	}
}

func TestLeadIn(t *testing.T) {
	c := LeadIn(qty.Metric, qty.DiameterMM(85), qty.FromMM(2.5), qty.FromMM(0.093))
	if c.AnglePerSide != 15 || c.Length < qty.FromMM(1.5) || c.Length > qty.FromMM(3) || c.OnDiameter < qty.FromMM(0.5) {
		t.Errorf("%+v", c)
	}
	if c = LeadIn(qty.Metric, qty.DiameterMM(40), qty.FromMM(1), qty.FromMM(0.05)); c.AnglePerSide != 5 || c.OnDiameter > qty.FromMM(0.67) {
		t.Errorf("thin wall: %+v", c)
	}
	if c = LeadIn(qty.Metric, qty.DiameterMM(40), qty.FromMM(1), qty.FromMM(0.5)); !strings.Contains(said(c.Why), "make it longer") {
		t.Errorf("%+v", c)
	}
}

// Whatever way is taken or asked for, why is given in whole sentences.
func TestWhyEndsWithAStop(t *testing.T) {
	for _, order := range []Order{Undecided, BoreInPlace, FinishBefore} {
		for _, narrow := range []qty.Length{0, 20 * qty.Micrometre} {
			in := repair()
			in.Order = order
			in.BoreHigh = in.BoreHigh.Plus(-narrow)
			r, err := Sleeve(in)
			if err != nil {
				t.Fatal(err)
			}
			why := words.In(qty.Metric).Sentence(r.Why)
			if !strings.HasSuffix(why, ".") || strings.HasSuffix(why, "..") || strings.Contains(why, "allowed To ") {
				t.Errorf("%v, %v narrower: %q", order, narrow.MM(), why)
			}
		}
	}
}

// A sleeve that is sized once is decided by what boring in place holds as one that is worked out for each: what
// was decided before changes nothing.
func TestSizedOnceDecidedOften(t *testing.T) {
	in := repair()
	in.Press.Hub.Wall = hub.Wall{Thin: 22, Thick: 47}
	for _, order := range []Order{Undecided, BoreInPlace, FinishBefore} {
		in.Order = order
		s, err := Size(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, holds := range []Capability{in.InPlace, {Size: qty.Millimetre}, {Why: fact.New(NoWall)}, in.InPlace} {
			one := in
			one.InPlace = holds
			want, err := Sleeve(one)
			if err != nil {
				t.Fatal(err)
			}
			if got := s.Decide(holds); !reflect.DeepEqual(got, want) {
				t.Errorf("%v asked, holds %+v: sized once\n%+v\nworked out\n%+v", order, holds, got, want)
			}
		}
	}
}
