package report

import (
	"bytes"
	"strings"
	"testing"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/revision"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/sheets/page"
)

// Where revisions are compared no chance stands without whether the bar stays quiet: in the
// line of a change, and in the table of what they come to.
func TestNoChanceWithoutTheVoice(t *testing.T) {
	e := revision.Effect{Part: revision.WholeJob, Feasible: [2]bool{true, true}, Chance: [2]float64{0.99, 0.9999}, Minutes: [2]float64{50, 40}}
	e.Voice[0], e.Voice[1] = setup.WillChatter, setup.MayChatter
	if got, want := effect(qty.Inches, e), "chance of size 99.0 -> over 99.9 % if the bar stays quiet (will sing -> may sing)"; !strings.Contains(got, want) {
		t.Errorf("%s: no %q", got, want)
	}
	p := &page.Printer{}
	p.Block(effectTable(qty.Inches, []revision.Effect{e}))
	var out bytes.Buffer
	if _, err := p.WriteTo(&out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"if it stays quiet", "99.0 -> over 99.9", "will sing -> may"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in\n%s", want, out.String())
		}
	}
}

// A spring that prints alike on both sides is no result.
func TestSpringThatPrintsAlike(t *testing.T) {
	side := func(spring qty.Length) *plan.Plan {
		return &plan.Plan{Feasible: true, Bores: []plan.Bore{{Visits: []plan.Visit{{Visit: schedule.Visit{Passes: []schedule.Pass{{Kind: schedule.Finish, Spring: spring}}}}}}}}
	}
	for _, c := range []struct {
		nm   qty.Length
		says bool
	}{{0, false}, {5 * qty.Nanometre, false}, {2540 * qty.Nanometre, true}} {
		var said []string
		for _, kv := range doesLines(qty.Inches, side(32258), side(32258+c.nm), nil, false) {
			said = append(said, kv.Value)
		}
		if got := strings.Contains(strings.Join(said, "\n"), "spring of the finish"); got != c.says {
			t.Errorf("%v more: %q", c.nm, said)
		}
	}
}
