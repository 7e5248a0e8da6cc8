package source

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// own are the keys that stand right in a table, not under a header of their own: the last
// of them by place, and whether there is one.
func (t *editor) own(table string) (last string, ok bool) {
	under := table + "."
	if table == "" {
		under = ""
	}
	for k := range t.at {
		if !strings.HasPrefix(k, under) || !t.isKey(k) {
			continue
		}
		apart := false
		for p, _ := parent(k); p != table && len(p) > len(table); p, _ = parent(p) {
			apart = apart || t.isHeader(p)
		}
		if end := t.extentOf(k); !apart && (!ok || end > t.extentOf(last) || end == t.extentOf(last) && len(k) < len(last)) {
			last, ok = k, true
		}
	}
	return last, ok
}

// short is the last key at the top of the file whose value stands on one line, before the
// long lists; last where there is none.
func (t *editor) short(last string) string {
	best := ""
	for k := range t.at {
		if strings.ContainsAny(k, ".[") || !t.isKey(k) {
			continue
		}
		if begin, end := t.value(k); !bytes.ContainsRune(t.data[begin:end], '\n') && (best == "" || t.at[k] > t.at[best]) {
			best = k
		}
	}
	if best == "" {
		return last
	}
	return best
}

func (t *editor) insert(at int, text string) []byte {
	return slices.Concat(t.data[:at], []byte(text), t.data[at:])
}

// line inserts a line behind the one that a place is in.
func (t *editor) line(at int, text string) []byte {
	end := t.lineEnd(at)
	if end > 0 && t.data[end-1] != '\n' {
		text = "\n" + text
	}
	return t.insert(end, text+"\n")
}

// with is the file with a key that it has not.
func (t *editor) with(path, value string) ([]byte, error) {
	table, key := parent(path)
	pair := key + " = " + value
	last, some := t.own(table)
	switch {
	case table == "" && !some:
		return t.insert(0, pair+"\n"), nil
	case table == "":
		return t.line(t.extentOf(t.short(last)), pair), nil
	case t.isHeader(table):
		at := t.at[table]
		if some {
			at = t.extentOf(last)
		}
		return t.line(at, string(t.indent(t.at[table]))+pair), nil
	case some:
		before, dotted := bytes.CutSuffix(t.name(last), []byte(strings.TrimPrefix(last, table+".")))
		if dotted && len(before) > 0 && before[len(before)-1] == '.' { // finish.low = 1
			return t.line(t.extentOf(last), string(t.indent(t.at[last]))+string(before)+pair), nil
		}
		return t.insert(t.extentOf(last), ", "+pair), nil
	case t.isKey(table): // {}
		begin, end := t.value(table)
		if string(bytes.Join(bytes.Fields(t.data[begin:end]), nil)) != "{}" {
			return nil, fmt.Errorf("%s is no table, so %s cannot go in", header(table), key)
		}
		return slices.Concat(t.data[:begin], []byte("{ "+pair+" }"), t.data[end:]), nil
	case strings.HasSuffix(table, "]"):
		return t.element(table, pair)
	}
	if strings.Contains(table, ".") {
		return t.with(table, "{ "+pair+" }")
	}
	return t.block(len(t.data), "["+table+"]", pair), nil
}

// name is a key as it is written, with the tables of a dotted one.
func (t *editor) name(path string) []byte {
	begin, _ := t.value(path)
	written, _, _ := bytes.Cut(t.data[t.at[path]:begin], []byte("="))
	return bytes.TrimSpace(written)
}

// extentOf is behind the value of a key.
func (t *editor) extentOf(path string) int {
	_, end := t.value(path)
	return end
}

// block puts a table of its own behind the line that a place is in.
func (t *editor) block(at int, head, pair string) []byte {
	if at < len(t.data) {
		at = t.lineEnd(at)
	}
	text := "\n" + head + "\n" + pair + "\n"
	if at > 0 && t.data[at-1] != '\n' {
		text = "\n" + text
	}
	return t.insert(at, text)
}

// element adds an element to a list of tables.
func (t *editor) element(path, pair string) ([]byte, error) {
	open := strings.LastIndexByte(path, '[')
	list := path[:open]
	n, err := strconv.Atoi(strings.Trim(path[open:], "[]"))
	if err != nil {
		return nil, fmt.Errorf("%s names no element", Show(path))
	}
	before := fmt.Sprintf("%s[%d]", list, n-1)
	around, key := parent(list)
	switch {
	case t.isHeader(before):
		return t.block(t.extent(before), "[["+header(list)+"]]", pair), nil
	case t.isKey(list):
		return t.inList(list, "{ "+pair+" }"), nil
	case around == "":
		return t.block(len(t.data), "[["+header(list)+"]]", pair), nil
	case t.isHeader(around):
		return t.block(t.extent(around), "[["+header(list)+"]]", pair), nil
	}
	return t.with(around+"."+key, "[ { "+pair+" } ]")
}

// inList writes an element behind the last of a list in brackets.
func (t *editor) inList(list, element string) []byte {
	begin, end := t.value(list)
	shut := end - 1
	last, comma := begin+1, true // behind the last element, and whether a comma follows it
	for i := begin + 1; i < shut; {
		switch c := t.data[i]; {
		case c == '#':
			i = t.lineEnd(i)
		case c == ',':
			i++
			last, comma = i, true
		case c == ' ' || c == '\t' || c == '\r' || c == '\n':
			i++
		default:
			i = valueEnd(t.data, i)
			last, comma = i, false
		}
	}
	text := element
	if !comma {
		text = ", " + element
	}
	if !bytes.ContainsRune(t.data[last:shut], '\n') {
		if comma {
			text = " " + element
		}
		return t.insert(last, text)
	}
	line, indent := t.lineEnd(last), "  "
	if last > begin+1 {
		indent = string(t.indent(t.firstOf(last)))
	}
	head, tail := slices.Clone(t.data[:last]), t.data[last:line]
	if !comma {
		head = append(head, ',')
	}
	return slices.Concat(head, tail, []byte(indent+element+",\n"), t.data[line:])
}

// firstOf is the first character of a line that is no space.
func (t *editor) firstOf(at int) int {
	i := t.lineStart(at)
	for t.data[i] == ' ' || t.data[i] == '\t' {
		i++
	}
	return i
}

// without is the file without a key, a table or an element.
func (t *editor) without(path string) ([]byte, error) {
	if t.isHeader(path) {
		begin := t.lineStart(t.at[path])
		return t.cut(begin, t.lineEnd(t.extent(path))), nil
	}
	if t.isKey(path) {
		_, end := t.value(path)
		return t.cutPiece(t.at[path], end), nil
	}
	last, some := t.own(path)
	if !some {
		return t.data, nil // it is not there
	}
	open := strings.LastIndexByte(path, '[')
	if !strings.HasSuffix(path, "]") || !t.isKey(path[:open]) { // finish.low = 1, and finish.high = 2 after it
		out, err := t.without(last)
		if err != nil {
			return nil, err
		}
		return Edited(out, Edit{Path: path})
	}
	n, _ := strconv.Atoi(strings.Trim(path[open:], "[]"))
	e := t.elements(path[:open])[n] // the element itself
	return t.cutPiece(e[0], e[1]), nil
}

func (t *editor) cut(begin, end int) []byte { return slices.Concat(t.data[:begin], t.data[end:]) }

// cutPiece takes a piece out with its comma, and with its line where it stands alone on it.
func (t *editor) cutPiece(begin, end int) []byte {
	rest := t.data[end:t.lineEnd(end)]
	if trimmed := bytes.TrimLeft(rest, " \t"); bytes.HasPrefix(trimmed, []byte(",")) {
		end += len(rest) - len(trimmed) + 1
		for t.data[end] == ' ' {
			end++
		}
	} else if before := bytes.TrimRight(t.data[:begin], " \t\r\n"); bytes.HasSuffix(before, []byte(",")) && t.lineStart(len(before)) == t.lineStart(begin) {
		begin = len(before) - 1
	}
	line := bytes.TrimSpace(t.data[end:t.lineEnd(end)])
	if len(bytes.TrimSpace(t.data[t.lineStart(begin):begin])) == 0 && (len(line) == 0 || line[0] == '#') {
		return t.cut(t.lineStart(begin), t.lineEnd(end))
	}
	return t.cut(begin, end)
}
