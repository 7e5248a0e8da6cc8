// Package diff lists what differs between two values of one described type, by
// the labels and ranks of the description. It knows no job and no words.
package diff

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// Difference is one figure that two descriptions of the same kind do not share.
type Difference struct {
	Path     string // "steps[0].diameter"
	Rank     field.Rank
	What     string // "cutter setting"
	Old, New field.Value
}

// Compare lists what differs between two values of one described type, in the
// order of the description but for Last: fields with a label (Weighs), and what
// stands inside tables, under the table's label if it has one; whether a table
// is there, where words say so (YesNo). Lists of tables with a label are
// compared element by element, lists of figures point by point, lists of texts
// and facts whatever their order. A table that is not there is compared as a
// blank, without the keys that it needs and without words that have no blank; so
// is a nil pointer. Facts that read the same in u are the same.
func Compare(u qty.Unit, old, new field.Described) []Difference {
	c := &comparer{u: u}
	c.tables(sideOf(old), sideOf(new), "", "", nil)
	return c.out
}

// Lists compares two lists whatever their order; a sentence in which only
// figures differ is one that changed.
func Lists(u qty.Unit, r field.Rank, what string, a, b []field.Value) []Difference {
	c := &comparer{u: u}
	c.lists(r, what, a, b)
	return c.out
}

type comparer struct {
	u    qty.Unit
	path string
	out  []Difference
}

// side is a table as one of the two has it.
type side struct {
	fields []*field.Spec
	there  bool
}

func sideOf(x field.Described) side {
	if v := reflect.ValueOf(x); v.IsNil() {
		return side{field.Of(reflect.New(v.Type().Elem()).Interface().(field.Described)), false}
	}
	return side{field.Of(x), true}
}

func (c *comparer) add(r field.Rank, what string, a, b field.Value) {
	if !a.Same(c.u, b) {
		c.out = append(c.out, Difference{c.path, r, what, a, b})
	}
}

// tables compares two descriptions field by field; rank, if any, is that of the
// table around them.
func (c *comparer) tables(a, b side, path, under string, rank *field.Rank) {
	for _, last := range []bool{false, true} {
		for i, f := range a.fields {
			if g := b.fields[i]; f.Last == last && !f.Apart {
				c.path = source.Join(path, f.Key)
				c.fields(f, g, a.there, b.there, under, rank)
			}
		}
	}
}

func (c *comparer) fields(f, g *field.Spec, here, there bool, under string, rank *field.Rank) {
	r := min(ranked(f), ranked(g))
	if rank != nil {
		r = *rank
	}
	what := under + f.Label
	if f.Label == field.Itself {
		what = strings.TrimRight(under, ", ")
	}
	comma := ", "
	if f.NoComma {
		comma = " "
	}
	of := func(f *field.Spec, there bool) field.Value {
		if !there && f.Need {
			return field.None()
		}
		return value(f, f.To)
	}
	switch {
	case !(here && there) && (f.Verbatim || isWord(f)):
	case f.IsTable() && f.Many() && f.Label != "":
		path := c.path
		for i := range max(f.Len(), g.Len()) {
			x, y := f.Element(i), g.Element(i)
			c.tables(side{x, here && i < f.Len()}, side{y, there && i < g.Len()}, source.El(path, i), what+" "+named(x, y, i)+comma, rank)
		}
	case f.IsTable() && !f.Many():
		if here, there = here && f.There(), there && g.There(); f.YesNo[0] != "" {
			c.add(r, what, yesOrNo(f, here), yesOrNo(f, there))
		} else if f.Label != "" {
			under = what + comma
		}
		if f.RankBy != nil {
			rank = &r
		}
		c.tables(side{f.Inside(), here}, side{g.Inside(), there}, c.path, under, rank)
	case f.Label == "":
	case f.Label2 != "":
		x, y := values(f), values(g)
		c.add(r, what, x[0], y[0])
		c.add(r, under+f.Label2, x[1], y[1])
	case f.Many() && !f.Joined && (f.Kind == field.Text || f.Kind == field.Name || f.Kind == field.Said):
		c.lists(r, what, values(f), values(g))
	case f.Many() && !f.Joined:
		c.points(r, what, f, g)
	default:
		c.add(r, what, of(f, here), of(g, there))
	}
}

// points compares two lists of figures one by one, with the clock positions that
// they were read at; a point that only one side has shows as such.
func (c *comparer) points(r field.Rank, what string, f, g *field.Spec) {
	x, y := values(f), values(g)
	if len(x)+len(y) == 0 {
		return
	}
	if f.Clocks == nil {
		for i := range max(len(x), len(y)) {
			c.add(r, what, nth(x, i), nth(y, i))
		}
		return
	}
	at, was := *g.Clocks, *f.Clocks
	for i := range max(len(at), len(was)) {
		point := what + ", point " + strconv.Itoa(i+1)
		if i < min(len(at), len(was)) {
			c.add(r, point+", clock position", field.NumberOf(was[i], "°"), field.NumberOf(at[i], "°"))
		}
		c.add(r, point, nth(x[:min(len(x), len(was))], i), nth(y[:min(len(y), len(at))], i))
	}
}

// nth is a value of a list; none beyond its end.
func nth(l []field.Value, i int) field.Value {
	if i < len(l) {
		return l[i]
	}
	return field.None()
}

// lists reports what was dropped and what was added, whatever the order; a
// sentence in which only figures differ is one that changed.
func (c *comparer) lists(r field.Rank, what string, a, b []field.Value) {
	left := slices.Clone(b)
	take := func(same func(field.Value) bool) field.Value {
		i := slices.IndexFunc(left, same)
		if i < 0 {
			return field.None()
		}
		y := left[i]
		left = slices.Delete(left, i, i+1)
		return y
	}
	var gone []field.Value
	for _, x := range a {
		if take(func(y field.Value) bool { return x.Same(c.u, y) }).Is == field.ValueNone {
			gone = append(gone, x)
		}
	}
	for _, x := range gone {
		c.add(r, what, x, take(func(y field.Value) bool { return alike(x, y) }))
	}
	for _, y := range left {
		c.add(r, what, field.None(), y)
	}
}

// named is what an element of two lists is called: by the field that names it
// (Names), else by its number.
func named(x, y []*field.Spec, i int) string {
	for _, f := range slices.Concat(x, y) {
		if f.Names {
			if s := value(f, f.To).Text; s != "" {
				return s
			}
		}
	}
	return strconv.Itoa(i + 1)
}

// ranked is how much the field weighs.
func ranked(f *field.Spec) field.Rank {
	if f.RankBy != nil {
		return f.RankBy()
	}
	return f.Rank
}

// isWord is a word that stands for a value of its own, so that none is its blank.
func isWord(f *field.Spec) bool {
	_, flag := f.To.(*bool)
	return f.Values != nil && !f.Many() && !flag && !f.ZeroIsNone
}
