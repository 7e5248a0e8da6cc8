package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/process/ways"
	"borewright/sheets/words"
)

// doorJob is an open bore 400 mm behind a door; %v: the door.
const doorJob = `
units = "mm"
number = "T-9"
revision = "-"
title = "an open bore, a slender bar"
machine = "hbm-5in"
material = "gray-iron-200hb"
station = [
  { name = "door", from = 0, to = 30, diameter = %v },
  { name = "far", from = 400, to = 460, diameter = 80 },
]
[[bore]]
station = "far"
repair = "rebore"
finish = { diameter = 81, fit = "H7" }
ra = 1.6
[bar]
steps = [{ diameter = 70, length = 30 }, { diameter = 40, length = 510 }]
[cutter]
material = "carbide"
nose_radius = 0.8
most = 90
`

// toMake are the ways that are a bar to make.
func toMake(p *Plan) (out []ways.Way) {
	return slices.DeleteFunc(slices.Clone(p.Free()), func(w ways.Way) bool { return w.Change.Kind != ways.ToMake })
}

// Where its own bar does not do, a plan names the bar to make: as thick as is usual for the bore, as short
// as reaches, of steel where steel does; written into the job, it gives what was told. Where
// none does the plan says which came nearest, or that none gets there at all.
func TestBarToMake(t *testing.T) {
	t.Parallel()
	slow.Test(t, "three searches of ways, planned in full")
	slim := strings.Replace(doorJob, "diameter = 81", "diameter = 80.6", 1) // fewer passes, searched a good deal faster
	p := madeOf(t, fmt.Sprintf(slim, 78))
	found := toMake(p)
	if p.Feasible || len(found) != 1 || !p.NoBar().None() {
		t.Fatalf("feasible %v, %d bars to make, %v", p.Feasible, len(found), p.NoBar())
	}
	w := found[0]
	// 0.8 of Ø80.6, in sizes of 2 mm; 460 of depth, 0.5 of run-out and 25 of
	// room to the nose, in lengths of 10 mm.
	say := words.In(p.Job.Units).Say(w.Change)
	if say != "a bar to make: Ø64.000 mm, 490 mm from the nose to the tip, of steel" {
		t.Error(say)
	}
	job, err := applied(t, fmt.Sprintf(slim, 78), w, "")
	if err != nil {
		t.Fatal(err)
	}
	if b := job.Bar; len(b.Steps) != 1 || b.Steps[0].Diameter != qty.DiameterMM(64) || b.CutterAt != qty.FromMM(490) || b.Steps[0].Material.ID != "steel" {
		t.Errorf("written as %+v", b)
	}
	if q := Make(job); !q.Feasible || q.Minutes != w.Minutes || len(q.Bores[0].Visits[0].Passes) != w.Passes || q.Bores[0].Visits[0].Budget.Chance != w.Chance {
		t.Errorf("as written feasible %v, %.1f minutes for %.1f", q.Feasible, q.Minutes, w.Minutes)
	}
	for door, kind := range map[float64]fact.Kind{30: ways.NoBarDoes, 5: ways.NoBarPasses} {
		p := madeOf(t, fmt.Sprintf(slim, door))
		if p.Feasible || len(toMake(p)) > 0 || p.NoBar().Kind != kind {
			t.Errorf("a door of %v: feasible %v, %d bars to make, %v", door, p.Feasible, len(toMake(p)), p.NoBar())
		}
	}
}

// Where no bar of the list does, the bar to make is an entry of the list.
func TestBarToMakeForTheList(t *testing.T) {
	slow.Test(t, "a search of ways, planned in full")
	text, rack := shortRack(t)
	job, err := Tooled(files.Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(rack), nil }))
	if err != nil {
		t.Fatal(err)
	}
	p := Make(job)
	found := toMake(p)
	if len(found) != 1 || len(found[0].Bars) == 0 || found[0].Bars[0].CutterAt != found[0].Bars[0].Stickout() || len(found[0].Bars[0].Steps) != 1 {
		t.Fatalf("%d bars to make: %+v", len(found), found)
	}
}

// TestNoWordOfBarsWhereNoneIsAtFault: a sleeve that cannot bear its load stops a plan whatever the bar, and
// nothing is said of bars to make.
func TestNoWordOfBarsWhereNoneIsAtFault(t *testing.T) {
	t.Parallel()
	slow.Test(t, "a search of ways")
	text := strings.NewReplacer(`"rebore"`, `"sleeve"`, "wear    =", "# wear", "from = 6.0, to = 7.25, diameter = 3.546", "from = 1.5, to = 2.75, diameter = 3.546, wall = 0.8", "length = 7.5", "length = 3.0",
		"\n[lineup]\ncoaxial = 0\n", "\n").Replace(seatJob)
	text = strings.Replace(text, "3.625", "3.5", 1) + "[sleeve]\nmaterial = \"steel-1026\"\noutside = 3.875\nfit = \"H7/p6\"\ntorque = 20000\n"
	p := madeOf(t, text)
	if found := p.Free(); p.Feasible || len(p.Reasons) != 1 || len(found) > 0 || !p.NoBar().None() {
		t.Errorf("feasible %v, %v, %d ways, %v", p.Feasible, p.Reasons, len(found), p.NoBar())
	}
	// An edge that is too blunt for the finish is too blunt on any bar.
	blunt := edited(t, seatJob, `"gray-iron-200hb"`, `"ductile-iron-600"`, "[bar]", "ra = 16\n[bar]", `"carbide"`, `"carbide-coated"`, "nose_radius = 0.031", "nose_radius = 0.016")
	p = madeOf(t, blunt)
	if p.Feasible || !p.NoBar().None() {
		t.Errorf("feasible %v, %v, %v", p.Feasible, p.Reasons, p.NoBar())
	}
}
