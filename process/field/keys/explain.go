package keys

import (
	"fmt"
	"regexp"
	"strings"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// Entry is one key of a job file or of a file that it names, as explain
// prints it. It comes from the table that the reader checks by.
type Entry struct {
	Key     string // "bar.steps.diameter"; keys of a machine file stand under "machine.", of a material file under "material." and so on
	Type    string // what to write: "length", "list of numbers", "table"
	Unit    string // of a bare number: "in or mm", "rev/min", ""
	Default string // what is taken when it is left out; "required" when it must be given
	Range   string // what is allowed
	Example string // a line as it would stand in the file
	Text    string // what it is
}

// Entries is every key of a described struct, in the order in which they are
// best written. under is the key that a file of them is named by, and what says
// what file that is; both "" for the file that all starts from.
func Entries(under, what string, x field.Described) []Entry {
	var all []Entry
	for _, f := range leaves(keysOf(field.Of(x)), "") {
		all = append(all, f.entry(dotted(under, f.path), what))
	}
	return all
}

func (f key) entry(key, what string) Entry {
	e := f.entryBy(key, func(s func(u qty.Unit) string) string {
		if inch, metric := s(qty.Inches), s(qty.Metric); inch != metric {
			return inch + " or " + metric
		}
		return s(qty.Inches)
	})
	if what != "" {
		e.Type += ", in a " + what
	}
	if Half(qty.Inches, f.Example) == "" {
		return e
	}
	e.Example = f.exampleFor(qty.Inches)
	if m := f.exampleFor(qty.Metric); m != e.Example {
		e.Example += "   (in mm: " + m + ")"
	}
	return e
}

// Shown is a key as a form shows it that is filled in in one unit.
type Shown struct {
	Entry
	Words       []string // that it takes, where it is one of a few
	Needed      bool     // whatever else the file says
	Many, Table bool     // a list; keys of its own stand inside
	Texts       bool     // it is read as words, never as figures
	Least, Most float64  // of a bare number; both 0: no bound
}

// ShownIn is every key of a described struct, as Entries has them, for a file written in one unit.
func ShownIn(u qty.Unit, x field.Described) []Shown {
	var all []Shown
	for _, f := range leaves(keysOf(field.Of(x)), "") {
		t := Shown{Entry: f.entryBy(f.path, func(s func(u qty.Unit) string) string { return s(u) }), Words: f.Words,
			Needed: f.Need && f.Unless == nil, Many: f.Many(), Table: f.IsTable(),
			Texts: f.Kind == field.Text || f.Kind == field.Name}
		if Half(u, f.Example) != "" {
			t.Example = f.exampleFor(u)
		}
		t.Least, t.Most, _, _ = f.bounds(u)
		all = append(all, t)
	}
	return all
}

// entryBy is a key but for its example; both says what hangs on the unit.
func (f key) entryBy(key string, both func(func(u qty.Unit) string) string) Entry {
	e := Entry{Key: key, Text: f.Text, Type: f.typeName()}
	e.Unit = both(f.unitName)
	e.Range = both(f.spanWords)
	switch {
	case f.Kind == field.Choice:
		e.Range = source.Quoted(f.Words)
	case f.Kind == field.Text:
		e.Range = fmt.Sprintf("to %d characters", source.LongestText)
	case f.Kind == field.Name:
		e.Range = fmt.Sprintf("to %d characters", source.LongestName)
	}
	if f.Many() {
		e.Range = strings.TrimSuffix(f.countWords()+" of them; "+e.Range, "; ")
	}
	switch {
	case f.Need:
		e.Default = "required"
		if f.Unless != nil {
			e.Default += ", but where the job names " + strings.Join(f.Unless, " or ")
		}
	case f.Otherwise != "":
		e.Default = f.Otherwise
	case f.Default != "" && f.Kind != field.Table:
		e.Default = both(func(u qty.Unit) string {
			d := Half(u, f.Default)
			if n := f.unitName(u); n != "" && d != "0" {
				d += " " + n
			}
			return d
		})
	default:
		e.Default = "none"
	}
	return e
}

func (f key) typeName() string {
	single, lots := "text", "texts"
	switch f.Kind {
	case field.Choice:
		single, lots = "word", "words"
	case field.Flag:
		single, lots = "true or false", "true or false"
	case field.Number:
		single, lots = "number", "numbers"
	case field.Count:
		single, lots = "whole number", "whole numbers"
	case field.Length:
		single, lots = "length", "lengths"
	case field.Diameter:
		single, lots = "diameter", "diameters"
	case field.Rough:
		single, lots = "roughness", "roughnesses"
	case field.Speed:
		single, lots = "cutting speed", "cutting speeds"
	case field.Power:
		single = "power"
	case field.Torque:
		single = "torque"
	case field.Temperature:
		single = "temperature"
	case field.Table:
		single, lots = "table", "tables"
	case field.Sources:
		single = "table of texts"
	}
	if f.Many() {
		return "list of " + lots
	}
	return single
}

var elementNumber = regexp.MustCompile(`\[[0-9]*\]`)

// Explain finds among keys what a key means: the key itself with the keys inside it, or,
// for a plain word such as "diameter", every key that ends in it. Numbers of
// list elements and brackets, as in "bore[0].finish", are passed over. The error names the
// nearest keys.
func Explain(key string, keys []Entry) ([]Entry, error) {
	k := strings.Trim(strings.ToLower(elementNumber.ReplaceAllString(strings.TrimSpace(key), "")), ".[]")
	if k == "" {
		return nil, fmt.Errorf("no key is named; write one as in %q, or a word of it as in %q", "bore.finish", "diameter")
	}
	var found []Entry
	var names []string
	for _, e := range keys {
		names = append(names, e.Key)
		if e.Key == k || strings.HasPrefix(e.Key, k+".") {
			found = append(found, e)
		}
	}
	if len(found) > 0 {
		return found, nil
	}
	for _, e := range keys {
		if strings.HasSuffix(e.Key, "."+k) || strings.Contains(e.Key, "."+k+".") {
			found = append(found, e)
		}
	}
	if len(found) > 0 {
		return found, nil
	}
	var words, top []string
	for _, n := range names {
		if !strings.Contains(n, ".") {
			top = append(top, n)
		}
		words = append(words, n, n[strings.LastIndexByte(n, '.')+1:])
	}
	if n := source.Nearest(k, words); n != "" {
		return nil, fmt.Errorf("there is no key %q; did you mean %q?", source.Show(key), n)
	}
	return nil, fmt.Errorf("there is no key %q; at the top of a job file stand %s", source.Show(key), strings.Join(top, ", "))
}
