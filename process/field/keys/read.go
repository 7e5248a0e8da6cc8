// Package keys reads a TOML file into a described struct: every mistake at its
// line, the nearest right key, defaults, ranges in in or mm. The Reader knows by
// path which keys were given and which were good, for the checks of the loader that
// look at several figures. It explains the keys, and writes those that are set as
// a file has them.
package keys

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// Reader is a file that was read into a described struct, and what is known of
// each of its keys by path ("station[1].from"): that it was given, that it was
// good. The checks of a loader go by it, so that nothing is concluded from a
// key that could not be taken.
type Reader struct {
	*source.Problems
	Units qty.Unit // what bare lengths are in
	Known bool     // the units are known; if not, ranges were not judged

	what  string // "job file"
	top   []key
	tree  []leaf // all the keys, made when a message needs them
	at    map[string]source.Pos
	tiny  map[string]bool
	given map[string]bool
	good  map[string]bool
	meant map[string]bool // keys that a misspelt one stands for: not told missing as well
	links []Link
}

// Link is a key whose text names something that the loader has to find.
type Link struct {
	Path, Text string
	To         any // the pointer that Desc.Link was given
}

// Read parses a file and reads it into x by its description. what says what
// kind of file it is. A key "units" says what bare lengths are in. The reader
// is nil, and the error of type source.Errors, where the file does not parse; else
// every mistake stands in the reader.
func Read(name, what string, data []byte, x field.Described) (*Reader, error) {
	return read(name, what, data, x, nil)
}

// ReadIn is Read for a file without units of its own.
func ReadIn(u qty.Unit, name, what string, data []byte, x field.Described) (*Reader, error) {
	return read(name, what, data, x, &u)
}

func read(name, what string, data []byte, x field.Described, u *qty.Unit) (*Reader, error) {
	p := &source.Problems{File: source.FileName(name)}
	src := source.Parse(data, p)
	if src == nil {
		return nil, p.Err()
	}
	r := newReader(p, what, keysOf(field.Of(x)))
	r.at, r.tiny = src.At, src.Tiny
	if u != nil {
		r.Units = *u
	} else {
		r.findUnits(src.Values)
	}
	r.table("", "", key{}, r.top, src.Values)
	return r, nil
}

func newReader(p *source.Problems, what string, top []key) *Reader {
	return &Reader{Problems: p, Units: qty.Metric, Known: true, what: what, top: top,
		given: map[string]bool{}, good: map[string]bool{}, meant: map[string]bool{}}
}

// Stated is a reader of a file that was read before, with the keys at these places and
// more that are written since, and without some: all of them are good.
func Stated(file string, u qty.Unit, at map[string]source.Pos, more, without []string) *Reader {
	r := newReader(&source.Problems{File: source.FileName(file)}, "", nil)
	r.Units, r.at = u, at
	for path := range at {
		r.State(path)
	}
	for _, path := range more {
		r.State(path)
	}
	for _, path := range without {
		delete(r.given, path)
	}
	return r
}

// State counts a key as given and good.
func (r *Reader) State(path string) { r.given[path], r.good[path] = true, true }

func (r *Reader) findUnits(values map[string]any) {
	f := find(r.top, "units")
	if f.Spec == nil {
		return
	}
	u, ok := values["units"].(string)
	if !ok && f.Default != "" {
		u = f.Default
	}
	if u == "in" {
		r.Units = qty.Inches
	}
	r.Known = u == "in" || u == "mm"
}

// find is the field of a key; its Spec is nil where there is none.
func find(fields []key, k string) key {
	for _, f := range fields {
		if f.Key == k {
			return f
		}
	}
	return key{}
}

// Places are the places of all the keys in the file, by path.
func (r *Reader) Places() map[string]source.Pos { return r.at }

// Place is the place of a key path.
func (r *Reader) Place(path string) source.Pos { return source.Where(r.at, path) }

// Bad adds a problem at a key path: what is wrong and what would be right.
func (r *Reader) Bad(path, what, allowed string) { r.Add(r.Place(path), path, what, allowed) }

// Badf is Bad with figures in what is wrong.
func (r *Reader) Badf(path, allowed, format string, a ...any) {
	r.Bad(path, fmt.Sprintf(format, a...), allowed)
}

// Missing adds the problem that a key of the file is not given where one of
// several would do; nothing where another key was told to mean one of them.
func (r *Reader) Missing(keys ...string) {
	if slices.ContainsFunc(keys, func(k string) bool { return r.meant[k] }) {
		return
	}
	var lines []string
	for _, k := range keys {
		lines = append(lines, find(r.top, k).exampleFor(r.Units))
	}
	r.Add(source.Pos{Line: 1, Col: 1}, keys[0], "is missing", "write "+strings.Join(lines, ", or "))
}

// Given reports that the file has the key, good or bad.
func (r *Reader) Given(path string) bool { return r.given[path] }

// Has reports that all the keys hold a good value, given or default.
func (r *Reader) Has(paths ...string) bool {
	for _, p := range paths {
		if !r.good[p] {
			return false
		}
	}
	return true
}

// Badly reports a key that was given and could not be taken.
func (r *Reader) Badly(path string) bool { return r.given[path] && !r.good[path] }

// Links are the texts that name something else, in the order they were read.
func (r *Reader) Links() []Link { return r.links }

// table checks and reads the keys of one table. prefix is its path in the
// description, path its path in the file, of the field that holds it.
func (r *Reader) table(prefix, path string, of key, fields []key, m map[string]any) {
	for _, k := range slices.Sorted(maps.Keys(m)) {
		at := source.Join(path, k)
		f := find(fields, k)
		if f.Spec == nil {
			what, allowed, meant := r.unknown(prefix, of, fields, k)
			if r.Bad(at, what, allowed); meant != "" {
				r.meant[source.Join(path, meant)] = true
			}
			continue
		}
		r.given[at] = true
		if f.Lists != "" && isList(m[k]) {
			f = find(fields, f.Lists)
		}
		r.value(f, dotted(prefix, f.Key), at, m[k])
	}
	for _, f := range fields {
		if f.Kind == field.Said {
			continue
		}
		at := source.Join(path, f.Key)
		if f.Unset != nil && !r.good[at] {
			reflect.ValueOf(f.To).Elem().Set(reflect.ValueOf(f.Unset))
		}
		if r.given[at] {
			continue
		}
		switch {
		case f.Need && (r.meant[at] || r.madeUp(f)):
		case f.Need:
			r.Add(r.Place(path), at, "is missing", "write "+r.sample(prefix, f))
		case f.Kind == field.Table && f.Default == "{}":
			r.table(dotted(prefix, f.Key), at, f, keysOf(f.Inside()), nil)
		case f.Default != "":
			r.setDefault(f, at)
		}
	}
}

// madeUp is whether another key of the file makes up for a needed one.
func (r *Reader) madeUp(f key) bool {
	return slices.ContainsFunc(f.Unless, func(k string) bool { _, is := r.at[k]; return is })
}

func isList(v any) bool {
	switch v.(type) {
	case []any, []map[string]any:
		return true
	}
	return false
}

// sample is a line to write for a missing key.
func (r *Reader) sample(prefix string, f key) string {
	if f.Kind == field.Table && prefix == "" {
		head := "[" + f.Key + "]"
		if f.Many() {
			head = "[" + head + "]"
		}
		var keys []string
		for _, g := range keysOf(f.Inside()) {
			if g.Need {
				keys = append(keys, g.Key)
			}
		}
		return head + " with " + strings.Join(keys, ", ")
	}
	s := f.exampleFor(r.Units)
	if f.Kind != field.Table {
		about, _, _ := strings.Cut(f.Text, ";")
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

func (r *Reader) setDefault(f key, at string) {
	word := Half(r.Units, f.Default)
	var v any = word
	switch f.Kind {
	case field.Text, field.Name, field.Choice:
	case field.Flag:
		v = word == "true"
	case field.Count:
		i, _ := strconv.ParseInt(word, 10, 64)
		v = i
	default:
		x, _ := strconv.ParseFloat(word, 64)
		v = x
	}
	if got, bad := f.take(v, r.Units, false); bad == nil {
		r.keep(f, at, got)
	}
}

// keep puts a good value where it belongs.
func (r *Reader) keep(f key, at string, v any) {
	r.good[at] = true
	if f.Part != nil && r.given[at] {
		f.Part.Create()
	}
	switch all, isList := v.([]any); {
	case f.Link:
		r.links = append(r.links, Link{at, v.(string), f.To})
	case isList:
		for i := range all {
			all[i] = held(f, all[i])
		}
		f.PutAll(all)
	default:
		f.Put(f.To, held(f, v))
	}
}

// held turns a plain number of a file into what is held.
func held(f key, v any) any {
	if x, ok := v.(float64); ok && f.Times != 0 {
		return x * f.Times
	}
	return v
}

// leaf is a key with its path in the description.
type leaf struct {
	path, parent string
	key
}

// leaves are all the keys in the order of the description.
func leaves(fields []key, prefix string) []leaf {
	var all []leaf
	for _, f := range fields {
		all = append(all, leaf{dotted(prefix, f.Key), prefix, f})
		if f.IsTable() {
			all = append(all, leaves(keysOf(f.Inside()), dotted(prefix, f.Key))...)
		}
	}
	return all
}

func (r *Reader) leaves() []leaf {
	if r.tree == nil {
		r.tree = leaves(r.top, "")
	}
	return r.tree
}

// unknown says that a key is not one, and what was probably meant.
func (r *Reader) unknown(prefix string, of key, fields []key, k string) (what, allowed, meant string) {
	var here []string
	for _, f := range fields {
		here = append(here, f.Key)
	}
	name := "the " + r.what
	if of.Spec != nil {
		name = "[" + prefix + "]"
		if of.Many() {
			name = "a " + prefix
		}
	}
	what = "is not a key of " + name
	var homes []string
	for _, f := range r.leaves() {
		if f.Key == k {
			home := "belongs at the top of the file, before the first [table]"
			if f.parent != "" {
				home = "belongs in [" + f.parent + "]"
			}
			homes = append(homes, home)
		}
	}
	near, low := source.Nearest(k, here), strings.ToLower(k)
	switch {
	case slices.Contains(here, low):
		return what, "keys are written in small letters: " + low, low
	case near != "" && source.Distance([]rune(low), []rune(near)) <= 2:
		return what, "did you mean " + near + "?", near
	case len(homes) > 0 && len(homes) <= 3:
		return what, k + " " + strings.Join(homes, ", or "), ""
	case near != "":
		return what, "did you mean " + near + "?", near
	}
	return what, "its keys are " + strings.Join(here, ", "), ""
}

// value checks and reads what stands under a key.
func (r *Reader) value(f key, path, at string, v any) {
	switch {
	case f.Kind == field.Sources:
		r.sources(f, at, v)
	case f.Many():
		r.list(f, path, at, v)
	case f.Kind == field.Table:
		m, ok := v.(map[string]any)
		if !ok {
			bad := f.wrong(v, r.Units)
			if _, isList := v.([]map[string]any); isList {
				bad = &fail{"is written as a list", "write [" + path + "] once, with single brackets"}
			}
			r.Bad(at, bad.what, bad.allowed)
			return
		}
		if f.Create != nil {
			f.Create()
		}
		r.table(path, at, f, keysOf(f.Inside()), m)
		if f.Close != nil {
			f.Close()
		}
	default:
		if got, ok := r.single(f, at, v); ok {
			r.keep(f, at, got)
		}
	}
}

func (r *Reader) list(f key, path, at string, v any) {
	var items []any
	switch x := v.(type) {
	case []any:
		items = x
	case []map[string]any:
		for _, m := range x {
			items = append(items, m)
		}
	default:
		bad := f.wrong(v, r.Units)
		if _, isTable := v.(map[string]any); isTable && f.Kind == field.Table {
			bad.what, bad.allowed = "is written as a single table", "write [["+path+"]] with double brackets: there may be several"
		}
		r.Bad(at, bad.what, bad.allowed)
		return
	}
	if n := len(items); n < f.Least || n > f.Most {
		r.Badf(at, fmt.Sprintf("it takes %s", f.countWords()), "has %s", source.CountOf(n, "value"))
		if n > f.Most {
			return
		}
	}
	if f.Kind == field.Table {
		f.Size(len(items))
	}
	all, good := make([]any, 0, len(items)), true
	for i, x := range items {
		el := source.El(at, i)
		if f.Kind == field.Table {
			if m, ok := x.(map[string]any); ok {
				r.table(path, el, f, keysOf(f.Element(i)), m)
			} else {
				r.Bad(el, source.Found(x), "write a table in braces, as in "+f.exampleFor(r.Units))
			}
			continue
		}
		got, ok := r.single(f, el, x)
		good = good && ok
		all = append(all, got)
	}
	if f.Rising && good && len(all) == 2 && above(all[0], all[1]) {
		r.Badf(at, "write the smaller first", "the first of the two, %s, is above the second, %s", f.words(r.Units, all[0]), f.words(r.Units, all[1]))
		return
	}
	if f.Kind != field.Table && good && (len(all) == f.Least || f.Least != f.Most) {
		r.keep(f, at, all)
	}
}

// above is whether one figure is more than another.
func above(a, b any) bool {
	number := func(v any) float64 {
		if l, ok := v.(qty.Length); ok {
			return float64(l)
		}
		return reflect.ValueOf(v).Float()
	}
	return number(a) > number(b)
}

// words are a figure as a file has it, with its unit.
func (f key) words(u qty.Unit, v any) string {
	switch x := v.(type) {
	case qty.Length:
		return strings.TrimSuffix(lengthWords(u, x), u.String()) + f.unitName(u)
	case float64:
		return qty.Join(PlainNumber(x), f.unitName(u))
	case qty.Quantity:
		return u.Say(x)
	}
	return fmt.Sprint(v)
}

func (f key) countWords() string {
	if f.Least == f.Most {
		return strconv.Itoa(f.Least)
	}
	return fmt.Sprintf("%d to %d", f.Least, f.Most)
}

func (r *Reader) single(f key, at string, v any) (any, bool) {
	if r.tiny[at] {
		r.Bad(at, "the number is too small to be held", "write 0 or a size that can be measured")
		return nil, false
	}
	got, bad := f.take(v, r.Units, r.Known)
	if bad != nil {
		r.Bad(at, bad.what, bad.allowed)
		return nil, false
	}
	return got, true
}

// sources reads the remarks on where figures come from: each key must be one
// of the file's figures, or "all".
func (r *Reader) sources(f key, at string, v any) {
	m, ok := v.(map[string]any)
	if !ok {
		bad := f.wrong(v, r.Units)
		r.Bad(at, bad.what, bad.allowed)
		return
	}
	got := map[string]string{}
	remark := key{&field.Spec{Key: "all", Kind: field.Text, Least: field.Single, Example: `"works drawing"`}}
	for _, k := range slices.Sorted(maps.Keys(m)) {
		el := source.Join(at, k)
		if k != "all" && find(r.top, k).Spec == nil && !slices.ContainsFunc(r.leaves(), func(f leaf) bool { return f.path == k }) {
			what, allowed, _ := r.unknown("", key{}, r.top, k)
			r.Bad(el, what, allowed)
			continue
		}
		if s, ok := r.single(remark, el, m[k]); ok {
			r.good[el] = true
			got[k] = s.(string)
		}
	}
	r.good[at] = true
	if p, ok := f.To.(*map[string]string); ok {
		*p = got
		return
	}
	*f.To.(*string) = r.remarks(got)
}

// remarks joins the remarks on sources: the one for all, then key by key in the
// order of the description.
func (r *Reader) remarks(src map[string]string) string {
	var parts []string
	if s := src["all"]; s != "" {
		parts = append(parts, s)
	}
	for _, f := range r.leaves() {
		if s := src[f.path]; s != "" {
			parts = append(parts, f.path+": "+s)
		}
	}
	return strings.Join(parts, "; ")
}

// Len prints a length with its unit, for messages.
func (r *Reader) Len(l qty.Length) string { return lengthWords(r.Units, l) }

// Dia prints a diameter with its sign and unit.
func (r *Reader) Dia(d qty.Diameter) string { return "Ø" + lengthWords(r.Units, qty.Length(d)) }

// lengthWords prints a length with its unit and no zeros at the end.
func lengthWords(u qty.Unit, l qty.Length) string {
	s := u.Format(l)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s + " " + u.String()
}
