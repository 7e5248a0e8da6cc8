package document

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// planSchema is the schema in the hands of a validator that is not ours; closed: it
// refuses names that it does not know.
func planSchema(t *testing.T, closed bool) *jsonschema.Schema {
	t.Helper()
	doc := asJSON(t, PlanSchema())
	if closed {
		shut(doc)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("plan.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("plan.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func asJSON(t *testing.T, v any) any {
	t.Helper()
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

func shut(v any) {
	switch x := v.(type) {
	case map[string]any:
		if _, table := x["properties"]; table && x["type"] == "object" {
			x["additionalProperties"] = false
		}
		for _, e := range x {
			shut(e)
		}
	case []any:
		for _, e := range x {
			shut(e)
		}
	}
}

// TestPlanSchema: the plan.json of every example is as the schema says, each of its names
// is known there, and one that is spoilt is refused.
func TestPlanSchema(t *testing.T) {
	open, closed := planSchema(t, false), planSchema(t, true)
	names, err := filepath.Glob("../../golden/*/plan.json")
	if err != nil || len(names) < 5 {
		t.Fatal(names, err)
	}
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		var p map[string]any
		if err := json.Unmarshal(data, &p); err != nil {
			t.Fatal(err)
		}
		if err := closed.Validate(asJSON(t, p)); err != nil {
			t.Errorf("%s: %v", n, err)
		}
		p["another"] = 1
		if err := open.Validate(asJSON(t, p)); err != nil {
			t.Errorf("%s with one name more: %v", n, err)
		}
		delete(p, "another")
		for _, spoilt := range []func(pass map[string]any){
			func(pass map[string]any) { delete(pass, "feed_mm_per_rev") },
			func(pass map[string]any) { pass["kind"] = 3.0 },
			func(pass map[string]any) { pass["spring_mm"] = "much" },
			func(pass map[string]any) { pass["n"] = 1.5 },
		} {
			var q map[string]any
			if err := json.Unmarshal(data, &q); err != nil {
				t.Fatal(err)
			}
			bore := q["bores"].([]any)[0].(map[string]any)
			spoilt(bore["passes"].([]any)[0].(map[string]any))
			if open.Validate(asJSON(t, q)) == nil {
				t.Errorf("%s: taken, and it is spoilt", n)
			}
		}
	}
}
