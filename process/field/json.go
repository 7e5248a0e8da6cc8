package field

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"

	"borewright/process/fact"
	"borewright/process/source"
)

// WriteJSON gives a described struct as JSON, indented by two spaces, with a
// line end. say puts facts in words, as a part of a sentence or as one; nil where
// there are none.
func WriteJSON(x Described, say func(f fact.Fact, sentence bool) string) ([]byte, error) {
	w := &jsonWriter{say: say}
	w.table(Of(x), "\n")
	if w.err != nil {
		return nil, w.err
	}
	w.WriteByte('\n')
	return w.Bytes(), nil
}

type jsonWriter struct {
	bytes.Buffer
	say func(f fact.Fact, sentence bool) string
	err error
}

// plain writes a single value.
func (w *jsonWriter) plain(v any) {
	data, err := json.Marshal(v)
	if err != nil && w.err == nil {
		w.err = fmt.Errorf("a figure cannot be written: %w", err)
	}
	w.Write(data)
}

// list writes n elements in brackets, each on its line.
func (w *jsonWriter) list(open, shut string, n int, line string, element func(i int)) {
	w.WriteString(open)
	for i := range n {
		if i > 0 {
			w.WriteByte(',')
		}
		w.WriteString(line + "  ")
		element(i)
	}
	if n > 0 {
		w.WriteString(line)
	}
	w.WriteString(shut)
}

func (w *jsonWriter) table(fields []*Field, line string) {
	var there []*Field
	for _, f := range fields {
		if !f.fileOnly && (!f.omitEmpty || !f.empty()) && (f.when == nil || f.when()) {
			there = append(there, f)
		}
	}
	w.list("{", "}", len(there), line, func(i int) {
		w.plain(there[i].name())
		w.WriteString(": ")
		w.value(there[i], line+"  ")
	})
}

func (w *jsonWriter) value(f *Field, line string) {
	switch {
	case f.known != nil && !f.known():
		w.WriteString("null")
	case f.Kind == Table && f.many():
		w.list("[", "]", f.count(), line, func(i int) { w.table(f.item(i).fields, line+"  ") })
	case f.Kind == Table && f.here != nil && !f.here():
		w.WriteString("null")
	case f.Kind == Table:
		w.table(f.open().fields, line)
	case f.Kind == Said && f.make != nil:
		w.any(f.make(), f, line)
	case f.Kind == Said && f.many():
		all := f.facts()
		w.list("[", "]", len(all), line, func(i int) { w.plain(w.say(*all[i], f.sentence)) })
	case f.Kind == Said:
		w.plain(w.say(*f.to.(*fact.Fact), f.sentence))
	case f.maybe != nil && !f.maybe.here():
		w.WriteString("null")
	default:
		w.any(f.figure(f.to), f, line)
	}
}

func (w *jsonWriter) any(v any, f *Field, line string) {
	if all, ok := v.([]any); ok {
		w.list("[", "]", len(all), line, func(i int) { w.any(all[i], f, line+"  ") })
		return
	}
	switch x := v.(type) {
	case float64:
		v = f.round(x)
	case fact.Fact:
		v = w.say(x, f.sentence)
	}
	w.plain(v)
}

// count is the number of elements of a list of tables.
func (f *Field) count() int {
	if f.gather != nil {
		return f.gather()
	}
	return reflect.ValueOf(f.to).Elem().Len()
}

// empty reports a value that OmitEmpty leaves out.
func (f *Field) empty() bool {
	switch {
	case f.here != nil:
		return !f.here()
	case f.maybe != nil && !f.maybe.here():
		return true
	case f.gather != nil:
		return f.gather() == 0
	case f.make != nil:
		v := reflect.ValueOf(f.make())
		return !v.IsValid() || v.IsZero() || v.Kind() == reflect.Slice && v.Len() == 0
	case f.to == nil:
		return false
	}
	if ends, two := f.to.([2]any); two {
		return reflect.ValueOf(ends[0]).Elem().IsZero() && reflect.ValueOf(ends[1]).Elem().IsZero()
	}
	v := reflect.ValueOf(f.to).Elem()
	return v.IsZero() || (v.Kind() == reflect.Slice || v.Kind() == reflect.Map) && v.Len() == 0
}

// ReadJSON reads a document of WriteJSON back into x. Names that are not
// described are passed over, so that an older program reads a newer document.
// What is worked out is not read back.
func ReadJSON(data []byte, x Described) error {
	var m map[string]any
	if err := json.Unmarshal(data, &m); err != nil {
		return err
	}
	return readTable(Of(x), m, "")
}

func readTable(fields []*Field, m map[string]any, path string) error {
	for _, f := range fields {
		v, ok := m[f.name()]
		if !ok || v == nil {
			continue
		}
		if err := f.readJSON(v, source.Join(path, f.name())); err != nil {
			return err
		}
	}
	return nil
}

func (f *Field) readJSON(v any, path string) error {
	wrong := func() error { return fmt.Errorf("%s: %s", path, found(v)) }
	all, isList := v.([]any)
	m, isTable := v.(map[string]any)
	switch {
	case f.Kind == Said && f.make != nil, f.fileOnly:
		return nil
	case f.Kind == Said && f.many():
		f.size(len(all))
		for i, to := range f.facts() {
			s, _ := all[i].(string)
			*to = fact.AsWritten(s)
		}
		return nil
	case f.Kind == Said:
		s, _ := v.(string)
		*f.to.(*fact.Fact) = fact.AsWritten(s)
		return nil
	case f.Kind == Table && f.many():
		if !isList {
			return wrong()
		}
		f.size(len(all))
		for i, x := range all {
			m, ok := x.(map[string]any)
			if !ok {
				return wrong()
			}
			if err := readTable(f.item(i).fields, m, source.El(path, i)); err != nil {
				return err
			}
		}
		return nil
	case f.Kind == Table:
		if !isTable {
			return wrong()
		}
		if f.create != nil {
			f.create()
		}
		err := readTable(f.open().fields, m, path)
		if f.close != nil {
			f.close()
		}
		return err
	case f.link:
		return nil // what it names has to be found by who knows where
	}
	if f.maybe != nil {
		f.maybe.create()
	}
	if !isList {
		x, ok := f.fromJSON(v)
		if !ok || f.many() {
			return wrong()
		}
		f.put(f.to, x)
		return nil
	}
	out := make([]any, len(all))
	for i, x := range all {
		y, ok := f.fromJSON(x)
		if !ok {
			return wrong()
		}
		out[i] = y
	}
	f.putAll(out)
	return nil
}

// fromJSON turns a single value of a document into what put takes.
func (f *Field) fromJSON(v any) (any, bool) {
	switch f.Kind {
	case Text, Name:
		s, ok := v.(string)
		return s, ok
	case Choice:
		s, ok := v.(string)
		if ok && f.values != nil {
			ok = contains(f.words, s)
		}
		return s, ok
	case Flag:
		b, ok := v.(bool)
		return b, ok
	}
	x, ok := v.(float64)
	if !ok {
		return nil, false
	}
	return f.fromSI(x), true
}
