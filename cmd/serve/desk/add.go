package desk

import (
	"strings"

	"borewright/process/field/keys"
	"borewright/process/source"
)

// children are the keys that stand right in a table, by its name; "" is the file.
func (t jobKeys) children(table string) (all []keys.Shown) {
	for _, k := range t.all {
		if under, _ := cutLast(k.Key); under == table {
			all = append(all, k)
		}
	}
	return all
}

// missing are the figures that the tables of the file cannot be without and that it has not.
func (b *builder) missing() (all []string) {
	var look func(path string)
	look = func(path string) {
		for _, k := range b.children(keyOf(path)) {
			_, key := cutLast(k.Key)
			p := source.Join(path, key)
			_, there := b.have[p]
			switch {
			case k.Table && k.Many:
				for i := range b.counts[p] {
					look(source.El(p, i))
				}
			case k.Table && b.under(p):
				look(p)
			case !k.Table && k.Needed && !there:
				all = append(all, p)
			}
		}
	}
	look("")
	return all
}

// inside are the figures that are to be filled in where one, or a table, is asked for: of an
// element those that the one before it has, and what it cannot be without.
func (b *builder) inside(path string) (all []string) {
	if !b.known(path) {
		return nil
	}
	if !b.jobKeys.at[keyOf(path)].Table {
		return []string{path}
	}
	if list, n := elementOf(path); list != "" {
		if n > b.counts[list] || n < 0 {
			return nil
		}
		before := source.El(list, n-1) + "."
		for _, g := range b.groups {
			for _, f := range g.Fields {
				if rest, ok := strings.CutPrefix(f.Path, before); ok && !strings.Contains(rest, "[") {
					all = append(all, path+"."+rest)
				}
			}
		}
	}
	for _, k := range b.children(keyOf(path)) {
		_, key := cutLast(k.Key)
		switch p := path + "." + key; {
		case k.Needed && !k.Table:
			all = append(all, p)
		case k.Needed && k.Many:
			all = append(all, b.inside(source.El(p, 0))...)
		case k.Needed:
			all = append(all, b.inside(p)...)
		}
	}
	return all
}

// addable is what may be added to a group. At the top it is also tables that are not there.
func (b *builder) addable(group string) (all []Addable) {
	add := func(p, text string) {
		text, _, _ = strings.Cut(text, "; ")
		all = append(all, Addable{p, source.Counted(strings.TrimPrefix(p, group+".")), source.Clip(text, 70)})
	}
	var look func(path string)
	look = func(path string) {
		for _, k := range b.children(keyOf(path)) {
			_, key := cutLast(k.Key)
			p := source.Join(path, key)
			_, there := b.have[p]
			switch {
			case k.Table && k.Many:
				if add(source.El(p, b.counts[p]), k.Text); path != "" {
					for i := range b.counts[p] {
						look(source.El(p, i))
					}
				}
			case k.Table && !b.under(p) && b.needs(k.Key):
				add(p, k.Text)
			case k.Table && (path != "" || !b.under(p)): // else it has a group of its own
				look(p)
			case !k.Table && !there && !b.waits(p):
				add(p, k.Text)
			}
		}
	}
	look(group)
	return all
}

// needs is whether a table cannot be without some key.
func (b *builder) needs(table string) bool {
	for _, k := range b.children(table) {
		if k.Needed {
			return true
		}
	}
	return false
}

// waits is whether a figure stands in the form already, to be filled in.
func (b *builder) waits(path string) bool {
	for _, f := range b.group(path).Fields {
		if f.Path == path {
			return true
		}
	}
	return false
}

// known is whether a path is of a key of a job file: a list has a number where it is one of
// tables.
func (t jobKeys) known(path string) bool {
	at := ""
	for part := range strings.SplitSeq(path, ".") {
		key, rest, numbered := strings.Cut(part, "[")
		k, ok := t.at[source.Join(at, key)]
		if !ok || numbered && !(k.Table && k.Many && plainNumber(strings.TrimSuffix(rest, "]")) && strings.HasSuffix(rest, "]")) {
			return false
		}
		if at = source.Join(at, key); !numbered && k.Table && k.Many {
			return false
		}
	}
	return true
}

// plainNumber is whether a text is a number of an element.
func plainNumber(s string) bool {
	return s != "" && len(s) <= 3 && strings.Trim(s, "0123456789") == "" && (s == "0" || s[0] != '0')
}
