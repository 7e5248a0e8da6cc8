package process

import (
	"fmt"
	"regexp"
	"strings"

	"borewright/process/qty"
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

// files are the tables of keys with the job key they stand under.
func files() []struct {
	under  string
	what   string
	fields []field
} {
	return []struct {
		under  string
		what   string
		fields []field
	}{
		{"", "job file", jobKeys()},
		{"machine", "machine file", machineKeys()},
		{"material", "material file", materialKeys()},
		{"cutter.material", "cutter material file", cutterKeys()},
		{"bar.material", "bar material file", barKeys()},
		{"bars", "list of bars", shopKeys()},
		{"results", "results file", resultKeys()},
	}
}

// Keys is every key of the job file and of the files that it may name, in the
// order in which they are best written.
func Keys() []Entry {
	var all []Entry
	for _, f := range files() {
		for i := range f.fields {
			all = append(all, f.fields[i].entry(f.under, f.what))
		}
	}
	return all
}

func (f *field) entry(under, what string) Entry {
	e := Entry{Key: dotted(under, f.path), Text: f.text, Type: f.typeName()}
	if under != "" {
		e.Type += ", in a " + what
	}
	both := func(s func(u qty.Unit) string) string {
		if inch, metric := s(qty.Inches), s(qty.Metric); inch != metric {
			return inch + " or " + metric
		}
		return s(qty.Inches)
	}
	e.Unit = both(f.unitName)
	e.Range = both(f.spanWords)
	switch {
	case f.kind == aChoice:
		e.Range = quoted(f.choices)
	case f.kind == aText:
		e.Range = fmt.Sprintf("to %d characters", longestText)
	case f.kind == aName:
		e.Range = fmt.Sprintf("to %d characters", longestName)
	}
	if f.list != nil {
		e.Range = strings.TrimSuffix(countWords(f.list)+" of them; "+e.Range, "; ")
	}
	switch {
	case f.need:
		e.Default = "required"
	case f.worked != "":
		e.Default = f.worked
	case f.def != "" && f.kind != aTable:
		e.Default = both(func(u qty.Unit) string {
			d := in(u, f.def)
			if n := f.unitName(u); n != "" && d != "0" {
				d += " " + n
			}
			return d
		})
	default:
		e.Default = "none"
	}
	if in(qty.Inches, f.example) == "" {
		return e
	}
	e.Example = f.exampleFor(qty.Inches)
	if m := f.exampleFor(qty.Metric); m != e.Example {
		e.Example += "   (in mm: " + m + ")"
	}
	return e
}

func (f *field) typeName() string {
	one, lots := "text", "texts"
	switch f.kind {
	case aChoice:
		one, lots = "word", "words"
	case aFlag:
		one, lots = "true or false", "true or false"
	case aNumber:
		one, lots = "number", "numbers"
	case aCount:
		one, lots = "whole number", "whole numbers"
	case aLength:
		one, lots = "length", "lengths"
	case aDiameter:
		one, lots = "diameter", "diameters"
	case aRough:
		one, lots = "roughness", "roughnesses"
	case aSpeed:
		one, lots = "cutting speed", "cutting speeds"
	case aPower:
		one = "power"
	case aTorque:
		one = "torque"
	case aTable:
		one, lots = "table", "tables"
	case aSources:
		one = "table of texts"
	}
	if f.list != nil {
		return "list of " + lots
	}
	return one
}

var elementNumber = regexp.MustCompile(`\[[0-9]*\]`)

// Explain finds what a key means: the key itself with the keys inside it, or,
// for a plain word such as "diameter", every key that ends in it. Numbers of
// list elements and brackets, as in "bore[0].finish", are passed over. The error names the
// nearest keys.
func Explain(key string) ([]Entry, error) {
	k := strings.Trim(strings.ToLower(elementNumber.ReplaceAllString(strings.TrimSpace(key), "")), ".[]")
	if k == "" {
		return nil, fmt.Errorf("no key is named; write one as in %q, or a word of it as in %q", "bore.finish", "diameter")
	}
	var found []Entry
	var names []string
	for _, e := range Keys() {
		names = append(names, e.Key)
		if e.Key == k || strings.HasPrefix(e.Key, k+".") {
			found = append(found, e)
		}
	}
	if len(found) > 0 {
		return found, nil
	}
	for _, e := range Keys() {
		if strings.HasSuffix(e.Key, "."+k) || strings.Contains(e.Key, "."+k+".") {
			found = append(found, e)
		}
	}
	if len(found) > 0 {
		return found, nil
	}
	var words []string
	for _, n := range names {
		words = append(words, n, n[strings.LastIndexByte(n, '.')+1:])
	}
	if n := nearest(k, words); n != "" {
		return nil, fmt.Errorf("there is no key %q; did you mean %q?", show(key), n)
	}
	return nil, fmt.Errorf("there is no key %q; at the top of a job file stand %s", show(key), strings.Join(topKeys(), ", "))
}

func topKeys() []string {
	var top []string
	for _, f := range jobKeys() {
		if f.parent() == "" {
			top = append(top, f.path)
		}
	}
	return top
}

// Template is a job file to start from, in inches or mm: it loads and plans as
// it stands, and explains each part.
func Template(u qty.Unit) []byte {
	data, err := catalog.ReadFile("catalog/new/" + u.String() + ".toml")
	if err != nil {
		panic(err) // embedded: only our own bug
	}
	return data
}
