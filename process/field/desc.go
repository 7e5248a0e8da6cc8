package field

import (
	"fmt"
	"reflect"

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
	marked []mark   // described or excused, for the test by reflection
	only   []string // keys that are taken; nil: all
	maybe  *maybe   // the part that the fields belong to
}

// maybe is a part of a struct that is only there when one of its keys is given.
type maybe struct {
	here   func() bool
	create func()
}

type mark struct {
	p   any
	why string
}

// Of is the description of x, bound to its fields.
func Of(x Described) []*Field {
	d := &Desc{}
	x.Describe(d)
	return d.fields
}

func (d *Desc) add(kind Kind, p any, key string) *Field {
	f := &Field{Key: key, Kind: kind, to: p, least: one, maybe: d.maybe}
	if p != nil {
		d.marked = append(d.marked, mark{p: p})
	}
	if d.only == nil || contains(d.only, key) {
		d.fields = append(d.fields, f)
	}
	return f
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// Only describes with the keys named alone: a file or document that knows part
// of what another one does. What is named is written, NoJSON or not.
func (d *Desc) Only(keys []string, of Described) {
	part := &Desc{only: keys, maybe: d.maybe}
	of.Describe(part)
	for _, f := range part.fields {
		f.fileOnly = f.fileOnly && keys == nil
	}
	d.fields, d.marked = append(d.fields, part.fields...), append(d.marked, part.marked...)
}

// Find is the field of a key described so far; it panics where there is none.
func (d *Desc) Find(key string) *Field {
	for _, f := range d.fields {
		if f.Key == key {
			return f
		}
	}
	panic("field: nothing is described as " + key) // our own bug: every Describe runs in tests
}

// Worked names fields that no key stands for, because they are worked out of
// others. The reason is for the reader of the code.
func (d *Desc) Worked(why string, fields ...any) {
	for _, p := range fields {
		d.marked = append(d.marked, mark{p, why})
	}
}

// Into holds a field that Only took over in another place.
func (d *Desc) Into(key string, p any) {
	d.Find(key).to = p
	d.marked = append(d.marked, mark{p: p})
}

// Text is a text of up to 200 characters.
func (d *Desc) Text(p *string, key string) *Field { return d.add(Text, p, key) }

// Name is a text of up to 60 characters.
func (d *Desc) Name(p *string, key string) *Field { return d.add(Name, p, key) }

// Texts is a list of texts, least to most of them.
func (d *Desc) Texts(p *[]string, key string, least, most int) *Field {
	return d.add(Text, p, key).list(least, most)
}

// Choice is one of a few words.
func (d *Desc) Choice(p *string, key string, words ...string) *Field {
	f := d.add(Choice, p, key)
	f.words = words
	return f
}

// Word is one of a few words, each of which stands for a value of its own: the
// value whose String is the word.
func Word[T interface {
	comparable
	fmt.Stringer
}](d *Desc, p *T, key string, values ...T) *Field {
	f := d.add(Choice, p, key)
	f.words, f.values = wordsOf(values), valuesOf(values)
	return f
}

// Words is a list of such words.
func Words[T fmt.Stringer](d *Desc, p *[]T, key string, least, most int, values ...T) *Field {
	f := d.add(Choice, p, key).list(least, most)
	f.words, f.values = wordsOf(values), valuesOf(values)
	return f
}

func wordsOf[T fmt.Stringer](values []T) (out []string) {
	for _, v := range values {
		out = append(out, v.String())
	}
	return out
}

func valuesOf[T any](values []T) (out []any) {
	for _, v := range values {
		out = append(out, v)
	}
	return out
}

// Either is a flag that files say in one of two words.
func (d *Desc) Either(p *bool, key, not, yes string) *Field {
	f := d.add(Choice, p, key)
	f.words, f.values = []string{not, yes}, []any{false, true}
	return f
}

// Flag is true or false.
func (d *Desc) Flag(p *bool, key string) *Field { return d.add(Flag, p, key) }

// Count is a whole number.
func (d *Desc) Count(p *int, key string) *Field { return d.add(Count, p, key) }

// Number is a plain number in the unit named ("" for none).
func (d *Desc) Number(p *float64, key, unit string) *Field {
	return d.add(Number, p, key).in(unit)
}

// Numbers is a list of plain numbers.
func (d *Desc) Numbers(p *[]float64, key, unit string, least, most int) *Field {
	return d.add(Number, p, key).in(unit).list(least, most)
}

// NumberPair is a list of two plain numbers, as a least and a most.
func (d *Desc) NumberPair(p *[2]float64, key, unit string) *Field {
	return d.add(Number, p, key).in(unit).list(2, 2)
}

// NumberEnds is the same into two fields.
func (d *Desc) NumberEnds(p, q *float64, key, unit string) *Field {
	return d.ends(Number, p, q, key).in(unit)
}

func (d *Desc) ends(kind Kind, p, q any, key string) *Field {
	f := d.add(kind, nil, key).list(2, 2)
	f.to = [2]any{p, q}
	d.marked = append(d.marked, mark{p: p}, mark{p: q})
	return f
}

// Force is a force in newtons. Files state it as a plain number in kN.
func (d *Desc) Force(p *qty.Force, key string) *Field {
	return d.add(Number, p, key).in("kN").Times(1000).As(qty.KindForce)
}

// Turns is a spindle speed in rev/min.
func (d *Desc) Turns(p *qty.RevPerMin, key string) *Field {
	return d.add(Number, p, key).in("rev/min")
}

// Length is a length in in or mm.
func (d *Desc) Length(p *qty.Length, key string) *Field { return d.add(Length, p, key) }

// Lengths is a list of lengths.
func (d *Desc) Lengths(p *[]qty.Length, key string, least, most int) *Field {
	return d.add(Length, p, key).list(least, most)
}

// LengthPair is a list of two lengths.
func (d *Desc) LengthPair(p *[2]qty.Length, key string) *Field {
	return d.add(Length, p, key).list(2, 2)
}

// LengthEnds is the same into two fields.
func (d *Desc) LengthEnds(p, q *qty.Length, key string) *Field { return d.ends(Length, p, q, key) }

// MM is a length that is held as a number of mm.
func (d *Desc) MM(p *float64, key string) *Field { return d.add(Length, p, key) }

// LengthsMM is a list of lengths that are held as numbers of mm.
func (d *Desc) LengthsMM(p *[]float64, key string, least, most int) *Field {
	return d.add(Length, p, key).list(least, most)
}

// LengthEndsMM is a least and a most length that are held as numbers of mm.
func (d *Desc) LengthEndsMM(p, q *float64, key string) *Field { return d.ends(Length, p, q, key) }

// Diameter is a diameter in in or mm.
func (d *Desc) Diameter(p *qty.Diameter, key string) *Field { return d.add(Diameter, p, key) }

// Diameters is a list of diameters.
func (d *Desc) Diameters(p *[]qty.Diameter, key string, least, most int) *Field {
	return d.add(Diameter, p, key).list(least, most)
}

// DiameterPair is a list of two diameters.
func (d *Desc) DiameterPair(p *[2]qty.Diameter, key string) *Field {
	return d.add(Diameter, p, key).list(2, 2)
}

// Rough is a roughness in µin or µm.
func (d *Desc) Rough(p *qty.Length, key string) *Field { return d.add(Rough, p, key) }

// RoughPair is a list of two of them.
func (d *Desc) RoughPair(p *[2]qty.Length, key string) *Field {
	return d.add(Rough, p, key).list(2, 2)
}

// Speed is a cutting speed in ft/min or m/min.
func (d *Desc) Speed(p *qty.CuttingSpeed, key string) *Field { return d.add(Speed, p, key) }

// SpeedPair is a list of two of them.
func (d *Desc) SpeedPair(p *[2]qty.CuttingSpeed, key string) *Field {
	return d.add(Speed, p, key).list(2, 2)
}

// Power is a power in hp or kW.
func (d *Desc) Power(p *qty.Power, key string) *Field { return d.add(Power, p, key) }

// Torque is a torque in ft·lb or N·m.
func (d *Desc) Torque(p *qty.Torque, key string) *Field { return d.add(Torque, p, key) }

// Link is a text that names something else: a file, something built in, an
// entry of another list. The reader notes it and leaves the finding to the
// caller (Reader.Links), who puts what it found where p points.
func (d *Desc) Link(p any, key string) *Field {
	f := d.add(Text, p, key)
	f.link = true
	return f
}

// LinkName is a Link by a text of up to 60 characters.
func (d *Desc) LinkName(p any, key string) *Field {
	f := d.add(Name, p, key)
	f.link = true
	return f
}

// Units is the key that says what bare lengths of the file are in. p may be
// nil where the file's units do not outlive its reading.
func (d *Desc) Units(p *qty.Unit, key string) *Field {
	lasts := p != nil
	if !lasts {
		p = new(qty.Unit)
	}
	f := Word(d, p, key, qty.Inches, qty.Metric)
	f.fileOnly = !lasts
	return f
}

// Sources is a table of remarks on where figures come from: all, or by key.
func (d *Desc) Sources(p *map[string]string, key string) *Field { return d.add(Sources, p, key) }

// Remarks is the same, held as one text: the remark for all, then key by key.
func (d *Desc) Remarks(p *string, key string) *Field { return d.add(Sources, p, key) }

// Figure is a number of any kind of quantity, in its unit of record.
func (d *Desc) Figure(p *float64, k qty.Kind, key string) *Field { return Quantity(d, p, k, key) }

// Quantity is Figure for a type of its own: a force, a torque.
func Quantity[T ~float64](d *Desc, p *T, k qty.Kind, key string) *Field {
	f := d.add(Number, p, key).in(k.Base())
	f.as = k
	return f
}

// Newtons is a force that documents have in newtons.
func (d *Desc) Newtons(p *qty.Force, key string) *Field { return d.add(Number, p, key).in("N") }

// Fact is a fact; the writer is handed what puts it in words. It is read back
// as what was written.
func (d *Desc) Fact(p *fact.Fact, key string) *Field { return d.add(Said, p, key) }

// Facts is a list of facts.
func (d *Desc) Facts(p *[]fact.Fact, key string) *Field {
	return Strings(d, p, key, func(f *fact.Fact) *fact.Fact { return f })
}

// Is is a value that is worked out when it is written: a string, bool, int,
// float64 in SI, or []any of these. It is not read back.
func (d *Desc) Is(key string, make func() any) *Field {
	f := d.add(Said, nil, key)
	f.make = make
	return f
}

// Table is a struct inside this one under a key of its own.
func (d *Desc) Table(v Described, key string) *Field {
	f := d.add(Table, v, key)
	f.open = func() *Desc { return describe(v) }
	return f
}

// Group is a table of the file whose keys are fields of this struct.
func (d *Desc) Group(key string, inside func(d *Desc)) *Field {
	sub := &Desc{maybe: d.maybe}
	inside(sub)
	d.marked = append(d.marked, sub.marked...)
	f := d.add(Table, nil, key)
	f.open = func() *Desc { return sub }
	return f
}

func describe(v Described) *Desc {
	d := &Desc{}
	v.Describe(d)
	return d
}

// pointer is a *T that is Described.
type pointer[T any] interface {
	*T
	Described
}

// Maybe is a table that may be left out: p stays nil then.
func Maybe[T any, P pointer[T]](d *Desc, p **T, key string) *Field {
	f := d.add(Table, p, key)
	f.open = func() *Desc {
		if *p == nil {
			return describe(P(new(T)))
		}
		return describe(P(*p))
	}
	f.create = func() { *p = new(T) }
	f.here = func() bool { return *p != nil }
	return f
}

// Part describes fields of a struct that is only there when one of its keys is
// given, with keys in this table.
func Part[T any](d *Desc, p **T, inside func(t *T)) {
	t := *p
	if t == nil {
		t = new(T)
	}
	was := d.maybe
	d.maybe = &maybe{here: func() bool { return *p != nil }, create: func() { *p = t }}
	inside(t)
	d.maybe = was
	d.marked = append(d.marked, mark{p: p})
}

// InMap is a table that becomes an entry of a map.
func InMap[T any, P pointer[T]](d *Desc, m *map[string]T, name, key string) *Field {
	f := d.add(Table, m, key)
	var t T
	f.open = func() *Desc {
		if x, ok := (*m)[name]; ok {
			t = x
		}
		return describe(P(&t))
	}
	f.here = func() bool { _, ok := (*m)[name]; return ok }
	f.close = func() {
		if *m == nil {
			*m = map[string]T{}
		}
		(*m)[name] = t
	}
	return f
}

// Rows is a list of tables that are gathered from other fields: rows gives what
// is written, and make, which may be nil, makes room for n that are read back.
func Rows[T any, P pointer[T]](d *Desc, key string, rows func() []P, make func(n int) []P) *Field {
	f := d.add(Table, nil, key).list(0, Any)
	var all []P
	f.open = func() *Desc { return describe(P(new(T))) }
	f.size = func(n int) {
		if make != nil {
			all = make(n)
		}
	}
	f.gather = func() int { all = rows(); return len(all) }
	f.item = func(i int) *Desc {
		if i >= len(all) {
			return describe(P(new(T)))
		}
		return describe(all[i])
	}
	return f
}

// Strings is a list of structs of which documents have one fact each.
func Strings[T any](d *Desc, p *[]T, key string, of func(*T) *fact.Fact) *Field {
	f := d.add(Said, p, key).list(0, Any)
	f.facts = func() (all []*fact.Fact) {
		for i := range *p {
			all = append(all, of(&(*p)[i]))
		}
		return all
	}
	f.size = func(n int) { *p = make([]T, n) }
	return f
}

// Also describes all of another struct in this table.
func (d *Desc) Also(of Described) { d.Only(d.only, of) }

// List is a list of tables, least to most of them.
func List[T any, P pointer[T]](d *Desc, p *[]T, key string, least, most int) *Field {
	f := d.add(Table, p, key).list(least, most)
	f.open = func() *Desc { return describe(P(new(T))) }
	f.size = func(n int) { *p = make([]T, n) }
	f.item = func(i int) *Desc { return describe(P(&(*p)[i])) }
	return f
}

// ListBy is a list of structs of a package that knows no descriptions: inside
// describes one.
func ListBy[T any](d *Desc, p *[]T, key string, inside func(d *Desc, t *T)) *Field {
	of := func(t *T) *Desc {
		sub := &Desc{}
		inside(sub, t)
		return sub
	}
	f := d.add(Table, p, key).list(0, Any)
	f.open = func() *Desc { return of(new(T)) }
	f.size = func(n int) { *p = make([]T, n) }
	f.item = func(i int) *Desc { return of(&(*p)[i]) }
	return f
}

// Any is the most elements of a list without a bound, as in documents.
const Any = 1 << 30

// Undescribed lists the fields of a struct, and of the structs inside it, that
// its description neither names nor excuses: "Station.Relief".
func Undescribed(x Described) []string {
	marked := map[uintptr]map[reflect.Type]bool{}
	var mark func(p any)
	mark = func(p any) {
		if ends, two := p.([2]any); two {
			mark(ends[0])
			mark(ends[1])
			return
		}
		v := reflect.ValueOf(p)
		if marked[v.Pointer()] == nil {
			marked[v.Pointer()] = map[reflect.Type]bool{}
		}
		marked[v.Pointer()][v.Type().Elem()] = true
	}
	for _, m := range describe(x).marked {
		mark(m.p)
	}
	var out []string
	var walk func(v reflect.Value, name string)
	walk = func(v reflect.Value, name string) {
		for i := range v.NumField() {
			f, of := v.Field(i), name+"."+v.Type().Field(i).Name
			switch at := v.Type().Field(i).PkgPath; {
			case at != "" && at != reflect.TypeOf(x).Elem().PkgPath(): // inside another package
			case marked[f.Addr().Pointer()][f.Type()]:
			case f.Kind() == reflect.Struct:
				walk(f, of)
			case f.Kind() == reflect.Array:
				for j := range f.Len() {
					if e := f.Index(j); !marked[e.Addr().Pointer()][e.Type()] {
						out = append(out, fmt.Sprintf("%s[%d]", of, j))
					}
				}
			default:
				out = append(out, of)
			}
		}
	}
	v := reflect.ValueOf(x).Elem()
	walk(v, v.Type().Name())
	return out
}
