package files

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// library resolves what a job names: built in, or a file of the user's own.
type library struct {
	r    *keys.Reader
	open func(path string) ([]byte, error)
	read map[string]any // what was loaded, so that a file is read and blamed once

	bars, cutters loadFunc[Shop]
	shop          *Shop // the list with bars, once it is read
}

// find puts in what the links of a file name. A link from a table inside
// another is found after those around it, so that a file that several keys name
// is blamed at the first. station finds a station by its name.
func (l *library) find(links []keys.Link, station func(keys.Link) int) {
	links = slices.Clone(links)
	slices.SortStableFunc(links, func(a, b keys.Link) int {
		return strings.Count(a.Path, ".") - strings.Count(b.Path, ".")
	})
	for _, k := range links {
		switch to := k.To.(type) {
		case **process.Machine:
			*to = resolve(l, k, "machines", "machine", Machine)
		case **process.Material:
			*to = resolve(l, k, "materials", "material", Material)
		case **process.CutterMaterial:
			*to = resolve(l, k, "cutters", "cutter material", CutterMaterial)
		case *process.BarMaterial:
			if m := resolve(l, k, "bars", "bar material", BarMaterial); m != nil {
				*to = *m
			}
		case *[]process.ShopBar:
			if l.shop = opened(l, k, "leave it out", "give a path relative to the job file", l.bars); l.shop != nil {
				*to = l.shop.Bars
			}
		case *[]process.ShopCutter:
			if list := opened(l, k, "leave it out", "give a path relative to the job file", l.cutters); list != nil {
				*to = list.Cutters
			}
		case *int:
			*to = station(k)
		default:
			panic(fmt.Sprintf("process: %s names nothing that can be found: %T", k.Path, to)) // our own bug
		}
	}
}

// resolve finds what a key names. It is nil where that failed, and the problem
// is noted: at the key, or in the user's file under that file's own name.
func resolve[T any](l *library, link keys.Link, dir, what string, load loadFunc[T]) *T {
	key, id := link.Path, link.Text
	if x, ok := l.read[dir+":"+id].(*T); ok {
		return x
	}
	var x *T
	ids := builtInIDs(dir)
	switch {
	case !strings.HasSuffix(strings.ToLower(id), ".toml"):
		if x = lookUp(dir, id, load); x == nil {
			allowed := "built in are " + strings.Join(ids, ", ") + "; or name a file ending in .toml"
			if n := source.Nearest(id, ids); n != "" {
				allowed = fmt.Sprintf("did you mean %q? ", n) + strings.ToUpper(allowed[:1]) + allowed[1:]
			}
			l.r.Bad(key, fmt.Sprintf("there is no built-in %s %q", what, source.Show(id)), allowed)
		}
	default:
		instead := "a built-in " + what + ": " + strings.Join(ids, ", ")
		x = opened(l, link, "name "+instead, "give a path relative to the job file, or "+instead, load)
	}
	l.read[dir+":"+id] = x
	return x
}

// opened loads a file that a key names, the bars of a shop's list too. Where none
// can be opened, instead says what to write; where this one cannot be read, other.
func opened[T any](l *library, link keys.Link, instead, other string, load loadFunc[T]) *T {
	key, name := link.Path, link.Text
	if l.open == nil {
		l.r.Bad(key, fmt.Sprintf("names the file %q, and no file can be opened here", source.Show(name)), instead)
		return nil
	}
	data, err := l.open(name)
	if err != nil {
		l.r.Bad(key, fmt.Sprintf("the file %q cannot be read: %s", source.Show(name), source.Show(err.Error())), other)
		return nil
	}
	x, err := load(name, data)
	var mistakes source.Errors
	if errors.As(err, &mistakes) {
		l.r.Bad(key, fmt.Sprintf("the file %q has mistakes", source.Show(name)), "they are listed below with its name")
		l.r.Adopt(mistakes)
	}
	return x
}
