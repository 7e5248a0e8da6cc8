package files

import (
	"bytes"
	"encoding/json"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/process/source"
)

// schemaOf is a schema in the hands of a validator that is not ours.
func schemaOf(t testing.TB, name string) *jsonschema.Schema {
	t.Helper()
	data, err := json.Marshal(Schema(name))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(name+".json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON is a TOML file as an editor hands it to a schema.
func asJSON(t testing.TB, text string) any {
	t.Helper()
	var v map[string]any
	if _, err := toml.Decode(text, &v); err != nil {
		t.Fatal(err)
	}
	return plainJSON(t, v)
}

func plainJSON(t testing.TB, v any) any {
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// TestSchemaTakesEveryExample: what loads is taken, in each kind of file.
func TestSchemaTakesEveryExample(t *testing.T) {
	all := goodFiles(t)
	for _, pattern := range []string{"../../testdata/jobs/*/*.toml", "../../testdata/finished/*/*.toml"} {
		names, err := filepath.Glob(pattern)
		if err != nil || len(names) == 0 {
			t.Fatal(pattern, err)
		}
		for _, n := range names {
			data, err := os.ReadFile(n)
			if err != nil {
				t.Fatal(err)
			}
			switch base := filepath.Base(n); {
			case base == "bars.toml" || base == "rack.toml":
				all["list of bars and cutters"][n] = string(data)
			case strings.HasSuffix(base, ".results.toml"):
				all["results file"][n] = string(data)
			case strings.Contains(string(data), "\n[[bore]]"):
				all["job file"][n] = string(data)
			default:
				all["machine file"][n] = string(data)
			}
		}
	}
	all["job file"]["in"], all["job file"]["mm"] = string(Template(qty.Inches)), string(Template(qty.Metric))
	for _, k := range kinds() {
		s := schemaOf(t, k.name)
		if len(all[k.what]) == 0 {
			t.Errorf("no %s was tried", k.what)
		}
		for name, text := range all[k.what] {
			if err := s.Validate(asJSON(t, text)); err != nil {
				t.Errorf("%s %s: %v", k.what, name, err)
			}
		}
	}
}

// TestSchemaRefusesWhatTheLoaderRefuses changes every key of a full job, one at a
// time. What loads the schema takes; what one key alone has wrong it refuses.
func TestSchemaRefusesWhatTheLoaderRefuses(t *testing.T) {
	s := schemaOf(t, "job")
	refused, taken, left, n := 0, 0, 0, 0
	every := slow.Rounds(t, "a change of one key in so many", 7, 61, 1)
	for _, text := range goodFiles(t)["job file"] {
		var job map[string]any
		if _, err := toml.Decode(text, &job); err != nil {
			t.Fatal(err)
		}
		changes(job, func(what string) {
			if n++; n%every != 0 {
				return
			}
			var b bytes.Buffer
			if err := toml.NewEncoder(&b).Encode(job); err != nil {
				return // no TOML has a list of texts and tables
			}
			_, err := Job("job.toml", b.Bytes(), openGood)
			bad := s.Validate(asJSON(t, b.String()))
			switch {
			case err == nil && bad != nil:
				t.Errorf("%s: loads, and the schema says %v", what, bad)
			case err == nil:
				taken++
			case bad != nil:
				refused++
			case ofOneKey(err):
				t.Errorf("%s: the schema takes it, and the loader says %v", what, err)
			default:
				left++
			}
		})
	}
	t.Logf("%d taken by both, %d refused by both, %d left to the loader", taken, refused, left)
	if taken < 280/every/2 || refused < 3500/every/2 {
		t.Error("too few changes were tried")
	}
}

func openGood(name string) ([]byte, error) {
	return os.ReadFile(filepath.Join("../../testdata/process/good", name))
}

// counted is a list that is too long or too short.
var counted = regexp.MustCompile(`^has [0-9]+ values?$`)

// ofOneKey is whether a mistake is one that can be seen at a key by itself.
func ofOneKey(err error) bool {
	var list source.Errors
	errors.As(err, &list)
	return slices.ContainsFunc(list, func(p source.Problem) bool {
		for _, words := range []string{"is not a key of", "is out of range", "is a text", "is a number", "is a yes or no", "is not known here", "a list stands here", "a table stands here", "has no unit"} {
			if strings.Contains(p.What, words) && !strings.Contains(p.What, `"9000 mm" is out of range`) || counted.MatchString(p.What) {
				return true
			}
		}
		return false
	})
}

// changes makes every change of one value of a table, calls, and takes it back.
func changes(m map[string]any, try func(what string)) {
	for _, k := range slices.Sorted(maps.Keys(m)) {
		v := m[k]
		put := func(what string, to any) {
			m[k] = to
			try(k + " " + what)
			m[k] = v
		}
		delete(m, k)
		try(k + " left out")
		m[k+"x"] = v
		try(k + " misspelt")
		delete(m, k+"x")
		m[k] = v
		put("a flag", true)
		put("a number", 3.5)
		put("a text", "so and so")
		put("a length", "9000 mm")
		put("a bare text", "12")
		put("a list", []any{1.0, 2.0})
		put("an empty list", []any{})
		put("a table", map[string]any{"a": int64(1)})
		switch x := v.(type) {
		case float64:
			put("much larger", x*1e6+1e7)
			put("below nothing", -x-1e5)
		case int64:
			put("much larger", x*1_000_000+10_000_000)
		case []any:
			put("long", slices.Repeat(x, 400))
			for i, e := range x {
				if n, ok := e.(map[string]any); ok {
					changes(n, func(what string) { try(k + " " + what) })
					continue
				}
				x[i] = 1e7
				try(k + " with one much larger")
				x[i] = e
			}
		case map[string]any:
			changes(x, func(what string) { try(k + " " + what) })
		case []map[string]any:
			for _, n := range x {
				changes(n, func(what string) { try(k + " " + what) })
			}
		}
	}
}
