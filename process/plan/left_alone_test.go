package plan_test

import (
	"strings"
	"testing"

	. "borewright/process/plan"
	"borewright/process/qty"
)

// By hand, four places: the pocket stands 0.00005 in to the left and 0.0005 in high
// against a dial that counts up when pressed in. The first is less than a sweep of four
// places with a dial of 0.0001 in tells of a bore that may stand 0.0005 in off the line;
// together with what the bar hangs the second is more.
func TestMoveWithinItsDoubtIsLeftAlone(t *testing.T) {
	p := made(t, "lock-winch/job.toml")
	x, y := p.LineUp.Move[0], p.LineUp.Move[1]
	if x.By != 0 || x.Left == 0 || x.Left > x.Unsure || x.Graduations != 0 {
		t.Errorf("X: %+v", x)
	}
	if y.By == 0 || y.Left != 0 || qty.FromMM(y.By).Abs() <= qty.FromMM(y.Within) {
		t.Errorf("Y: %+v", y)
	}
	// What is left alone is on the dial afterwards: at 3 o'clock against 9 by as much as
	// was read, at 12 against 6 by what the bar hangs.
	at := p.LineUp.Swept[0].Expected
	if d := at[1] - at[3]; d.Abs() > 2*qty.Thou/10 || d == 0 {
		t.Errorf("after: %v", at)
	}
}

// A cutter set to 10 in gets past a cover of 4.75 with no bar, however thin: said once, of the pass that
// is worst, with the station; and no bar is said to pass.
func TestCutterThatBlocksIsSaidOnce(t *testing.T) {
	p := Attempt(load(t, edited(t, seatJob, "diameter = 3.546", "diameter = 9.85", "finish  = { diameter = 3.625", "finish  = { diameter = 10", "most = 9", "most = 12",
		"radius = [1.773, 1.7765, 1.782, 1.7755]", "radius = [4.925, 4.93, 4.94, 4.927]", "from = 6.0, to = 7.25", "from = 2.0, to = 3.25", "depth = 6.2", "depth = 2.2")), nil)
	if p.Feasible || len(p.Reasons) == 0 {
		t.Fatal("it is feasible")
	}
	var words string
	for _, r := range p.Reasons {
		words += said(p, r.What) + "\n"
	}
	if strings.Count(words, "passes cover neither on the axis nor") != 1 || !strings.Contains(words, "it is the cutter that does not get there") {
		t.Errorf("%s", words)
	}
	if r := p.Bores[0].Visits[0].Reach; r == nil || r.Largest != 0 || !r.CutterStops {
		t.Errorf("%+v", r)
	}
}
