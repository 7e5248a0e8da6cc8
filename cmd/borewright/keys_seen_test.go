package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/BurntSushi/toml"

	"borewright/post"
	"borewright/process/field/keys"
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
	"customer":            "for the reader of the sheet",
	"notes":               "for the reader of the sheet",
	"cutter.least":        "a size that the cutter cannot be set to is refused",
	"cutter.most":         "a size that the cutter cannot be set to is refused",
	"machine.travel.what": "says which slide it is that has to go so far",
}

// keysRefused are the keys of which no other value stands beside the rest of a
// job as it is.
var keysRefused = map[string]string{
	"units":                      "every bare figure becomes another",
	"machine.units":              "every bare figure becomes another",
	"bore.station":               "the size, readings and sleeve of one bore do not fit another",
	"bore.repair":                "a sleeve is described, or is not",
	"machine.feed_by":            "the jobs feed by what their mill has",
	"machine.control.lower_case": "it says what the proof takes; every program is written in capitals",
}

// keyValues are values to try besides the generic ones, where these show
// nothing: lines as in a file, the key's own first. "left out" takes a key away.
var keyValues = map[string][]string{
	"bar.outboard.station":                   {`station = "end web"`},
	"machine.control.home_axes":              {`home_axes = ["feed", "Y"]`},
	"machine.control.one_file":               {"one_file = true\nprogram_number = 7"},
	"machine.control.orient_word":            {"orient_word = \"R\"\norient_angle = 90"},
	"machine.control.orient_angle":           {"orient_word = \"S\"\norient_angle = 90"},
	"machine.control.table_angle":            {"table_word = \"B\"\ntable_angle = 180"},
	"machine.control.whole_places":           {`whole_places = 4`, `whole_places = 2`},
	"machine.quill_travel":                   {`quill_travel = 1`},
	"bars.bar.material":                      {`material = "tungsten-alloy"`},
	"machine.quill":                          {`quill = 2.5`, `quill = 90`},
	"machine.torque":                         {`torque = "25 ft·lb"`},
	"station.walls.at":                       {`at = 150`},
	"station.walls.metal":                    {`metal = 0.8`},
	"station.walls":                          {"walls = [ { at = 0, metal = 0.5 }, { at = 120, metal = 1.1 }, { at = 240, metal = 1.1 } ]\nwall = \"left out\"\nwall_most = \"left out\""},
	"sleeve.stop.by":                         {"by = \"shoulder\"\ndiameter = \"left out\"\nthickness = \"left out\""},
	"sleeve.stop.diameter":                   {`diameter = 3.8`},
	"sleeve.stop.thickness":                  {`thickness = 0.2`},
	"sleeve.hole.at":                         {`at = [45]`},
	"sleeve.hole.depth":                      {`depth = 1.3`},
	"sleeve.hole.diameter":                   {`diameter = 0.2`},
	"sleeve.groove.kind":                     {`kind = "seal"`},
	"sleeve.groove.from":                     {`from = 1.0`},
	"sleeve.groove.width":                    {`width = 0.25`},
	"sleeve.groove.depth":                    {`depth = 0.02`},
	"sleeve.groove.at":                       {`at = [300]`},
	"sleeve.groove.length":                   {`length = 0.6`},
	"sleeve.pin.at":                          {`at = [90]`},
	"sleeve.pin.diameter":                    {`diameter = 0.12`},
	"sleeve.pin.length":                      {`length = 0.4`},
	"sleeve.lead_in.angle":                   {`angle = 20`},
	"sleeve.lead_in.length":                  {`length = 0.12`},
	"sleeve.mouth.angle":                     {`angle = 30`},
	"sleeve.mouth.length":                    {`length = 2`},
	"sleeve.recess.diameter":                 {`diameter = 108`},
	"sleeve.recess.depth":                    {`depth = 6`},
	"sleeve.vent.at":                         {`at = 90`},
	"sleeve.vent.by":                         {"by = \"flat\"\nwidth = \"left out\""},
	"sleeve.vent.width":                      {`width = 0.1`},
	"sleeve.vent.depth":                      {`depth = 0.015`},
	"sleeve.standard":                        {`standard = [3.0, 3.25]`},
	"cutter.behind":                          {`behind = 2.5`},
	"bore.with":                              {`with = "outer lug"`},
	"bore.finish.high":                       {`high = 4.1262`},
	"bore.finish.low":                        {`low = 4.1255`},
	"limits.hold_minutes":                    {`hold_minutes = 20`},
	"limits.chip_room":                       {`chip_room = 0.5`},
	"bore.finish.fit":                        {`fit = "H8"`},
	"sleeve.wall":                            {`wall = 0.2`},
	"sleeve.hold":                            {"hold = \"bond\"\nfit = \"left out\""},
	"sleeve.fit":                             {`fit = "H7/s6"`},
	"sleeve.heated":                          {"heated = 5\ncasting = 20"},
	"sleeve.casting":                         {"casting = 20\nheated = 5"},
	"sleeve.web":                             {"web = 0.3\nheated = 5\ncasting = 20"},
	"sleeve.grip":                            {`grip = 6`},
	"sweep.station":                          {"station = \"far side\"\ndepth = 700"},
	"limits.overhang":                        {`overhang = 2`, `overhang = 12`},
	"limits.passes_most":                     {`passes_most = 3`},
	"bar.material":                           {`material = "tungsten-alloy"`},
	"bore.bar":                               {`bar = "C 60"`, `bar = "B 50"`},
	"bore.cutter":                            {`cutter = "K5 short"`, `cutter = "K2 square"`},
	"bore.rough.bar":                         {`bar = "C 60"`, `bar = "B 50"`},
	"bore.rough.cutter":                      {`cutter = "K2 square"`, `cutter = "K1 carbide"`},
	"rough.bar":                              {`bar = "C 60"`, `bar = "B 50"`},
	"rough.cutter":                           {`cutter = "K2 square"`, `cutter = "K1 carbide"`},
	"bars":                                   {`bars = "left out"`},
	"cutters":                                {`cutters = "left out"`},
	"bars.cutter.least":                      {`least = 90`},
	"bars.cutter.trail":                      {`trail = 2`, `trail = 50`},
	"bars.cutter.behind":                     {`behind = 2.5`},
	"machine.feed_by":                        {`feed_by = ["table"]`},
	"machine.speeds":                         {`speeds = [20, 40, 60, 90, 120, 180]`},
	"machine.speed_range":                    {`speed_range = [8, 180]`},
	"machine.power":                          {`power = "1 kW"`},
	"machine.source":                         {`source = "left out"`},
	"machine.damping":                        {"damping = [0.02, 0.05]\njoint_damping = \"left out\""},
	"machine.control.oriented_stop":          {"oriented_stop = false\ntip_at_stop = \"left out\""},
	"machine.control.line_most":              {`line_most = 60`},
	"material.speed.hss.ra_least":            {"ra_least = 1.5"},
	"material.speed.carbide.ra_least":        {"ra_least = 1.5"},
	"material.speed.carbide-coated.ra_least": {"ra_least = 1.5"},
	"material.source":                        {`source = "left out"`},
	"cutter.material.source":                 {`source = "left out"`},
	"bar.material.source":                    {`source = "left out"`},
	"bar.material.allowed":                   {`allowed = 20`},
}

// TestEveryKeyIsSeen: every key changes something that a person can see: a figure
// of the plan, a program, the bars that pass, a question asked of the job; or at
// least the sheet, or a refusal. Each is set to another value in jobs that are
// read, planned and made as anybody's; the keys are those of the descriptions, so
// that one that is read and never used fails.
func TestEveryKeyIsSeen(t *testing.T) {
	bases := keyBases(t)
	var all []keys.Entry
	for _, k := range files.Keys() {
		table := strings.HasPrefix(k.Type, "table") && !strings.HasPrefix(k.Type, "table of texts") || strings.HasPrefix(k.Type, "list of tables")
		if !table && !strings.HasPrefix(k.Key, "results.") { // the keys inside are tried; results have tests of their own
			all = append(all, k)
		}
	}
	classes := []map[string]string{nil, keysPrinted, keysRefused}
	words := []string{"worked with", "printed only", "refused only", "unseen"}
	for _, list := range classes {
		for key := range list {
			if !slices.ContainsFunc(all, func(k keys.Entry) bool { return k.Key == key }) {
				t.Errorf("%s is no key", key)
			}
		}
	}
	rounds := slow.Rounds(t, "keys, each changed in a job", len(all), 3)
	seen := keysSeen{before: map[string]string{}, now: map[string]string{}}
	seen.read(t)
	some := all
	if testing.Short() && len(seen.before) > 0 { // of those worked with: one job shows each, where it was seen before
		some = slices.DeleteFunc(slices.Clone(all), func(k keys.Entry) bool { return seen.before[k.Key] == "" })
	}
	todo := make(chan keys.Entry)
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for k := range todo {
				said := 0
				for c, list := range classes {
					if list[k.Key] != "" {
						said = c
					}
				}
				if got := keyEffect(t, bases, k, said, &seen); got != said {
					t.Errorf("%s is %s, and said to be %s", k.Key, words[got], words[said])
				}
			}
		})
	}
	for i := range rounds {
		todo <- some[i*len(some)/rounds]
	}
	close(todo)
	wait.Wait()
	if os.Getenv("UPDATE_GOLDEN") != "" && !testing.Short() {
		seen.write(t)
	}
}

// keysSeen is where each key was seen when testdata/keys-seen.txt was written
// (UPDATE_GOLDEN=1): in which job, by which of the values tried there. A full run tries that
// first, and all others only where it shows nothing any more.
type keysSeen struct {
	before, now map[string]string
	mu          sync.Mutex
}

const keysSeenFile = "../../testdata/keys-seen.txt"

func (s *keysSeen) read(t *testing.T) {
	data, err := os.ReadFile(keysSeenFile)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	for l := range strings.Lines(string(data)) {
		key, at, _ := strings.Cut(strings.TrimSpace(l), ": ")
		s.before[key] = at
	}
}

func (s *keysSeen) write(t *testing.T) {
	var b strings.Builder
	for _, key := range slices.Sorted(maps.Keys(s.now)) {
		fmt.Fprintf(&b, "%s: %s\n", key, s.now[key])
	}
	if err := os.WriteFile(keysSeenFile, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

func (s *keysSeen) put(key, at string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.now[key] = at
}

// at is the place of one try.
func (b *keyBase) at(try int) string { return fmt.Sprintf("%s, try %d", b.name, try) }

// keyBase is a job with all the files that it names, taken apart so that any key
// can be put in.
type keyBase struct {
	name  string            // of the job, and which of those made of it
	texts map[string]string // by the key that names it; "" is the job
	made  func() *outcome

	cutter string        // class of its cutter's material
	takes  time.Duration // about, to be made
}

// keyBases are the example jobs, one that says everything, and the examples with
// parts that none of them has.
func keyBases(t *testing.T) []*keyBase {
	t.Helper()
	var all []*keyBase
	for _, row := range []struct {
		name string
		job  string // lines laid over those of the job
		mill string // lines laid over those of the machine
	}{
		{"jobs/lock-winch/job", "", ""},
		{"jobs/hand-pump/job", "", ""},
		{"jobs/lock-winch/job", "cutter.material = \"carbide\"\nlimits.sing = true", withWords},
		{"jobs/lock-winch/job", `machine = "cnc-fixed-format"`, withWords + "\nrunout_error = 0.0000004"}, // with its own it is refused
		{"jobs/hand-pump/job", "bar.feed_by = \"quill\"\nsleeve.stop = { diameter = 3.3, thickness = 0.15 }", ""},
		{"jobs/lock-winch/manual", "", ""},
		{"jobs/gear-case/job", "", withWords},
		{"jobs/ferry-ramp/job", ringInFront, lowTorque},
		{"jobs/ferry-ramp/job", "", ""}, // its lugs can be bored at one setting
		{"jobs/slip-winch/job", "", ""},
		{"jobs/lock-winch/job", unevenWall, ""},
		{"jobs/lock-winch/job", madeSleeve, ""},
		{"jobs/tide-pump/job", "", ""},
		{"jobs/wheel-shaft/job", "", ""},
		{"jobs/swing-bridge/far", "", ""},
		{"jobs/swing-bridge/both", webLast, ""},
		{"jobs/hand-pump/job", `sleeve.pin = { at = ["6"], diameter = 0.15, length = 0.5 }`, ""},
		{"process/good/inch-full", "", ""},
		{"process/good/bush", endWeb, ""},
		{"process/good/guided", "bar.steps = [ { diameter = 76, length = 1040 } ]", ""}, // the near web's bush may be in either
		{"jobs/slip-winch/job", "number = \"named\"", ""},                               // its bar and cutter named on a list
		{"jobs/net-hauler/job", "", ""},
		{"jobs/net-hauler/job", "number = \"apart\"", ""}, // its cutters on another list
		{"jobs/net-hauler/job", "number = \"rough all\"\nrough = { bar = \"C 60\", cutter = \"K1 carbide\" }", ""},
		{"jobs/net-hauler/job", "number = \"rough each\"", ""}, // each bore with its own
		{"jobs/net-hauler/job", clampedAnywhere, ""},
	} {
		name, nth := row.name, 1
		for _, b := range all {
			if strings.HasPrefix(b.name, name+" ") {
				nth++
			}
		}
		b := &keyBase{name: fmt.Sprintf("%s %d", name, nth), texts: map[string]string{}}
		job := readTable(t, "../../testdata/"+name+".toml")
		lay(job, parse(t, row.job))
		if name == "jobs/ferry-ramp/job" { // each lug by itself: what is changed may be of one of them
			for _, b := range job["bore"].([]map[string]any) {
				delete(b, "with")
			}
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
			file := readTable(t, filepath.Join("../../process/files/catalog", dir, id+".toml"))
			if key == "machine" {
				lay(file, parse(t, row.mill))
			}
			b.texts[key] = writeTable(t, file)
			in[last] = key + ".toml"
		}
		if name == "jobs/lock-winch/manual" {
			b.texts["bars"] = writeTable(t, readTable(t, "../../testdata/jobs/lock-winch/bars.toml"))
			job["bars"] = "bars.toml"
		}
		if job["number"] == "named" {
			b.texts["bars"] = writeTable(t, namedOnList(job))
		}
		if name == "jobs/net-hauler/job" {
			rack := readTable(t, "../../testdata/jobs/net-hauler/rack.toml")
			b.texts["bars"], job["bars"] = writeTable(t, rack), "bars.toml"
			if strings.HasPrefix(job["number"].(string), "rough") {
				job["bar"], job["cutter"] = map[string]any{"name": "B 50"}, map[string]any{"name": "K1 carbide"}
			}
			if job["number"] == "rough each" {
				for _, b := range job["bore"].([]map[string]any) {
					b["rough"] = map[string]any{"bar": "C 60", "cutter": "K1 carbide"}
				}
			}
			if job["number"] == "apart" {
				rack["cutter"] = rack["cutter"].([]map[string]any)[:1]
				delete(rack, "bar")
				b.texts["cutters"], job["cutters"] = writeTable(t, rack), "cutters.toml"
			}
		}
		b.texts[""] = writeTable(t, job)
		b.cutter, _ = parse(t, b.texts["cutter.material"])["class"].(string)
		b.made = sync.OnceValue(func() *outcome {
			made := b.make(t, "", b.texts[""], nil)
			if made.refused != "" {
				t.Errorf("%s: %s", name, made.refused)
			}
			return &made
		})
		if !testing.Short() {
			begun := time.Now()
			b.made()
			b.takes = time.Since(begun)
		}
		all = append(all, b)
	}
	return all
}

// namedOnList moves bar and cutter of a job to a list, which it gives, and names them there.
func namedOnList(job map[string]any) map[string]any {
	bar, cutter := job["bar"].(map[string]any), job["cutter"].(map[string]any)
	left := map[string]any{"name": "ours"}
	for _, k := range []string{"feed_by", "standoff", "outboard"} {
		if v, is := bar[k]; is {
			left[k] = v
			delete(bar, k)
		}
	}
	bar["name"], cutter["name"] = "ours", "ours"
	job["bar"], job["cutter"], job["bars"] = left, map[string]any{"name": "ours"}, "bars.toml"
	return map[string]any{"units": job["units"], "bar": []any{bar}, "cutter": []any{cutter}}
}

// clampedAnywhere is the net hauler with a bar of its own that is clamped at any length, its front web
// so wide that the quill goes in.
const clampedAnywhere = `
number = "clamped"
station = [
  { name = "front web", from = 0.0,   to = 40.0,  diameter = 125.2, swept = true, wall = 25 },
  { name = "rear web",  from = 260.0, to = 295.0, diameter = 75.1, wall = 22 },
]
bore = [ { station = "rear web", repair = "rebore", finish = { diameter = 77, fit = "H7" }, ra = 1.6 } ]
bar = { steps = [ { diameter = 60, length = 400 } ], stickout = [250, 420], quill_out = 75 }
`

// endWeb is a second station that a bush can be fitted in, behind three webs.
const endWeb = `
station = [
  { name = "near web",   from = 0.0,   to = 2.75, diameter = 4.2, swept = true },
  { name = "middle web", from = 8.0,   to = 11.0, diameter = 4.012, wall = 1.75 },
  { name = "far web",    from = 16.25, to = 19.0, diameter = 4.000, swept = true },
  { name = "end web",    from = 19.5,  to = 21.5, diameter = 4.000, swept = true },
]
bar.steps = [ { diameter = 3.0, length = 39.0 } ]`

// webLast is the swing bridge's case with its web counted from the far face, where either face can
// be named.
const webLast = `station = [
  { name = "shore seat", from = 0, to = 70, diameter = 160.10, swept = true, wall = 30 },
  { name = "bridge seat", face = "far", from = 0, to = 60, diameter = 160.10, wall = 30 },
  { name = "middle web", face = "far", from = 360, to = 380, diameter = 180 },
]`

// ringInFront is a narrower place in front of the middle lug: what stands out
// behind the tip reaches it.
const ringInFront = `station = [
  { name = "outer lug",  from = 0.0,  to = 2.75,  diameter = 4.010, swept = true, wall = 1.75 },
  { name = "guard ring", from = 6.0,  to = 6.5,   diameter = 3.6 },
  { name = "middle lug", from = 8.0,  to = 11.0,  diameter = 4.012, wall = 1.75 },
  { name = "inner lug",  from = 16.25, to = 19.0, diameter = 4.008, wall = 1.75 },
]`

// unevenWall is the winch's line with the wall of its idler bore read round the clock.
const unevenWall = `station = [
  { name = "cover pocket", from = 0.0,  to = 1.375,  diameter = 4.3307, swept = true },
  { name = "bearing wall", from = 7.25, to = 8.625,  diameter = 3.9370 },
  { name = "idler",        from = 14.5, to = 16.875, diameter = 3.154, blind = true, relief = 0.08,
    walls = [ { at = 0, metal = 0.75 }, { at = 120, metal = 1.5 }, { at = 240, metal = 1.5 } ] },
]`

// madeSleeve is the winch's sleeve with all that a sleeve in a blind housing may have.
const madeSleeve = `sleeve.stop = { diameter = 3.7, thickness = 0.15, faced = true }
sleeve.hole = [ { at = ["12"], depth = 1.2, diameter = 0.15 } ]
sleeve.groove = [ { from = 1.1, width = 0.2, depth = 0.03 }, { at = ["3"], from = 0.4, length = 0.5, width = 0.15, depth = 0.03 } ]
sleeve.lead_in = { angle = 15, length = 0.1 }
sleeve.vent = { at = "6", width = 0.12, depth = 0.02 }`

// withWords is a control with words that no built-in machine has.
const withWords = `control.coolant = "M8"
control.tool = 12
control.length_offset = 12
control.gauge_line = 0.5
control.home_word = "G53"
control.home_axes = ["feed", "X"]
control.home_at = [0, 24]
control.other_slide = "stated"
control.gear = [ { word = "M41", speeds = [8, 60] }, { word = "M42", speeds = [8, 3000] } ]`

// lowTorque is a mill whose torque is not far above what a cut takes.
const lowTorque = `power = "3 hp"
torque = "200 ft·lb"`

// lay puts the values of one table over those of another, table by table.
func lay(over, with map[string]any) {
	for k, v := range with {
		if in, ok := over[k].(map[string]any); ok {
			if w, ok := v.(map[string]any); ok {
				lay(in, w)
				continue
			}
		}
		over[k] = v
	}
}

func readTable(t *testing.T, name string) map[string]any {
	t.Helper()
	var m map[string]any
	if _, err := toml.DecodeFile(name, &m); err != nil {
		t.Error(err) // also called away from the test's own goroutine
	}
	return m
}

func writeTable(t *testing.T, m map[string]any) string {
	t.Helper()
	var out bytes.Buffer
	if err := toml.NewEncoder(&out).Encode(m); err != nil {
		t.Error(err) // also called away from the test's own goroutine
	}
	return out.String()
}

// parse is a fresh copy of a file.
func parse(t *testing.T, text string) map[string]any {
	t.Helper()
	var m map[string]any
	if _, err := toml.Decode(text, &m); err != nil {
		t.Error(err) // also called away from the test's own goroutine
	}
	return m
}

// places of keys move with every edit, and are no figure of the job.
var jobPlace = regexp.MustCompile(`\.toml:\d+:\d+`)

// outcome is all that a person gets of a job.
type outcome struct {
	plan    string // figures, reasons against rules of thumb, programs, bars that pass
	sheet   string // words of sheet and reach; "" where the plan differs already
	refused string
}

// make plans and writes the job with one of its files changed. What would free a
// plan that is not feasible is not looked for: no key is for that alone. base is
// the job unchanged, nil where this is it.
func (b *keyBase) make(t *testing.T, file, text string, base *outcome) outcome {
	texts := maps.Clone(b.texts)
	texts[file] = text
	clean := func(s string) string { return jobPlace.ReplaceAllString(s, "") }
	job, err := plan.Tooled(files.Job("job.toml", []byte(texts[""]), func(path string) ([]byte, error) {
		if s, ok := texts[strings.TrimSuffix(path, ".toml")]; ok {
			return []byte(s), nil
		}
		return nil, os.ErrNotExist
	}))
	if err != nil {
		return outcome{refused: clean(err.Error())}
	}
	var made, sheet bytes.Buffer
	must := func(data []byte, err error) {
		made.Write(data)
		if err != nil {
			t.Error(err)
		}
	}
	p := new(plan.Plan).Another(job)
	p.Seek = nil
	must(document.Write(p))
	if soFar := clean(made.String()); base != nil && !strings.HasPrefix(base.plan, soFar) {
		return outcome{plan: soFar}
	}
	must(nil, sheets.WriteWhy(&made, p))
	for i := range p.Bores {
		for v := range p.Bores[i].Visits {
			if job.Machine.Control != nil {
				fmt.Fprintln(&made, post.FileName(p, i, v))
				if err := post.WriteFile(&made, p, i, v); err != nil {
					fmt.Fprintln(&made, "refused:", err)
				}
			}
		}
	}
	choices, err := p.Choose(job.Shop)
	must(nil, err)
	must(document.WriteReach(p, choices))
	must(document.WriteLineUp(p, 0))
	out := outcome{plan: clean(made.String())}
	if base == nil || base.plan == out.plan {
		must(nil, sheets.WriteReach(&sheet, p, choices))
		must(nil, sheets.Build(p).WriteText(&sheet))
		out.sheet = clean(sheet.String())
	}
	return out
}

// keyEffect tries a key in one job after another: 0 when the plan differs, else
// the best that it comes to: 1 the sheet, 2 a refusal, 3 nothing. A key of a
// material counts where it does in the casting or in the sleeve: the density does
// in the sleeve alone, which is lifted and heated; what a casting weighs no job
// says. A key that is said to come to no more than the sheet or a refusal takes the eight
// likeliest jobs, more where it does not come to that in these, and in each the first value that does;
// in the long form every value in every job.
func keyEffect(t *testing.T, bases []*keyBase, k keys.Entry, said int, seen *keysSeen) int {
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
	// A speed shows where that cutter is used, any key most likely where it stands: there first,
	// and in what plans fast.
	unlikely := func(b *keyBase) int {
		if strings.Contains(k.Key, ".speed."+b.cutter+".") {
			return 0
		}
		for _, file := range in {
			if b.texts[file] == "" {
				continue
			}
			for _, table := range tablesOf(parse(t, b.texts[file]), strings.Split(path, ".")) {
				if _, is := table[last]; is {
					return 1
				}
			}
		}
		return 2
	}
	rank := map[*keyBase]int{}
	for _, b := range bases {
		rank[b] = unlikely(b)
	}
	bases = slices.Clone(bases)
	slices.SortStableFunc(bases, func(a, b *keyBase) int { return cmp.Or(cmp.Compare(rank[a], rank[b]), cmp.Compare(a.takes, b.takes)) })
	try := func(only string) int {
		for nth, b := range bases {
			if nth >= 8 && said > 0 && best == said && !slow.Long() {
				break
			}
			n := 0
		job:
			for _, file := range in {
				if b.texts[file] == "" || only != "" && !strings.HasPrefix(only, b.name+",") {
					continue
				}
				for i, was := range tablesOf(parse(t, b.texts[file]), strings.Split(path, ".")) {
					for _, v := range keyCandidates(t, k, last, was[last]) {
						if n++; only != "" && only != b.at(n) {
							continue
						}
						m := parse(t, b.texts[file])
						same := writeTable(t, m)
						at := tablesOf(m, strings.Split(path, "."))[i]
						for key, x := range v {
							if at[key] = x; x == "left out" {
								delete(at, key)
							}
						}
						text := writeTable(t, m)
						if text == same {
							continue
						}
						got := 3
						switch made := b.make(t, file, text, b.made()); {
						case made.refused != "":
							got = 2
						case made.plan != b.made().plan:
							seen.put(k.Key, b.at(n))
							return 0
						case made.sheet != b.made().sheet:
							got = 1
						}
						best = min(best, got)
						if said > 0 && got == said && !slow.Long() {
							break job
						}
					}
				}
			}
		}
		return best
	}
	if known := seen.before[k.Key]; known != "" && said == 0 && try(known) == 0 {
		return 0
	}
	return try("")
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
func keyCandidates(t *testing.T, k keys.Entry, last string, old any) []map[string]any {
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
