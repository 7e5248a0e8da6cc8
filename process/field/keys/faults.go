package keys

import (
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// Faults lists what is wrong with a description itself, for a test: ranges that
// do not parse, examples and defaults that the field does not take in both
// systems of units, keys that stand twice or lack words.
func Faults(what string, x field.Described) []string {
	var out []string
	say := func(f leaf, format string, a ...any) { out = append(out, f.path+": "+fmt.Sprintf(format, a...)) }
	seen := map[string]bool{}
	for _, f := range leaves(keysOf(field.Of(x)), "") {
		switch {
		case f.Key == "":
			say(f, "has no key")
		case seen[f.path]:
			say(f, "stands twice")
		case f.Text == "" || f.Example == "":
			say(f, "lacks words or an example")
		case f.Need && (f.Default != "" || f.Otherwise != "") || f.Default != "" && f.Otherwise != "":
			say(f, "is needed and has a default, or has two")
		}
		seen[f.path] = true
		for _, u := range []qty.Unit{qty.Inches, qty.Metric} {
			if lo, hi, _, ok := f.bounds(u); ok && lo >= hi {
				say(f, "range %v to %v", lo, hi)
			}
			var v map[string]any
			if _, err := toml.Decode(f.exampleFor(u), &v); err != nil {
				say(f, "example: %v", err)
				continue
			}
			r := newReader(&source.Problems{}, what, keysOf(field.Of(x)))
			r.Units = u
			r.value(f.key, f.path, f.Key, v[f.Key])
			for _, p := range r.Found {
				if !strings.HasSuffix(p.What, "is missing") {
					say(f, "does not take its own example %q: %v", f.exampleFor(u), p)
				}
			}
			if f.Default != "" && f.Kind != field.Table {
				r.good = map[string]bool{}
				if r.setDefault(f.key, "x"); !r.Has("x") {
					say(f, "does not take its default %q", f.Default)
				}
			}
		}
	}
	return out
}
