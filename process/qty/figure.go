package qty

import (
	"strconv"
	"strings"
)

// Figure is a number with the kind of quantity that it is: what a sentence or a
// table cell prints. Value is in the unit of record of the kind (Kind.Base), so
// that a figure holds the same number whatever system it is read in. All
// lengths are in millimetres, and exact to the nanometre up to 1000 km.
type Figure struct {
	Kind  Kind
	Value float64
}

// Quantity is whatever prints as a figure: a Figure, or one of the types that
// have a kind of their own (Length, Diameter, Force, Power, Torque,
// CuttingSpeed, RevPerMin).
type Quantity interface{ Figure() Figure }

// Figure is itself.
func (f Figure) Figure() Figure { return f }

// Figure is a length to the usual decimals.
func (l Length) Figure() Figure { return Figure{KindLength, l.MM()} }

// Figure is a diameter.
func (d Diameter) Figure() Figure { return Figure{KindDiameter, d.MM()} }

// Figure is a force to the whole newton or pound.
func (f Force) Figure() Figure { return Figure{KindForce, float64(f)} }

// Figure is a power to two decimals.
func (p Power) Figure() Figure { return Figure{KindPower, float64(p)} }

// Figure is the temperature as it was read, in °C.
func (t Temperature) Figure() Figure { return Figure{KindRead, t.Celsius()} }

// Figure is a torque to the whole unit.
func (t Torque) Figure() Figure { return Figure{KindTorque, float64(t)} }

// Figure is a cutting speed to the whole unit.
func (v CuttingSpeed) Figure() Figure { return Figure{KindCuttingSpeed, float64(v)} }

// Figure is a spindle speed as it stands on a machine's plate.
func (n RevPerMin) Figure() Figure { return Figure{KindSpindleSpeed, float64(n)} }

// Fine is a length with one decimal more than usual: spring, form.
func Fine(l Length) Figure { return Figure{KindFine, l.MM()} }

// Plain is a length that nobody holds to the last digit (a stickout, a nose
// radius): zeros behind are dropped, and one too small for the usual decimals
// gets more of them.
func Plain(l Length) Figure { return Figure{KindPlain, l.MM()} }

// Graduation is one of a dial.
func Graduation(l Length) Figure { return Figure{KindGraduation, l.MM()} }

// cutIn is the system that a dial is cut in: that in which its graduation has fewer
// figures, u where they are as many.
func (u Unit) cutIn(l Length) Unit {
	figures := func(x float64) int { return len(strings.Trim(strconv.FormatFloat(x, 'f', -1, 64), "0.")) }
	inch, mm := figures(l.Inches()), figures(l.MM())
	switch {
	case inch < mm:
		return Inches
	case mm < inch:
		return Metric
	}
	return u
}

// Roughness is an Ra.
func Roughness(l Length) Figure { return Figure{KindRoughness, l.MM()} }

// Of makes a figure of any kind from a value in its unit of record.
func (k Kind) Of(v float64) Figure { return Figure{k, v} }

// Say prints a value of a kind that both systems print alike: a time, a share, an
// angle.
func (k Kind) Say(v float64) string { return Metric.Say(k.Of(v)) }

// Bare prints such a value without its unit.
func (k Kind) Bare(v float64) string { return Metric.Bare(k.Of(v)) }

// Say prints a quantity with its unit, rounded by its kind: "0.0040 in",
// "Ø80.000 mm", "1.21 hp". A temperature in °F has °C in brackets behind it:
// data sheets of compounds and furnaces are often in °C only. A slope has in
// brackets what it comes to over a foot or 300 mm. A graduation is in the system that
// its dial is cut in.
func (u Unit) Say(q Quantity) string {
	f := q.Figure()
	if f.Kind == KindGraduation {
		return u.cutIn(FromMM(f.Value)).Say(Plain(FromMM(f.Value)))
	}
	r := f.Kind.row()
	s := r.prefix + Join(u.Bare(f), r.in(u).unit)
	switch {
	case f.Kind == KindTemperature && u == Inches:
		s += " (" + Metric.Say(f) + ")"
	case f.Kind == KindSlope && u == Inches: // tan ~ angle; what a level or a straight-edge is marked in
		s += " (" + decimals(f.Value*0.012, 4) + " in in 12)"
	case f.Kind == KindSlope:
		s += " (" + decimals(f.Value*0.3, 3) + " mm in 300)"
	}
	return s
}

// Bare prints a quantity without its unit, for a column whose head names it
// (Name). What is no number, or beyond any machine, prints as "-".
func (u Unit) Bare(q Quantity) string {
	f := q.Figure()
	r := f.Kind.row()
	if r.length != nil {
		return r.length(u, FromMM(f.Value))
	}
	s := r.in(u)
	return s.round(f.Value*s.times/s.per + s.from)
}

// Name is the unit that figures of a kind are printed in, "" for a plain number.
func (u Unit) Name(k Kind) string { return k.row().in(u).unit }

// Plain is a quantity as a plain number for comparing, and its unit: the unit of
// record to a metric reader, the inch reader's own to the other. A number
// without a unit of record is in that in which it is printed.
func (u Unit) Plain(q Quantity) (float64, string) {
	f := q.Figure()
	r := f.Kind.row()
	if s := r.in(u); u == Inches || r.base == "" {
		return f.Value*s.times/s.per + s.from, s.unit
	}
	return f.Value, r.base
}

// IsLength is whether figures of the kind are lengths.
func (k Kind) IsLength() bool { return k.row().length != nil }

// KindIn is the kind that a plain number in a unit of record is of; false where
// the unit is none of record.
func KindIn(base string) (Kind, bool) {
	for k := KindForce; k <= lastKind; k++ { // lengths are no plain numbers
		if k.Base() == base && base != "" {
			return k, true
		}
	}
	return KindNumber, base == ""
}

// SayRange prints two figures of one kind with one unit: "0.0010 to 0.0020 in",
// "Ø80.000 to Ø80.030 mm".
func (u Unit) SayRange(least, most Quantity) string {
	r := least.Figure().Kind.row()
	return r.prefix + u.Bare(least) + " to " + r.prefix + Join(u.Bare(most), r.in(u).unit)
}

// SayBoth prints a quantity in this system and, in brackets, in the other.
func (u Unit) SayBoth(q Quantity) string {
	if k := q.Figure().Kind; k == KindTemperature || k == KindSlope {
		return u.Say(q) // has its brackets already
	}
	return u.Say(q) + " (" + u.Other().Say(q) + ")"
}

// Other is the system that is not u.
func (u Unit) Other() Unit {
	if u == Inches {
		return Metric
	}
	return Inches
}

// Join puts a unit behind a figure: a space away, but for the degree (SI brochure,
// 9th edition, 5.4.3: from memory).
func Join(s, unit string) string {
	if unit == "" || unit == "°" {
		return s + unit
	}
	return s + " " + unit
}

// SayApart prints two figures of one kind of length so that they are told
// apart: where the usual decimals print different lengths the same, both get as
// many more as show the difference, and micrometres where six do not.
func (u Unit) SayApart(a, b Quantity) (string, string) {
	f, g := a.Figure(), b.Figure()
	x, y := u.Say(f), u.Say(g)
	r := f.Kind.row()
	if x != y || f.Kind != g.Kind || f.Value == g.Value || r.length == nil {
		return x, y
	}
	if f.Kind != KindRoughness {
		for n := u.decimals() + 1; n <= 6; n++ {
			say := func(f Figure) string {
				return r.prefix + Join(u.Decimals(FromMM(f.Value), n), r.in(u).unit)
			}
			if x, y = say(f), say(g); x != y {
				return x, y
			}
		}
	}
	microns := func(f Figure) string { return upTo(3)(f.Value*1000) + " µm" }
	return microns(f), microns(g)
}
