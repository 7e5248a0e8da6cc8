package files

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/process/source"
)

// TestDescriptions: ranges parse, examples and defaults are values that the
// field itself takes, in both units, and nothing lacks a word.
func TestDescriptions(t *testing.T) {
	for _, file := range kinds() {
		for _, fault := range keys.Faults(file.what, file.blank) {
			t.Errorf("%s: %s", file.what, fault)
		}
	}
}

// TestEveryFieldIsDescribed walks the structs by reflection: a field that no
// description names is one that a file cannot state and no comparison shows.
func TestEveryFieldIsDescribed(t *testing.T) {
	for _, x := range []field.Described{
		&process.Job{}, &process.Station{}, &process.Bore{}, &process.Finish{}, &process.Reading{}, &process.Bar{}, &process.Step{}, &process.Support{}, &process.Cutter{}, &process.Sleeve{}, &process.Sweep{}, &process.LineUp{}, &process.Limits{}, &process.ShopBar{}, &process.ShopCutter{}, &Shop{},
		&process.Machine{}, &process.Travel{}, &process.Control{}, &process.GearRange{}, &process.Material{}, &process.SpeedBand{}, &process.CutterMaterial{}, &process.BarMaterial{}, &entries{}, &written{}, &process.Measured{}, &process.Size{},
	} {
		for _, f := range field.Undescribed(x) {
			t.Errorf("%s is not described", f)
		}
	}
}

// machineWords are the words of a control that no built-in machine has.
const machineWords = `restart_step = 1000
coolant = "M8"
tool = 12
length_offset = 12
gauge_line = 12
home_word = "G53"
home_axes = ["feed", "X"]
home_at = [0, 600]
hold_out = 300
orient_word = "S"
orient_angle = 90
orient_settle = 0.5
spring_again = "/"
other_slide = "placed"
table_word = "B"
table_angle = 180
line_end = "CRLF"
leader = 100
trailer = 50
remarks = "short"
file_name = "{number}{visit}"
file_name_most = 8
file_capitals = true
file_extension = "tap"
one_file = true
gear = [ { word = "M41", speeds = [8, 300] }, { word = "M42", speeds = [200, 2500] } ]
`

// cutterList is a list that uses every key of a cutter.
const cutterList = `units = "in"
[[cutter]]
name        = "bit 7"
material    = "carbide"
nose_radius = 0.016
lead        = 85
trail       = 10
rake        = 6
edge_radius = 0.0004
least       = 2.9
most        = 4.0
ahead       = 0.06
behind      = 0.4
beside      = 0.5
set_by      = "preset"
speed       = { rough = 180, finish = 240 }
good_for    = "finish"
[[cutter]]
name        = "bit 8"
material    = "hss"
nose_radius = 0.031
`

// goodFiles are the sound files that between them use every key, by kind.
func goodFiles(t testing.TB) map[string]map[string]string {
	t.Helper()
	all := map[string]map[string]string{}
	for kind, glob := range map[string]string{
		"job file": "../../testdata/process/good/*.toml", "machine file": "catalog/machines/*.toml", "material file": "catalog/materials/*.toml",
		"cutter material file": "catalog/cutters/*.toml", "bar material file": "catalog/bars/*.toml",
		"list of bars and cutters": "../../testdata/jobs/lock-winch/bars.toml",
		"results file":             "../../testdata/process/results/*.toml",
	} {
		all[kind] = map[string]string{}
		names, err := filepath.Glob(glob)
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %v", glob, err)
		}
		for _, n := range names {
			data, err := os.ReadFile(n)
			if err != nil {
				t.Fatal(err)
			}
			all[kind][filepath.Base(n)] = string(data)
		}
	}
	all["job file"]["bars"] = "bars = \"bars.toml\"\n" + reboreJob
	all["job file"]["rack"] = "bars = \"bars.toml\"\ncutters = \"cutters.toml\"\n" + strings.Replace(reboreJob, "[cutter]", "[cutter]\nname = \"bit 7\"", 1)
	all["job file"]["clamped"] = strings.Replace(reboreJob, "feed_by = \"table\"", "stickout = [8.5, 11]\nquill_out = 6", 1)
	all["job file"]["line"] = lineJob
	all["job file"]["both faces"] = bothFaces(t)
	all["list of bars and cutters"]["cutters"] = cutterList
	all["list of bars and cutters"]["clamped"] = "units = \"in\"\n[[bar]]\nname = \"no. 9\"\nsteps = [ { diameter = 2.25, length = 17.5 } ]\nstickout = [9, 17.5]\n"
	all["job file"]["rebore"], all["job file"]["sleeve"] = reboreJob, sleeveJob
	all["job file"]["tools of bores"] = "rough = { bar = \"three\", cutter = \"bit 8\" }\n" +
		strings.Replace(reboreJob, "ra      = 63", "ra      = 63\nbar = \"two\"\ncutter = \"bit 8\"\nrough = { bar = \"three\", cutter = \"bit 7\" }", 1)
	all["job file"]["made"], all["job file"]["made along"] = sleeveJob+madeLines, sleeveJob+alongLines
	all["job file"]["made on the mill"] = sleeveJob + millLines
	all["job file"]["walls"] = strings.Replace(sleeveJob, "wall = 19, wall_most = 32", "walls = [ { at = 0, metal = 19 }, { at = 120, metal = 28 }, { at = 240, metal = 32 } ]", 1)
	all["machine file"]["range"] = strings.Replace(all["machine file"]["hbm-4in.toml"], "[source]", "force_factor = 1.05\n[control]\nfeed_axis = \"W\"\n[source]", 1)
	all["machine file"]["words"] = strings.NewReplacer("[control]", "[control]\n"+machineWords, "program_number = 0", "program_number = 1200").Replace(all["machine file"]["cnc-110mm.toml"])
	all["machine file"]["measured"] = strings.Replace(all["machine file"]["hbm-4in.toml"], "joint_damping = [0.03, 0.1]", "damping = [0.02, 0.05]", 1)
	all["material file"]["range"] = "units = \"in\"\n" + all["material file"]["brass.toml"]
	return all
}

// read reads a file of a kind into a blank.
func (f file) read(name string, data []byte) (*keys.Reader, error) {
	x := reflect.New(reflect.TypeOf(f.blank).Elem()).Interface().(field.Described)
	if f.under == "results" {
		return keys.ReadIn(qty.Inches, name, f.what, data, x)
	}
	return keys.Read(name, f.what, data, x)
}

// TestEveryKeyIsUsed sees that the good files use every key, and that each key
// of each file refuses a value of the wrong kind at its place.
func TestEveryKeyIsUsed(t *testing.T) {
	good := goodFiles(t)
	step, n := slow.Rounds(t, "is the step from value to value", 1, 5), 0
	for _, file := range kinds() {
		used := map[string]bool{}
		for name, text := range good[file.what] {
			r, err := file.read(name, []byte(text))
			if err == nil {
				err = r.Err()
			}
			if err != nil {
				t.Errorf("%v", err)
				continue
			}
			for path := range r.Places() {
				used[elementNumber.ReplaceAllString(path, "")] = true
			}
			var values map[string]any
			if _, err := toml.Decode(text, &values); err != nil {
				t.Fatal(err)
			}
			spoil(values, "", func(path string) {
				if n++; n%step != 0 {
					return
				}
				if strings.HasPrefix(path, "source.") && file.what != "job file" || path == "units" {
					return // a remark, and the key that all others lean on, have tests of their own
				}
				var b bytes.Buffer
				if err := toml.NewEncoder(&b).Encode(values); err != nil {
					t.Fatal(err)
				}
				r, err := file.read(name, b.Bytes())
				if err != nil {
					t.Fatal(err)
				}
				err = r.Err()
				var list source.Errors
				errors.As(err, &list)
				i := slices.IndexFunc(list, func(p source.Problem) bool { return p.Key == path })
				if i < 0 {
					t.Errorf("%s: %s takes a date", name, path)
				} else if p := list[i]; p.Pos != r.Places()[path] || p.What == "" || p.Allowed == "" {
					t.Errorf("%s: the date at %s gives %v", name, path, p)
				}
			})
		}
		for _, k := range keys.Entries("", "", file.blank) {
			if !used[k.Key] {
				t.Errorf("no good %s uses %s", file.what, k.Key)
			}
		}
	}
}

var elementNumber = regexp.MustCompile(`\[[0-9]*\]`)

func dotted(path, k string) string {
	if path == "" {
		return k
	}
	return path + "." + k
}

// spoil puts a date, which no key takes, in the place of each value in turn.
func spoil(m map[string]any, path string, try func(path string)) {
	for k, v := range m {
		at := dotted(path, k)
		m[k] = time.Time{}
		try(at)
		m[k] = v
		switch x := v.(type) {
		case map[string]any:
			spoil(x, at, try)
		case []map[string]any:
			for i := range x {
				spoil(x[i], source.El(at, i), try)
			}
		case []any:
			for i := range x {
				old := x[i]
				x[i] = time.Time{}
				try(source.El(at, i))
				x[i] = old
				if t, ok := old.(map[string]any); ok {
					spoil(t, source.El(at, i), try)
				}
			}
		}
	}
}

// TestNamesEveryKey lists what explain knows, and asks for each.
func TestExplain(t *testing.T) {
	keys := Keys()
	if len(keys) < 150 {
		t.Errorf("only %d keys", len(keys))
	}
	step := slow.Rounds(t, "is the step from key to key", 1, 5)
	for i, k := range keys {
		if i%step != 0 {
			continue
		}
		got, err := Explain(k.Key)
		if err != nil || len(got) == 0 || got[0].Key != k.Key {
			t.Errorf("Explain(%q) = %v, %v", k.Key, got, err)
		}
		for what, s := range map[string]string{"type": k.Type, "default": k.Default, "example": k.Example, "text": k.Text} {
			if s == "" {
				t.Errorf("%s has no %s", k.Key, what)
			}
		}
	}
	for _, row := range []struct {
		ask  string
		want []string
	}{
		{"bore[0].finish.fit", []string{"bore.finish.fit"}},
		{"[bar.outboard]", []string{"bar.outboard", "bar.outboard.at", "bar.outboard.station", "bar.outboard.place_error", "bar.outboard.clearance", "bar.outboard.stiffness"}},
		{" Lead ", []string{"cutter.lead", "bars.cutter.lead"}},
		{"outboard", []string{"bar.outboard", "bar.outboard.at", "bar.outboard.station", "bar.outboard.place_error", "bar.outboard.clearance", "bar.outboard.stiffness"}},
		{"nose", []string{"machine.nose"}},
	} {
		got, err := Explain(row.ask)
		var names []string
		for _, e := range got {
			names = append(names, e.Key)
		}
		if err != nil || !slices.Equal(names, row.want) {
			t.Errorf("Explain(%q) = %v, %v", row.ask, names, err)
		}
	}
	for ask, want := range map[string]string{
		"nose_radus":  `there is no key "nose_radus"; did you mean "nose_radius"?`,
		"":            `no key is named; write one as in "bore.finish", or a word of it as in "diameter"`,
		"xylophonics": `there is no key "xylophonics"; at the top of a job file stand units, number, revision, title, customer, notes, machine, material, station, face_to_face, bore, order, rough, bar, bars, cutters, choose, cutter, sleeve, sweep, lineup, limits`,
	} {
		if _, err := Explain(ask); err == nil || err.Error() != want {
			t.Errorf("Explain(%q): %v", ask, err)
		}
	}
}

func ExampleExplain() {
	entries, _ := Explain("sweep.dial")
	e := entries[0]
	for _, line := range []string{e.Key, e.Type, e.Unit, e.Default, e.Range, e.Example, e.Text} {
		os.Stdout.WriteString(line + "\n")
	}
	// Output:
	// sweep.dial
	// list of lengths
	// in or mm
	// required
	// 3 to 360 of them; -0.5 to 0.5 in or -12 to 12 mm
	// dial = [0, 0.0004, 0.0010, 0.0005]   (in mm: dial = [0, 0.01, 0.025, 0.012])
	// dial reading at each position, as the dial shows it
}

// TestProblemsAreBounded: a file of nonsense is answered, not echoed.
func TestProblemsAreBounded(t *testing.T) {
	var b strings.Builder
	for i := range 5000 {
		b.WriteString("key" + strconv.Itoa(i) + " = 1\n")
	}
	_, err := Job("job.toml", []byte(b.String()), nil)
	if n := len(err.(source.Errors)); n != source.Most+1 {
		t.Fatalf("%d problems", n)
	}
	if last := err.(source.Errors)[source.Most].Error(); !strings.HasSuffix(last, "problems are not shown; mend these first") {
		t.Error(last)
	}
}

// bothFaces is the shipped job whose bores are bored from both faces.
func bothFaces(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/jobs/swing-bridge/both.toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
