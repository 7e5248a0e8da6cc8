package sleeve

import (
	"math"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/feature"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

func pressed() (*Sleeve, *process.Job, process.Bore) {
	iron := &process.Material{Group: "K", Brittle: true, Rm: 250}
	steel := &process.Material{Group: "P", Re: 300}
	s := &Sleeve{Material: steel, Outside: qty.DiameterMM(100), Wall: qty.FromMM(7), InPlace: true,
		Length: iso286.Range{Most: qty.FromMM(60)}, Hub: iso286.Range{Least: qty.FromMM(20)},
		Stresses: []fit.Stress{
			{Where: fit.HubBore, Hoop: fit.Band{Least: 10, Most: 50}, Equivalent: 50, Allowed: 100, Criterion: fit.BrittleTension, OK: true},
			{Where: fit.SleeveOutside, Hoop: fit.Band{Least: -110, Most: -20}, Equivalent: 100, Allowed: 240, OK: true},
			{Where: fit.SleeveBore, Hoop: fit.Band{Least: -150, Most: -30}, Equivalent: 150, Allowed: 240, OK: true},
		}}
	return s, &process.Job{Material: iron}, process.Bore{Finish: process.Finish{Low: qty.DiameterMM(86), High: qty.DiameterMM(86.03)}}
}

// TestRaise, worked by hand: an oil hole in an iron hub at 50 MPa stands at 3 × 50 at its
// edge, of which grey iron feels 1.4 × 50; the steel sleeve bears by the section that is
// left, 60/(60 − 5) × 150.
func TestRaise(t *testing.T) {
	s, job, b := pressed()
	s.Made.Holes = []feature.Hole{{At: []float64{0}, Depth: 30 * qty.Millimetre, Diameter: qty.DiameterMM(5)}}
	s.raise(job, b)
	if len(s.Raised) != 2 || len(s.Stops) != 0 {
		t.Fatalf("%+v %v", s.Raised, s.Stops)
	}
	hub, bore := s.Raised[0], s.Raised[1]
	for _, c := range []struct{ got, want float64 }{{hub.Peak, 150}, {hub.Judged, 70}, {bore.Plain, -150}, {bore.Peak, -510}, {bore.Judged, 150 * 60. / 55}} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("%v, by hand %v", c.got, c.want)
		}
	}
	if n := len(s.Cautions); n != 1 || s.Cautions[0].Kind != RaisedMost {
		t.Errorf("%v", s.Cautions)
	}
	// A brittle metal that is no grey iron feels all of it, and cracks.
	s, job, b = pressed()
	job.Material.Group = "H"
	s.Made.Holes = []feature.Hole{{At: []float64{0}, Depth: 30 * qty.Millimetre, Diameter: qty.DiameterMM(5)}}
	s.raise(job, b)
	if len(s.Stops) != 1 || s.Stops[0].Kind != CracksAt || s.Raised[0].OK {
		t.Errorf("%v", s.Stops)
	}
	// A groove along the bore that leaves half the wall over most of the length: the
	// section that is left bears 7 × 60/(7 × 60 − 3.5 × 50) × 150 = 257 MPa.
	s, job, b = pressed()
	s.Made.Grooves = []feature.Groove{{At: []float64{90}, From: 5 * qty.Millimetre, Length: 50 * qty.Millimetre, Width: 8 * qty.Millimetre, Depth: 7 * qty.Millimetre / 2}}
	s.raise(job, b)
	if len(s.Stops) != 1 || s.Stops[0].Kind != YieldsAt || math.Abs(s.Raised[1].Judged-150*420/(420-175.)) > 1e-9 {
		t.Errorf("%v %+v", s.Stops, s.Raised)
	}
	if r := s.Raised[0]; math.Abs(r.Judged-50*1.3) > 1e-9 { // the hub behind it, half the wall gone
		t.Errorf("hub %+v", r)
	}
}

// TestOrderOfFeatures: what comes before assembly and what after, both ways.
func TestOrderOfFeatures(t *testing.T) {
	var steps []fit.Step
	for _, k := range []fact.Kind{fit.BoreHousing, fit.MeasureHousing, fit.TurnSleeve, fit.StepLeadIn, fit.MeasureOver, fit.StepAssemble, fit.StepTap, fit.MeasureClosed, fit.StepBoreInPlace, fit.MeasureFinished} {
		steps = append(steps, fit.Step{Text: fact.New(k)})
	}
	s, _, _ := pressed()
	s.Made = feature.Made{Stop: &feature.Stop{Diameter: qty.DiameterMM(110), Thickness: 5 * qty.Millimetre, Faced: true}, Pin: &feature.Pin{At: []float64{180}},
		Holes: []feature.Hole{{At: []float64{0, 135}}}, Grooves: []feature.Groove{{Width: 5 * qty.Millimetre}}}
	kinds := func() (all []string) {
		for _, o := range s.order(steps) {
			all = append(all, strings.TrimPrefix(strings.TrimPrefix(string(o.Text.Kind), "fit.step."), "sleeve.step."))
		}
		return all
	}
	if got, want := strings.Join(kinds(), " "), "bore_housing face measure_housing turn grooves lead_in measure_over assemble tap measure_closed bears pin drill_home bore_in_place oil_way measure_finished"; got != want {
		t.Errorf("in place:\n%s\n%s", got, want)
	}
	s.InPlace, s.Made.Stop.Faced = false, false
	if got, want := strings.Join(kinds(), " "), "bore_housing as_found measure_housing turn grooves drill_bench lead_in measure_over line assemble tap measure_closed bears pin bore_in_place oil_way measure_finished"; got != want {
		t.Errorf("before:\n%s\n%s", got, want)
	}
}
