package plan_test

import (
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/words"
	"fmt"
	"strings"
	"testing"
)

// sweepJob is a job of three bores in line with the sweeps given.
const sweepJob = `
units = "mm"
number = "T-8"
revision = "-"
title = "sweeps"
machine = "cnc-110mm"
material = "gray-iron-200hb"
station = [
  { name = "near", from = 0, to = 30, diameter = 120, swept = true },
  { name = "mid", from = 300, to = 350, diameter = 100, swept = true },
  { name = "far", from = 420, to = 470, diameter = 80, swept = true },
]
[[bore]]
station = "far"
repair = "rebore"
finish = { diameter = 82, fit = "H7" }
[bar]
steps = [{ diameter = 60, length = 560 }]
[cutter]
material = "carbide"
nose_radius = 0.8
`

// swept reads a bore that stands (x, y) off with a dial that counts up pressed
// in: −(x·sin θ + y·cos θ), to the first order, zeroed at the first place.
func swept(station string, depth, x, y float64, slip map[int]float64) string {
	c := casting{at: [3]float64{x, y, 0}, along: [3]float64{0, 0, 1}}
	var at, dial []string
	read := c.sweep(map[string]float64{"near": 60, "mid": 50, "far": 40}[station], depth, 0, 0, eight)
	for k, v := range read {
		at, dial = append(at, fmt.Sprint(eight[k])), append(dial, fmt.Sprintf("%.4f", v-read[0]+slip[k]))
	}
	return fmt.Sprintf("[[sweep]]\nstation = %q\ndepth = %g\nat = [%s]\ndial = [%s]\n", station, depth, strings.Join(at, ", "), strings.Join(dial, ", "))
}

// A dial misread by 0.3 mm at 4:30 is named, with what the others suggest, and
// good sweeps raise no doubt.
func TestDialReadingInDoubt(t *testing.T) {
	good := swept("near", 10, 0.05, -0.1, nil)
	if p := Attempt(load(t, sweepJob+good), nil); len(p.LineUp.Doubts) > 0 {
		t.Errorf("a clean sweep is doubted: %v", p.LineUp.Doubts)
	}
	p := Attempt(load(t, sweepJob+swept("near", 10, 0.05, -0.1, map[int]float64{3: 0.3})), nil)
	if len(p.LineUp.Doubts) != 1 {
		t.Fatalf("%v", p.LineUp.Doubts)
	}
	right := p.LineUp.Swept[0].As.Dial[3].MM() - 0.3
	for _, want := range []string{"sweep 1, in near at 4:30", fmt.Sprintf("suggest %.3f mm", right), "used as it stands"} {
		if note := words.In(qty.Metric).Say(p.LineUp.Notes[0]); !strings.Contains(note, want) {
			t.Errorf("no %q in %q", want, note)
		}
	}
	if !strings.Contains(said(p, p.Cautions...), "Sweep 1, in near at 4:30") {
		t.Errorf("no caution: %q", p.Cautions)
	}
}

// The middle bore stands 0.3 mm off the line of the other two: it is named.
func TestSweepOffTheLine(t *testing.T) {
	ends := swept("near", 10, 0.1, 0, nil) + swept("far", 440, 0.1, 0, nil)
	p := Attempt(load(t, sweepJob+ends+swept("mid", 320, 0.4, 0, nil)), nil)
	notes := said(p, p.LineUp.Notes...)
	if !strings.Contains(notes, "Sweep number 3 again first") || !strings.Contains(notes, "in mid at depth 320.000 mm, by 0.") || !strings.Contains(notes, "cannot tell for sure") {
		t.Error(notes)
	}
	p = Attempt(load(t, sweepJob+ends+swept("mid", 320, 0.1, 0, nil)), nil)
	if notes = said(p, p.LineUp.Notes...); strings.Contains(notes, "off the line") {
		t.Error(notes)
	}
}

// Sweeps that cannot be used are not passed over: the reason is kept.
func TestWhyNoLineUp(t *testing.T) {
	p := Attempt(load(t, sweepJob+"[[sweep]]\nstation = \"near\"\nface = true\ndiameter = 150\nat = [0, 90, 180, 270]\ndial = [0, 0, 0, 0]\n"), nil)
	if p.LineUp != nil || !strings.HasSuffix(said(p, p.NoLineUp()), "line the work up: no bore was swept, so nothing says where the axis is; sweep one.") {
		t.Error(p.NoLineUp())
	}
	if p = Attempt(load(t, sweepJob), nil); !p.NoLineUp().None() {
		t.Error(p.NoLineUp())
	}
	// An inch reader reads inches.
	inch := edited(t, seatJob, "diameter = 4.75", "diameter = 4.75, swept = true") + "[[sweep]]\nstation = \"cover\"\ndepth = 0.5\nat = [0, 0.01, 0.02, 0.03]\ndial = [0, 0, 0, 0]\n"
	if p = Attempt(load(t, inch), nil); !strings.Contains(said(p, p.NoLineUp()), `sweep of "cover" at depth 0.5 in: fewer than three`) {
		t.Error(said(p, p.NoLineUp()))
	}
}
