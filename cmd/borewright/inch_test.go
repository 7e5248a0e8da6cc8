package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"borewright/cmd/jobfile/kept"
	"borewright/process/slow"
)

// metricUnit is a figure with a unit that an inch shop does not work in.
var metricUnit = regexp.MustCompile(`[0-9] ?(kW|W|MPa|GPa|N·m|kN|N|K|°C|mm/rev|mm|cm|µm/N|µm|m/min|kg)([^A-Za-z0-9/·]|$)`)

// besides are the places where metric figures stand on purpose: in brackets
// behind the inch or °F figure, in names of the shop's files, and on a dial that is
// cut in mm.
var besides = regexp.MustCompile(`\((Ø?[-0-9.]+ to )?Ø?[-0-9.]+ ?(mm|mm/rev)\)|[-0-9.]+ ?°C\)|CNC boring mill, 110 mm spindle|1( graduation)? = 0[.][0-9]+ mm|whole turns, [0-9.]+ mm each`)

// An inch reader reads inches, hp, ksi, psi, lbf, ft·lb and °F: every face of
// every shipped inch job, and of jobs changed so that each limit, each joint and
// each way out has something to say.
func TestInchJobsReadInches(t *testing.T) {
	type edit struct{ old, new string }
	jobs := []struct {
		why, job string
		edits    []edit
		stopped  bool // the plan is not feasible
	}{
		{"the winch", "lock-winch", nil, false},
		{"the pump", "hand-pump", nil, false},
		{"a weak bar", "ferry-ramp", []edit{{"[cutter]", "[limits]\nspring_rough = 0.0004\nspring_finish = 0.00005\n[cutter]"}}, true},
		{"a bond", "lock-winch", []edit{{"hold     = \"press\"\nfit      = \"H7/r6\"", "hold     = \"bond\"\ngap      = 0.02\nservice = [20, 160]"}}, true},
		{"a load to hold", "lock-winch", []edit{{"fit      = \"H7/r6\"", "fit      = \"H7/p6\"\ntorque   = 20\nthrust   = 2"}}, true},
		{"finished on the lathe", "lock-winch", []edit{{"fit      = \"H7/r6\"", "fit      = \"H7/r6\"\nfinish   = \"before\""}}, true},
		{"the ramp", "ferry-ramp", nil, false},
		{"a hot bench", "hand-pump", []edit{{"service  = [5, 40]", "service  = [5, 190]"}}, true},
	}
	t.Cleanup(kept.Plans())
	for _, row := range jobs[:slow.Rounds(t, "inch jobs", len(jobs), 2)] {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", row.job, "job.toml"))
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		for _, e := range row.edits {
			if !strings.Contains(text, e.old) {
				t.Fatalf("%s: %q is not in the job", row.why, e.old)
			}
			text = strings.Replace(text, e.old, e.new, 1)
		}
		path := filepath.Join(t.TempDir(), "job.toml")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		answers := 0
		asked := [][]string{{"sheet"}, {"plan"}, {"sleeve"}}
		if row.edits == nil || !testing.Short() {
			asked = append(asked, [][]string{{"plan", "--why"}, {"reach"}, {"lineup"}, {"sheet", "--only", "lineup"}, {"record"}, {"post"}}...)
		}
		for _, args := range asked {
			var out, errs bytes.Buffer
			code := run(append([]string{args[0], path}, args[1:]...), strings.NewReader(""), &out, &errs)
			if code == exitDone || out.Len() > 0 {
				answers++
			}
			if stopped := code == exitNo; len(args) == 1 && args[0] == "plan" && stopped != row.stopped {
				t.Errorf("%s: exit code %d", row.why, code)
			}
			read := besides.ReplaceAllString(strings.Join(strings.Fields(out.String()+errs.String()), " "), "")
			for _, at := range metricUnit.FindAllStringIndex(read, -1) {
				t.Errorf("%s, %s: ...%s", row.why, strings.Join(args, " "), read[max(0, at[0]-60):at[1]])
			}
		}
		if answers < 2 {
			t.Errorf("%s: only %d answers were read", row.why, answers)
		}
	}
}
