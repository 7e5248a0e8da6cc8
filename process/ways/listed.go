package ways

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field/keys"
	"borewright/process/qty"
)

// listed is whether the bar of a job is one of the shop's list. Its steps then stand in another
// file, and a change of them is another bar for that list.
func listed(job *process.Job) *process.ShopBar {
	at, is := job.Places["bars"]
	if !is || job.Places["bar.steps"] != at {
		return nil
	}
	for i := range job.Shop {
		if job.Shop[i].Name == job.Bar.Name {
			return &job.Shop[i]
		}
	}
	return nil
}

// ofTheBar is whether a key is one of the steps of a bar or, where the job does not state it
// itself, of the place of its cutter.
func ofTheBar(job *process.Job, path string) bool {
	return strings.HasPrefix(path, "bar.steps") || path == "bar.cutter_at" && job.Places[path] == job.Places["bars"]
}

// usual are the keys that follow from the steps of a listed bar, where neither its entry nor that
// of the cutter states them.
func usual(job, changed *process.Job, paths []string, whole bool) (out []string) {
	b := listed(job)
	if b == nil || !slices.ContainsFunc(paths, func(p string) bool { return strings.HasPrefix(p, "bar.steps") }) {
		return nil
	}
	var k process.ShopCutter
	for _, c := range job.Drawer {
		if c.Name == job.Cutter.Name {
			k = c
		}
	}
	own := func(path string) bool { return job.Places[path] != job.Places["bars"] }
	least, _ := b.Bar.UsualSizes()
	if usualLeast(*b, changed.Bar, whole) && k.Least <= least && !own("cutter.least") {
		out = append(out, "cutter.least")
	}
	if (b.Usual || whole) && k.Most == 0 && !own("cutter.most") {
		out = append(out, "cutter.most")
	}
	return out
}

// toList is the changed bar of a job as an entry for the shop's list, where the bar is from there
// and a change of it was made; and the keys that the job itself is written by. The entry is nil
// where the bar of the list stays as it is. before is how many entries are told before it.
func toList(was, job *process.Job, made []change, before int) (entry *process.ShopBar, keys []fact.Fact) {
	b := listed(was)
	changed, whole := false, false
	for _, c := range made {
		if c.of() != nil {
			continue
		}
		whole = whole || c.whole()
		for _, k := range c.keys {
			switch {
			case k.as.None():
			case b != nil && (ofTheBar(was, k.path) || c.whole() && k.path == "bar.stickout"):
				changed = true
			default:
				keys = append(keys, k.as)
			}
		}
	}
	if !changed {
		return nil, keys
	}
	one := *b
	one.Bar = job.Bar
	one.Steps = slices.Clone(job.Bar.Steps)[drawn(job):]
	one.CutterAt -= job.Bar.Drawn
	one.Name = newName(was.Shop, barName, before)
	usualSizes(&one, *b, whole)
	if was.Places["bar.name"] != was.Places["bars"] { // the job names its bar
		keys = append(keys, word("bar.name", one.Name).as)
	}
	return &one, keys
}

// usualSizes gives the entry of a changed bar the range that is usual with it, where the bar it was
// made from has that, or where it is another bar as a whole.
func usualSizes(one *process.ShopBar, was process.ShopBar, whole bool) {
	least, most := one.Bar.UsualSizes()
	if usualLeast(was, one.Bar, whole) {
		one.Least = least
	}
	if one.Usual = one.Usual || whole; one.Usual {
		one.Most = most
	}
}

// usualLeast is whether the smallest setting in a changed bar is the usual one: it was, or what the
// list says lies within the bar.
func usualLeast(was process.ShopBar, bar process.Bar, whole bool) bool {
	least, _ := was.Bar.UsualSizes()
	at := bar.StepAt(bar.CutterAt)
	return was.Least == least || whole || at >= 0 && was.Least <= bar.Steps[at].Diameter
}

func barName(b process.ShopBar) string { return b.Name }

func cutterName(k process.ShopCutter) string { return k.Name }

// newName is a name that no entry of a list has, nor one of those told before.
func newName[T any](list []T, called func(T) string, before int) string {
	for n := 1; ; n++ {
		name := fmt.Sprintf("new %d", n)
		if slices.ContainsFunc(list, func(x T) bool { return called(x) == name }) {
			continue
		}
		if before == 0 {
			return name
		}
		before--
	}
}

// listedBar is a bar as it stands in a list. Every length carries its unit, so that it means the
// same whatever the list is written in.
func listedBar(b process.ShopBar, u qty.Unit) []byte {
	name := func(to any) string {
		m := to.(*process.BarMaterial)
		if m == &b.Material && m.ID == "steel" || m != &b.Material && *m == b.Material {
			return "" // the default
		}
		return m.ID
	}
	if least, _ := b.Bar.UsualSizes(); b.Least == least {
		b.Least = 0
	}
	if b.CutterAt == b.Stickout() {
		b.CutterAt = 0
	}
	if b.Usual {
		b.Most = 0
	}
	out := append([]byte("[[bar]]\n"), keys.WriteTOML(&b, u, name)...)
	if !slices.ContainsFunc(bytes.Split(out, []byte("\n")), func(line []byte) bool { return len(line) > widest }) {
		return out
	}
	steps := b.Steps
	b.Steps = nil
	out = append([]byte("[[bar]]\n"), keys.WriteTOML(&b, u, name)...)
	for i := range steps {
		out = append(append(out, "[[bar.steps]]\n"...), keys.WriteTOML(&steps[i], u, name)...)
	}
	return out
}

// widest is how many letters of an entry a terminal shows in one line. A step that is longer would be
// broken there, and a table in braces stands in one line.
const widest = 76

// listedCutter is a cutter as it stands in a list.
func listedCutter(k process.ShopCutter, u qty.Unit) []byte {
	m := k.Material
	none := k.Rake == 0 && m.Rake != 0 // which is not the same as left out
	if k.Rake == m.Rake {
		k.Rake = 0
	}
	if k.EdgeRadius == m.Edge {
		k.EdgeRadius = 0
	}
	out := append([]byte("[[cutter]]\n"), keys.WriteTOML(&k, u, func(any) string { return m.ID })...)
	if none {
		out = append(out, "rake = 0\n"...)
	}
	return out
}
