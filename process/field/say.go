package field

import (
	"slices"
	"strings"

	"borewright/process/qty"
)

func (f *Field) list(least, most int) *Field { f.Least, f.Most = least, most; return f }
func (f *Field) in(unit string) *Field       { f.Unit = unit; return f }

// As files have it.

// Need says that the key must be given.
func (f *Field) Need() *Field { f.Spec.Need = true; return f }

// Unless names keys at the top of the file, any of which makes up for a key that is needed: the
// loader works it out from there.
func (f *Field) Unless(keys ...string) *Field { f.Spec.Unless = keys; return f }

// Default is what is taken when the key is left out, as it would be written;
// "inch|metric" where they differ. "{}" for a table: it is read as if empty.
func (f *Field) Default(s string) *Field { f.Spec.Default = s; return f }

// Otherwise says in words what is taken when the key is left out, where the
// loader works it out.
func (f *Field) Otherwise(s string) *Field { f.Spec.Otherwise = s; return f }

// Span is the range allowed, "inch|metric" where they differ; a leading >
// leaves the end out. It keeps slips of unit and decimal point out.
func (f *Field) Span(s string) *Field { f.Spec.Span = s; return f }

// Example is a value as it would be written, "inch|metric" where they differ.
func (f *Field) Example(s string) *Field { f.Spec.Example = s; return f }

// Says is what the key is, in words. What stands before the first ; is a
// remark of its own.
func (f *Field) Says(s string) *Field { f.Text = s; return f }

// Times is what is held over what is written in a file: 1000 for kN held in N.
func (f *Field) Times(x float64) *Field { f.Spec.Times = x; return f }

// Rising says that of two figures the second is no less than the first.
func (f *Field) Rising() *Field { f.Spec.Rising = true; return f }

// Per is what a length is for, "min" of a rate or "rev" of a feed: its unit in a
// file is "in/min", and a text may say it either way.
func (f *Field) Per(what string) *Field { f.Spec.Per = what; return f }

// Beyond is what to say besides where a figure lies outside of its range.
func (f *Field) Beyond(s string) *Field { f.Spec.Beyond = s; return f }

// ListAs says that a list written under this key is read as the list under another
// key of the same table.
func (f *Field) ListAs(key string) *Field { f.Spec.Lists = key; return f }

// Clock says that the numbers are clock positions: 360 is held as 0.
func (f *Field) Clock() *Field { f.Spec.Clock = true; return f }

// As it is compared.

// Weighs says how a change of the figure is called and what it can spoil.
func (f *Field) Weighs(r Rank, label string) *Field { f.Rank, f.Label = r, label; return f }

// WeighEnds is Weighs for a list of two.
func (f *Field) WeighEnds(r Rank, first, second string) *Field {
	f.Label2 = second
	return f.Weighs(r, first)
}

// WeighsAll is Weighs for all that stands in a table.
func (f *Field) WeighsAll(r Rank, label string) *Field {
	return f.Weighs(r, label).RankBy(func() Rank { return r })
}

// RankBy weighs a figure, or all that stands in a table, by what else the struct
// holds; of old and new the worse counts.
func (f *Field) RankBy(rank func() Rank) *Field { f.Spec.RankBy = rank; return f }

// YesNo is how a flag reads among differences, where yes and no do not do.
func (f *Field) YesNo(yes, no string) *Field { f.Spec.YesNo = [2]string{yes, no}; return f }

// As is the kind of quantity that a figure is, as held, where it is not the usual
// one of what it is described as.
func (f *Field) As(k qty.Kind) *Field { f.Spec.As = k; return f }

// Fine prints a length with one decimal more.
func (f *Field) Fine() *Field { return f.As(qty.KindFine) }

// PerTurn is a feed a revolution.
func (f *Field) PerTurn() *Field { return f.As(qty.KindFeed).Per("rev") }

// Step compares a length to the nearest step: below it a difference is the
// arithmetic's, not the work's.
func (f *Field) Step(l qty.Length) *Field { f.Spec.Step = l; return f }

// Clocked says that a list has a reading for each of these clock positions.
func (f *Field) Clocked(at *[]float64) *Field { f.Clocks = at; return f }

// Unset is the value that stands for a key that was left out, where zero is a
// value like any other.
func (f *Field) Unset(v any) *Field { f.Spec.Unset = v; return f }

// ZeroIsNone says that zero stands for a figure that is not stated.
func (f *Field) ZeroIsNone() *Field { f.Spec.ZeroIsNone = true; return f }

// Joined compares a list as one text.
func (f *Field) Joined() *Field { f.Spec.Joined = true; return f }

// Apart says that what stands in the table is compared by somebody else.
func (f *Field) Apart() *Field { f.Spec.Apart = true; return f }

// Names says that the text of the field is what its list calls the element.
func (f *Field) Names() *Field { f.Spec.Names = true; return f }

// Sentence says that a fact is said as a sentence.
func (f *Field) Sentence() *Field { f.Spec.Sentence = true; return f }

// Last compares the field after the others of its table.
func (f *Field) Last() *Field { f.Spec.Last = true; return f }

// NoComma leaves the comma out between the name of a table and those of its
// fields: "step 1 diameter".
func (f *Field) NoComma() *Field { f.Spec.NoComma = true; return f }

// Verbatim compares all that is described so far as a file has it, each by the
// words of its key after under where it has no label.
func (d *Desc) Verbatim(r Rank, under string) {
	for _, f := range d.fields {
		if f.Verbatim = true; f.Label == "" {
			f.Weighs(r, under+strings.ReplaceAll(f.Key, "_", " "))
		}
	}
}

// As documents have it.

// JSON is the name in JSON documents, where it is not the key: SI, the unit in
// the name.
func (f *Field) JSON(name string) *Field { f.Spec.JSON = name; return f }

// Decimals rounds the figure in JSON. Without it every digit is written.
func (f *Field) Decimals(n int) *Field { f.Spec.Decimals = n + 1; return f }

// AtMost is the largest figure that JSON gets: it knows no infinity.
func (f *Field) AtMost(x float64) *Field { f.Spec.AtMost = x; return f }

// OmitEmpty leaves the name out where the value is zero, empty or not there.
func (f *Field) OmitEmpty() *Field { f.Spec.OmitEmpty = true; return f }

// When leaves the name out of JSON unless there is says so.
func (f *Field) When(there func() bool) *Field { f.Spec.When = there; return f }

// NullUnless writes null unless there is says so.
func (f *Field) NullUnless(there func() bool) *Field { f.Spec.NullUnless = there; return f }

// NoJSON is a figure that documents do not have.
func (f *Field) NoJSON() *Field { f.Spec.NoJSON = true; return f }

// Microns writes a length in µm where others are in mm.
func (f *Field) Microns() *Field { f.Spec.Microns = true; return f }

// With says more of what stands inside a table.
func (f *Field) With(more func(d *Desc)) *Field {
	open := f.open
	f.open = func() *Desc {
		d := open()
		more(d)
		return d
	}
	return f
}

// Only keeps the keys named of a table, or of the tables of a list.
func (f *Field) Only(keys ...string) *Field {
	open, item := f.open, f.item
	keep := func(d *Desc) *Desc {
		d.fields = slices.DeleteFunc(d.fields, func(f *Field) bool { return !slices.Contains(keys, f.Key) })
		return d
	}
	f.open = func() *Desc { return keep(open()) }
	f.item = func(i int) *Desc { return keep(item(i)) }
	return f
}
