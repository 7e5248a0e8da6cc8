package field

import (
	"math"

	"borewright/process/fact"
	"borewright/process/qty"
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
