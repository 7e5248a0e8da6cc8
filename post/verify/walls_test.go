package verify

import (
	"testing"

	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// Bores before this one by the job stand at their least finished size, wider or
// narrower than found, and even when they are finished and no longer in the
// plan; those after it stand as found.
func TestWallsGoByTheOrderOfTheJob(t *testing.T) {
	mm := qty.DiameterMM
	bore := func(station int, low float64) process.Bore {
		return process.Bore{Station: station, Finish: process.Finish{Low: mm(low), High: mm(low + 0.05)}}
	}
	job := &process.Job{
		Stations: []process.Station{{Name: "a", Diameter: mm(73)}, {Name: "b", Diameter: mm(66)}, {Name: "c", Diameter: mm(90)}, {Name: "d", Diameter: mm(70)}},
		Bores:    []process.Bore{bore(0, 80), bore(2, 85), bore(1, 67), bore(3, 75)},
	}
	p := &plan.Plan{Job: job, Bores: []plan.Bore{{Bore: job.Bores[2]}, {Bore: job.Bores[3]}}} // the first two are finished
	want := map[string]float64{"a": 80, "c": 85, "d": 70}
	walls := wallsOf(p, []through.Bore{{Index: job.Bores[2].Station}})
	for _, w := range walls {
		if got := 2 * w.radius.MM(); got != want[w.name] {
			t.Errorf("%s: Ø%v, want %v", w.name, got, want[w.name])
		}
	}
	if len(walls) != len(want) {
		t.Errorf("%d walls, want %d", len(walls), len(want))
	}
}
