package process

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"borewright/process/qty"
)

// schema is one file's table of keys.
type schema struct {
	what   string // "job file"
	fields []field
	known  map[string]*field
	sub    map[string][]*field // parent path -> its keys in order
}

func newSchema(what string, fields []field) *schema {
	s := &schema{what: what, fields: fields, known: map[string]*field{}, sub: map[string][]*field{}}
	for i := range fields {
		f := &fields[i]
		s.known[f.path] = f
		s.sub[f.parent()] = append(s.sub[f.parent()], f)
	}
	return s
}

// reader checks a parsed file against its schema and holds what it found good.
// A key that was given and is bad is absent from vals, so that nothing is
// concluded from it.
type reader struct {
	*problems
	schema *schema
	at     map[string]Pos
	tiny   map[string]bool
	units  qty.Unit
	known  bool           // units were stated
	vals   map[string]any // path -> value or default
	given  map[string]bool
	counts map[string]int  // path of a list of tables -> elements
	meant  map[string]bool // keys that a misspelt one stands for: not told missing as well
}

// read parses and checks one file by its schema. The reader is nil when the
// file does not parse.
func read(name string, data []byte, s *schema) (*reader, *problems) {
	p := &problems{file: fileName(name)}
	src := parse(data, p)
	if src == nil {
		return nil, p
	}
	r := &reader{problems: p, schema: s, at: src.at, tiny: src.tiny,
		vals: map[string]any{}, given: map[string]bool{}, counts: map[string]int{}, meant: map[string]bool{}}
	r.units, r.known = qty.Metric, true
	if f := s.known["units"]; f != nil {
		u, ok := src.values["units"].(string)
		if !ok && f.def != "" {
			u = f.def
		}
		if u == "in" {
			r.units = qty.Inches
		}
		r.known = u == "in" || u == "mm"
	}
	r.table("", "", src.values)
	return r, p
}

// fileName is the name as printed: never empty, never with controls.
func fileName(name string) string {
	if name == "" {
		return "job.toml"
	}
	return show(name)
}

// where is the place of a key path, or of the nearest table around it that the
// file has.
func where(at map[string]Pos, path string) Pos {
	for path != "" {
		if p, ok := at[path]; ok {
			return p
		}
		i := strings.LastIndexAny(path, ".[")
		if i < 0 {
			break
		}
		path = path[:i]
	}
	return Pos{1, 1}
}

func (r *reader) place(path string) Pos { return where(r.at, path) }

// bad adds a problem at a key path.
func (r *reader) bad(path, what, allowed string) { r.add(r.place(path), path, what, allowed) }

// badf is bad with figures.
func (r *reader) badf(path, allowed, format string, a ...any) {
	r.bad(path, fmt.Sprintf(format, a...), allowed)
}

// table checks the keys of one table. prefix is its path in the schema, path
// its path in the file.
func (r *reader) table(prefix, path string, m map[string]any) {
	for _, k := range slices.Sorted(maps.Keys(m)) {
		at := join(path, k)
		f := r.schema.known[dotted(prefix, k)]
		if f == nil || f.parent() != prefix {
			what, allowed, meant := r.unknown(prefix, k)
			if r.bad(at, what, allowed); meant != "" {
				r.meant[join(path, meant)] = true
			}
			continue
		}
		r.given[at] = true
		r.value(f, at, m[k])
	}
	for _, f := range r.schema.sub[prefix] {
		at := join(path, f.last())
		if r.given[at] {
			continue
		}
		switch {
		case f.need && r.meant[at]:
		case f.need:
			r.add(r.place(path), at, "is missing", "write "+r.sample(f))
		case f.kind == aTable && f.def == "{}":
			r.table(f.path, at, nil)
		case f.def != "":
			r.setDefault(f, at)
		}
	}
}

// sample is a line to write for a missing key.
func (r *reader) sample(f *field) string {
	if f.kind == aTable && !strings.Contains(f.path, ".") {
		head := "[" + f.path + "]"
		if f.list != nil {
			head = "[" + head + "]"
		}
		var keys []string
		for _, g := range r.schema.sub[f.path] {
			if g.need {
				keys = append(keys, g.last())
			}
		}
		return head + " with " + strings.Join(keys, ", ")
	}
	s := f.exampleFor(r.units)
	if f.kind != aTable {
		about, _, _ := strings.Cut(f.text, ";")
		s += " (" + about + ")"
	}
	return s
}

func dotted(prefix, k string) string {
	if prefix == "" {
		return k
	}
	return prefix + "." + k
}

func (r *reader) setDefault(f *field, at string) {
	for _, word := range []string{in(r.units, f.def)} {
		var v any = word
		switch f.kind {
		case aText, aName, aChoice:
		case aFlag:
			v = word == "true"
		case aCount:
			i, _ := strconv.ParseInt(word, 10, 64)
			v = i
		default:
			x, _ := strconv.ParseFloat(word, 64)
			v = x
		}
		if got, bad := f.one(v, r.units, false); bad == nil {
			r.vals[at] = got
		}
	}
}

// unknown says that a key is not one, and what was probably meant.
func (r *reader) unknown(prefix, k string) (what, allowed, meant string) {
	var here []string
	for _, f := range r.schema.sub[prefix] {
		here = append(here, f.last())
	}
	name := "the " + r.schema.what
	if prefix != "" {
		name = "[" + prefix + "]"
		if f := r.schema.known[prefix]; f.list != nil {
			name = "a " + prefix
		}
	}
	what = "is not a key of " + name
	var homes []string
	for _, f := range r.schema.fields {
		if f.last() == k {
			home := "belongs at the top of the file, before the first [table]"
			if f.parent() != "" {
				home = "belongs in [" + f.parent() + "]"
			}
			homes = append(homes, home)
		}
	}
	near, low := nearest(k, here), strings.ToLower(k)
	switch {
	case slices.Contains(here, low):
		return what, "keys are written in small letters: " + low, low
	case near != "" && distance([]rune(low), []rune(near)) <= 2:
		return what, "did you mean " + near + "?", near
	case len(homes) > 0 && len(homes) <= 3:
		return what, k + " " + strings.Join(homes, ", or "), ""
	case near != "":
		return what, "did you mean " + near + "?", near
	}
	return what, "its keys are " + strings.Join(here, ", "), ""
}

// value checks what stands under a key.
func (r *reader) value(f *field, at string, v any) {
	if f.kind == aSources {
		r.sources(f, at, v)
		return
	}
	if f.list == nil {
		if f.kind == aTable {
			m, ok := v.(map[string]any)
			if !ok {
				bad := f.wrong(v, r.units)
				if _, isList := v.([]map[string]any); isList {
					bad = &fail{"is written as a list", "write [" + f.path + "] once, with single brackets"}
				}
				r.bad(at, bad.what, bad.allowed)
				return
			}
			r.table(f.path, at, m)
			return
		}
		if got, ok := r.single(f, at, v); ok {
			r.vals[at] = got
		}
		return
	}
	var items []any
	switch x := v.(type) {
	case []any:
		items = x
	case []map[string]any:
		for _, m := range x {
			items = append(items, m)
		}
	default:
		bad := f.wrong(v, r.units)
		if _, isTable := v.(map[string]any); isTable && f.kind == aTable {
			bad.what, bad.allowed = "is written as a single table", "write [["+f.path+"]] with double brackets: there may be several"
		}
		r.bad(at, bad.what, bad.allowed)
		return
	}
	if n := len(items); n < f.list[0] || n > f.list[1] {
		r.badf(at, fmt.Sprintf("it takes %s", countWords(f.list)), "has %s", count(n, "value"))
		if n > f.list[1] {
			return
		}
	}
	all, good := make([]any, 0, len(items)), true
	for i, x := range items {
		el := at + "[" + strconv.Itoa(i) + "]"
		if f.kind == aTable {
			m, ok := x.(map[string]any)
			if !ok {
				r.bad(el, found(x), "write a table in braces, as in "+f.exampleFor(r.units))
				good = false
				continue
			}
			r.table(f.path, el, m)
			continue
		}
		got, ok := r.single(f, el, x)
		good = good && ok
		all = append(all, got)
	}
	switch {
	case f.kind == aTable:
		r.counts[at] = len(items)
	case good:
		r.vals[at] = all
	}
}

func countWords(n *[2]int) string {
	if n[0] == n[1] {
		return strconv.Itoa(n[0])
	}
	return fmt.Sprintf("%d to %d", n[0], n[1])
}

func (r *reader) single(f *field, at string, v any) (any, bool) {
	if r.tiny[at] {
		r.bad(at, "the number is too small to be held", "write 0 or a size that can be measured")
		return nil, false
	}
	got, bad := f.one(v, r.units, r.known)
	if bad != nil {
		r.bad(at, bad.what, bad.allowed)
		return nil, false
	}
	return got, true
}

// sources reads the remarks on where figures come from: each key must be one
// of the file's figures, or "all".
func (r *reader) sources(f *field, at string, v any) {
	m, ok := v.(map[string]any)
	if !ok {
		bad := f.wrong(v, r.units)
		r.bad(at, bad.what, bad.allowed)
		return
	}
	got := map[string]string{}
	remark := field{path: f.path + ".all", kind: aText, example: `"works drawing"`}
	for _, k := range slices.Sorted(maps.Keys(m)) {
		el := join(at, k)
		if r.schema.known[k] == nil && k != "all" {
			what, allowed, _ := r.unknown("", k)
			r.bad(el, what, allowed)
			continue
		}
		if s, ok := r.single(&remark, el, m[k]); ok {
			got[k] = s.(string)
		}
	}
	r.vals[at] = got
}

// has reports that all the paths hold a good value (given or default).
func (r *reader) has(paths ...string) bool {
	for _, p := range paths {
		if _, ok := r.vals[p]; !ok {
			return false
		}
	}
	return true
}

// get is the value at a path, or the zero value where it is absent or bad.
func get[T any](r *reader, path string) T {
	v, _ := r.vals[path].(T)
	return v
}

// list is the list at a path, or nil.
func list[T any](r *reader, path string) []T {
	all, _ := r.vals[path].([]any)
	out := make([]T, 0, len(all))
	for _, v := range all {
		if x, ok := v.(T); ok {
			out = append(out, x)
		}
	}
	return out
}

func (r *reader) length(path string) qty.Length     { return get[qty.Length](r, path) }
func (r *reader) diameter(path string) qty.Diameter { return qty.Diameter(get[qty.Length](r, path)) }
func (r *reader) num(path string) float64           { return get[float64](r, path) }
func (r *reader) text(path string) string           { return get[string](r, path) }
func (r *reader) flag(path string) bool             { return get[bool](r, path) }

// len prints a length with its unit, for messages.
func (r *reader) len(l qty.Length) string { return lengthWords(r.units, l) }

// dia prints a diameter with its sign and unit.
func (r *reader) dia(d qty.Diameter) string { return "Ø" + lengthWords(r.units, qty.Length(d)) }

// lengthWords prints a length with its unit and no zeros at the end.
func lengthWords(u qty.Unit, l qty.Length) string {
	s := u.Format(l)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s + " " + u.String()
}

// el is the path of a list element.
func el(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }
