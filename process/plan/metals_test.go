package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"borewright/process/slow"
)

// TestBarToMakeByMetal: beside the bar to make stand the same of dearer metals that give more. Each gives what a
// job gives in which it stands. Behind a wide door, with little to cut and that fine, steel gives as much as they
// do, and nothing is told.
func TestBarToMakeByMetal(t *testing.T) {
	slow.Test(t, "two searches of ways, planned in full")
	p := madeOf(t, fmt.Sprintf(doorJob, 58))
	var told []string
	minutes := 1e9
	for _, m := range p.Metals() {
		told = append(told, m.ID)
		// Ø58 less twice the 1.5 mm for chips on each side, and what the axis may stand off, in sizes of 2 mm.
		q := madeOf(t, strings.Replace(fmt.Sprintf(doorJob, 58), "[{ diameter = 70, length = 30 }, { diameter = 40, length = 510 }]", fmt.Sprintf("[{ diameter = 50, length = 490, material = %q }]", m.ID), 1))
		v := q.Bores[0].Visits[0]
		if !q.Feasible || q.Minutes != m.Minutes || len(v.Passes) != m.Passes || v.Budget.Chance != m.Chance || q.Minutes >= minutes {
			t.Errorf("of %s: told %+v; a job with it: feasible %v, %d passes, %g min, %g", m.ID, m, q.Feasible, len(v.Passes), q.Minutes, v.Budget.Chance)
		}
		minutes = q.Minutes
	}
	if got := strings.Join(told, " "); got != "steel tungsten-alloy carbide" {
		t.Errorf("told of %s", got)
	}
	fine := strings.NewReplacer("diameter = 81", "diameter = 80.4", "ra = 1.6", "ra = 0.8").Replace(fmt.Sprintf(doorJob, 78))
	if wide := madeOf(t, fine).Metals(); wide != nil {
		t.Errorf("behind a wide door told: %v", wide)
	}
}
