// Package si writes described structs as JSON documents and reads them back: in
// SI, the unit in the name. Facts are put in words by whoever writes; they are
// read back as what was written.
package si

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// Write gives a described struct as JSON, indented by two spaces, with a line
// end. say puts facts in words, as a part of a sentence or as one; nil where there
// are none.
func Write(x field.Described, say func(f fact.Fact, sentence bool) string) ([]byte, error) {
	w := &writer{say: say}
	w.table(field.Of(x), "\n")
	if w.err != nil {
		return nil, w.err
	}
	w.WriteByte('\n')
	return w.Bytes(), nil
}

type writer struct {
	bytes.Buffer
	say func(f fact.Fact, sentence bool) string
	err error
}

// plain writes a single value.
func (w *writer) plain(v any) {
	data, err := json.Marshal(v)
	if err != nil && w.err == nil {
		w.err = fmt.Errorf("a figure cannot be written: %w", err)
	}
	w.Write(data)
}

// list writes n elements in brackets, each on its line.
func (w *writer) list(open, shut string, n int, line string, element func(i int)) {
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

func (w *writer) table(fields []*field.Spec, line string) {
	var there []*field.Spec
	for _, f := range fields {
		if !f.NoJSON && (!f.OmitEmpty || !f.Empty()) && (f.When == nil || f.When()) {
			there = append(there, f)
		}
	}
	w.list("{", "}", len(there), line, func(i int) {
		w.plain(name(there[i]))
		w.WriteString(": ")
		w.value(there[i], line+"  ")
	})
}

// name is what a field is called in documents.
func name(f *field.Spec) string {
	if f.JSON != "" {
		return f.JSON
	}
	return f.Key
}

func (w *writer) value(f *field.Spec, line string) {
	switch {
	case f.NullUnless != nil && !f.NullUnless(), !f.There():
		w.WriteString("null")
	case f.IsTable() && f.Many():
		w.list("[", "]", f.Len(), line, func(i int) { w.table(f.Element(i), line+"  ") })
	case f.IsTable():
		w.table(f.Inside(), line)
	case f.Make != nil:
		w.any(f.Make(), f, line)
	case f.Facts != nil:
		all := f.Facts()
		w.list("[", "]", len(all), line, func(i int) { w.any(*all[i], f, line) })
	case f.Kind == field.Said:
		w.any(*f.To.(*fact.Fact), f, line)
	default:
		w.any(f.Figure(f.To), f, line)
	}
}

func (w *writer) any(v any, f *field.Spec, line string) {
	switch x := v.(type) {
	case []any:
		w.list("[", "]", len(x), line, func(i int) { w.any(x[i], f, line+"  ") })
		return
	case float64:
		v = f.Round(x)
	case fact.Fact:
		v = w.say(x, f.Sentence)
	}
	w.plain(v)
}

// Read reads a document of Write back into x. Names that are not described are
// passed over, so that an older program reads a newer document. What is worked
// out is not read back.
func Read(data []byte, x field.Described) error {
	var m map[string]any
	if err := json.Unmarshal(data, &m); err != nil {
		return err
	}
	return table(field.Of(x), m, "")
}

// table reads what is inside {}.
func table(fields []*field.Spec, v any, path string) error {
	m, ok := v.(map[string]any)
	if !ok {
		return wrong(path, v)
	}
	for _, f := range fields {
		if v := m[name(f)]; v != nil {
			if err := value(f, v, source.Join(path, name(f))); err != nil {
				return err
			}
		}
	}
	return nil
}

func wrong(path string, v any) error { return fmt.Errorf("%s: %s", path, source.Found(v)) }

func value(f *field.Spec, v any, path string) error {
	all, isList := v.([]any)
	switch {
	case f.Make != nil, f.NoJSON:
		return nil
	case f.Facts != nil:
		f.Size(len(all))
		for i, to := range f.Facts() {
			*to = written(all[i])
		}
		return nil
	case f.Kind == field.Said:
		*f.To.(*fact.Fact) = written(v)
		return nil
	case f.IsTable() && !f.Many():
		if f.Create != nil {
			f.Create()
		}
		err := table(f.Inside(), v, path)
		if f.Close != nil {
			f.Close()
		}
		return err
	case f.Link:
		return nil // what it names has to be found by who knows where
	case f.Many() != isList:
		return wrong(path, v)
	case f.IsTable():
		f.Size(len(all))
		for i, x := range all {
			if err := table(f.Element(i), x, source.El(path, i)); err != nil {
				return err
			}
		}
		return nil
	}
	if f.Part != nil {
		f.Part.Create()
	}
	if !isList {
		all = []any{v}
	}
	out := make([]any, len(all))
	for i, x := range all {
		y, ok := single(f, x)
		if !ok {
			return wrong(path, v)
		}
		out[i] = y
	}
	if isList {
		f.PutAll(out)
	} else {
		f.Put(f.To, out[0])
	}
	return nil
}

// written is a fact of which only its words are known.
func written(v any) fact.Fact {
	s, _ := v.(string)
	return fact.AsWritten(s)
}

// single turns a value of a document into what is put.
func single(f *field.Spec, v any) (any, bool) {
	switch f.Kind {
	case field.Text, field.Name, field.Choice:
		s, ok := v.(string)
		return s, ok && (f.Values == nil || slices.Contains(f.Words, s))
	case field.Flag:
		b, ok := v.(bool)
		return b, ok
	}
	x, ok := v.(float64)
	if f.Microns {
		x /= 1000
	}
	switch f.Kind {
	case field.Count:
		return int(x), ok
	case field.Length, field.Diameter:
		return qty.FromMM(x), ok
	case field.Rough:
		return qty.FromMM(x / 1000), ok
	case field.Temperature:
		return qty.FromCelsius(x), ok
	}
	return x, ok
}
