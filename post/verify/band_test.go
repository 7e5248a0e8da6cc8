package verify

import (
	"regexp"
	"strings"
	"testing"

	"borewright/post/verify/script"
	"borewright/process/qty"
)

// A witness cut marks half an inch at the near end, in a closed bore without a dwell, and
// leaves the old bore behind it. A program that bores on, stops short, or begins
// elsewhere is found, at its line.
func TestWitnessBand(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	good := string(written(t, p, 0, 0))
	r := Check([]byte(good), "", p, 0, 0)
	half := qty.FromInches(14.5) + qty.Inch/2 // the bore begins at 14.5
	if !r.Proven || r.Cuts[0].To != half || r.Cuts[1].To <= half {
		t.Fatalf("%v; cuts %+v", r.Findings, r.Cuts)
	}
	for _, c := range []struct {
		why, old, new string
		kind          Kind
		what          string
	}{
		{"bored through", `G1 Z-15\.0000`, "G1 Z-16.9373", script.KindDepth, "pass 1: the feed ends at depth 16.9373 in"},
		{"too long", `G1 Z-15\.0000`, "G1 Z-15.0010", script.KindDepth, "pass 1: the feed ends at depth 15.0010 in"},
		{"too short", `G1 Z-15\.0000`, "G1 Z-14.9000", script.KindDepth, "a witness cut marks a band at the near end"},
		{"in two feeds", `(G1 Z-15\.0000 F[0-9.]+\n)`, "${1}G1 Z-15.2000\n", script.KindDepth, "pass 1: the feed ends at depth 15.2000 in"},
		{"a dwell where there is no bottom", `(G1 Z-15\.0000 F[0-9.]+\n)`, "${1}G4 P1.8\n", script.KindDwell, "a dwell that the plan does not ask for"},
		{"on by rapid", `(G1 Z-15\.0000 F[0-9.]+\n)`, "${1}G0 Z-16.8\n", script.KindRapid, "rapid into the bore"},
		{"the next pass a band as well", `G1 Z-16\.9373`, "G1 Z-15.0000", script.KindDepth, "pass 2: the feed ends at depth 15.0000 in"},
		{"no dwell at the bottom", `G4 P[0-9.]+\n`, "\n", script.KindDwell, "without a dwell"},
	} {
		re := regexp.MustCompile(c.old)
		at := re.FindStringSubmatchIndex(good)
		if at == nil {
			t.Errorf("%s: no %q in the program", c.why, c.old)
			continue
		}
		bad := good[:at[0]] + string(re.ExpandString(nil, c.new, good, at)) + good[at[1]:]
		r := Check([]byte(bad), "", p, 0, 0)
		found := false
		for _, f := range r.Findings {
			found = found || f.Kind == c.kind && strings.Contains(f.What+"; "+f.Want, c.what)
		}
		if !found {
			t.Errorf("%s: %v", c.why, r.Findings)
		}
	}
}
