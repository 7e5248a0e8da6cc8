package field

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/source"
)

// Value is one side of a difference. It is left unformatted: the sheet knows
// what units the reader works in.
type Value struct {
	Is     ValueKind
	Text   string
	Figure qty.Figure
	Unit   string // of a Figure that is a plain number
	Fact   fact.Fact
}

// Compared is what a Link finds and a comparison shows as one value.
type Compared interface{ Compared() Value }

// ValueKind says what a Value holds.
type ValueKind int

// The kinds of value.
const (
	ValueNone     ValueKind = iota // not there
	ValueText                      // Text
	ValueFigure                    // Figure
	ValueFact                      // Fact, part of a sentence
	ValueSentence                  // Fact, a sentence
)

// None is a value that is not there.
func None() Value { return Value{} }

// TextOf is a text; none where it is empty.
func TextOf(s string) Value {
	if s == "" {
		return None()
	}
	return Value{Is: ValueText, Text: s}
}

// FigureOf is a quantity.
func FigureOf(q qty.Quantity) Value { return Value{Is: ValueFigure, Figure: q.Figure()} }

// NumberOf is a number in a unit of record.
func NumberOf(x float64, unit string) Value {
	k, ok := qty.KindIn(unit)
	if ok {
		unit = ""
	}
	return Value{Is: ValueFigure, Figure: k.Of(x), Unit: unit}
}

// FactOf is a fact, as a part of a sentence or as one; none where it says
// nothing.
func FactOf(f fact.Fact, sentence bool) Value {
	switch {
	case f.None():
		return None()
	case sentence:
		return Value{Is: ValueSentence, Fact: f}
	}
	return Value{Is: ValueFact, Fact: f}
}

// Same is whether two values read the same in the units u.
func (v Value) Same(u qty.Unit, w Value) bool {
	x, y := v.Figure, w.Figure
	return v.Is == w.Is && v.Text == w.Text && v.Unit == w.Unit && fact.Reads(u, v.Fact, w.Fact) &&
		x.Kind == y.Kind && (x.Value == y.Value || math.IsNaN(x.Value) && math.IsNaN(y.Value))
}

// alike is whether two values are sentences that differ in figures only: one
// that changed, rather than one that went and one that came.
func (v Value) alike(w Value) bool {
	return v.Is == w.Is && withoutFigures(v.Text) == withoutFigures(w.Text) && fact.Alike(withoutWritten(v.Fact), withoutWritten(w.Fact))
}

// withoutWritten leaves the figures out of what was read back from a document, of
// which nothing but the text is known.
func withoutWritten(f fact.Fact) fact.Fact {
	args := slices.Clone(f.Args)
	for i, a := range args {
		if s, ok := fact.AsName(a); ok && f.Kind == fact.Written {
			args[i] = fact.Name(withoutFigures(s))
		} else if g, ok := a.(fact.Fact); ok {
			args[i] = withoutWritten(g)
		} else if list := slices.Clone(fact.AsList(a)); list != nil {
			for k := range list {
				list[k] = withoutWritten(list[k])
			}
			args[i] = fact.List(list...)
		}
	}
	return fact.Fact{Kind: f.Kind, Args: args}
}

func withoutFigures(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) || r == '.' || r == ',' {
			return -1
		}
		return r
	}, s)
}

// Difference is one figure that two descriptions of the same kind do not share.
type Difference struct {
	Path     string // "steps[0].diameter"
	Rank     Rank
	What     string // "cutter setting"
	Old, New Value
}

// Itself is the label of a field that is called as the table that it stands in.
const Itself = "."

// Compare lists what differs between two values of one described type, in the
// order of the description but for Last: fields with a label (Weighs), and what
// stands inside tables, under the table's label if it has one; whether a table
// is there, where words say so (YesNo). Lists of tables with a label are
// compared element by element, lists of figures point by point, lists of texts
// and facts whatever their order. A table that is not there is compared as a
// blank, without the keys that it needs and without words that have no blank; so
// is a nil pointer. Facts that read the same in u are the same.
func Compare(u qty.Unit, old, new Described) []Difference {
	c := &comparer{u: u}
	c.tables(sideOf(old), sideOf(new), "", "", nil)
	return c.out
}

// Lists compares two lists whatever their order; a sentence in which only
// figures differ is one that changed.
func Lists(u qty.Unit, r Rank, what string, a, b []Value) []Difference {
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
	fields []*Field
	there  bool
}

func sideOf(x Described) side {
	if v := reflect.ValueOf(x); v.IsNil() {
		return side{Of(reflect.New(v.Type().Elem()).Interface().(Described)), false}
	}
	return side{Of(x), true}
}

func (c *comparer) add(r Rank, what string, a, b Value) {
	if !a.Same(c.u, b) {
		c.out = append(c.out, Difference{c.path, r, what, a, b})
	}
}

// tables compares two descriptions field by field; rank, if any, is that of the
// table around them.
func (c *comparer) tables(a, b side, path, under string, rank *Rank) {
	for _, last := range []bool{false, true} {
		for i, f := range a.fields {
			if g := b.fields[i]; f.last == last && !f.apart {
				c.path = source.Join(path, f.Key)
				c.fields(f, g, a.there, b.there, under, rank)
			}
		}
	}
}

func (c *comparer) fields(f, g *Field, here, there bool, under string, rank *Rank) {
	r := min(f.ranked(), g.ranked())
	if rank != nil {
		r = *rank
	}
	what := under + f.label
	if f.label == Itself {
		what = strings.TrimRight(under, ", ")
	}
	of := func(f *Field, there bool, p any) Value {
		if !there && f.need {
			return None()
		}
		return f.value(p)
	}
	switch {
	case !(here && there) && (f.verbatim || f.isWord()):
	case f.Kind == Table && f.many() && f.label != "":
		path, comma := c.path, ", "
		if f.noComma {
			comma = " "
		}
		for i := range max(f.count(), g.count()) {
			x, y := f.nth(i), g.nth(i)
			c.tables(side{x.fields, i < f.count()}, side{y.fields, i < g.count()}, source.El(path, i), under+f.label+" "+named(x, y, i)+comma, rank)
		}
	case f.Kind == Table && !f.many():
		if here, there = here && f.isHere(), there && g.isHere(); f.yesNo[0] != "" {
			c.add(r, what, f.yesOrNo(here), f.yesOrNo(there))
		} else if f.label != "" {
			under = what + ", "
			if f.noComma {
				under = what + " "
			}
		}
		if f.rankBy != nil {
			rank = &r
		}
		c.tables(side{f.open().fields, here}, side{g.open().fields, there}, c.path, under, rank)
	case f.label == "":
	case f.label2 != "":
		x, y := f.values2(), g.values2()
		c.add(r, what, x[0], y[0])
		c.add(r, under+f.label2, x[1], y[1])
	case f.many() && !f.joined && (f.Kind == Text || f.Kind == Name || f.Kind == Said):
		c.lists(r, what, f.valueList(), g.valueList())
	case f.many() && !f.joined:
		c.points(r, what, f, g)
	default:
		c.add(r, what, of(f, here, f.to), of(g, there, g.to))
	}
}

// points compares two lists of figures one by one, with the clock positions that
// they were read at; a point that only one side has shows as such.
func (c *comparer) points(r Rank, what string, f, g *Field) {
	x, y := f.valueList(), g.valueList()
	if f.clocks == nil {
		for i := range max(len(x), len(y)) {
			c.add(r, what, nth(x, i), nth(y, i))
		}
		return
	}
	at, was := *g.clocks, *f.clocks
	for i := range max(len(at), len(was)) {
		point := what + ", point " + strconv.Itoa(i+1)
		if i < min(len(at), len(was)) {
			c.add(r, point+", clock position", NumberOf(was[i], "°"), NumberOf(at[i], "°"))
		}
		c.add(r, point, nth(x[:min(len(x), len(was))], i), nth(y[:min(len(y), len(at))], i))
	}
}

// nth is a value of a list; none beyond its end.
func nth(l []Value, i int) Value {
	if i < len(l) {
		return l[i]
	}
	return None()
}

// lists reports what was dropped and what was added, whatever the order; a
// sentence in which only figures differ is one that changed.
func (c *comparer) lists(r Rank, what string, a, b []Value) {
	left := slices.Clone(b)
	take := func(same func(Value) bool) Value {
		i := slices.IndexFunc(left, same)
		if i < 0 {
			return None()
		}
		y := left[i]
		left = slices.Delete(left, i, i+1)
		return y
	}
	var gone []Value
	for _, x := range a {
		if take(func(y Value) bool { return x.Same(c.u, y) }).Is == ValueNone {
			gone = append(gone, x)
		}
	}
	for _, x := range gone {
		c.add(r, what, x, take(x.alike))
	}
	for _, y := range left {
		c.add(r, what, None(), y)
	}
}

// named is what an element of two lists is called: by the field that names it
// (Names), else by its number.
func named(x, y *Desc, i int) string {
	for _, d := range []*Desc{x, y} {
		for _, f := range d.fields {
			if f.names && f.value(f.to).Text != "" {
				return f.value(f.to).Text
			}
		}
	}
	return strconv.Itoa(i + 1)
}

// ranked is how much the field weighs.
func (f *Field) ranked() Rank {
	if f.rankBy != nil {
		return f.rankBy()
	}
	return f.rank
}

// isWord is a word that stands for a value of its own, so that none is its blank.
func (f *Field) isWord() bool {
	_, flag := f.to.(*bool)
	return f.values != nil && !f.many() && !flag
}

// isHere is whether a table is there.
func (f *Field) isHere() bool { return f.here == nil || f.here() }

// yesOrNo is a flag in words.
func (f *Field) yesOrNo(yes bool) Value {
	words := f.yesNo
	if words[0] == "" {
		words = [2]string{"yes", "no"}
	}
	if yes {
		return TextOf(words[0])
	}
	return TextOf(words[1])
}

// nth is the description of an element of a list, of a blank one beyond its end.
func (f *Field) nth(i int) *Desc {
	if i < f.count() {
		return f.item(i)
	}
	return f.open()
}

// kindOf is what kind of quantity the field holds; false for a number in a
// unit of its own.
func (f *Field) kindOf() (qty.Kind, bool) {
	switch {
	case f.as != qty.KindNumber:
		return f.as, true
	case f.percent:
		return qty.KindShare, true
	}
	switch f.Kind {
	case Length:
		switch {
		case f.fine:
			return qty.KindFine, true
		case f.perTurn:
			return qty.KindFeed, true
		}
		return qty.KindLength, true
	case Diameter:
		return qty.KindDiameter, true
	case Rough:
		return qty.KindRoughness, true
	case Speed:
		return qty.KindExactCuttingSpeed, true
	case Power:
		return qty.KindPower, true
	case Torque:
		return qty.KindTorque, true
	}
	return qty.KindIn(f.unit)
}

// value is what a pointer of the field holds.
func (f *Field) value(p any) Value {
	if f.maybe != nil && !f.maybe.here() {
		return None()
	}
	if f.Kind == Said {
		var x any
		if f.make != nil {
			x = f.make()
		} else {
			x = *p.(*fact.Fact)
		}
		switch x := x.(type) {
		case string:
			return TextOf(x)
		case qty.Quantity:
			return FigureOf(x)
		case fact.Fact:
			return FactOf(x, f.sentence)
		}
		return None()
	}
	v := reflect.ValueOf(p).Elem()
	if (f.zeroNone || f.unset != nil) && (v.IsZero() && f.zeroNone || f.unset != nil && v.Interface() == f.unset) {
		return None()
	}
	switch {
	case f.verbatim:
		return Value{Is: ValueText, Text: fmt.Sprint(v.Interface())}
	case f.link:
		if v.Kind() == reflect.Pointer && v.IsNil() {
			return None()
		} else if v.Kind() != reflect.Pointer {
			v = v.Addr()
		}
		return v.Interface().(Compared).Compared()
	case f.joined && v.Kind() == reflect.Slice:
		var all []string
		for i := range v.Len() {
			all = append(all, f.value(v.Index(i).Addr().Interface()).Text)
		}
		return Value{Is: ValueText, Text: strings.Join(all, ", ")}
	case f.Kind == Text || f.Kind == Name || f.Kind == Choice:
		return Value{Is: ValueText, Text: fmt.Sprint(f.figure(p))}
	case f.Kind == Flag:
		return f.yesOrNo(v.Bool())
	}
	var x float64
	switch n := p.(type) {
	case *qty.Length:
		x = toNext(*n, f.step).MM()
	case *qty.Diameter:
		x = n.MM()
	case *int:
		x = float64(*n)
	default:
		if x = v.Float(); f.step > 0 {
			x = toNext(qty.FromMM(x), f.step).MM()
		}
	}
	if f.times != 0 && f.as == qty.KindNumber { // the digits that a file states, not those of the factor
		x = math.Round(x/f.times*1e9) / 1e9
	}
	k, known := f.kindOf()
	out := Value{Is: ValueFigure, Figure: k.Of(x)}
	if !known {
		out.Unit = f.unit
	}
	return out
}

// toNext rounds to the nearest step; 0: not at all.
func toNext(l, step qty.Length) qty.Length {
	if step == 0 {
		return l
	}
	return (l + step/2) / step * step
}

// values2 are the two ends of a field of two.
func (f *Field) values2() [2]Value {
	if ends, two := f.to.([2]any); two {
		return [2]Value{f.value(ends[0]), f.value(ends[1])}
	}
	v := reflect.ValueOf(f.to).Elem()
	return [2]Value{f.value(v.Index(0).Addr().Interface()), f.value(v.Index(1).Addr().Interface())}
}

// valueList are the elements of a list of texts or facts.
func (f *Field) valueList() (out []Value) {
	if f.facts != nil {
		for _, x := range f.facts() {
			out = append(out, FactOf(*x, f.sentence))
		}
		return out
	}
	v := reflect.ValueOf(f.to).Elem()
	for i := range v.Len() {
		out = append(out, f.value(v.Index(i).Addr().Interface()))
	}
	return out
}
