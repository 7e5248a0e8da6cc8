package fit_test

import (
	"strings"
	"testing"

	. "borewright/process/fit"
	"borewright/process/hub"
	"borewright/process/qty"
)

// A steel sleeve in an iron hub with one flat, wall 10 to 40 mm, by finite elements
// (testdata/fit/uneven_hubs.csv, FS4): 70.1 MPa on the flat, where an even ring of 10 mm
// has 33.2, and 0.0244 mm out of round. The thin side is never told lower, and the
// wall that is even is told as it always was.
func TestUnevenWall(t *testing.T) {
	iron := Ring{E: 105e3, Nu: 0.26, Alpha: 11e-6, Tensile: 200, Brittle: true}
	tube := Ring{E: 206e3, Nu: 0.30, Alpha: 11.5e-6, Yield: 310}
	even := press(t, pressOf(100, 90, 120, 0.060, iron, tube))
	in := pressOf(100, 90, 120, 0.060, iron, tube)
	in.Hub.OutsideMost = 180
	iron.Wall = hub.Wall{Thin: 10, Thick: 40}
	in.Hub.Wall = iron.Wall
	flat := press(t, in)
	if !near(even.Stresses[0].Hoop.Most, 33.24, 1e-3) || even.Uneven != 0 || even.OutOfRound != 0 {
		t.Errorf("even: %+v", even.Stresses[0])
	}
	if got := flat.Stresses[0].Hoop.Most; got < 70.14 || got > 1.25*70.14 || !near(flat.Uneven, got/even.Stresses[0].Hoop.Most, 1e-9) {
		t.Errorf("%.2f MPa, %.2f times", got, flat.Uneven)
	}
	if flat.OutOfRound < 0.02442 || flat.OutOfRound > 2.1*0.02442 {
		t.Errorf("out of round %.4f", flat.OutOfRound)
	}
	// What the even ring bears is beyond the strength at the flat: 0.4 of 200 MPa.
	if !even.Stresses[0].OK || flat.Stresses[0].OK || !strings.Contains(said(flat.Reasons...), "hub bore") {
		t.Errorf("%q", said(flat.Reasons...))
	}
	if c := said(flat.Cautions...); !strings.Contains(c, "uneven wall, 10.000 mm to 40.000 mm: the hub's tension") || strings.Contains(c, "thin hub") {
		t.Errorf("%q", c)
	}
	// The same walls about a bore out of the middle of a round hub: case EB4 of the table is
	// like it; the factor of the eccentric ring is less than that of a flat.
	in.Hub.Wall = hub.Wall{Thin: 10, Thick: 40, At: 240, Read: true, Round: true}
	round := press(t, in)
	if round.Stresses[0].Hoop.Most >= flat.Stresses[0].Hoop.Most || round.OutOfRound >= flat.OutOfRound/3 {
		t.Errorf("%+v", round)
	}
	if c := said(round.Cautions...); !strings.Contains(c, "thinnest at 8 o'clock") {
		t.Errorf("%q", c)
	}
}

// An uneven wall goes into the decision, and into what the hold point says.
func TestUnevenWallDecides(t *testing.T) {
	in := repair()
	in.Press.Hub.Outside, in.Press.Hub.OutsideMost = 105, 145
	before, err := Sleeve(in)
	if err != nil {
		t.Fatal(err)
	}
	in.Press.Hub.Wall = hub.Wall{Thin: 10, Thick: 30, At: 90, Read: true}
	after, err := Sleeve(in)
	if err != nil {
		t.Fatal(err)
	}
	u := after.FinishedBefore.Uneven
	if u <= 0 || after.FinishedBefore.Roundness != before.FinishedBefore.Roundness+u || after.BoredHere.Roundness != before.BoredHere.Roundness {
		t.Errorf("%v, %+v against %+v", u, after.FinishedBefore, before.FinishedBefore)
	}
	want := "The uneven wall leaves it up to " + qty.Metric.Say(qty.Plain(after.BoredHere.Uneven)) + " out of round, radial: read "
	var hold string
	for _, s := range after.Steps {
		hold += said(s.Text) + "\n"
	}
	if !strings.Contains(hold, want) || !strings.Contains(hold, "toward the thin wall, 3 o'clock, and across") {
		t.Errorf("%q not in %q", want, hold)
	}
}
