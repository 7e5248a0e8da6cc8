package plan_test

import (
	"math"
	"strings"
	"testing"

	"borewright/process"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// limberJob is a bar so limber that a light cut springs it by more than the next one
// takes off for certain.
const limberJob = `
units = "mm"
number = "T-9"
revision = "-"
title = "a limber bar"
machine = "hbm-5in"
material = "steel-1045"
station = [ { name = "far", from = 0, to = 60, diameter = 80 } ]
[[bore]]
station = "far"
repair = "rebore"
finish = { low = 80.4, high = 81 }
roundness = 0.5
ra = 12
[bar]
steps = [{ diameter = 28, length = 290 }]
[cutter]
material = "hss"
nose_radius = 0.8
most = 100
[limits]
spring_rough = 0.25
spring_finish = 0.25
sing = true
depth_most = 5
`

// Drawn out along the wall, a roughing pass leaves a line as deep as the bar sprang. A
// plan never draws one out whose line the next pass may leave; and where such a pass was
// cut all the same, the rest says so.
func TestNoLineIsLeft(t *testing.T) {
	job := load(t, limberJob)
	p := Make(job)
	if !p.Feasible {
		t.Fatalf("%+v", p.Reasons)
	}
	v := p.Bores[0].Visits[0]
	if first, next := v.Passes[0], v.Passes[1]; first.Kind != schedule.Witness || first.Setting <= next.Low {
		t.Fatalf("set to %v, and the next pass leaves %v at least: the job shows nothing", first.Setting, next.Low)
	}
	if o := v.Passes[0].Out; o.By != process.ShiftOut || o.Why.Kind != schedule.OutKeepsLine {
		t.Errorf("comes out by %v, %v", o.By, o.Why)
	}
	for i, q := range v.Passes[:len(v.Passes)-1] {
		if q.Out.By == process.DrawOut && q.Setting > v.Passes[i+1].Low {
			t.Errorf("pass %d is drawn out set to %v, and the next leaves the bore at %v", q.N, q.Setting, v.Passes[i+1].Low)
		}
	}
	q := v.Passes[0] // set larger than planned, and sprung off by more
	m := process.Measured{Station: 0, Visit: 1, Pass: 1, Kind: process.WitnessCut, Setting: q.Setting.Plus(qty.FromMM(0.25)), Feed: q.Feed, Speed: q.Speed, Before: v.Start,
		Tooling: job.Tooling(), Sizes: []process.Size{{Depth: process.Unplaced, At: -1, Diameter: q.Expected}}, Place: "r.toml:1:1"}
	for way, want := range map[process.OutBy]bool{process.DrawOut: true, process.ShiftOut: false} {
		m.WayOut = way
		rest := MakeAfter(job, &process.Results{File: "r.toml", Entries: []process.Measured{m}})
		if s := said(rest, rest.Cautions...); strings.Contains(s, "left a line") != want {
			t.Errorf("way out %v: %s", way, s)
		}
	}
}

// The axis of the last pass stands off the line by what is not known of the line, and
// where the cross slide is moved off and back before it, by how well that comes back: by
// squares, as nothing joins them. What the move leaves by rounding to half a graduation
// comes on top, less than a quarter of 0.001 in each way.
func TestTheSlideComesBack(t *testing.T) {
	for _, x := range []struct {
		out  string
		back float64
	}{{"", 0.005}, {"way_out = \"feed\"\n", 0}, {"way_out = \"draw\"\n", 0}} {
		text := strings.Replace(strings.Replace(limberJob, "diameter = 80 }", "diameter = 80, swept = true }", 1), "roundness = 0.5\n", x.out+"roundness = 0.5\noffset = 0.05\n", 1) +
			"[[sweep]]\nstation = \"far\"\ndepth = 10\nat = [0, 90, 180, 270]\ndial = [0, 0.02, 0.04, 0.02]\n"
		p := Make(load(t, text))
		if !p.Feasible || p.LineUp == nil {
			t.Fatalf("%s: %+v", x.out, p.Reasons)
		}
		v := p.Bores[0].Visits[0]
		known := math.Hypot(p.LineUp.UnsureAt("far").MM(), x.back)
		if v.Back.MM() != x.back || v.Axis.MM() < known-1e-9 || v.Axis.MM() > known+math.Hypot(0.0254/4, 0.0254/4)+0.001 {
			t.Errorf("%q: back within %v, axis within %v, known to %.4f", x.out, v.Back, v.Axis, known)
		}
	}
}
