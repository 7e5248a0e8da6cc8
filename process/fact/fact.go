// Package fact holds what a plan has to say as typed values: why a pass is no
// deeper, what stops a plan, what to mind, what to do next. A Fact has a kind
// and its figures and names, and no words: those stand in sheets/words, in the
// units of the reader. Whoever has to decide something asks for the kind of a
// fact, never for what was printed of it.
//
// A kind is declared as a constant in the room that makes the fact, with what
// its arguments are:
//
//	// LimitPower: the power of the cut, the power of the spindle.
//	const LimitPower fact.Kind = "limit.power"
//
//	fact.New(LimitPower, fact.Figure(qty.KindSpindlePower.Of(watts)), fact.Figure(qty.KindSpindlePower.Of(most)))
//
// The package knows no job.
package fact

import (
	"slices"
	"strings"
	"unicode"

	"borewright/process/qty"
)

// Kind is what a fact says, apart from its figures. It is never printed.
type Kind string

// Fact is one thing that is so. The zero Fact says nothing.
type Fact struct {
	Kind Kind
	Args []Arg // in the order that the kind declares; nil: not there
}

// Arg is an argument of a fact: a figure, a name, a fact or a list of facts. An
// argument that is not there is nil.
type Arg interface{ arg() }

type (
	figure struct{ qty.Figure }
	name   string
	list   []Fact
)

func (figure) arg() {}
func (name) arg()   {}
func (list) arg()   {}
func (Fact) arg()   {}

// New makes a fact. A nil argument is one that is not there.
func New(k Kind, args ...Arg) Fact { return Fact{k, args} }

// Figure is an argument that is a number with its kind of quantity.
func Figure(q qty.Quantity) Arg { return figure{q.Figure()} }

// Value is a number of a kind of quantity, in its unit of record.
func Value(k qty.Kind, v float64) Arg { return Figure(k.Of(v)) }

// MM is a length that is held as a number of mm; PlainMM drops zeros behind.
func MM(mm float64) Arg      { return Figure(qty.FromMM(mm)) }
func PlainMM(mm float64) Arg { return Figure(qty.Plain(qty.FromMM(mm))) }

// FineMM is the same where hundredths of a thousandth count.
func FineMM(mm float64) Arg { return Figure(qty.Fine(qty.FromMM(mm))) }

// Size is a diameter where the words say that it is one: it prints without the sign.
func Size(d qty.Diameter) Arg { return Figure(d.Length()) }

// Count is a figure that counts things.
func Count(n int) Arg { return figure{qty.KindCount.Of(float64(n))} }

// Name is a text of a file of the shop: a station, a bar, a compound, a person.
// It is printed as it stands there; an empty one is not there.
func Name(s string) Arg {
	if s == "" {
		return nil
	}
	return name(s)
}

// List is an argument that is several facts, printed one after the other; none
// of them is not there.
func List(facts ...Fact) Arg {
	if len(facts) == 0 {
		return nil
	}
	return list(facts)
}

// Written is a sentence that stands in a document that was read back: its text
// is all that is known of it.
const Written Kind = "written"

// Because is what an error of a room says: its fact, or its text.
func Because(err error) Fact {
	if f, ok := Of(err); ok {
		return f
	}
	return AsWritten(err.Error())
}

// AsWritten makes one; of no text it says nothing.
func AsWritten(s string) Fact {
	if s == "" {
		return Fact{}
	}
	return New(Written, Name(s))
}

// None is whether f says nothing.
func (f Fact) None() bool { return f.Kind == "" }

// Nth is argument n of a fact, from 1; nil where it has none or says nothing.
func (f Fact) Nth(n int) Arg {
	if n < 1 || n > len(f.Args) {
		return nil
	}
	if g, ok := f.Args[n-1].(Fact); ok && g.None() {
		return nil
	}
	return f.Args[n-1]
}

// Named is the fact without figures that a value of a row of constants has, by the
// kinds in their order; nothing where it has none.
func Named[T ~int](v T, kinds ...Kind) Fact {
	if v < 0 || int(v) >= len(kinds) || kinds[v] == "" {
		return Fact{}
	}
	return New(kinds[v])
}

// AsFigure is the figure that an argument holds, if it holds one.
func AsFigure(a Arg) (qty.Figure, bool) {
	f, ok := a.(figure)
	return f.Figure, ok
}

// AsName is the name that an argument holds, if it holds one.
func AsName(a Arg) (string, bool) {
	s, ok := a.(name)
	return string(s), ok
}

// AsList is the facts that an argument holds: those of a list, or the one.
func AsList(a Arg) []Fact {
	switch a := a.(type) {
	case list:
		return a
	case Fact:
		return []Fact{a}
	}
	return nil
}

// Equal is whether two facts say the same, to the last digit.
func Equal(a, b Fact) bool {
	return same(a, b, func(x, y qty.Figure) bool { return x == y }, equal)
}

// Reads is whether two facts read the same in the units u: a difference that no
// figure prints is the arithmetic's, not the work's.
func Reads(u qty.Unit, a, b Fact) bool {
	return same(a, b, func(x, y qty.Figure) bool { return x.Kind == y.Kind && u.Bare(x) == u.Bare(y) }, equal)
}

// Once leaves out what was said before.
func Once(u qty.Unit, list []Fact) []Fact {
	var out []Fact
	for _, s := range list {
		if !slices.ContainsFunc(out, func(f Fact) bool { return Reads(u, f, s) }) {
			out = append(out, s)
		}
	}
	return out
}

// Alike is whether two facts say the same but for their figures: one that
// changed, rather than one that went and one that came. Of what was Written only
// the words are known: its figures are their digits.
func Alike(a, b Fact) bool {
	return same(a, b, func(x, y qty.Figure) bool { return x.Kind == y.Kind }, func(x, y string) bool {
		return withoutFigures(x) == withoutFigures(y)
	})
}

func equal(x, y string) bool { return x == y }

func withoutFigures(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) || r == '.' || r == ',' {
			return -1
		}
		return r
	}, s)
}

// same compares two facts by their figures and by the words of what was Written.
func same(a, b Fact, figures func(x, y qty.Figure) bool, written func(x, y string) bool) bool {
	n := max(len(a.Args), len(b.Args)) // what is left off behind is not there either
	if a.Kind != b.Kind {
		return false
	}
	names := equal
	if a.Kind == Written {
		names = written
	}
	args := func(a, b Arg) bool {
		switch x := a.(type) {
		case figure:
			y, ok := b.(figure)
			return ok && figures(x.Figure, y.Figure)
		case name:
			y, ok := b.(name)
			return ok && names(string(x), string(y))
		case Fact:
			y, ok := b.(Fact)
			return ok && same(x, y, figures, written)
		case list:
			y, ok := b.(list)
			return ok && slices.EqualFunc(x, y, func(f, g Fact) bool { return same(f, g, figures, written) })
		}
		return a == nil && b == nil
	}
	for i := 1; i <= n; i++ {
		if !args(a.Nth(i), b.Nth(i)) {
			return false
		}
	}
	return true
}
