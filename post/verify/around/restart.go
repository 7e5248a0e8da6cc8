package around

import (
	"fmt"

	"borewright/post/verify/script"
)

// Restart holds the restart mark of a pass against the control: its N word stands once,
// behind whatever the machine did before the stop at which the cutter is set, and no
// further than that stop. stop and after are the lines of the two. f may be nil.
func (f *Follower) Restart(pass, stop, after int) {
	if f == nil || f.c.RestartStep <= 0 {
		return
	}
	n := pass * f.c.RestartStep
	want := fmt.Sprintf("N%d once, in the block of the stop before pass %d or right before it", n, pass)
	switch at := f.numbers[n]; {
	case len(at) == 0:
		f.out.Add(stop, 'M', script.KindStop, fmt.Sprintf("pass %d has no restart mark", pass), want)
	case len(at) > 1:
		f.out.Add(at[1], 'N', script.KindStop, fmt.Sprintf("N%d a second time: the first is in line %d", n, at[0]), want)
	case at[0] <= after || at[0] > stop:
		f.out.Add(at[0], 'N', script.KindStop, fmt.Sprintf("N%d, the restart mark of pass %d, is not at its stop", n, pass), want)
	}
}
