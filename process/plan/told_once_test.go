package plan_test

import (
	"strings"
	"testing"

	. "borewright/process/plan"
)

// What stops the cut inside a sleeve is said of that visit, and not of the sleeve besides.
func TestInsideOfSleeveIsStoppedOnce(t *testing.T) {
	thick := strings.Replace(example(t, "lock-winch/job.toml"), "diameter = 2.25, length", "diameter = 3, length", 1)
	p := Sought(load(t, strings.Replace(thick, "rake        = 10", "least = 3.1\nmost = 3.5", 1)))
	for _, r := range p.Reasons {
		if s := said(p, r.What); !strings.Contains(s, "finish before assembly") && !strings.Contains(s, "bore the housing for the sleeve: the bar does not pass") && !strings.Contains(s, "bore the sleeve to size in place: the bar does not pass") {
			t.Errorf("told besides: %s", s)
		}
	}
	if len(p.Reasons) != 3 {
		t.Errorf("%d reasons", len(p.Reasons))
	}
	text := strings.Replace(example(t, "lock-winch/job.toml"), "[limits]", "[limits]\nspring_rough = 0.0001", 1)
	for _, finish := range []string{"decide", "in place"} {
		p := Sought(load(t, strings.Replace(text, "[sleeve]", "[sleeve]\nfinish = \""+finish+"\"", 1)))
		n, lathe := 0, 0
		for _, r := range p.Reasons {
			s := said(p, r.What)
			if strings.Contains(s, "the edge rubs") {
				n++
			}
			if strings.Contains(s, "finish before assembly") {
				lathe++
			}
		}
		if n != 1 || (lathe > 0) != (finish == "decide") {
			t.Errorf("%s: told %d times, of the lathe %d", finish, n, lathe)
		}
	}
}
