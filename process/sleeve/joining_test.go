package sleeve

import (
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/fit"
	"borewright/process/fit/joining"
	"borewright/process/qty"
)

// A metal shrinks in a bath with its family: stainless, aluminum and the yellow metals by curves
// of their own, iron as steel does.
func TestMetalOf(t *testing.T) {
	for id, want := range map[string]joining.Metal{"steel-1026": joining.Steel, "gray-iron-200hb": joining.Steel, "stainless-304": joining.Stainless,
		"leaded-bronze": joining.Copper, "brass": joining.Copper, "cast-aluminum": joining.Aluminum} {
		m := files.MaterialByID(id)
		if m == nil {
			t.Fatalf("there is no %s", id)
		}
		if got := ringOf(m, 100, 100).Metal; got != want {
			t.Errorf("%s shrinks as %d, want %d", id, got, want)
		}
	}
}

// What a job says of load, wet, clearance and heat reaches the formulas.
func TestSleeveInputHasWhatTheJobSays(t *testing.T) {
	iron, steel := files.MaterialByID("gray-iron-200hb"), files.MaterialByID("steel-1026")
	s := &process.Sleeve{Material: steel, Outside: qty.DiameterMM(86), Fit: "H7/r6", Load: fit.Shock, Wet: fit.Water, Joining: qty.FromMM(0.12),
		Heated: qty.DiameterMM(130), Casting: qty.DiameterMM(500), Web: qty.FromMM(12)}
	job := &process.Job{Material: iron, Sleeve: s, Machine: &process.Machine{}}
	in := sleeveInput(job, process.Bore{}, process.Station{Diameter: qty.DiameterMM(80), To: qty.FromMM(60)}, 0)
	if in.Press.Load != fit.Shock || in.Wet != fit.Water || in.Press.Joining != 0.12 || in.Press.Zone != (joining.Zone{Heated: 130, Casting: 500, Web: 12}) {
		t.Errorf("%+v", in.Press)
	}
}
