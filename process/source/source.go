package source

import (
	"bytes"
	"errors"
	"fmt"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"github.com/pelletier/go-toml/v2/unstable"
)

// Bounds of a file that is read at all. A job has a few hundred values; the
// bounds keep a wrong or hostile file from taking the machine with it.
const (
	LargestFile = 5 << 20 // bytes
	mostValues  = 50_000  // keys and array elements
	deepest     = 12      // tables in tables in arrays
)

// File is a TOML file that parsed: its values by one library, the place of
// each key by another (the first knows no place inside [[arrays]]).
type File struct {
	Values map[string]any
	At     map[string]Pos  // key path -> its key; "a[2]" -> the element
	Tiny   map[string]bool // numbers that are not 0 as written but too small to hold
}

// Parse reads a file. Only the first mistake of syntax can be told: nothing
// after it can be trusted to mean what it seems to.
func Parse(data []byte, p *Problems) *File {
	start := Pos{1, 1}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	switch {
	case len(data) > LargestFile:
		p.Add(start, "", fmt.Sprintf("the file is %.1f MB", float64(len(data))/(1<<20)), "files to 5 MB are read; a job is a few kB")
		return nil
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		p.Add(start, "", "the file is stored as UTF-16", "save it as UTF-8 text")
		return nil
	}
	w := &walker{lines: lineTable(data), data: data,
		src: &File{At: map[string]Pos{}, Tiny: map[string]bool{}}, arrays: map[string]int{}}
	if !utf8.Valid(data) {
		i := firstInvalid(data)
		p.Add(w.pos(i), "", fmt.Sprintf("byte 0x%02X is not UTF-8 text", data[i]), "save the file as UTF-8, and check the character there")
		return nil
	}
	if prob := w.walk(); prob != nil {
		p.Add(prob.Pos, prob.Key, prob.What, prob.Allowed)
		return nil
	}
	if _, err := toml.Decode(string(data), &w.src.Values); err != nil {
		var pe toml.ParseError
		if errors.As(err, &pe) {
			what, allowed := syntaxWords(pe.Message, data, pe.Position.Start)
			at := w.pos(pe.Position.Start)
			if at.Line != pe.Position.Line { // the library's line is the better known of the two
				at = Pos{max(pe.Position.Line, 1), 1}
			}
			p.Add(at, "", what, allowed)
		} else {
			p.Add(start, "", Show(err.Error()), "mend the file")
		}
		return nil
	}
	return w.src
}

func firstInvalid(data []byte) int {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return 0
}

// lineTable holds the offset at which each line starts.
func lineTable(data []byte) []int {
	starts := []int{0}
	for i, c := range data {
		if c == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// walker goes through the syntax tree for the place of every key.
type walker struct {
	data   []byte
	lines  []int
	src    *File
	arrays map[string]int // [[path]] -> elements so far
	count  int
	parser unstable.Parser
	last   struct{ offset, line, col int } // where the column was counted to: long lines are walked once
}

// pos turns a byte offset into line and column. Columns count characters.
func (w *walker) pos(offset int) Pos {
	offset = min(max(offset, 0), len(w.data))
	line := sort.SearchInts(w.lines, offset+1) - 1
	from, col := w.lines[line], 1
	if l := w.last; l.line == line && l.offset >= from && l.offset <= offset {
		from, col = l.offset, l.col
	}
	col = max(col, 1) + utf8.RuneCount(w.data[from:offset])
	w.last.offset, w.last.line, w.last.col = offset, line, col
	return Pos{line + 1, col}
}

func (w *walker) walk() *Problem {
	w.parser.Reset(w.data)
	table := ""
	for w.parser.NextExpression() {
		n := w.parser.Expression()
		var prob *Problem
		switch n.Kind {
		case unstable.Table, unstable.ArrayTable:
			table, prob = w.header(n)
		case unstable.KeyValue:
			prob = w.keyValue(table, n, strings.Count(table, ".")+1)
		}
		if prob != nil {
			return prob
		}
	}
	err := w.parser.Error()
	if err == nil {
		return nil
	}
	offset := 0
	var pe *unstable.ParserError
	if errors.As(err, &pe) && pe.Highlight != nil {
		offset = int(w.parser.Range(pe.Highlight).Offset)
	}
	at := w.pos(offset)
	if strings.Contains(err.Error(), "nested more than") {
		return &Problem{Pos: at, What: "tables and lists are nested thousands deep", Allowed: "a job goes three deep"}
	}
	what, allowed := syntaxWords(err.Error(), w.data, offset)
	return &Problem{Pos: at, What: what, Allowed: allowed}
}

// header notes [a.b] or [[a.b]] and gives the path its keys stand under.
func (w *walker) header(n *unstable.Node) (string, *Problem) {
	path, depth, start := "", 0, 0
	for it := n.Key(); it.Next(); depth++ {
		k := it.Node()
		if depth == 0 {
			start = int(k.Raw.Offset)
			for start > 0 && w.data[start-1] != '\n' {
				start--
			}
			for w.data[start] == ' ' || w.data[start] == '\t' {
				start++
			}
		}
		if depth >= deepest {
			return "", w.tooDeep(start)
		}
		path = Join(path, string(k.Data))
		if n.Kind == unstable.ArrayTable && it.IsLast() {
			w.arrays[path]++
			w.note(path, start)
		}
		if c := w.arrays[path]; c > 0 {
			path += "[" + strconv.Itoa(c-1) + "]"
		}
		if prob := w.note(path, start); prob != nil {
			return "", prob
		}
	}
	return path, nil
}

func (w *walker) keyValue(table string, n *unstable.Node, depth int) *Problem {
	path, start := table, -1
	for it := n.Key(); it.Next(); depth++ {
		k := it.Node()
		if start < 0 {
			start = int(k.Raw.Offset)
		}
		if depth > deepest {
			return w.tooDeep(start)
		}
		path = Join(path, string(k.Data))
		if prob := w.note(path, start); prob != nil {
			return prob
		}
	}
	return w.value(path, n.Value(), depth)
}

func (w *walker) value(path string, n *unstable.Node, depth int) *Problem {
	switch n.Kind {
	case unstable.Array, unstable.InlineTable:
		if depth > deepest {
			at := w.src.At[path]
			return &Problem{Pos: at, What: fmt.Sprintf("tables and lists are nested more than %d deep", deepest), Allowed: "a job goes three deep"}
		}
	case unstable.Float:
		if written := string(n.Data); tooSmall(written) {
			w.src.Tiny[path] = true
		}
	}
	switch n.Kind {
	case unstable.Array:
		i := 0
		for it := n.Children(); it.Next(); i++ {
			el := it.Node()
			at := path + "[" + strconv.Itoa(i) + "]"
			var prob *Problem
			if el.Raw.Length > 0 {
				prob = w.note(at, int(el.Raw.Offset))
			} else {
				w.src.At[at] = w.src.At[path]
				prob = w.tooMany()
			}
			if prob == nil {
				prob = w.value(at, el, depth+1)
			}
			if prob != nil {
				return prob
			}
		}
	case unstable.InlineTable:
		for it := n.Children(); it.Next(); {
			if prob := w.keyValue(path, it.Node(), depth+1); prob != nil {
				return prob
			}
		}
	}
	return nil
}

// note remembers where a path was first seen.
func (w *walker) note(path string, offset int) *Problem {
	if _, seen := w.src.At[path]; !seen {
		w.src.At[path] = w.pos(offset)
	}
	return w.tooMany()
}

func (w *walker) tooMany() *Problem {
	if w.count++; w.count > mostValues {
		return &Problem{Pos: Pos{1, 1}, What: fmt.Sprintf("the file holds more than %d values", mostValues), Allowed: "a job has a few hundred"}
	}
	return nil
}

func (w *walker) tooDeep(offset int) *Problem {
	return &Problem{Pos: w.pos(offset), What: fmt.Sprintf("tables and lists are nested more than %d deep", deepest), Allowed: "a job goes three deep"}
}

// Join adds a key to a path. A key that is not plain is quoted, so that it
// cannot be taken for a path of its own.
func Join(path, key string) string {
	plain := key != ""
	for _, c := range key {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_') {
			plain = false
		}
	}
	if !plain {
		key = strconv.Quote(key)
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

// tooSmall reports a number such as 1e-999 that a float turns into 0.
func tooSmall(written string) bool {
	s := strings.ToLower(strings.ReplaceAll(written, "_", ""))
	v, err := strconv.ParseFloat(s, 64)
	mantissa, _, _ := strings.Cut(s, "e")
	return err == nil && v == 0 && strings.ContainsAny(mantissa, "123456789")
}
