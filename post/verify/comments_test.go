package verify

import (
	"regexp"
	"strings"
	"testing"

	"borewright/post/verify/script"
)

// What the comments tell the hands is held against the plan as far as it is the
// cutter's setting, and the order to measure.
func TestCommentsTellTheSetting(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	program := written(t, p, 0, 0)
	good := string(program)
	if r := Check(program, "", p, 0, 0); !r.Proven {
		t.Fatal(r.Findings)
	}
	const set = `\(SET CUTTER TO DIA (3\.37\d\d) IN, SPRING ALLOWED FOR\.\)\n`
	for _, c := range []struct {
		why, old, new string
		kind          Kind
		what          string
	}{
		{"no DIA", set, "(SET CUTTER TO 3.4000 IN, SPRING ALLOWED FOR.)\n", script.KindSetting, "3.4000"},
		{"another word for the cutter", set, "(SET TOOL TO 3.5000 IN)\n", script.KindSetting, "3.5000"},
		{"DIA after the number", set, "(SET CUTTER AT 3.4000 DIA, SPRING ALLOWED FOR.)\n", script.KindSetting, "3.4000"},
		{"by graduations", set, "(SET CUTTER 10 GRADUATIONS OUT, SPRING ALLOWED FOR.)\n", script.KindSetting, "to 10"},
		{"left, where it changes", set, "(LEAVE CUTTER AS IT IS.)\n", script.KindSetting, "leave the cutter as it is"},
		{"no order to set", set, "", script.KindStop, "does not say to set"},
		{"on the line of the stop", `(?s)(.*\(SET.*?) M0\n`, "$1 M0 (SET CUTTER TO 3.5 IN DIA)\n", script.KindSetting, "3.5"},
		{"after the stop", `(?s)(.*\(SET.*?) M0\n`, "$1 M0\n(SET CUTTER TO DIA 3.4000 IN)\n", script.KindSetting, "3.4000"},
		{"beside the moves", `(N\d+ S\d+ M3\n)`, "(SET CUTTER TO DIA 3.4000 IN)\n$1", script.KindSetting, "3.4000"},
		{"in the header", `(\d FINISH: SET DIA 3\.)3`, "${1}4", script.KindSetting, "is cut at"},
		{"another pass of the header", `(\(2 ROUGH: SET DIA )[0-9.]+`, "${1}3.3764", script.KindSetting, "pass 2 is cut at"},
		{"no order to measure", `(?s)\(---- HOLD AFTER PASS 5.*?ANEW\.\)\n`, "", script.KindStop, "does not say to measure"},
		{"no order to measure at the end", `(?s)\(---- HOLD AFTER PASS 6.*?ANEW\.\)\n`, "", script.KindStop, "does not say to measure"},
		{"the tip, in the header", `(TIP STOPS AT )\+X`, "${1}-X", script.KindRetract, "stop at -X"},
		{"the tip, at the retract", `(RETRACT BY ORIENTED STOP: TIP AT )\+X`, "${1}+Y", script.KindRetract, "stop at +Y"},
		{"the units", `\(UNITS: INCH`, "(UNITS: MM", script.KindStart, "units are MM"},
	} {
		bad := regexp.MustCompile(c.old).ReplaceAllString(good, c.new)
		r := Check([]byte(bad), "", p, 0, 0)
		found := false
		for _, f := range r.Findings {
			found = found || f.Kind == c.kind && strings.Contains(f.What+"; "+f.Want, c.what)
		}
		if bad == good || !found {
			t.Errorf("%s: %v", c.why, r.Findings)
		}
	}
	bare := regexp.MustCompile(`(?m)^\(.*\n`).ReplaceAllString(good, "")
	if r := Check([]byte(bare), "", p, 0, 0); !r.Proven {
		t.Errorf("without a comment: %v", r.Findings)
	}
}
