package sheets

import (
	"bytes"
	"strings"
	"testing"

	"borewright/process/candidate"
	"borewright/process/fact"
)

// TestStopsOfStickoutsAreToldOnce: where no stickout does, of two bars, for the reason that stops the
// plan, the plan says so once, and reach, which does not say what stops the plan, once too.
func TestStopsOfStickoutsAreToldOnce(t *testing.T) {
	p := stopped()
	const why = "the nose does not pass"
	stops := fact.AsWritten(why)
	p.Reasons[0].What = fact.AsWritten("winch: " + why)
	for _, bar := range []string{"", "", "other", "other"} {
		p.Job.Stickouts = append(p.Job.Stickouts, candidate.Stickout{Bar: bar, Out: inch(16), ToTip: inch(16), Give: 0.1, Why: stops})
	}
	var plan, reach bytes.Buffer
	if err := WritePasses(&plan, p); err != nil {
		t.Fatal(err)
	}
	if err := WriteReach(&reach, p, nil); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"plan": plan.String(), "reach": reach.String()} {
		if n := strings.Count(text, why); n != 1 || !strings.Contains(text, "none of which does:") || strings.Contains(text, "spring of") {
			t.Errorf("%s says %d times what stops the stickouts:\n%s", name, n, text)
		}
	}
}
