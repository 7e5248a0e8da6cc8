package field

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"borewright/process/qty"
)

// Rank says how much a change of a figure can spoil: the smaller, the more. What
// the numbers mean is for the package that describes.
type Rank int

// face is how a figure is compared, and how it is written as JSON.
type face struct {
	rank     Rank
	label    string    // what it is called among differences; "": not compared by itself
	label2   string    // of the second of two
	yesNo    [2]string // of a flag
	zeroNone bool
	fine     bool
	perTurn  bool
	percent  bool
	joined   bool
	as       qty.Kind // of a Number, where its unit does not say it
	step     qty.Length
	rankBy   func() Rank
	apart    bool // compared by somebody else
	names    bool
	sentence bool
	verbatim bool // compared as a file has it
	last     bool
	noComma  bool
	clocks   *[]float64
	unset    any // the value that stands for a key left out, where it is not zero

	json      string // name where it is not the key
	decimals  int    // kept, plus one; 0: all
	atMost    float64
	omitEmpty bool
	micron    bool
	fileOnly  bool        // JSON does not have it
	when      func() bool // JSON has it only then
	known     func() bool // JSON has null but then
	make      func() any  // a value that is worked out when it is written
}

// Weighs says how a change of the figure is called and what it can spoil.
func (f *Field) Weighs(r Rank, label string) *Field { f.rank, f.label = r, label; return f }

// WeighEnds is Weighs for a list of two.
func (f *Field) WeighEnds(r Rank, first, second string) *Field {
	f.rank, f.label, f.label2 = r, first, second
	return f
}

// YesNo is how a flag reads among differences, where yes and no do not do.
func (f *Field) YesNo(yes, no string) *Field { f.yesNo = [2]string{yes, no}; return f }

// ZeroIsNone says that zero stands for a figure that is not stated.
func (f *Field) ZeroIsNone() *Field { f.zeroNone = true; return f }

// Fine prints a length with one decimal more.
func (f *Field) Fine() *Field { f.fine = true; return f }

// PerTurn prints a length as a feed a revolution.
func (f *Field) PerTurn() *Field { f.perTurn = true; return f }

// Percent prints a share of 1.
func (f *Field) Percent() *Field { f.percent = true; return f }

// Joined compares a list as one text.
func (f *Field) Joined() *Field { f.joined = true; return f }

// As is the kind of quantity that a Number is, as held.
func (f *Field) As(k qty.Kind) *Field { f.as = k; return f }

// RankBy weighs a figure, or all that stands in a table, by what else the struct
// holds; of old and new the worse counts.
func (f *Field) RankBy(rank func() Rank) *Field { f.rankBy = rank; return f }

// Step compares a length to the nearest step: below it a difference is the
// arithmetic's, not the work's.
func (f *Field) Step(l qty.Length) *Field { f.step = l; return f }

// Names says that the text of the field is what its list calls the element.
func (f *Field) Names() *Field { f.names = true; return f }

// Apart says that what stands in the table is compared by somebody else.
func (f *Field) Apart() *Field { f.apart = true; return f }

// Sentence says that a fact is said as a sentence.
func (f *Field) Sentence() *Field { f.sentence = true; return f }

// Last compares the field after the others of its table.
func (f *Field) Last() *Field { f.last = true; return f }

// NoComma leaves the comma out between the name of a table and those of its
// fields: "step 1 diameter".
func (f *Field) NoComma() *Field { f.noComma = true; return f }

// Clocked says that a list has a reading for each of these clock positions.
func (f *Field) Clocked(at *[]float64) *Field { f.clocks = at; return f }

// Verbatim compares all that is described so far as a file has it, each by the
// words of its key after under where it has no label.
func (d *Desc) Verbatim(r Rank, under string) {
	for _, f := range d.fields {
		if f.verbatim = true; f.label == "" {
			f.rank, f.label = r, under+strings.ReplaceAll(f.Key, "_", " ")
		}
	}
}

// Unset is the value that stands for a key that was left out, where zero is a
// value like any other.
func (f *Field) Unset(v any) *Field { f.unset = v; return f }

// JSON is the name in JSON documents, where it is not the key: SI, the unit in
// the name.
func (f *Field) JSON(name string) *Field { f.json = name; return f }

// Decimals rounds the figure in JSON. Without it every digit is written.
func (f *Field) Decimals(n int) *Field { f.decimals = n + 1; return f }

// AtMost is the largest figure that JSON gets: it knows no infinity.
func (f *Field) AtMost(x float64) *Field { f.atMost = x; return f }

// OmitEmpty leaves the name out where the value is zero, empty or not there.
func (f *Field) OmitEmpty() *Field { f.omitEmpty = true; return f }

// When leaves the name out of JSON unless there is says so.
func (f *Field) When(there func() bool) *Field { f.when = there; return f }

// NullUnless writes null unless there is says so.
func (f *Field) NullUnless(there func() bool) *Field { f.known = there; return f }

// NoJSON is a figure that documents do not have.
func (f *Field) NoJSON() *Field { f.fileOnly = true; return f }

// Microns writes a length in µm where others are in mm.
func (f *Field) Microns() *Field { f.micron = true; return f }

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
	f.open = func() *Desc { return open().keep(keys) }
	f.item = func(i int) *Desc { return item(i).keep(keys) }
	return f
}

func (d *Desc) keep(keys []string) *Desc {
	d.fields = slices.DeleteFunc(slices.Clone(d.fields), func(f *Field) bool { return !slices.Contains(keys, f.Key) })
	return d
}

// WeighsAll is Weighs for all that stands in a table.
func (f *Field) WeighsAll(r Rank, label string) *Field {
	return f.Weighs(r, label).RankBy(func() Rank { return r })
}

func (f *Field) name() string {
	if f.json != "" {
		return f.json
	}
	return f.Key
}

// figure is what a pointer holds, as JSON has it: a string, bool, int, float64
// in SI (lengths in mm, roughness in µm, forces in N, powers in W, torques in
// N·m, speeds in m/min and rev/min), or a list of these.
func (f *Field) figure(p any) any {
	switch p := p.(type) {
	case *string:
		return *p
	case *bool:
		if f.values != nil {
			return f.wordFor(*p)
		}
		return *p
	case *int:
		return *p
	case *float64:
		switch { // a length that is held in mm is written by whole nanometres
		case f.micron:
			return f.round(qty.FromMM(*p).Microns())
		case f.Kind == Length:
			return f.round(qty.FromMM(*p).MM())
		}
		return f.round(*p)
	case *qty.Length:
		if f.Kind == Rough || f.micron {
			return f.round(p.Microns())
		}
		return f.round(p.MM())
	case *qty.Diameter:
		return f.round(p.MM())
	case [2]any:
		return []any{f.figure(p[0]), f.figure(p[1])}
	}
	v := reflect.ValueOf(p).Elem()
	switch {
	case v.Kind() == reflect.Slice, v.Kind() == reflect.Array:
		all := make([]any, v.Len())
		for i := range all {
			all[i] = f.figure(v.Index(i).Addr().Interface())
		}
		return all
	case f.values != nil:
		return f.wordFor(v.Interface())
	case v.Kind() == reflect.Float64:
		return f.round(v.Float())
	}
	return fmt.Sprint(v.Interface())
}

func (f *Field) wordFor(v any) any {
	for i, x := range f.values {
		if x == v {
			return f.words[i]
		}
	}
	return fmt.Sprint(v)
}

func (f *Field) round(x float64) float64 {
	if f.atMost > 0 {
		x = min(x, f.atMost)
	}
	if f.decimals == 0 {
		return x
	}
	s := math.Pow10(f.decimals - 1)
	return math.Round(x*s)/s + 0 // no -0
}

// fromSI turns a number of a JSON document into what put takes.
func (f *Field) fromSI(x float64) any {
	if f.micron {
		x /= 1000
	}
	switch f.Kind {
	case Count:
		return int(x)
	case Length, Diameter:
		return qty.FromMM(x)
	case Rough:
		return qty.FromMM(x / 1000)
	case Speed:
		return qty.CuttingSpeed(x)
	case Power:
		return qty.Power(x)
	case Torque:
		return qty.Torque(x)
	}
	return x
}
