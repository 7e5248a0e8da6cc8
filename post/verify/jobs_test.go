package verify

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"borewright/post"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
)

// variants are the jobs that the writer's own programs are made of: those that
// ship as examples, the two that "new" starts from, and changes of them that
// the shop would make. Machine is set apart; each is planned on several.
var variants = []variant{
	{"winch", shipped("lock-winch/job.toml")},
	{"gear case", shipped("gear-case/job.toml")},
	{"ramp, one lug, outboard bearing", func(t testing.TB) string {
		s := shipped("ferry-ramp/job.toml")(t)
		return without(t, without(t, s, "[[bore]]\nstation = \"middle lug\"", "[[bore]]"), "[[bore]]\nstation = \"inner lug\"", "[bar]")
	}},
	{"new, inch", started(qty.Inches)},
	{"new, mm", started(qty.Metric)},
	{"new, inch, blind", started(qty.Inches, `wall = 0.75 }`, `wall = 0.75, blind = true, relief = 0.12 }`)},
	{"new, mm, blind", started(qty.Metric, `wall = 20 }`, `wall = 20, blind = true, relief = 3 }`)},
	{"new, inch, by quill", started(qty.Inches, `feed_by  = "table"`, "feed_by  = \"quill\"\nstandoff = 12")},
	{"new, mm, by quill", started(qty.Metric, `feed_by  = "table"`, "feed_by  = \"quill\"\nstandoff = 290")},
	{"new, mm, blind by quill", started(qty.Metric, `feed_by  = "table"`, "feed_by  = \"quill\"\nstandoff = 290", `wall = 20 }`, `wall = 20, blind = true, relief = 3 }`)},
	{"new, mm, more stock", started(qty.Metric, `diameter = 90.06`, `diameter = 89.2`)},
}

type variant struct {
	name string
	text func(t testing.TB) string
}

// someVariants are those that a short run takes, from the winch on, and all in a full one.
func someVariants(t testing.TB) (out []variant) {
	every := slow.Rounds(t, "is the step from job to job", 1, 4)
	for i := 0; i < len(variants); i += every {
		out = append(out, variants[i])
	}
	return out
}

// offAxisJob is the example whose bar does not pass on its axis: as it ships, or the cutter
// fed out; with the bar as it is, or with a step that is too thick to go in off the axis as
// far as the feed begins, so that the bar comes back further out.
func offAxisJob(fed, stepped bool) func(testing.TB) string {
	return func(t testing.TB) string {
		s := shipped("slip-winch/job.toml")(t)
		change := func(from, to string) {
			if !strings.Contains(s, from) {
				t.Fatalf("the example has no %q any more", from)
			}
			s = strings.Replace(s, from, to, 1)
		}
		if fed {
			change("ra        = 1.6", "ra        = 1.6\nway_out   = \"feed\"")
		}
		if stepped {
			change("{ diameter = 58, length = 190 }", "{ diameter = 72, length = 120 }, { diameter = 58, length = 70 }")
			change("behind      = 12", "behind      = 12\nbeside      = 8.5")
		}
		return s
	}
}

// lugsJob is the ferry ramp, its lugs cut through at one setting and fed out, in an outboard bearing.
func lugsJob(t testing.TB) string {
	return shipped("ferry-ramp/job.toml")(t)
}

// websJob are two webs of a bracket that a bar passes from one side, so that the cutter can be
// shifted off the wall; a third stands so near behind that nothing lies between.
func websJob(testing.TB) string {
	return `units = "mm"
number = "BR-31"
revision = "A"
title = "Bracket, three webs"
machine = "cnc-110mm"
material = "gray-iron-200hb"
station = [
  { name = "front", from = 0, to = 22, diameter = 89.60, swept = true, wall = 30 },
  { name = "mid", from = 70, to = 90, diameter = 89.64, wall = 30 },
  { name = "rear", from = 94, to = 112, diameter = 89.62, wall = 30 },
]
[bar]
steps = [ { diameter = 60, length = 290 } ]
feed_by = "table"
[cutter]
material = "carbide"
nose_radius = 0.4
lead = 75
rake = 6
set_by = "over_bar"
bar = 60.0
[[bore]]
station = "front"
repair = "rebore"
finish = { low = 91.00, high = 91.08 }
ra = 3.2
[[bore]]
station = "mid"
with = "front"
repair = "rebore"
finish = { low = 91.00, high = 91.08 }
ra = 3.2
[[bore]]
station = "rear"
with = "front"
repair = "rebore"
finish = { low = 91.00, high = 91.08 }
ra = 3.2
`
}

func shipped(name string) func(testing.TB) string {
	return func(t testing.TB) string {
		t.Helper()
		b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
}

// started is the job that "new" gives, with pieces of its text replaced.
func started(u qty.Unit, pairs ...string) func(testing.TB) string {
	return func(t testing.TB) string {
		t.Helper()
		s := string(files.Template(u))
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(s, pairs[i]) {
				t.Fatalf("the template has no %q any more", pairs[i])
			}
			s = strings.Replace(s, pairs[i], pairs[i+1], 1)
		}
		return s
	}
}

// without takes out the text from a mark up to the next one.
func without(t testing.TB, s, from, to string) string {
	t.Helper()
	i := strings.Index(s, from)
	if i < 0 {
		t.Fatalf("no %q", from)
	}
	k := strings.Index(s[i+len(from):], to)
	if k < 0 {
		t.Fatalf("no %q after %q", to, from)
	}
	return s[:i] + s[i+len(from)+k:]
}

var machineLine = regexp.MustCompile(`(?m)^machine .*$`)

// controlled are the built-in machines that have a control.
func controlled() []string {
	var out []string
	for _, m := range files.Machines() {
		if m.Control != nil {
			out = append(out, m.ID)
		}
	}
	return out
}

// written is the program of a visit.
func written(t testing.TB, p *plan.Plan, bore, visit int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := post.Write(&out, p, bore, visit); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// planned loads a job on a machine, as a user would, and plans it, but for the
// ways out of what stops it. control is the text of a control table that takes
// the place of the machine's own; "": as it is.
func planned(t testing.TB, job, machine, control string) *plan.Plan {
	t.Helper()
	name, open := machine, func(string) ([]byte, error) { return nil, os.ErrNotExist }
	if control != "" {
		name = "own.toml"
		file, err := os.ReadFile(filepath.Join("..", "..", "process", "files", "catalog", "machines", machine+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		own := without(t, string(file), "[control]", "[source]")
		own = strings.Replace(own, "[source]", "[control]\n"+control+"\n[source]", 1)
		open = func(string) ([]byte, error) { return []byte(own), nil }
	}
	text := machineLine.ReplaceAllString(job, fmt.Sprintf("machine = %q", name))
	j, err := files.Job("job.toml", []byte(text), open)
	if err != nil {
		t.Fatalf("%v\n%s", err, control)
	}
	// Every job is tried on every machine, and the winch's bar is slender: a spindle that
	// turns truly refuses none.
	mill := *j.Machine
	mill.Runout = qty.Micrometre / 100
	j.Machine = &mill
	key := [3]string{job, machine, ofThePlan(control)}
	p, ok := rewritten.Load(key)
	if !ok {
		p, _ = rewritten.LoadOrStore(key, new(plan.Plan).Another(j))
	}
	q := *p.(*plan.Plan)
	q.Job = j
	q.Bores = slices.Clone(q.Bores)
	for b := range q.Bores {
		q.Bores[b].Visits = slices.Clone(q.Bores[b].Visits)
		for v := range q.Bores[b].Visits {
			q.Bores[b].Visits[v].Passes = slices.Clone(q.Bores[b].Visits[v].Passes)
		}
	}
	return &q
}

var rewritten sync.Map // of planned, by what the plan hangs on

// ofThePlan leaves out of a control's words what says how programs are named and stored: no plan
// hangs on them, and what hangs on them is read from the job.
func ofThePlan(control string) string {
	var kept []string
	for line := range strings.Lines(control) {
		if !storedWord.MatchString(line) {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "")
}

var storedWord = regexp.MustCompile(`^(file_\w+|line_end|percent|block_numbers|leader|trailer|remarks|one_file|program_number|upper_case|lower_case)\s*=`)
