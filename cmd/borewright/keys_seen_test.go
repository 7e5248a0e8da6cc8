package main

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"borewright/post"
	"borewright/process/field"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/slow"
	"borewright/sheets"
	"borewright/sheets/document"
)

// keysPrinted are the keys that no figure of the plan and no word of a program
// hangs on: the sheet prints them, or says what follows, and that is their use.
// One that is here for another reason is a fault, said in so many words.
var keysPrinted = map[string]string{
	"bar.outboard.clearance": "a fault, to be mended: the bar is planned as if it ran in the outboard bearing without play",
	"customer":               "for the reader of the sheet",
	"notes":                  "for the reader of the sheet",
	"station.swept":          "says where a dial can be run; a sweep anywhere else is refused",
	"cutter.least":           "a size that the cutter cannot be set to is refused",
	"cutter.most":            "a size that the cutter cannot be set to is refused",
	"machine.set_dial":       "settings are counted in its graduations",
}

// keysRefused are the keys of which no other value stands beside the rest of a
// job as it is.
var keysRefused = map[string]string{
	"units":                        "every bare figure becomes another",
	"machine.units":                "every bare figure becomes another",
	"bore.station":                 "the size, readings and sleeve of one bore do not fit another",
	"bore.repair":                  "a sleeve is described, or is not",
	"machine.feed_by":              "the jobs feed by what their mill has",
	"machine.torque":               "a torque that binds in these jobs does not go with the power",
	"bars.bar.steps.hole":          "the stiffest bar stands first: a hole changes the order between bars nearly alike only",
	"machine.control.whole_places": "too few are refused, more than a figure needs change nothing",
}

// keysUnseen are the keys that change nothing that a person can see. It may only
// get shorter.
var keysUnseen = map[string]string{
	"cutter.behind":                        "counts where a narrower place lies within it in front of a bore: none of these jobs has one",
	"machine.travel.what":                  "a fault, to be mended: what moves is read and printed nowhere but in a comparison",
	"material.density":                     "a fault, to be mended: nothing made of the material is weighed",
	"material.source":                      "a fault, to be mended: asked for where it is missing from the whole file, printed nowhere",
	"material.speed.hss.source":            "a remark, as source",
	"material.speed.carbide.source":        "a remark, as source",
	"material.speed.carbide-coated.source": "a remark, as source",
	"cutter.material.source":               "a remark, as source",
	"bar.material.source":                  "a remark, as source",
}

// keyValues are values to try besides the generic ones, where these show
// nothing: lines as in a file, the key's own first. "left out" takes a key away.
var keyValues = map[string][]string{
	"machine.control.whole_places":  {`whole_places = 4`, `whole_places = 2`},
	"machine.quill_travel":          {`quill_travel = 1`},
	"bars.bar.steps.hole":           {`hole = 1.9`},
	"bars.bar.material":             {`material = "tungsten-alloy"`},
	"machine.quill":                 {`quill = 2.5`, `quill = 90`},
	"machine.torque":                {`torque = "100 N·m"`, `torque = "90 N·m"`},
	"sleeve.standard":               {`standard = [3.0, 3.25]`},
	"cutter.behind":                 {`behind = 3.5`},
	"bore.finish.high":              {`high = 4.1262`},
	"bore.finish.low":               {`low = 4.1255`},
	"limits.hold_minutes":           {`hold_minutes = 20`},
	"limits.chip_room":              {`chip_room = 0.5`},
	"bore.finish.fit":               {`fit = "H8"`},
	"sleeve.wall":                   {`wall = 0.2`},
	"sleeve.hold":                   {"hold = \"bond\"\nfit = \"left out\""},
	"sleeve.fit":                    {`fit = "H7/s6"`},
	"sleeve.grip":                   {`grip = 6`},
	"sweep.station":                 {"station = \"far side\"\ndepth = 700"},
	"limits.overhang":               {`overhang = 2`, `overhang = 12`},
	"limits.passes_most":            {`passes_most = 3`},
	"bar.material":                  {`material = "tungsten-alloy"`},
	"bars":                          {`bars = "left out"`},
	"machine.feed_by":               {`feed_by = ["table"]`},
	"machine.speeds":                {`speeds = [20, 40, 60, 90, 120, 180]`},
	"machine.speed_range":           {`speed_range = [8, 180]`},
	"machine.power":                 {`power = "1 kW"`},
	"machine.source":                {`source = "left out"`},
	"machine.control.oriented_stop": {"oriented_stop = false\ntip_at_stop = \"left out\""},
	"machine.control.line_most":     {`line_most = 60`},
	"material.source":               {`source = "left out"`},
	"bar.material.allowed":          {`allowed = 20`},
}

// TestEveryKeyIsSeen: every key changes something that a person can see: a figure
// of the plan, a program, the bars that pass, a question asked of the job; or at
// least the sheet, or a refusal. Each is set to another value in jobs that are
// read, planned and made as anybody's; the keys are those of the descriptions, so
// that one that is read and never used fails.
func TestEveryKeyIsSeen(t *testing.T) {
	bases := keyBases(t)
	var keys []field.Entry
	for _, k := range files.Keys() {
		table := strings.HasPrefix(k.Type, "table") && !strings.HasPrefix(k.Type, "table of texts") || strings.HasPrefix(k.Type, "list of tables")
		if !table && !strings.HasPrefix(k.Key, "results.") { // the keys inside are tried; results have tests of their own
			keys = append(keys, k)
		}
	}
	classes := []map[string]string{nil, keysPrinted, keysRefused, keysUnseen}
	words := []string{"worked with", "printed only", "refused only", "unseen"}
	for _, list := range classes {
		for key := range list {
			if !slices.ContainsFunc(keys, func(k field.Entry) bool { return k.Key == key }) {
				t.Errorf("%s is no key", key)
			}
		}
	}
	rounds := slow.Rounds(t, "keys, each changed in a job", len(keys), 10)
	for i := range rounds {
		k := keys[i*len(keys)/rounds]
		said := 0
		for c, list := range classes {
			if list[k.Key] != "" {
				said = c
			}
		}
		if got := keyEffect(t, bases, k); got != said {
			t.Errorf("%s is %s, and said to be %s", k.Key, words[got], words[said])
		}
	}
}

// keyBase is a job with all the files that it names, taken apart so that any key
// can be put in.
type keyBase struct {
	name  string
	texts map[string]string // by the key that names it; "" is the job
	made  outcome
}

// keyBases are the example jobs, one that says everything, and the examples with
// parts that none of them has.
func keyBases(t *testing.T) []*keyBase {
	t.Helper()
	var all []*keyBase
	for _, row := range [][3]string{{"jobs/lock-winch/job"}, {"jobs/hand-pump/job"}, {"jobs/lock-winch/job", "cnc-fixed-format"}, {"jobs/hand-pump/job", "", "quill"}, {"jobs/lock-winch/manual"}, {"jobs/gear-case/job"}, {"jobs/ferry-ramp/job"}, {"process/good/inch-full"}} {
		name := row[0]
		b := &keyBase{name: name, texts: map[string]string{}}
		job := readTable(t, "../../testdata/"+name+".toml")
		bar := job["bar"].(map[string]any)
		if row[1] != "" {
			job["machine"] = row[1]
		}
		if row[2] != "" {
			bar["feed_by"] = row[2]
		}
		for key, dir := range map[string]string{"machine": "machines", "material": "materials", "cutter.material": "cutters", "bar.material": "bars", "sleeve.material": "materials"} {
			in, last := job, key
			if table, k, ok := strings.Cut(key, "."); ok {
				in, _ = job[table].(map[string]any)
				last = k
			}
			if in == nil {
				continue
			}
			id, _ := in[last].(string)
			if id == "" {
				id = "steel"
			}
			b.texts[key] = writeTable(t, readTable(t, filepath.Join("../../process/files/catalog", dir, id+".toml")))
			in[last] = key + ".toml"
		}
		if name == "jobs/lock-winch/manual" {
			b.texts["bars"] = writeTable(t, readTable(t, "../../testdata/jobs/lock-winch/bars.toml"))
			job["bars"] = "bars.toml"
		}
		b.texts[""] = writeTable(t, job)
		if b.made = b.make(t, "", b.texts[""]); b.made.refused != "" {
			t.Fatalf("%s: %s", name, b.made.refused)
		}
		all = append(all, b)
	}
	return all
}

func readTable(t *testing.T, name string) map[string]any {
	t.Helper()
	var m map[string]any
	if _, err := toml.DecodeFile(name, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

func writeTable(t *testing.T, m map[string]any) string {
	t.Helper()
	var out bytes.Buffer
	if err := toml.NewEncoder(&out).Encode(m); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// parse is a fresh copy of a file.
func parse(t *testing.T, text string) map[string]any {
	t.Helper()
	var m map[string]any
	if _, err := toml.Decode(text, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// places of keys move with every edit, and are no figure of the job.
var jobPlace = regexp.MustCompile(`\.toml:\d+:\d+`)

// outcome is all that a person gets of a job.
type outcome struct {
	plan    string // figures, programs, bars that pass, questions
	sheet   string
	refused string
}

// make plans and writes the job with one of its files changed.
func (b *keyBase) make(t *testing.T, file, text string) outcome {
	t.Helper()
	texts := maps.Clone(b.texts)
	texts[file] = text
	clean := func(s string) string { return jobPlace.ReplaceAllString(s, "") }
	job, err := files.Job("job.toml", []byte(texts[""]), func(path string) ([]byte, error) {
		if s, ok := texts[strings.TrimSuffix(path, ".toml")]; ok {
			return []byte(s), nil
		}
		return nil, os.ErrNotExist
	})
	if err != nil {
		return outcome{refused: clean(err.Error())}
	}
	p := plan.Make(job)
	var made, sheet bytes.Buffer
	data, err := document.Write(p)
	if err != nil {
		t.Fatal(err)
	}
	made.Write(data)
	fmt.Fprintln(&made, job.Doubts())
	for i := range p.Bores {
		for v := range p.Bores[i].Visits {
			if job.Machine.Control != nil {
				if err := post.Write(&made, p, i, v); err != nil {
					fmt.Fprintln(&made, "refused:", err)
				}
			}
		}
	}
	if job.Shop != nil {
		choices, err := p.Choose(job.Shop)
		if err == nil {
			err = sheets.WriteReach(&made, p, choices)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := sheets.Build(p).WriteText(&sheet); err != nil {
		t.Fatal(err)
	}
	return outcome{plan: clean(made.String()), sheet: clean(sheet.String())}
}

// keyEffect tries a key in one job after another: 0 when the plan differs, else
// the best that it comes to: 1 the sheet, 2 a refusal, 3 nothing.
func keyEffect(t *testing.T, bases []*keyBase, k field.Entry) int {
	in, path := []string{""}, k.Key
	for _, f := range []string{"machine", "cutter.material", "bar.material", "material", "bars"} {
		if rest, ok := strings.CutPrefix(k.Key, f+"."); ok {
			if in, path = []string{f}, rest; f == "material" {
				in = append(in, "sleeve.material")
			}
		}
	}
	last := path[strings.LastIndexByte(path, '.')+1:]
	best := 3
	for _, b := range bases {
		for _, file := range in {
			if b.texts[file] == "" {
				continue
			}
			for i, was := range tablesOf(parse(t, b.texts[file]), strings.Split(path, ".")) {
				for _, v := range keyCandidates(t, k, last, was[last]) {
					m := parse(t, b.texts[file])
					at := tablesOf(m, strings.Split(path, "."))[i]
					for key, x := range v {
						if at[key] = x; x == "left out" {
							delete(at, key)
						}
					}
					switch made := b.make(t, file, writeTable(t, m)); {
					case made.refused != "":
						best = min(best, 2)
					case made.plan != b.made.plan:
						return 0
					case made.sheet != b.made.sheet:
						best = min(best, 1)
					}
				}
			}
		}
	}
	return best
}

// tablesOf are the tables that the last key of a path stands in. A single one
// that is not there is made.
func tablesOf(m map[string]any, path []string) []map[string]any {
	if len(path) == 1 {
		return []map[string]any{m}
	}
	switch x := m[path[0]].(type) {
	case map[string]any:
		return tablesOf(x, path[1:])
	case []map[string]any:
		var all []map[string]any
		for _, e := range x {
			all = append(all, tablesOf(e, path[1:])...)
		}
		return all
	case []any:
		var all []map[string]any
		for _, e := range x {
			if e, ok := e.(map[string]any); ok {
				all = append(all, tablesOf(e, path[1:])...)
			}
		}
		return all
	case nil:
		if path[0] == "limits" || path[0] == "lineup" || path[0] == "control" || path[0] == "source" {
			n := map[string]any{}
			m[path[0]] = n
			return tablesOf(n, path[1:])
		}
	}
	return nil
}

// keyCandidates are values to try: what lies near the value that is there, every
// word of a choice, the example, and what stands in keyValues.
func keyCandidates(t *testing.T, k field.Entry, last string, old any) []map[string]any {
	var out []map[string]any
	add := func(v any) { out = append(out, map[string]any{last: v}) }
	var near func(v any, times float64) any
	near = func(v any, times float64) any {
		switch v := v.(type) {
		case float64:
			return v * times
		case int64:
			if k.Type == "whole number" {
				return v + int64(10*(times-1))
			}
			return float64(v) * times
		case []any:
			var l []any
			for _, e := range v {
				l = append(l, near(e, times))
			}
			return l
		}
		return v
	}
	for _, lines := range keyValues[k.Key] {
		out = append(out, parse(t, lines))
	}
	if len(out) > 0 {
		return out
	}
	switch x := old.(type) {
	case float64, int64, []any:
		add(near(old, 1.1))
		add(near(old, 0.8))
		add(near(old, 1.0005))
	case bool:
		add(!x)
	case string:
		if k.Type == "text" || strings.HasPrefix(k.Type, "text,") {
			add("other " + x[:min(len(x), 40)])
		}
	}
	if strings.HasPrefix(k.Type, "true") {
		add(true)
		add(false)
	}
	if strings.HasPrefix(k.Type, "word") {
		for _, w := range regexp.MustCompile(`"([^"]*)"`).FindAllStringSubmatch(k.Range, -1) {
			add(w[1])
		}
	}
	inch, metric, two := strings.Cut(k.Example, "   (in mm: ")
	if v, ok := parse(t, inch)[last]; ok {
		add(v)
	}
	if two {
		add(parse(t, strings.TrimSuffix(metric, ")"))[last])
	}
	return out
}
