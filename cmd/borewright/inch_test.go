package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"borewright/cmd/jobfile"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/slow"
	"borewright/sheets"
)

// metricUnit is a figure with a unit that an inch shop does not work in.
var metricUnit = regexp.MustCompile(`[0-9] ?(kW|W|MPa|GPa|N·m|kN|N|K|°C|mm/rev|mm|cm|µm/N|µm|m/min|kg)([^A-Za-z0-9/·]|$)`)

// besides are the places where metric figures stand on purpose: in brackets
// behind the inch or °F figure, in names of the shop's files, and on a dial that is
// cut in mm.
var besides = regexp.MustCompile(`\((Ø?[-0-9.]+ to )?Ø?[-0-9.]+ ?(mm|mm/rev)\)|[-0-9.]+ ?°C\)|CNC boring mill, 110 mm spindle|1( graduation)? = 0[.][0-9]+ mm|whole turns, [0-9.]+ mm each`)

// keepPlans has a test plan a job once for all the verbs that it runs on it: what would free
// it is searched once, too.
func keepPlans(t *testing.T) {
	plans, tables := jobfile.MakeAfter, jobfile.CorrectionsOf
	jobfile.MakeAfter, jobfile.CorrectionsOf = keptPlans(), keptCorrections()
	t.Cleanup(func() { jobfile.MakeAfter, jobfile.CorrectionsOf = plans, tables })
}

// keptPlans plans a job once for the same results.
func keptPlans() func(*process.Job, *process.Results) *plan.Plan {
	var kept sync.Map
	return func(job *process.Job, results *process.Results) *plan.Plan {
		key, err := json.Marshal([]any{job, results})
		if err != nil {
			panic(err)
		}
		p, there := kept.Load(string(key))
		if !there {
			p, _ = kept.LoadOrStore(string(key), plan.MakeAfter(job, results))
		}
		return p.(*plan.Plan)
	}
}

// keptCorrections works the tables beside the hold points of a plan out once.
func keptCorrections() func(*plan.Plan) sheets.Corrections {
	var kept sync.Map
	return func(p *plan.Plan) sheets.Corrections {
		c, _ := kept.LoadOrStore(p, sheets.CorrectionsOf(p))
		return c.(sheets.Corrections)
	}
}

// An inch reader reads inches, hp, ksi, psi, lbf, ft·lb and °F: every face of
// every shipped inch job, and of jobs changed so that each limit, each joint and
// each way out has something to say.
func TestInchJobsReadInches(t *testing.T) {
	type edit struct{ old, new string }
	jobs := []struct {
		why, job string
		edits    []edit
	}{
		{"the winch", "lock-winch", nil},
		{"the pump", "hand-pump", nil},
		{"a weak bar", "ferry-ramp", []edit{{"[cutter]", "[limits]\nspring_rough = 0.0004\nspring_finish = 0.0001\n[cutter]"}}},
		{"a bond", "lock-winch", []edit{{"hold     = \"press\"\nfit      = \"H7/r6\"", "hold     = \"bond\"\ngap      = 0.02\nservice = [20, 160]"}}},
		{"a load to hold", "lock-winch", []edit{{"fit      = \"H7/r6\"", "fit      = \"H7/p6\"\ntorque   = 40000\nthrust   = 900"}}},
		{"finished on the lathe", "lock-winch", []edit{{"fit      = \"H7/r6\"", "fit      = \"H7/r6\"\nfinish   = \"before\""}}},
		{"the ramp", "ferry-ramp", nil},
		{"a hot bench", "hand-pump", []edit{{"service  = [5, 40]", "service  = [5, 190]"}}},
	}
	keepPlans(t)
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
