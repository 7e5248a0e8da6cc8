package verify

import (
	"strings"
	"testing"
)

// TestProgramsOfASleeveOfTheFarFace: housing and inside of a sleeve of the far face are proven as
// they are written, and not with the near face said.
func TestProgramsOfASleeveOfTheFarFace(t *testing.T) {
	text := shipped("swing-bridge/both.toml")(t)
	at := strings.LastIndex(text, "[[bore]]")
	text = text[:at] + strings.NewReplacer(`"rebore"`, `"sleeve"`, "diameter = 162", "diameter = 160", "= 165", "= 180",
		"[bar]", "[sleeve]\nmaterial = \"leaded-bronze\"\noutside = 176\nfit = \"H7/s6\"\n\n[bar]").Replace(text[at:])
	p := planned(t, text, "cnc-110mm", "")
	if n := len(p.Bores[1].Visits); n != 2 {
		t.Fatalf("%d visits, want housing and inside", n)
	}
	for v := range p.Bores[1].Visits {
		program := string(written(t, p, 1, v))
		if got := Check([]byte(program), "own.nc", p, 1, v); !got.Proven {
			t.Fatalf("visit %d: %v", v+1, got.Findings)
		}
		turned := strings.ReplaceAll(program, "FAR FACE AT THE SPINDLE", "NEAR FACE AT THE SPINDLE")
		if turned == program {
			t.Fatalf("visit %d: no face is said in\n%s", v+1, program)
		}
		if Check([]byte(turned), "turned.nc", p, 1, v).Proven {
			t.Errorf("visit %d is proven for the near face", v+1)
		}
	}
}
