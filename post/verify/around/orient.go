package around

import (
	"fmt"
	"math"

	"borewright/post/rs274"
	"borewright/post/verify/script"
)

// orient takes M19: at the angle that the control states, or at the one that it has.
func (f *Follower) orient(e *rs274.Event) {
	f.settle = f.c.OrientSettle
	if f.c.OrientWord == 0 {
		return // an S beside it is found by the words, an R has no use
	}
	want := fmt.Sprintf("M19 with %s%d: there the tip points to %s", f.c.OrientWord, f.c.OrientAngle, f.c.TipAtStop)
	switch {
	case e.Angle < 0:
		f.add('M', script.KindRetract, "an oriented stop without its angle", want)
	case math.Abs(e.Angle-float64(f.c.OrientAngle)) > 1e-9:
		f.add(byte(f.c.OrientWord), script.KindRetract, fmt.Sprintf("an oriented stop at %g degrees", e.Angle), want)
	}
}

// rest holds the first move after an oriented stop: the spindle has had time to come to rest.
func (f *Follower) rest() {
	if f.settle > 1e-9 {
		f.add(0, script.KindDwell, "moves before the spindle is at rest after the oriented stop", fmt.Sprintf("a dwell of %g s at least after M19", f.c.OrientSettle))
	}
	f.settle = 0
}
