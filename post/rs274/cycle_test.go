package rs274

import (
	"strings"
	"testing"
)

// TestCycleSteps holds each cycle against the step table of NISTIR 6556,
// 3.5.16 (steps) and 3.5.20 (level returned to), read there. The tool starts at
// Z50 over X0 Y0; R is 5, the bottom -20, feed 30 a minute, P 1.5 s at S200.
func TestCycleSteps(t *testing.T) {
	const (
		down = "rapid X10, rapid Z5, feed Z-20 F30/min, "
		wait = "dwell 1.5 s 5 rev, "
	)
	for _, c := range []struct{ why, block, want string }{
		{"G81 G99: rapid to R", "G99 G81 X10. Z-20. R5.", down + "rapid Z5"},
		{"G81 G98: rapid to the old Z", "G98 G81 X10. Z-20. R5.", down + "rapid Z50"},
		{"G82 dwells", "G99 G82 X10. Z-20. R5. P1.5", down + wait + "rapid Z5"},
		{"G85 feeds out", "G99 G85 X10. Z-20. R5.", down + "feed Z5 F30/min"},
		{"G85 G98 feeds all the way to the old Z", "G98 G85 X10. Z-20. R5.", down + "feed Z50 F30/min"},
		{"G86 stops, rapids out, starts in the same sense", "G99 G86 X10. Z-20. R5. P1.5", down + wait + "spindle off, rapid Z5, on clockwise S200"},
		{"G86 G98", "G98 G86 X10. Z-20. R5. P1.5", down + wait + "spindle off, rapid Z50, on clockwise S200"},
		{"G88 stops for the hand", "G99 G88 X10. Z-20. R5. P1.5", down + wait + "spindle off, stop, on clockwise S200"},
		{"G89 dwells and feeds out", "G99 G89 X10. Z-20. R5. P1.5", down + wait + "feed Z5 F30/min"},
		{"G98 with the old Z below R goes to R", "G0 Z2.\nG98 G81 X10. Z-20. R5.", "rapid Z2, rapid Z5, rapid X10, feed Z-20 F30/min, rapid Z5"},
		{"from R itself nothing moves first", "G0 Z5.\nG98 G85 X0. Y0. Z-20. R5.", "rapid Z5, feed Z-20 F30/min, feed Z5 F30/min"},
		{"L repeats at the same place in G90", "G99 G81 X10. Z-20. R5. L2", down + "rapid Z5, feed Z-20 F30/min, rapid Z5"},
		{"sticky: R and Z carry over", "G99 G81 X10. Z-20. R5.\nX20.", down + "rapid Z5, rapid X20, feed Z-20 F30/min, rapid Z5"},
		{"sticky under G98: old Z between", "G98 G85 X10. Z-20. R5.\nX20.", down + "feed Z50 F30/min, rapid X20, rapid Z5, feed Z-20 F30/min, feed Z50 F30/min"},
		{"sticky P", "G99 G89 X10. Z-20. R5. P1.5\nG89 X20. Z-30.", down + wait + "feed Z5 F30/min, rapid X20, feed Z-30 F30/min, " + wait + "feed Z5 F30/min"},
		{"L does not carry over", "G99 G81 X10. Z-20. R5. L2\nX20.", down + "rapid Z5, feed Z-20 F30/min, rapid Z5, rapid X20, feed Z-20 F30/min, rapid Z5"},
		{"G80 ends the run", "G99 G81 X10. Z-20. R5.\nG80\nG0 X1.", down + "rapid Z5, rapid X1"},
		{"G1 ends the run", "G99 G81 X10. Z-20. R5.\nG1 X1.", down + "rapid Z5, feed X1 F30/min"},
		{"G91: R from the current Z, Z from R, X Y each time", "G91 G99 G81 X10. Y0. Z-25. R-45. L2",
			"rapid X10, rapid Z5, feed Z-20 F30/min, rapid Z5, rapid X20, feed Z-20 F30/min, rapid Z5"},
		{"counter-clockwise starts again counter-clockwise", "M4\nG99 G86 X10. Z-20. R5. P1.5",
			"on counter-clockwise S200, " + down + wait + "spindle off, rapid Z5, on counter-clockwise S200"},
	} {
		got := story(t, frame(c.block), Dialect{})
		const head, tail = "rapid Z50, rapid X0 Y0, on clockwise S200, ", ", spindle off, end 30"
		if want := head + c.want + tail; got != want {
			t.Errorf("%s:\n got %s\nwant %s", c.why, strings.TrimSuffix(strings.TrimPrefix(got, head), tail), c.want)
		}
	}
}

func TestCycleStepsAreMarked(t *testing.T) {
	var marks []int
	_, err := Replay(strings.NewReader(frame("G99 G86 X10. Z-20. R5. P1.5\nG80\nG0 X0.")), Dialect{}, func(e Event) error {
		if e.Line >= at && e.Line < at+3 {
			marks = append(marks, e.Cycle)
		}
		return nil
	})
	want := []int{86, 86, 86, 86, 86, 86, 86, 0} // XY, R, feed, dwell, off, out, on; then G0
	if err != nil || len(marks) != len(want) {
		t.Fatalf("marks %v, want %v; %v", marks, want, err)
	}
	for i := range want {
		if marks[i] != want[i] {
			t.Errorf("event %d has cycle %d, want %d", i, marks[i], want[i])
		}
	}
}
