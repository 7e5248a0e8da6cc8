package plan_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"borewright/process"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/process/ways"
	"borewright/sheets/words"
)

// closedJob is a closed bore behind a wall; %s: machine, bar and cutter.
const closedJob = `
units = "mm"
number = "T-9"
revision = "-"
title = "a closed bore"
machine = "%s"
material = "gray-iron-200hb"
station = [
  { name = "front", from = 0, to = 30, diameter = 90 },
  { name = "far", from = 200, to = 260, diameter = 80, blind = true, relief = 2.5 },
]
[[bore]]
station = "far"
repair = "rebore"
finish = { diameter = 81, fit = "H7" }
wear = [{ depth = 230, at = [0, 90, 180, 270], radius = [40.1, 40.12, 40.15, 40.1] }]
[bar]
%s
[cutter]
material = "carbide"
nose_radius = 0.8
most = 90
%s
`

// thickQuill is a bar of closedJob that is fed by a quill too thick for the front wall.
const thickQuill = "steps = [{ diameter = 60, length = 100 }]\nfeed_by = \"quill\""

// What stops a bar is answered with what a machinist would do: a longer bar where
// the quill is too thick to follow, and less ahead of the tip where that runs into
// a closed end. By hand: the groove ends at 262.5, the tip goes to 261.41 and 0.5
// is wanted, so 0.59 may stand ahead of it.
func TestObviousWaysOut(t *testing.T) {
	t.Parallel()
	rows := []struct {
		why, machine, bar, cutter string
		free, not                 string
	}{
		{"quill too thick for the front wall", "hbm-4in", thickQuill, "",
			"270.000 mm from the end of the quill to the tip", ""},
		{"pilot into the bottom", "cnc-110mm", "steps = [{ diameter = 50, length = 300 }, { diameter = 50, length = 20 }]\ncutter_at = 300", "least = 55",
			"a bar that ends 0.500 mm ahead of the tip (now 20.000 mm)", "largest plain bar"},
		{"holder into the bottom", "cnc-110mm", "steps = [{ diameter = 60, length = 320 }]", "ahead = 2\nbehind = 40",
			"a cutter that stands 0.500 mm ahead of its tip (now 2.000 mm)", "largest plain bar"},
	}
	for _, x := range rows[:slow.Rounds(t, "jobs freed by what lies near", len(rows), 1)] {
		p := madeOf(t, fmt.Sprintf(closedJob, x.machine, x.bar, x.cutter))
		if p.Feasible || len(p.Reasons) == 0 {
			t.Errorf("%s: feasible %v", x.why, p.Feasible)
			continue
		}
		r := p.Reasons[0]
		if free := freed(p); !strings.Contains(free, x.free) {
			t.Errorf("%s: %q", x.why, free)
		}
		if x.not != "" && (strings.Contains(said(p, r.What), x.not) || !strings.Contains(said(p, r.What), "does not help")) {
			t.Errorf("%s: %q", x.why, said(p, r.What))
		}
	}
}

// A bond that is too hot or too wide is freed by another kind of compound.
func TestOtherCompounds(t *testing.T) {
	t.Parallel()
	slow.Test(t, "every change of two sleeved jobs is planned")
	stations := `{ name = "mid", from = 60, to = 110, diameter = 66, swept = true, wall = 20, wall_most = 35 }`
	for more, want := range map[string]string{
		"service = [20, 160]": "hot service",
		"gap = 0.2":           "gap filling",
	} {
		p := Make(load(t, fmt.Sprintf(innerJob, stations, "", "")+"hold = \"bond\"\n"+more+"\n"))
		if p.Feasible || !strings.Contains(freed(p), want) {
			t.Errorf("%s: feasible %v, %+v", more, p.Feasible, p.Reasons)
		}
	}
}

// closeJob is a bore to close limits; %v: its high limit, how the cutter is set, and
// limits.
const closeJob = `
units = "mm"
number = "T-9"
revision = "-"
title = "a bore to close limits"
machine = "hbm-5in"
material = "gray-iron-200hb"
station = [ { name = "far", from = 0, to = 60, diameter = 80 } ]
[[bore]]
station = "far"
repair = "rebore"
finish = { low = 81, high = %v }
[bar]
steps = [{ diameter = 60, length = 180 }]
[cutter]
material = "carbide"
nose_radius = 0.4
set_by = "%s"
[limits]
%s
`

// Limits that a way of setting cannot hold are freed by another way, a finer head or a
// finer gauge, and only by what holds them; the advice, taken, plans. What each holds by
// hand, ± on diameter: over the bar 0.013 is drawn anew after the measurement; by the
// dial of an increment 0.008; a fine head 0.0025.
func TestSettingOtherwiseFrees(t *testing.T) {
	t.Parallel()
	slow.Test(t, "every change of five refused jobs")
	rows := []struct {
		high       float64
		by, limits string
		free, not  string
		take       []string // what the advice says to write, old and new
	}{
		{81.024, "over_bar", "temperature = 1", `set_by = "increment")`, "±0.010", []string{`set_by = "over_bar"`, `set_by = "increment"`}},
		{81.018, "over_bar", "temperature = 1", "a fine head of 0.002 mm a graduation, to ±0.0025 mm", "±0.008", nil},
		{81.024, "increment", "temperature = 1\ngauge_error = 0.012", "a fine head of 0.002 mm", "over", nil},
		{81.020, "preset", "temperature = 1\ngauge_error = 0.012", "and the cutter moved on by a fine head of 0.002 mm", "", nil},
		{81.018, "increment", "temperature = 1\ngauge_error = 0.012\nsetting_error = 0.002", "a bore gauge good to ±0.006 mm (limits.gauge_error = 0.006)", "set_by", []string{"gauge_error = 0.012", "gauge_error = 0.006"}},
	}
	for _, x := range rows {
		text := fmt.Sprintf(closeJob, x.high, x.by, x.limits)
		p := Make(truly(load(t, text)))
		if free := freed(p); p.Feasible || !strings.Contains(free, x.free) || x.not != "" && strings.Contains(free, x.not) {
			t.Errorf("%v %s %q: feasible %v, freed by %q", x.high, x.by, x.limits, p.Feasible, free)
		}
		if x.take != nil {
			if q := Make(truly(load(t, strings.Replace(text, x.take[0], x.take[1], 1)))); !q.Feasible {
				t.Errorf("%v %s: the advice taken does not plan: %+v", x.high, x.by, q.Reasons)
			}
		}
	}
}

// truly is a job on a mill whose spindle turns truly: what it sets with alone counts.
func truly(j *process.Job) *process.Job {
	mill := *j.Machine
	mill.Runout = qty.Micrometre / 100
	j.Machine = &mill
	return j
}

// applied is a job read from a text with the keys of a way written into it, as its words
// say; what of them stands in the machine file is written into one. rack is the list of bars.
func applied(t *testing.T, text string, w ways.Way, rack string) (*process.Job, error) {
	t.Helper()
	var job map[string]any
	if _, err := toml.Decode(text, &job); err != nil {
		t.Fatal(err)
	}
	unit := qty.Metric
	if job["units"] == "in" {
		unit = qty.Inches
	}
	var mill []byte
	for _, k := range w.Keys {
		line := words.In(unit).Say(k)
		if path, is := strings.CutPrefix(line, "without "); is {
			put(t, job, path, nil)
			continue
		}
		path, value, _ := strings.Cut(line, " = ")
		var it struct{ It any }
		if _, err := toml.Decode("it = "+value, &it); err != nil {
			t.Fatalf("%q cannot be written: %v", line, err)
		}
		if path == "machine.set_dial" { // the only key of a machine that is asked for
			data, err := os.ReadFile(filepath.Join("..", "files", "catalog", "machines", fmt.Sprint(job["machine"], ".toml")))
			if err != nil {
				t.Fatal(err)
			}
			var now []string
			for _, l := range strings.Split(string(data), "\n") {
				if key := strings.TrimSpace(strings.SplitN(l, "=", 2)[0]); key != "set_dial" && key != "dial_turn" {
					now = append(now, l)
				}
			}
			mill = []byte(fmt.Sprintf("set_dial = \"%s %s\"\n", value, unit) + strings.Join(now, "\n"))
			job["machine"] = "mill.toml"
			continue
		}
		put(t, job, path, it.It)
	}
	var out strings.Builder
	if err := toml.NewEncoder(&out).Encode(job); err != nil {
		t.Fatal(err)
	}
	return files.Job("job.toml", []byte(out.String()), func(name string) ([]byte, error) {
		if name == "rack.toml" {
			return []byte(rack), nil
		}
		return mill, nil
	})
}

// put writes a value at a path as people count, such as "bar.steps[1].length"; nil takes it out. A size
// that is written by its limits is written by nothing else.
func put(t *testing.T, to map[string]any, path string, value any) {
	t.Helper()
	parts := strings.Split(path, ".")
	for i, part := range parts {
		name, index, listed := strings.Cut(strings.TrimSuffix(part, "]"), "[")
		if i == len(parts)-1 {
			if to[name] = value; value == nil {
				delete(to, name)
			}
			return
		}
		if listed {
			n, err := strconv.Atoi(index)
			if err != nil {
				t.Fatal(err)
			}
			switch list := to[name].(type) {
			case []map[string]any:
				to = list[n-1]
			case []any:
				to = list[n-1].(map[string]any)
			default:
				t.Fatalf("%s: no list of tables at %s: %T", path, name, list)
			}
			continue
		}
		next, _ := to[name].(map[string]any)
		if _, byFit := next["diameter"]; next == nil || name == "finish" && byFit {
			next = map[string]any{}
			to[name] = next
		}
		to = next
	}
}

// What is told is itself accepted: the keys of every way, written into the job file, give
// a job that is read and plans, with as many passes in the same time.
func TestEveryWayPlansAsWritten(t *testing.T) {
	slow.Test(t, "each way of four jobs is planned")
	t.Parallel()
	texts := map[string]string{
		"a quill too thick":                fmt.Sprintf(closedJob, "hbm-4in", thickQuill, ""),
		"limits too close for the setting": fmt.Sprintf(closeJob, 81.018, "over_bar", "temperature = 1"),
		"a slender bar":                    strings.Replace(slenderJob(1.0), "high = 2.1256", "high = 2.1252", 1),
		"a finish finer than its feed":     strings.Replace(fmt.Sprintf(closeJob, 81.03, "increment", ""), "repair", "ra = 0.42\nrepair", 1),
	}
	for why, text := range texts {
		p := madeOf(t, text)
		if p.Feasible || len(p.Free()) == 0 {
			t.Errorf("%s: feasible %v, %+v", why, p.Feasible, p.Reasons)
			continue
		}
		for _, w := range p.Free() {
			say := words.In(p.Job.Units).Say(w.Fact())
			job, err := applied(t, text, w, "")
			if err != nil {
				t.Errorf("%s: %s: is not read: %v", why, say, err)
				continue
			}
			if q := Make(job); !q.Feasible || q.Minutes != w.Minutes || len(q.Bores[0].Visits[0].Passes) != w.Passes {
				t.Errorf("%s: %s: as written feasible %v, %.1f minutes for %.1f, %v", why, say, q.Feasible, q.Minutes, w.Minutes, q.Reasons)
			}
		}
	}
}
