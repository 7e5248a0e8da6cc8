package field

import (
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"

	"borewright/process/qty"
	"borewright/process/source"
)

// Faults lists what is wrong with a description itself, for a test: ranges that
// do not parse, examples and defaults that the field does not take in both
// systems of units, keys that stand twice or lack words.
func Faults(what string, x Described) []string {
	var out []string
	say := func(f leaf, format string, a ...any) { out = append(out, f.path+": "+fmt.Sprintf(format, a...)) }
	seen := map[string]bool{}
	for _, f := range leaves(Of(x), "") {
		switch {
		case f.Key == "":
			say(f, "has no key")
		case seen[f.path]:
			say(f, "stands twice")
		case f.text == "" || f.example == "":
			say(f, "lacks words or an example")
		case f.need && (f.def != "" || f.worked != "") || f.def != "" && f.worked != "":
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
			r := newReader(&source.Problems{}, what, Of(x))
			r.Units = u
			r.value(f.Field, f.path, f.Key, v[f.Key])
			for _, p := range r.Found {
				if !strings.HasSuffix(p.What, "is missing") {
					say(f, "does not take its own example %q: %v", f.exampleFor(u), p)
				}
			}
			if f.def != "" && f.Kind != Table {
				r.good = map[string]bool{}
				if r.setDefault(f.Field, "x"); !r.Has("x") {
					say(f, "does not take its default %q", f.def)
				}
			}
		}
	}
	return out
}
