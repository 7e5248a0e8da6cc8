package source

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// Value is a value as it is written in a TOML file.
type Value struct {
	Path     string   // of its key
	Text     string   // as it stands there, quotes and brackets included
	List     bool     // values in brackets; a list of tables has its keys alone
	Elements []string // of a list, each as it stands there
	Before   Pos      // of its key
}

// Written are the values of a TOML file in the order in which they stand there. The keys of a
// table stand for themselves.
func Written(data []byte) ([]Value, error) {
	p := &Problems{File: "file"}
	src := Parse(data, p)
	if src == nil {
		return nil, p.Err()
	}
	t := editorOf(data, src)
	var all []Value
	for path := range t.at {
		if !t.isKey(path) || t.holdsTables(path) {
			continue
		}
		begin, end := t.value(path)
		v := Value{Path: path, Text: string(t.data[begin:end]), List: t.data[begin] == '[', Before: src.At[path]}
		if v.List {
			for _, e := range t.elements(path) {
				v.Elements = append(v.Elements, string(t.data[e[0]:e[1]]))
			}
		}
		all = append(all, v)
	}
	slices.SortFunc(all, func(a, b Value) int { return cmp.Compare(t.at[a.Path], t.at[b.Path]) })
	return all, nil
}

// holdsTables is whether the value of a key is a table, or a list of them.
func (t *editor) holdsTables(path string) bool {
	begin, _ := t.value(path)
	if t.data[begin] == '{' {
		return true
	}
	if t.data[begin] != '[' {
		return false
	}
	all := t.elements(path)
	return len(all) > 0 && t.data[all[0][0]] == '{'
}

// elements are where the elements of a list in brackets begin and end.
func (t *editor) elements(list string) (all [][2]int) {
	begin, end := t.value(list)
	for i := begin + 1; i < end-1; {
		switch c := t.data[i]; {
		case c == '#':
			i = t.lineEnd(i)
		case c == ',' || c == ' ' || c == '\t' || c == '\r' || c == '\n':
			i++
		default:
			all = append(all, [2]int{i, valueEnd(t.data, i)})
			i = all[len(all)-1][1]
		}
	}
	return all
}

// one is where a value of a list in brackets stands, by its path, as "at[2]"; ok is false
// where there is none, or it is a table.
func (t *editor) one(path string) (begin, end int, ok bool) {
	open := strings.LastIndexByte(path, '[')
	if open < 0 || !strings.HasSuffix(path, "]") || !t.isKey(path[:open]) {
		return 0, 0, false
	}
	n, err := strconv.Atoi(path[open+1 : len(path)-1])
	all := t.elements(path[:open])
	if begin, _ := t.value(path[:open]); err != nil || n < 0 || n >= len(all) || t.data[begin] != '[' || t.data[all[n][0]] == '{' {
		return 0, 0, false
	}
	return all[n][0], all[n][1], true
}
