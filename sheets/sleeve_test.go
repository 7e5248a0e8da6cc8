package sheets

import (
	"bytes"
	"errors"
	"html"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/feature"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/sleeve"
	"borewright/sheets/draw"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// sleeved is a plan with a sleeve that has something in every field, the press
// fit of it in trouble. Invented; nothing computed it.
func sleeved() *plan.Plan {
	p := winch()
	p.Feasible = false
	p.Reasons = []plan.Reason{{Where: "winch.toml:3:1", What: fact.AsWritten("hub bore: too high")}}
	two := func(a, b float64) [2]qty.Diameter { return [2]qty.Diameter{inchD(a), inchD(b)} }
	span := func(a, b float64) iso286.Range { return iso286.Range{Least: inch(a), Most: inch(b)} }
	before := fit.Option{Inside: two(3.151, 3.1518), Closure: span(0.0006, 0.0017), Low: inchD(3.1493), High: inchD(3.1512), Roundness: inch(0.0003), OffCentre: inch(0.0002),
		Why: []fact.Fact{fact.AsWritten("size: too wide")}}
	here := fit.Option{Inside: two(3.1334, 3.1342), Closure: span(0.0006, 0.0017), Stock: span(0.016, 0.019), Low: inchD(3.1497), High: inchD(3.1507), Roundness: inch(0.00001), Ra: 1200, Lands: true}
	p.Bores[0].Sleeve = &sleeve.Sleeve{
		Material: tube(), Fit: "H7/r6", Outside: inchD(3.375), Housing: two(3.375, 3.3764), Turned: two(3.377, 3.3779), Match: inch(0.0004), Interference: span(0.0014, 0.0022),
		Length: span(2.365, 2.375), Wall: inch(0.113), Hub: span(0.64, 1.39), Assumed: true, InPlace: true, Asked: process.BoreInPlace, Why: fact.AsWritten("It lands."), Other: fact.AsWritten("Wider limits."),
		Before: before, Here: here, Final: &sleeve.FinalClearance{Part: two(3.1495, 3.15), Asked: span(-0.0004, 0.0012), Expected: span(-0.0003, 0.0012), AtWork: span(-0.0004, 0.0013), PartOf: tube()},
		Effective: span(0.0008, 0.0022), Closure: here.Closure, Pressure: fit.Band{Least: 2, Most: 7}, Service: [2]float64{-10, 70}, AtWork: fit.Band{Least: 1.5, Most: 8},
		Stresses:   []fit.Stress{{Where: fit.HubBore, Hoop: fit.Band{Least: 20, Most: 120}, Equivalent: 120, Allowed: 100, Criterion: fit.BrittleTension}},
		PressForce: []fit.Stroke{{Depth: 30.48, Force: fit.Band{Least: 1000, Most: 9000}}, {Depth: 60.96, Force: fit.Band{Least: 2000, Most: 18000}}},
		Joints: []fit.Joint{
			{Method: fit.ByPress, Taken: true, Torque: fit.Band{Least: 100, Most: 600}, PushOut: fit.Band{Least: 2e3, Most: 15e3}, Closure: fit.Band{Least: 0.0006 * 25.4, Most: 0.0017 * 25.4}, HubHoop: 120, Reserve: 2.4, Note: fact.AsWritten("H7/r6"), Reasons: []fact.Fact{fact.AsWritten("hub bore: too high")}},
			{Method: fit.ByBond, Torque: fit.Band{Least: 5000, Most: 12000}, PushOut: fit.Band{Least: 1e5, Most: 3e5}, OffCentre: 0.0012 * 25.4, ServiceMost: 150, Sound: true, Note: fact.AsWritten("high strength")}},
		Assembly: []fit.Assembly{
			{Method: fit.ByPress, Possible: true, HubTo: 20, SleeveTo: 20, Clearance: -0.0022 * 25.4, Force: 18000, Why: fact.AsWritten("it goes"), Cautions: []fact.Fact{fact.AsWritten("Stand clear."), fact.AsWritten("Local codes first.")}},
			{Method: fit.ByHeat, Possible: true, HubTo: 120, SleeveTo: 20, Clearance: 0.0017 * 25.4, Why: fact.AsWritten("it opens"), Cautions: []fact.Fact{fact.AsWritten("Heat slowly."), fact.AsWritten("Local codes first.")}},
			{Method: fit.ByDryIce, HubTo: 20, SleeveTo: -78, Clearance: 0.0004 * 25.4, Why: fact.AsWritten("too little"), Cautions: []fact.Fact{fact.AsWritten("Ventilate.")}}},
		Bonding: []fact.Fact{fact.AsWritten("Clean both.")}, Chuck: fit.ChuckResult{Grip: 2000, Allowed: 0.0001 * 25.4, Outside: 3.378 * 25.4, Inside: 3.133 * 25.4,
			GripMost: 40, Lobes: 0.005 * 25.4, SixPads: 0.0003 * 25.4, Thick: true, Instead: []fact.Fact{fact.AsWritten("Soft jaws."), fact.AsWritten("Six pads.")}},
		Details: []sleeve.Detail{{What: fact.AsWritten("Vent"), How: fact.AsWritten("a groove")}}, Lathe: []fact.Fact{fact.AsWritten("Rough it."), fact.AsWritten("Finish it.")},
		Order:    []fit.Step{{Text: fact.AsWritten("Bore the housing.")}, {Text: fact.AsWritten("Measure the housing."), Hold: true}},
		Cautions: []fact.Fact{fact.AsWritten("The hub is brittle.")}, Stops: []fact.Fact{fact.AsWritten("hub bore: too high")},
	}
	return p
}

func sleeveText(t interface{ Fatal(...any) }, p *plan.Plan) string {
	var b bytes.Buffer
	if err := WriteSleeves(&b, p, false); err != nil {
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
		"NOT FEASIBLE", "ASSUMED", "bored in place, once it is in", "HOLD: Measure the housing.", "NOT as asked", "below 0 is tight",
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
	s.Fastening, s.InPlace, s.Before.Closure, s.Interference = process.Bond, false, iso286.Range{}, iso286.Range{Least: inch(-0.0024), Most: inch(-0.0016)}
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
	if err := WriteSleeves(&bytes.Buffer{}, winch(), false); !errors.Is(err, ErrNoSleeve) {
		t.Error(err)
	}
}

// A sleeve that no scale brings on paper is not drawn: its hatching would have as many lines as
// there are millimetres of it.
func TestSleeveLargerThanPaper(t *testing.T) {
	for _, large := range []qty.Length{qty.FromMM(900), qty.FromMM(3e6)} {
		p := sleeved()
		sl := p.Bores[0].Sleeve
		sl.Turned = [2]qty.Diameter{qty.Diameter(large), qty.Diameter(large)}
		drawn := figure.Sleeve(head.Of(p), p.Bores[0]) != nil
		if want := large < qty.FromMM(1e6); drawn != want {
			t.Errorf("outside %v: drawn %v", large, drawn)
		}
	}
}

// A short sleeve with grooves and holes is drawn large enough to be read: half as long as it is or
// so, and no text of it over another or off the paper.
func TestShortSleeveIsNotCrowded(t *testing.T) {
	textRE := regexp.MustCompile(`<text x="([-0-9.]+)" y="([-0-9.]+)" font-size="([0-9.]+)"([^>]*)>([^<]*)<`)
	for _, long := range []float64{20, 30, 53, 80, 130, 300} {
		p := sleeved()
		p.Job.Units = qty.Metric
		sl := p.Bores[0].Sleeve
		part := func(of float64) qty.Length { return qty.FromMM(long * of) }
		sl.Length = iso286.Range{Least: part(0.99), Most: part(1)}
		sl.LeadIn.Length = part(0.05)
		sl.Made = feature.Made{
			Holes:   []feature.Hole{{At: []float64{0, 135}, Depth: part(0.4), Diameter: qty.DiameterMM(5)}},
			Grooves: []feature.Groove{{From: part(0.34), Width: part(0.12), Depth: qty.FromMM(1)}, {From: part(0.6), Width: part(0.1), Depth: qty.FromMM(1)}},
			Pin:     &feature.Pin{Diameter: qty.DiameterMM(6), Length: part(0.2), At: []float64{180}},
		}
		figures := figure.Sleeve(head.Of(p), p.Bores[0])
		if figures == nil {
			t.Fatal("not drawn")
		}
		var all [][4]float64
		var said []string
		for _, m := range textRE.FindAllStringSubmatch(figures.Items[0].Scene.SVG("s"), -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			high, _ := strconv.ParseFloat(m[3], 64)
			high *= draw.Plain / 3.43 // of capitals
			if strings.Contains(m[4], "rotate") {
				continue // the figures of depth: draw holds them apart
			}
			wide := draw.Width(html.UnescapeString(m[5]), high)
			switch {
			case strings.Contains(m[4], `"middle"`):
				x -= wide / 2
			case strings.Contains(m[4], `"end"`):
				x -= wide
			}
			if x < 0 || x+wide > page.Width {
				t.Errorf("%g mm: %q from %.1f to %.1f", long, m[5], x, x+wide)
			}
			for i, b := range all {
				if x < b[2] && b[0] < x+wide && y-high < b[3] && b[1] < y {
					t.Errorf("%g mm: %q over %q", long, m[5], said[i])
				}
			}
			all, said = append(all, [4]float64{x, y - high, x + wide, y}), append(said, m[5])
		}
		_, after, _ := strings.Cut(figures.Items[0].Caption, "1:")
		scale, _ := strconv.ParseFloat(after[:strings.IndexByte(after, ';')], 64)
		if drawn := long / scale; len(all) < 8 || scale == 0 || drawn < min(20, long/2.5) {
			t.Errorf("%g mm: %d texts, drawn %.1f mm long", long, len(all), drawn)
		}
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
		flat := func(s string) string { return strings.Join(strings.Fields(strings.ReplaceAll(s, "  ! ", "")), "") }
		b.Reset()
		if err := Build(p).WriteText(&b); err != nil {
			t.Fatal(err)
		}
		sheet := flat(b.String())
		s := p.Bores[0].Sleeve
		w := words.In(p.Job.Units)
		must := append(w.Sentences(s.Cautions), w.Each(s.Chuck.Instead)...)
		for _, c := range must {
			if !strings.Contains(sheet, flat(page.Clean(c))) {
				t.Errorf("lost: %q", c)
			}
		}
	})
}
