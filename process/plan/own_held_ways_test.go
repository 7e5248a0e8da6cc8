package plan_test

import (
	"strings"
	"testing"

	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/slow"
)

// TestWaysOfHeldAndTurnedBars: of jobs of both faces, and of bars in a bearing, each way that is told of one that
// is refused is read as it is written, and frees the job as it was told; a bar of any stickout is clamped anew.
func TestWaysOfHeldAndTurnedBars(t *testing.T) {
	t.Parallel()
	slow.Test(t, "searches of ways for jobs of several bores, each way planned as it is written")
	both := example(t, "swing-bridge/both.toml")
	const anyLength = "steps   = [ { diameter = 128, length = 70 }, { diameter = %D, length = 300 } ]\nstickout = [120, 370]\nfeed_by = \"table\""
	thin := func(d string) string {
		return edited(t, both, swingBar, strings.Replace(anyLength, "%D", d, 1), "most        = 165", "least = 60\nmost        = 165")
	}
	tight := "\n[limits]\nspring_finish = 0.0002\n[cutter]"
	rack := "units = \"mm\"\n[[bar]]\nname = \"any\"\nsteps = [ { diameter = 128, length = 70 }, { diameter = 50, length = 300 } ]\nstickout = [120, 370]\nleast = 60\nmost = 165\n"
	for why, x := range map[string]struct{ text, rack string }{
		"both faces, a thin bar of any stickout":         {edited(t, thin("50"), "\n[cutter]", tight), ""},
		"both faces, a thin one that the far bore names": {edited(t, both, "order        =", "bars = \"rack.toml\"\norder        =", "face      = \"far\"\nrepair", "face      = \"far\"\nbar = \"any\"\nrepair", "\n[cutter]", tight), rack},
		"both faces, in a bearing":                       {edited(t, inBearing(t, both, "1100"), "\n[cutter]", "\n[limits]\nspring_finish = 0.0003\n[cutter]"), ""},
		"one face, in a bearing":                         {edited(t, example(t, "ferry-ramp/job.toml"), "\n[cutter]", "\n[limits]\nspring_finish = 0.00005\n[cutter]"), ""},
	} {
		job, err := Tooled(files.Job("job.toml", []byte(x.text), func(string) ([]byte, error) { return []byte(x.rack), nil }))
		if err != nil {
			t.Errorf("%s: %v", why, err)
			continue
		}
		p := Make(job)
		if p.Feasible {
			t.Errorf("%s: it stands", why)
			continue
		}
		if len(p.Free()) == 0 {
			t.Errorf("%s: no way is told: %v", why, p.Reasons)
		}
		for _, w := range p.Free() {
			asTold(t, why, x.text, x.rack, w)
		}
	}
}
