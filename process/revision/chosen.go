package revision

import (
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/diff"
	"borewright/process/qty"
	"borewright/process/source"
)

// A figure of a bar or a cutter may stand in a list of the shop, and how far a bar stands out may be
// chosen. Such a figure differs because somebody wrote it anew in the list, or because another bar,
// another cutter or another stickout was chosen: that is no edit.

// stated is whether a job itself states a key, or one below it; not a list that it names.
func stated(j *process.Job, key string) bool {
	listed := func(written string, at source.Pos) bool {
		return slices.ContainsFunc([]string{"bars", "cutters"}, func(list string) bool {
			place, is := j.Places[list]
			return is && written != list && at == place
		})
	}
	for written, at := range j.Places {
		if (written == key || strings.HasPrefix(written, key+".") || strings.HasPrefix(written, key+"[")) && !listed(written, at) {
			return true
		}
	}
	return false
}

// anew are the keys in which two values described alike differ, below a table.
type anew []string

func (a *anew) of(table string, x, y field.Described) {
	for _, d := range diff.Compare(qty.Metric, x, y) {
		*a = append(*a, strings.TrimSuffix(table+"."+d.Path, "."))
	}
}

// has is whether a key is one of them, or one within the other.
func (a anew) has(key string) bool {
	below := func(k, of string) bool { return strings.HasPrefix(k, of+".") || strings.HasPrefix(k, of+"[") }
	return slices.ContainsFunc(a, func(k string) bool { return k == key || below(k, key) || below(key, k) })
}

// inLists are the keys of bar and cutter in which the lists of two jobs differ, by the entries that
// the two have.
func inLists(a, b *process.Job) (out anew) {
	for _, name := range []string{a.Bar.Name, b.Bar.Name} {
		x, y := entry(a.Shop, name, func(b process.ShopBar) string { return b.Name }), entry(b.Shop, name, func(b process.ShopBar) string { return b.Name })
		if x != nil && y != nil {
			out.of("bar", &x.Bar, &y.Bar)
			was, _ := x.UsualSizes()
			is, _ := y.UsualSizes()
			if x.Least != y.Least && (x.Least != was || y.Least != is) {
				out = append(out, "cutter.least")
			}
			if x.Most != y.Most && !(x.Usual && y.Usual) {
				out = append(out, "cutter.most")
			}
		}
	}
	for _, name := range []string{a.Cutter.Name, b.Cutter.Name} {
		x, y := entry(a.Drawer, name, func(k process.ShopCutter) string { return k.Name }), entry(b.Drawer, name, func(k process.ShopCutter) string { return k.Name })
		if x != nil && y != nil {
			out.of("cutter", &x.Cutter, &y.Cutter)
		}
	}
	return out
}

// entry is the one of a list that has a name; nil: there is none.
func entry[T any](list []T, name string, called func(T) string) *T {
	if i := slices.IndexFunc(list, func(x T) bool { return name != "" && called(x) == name }); i >= 0 {
		return &list[i]
	}
	return nil
}

// clamps is whether the key of a bar differs by the stickout alone, which was chosen.
func clamps(key string, a, b *process.Bar) bool {
	if a.Listed == nil && b.Listed == nil || !strings.HasPrefix(key, "bar.") {
		return false
	}
	var differ anew
	differ.of("bar", before(a), before(b))
	if a.Drawn > 0 || b.Drawn > 0 { // the quill is a step of its own: steps are counted otherwise
		return len(differ) == 0
	}
	return !differ.has(key)
}

// before is a bar as it was before its stickout was chosen.
func before(b *process.Bar) *process.Bar {
	if b.Listed != nil {
		return b.Listed
	}
	return b
}
