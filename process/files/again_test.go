package files

import (
	"testing"

	"borewright/process"
)

// Plans of one job are made side by side, each from a copy of it: what Again writes into one of them
// must not show in another that has the same sleeve and the same outboard bearing.
func TestAgainWritesIntoItsOwnJob(t *testing.T) {
	was := mustLoad(t, edit(t, sleeveJob, `outside  = 86`, "outside  = 86\nfit = \"FN2\""))
	was.Sleeve.Fit = "fn 2"
	was.Bar.Outboard = &process.Support{At: 500, PlaceError: 1}
	bearing, j := *was.Bar.Outboard, *was
	if err := Again(was, &j, nil, nil); err != nil {
		t.Fatal(err)
	}
	if j.Sleeve.Fit != "FN2" || j.Bar.Outboard.PlaceError != 0 {
		t.Errorf("not completed: %q, %+v", j.Sleeve.Fit, *j.Bar.Outboard)
	}
	if was.Sleeve.Fit != "fn 2" || *was.Bar.Outboard != bearing {
		t.Errorf("another job was changed: %q, %+v", was.Sleeve.Fit, *was.Bar.Outboard)
	}
}
