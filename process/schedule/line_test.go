package schedule

import (
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// A line reaches the setting of the pass that was drawn out, and is gone where the next
// pass leaves the bore no smaller. By hand, in mm.
func TestLineKept(t *testing.T) {
	d := qty.DiameterMM
	drawn := WayOut{By: process.DrawOut, Why: fact.New(OutDrawn)}
	allowed := WayOut{By: process.DrawOut, Why: fact.New(OutLine)}
	fed := WayOut{By: process.FeedOut}
	pass := func(set, low float64, out WayOut) Pass { return Pass{Setting: d(set), Low: d(low), Out: out} }
	for why, x := range map[string]struct {
		lined  float64
		passes []Pass
		pass   int
		kept   bool
	}{
		"cut away":                   {0, []Pass{pass(80.4, 80.2, drawn), pass(80.8, 80.4, drawn), pass(81.2, 80.9, fed)}, 0, false},
		"the next is too light":      {0, []Pass{pass(80.4, 80.2, drawn), pass(80.8, 80.399, drawn), pass(81.2, 80.9, fed)}, 0, true},
		"the one after it is":        {0, []Pass{pass(80.4, 80.2, drawn), pass(80.8, 80.5, drawn), pass(81.2, 80.7, fed)}, 1, true},
		"the job allows it":          {0, []Pass{pass(80.4, 80.2, allowed), pass(80.8, 80.3, allowed)}, 0, false},
		"fed out leaves none":        {0, []Pass{pass(80.4, 80.2, fed), pass(80.8, 80.3, fed)}, 0, false},
		"of the pass measured":       {80.4, []Pass{pass(80.8, 80.3, fed)}, -1, true},
		"of the pass measured, gone": {80.4, []Pass{pass(80.8, 80.4, fed)}, 0, false},
		"nothing is cut":             {80.4, nil, 0, false},
	} {
		v := Visit{Lined: d(x.lined), Passes: x.passes}
		if pass, kept := v.LineKept(); kept != x.kept || kept && pass != x.pass {
			t.Errorf("%s: pass %d, kept %v", why, pass, kept)
		}
	}
}
