package sheets

import (
	"borewright/process/fact"
	"borewright/process/sleeve"
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// sleeved is a plan with a sleeve that has something in every field, the press
// fit of it in trouble. Invented; nothing computed it.
func sleeved() *plan.Plan {
	p := winch()
	p.Feasible = false
	p.Reasons = []plan.Reason{{Where: "winch.toml:3:1", What: fact.AsWritten("hub bore: too high")}}
	two := func(a, b float64) [2]qty.Diameter { return [2]qty.Diameter{inchD(a), inchD(b)} }
	span := func(a, b float64) sleeve.Span { return sleeve.Span{Least: inch(a), Most: inch(b)} }
	before := sleeve.SleeveWay{Inside: two(3.151, 3.1518), Closure: span(0.0006, 0.0017), Low: inchD(3.1493), High: inchD(3.1512), Roundness: inch(0.0003), OffCentre: inch(0.0002),
		Why: []string{"size: too wide"}}
	here := sleeve.SleeveWay{Inside: two(3.1334, 3.1342), Closure: span(0.0006, 0.0017), Stock: span(0.016, 0.019), Low: inchD(3.1497), High: inchD(3.1507), Roundness: inch(0.00001), Ra: 1200, Lands: true}
	p.Bores[0].Sleeve = &sleeve.Sleeve{
		Material: tube(), Fit: "H7/r6", Outside: inchD(3.375), Housing: two(3.375, 3.3764), Turned: two(3.377, 3.3779), Match: inch(0.0004), Interference: span(0.0014, 0.0022),
		Length: span(2.365, 2.375), Wall: inch(0.113), Hub: span(0.64, 1.39), Assumed: true, InPlace: true, Asked: process.BoreInPlace, Why: "It lands.", Other: "Wider limits.",
		Before: before, Here: here, Final: &sleeve.FinalClearance{Part: two(3.1495, 3.15), Asked: span(-0.0004, 0.0012), Expected: span(-0.0003, 0.0012), AtWork: span(-0.0004, 0.0013), PartOf: tube()},
		Effective: span(0.0008, 0.0022), Closure: here.Closure, Pressure: [2]float64{2, 7}, Service: [2]float64{-10, 70}, AtWork: [2]float64{1.5, 8},
		Stresses:   []sleeve.SleeveStress{{Where: "hub bore", Hoop: [2]float64{20, 120}, Equivalent: 120, Allowed: 100, Criterion: "hoop tension, brittle"}},
		PressForce: []sleeve.PressStroke{{Depth: inch(1.2), Force: [2]qty.Force{1000, 9000}}, {Depth: inch(2.4), Force: [2]qty.Force{2000, 18000}}},
		Joints: []sleeve.Joint{
			{Way: "press", Taken: true, Torque: [2]qty.Torque{100, 600}, PushOut: [2]qty.Force{2e3, 15e3}, Closure: here.Closure, HubHoop: 120, Reserve: 2.4, Note: "H7/r6", Reasons: []string{"hub bore: too high"}},
			{Way: "bond", Torque: [2]qty.Torque{5000, 12000}, PushOut: [2]qty.Force{1e5, 3e5}, OffCentre: inch(0.0012), HottestUse: 150, Sound: true, Note: "high strength"}},
		Assembly: []sleeve.Assembly{
			{Name: "press", Possible: true, HubTo: 20, SleeveTo: 20, Clearance: inch(-0.0022), Force: 18000, Why: "it goes", Cautions: []string{"Stand clear.", "Local codes first."}},
			{Name: "heat the housing", Possible: true, HubTo: 120, SleeveTo: 20, Clearance: inch(0.0017), Why: "it opens", Cautions: []string{"Heat slowly.", "Local codes first."}},
			{Name: "sleeve in dry ice", HubTo: 20, SleeveTo: -78, Clearance: inch(0.0004), Why: "too little", Cautions: []string{"Ventilate."}}},
		Bonding: []string{"Clean both."}, Chuck: sleeve.Chucking{Grip: 2000, GripMost: 40, Lobes: inch(0.005), SixPads: inch(0.0003), Allowed: inch(0.0001), Rough: true,
			OuterDia: inchD(3.378), Bored: inchD(3.133), Instead: []string{"Soft jaws.", "Six pads."}},
		Details: []sleeve.Detail{{What: "Vent", How: "a groove"}}, Lathe: []string{"Rough it.", "Finish it."},
		Order:    []sleeve.OrderStep{{Text: "Bore the housing."}, {Text: "Measure the housing.", Hold: true}},
		Cautions: []string{"The hub is brittle."}, Stops: []string{"hub bore: too high"},
	}
	return p
}

func sleeveText(t interface{ Fatal(...any) }, p *plan.Plan) string {
	var b bytes.Buffer
	if err := WriteSleeves(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestSleeveGolden(t *testing.T) { golden(t, "sleeve.txt", []byte(sleeveText(t, sleeved()))) }

// What the lathe, the bench and the person at the press need stands on the
// paper, each possible way with its cautions, each caution once.
func TestSleeveSaysAll(t *testing.T) {
	text := sleeveText(t, sleeved())
	flat := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{
		"NOT PROVEN", "ASSUMED", "bored in place, when it is home", "HOLD: Measure the housing.", "NOT as asked", "below 0 is tight",
		"outside over housing", "Stand clear.", "Heat slowly.", "Soft jaws.", "The hub is brittle.", "TOO HIGH", "NO: hub", "2.40 times", "Clean both.",
		"-0.0003 to 0.0012 in", "14 °F (-10 °C)",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if strings.Contains(flat, "Ventilate.") {
		t.Error("cautions of a way that cannot be taken")
	}
	if n := strings.Count(flat, "Local codes first."); n != 1 {
		t.Errorf("a caution stands %d times", n)
	}
	// Bonded and finished before: a gap, nothing closes, nothing left inside.
	p := sleeved()
	s := p.Bores[0].Sleeve
	s.Fastening, s.InPlace, s.Before.Closure, s.Interference = process.Bond, false, sleeve.Span{}, sleeve.Span{Least: inch(-0.0024), Most: inch(-0.0016)}
	flat = strings.Join(strings.Fields(sleeveText(t, p)), " ")
	for _, want := range []string{"finished on the lathe, before it goes in", "outside under housing 0.0016 0.0024", "closes by nothing"} {
		if !strings.Contains(flat, want) {
			t.Errorf("bonded: no %q in %s", want, flat)
		}
	}
	if strings.Contains(flat, "Press force along") {
		t.Error("a bond has no press force")
	}
}

// A joint that holds nothing of a load that is stated holds 0 times it.
func TestJointThatHoldsNothing(t *testing.T) {
	p := sleeved()
	p.Job.Sleeve = &process.Sleeve{Torque: 100}
	p.Bores[0].Sleeve.Joints[0].Reserve = 0
	flat := strings.Join(strings.Fields(sleeveText(t, p)), " ")
	if strings.Contains(flat, "no load stated") || !strings.Contains(flat, "least hold over load 0 times") {
		t.Error(flat)
	}
}

func TestNoSleeve(t *testing.T) {
	if err := WriteSleeves(&bytes.Buffer{}, winch()); !errors.Is(err, ErrNoSleeve) {
		t.Error(err)
	}
}

// Whatever stands in the plan, the paper fits, and the sheet carries the same
// sections.
func TestSleeveFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sleeved()
		if rapid.Bool().Draw(t, "mm") {
			p.Job.Units = qty.Metric
		}
		scramble(t, reflect.ValueOf(p).Elem(), rapid.Bool().Draw(t, "figures"))
		fitsPaper(t, sleeveText(t, p), false)
		var b bytes.Buffer
		if err := Build(p).WriteASCII(&b); err != nil {
			t.Fatal(err)
		}
		fitsPaper(t, b.String(), true)
		words := func(s string) string { return strings.Join(strings.Fields(strings.ReplaceAll(s, "  ! ", "")), "") }
		b.Reset()
		if err := Build(p).WriteText(&b); err != nil {
			t.Fatal(err)
		}
		sheet := words(b.String())
		s := p.Bores[0].Sleeve
		must := append([]string(nil), s.Cautions...)
		must = append(must, s.Chuck.Instead...)
		for _, c := range must {
			if !strings.Contains(sheet, words(page.Clean(c))) {
				t.Errorf("lost: %q", c)
			}
		}
	})
}
