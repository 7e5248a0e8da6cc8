package keys

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// Draft is the edition of JSON Schema that Schema and its like are written in.
const Draft = "http://json-schema.org/draft-07/schema#"

// Schema is the JSON Schema of a file of x, a TOML file taken as JSON, so that an
// editor completes and checks it. It refuses keys that are none, keys that are missing,
// values of another kind, and bare numbers out of range, by the file's units. What looks at
// several keys, at a text with its own unit or at another file is left to the loader:
// what that takes, the schema takes.
func Schema(title string, x field.Described) map[string]any {
	all := keysOf(field.Of(x))
	out := tableSchema(all, "", pathsOf(all))
	out["$schema"], out["title"] = Draft, title
	inch, metric := rangesOf(all, qty.Inches), rangesOf(all, qty.Metric)
	units := find(all, "units")
	if units.Spec == nil || inch == nil {
		return out
	}
	is := map[string]any{"properties": map[string]any{"units": map[string]any{"const": "in"}}}
	if units.Default != "in" {
		is["required"] = []string{"units"}
	}
	out["if"], out["then"], out["else"] = is, inch, metric
	return out
}

func pathsOf(all []key) (paths []string) {
	for _, f := range leaves(all, "") {
		paths = append(paths, f.path)
	}
	return paths
}

func tableSchema(fields []key, under string, paths []string) map[string]any {
	properties, needed := map[string]any{}, []string{}
	for _, f := range fields {
		v := f.schema(fields, under, paths)
		v["description"] = f.hint(dotted(under, f.Key))
		properties[f.Key] = v
		if f.Need && f.Unless == nil {
			needed = append(needed, f.Key)
		}
	}
	out := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(needed) > 0 {
		out["required"] = needed
	}
	return out
}

// hint is what an editor shows of a key: what explain prints, in fewer lines.
func (f key) hint(path string) string {
	e := f.entry(path, "")
	lines := []string{e.Text}
	for _, p := range [][2]string{{"unit", e.Unit}, {"default", e.Default}, {"range", e.Range}, {"example", e.Example}} {
		if p[1] != "" {
			lines = append(lines, p[0]+": "+p[1])
		}
	}
	return strings.Join(lines, "\n")
}

func (f key) schema(beside []key, under string, paths []string) map[string]any {
	one := f.kindSchema(under, paths)
	if f.Many() {
		one = map[string]any{"type": "array", "minItems": f.Least, "maxItems": f.Most, "items": one}
	}
	if f.Lists != "" {
		return map[string]any{"anyOf": []any{one, find(beside, f.Lists).schema(beside, under, paths)}}
	}
	if v := f.plainDefault(); v != nil {
		one["default"] = v
	}
	return one
}

// Texts that stand where a number may, as the loader reads them. A pattern is no
// stricter than that.
const (
	hourText   = `^\s*(0?[1-9]|1[0-2])(:[0-5][0-9])?\s*$`
	lengthText = `^\s*[-+]?(([0-9]+\.?[0-9]*|\.[0-9]+)\s*(mm|cm|m|in|inch|inches|"|[µμu]m|[µμu]in)|([0-9]+[ -]+)?[0-9]+/[0-9]+\s*(in|inch|inches|")?)`
	degreeText = `[0-9]`
)

// lengthText is the pattern of a length, of a rate or feed with what it is for.
func (f key) lengthText() string {
	if f.Per != "" {
		return lengthText + `(/` + f.Per + `)?\s*$`
	}
	return lengthText + `\s*$`
}

// unitText is the pattern of a speed, power or torque.
func (f key) unitText() string {
	return `^\s*[-+.0-9]+\s*(` + strings.Join(slices.Sorted(maps.Keys(f.units())), "|") + `)\s*$`
}

func (f key) kindSchema(under string, paths []string) map[string]any {
	text := func(longest int) map[string]any {
		return map[string]any{"type": "string", "pattern": `\S`, "maxLength": longest}
	}
	either := func(pattern string) map[string]any {
		return map[string]any{"type": []string{"number", "string"}, "pattern": pattern}
	}
	switch f.Kind {
	case field.Text:
		return text(source.LongestText)
	case field.Name:
		return text(source.LongestName)
	case field.Choice:
		return map[string]any{"enum": f.Words}
	case field.Flag:
		return map[string]any{"type": "boolean"}
	case field.Table:
		return tableSchema(keysOf(f.Inside()), dotted(under, f.Key), paths)
	case field.Sources:
		return map[string]any{"type": "object", "additionalProperties": text(source.LongestText),
			"propertyNames": map[string]any{"enum": append([]string{"all"}, paths...)}}
	}
	var v map[string]any
	switch f.Kind {
	case field.Count:
		v = map[string]any{"type": "integer"}
	case field.Length, field.Diameter, field.Rough:
		v = either(f.lengthText())
	case field.Temperature:
		v = either(degreeText)
	case field.Speed, field.Power, field.Torque:
		v = either(f.unitText())
	default:
		if v = map[string]any{"type": "number"}; f.Clock {
			v = either(hourText)
		}
	}
	if !f.byUnits() {
		f.bound(v, qty.Inches)
	}
	return v
}

// byUnits is whether the range hangs on the file's units.
func (f key) byUnits() bool { return Half(qty.Inches, f.Span) != Half(qty.Metric, f.Span) }

// bound puts the range of a bare number into its schema. It says nothing of texts.
func (f key) bound(v map[string]any, u qty.Unit) {
	lo, hi, open, ok := f.bounds(u)
	if !ok {
		return
	}
	v["minimum"], v["maximum"] = lo, hi
	if open {
		delete(v, "minimum")
		v["exclusiveMinimum"] = lo
	}
}

// rangesOf are the ranges that hang on the file's units, as a schema that holds beside
// the other; nil where there are none.
func rangesOf(fields []key, u qty.Unit) map[string]any {
	properties := map[string]any{}
	for _, f := range fields {
		v := map[string]any{}
		put := func(f key) {
			inside := v
			if f.Many() {
				inside = map[string]any{}
			}
			if f.Kind == field.Table {
				for k, x := range rangesOf(keysOf(f.Inside()), u) {
					inside[k] = x
				}
			} else if f.byUnits() {
				f.bound(inside, u)
			}
			if f.Many() && len(inside) > 0 {
				v["items"] = inside
			}
		}
		if put(f); f.Lists != "" {
			put(find(fields, f.Lists))
		}
		if len(v) > 0 {
			properties[f.Key] = v
		}
	}
	if len(properties) == 0 {
		return nil
	}
	return map[string]any{"properties": properties}
}

// plainDefault is what is taken for a key left out, where that is the same in inches
// and mm; nil where not.
func (f key) plainDefault() any {
	s := f.Default
	if s == "" || strings.Contains(s, "|") || f.Many() || f.IsTable() {
		return nil
	}
	if slices.Contains([]field.Kind{field.Text, field.Name, field.Choice}, f.Kind) {
		return s
	}
	if f.Kind == field.Flag {
		return s == "true"
	}
	if x, err := strconv.ParseFloat(s, 64); err == nil {
		return x
	}
	return nil
}
