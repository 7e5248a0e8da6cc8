package field

import (
	"reflect"
	"slices"

	"borewright/process/fact"
	"borewright/process/qty"
)

// Described is a struct, by pointer, that says what its fields are. Describe
// names each of them once, under the struct's declaration, by its address:
//
//	func (s *Station) Describe(d *field.Desc) {
//		d.Length(&s.From, "from").Need().Span("0..400|0..10000").
//			Example("14.5|368").Says("depth at which it begins, from the face").
//			Weighs(SpoilsReach, "from")
//	}
//
// It is called on a value to read it, compare it or write it, and on a blank
// one to learn which keys there are; so it may not look at the values.
type Described interface{ Describe(d *Desc) }

// Desc gathers what a Describe method says.
type Desc struct {
	fields []*Field
	marked []any     // described or excused, for the test by reflection
	only   []string  // keys that are taken; nil: all
	part   *Optional // the part that the fields belong to
}

// Of is the description of x, bound to its fields.
func Of(x Described) []*Spec { return describe(x).specs() }

func describe(x Described) *Desc {
	d := &Desc{}
	x.Describe(d)
	return d
}

func (d *Desc) specs() []*Spec {
	all := make([]*Spec, len(d.fields))
	for i, f := range d.fields {
		all[i] = &f.Spec
	}
	return all
}

func (d *Desc) add(kind Kind, p any, key string) *Field {
	f := &Field{Spec{Key: key, Kind: kind, To: p, Least: Single, Part: d.part}}
	if p != nil {
		d.marked = append(d.marked, p)
	}
	if d.only == nil || slices.Contains(d.only, key) {
		d.fields = append(d.fields, f)
	}
	return f
}

// Field is a figure as its description says it, one word after another. What is
// said is for the walkers to read, as Spec.
type Field struct{ Spec }

// Kind is what a value may be.
type Kind int

// The kinds.
const (
	Text        Kind = iota // to 200 characters
	Name                    // to 60 characters
	Choice                  // one of a few words
	Flag                    // true or false
	Number                  // a plain number, its unit in the description
	Count                   // a whole number
	Length                  // in or mm
	Diameter                // in or mm
	Rough                   // µin or µm
	Speed                   // ft/min or m/min
	Power                   // hp or kW
	Torque                  // ft·lb or N·m
	Temperature             // °F or °C
	Table                   // keys of its own
	Sources                 // a table of remarks: figure = where it comes from
	Said                    // what is made or worked out when it is written
)

// Rank says how much a change of a figure can spoil: the smaller, the more. What
// the numbers mean is for the package that describes.
type Rank int

// Single is the Least of a field that is no list.
const Single = -1

// Spec is what was said of one figure. The methods of Field say it and document
// it, method by method; the walkers go by it.
type Spec struct {
	Key  string // name in its table
	Kind Kind
	To   any       // pointer to where the value is held, or [2]any of two
	Part *Optional // the part of a struct that it belongs to; nil: it is always there

	// As files have it.
	Least, Most        int // elements of a list; Least is below 0 where it is none
	Unit               string
	Times              float64 // what is held over what is written; 0: the same
	Need, Link, Clock  bool
	Unless             []string // keys of the file, any of which makes up for one that is needed
	Rising             bool     // of a list of two: the second is no less than the first
	Per                string   // of a length: in how much time or how many turns, "min" or "rev"
	Default, Otherwise string
	Span, Example      string
	Words              []string // of a Choice
	Values             []any    // what the words stand for, where it is not the words
	Text               string
	Beyond             string // what to say besides of a figure out of range
	Lists              string // the key beside it that a list written here is read as

	// As it is compared.
	Rank          Rank
	RankBy        func() Rank
	Label, Label2 string    // what it is called among differences, the second of two; "": not compared by itself
	YesNo         [2]string // of a flag
	As            qty.Kind  // the kind of quantity, where Kind and Unit do not say it
	Step          qty.Length
	Clocks        *[]float64
	Unset         any // the value that stands for a key left out, where it is not zero
	ZeroIsNone    bool
	Joined        bool
	Apart         bool // compared by somebody else
	Names         bool
	Sentence      bool
	Verbatim      bool // compared as a file has it
	Last, NoComma bool

	// As documents have it.
	JSON             string // name where it is not the key
	Decimals         int    // kept, plus one; 0: all
	AtMost           float64
	OmitEmpty        bool
	Microns, NoJSON  bool
	When, NullUnless func() bool
	Make             func() any // a value that is worked out when it is written

	// Tables and lists of facts.
	Create func()      // make what is not there
	Close  func()      // what was read is complete
	Size   func(n int) // list: make n
	Facts  func() []*fact.Fact

	here   func() bool
	open   func() *Desc      // what is inside, bound to what is there or to a blank
	item   func(i int) *Desc // list: what is inside element i
	gather func() int        // list of Rows: put it together, and how many there are
}

// Optional is a part of a struct that is only there when one of its keys is given.
type Optional struct {
	Here   func() bool
	Create func()
}

// Many is whether the field is a list.
func (f *Spec) Many() bool { return f.Least != Single }

// There is whether a table, or the part that the field belongs to, is there.
func (f *Spec) There() bool {
	return (f.here == nil || f.here()) && (f.Part == nil || f.Part.Here())
}

// IsTable is whether keys of its own stand inside.
func (f *Spec) IsTable() bool { return f.open != nil }

// Inside is what stands inside a table, or inside a blank element of a list.
func (f *Spec) Inside() []*Spec { return f.open().specs() }

// Element is what stands inside element i of a list of tables, inside a blank one
// beyond its end.
func (f *Spec) Element(i int) []*Spec { return f.item(i).specs() }

// Len is the number of elements of a list of tables.
func (f *Spec) Len() int {
	if f.gather != nil {
		return f.gather()
	}
	return reflect.ValueOf(f.To).Elem().Len()
}

// Empty is whether the value is zero, empty or not there.
func (f *Spec) Empty() bool {
	switch {
	case !f.There():
		return true
	case f.here != nil:
		return false
	case f.gather != nil:
		return f.gather() == 0
	case f.Make != nil:
		return blank(reflect.ValueOf(f.Make()))
	case f.To == nil:
		return false
	}
	if ends, two := f.To.([2]any); two {
		return blank(reflect.ValueOf(ends[0]).Elem()) && blank(reflect.ValueOf(ends[1]).Elem())
	}
	return blank(reflect.ValueOf(f.To).Elem())
}

func blank(v reflect.Value) bool {
	return !v.IsValid() || v.IsZero() || (v.Kind() == reflect.Slice || v.Kind() == reflect.Map) && v.Len() == 0
}
