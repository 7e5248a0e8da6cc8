package plan_test

import (
	"strings"
	"testing"

	. "borewright/process/plan"
	"borewright/process/plan/thumb"
	"borewright/process/qty"
)

// Room for chips is what the job asks for (limits.chip_room) wherever the plan
// speaks of it: the bar that Why names leaves twice as much on either side, so
// does one that is offered as a way out, and what the drawing calls clear or
// tight is what Reach calls so.
func TestChipRoomIsTheJobs(t *testing.T) {
	for _, chips := range []float64{1, 1.5, 4, 9} {
		job := load(t, slenderJob(1.5))
		job.Limits.ChipRoom = qty.FromMM(chips)
		p := Make(job)
		v := p.Bores[0].Visits[0]
		named := ""
		for _, w := range thumb.Of(p) {
			if _, d, ok := strings.Cut(said(p, w.Because), "A bar up to "); ok {
				named, _, _ = strings.Cut(d, " would pass")
			}
		}
		want := ""
		if free := min(Narrowest(job), v.Start).MM() - 4*chips; free > job.Bar.Steps[0].Diameter.MM() {
			want = job.Units.Say(job.Units.Down(qty.FromMM(free)))
		}
		if named != want {
			t.Errorf("room of %g: Why names a bar of %q, twice the room on either side leaves %q", chips, named, want)
		}
		if tight := v.Reach.Least; tight == nil || tight.Verdict != v.Reach.Verdict {
			t.Errorf("room of %g: the narrowest place is %+v, Reach says %v", chips, tight, v.Reach.Verdict)
		}
	}
}
