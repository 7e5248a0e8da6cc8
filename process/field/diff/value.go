package diff

import (
	"fmt"
	"math"
	"reflect"
	"strings"

	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// value is what a pointer of the field holds, as it is compared.
func value(f *field.Spec, p any) field.Value {
	switch {
	case f.Part != nil && !f.Part.Here():
		return field.None()
	case f.Make != nil:
		return said(f, f.Make())
	case f.Kind == field.Said:
		return said(f, *p.(*fact.Fact))
	}
	v := reflect.ValueOf(p).Elem()
	switch {
	case f.ZeroIsNone && v.IsZero(), f.Unset != nil && v.Interface() == f.Unset:
		return field.None()
	case f.Verbatim:
		return field.Value{Is: field.ValueText, Text: fmt.Sprint(v.Interface())}
	case f.Link:
		if v.Kind() == reflect.Pointer && v.IsNil() {
			return field.None()
		} else if v.Kind() != reflect.Pointer {
			v = v.Addr()
		}
		return v.Interface().(field.Compared).Compared()
	case f.Joined && v.Kind() == reflect.Slice:
		var all []string
		for _, x := range values(f) {
			all = append(all, x.Text)
		}
		return field.Value{Is: field.ValueText, Text: strings.Join(all, ", ")}
	case f.Kind == field.Text || f.Kind == field.Name || f.Kind == field.Choice:
		return field.Value{Is: field.ValueText, Text: fmt.Sprint(f.Figure(p))}
	case f.Kind == field.Flag:
		return yesOrNo(f, v.Bool())
	}
	k, known := kindOf(f)
	out := field.Value{Is: field.ValueFigure, Figure: k.Of(number(f, v))}
	if !known {
		out.Unit = f.Unit
	}
	return out
}

// said is what was made or worked out, as it is compared.
func said(f *field.Spec, x any) field.Value {
	switch x := x.(type) {
	case string:
		return field.TextOf(x)
	case qty.Quantity:
		return field.FigureOf(x)
	case fact.Fact:
		return field.FactOf(x, f.Sentence)
	}
	return field.None()
}

// number is a figure in its unit of record, lengths to the step that they are
// compared by.
func number(f *field.Spec, v reflect.Value) float64 {
	toStep := func(l qty.Length) float64 {
		if f.Step > 0 {
			l = (l + f.Step/2) / f.Step * f.Step
		}
		return l.MM()
	}
	switch n := v.Interface().(type) {
	case qty.Length:
		return toStep(n)
	case qty.Diameter:
		return n.MM()
	case qty.Temperature:
		return n.Celsius()
	case int:
		return float64(n)
	}
	x := v.Float()
	if f.Step > 0 {
		x = toStep(qty.FromMM(x))
	}
	if f.Times != 0 && f.As == qty.KindNumber { // the digits that a file states, not those of the factor
		x = math.Round(x/f.Times*1e9) / 1e9
	}
	return x
}

// kindOf is what kind of quantity the field holds; false for a number in a
// unit of its own.
func kindOf(f *field.Spec) (qty.Kind, bool) {
	if f.As != qty.KindNumber {
		return f.As, true
	}
	switch f.Kind {
	case field.Length:
		return qty.KindLength, true
	case field.Diameter:
		return qty.KindDiameter, true
	case field.Rough:
		return qty.KindRoughness, true
	case field.Speed:
		return qty.KindExactCuttingSpeed, true
	case field.Power:
		return qty.KindPower, true
	case field.Torque:
		return qty.KindTorque, true
	}
	return qty.KindIn(f.Unit)
}

// values are the elements of a list, or the two ends.
func values(f *field.Spec) (out []field.Value) {
	if f.Facts != nil {
		for _, x := range f.Facts() {
			out = append(out, field.FactOf(*x, f.Sentence))
		}
		return out
	}
	for _, p := range f.Each() {
		out = append(out, value(f, p))
	}
	return out
}

// yesOrNo is a flag in words.
func yesOrNo(f *field.Spec, yes bool) field.Value {
	words := f.YesNo
	if words[0] == "" {
		words = [2]string{"yes", "no"}
	}
	if yes {
		return field.TextOf(words[0])
	}
	return field.TextOf(words[1])
}

// alike is whether two values are sentences that differ in figures only: one
// that changed, rather than one that went and one that came.
func alike(v, w field.Value) bool {
	return v.Is == w.Is && fact.Alike(fact.AsWritten(v.Text), fact.AsWritten(w.Text)) && fact.Alike(v.Fact, w.Fact)
}
