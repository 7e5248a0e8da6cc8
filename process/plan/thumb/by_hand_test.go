package thumb_test

import (
	"slices"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/plan/thumb"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Rules of thumb, each on both sides of its figures (handbooks, as their words
// say): a choice that keeps one is not excused, one that leaves it is.
func TestRulesOfThumbByHand(t *testing.T) {
	mm := qty.FromMM
	const class = "carbide"
	cutters := files.CutterMaterials()
	for _, r := range []struct {
		rule    fact.Kind
		cutter  string
		kind    schedule.Kind
		depth   [4]float64 // radial, mm: just out, just in, just in, just out
		feed    [4]float64 // mm
		cutting [4]float64 // m/min
	}{
		{rule: RuleRough, kind: schedule.Rough, depth: [4]float64{1.49, 1.51, 4.9, 5.1}},
		{rule: RuleRoughFeed, kind: schedule.Rough, feed: [4]float64{0.24, 0.26, 0.63, 0.65}},
		{rule: RuleSemiFinish, kind: schedule.SemiFinish, depth: [4]float64{0.19, 0.21, 0.49, 0.51}},
		{rule: RuleCarbide, kind: schedule.Finish, depth: [4]float64{0.09, 0.11, 0.24, 0.26}},
		{rule: RuleHSS, cutter: "hss", kind: schedule.Finish, depth: [4]float64{0.04, 0.06, 0.19, 0.21}},
		{rule: RuleFinishFeed, kind: schedule.Finish, feed: [4]float64{0.049, 0.051, 0.149, 0.152}},
		{rule: RuleSpeed, kind: schedule.Rough, cutting: [4]float64{69, 71, 109, 111}},
		{rule: RuleSpeed, kind: schedule.Finish, cutting: [4]float64{99, 101, 149, 151}},
	} {
		for i := range 4 {
			pick := func(x [4]float64, usual float64) float64 {
				if x[i] == 0 {
					return usual
				}
				return x[i]
			}
			cutter := class
			if r.cutter != "" {
				cutter = r.cutter
			}
			job := &process.Job{Limits: process.Limits{Overhang: 4}, Cutter: process.Cutter{Material: cutters[slices.IndexFunc(cutters, func(c *process.CutterMaterial) bool { return c.ID == cutter })]},
				Bar: process.Bar{Steps: []process.Step{{Diameter: qty.DiameterMM(50), Length: mm(200)}}}, Stations: []process.Station{{Diameter: qty.DiameterMM(90)}}}
			pass := schedule.Pass{N: 1, Kind: r.kind, Depth: mm(pick(r.depth, 1)), Feed: mm(pick(r.feed, 0.1)), Cutting: qty.CuttingSpeed(pick(r.cutting, 100))}
			v := Visit{Visit: schedule.Visit{Start: qty.DiameterMM(90), Material: files.MaterialByID("steel-1045"), Passes: []schedule.Pass{pass}}}
			found := false
			for _, w := range thumb.Of(&Plan{Job: job, Bores: []Bore{{Visits: []Visit{v}}}}) {
				if w.Rule.Kind == r.rule && w.Pass == 1 {
					found = true
					if out := i == 0 || i == 3; w.Because.None() == out {
						t.Errorf("%s, depth %v, feed %v, %v m/min: excused %v", r.rule, pass.Depth, pass.Feed, pass.Cutting, !out)
					}
				}
			}
			if !found {
				t.Errorf("no word of %s", r.rule)
			}
		}
	}
}

// A bar that stands out further than its reach, 4 diameters of steel, is excused:
// a fatter one with room for chips on either side passes, or none does. Where it
// runs on an outboard bearing it need not be.
func TestStandingOutByHand(t *testing.T) {
	for _, r := range []struct {
		why      string
		overhang float64
		outboard bool
		bore     float64 // mm; chips want 2 mm on either side, twice over: 8 mm
		want     fact.Kind
	}{
		{"short", 3.9, false, 90, ""}, {"long, and room", 4.1, false, 59, FatterPasses}, {"long, and none", 4.1, false, 57, NoFatter}, {"held at its end", 6, true, 90, ""},
	} {
		job := &process.Job{Limits: process.Limits{Overhang: 4, ChipRoom: 2 * qty.Millimetre}, Stations: []process.Station{{Diameter: qty.DiameterMM(r.bore)}},
			Bar: process.Bar{Steps: []process.Step{{Diameter: qty.DiameterMM(50), Length: 200 * qty.Millimetre}}}, Cutter: process.Cutter{Material: &process.CutterMaterial{}}}
		v := Visit{Visit: schedule.Visit{Bar: setup.Bar{Held: r.outboard}, Start: qty.DiameterMM(r.bore), Overhang: r.overhang, Material: &process.Material{}, Passes: []schedule.Pass{{Kind: schedule.Spring}}}}
		for _, w := range thumb.Of(&Plan{Job: job, Bores: []Bore{{Visits: []Visit{v}}}}) {
			if w.Rule.Kind != RuleStandsOut {
				continue
			}
			got := fact.Kind("")
			if !w.Because.None() {
				got = w.Because.Args[0].(fact.Fact).Kind
			}
			if got != r.want {
				t.Errorf("%s: %q, want %q", r.why, got, r.want)
			}
		}
	}
}
