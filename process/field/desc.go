package field

import (
	"fmt"

	"borewright/process/fact"
	"borewright/process/qty"
)

// Only describes with the keys named alone: a file or document that knows part
// of what another one does. What is named is written, NoJSON or not.
func (d *Desc) Only(keys []string, of Described) {
	part := &Desc{only: keys, part: d.part}
	of.Describe(part)
	for _, f := range part.fields {
		f.Spec.NoJSON = f.Spec.NoJSON && keys == nil
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
	d.marked = append(d.marked, fields...)
}

// Into holds a field that Only took over in another place.
func (d *Desc) Into(key string, p any) {
	d.Find(key).To = p
	d.marked = append(d.marked, p)
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
	f.Words = words
	return f
}

// Word is one of a few words, each of which stands for a value of its own: the
// value whose String is the word.
func Word[T interface {
	comparable
	fmt.Stringer
}](d *Desc, p *T, key string, values ...T) *Field {
	f := d.add(Choice, p, key)
	f.Words, f.Values = wordsOf(values), valuesOf(values)
	return f
}

// Words is a list of such words.
func Words[T fmt.Stringer](d *Desc, p *[]T, key string, least, most int, values ...T) *Field {
	f := d.add(Choice, p, key).list(least, most)
	f.Words, f.Values = wordsOf(values), valuesOf(values)
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
	f.Words, f.Values = []string{not, yes}, []any{false, true}
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
	f.To = [2]any{p, q}
	d.marked = append(d.marked, p, q)
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

// Temperature is a temperature in °F or °C; documents have it in °C.
func (d *Desc) Temperature(p *qty.Temperature, key string) *Field {
	return d.add(Temperature, p, key).As(qty.KindRead)
}

// Link is a text that names something else: a file, something built in, an
// entry of another list. The reader notes it and leaves the finding to the
// caller (Reader.Links), who puts what it found where p points.
func (d *Desc) Link(p any, key string) *Field {
	f := d.add(Text, p, key)
	f.Spec.Link = true
	return f
}

// LinkName is a Link by a text of up to 60 characters.
func (d *Desc) LinkName(p any, key string) *Field {
	f := d.add(Name, p, key)
	f.Spec.Link = true
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
	f.Spec.NoJSON = !lasts
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
	f.Spec.As = k
	return f
}

// Newtons is a force that documents have in newtons.
func (d *Desc) Newtons(p *qty.Force, key string) *Field { return d.add(Number, p, key).in("N") }

// Fact is a fact; the writer is handed what puts it in words. It is read back
// as what was written.
func (d *Desc) Fact(p *fact.Fact, key string) *Field { return d.add(Said, p, key) }

// Is is a value that is worked out when it is written: a string, bool, int,
// float64 in SI, or []any of these. It is not read back.
func (d *Desc) Is(key string, make func() any) *Field {
	f := d.add(Said, nil, key)
	f.Make = make
	return f
}

// Itself is the label of a field that is called as the table that it stands in.
const Itself = "."
