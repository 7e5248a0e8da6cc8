package plan_test

import (
	"testing"

	"borewright/process/fact"
	"borewright/process/place"
)

// What the readings of one bore make likely is told at the visits to that bore alone: the size that
// it names is no size of another.
func TestCautionsOfOneBore(t *testing.T) {
	p := made(t, "gear-case/job.toml")
	told := map[string]int{}
	for _, at := range p.Turns() {
		for _, c := range p.CautionsOf(at[0], at[1]) {
			if c.Kind != place.ShadowLikely {
				continue
			}
			told[p.Bores[at[0]].Station.Name]++
			if name, _ := fact.AsName(c.Nth(1)); name != p.Bores[at[0]].Station.Name {
				t.Errorf("visit %v is to %s, and told of %s", at, p.Bores[at[0]].Station.Name, name)
			}
		}
	}
	if told["drive side"] == 0 {
		t.Errorf("no longer likely: %v", told)
	}
}
