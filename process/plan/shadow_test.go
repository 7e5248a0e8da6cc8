package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/place"
	. "borewright/process/plan"
)

const tornRead = "wear    = [ { depth = 6.2, at = [0, 90, 180, 270], radius = [1.791, 1.806, 1.795, 1.789] } ]"

// tornJob is a torn seat that a sleeve of 3 5/8 in outside is planned for, read at one
// depth and four places unless edited.
func tornJob(t *testing.T, edits ...string) *process.Job {
	t.Helper()
	text := edited(t, seatJob, "rebore", "sleeve", "3.625", "3.5", "3.546", "3.584", "wear    = [ { depth = 6.2, at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755] } ]", tornRead)
	return load(t, edited(t, text+"[sleeve]\nmaterial = \"steel-1026\"\noutside = 3.625\n", edits...))
}

func likely(p *Plan) (out []fact.Fact) {
	for _, c := range p.Cautions {
		if c.Kind == place.ShadowLikely {
			out = append(out, c)
		}
	}
	return out
}

// The old bore may show in the first housing by what was not read: it is told before
// metal is cut, with the chance, the size that does and the next sleeve; and what is
// told is taken: with that sleeve, or with those readings, nothing is left to tell.
func TestShadowIsToldBeforeMetalIsCut(t *testing.T) {
	p := Make(tornJob(t))
	told := likely(p)
	if !p.Feasible || len(told) != 1 {
		t.Fatalf("feasible %v, cautions %v", p.Feasible, said(p, p.Cautions...))
	}
	words, c := said(p, told...), p.Bores[0].CleanUp
	for _, part := range []string{
		`may show in seat`, "with a chance of", fmt.Sprintf("Ø%.4f in cleans up in 19 bores of 20", c.Most.Length().Inches()),
		fmt.Sprintf("the next standard sleeve outside for that is Ø%.4f in", c.Next.Length().Inches()),
		"read at 12 even clock positions, close to the near end and close to the far end",
	} {
		if !strings.Contains(words, part) {
			t.Errorf("no %q in %q", part, words)
		}
	}
	if c.Next < c.Most {
		t.Errorf("next outside Ø%v under Ø%v", c.Next.MM(), c.Most.MM())
	}
	if p = Make(tornJob(t, "outside = 3.625", fmt.Sprintf("outside = %v", c.Next.Length().Inches()))); !p.Feasible || len(likely(p)) != 0 {
		t.Errorf("with Ø%v: feasible %v, %s", c.Next.MM(), p.Feasible, said(p, p.Cautions...))
	}
	at, radius := readings(12, 1.795, 0.007, 0, 0.001, 30)
	two := fmt.Sprintf("wear    = [ { depth = 6.05, at = %s, radius = %s }, { depth = 7.2, at = %s, radius = %s } ]", at, radius, at, radius)
	p = Make(tornJob(t, tornRead, two))
	if !p.Feasible || len(likely(p)) != 0 || len(p.Bores[0].CleanUp.Ask) != 0 {
		t.Errorf("read at 12 places close to both ends: feasible %v, %s", p.Feasible, said(p, p.Cautions...))
	}
}
