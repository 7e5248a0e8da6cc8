package process

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"

	"borewright/process/qty"
)

// TestTablesOfKeys reads every row: ranges parse, examples and defaults are
// values that the row itself takes, in both units, and nothing lacks a word.
func TestTablesOfKeys(t *testing.T) {
	for _, file := range files() {
		seen := map[string]bool{}
		s := newSchema(file.what, file.fields)
		for i := range file.fields {
			f := &file.fields[i]
			name := dotted(file.under, f.path)
			if seen[f.path] {
				t.Errorf("%s stands twice in the table", name)
			}
			seen[f.path] = true
			if p := f.parent(); p != "" && (s.known[p] == nil || s.known[p].kind != aTable) {
				t.Errorf("%s hangs in the air", name)
			}
			if f.text == "" || f.example == "" {
				t.Errorf("%s lacks text or example", name)
			}
			if f.need && (f.def != "" || f.worked != "") || f.def != "" && f.worked != "" {
				t.Errorf("%s is needed and has a default, or has two", name)
			}
			for _, u := range []qty.Unit{qty.Inches, qty.Metric} {
				if lo, hi, _, ok := f.bounds(u); ok && lo >= hi {
					t.Errorf("%s: range %v to %v", name, lo, hi)
				}
				var v map[string]any
				if _, err := toml.Decode(f.exampleFor(u), &v); err != nil {
					t.Errorf("%s: example: %v", name, err)
					continue
				}
				r := &reader{problems: &problems{}, schema: s, units: u, known: true,
					vals: map[string]any{}, given: map[string]bool{}, counts: map[string]int{}, meant: map[string]bool{}}
				r.value(f, f.last(), v[f.last()])
				for _, p := range r.found {
					if !strings.HasSuffix(p.What, "is missing") {
						t.Errorf("%s: the table refuses its own example %q: %v", name, f.exampleFor(u), p)
					}
				}
				if f.def != "" && f.kind != aTable {
					r.vals = map[string]any{}
					if r.setDefault(f, "x"); !r.has("x") {
						t.Errorf("%s: default %q is not taken", name, f.def)
					}
				}
			}
		}
	}
}

// goodFiles are the sound files that between them use every key, by kind.
func goodFiles(t *testing.T) map[string]map[string]string {
	t.Helper()
	all := map[string]map[string]string{}
	for kind, glob := range map[string]string{
		"job file": "../testdata/process/good/*.toml", "machine file": "catalog/machines/*.toml", "material file": "catalog/materials/*.toml",
		"cutter material file": "catalog/cutters/*.toml", "bar material file": "catalog/bars/*.toml",
		"list of bars": "../testdata/jobs/lock-winch/bars.toml",
		"results file": "../testdata/process/results/*.toml",
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
	all["job file"]["rebore"], all["job file"]["sleeve"] = reboreJob, sleeveJob
	all["machine file"]["range"] = strings.Replace(all["machine file"]["hbm-4in.toml"], "[source]", "force_factor = 1.05\n[control]\nfeed_axis = \"W\"\n[source]", 1)
	all["material file"]["range"] = "units = \"in\"\n" + all["material file"]["brass.toml"]
	return all
}

// TestEveryKeyIsUsed sees that the good files use every key of the tables, and
// that each key of each file refuses a value of the wrong kind at its place.
func TestEveryKeyIsUsed(t *testing.T) {
	good := goodFiles(t)
	for _, file := range files() {
		used := map[string]bool{}
		s := newSchema(file.what, file.fields)
		for name, text := range good[file.what] {
			r, p := read(name, []byte(text), s)
			if err := p.err(); err != nil {
				t.Errorf("%v", err)
				continue
			}
			for path := range r.given {
				used[elementNumber.ReplaceAllString(path, "")] = true
			}
			src := parse([]byte(text), &problems{})
			spoil(src.values, "", func(path string) {
				if strings.HasPrefix(path, "source.") && file.what != "job file" || path == "units" {
					return // a remark, and the key that all others lean on, have tests of their own
				}
				r := &reader{problems: &problems{file: name}, schema: s, at: src.at, tiny: src.tiny, units: r.units, known: true,
					vals: map[string]any{}, given: map[string]bool{}, counts: map[string]int{}, meant: map[string]bool{}}
				r.table("", "", src.values)
				i := slices.IndexFunc(r.found, func(p Problem) bool { return p.Key == path })
				if i < 0 {
					t.Errorf("%s: %s takes a date", name, path)
				} else if p := r.found[i]; p.Pos != src.at[path] || p.What == "" || p.Allowed == "" {
					t.Errorf("%s: the date at %s gives %v", name, path, p)
				}
			})
		}
		for i := range file.fields {
			if !used[file.fields[i].path] {
				t.Errorf("no good %s uses %s", file.what, file.fields[i].path)
			}
		}
	}
}

// spoil puts a date, which no key takes, in the place of each value in turn.
func spoil(m map[string]any, path string, try func(path string)) {
	for k, v := range m {
		at := join(path, k)
		m[k] = time.Time{}
		try(at)
		m[k] = v
		switch x := v.(type) {
		case map[string]any:
			spoil(x, at, try)
		case []map[string]any:
			for i := range x {
				spoil(x[i], el(at, i), try)
			}
		case []any:
			for i := range x {
				old := x[i]
				x[i] = time.Time{}
				try(el(at, i))
				x[i] = old
				if t, ok := old.(map[string]any); ok {
					spoil(t, el(at, i), try)
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
	for _, k := range keys {
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
		{"[bar.outboard]", []string{"bar.outboard", "bar.outboard.at", "bar.outboard.clearance", "bar.outboard.stiffness"}},
		{" Lead ", []string{"cutter.lead"}},
		{"outboard", []string{"bar.outboard", "bar.outboard.at", "bar.outboard.clearance", "bar.outboard.stiffness"}},
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
		"xylophonics": `there is no key "xylophonics"; at the top of a job file stand units, number, revision, title, customer, notes, machine, material, station, bore, bar, bars, cutter, sleeve, sweep, lineup, limits`,
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

func TestNearest(t *testing.T) {
	for _, row := range []struct {
		written string
		want    string
	}{
		{"diamter", "diameter"}, {"lenght", "length"}, {"NAME", "name"}, {"from ", "from"}, {"zzz", ""}, {strings.Repeat("x", 50), ""},
	} {
		if got := nearest(row.written, []string{"name", "from", "to", "diameter", "length"}); got != row.want {
			t.Errorf("nearest(%q) = %q, want %q", row.written, got, row.want)
		}
	}
	if d := distance([]rune("ab"), []rune("ba")); d != 1 {
		t.Errorf("a swap counts %d", d)
	}
}

// TestProblemsAreBounded: a file of nonsense is answered, not echoed.
func TestProblemsAreBounded(t *testing.T) {
	var b strings.Builder
	for i := range 5000 {
		b.WriteString("key" + strconv.Itoa(i) + " = 1\n")
	}
	_, err := Load("job.toml", []byte(b.String()), nil)
	if n := len(err.(Errors)); n != most+1 {
		t.Fatalf("%d problems", n)
	}
	if last := err.(Errors)[most].Error(); !strings.HasSuffix(last, "problems are not shown; mend these first") {
		t.Error(last)
	}
}
