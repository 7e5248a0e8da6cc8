package sheets

import (
	"bytes"
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/landing"
	"borewright/process/setup"
)

// TestPlanSaysHowSure: what a terminal shows of a plan says how sure the visit is that is the least
// sure of its size, and which pass is the loudest, where one may sing; of a quiet plan nothing of chatter.
func TestPlanSaysHowSure(t *testing.T) {
	quiet, will := [2]float64{3, 9}, [2]float64{0.2, 0.4}
	text := func(chance [2]float64, margin [2]float64) string {
		p := winch()
		p.Bores[0].Visits[0].Budget, p.Bores[0].Visits[1].Budget = budget(chance[0]), budget(chance[1])
		for k := range p.Bores[0].Visits {
			for i := range p.Bores[0].Visits[k].Passes {
				p.Bores[0].Visits[k].Passes[i].Stability = setup.Stability{Hz: 100, Margin: quiet}
			}
		}
		p.Bores[0].Visits[0].Passes[2].Stability.Margin = margin
		if margin == will { // the one that will sing is the loudest, whatever others do at their worst
			p.Bores[0].Visits[1].Passes[0].Stability.Margin = [2]float64{0.1, 2}
		}
		var b bytes.Buffer
		if err := WritePasses(&b, p); err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(b.String()), " ")
	}
	for _, c := range []struct {
		chance, margin [2]float64
		says, not      string
	}{
		{[2]float64{0.97, 0.99}, quiet, "On size idler, visit 1 of 2: 97.0 in 100", "Chatter"},
		{[2]float64{0.97, 0.93}, quiet, "On size idler, visit 2 of 2: 93.0 in 100", "Chatter"},
		{[2]float64{0.97, 0.99}, [2]float64{0.4, 2}, "Chatter idler, visit 1 of 2: may sing, likelier than not, near 100 Hz: quiet to a chip 0.4 times as wide", "visit 2 of 2: may"}, // √(0.4·2) = 0.9
		{[2]float64{0.97, 0.99}, [2]float64{0.4, 3}, "Chatter idler, visit 1 of 2: may sing, likelier quiet, near 100 Hz", "than not"},                                                // √(0.4·3) = 1.1
		{[2]float64{0.97, 0.99}, will, "Chatter idler, visit 1 of 2: will sing", "visit 2 of 2: will"},
	} {
		if got := text(c.chance, c.margin); !strings.Contains(got, c.says) || strings.Contains(got, c.not) {
			t.Errorf("want %q, not %q: %s", c.says, c.not, got)
		}
	}
}

func budget(chance float64) *landing.Budget {
	return &landing.Budget{Chance: chance, Blind: chance, Gain: 1, Voice: fact.New(setup.Quiet)}
}
