package si

import (
	"borewright/process/field"
)

// Schema is the JSON Schema of what Write gives of x. Names are only ever added, so it
// refuses none that it does not know; of what is worked out as it is written it says the
// name alone.
func Schema(draft, title string, x field.Described) map[string]any {
	out := tableSchema(field.Of(x))
	out["$schema"], out["title"] = draft, title
	return out
}

func tableSchema(fields []*field.Spec) map[string]any {
	properties, always := map[string]any{}, []string{}
	for _, f := range fields {
		if f.NoJSON {
			continue
		}
		v := schema(f)
		if f.NullUnless != nil || f.Part != nil || f.IsTable() && !f.Many() && (f.Create != nil || f.Close != nil) {
			v = map[string]any{"anyOf": []any{v, map[string]any{"type": "null"}}}
		}
		if f.Text != "" {
			v["description"] = f.Text
		} else if f.Label != "" && f.Label != field.Itself {
			v["description"] = f.Label
		}
		properties[name(f)] = v
		if !f.OmitEmpty && f.When == nil {
			always = append(always, name(f))
		}
	}
	out := map[string]any{"type": "object", "properties": properties}
	if len(always) > 0 {
		out["required"] = always
	}
	return out
}

func schema(f *field.Spec) map[string]any {
	if f.Make != nil {
		return map[string]any{}
	}
	var v map[string]any
	switch {
	case f.IsTable():
		v = tableSchema(f.Inside())
	case f.Kind == field.Said, f.Kind == field.Text, f.Kind == field.Name, f.Kind == field.Choice:
		v = map[string]any{"type": "string"}
	case f.Kind == field.Flag:
		v = map[string]any{"type": "boolean"}
	case f.Kind == field.Count:
		v = map[string]any{"type": "integer"}
	default:
		if v = map[string]any{"type": "number"}; f.AtMost > 0 {
			v["maximum"] = f.AtMost
		}
	}
	if f.Many() {
		v = map[string]any{"type": "array", "items": v}
	}
	return v
}
