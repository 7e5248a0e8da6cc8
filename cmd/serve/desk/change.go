package desk

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"borewright/cmd/ask"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// Change is a figure as somebody filled it in; "" takes it, or a table, out of the file.
type Change struct {
	Path string `json:"path"`
	Text string `json:"text"`
}

// Asked is what a page sends: the file that its form was made from, what was changed since, and
// what it wants to know.
type Asked struct {
	Of      string   `json:"of"`      // the sum of that file's bytes; "": the file as it is now
	Changes []Change `json:"changes"` // in the order in which they were made
	Shown   []string `json:"shown"`   // figures and tables that the file has not, to be filled in
	Form    bool     `json:"form"`    // the form is wanted anew
	By      string   `json:"by"`      // who
}

// Bounds of what is asked.
const (
	mostChanges = 400
	mostText    = 8 << 10
	mostPath    = 120
	mostName    = 80
)

// AskedOf reads what a page has sent. What is wrong with it is no mistake of the person but of
// the page.
func AskedOf(data []byte) (*Asked, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	a := &Asked{}
	if err := d.Decode(a); err != nil {
		return nil, fmt.Errorf("what was sent does not read: %s", source.Clip(err.Error(), mostPath))
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("what was sent does not read: there is more behind it")
	}
	if len(a.Changes) > mostChanges || len(a.Shown) > mostChanges {
		return nil, fmt.Errorf("more than %d changes at once: save what is there first", mostChanges)
	}
	if a.By = strings.TrimSpace(source.Show(a.By)); utf8.RuneCountInString(a.By) > mostName {
		return nil, errors.New("a name is too long")
	}
	for _, c := range a.Changes {
		if len(c.Path) > mostPath || len(c.Text) > mostText {
			return nil, fmt.Errorf("%s is too long", source.Show(c.Path))
		}
	}
	for _, p := range a.Shown {
		if len(p) > mostPath {
			return nil, fmt.Errorf("%s is too long", source.Show(p))
		}
	}
	return a, nil
}

// Changed is a file with figures changed, one after the other; all else in it stays to the
// byte. What cannot go in is left out and told at its path.
func Changed(data []byte, changes []Change) ([]byte, []Fault) {
	var faults []Fault
	for _, c := range changes {
		out, err := changed(data, c)
		if err != nil {
			faults = append(faults, Fault{Path: c.Path, Says: err.Error()})
			continue
		}
		data = out
	}
	return data, faults
}

func changed(data []byte, c Change) ([]byte, error) {
	all, err := source.Written(data)
	if err != nil {
		return nil, err
	}
	t := jobKeysIn(unitOf(all))
	at := slices.IndexFunc(all, func(v source.Value) bool { return v.Path == c.Path })
	text := strings.TrimSpace(c.Text)
	k := t.at[keyOf(c.Path)]
	switch {
	case at < 0 && !t.known(c.Path):
		return nil, fmt.Errorf("there is no key %s", source.Show(c.Path))
	case text == "" && !there(all, c.Path):
		return data, nil // it is out
	case text == "" && k.Table && !takenOut(all, c.Path):
		return nil, errors.New("only the last of a list is taken out here")
	case text == "":
		return source.Edited(data, source.Edit{Path: c.Path})
	case k.Table:
		return nil, errors.New("a table has figures, not a value")
	case !follows(all, c.Path):
		return nil, errors.New("what stands before it in its list is not there any more")
	case at >= 0 && same(shown(all[at], k), text):
		return data, nil
	case at >= 0 && all[at].List:
		return changedList(data, all[at], k, text)
	}
	return source.Edited(data, source.Edit{Path: c.Path, Value: written(k, c.Path, text)})
}

// same is whether two texts of the form are one: a browser may end lines in its own way.
func same(a, b string) bool { return strings.ReplaceAll(b, "\r\n", "\n") == a }

// written is a text of the form as the file has it.
func written(k keys.Shown, path, text string) string {
	if k.Texts && k.Many {
		parts := elements(text, "\n")
		for i, p := range parts {
			parts[i] = keys.TOMLText(p)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	if k.Type == "true or false" { // the form has the file's own words
		if text == "true" || text == "false" {
			return text
		}
		return keys.TOMLText(text)
	}
	if k.Many { // a list of one is a list too
		text = strings.Trim(strings.TrimSpace(text), "[]") + ","
	}
	return ask.TOML(k.Type, path, text)
}

func elements(text, at string) (parts []string) {
	for p := range strings.SplitSeq(text, at) {
		if p = strings.TrimSpace(p); p != "" {
			parts = append(parts, p)
		}
	}
	return parts
}

// changedList changes the values of a list that differ, and writes it anew where there are more
// or fewer of them.
func changedList(data []byte, was source.Value, k keys.Shown, text string) ([]byte, error) {
	now := elements(text, strings.TrimSpace(between(k)))
	if k.Texts {
		now = elements(text, "\n")
	}
	whole := written(k, was.Path, text)
	if len(now) != len(was.Elements) {
		return source.Edited(data, source.Edit{Path: was.Path, Value: whole})
	}
	var list struct{ parts []string }
	if v, err := source.Written([]byte("V = " + whole)); err == nil && len(v) == 1 {
		list.parts = v[0].Elements
	}
	if len(list.parts) != len(now) {
		return source.Edited(data, source.Edit{Path: was.Path, Value: whole})
	}
	var edits []source.Edit
	for i, e := range was.Elements {
		if plain(e) != now[i] {
			edits = append(edits, source.Edit{Path: source.El(was.Path, i), Value: list.parts[i]})
		}
	}
	return source.Edited(data, edits...)
}

// follows is whether each element that a path goes through is there or is the next of its list.
func follows(all []source.Value, path string) bool {
	n := counts(all)
	for _, at := range number.FindAllStringIndex(path, -1) {
		i, err := strconv.Atoi(path[at[0]+1 : at[1]-1])
		if err != nil || i > n[path[:at[0]]] {
			return false
		}
	}
	return true
}

// there is whether a file has a figure, or a figure in a table.
func there(all []source.Value, path string) bool {
	return slices.ContainsFunc(all, func(v source.Value) bool {
		return v.Path == path || strings.HasPrefix(v.Path, path+".") || strings.HasPrefix(v.Path, path+"[")
	})
}

// takenOut is whether a table may be taken out: it is none of a list, or the last of it.
func takenOut(all []source.Value, path string) bool {
	list, n := elementOf(path)
	return list == "" || n == counts(all)[list]-1
}

// elementOf is the list that a path is an element of, and its number from 0; "" where it is none.
func elementOf(path string) (list string, n int) {
	open := strings.LastIndexByte(path, '[')
	if open < 0 || !strings.HasSuffix(path, "]") {
		return "", 0
	}
	n, err := strconv.Atoi(path[open+1 : len(path)-1])
	if err != nil {
		return "", 0
	}
	return path[:open], n
}
