package source

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Edit is a change of one key of a TOML file.
type Edit struct {
	Path  string // of the key, as "bore[0].finish.fit", or of a value in its list, as "at[2]"; of a table or an element too, where it is taken out
	Value string // as TOML has it; "" takes the key out
	Stale bool   // the remark right above was of the old value, and goes with it
}

// Edited is a TOML file with keys changed, added or taken out, one after the other. All
// else, remarks and order included, stays as it is to the byte. A key of a table or of
// an element that is not there makes one; elements go in, and out, at the end of their list.
func Edited(data []byte, edits ...Edit) ([]byte, error) {
	for _, e := range edits {
		p := &Problems{File: "file"}
		src := Parse(data, p)
		if src == nil {
			return nil, p.Err()
		}
		out, err := editorOf(data, src).edit(e)
		if err != nil {
			return nil, err
		}
		if p = (&Problems{File: "file"}); Parse(out, p) == nil {
			return nil, fmt.Errorf("%s = %s does not read: %w", e.Path, Show(e.Value), p.Found[0])
		}
		data = out
	}
	return data, nil
}

// editorOf is a file about to be changed.
func editorOf(data []byte, src *File) *editor {
	t := &editor{data: data, at: map[string]int{}, dotted: map[string]bool{}}
	starts, deepest := lineTable(data), map[int]string{} // of the paths that begin at a place
	for path, pos := range src.At {
		i := offsetOf(data, starts, pos)
		t.at[path] = i
		if len(path) > len(deepest[i]) {
			deepest[i] = path
		}
	}
	for path, i := range t.at {
		t.dotted[path] = strings.HasPrefix(deepest[i], path+".")
	}
	return t
}

func offsetOf(data []byte, starts []int, pos Pos) int {
	i := starts[min(pos.Line, len(starts))-1]
	for range pos.Col - 1 {
		_, n := utf8.DecodeRune(data[i:])
		i += n
	}
	return i
}

// editor is a file about to be changed: where its keys and headers begin.
type editor struct {
	data   []byte
	at     map[string]int
	dotted map[string]bool // a table that is there as the front of a dotted key: "bar" of bar.feed_by = "table"
}

func (t *editor) edit(e Edit) ([]byte, error) {
	switch {
	case e.Value == "":
		return t.without(e.Path)
	case t.isKey(e.Path):
		begin, end := t.value(e.Path)
		out := slices.Concat(t.data[:begin], []byte(e.Value), t.data[end:])
		if e.Stale {
			line := t.lineStart(t.at[e.Path])
			from := line
			for from > 0 && bytes.HasPrefix(t.data[t.lineStart(from-1):], []byte("#")) && !t.heads(from) {
				from = t.lineStart(from - 1)
			}
			out = slices.Concat(out[:from], out[line:])
		}
		return out, nil
	}
	if begin, end, ok := t.one(e.Path); ok {
		return slices.Concat(t.data[:begin], []byte(e.Value), t.data[end:]), nil
	}
	return t.with(e.Path, e.Value)
}

// heads is whether the line before this place is the first of the file: what stands
// there is said of the whole file.
func (t *editor) heads(at int) bool {
	first := len(t.data)
	for path, i := range t.at {
		if !strings.ContainsAny(path, ".[") {
			first = min(first, i)
		}
	}
	return at <= t.lineStart(first)
}

// isKey is whether a path is there as key = value.
func (t *editor) isKey(path string) bool {
	i, ok := t.at[path]
	return ok && t.data[i] != '[' && !t.dotted[path] && !strings.HasSuffix(path, "]")
}

// isHeader is whether a path is there as [table] or [[element]].
func (t *editor) isHeader(path string) bool {
	i, ok := t.at[path]
	return ok && t.data[i] == '[' && t.lineStart(i) == i-len(t.indent(i))
}

func (t *editor) indent(i int) []byte {
	line := t.data[t.lineStart(i):i]
	return line[:len(line)-len(bytes.TrimLeft(line, " \t"))]
}

func (t *editor) lineStart(i int) int { return bytes.LastIndexByte(t.data[:max(i, 0)], '\n') + 1 }

// lineEnd is behind the line end at or after i.
func (t *editor) lineEnd(i int) int {
	if n := bytes.IndexByte(t.data[i:], '\n'); n >= 0 {
		return i + n + 1
	}
	return len(t.data)
}

// value is where the value of a key begins and ends.
func (t *editor) value(path string) (begin, end int) {
	i := t.at[path]
	for t.data[i] != '=' {
		if c := t.data[i]; c == '"' || c == '\'' {
			i = textEnd(t.data, i)
			continue
		}
		i++
	}
	for i++; t.data[i] == ' ' || t.data[i] == '\t'; i++ {
	}
	return i, valueEnd(t.data, i)
}

// textEnd is behind a text in quotes.
func textEnd(b []byte, i int) int {
	quote := b[i : i+1]
	if three := bytes.Repeat(quote, 3); bytes.HasPrefix(b[i:], three) {
		for i += 3; !bytes.HasPrefix(b[i:], three) || b[i-1] == '\\' && b[i-2] != '\\'; i++ {
		}
		for i += 3; i < len(b) && b[i] == quote[0]; i++ {
		}
		return i
	}
	for i++; b[i] != quote[0]; i++ {
		if b[i] == '\\' && quote[0] == '"' {
			i++
		}
	}
	return i + 1
}

// valueEnd is behind the value that begins at i.
func valueEnd(b []byte, i int) int {
	switch b[i] {
	case '"', '\'':
		return textEnd(b, i)
	case '[', '{':
		for depth := 0; ; {
			switch b[i] {
			case '"', '\'':
				i = textEnd(b, i)
				continue
			case '#':
				for b[i] != '\n' {
					i++
				}
			case '[', '{':
				depth++
			case ']', '}':
				if depth--; depth == 0 {
					return i + 1
				}
			}
			i++
		}
	}
	end := i
	for end < len(b) && !strings.ContainsRune(",]}#\r\n", rune(b[end])) {
		end++
	}
	return i + len(bytes.TrimRight(b[i:end], " \t"))
}

// parent parts a path at its last key.
func parent(path string) (table, last string) {
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		return path[:i], path[i+1:]
	}
	return "", path
}

var anElement = regexp.MustCompile(`\[[0-9]+\]`)

// header is the name that a table or a list has in its header.
func header(path string) string { return anElement.ReplaceAllString(path, "") }

// extent is behind the last value that stands under a path.
func (t *editor) extent(path string) int {
	end := 0
	if i, ok := t.at[path]; ok {
		end = t.lineEnd(i) - 1
	}
	for k := range t.at {
		if (strings.HasPrefix(k, path+".") || strings.HasPrefix(k, path+"[")) && t.isKey(k) {
			_, e := t.value(k)
			end = max(end, e)
		}
	}
	return end
}
