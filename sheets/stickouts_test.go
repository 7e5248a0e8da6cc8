package sheets

import (
	"bytes"
	"strings"
	"testing"

	"borewright/process/candidate"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/plan"
)

// TestStopsOfStickoutsAreToldOnce: where no stickout does, of two bars, for the reason that stops the
// plan, the plan says so once, and reach, which does not say what stops the plan, once too.
func TestStopsOfStickoutsAreToldOnce(t *testing.T) {
	p := stopped()
	const why = "the nose does not pass"
	stops := fact.AsWritten(why)
	p.Reasons[0].What = fact.AsWritten("winch: " + why)
	// The plan knows the figures of the first bar's reason better than the sketch that stood it.
	p.Reasons = append(p.Reasons, plan.Reason{What: fact.New(place.BarDoesNotPass, fact.List(fact.New(place.TightPlace, fact.Name("bar"), fact.MM(2), fact.Name("winch"), fact.MM(3))), fact.MM(80), fact.MM(60))})
	p.Job.Stickouts = append(p.Job.Stickouts, candidate.Stickout{Bar: "thick", Out: inch(16), ToTip: inch(16), Why: fact.New(place.TightPlace, fact.Name("bar"), fact.MM(1), fact.Name("winch"), fact.MM(3))})
	for _, bar := range []string{"", "", "other", "other"} {
		p.Job.Stickouts = append(p.Job.Stickouts, candidate.Stickout{Bar: bar, Out: inch(16), ToTip: inch(16), Give: 0.1, Why: stops})
	}
	var passes, reach bytes.Buffer
	if err := WritePasses(&passes, p); err != nil {
		t.Fatal(err)
	}
	if err := WriteReach(&reach, p, nil); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(passes.String(), "Not feasible: ") {
		t.Errorf("what stops the plan is told again:\n%s", passes.String())
	}
	for name, text := range map[string]string{"plan": passes.String(), "reach": reach.String()} {
		if n := strings.Count(text, why); n != 1 || !strings.Contains(text, "none of which does:") || strings.Contains(text, "spring of") {
			t.Errorf("%s says %d times what stops the stickouts:\n%s", name, n, text)
		}
	}
}
