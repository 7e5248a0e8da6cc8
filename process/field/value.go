package field

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/source"
)

// Kind is what a value may be.
type Kind int

// The kinds.
const (
	Text     Kind = iota // to 200 characters
	Name                 // to 60 characters
	Choice               // one of a few words
	Flag                 // true or false
	Number               // a plain number, its unit in the description
	Count                // a whole number
	Length               // in or mm
	Diameter             // in or mm
	Rough                // µin or µm
	Speed                // ft/min or m/min
	Power                // hp or kW
	Torque               // ft·lb or N·m
	Table                // keys of its own
	Sources              // a table of remarks: figure = where it comes from
	Said                 // what is made or worked out when it is written
)

// one is the least of a field that is no list.
const one = -1

// Field is what is known of one figure: the methods below say it, the walkers
// go by it.
type Field struct {
	Key  string // name in its table
	Kind Kind

	to          any // pointer to where the value is held, or [2]any of two
	least, most int // elements of a list; least is one where it is none
	unit        string
	times       float64 // what is held over what is written; 0: the same
	need        bool
	def, worked string
	span        string
	words       []string // of a Choice
	values      []any    // what the words stand for, where it is not the words
	example     string
	text        string
	link        bool
	clock       bool
	maybe       *maybe

	// Tables.
	open   func() *Desc      // what is inside, bound to what is there or to a blank
	create func()            // make what is not there
	here   func() bool       // it is there
	close  func()            // what was read is complete
	size   func(n int)       // list: make n
	item   func(i int) *Desc // list: what is inside element i
	facts  func() []*fact.Fact
	gather func() int // list of Rows: put it together, and how many there are

	face // how it is compared and written
}

func (f *Field) list(least, most int) *Field { f.least, f.most = least, most; return f }
func (f *Field) in(unit string) *Field       { f.unit = unit; return f }
func (f *Field) many() bool                  { return f.least != one }

// Need says that the key must be given.
func (f *Field) Need() *Field { f.need = true; return f }

// Default is what is taken when the key is left out, as it would be written;
// "inch|metric" where they differ. "{}" for a table: it is read as if empty.
func (f *Field) Default(s string) *Field { f.def = s; return f }

// Otherwise says in words what is taken when the key is left out, where the
// loader works it out.
func (f *Field) Otherwise(s string) *Field { f.worked = s; return f }

// Span is the range allowed, "inch|metric" where they differ; a leading >
// leaves the end out. It keeps slips of unit and decimal point out.
func (f *Field) Span(s string) *Field { f.span = s; return f }

// Example is a value as it would be written, "inch|metric" where they differ.
func (f *Field) Example(s string) *Field { f.example = s; return f }

// Says is what the key is, in words. What stands before the first ; is a
// remark of its own.
func (f *Field) Says(s string) *Field { f.text = s; return f }

// Times is what is held over what is written in a file: 1000 for kN held in N.
func (f *Field) Times(x float64) *Field { f.times = x; return f }

// Clock says that the numbers are clock positions: 360 is held as 0.
func (f *Field) Clock() *Field { f.clock = true; return f }

// half picks the half of an "inch|metric" text that belongs to u.
func half(u qty.Unit, both string) string {
	inch, metric, two := strings.Cut(both, "|")
	if two && u == qty.Metric {
		return metric
	}
	return inch
}

// bounds parses the range of a field for files written in u.
func (f *Field) bounds(u qty.Unit) (lo, hi float64, open, ok bool) {
	s := half(u, f.span)
	if s == "" {
		return 0, 0, false, false
	}
	open = strings.HasPrefix(s, ">")
	a, b, _ := strings.Cut(strings.TrimPrefix(s, ">"), "..")
	lo, err1 := strconv.ParseFloat(a, 64)
	hi, err2 := strconv.ParseFloat(b, 64)
	if err1 != nil || err2 != nil {
		panic("field: range of " + f.Key + " does not parse: " + s) // our own; a test reads every description
	}
	return lo, hi, open, true
}

// unitName is the unit that a bare number of the field is in.
func (f *Field) unitName(u qty.Unit) string {
	switch f.Kind {
	case Length, Diameter:
		return u.String()
	case Rough:
		return u.RaName()
	case Speed:
		return u.SpeedName()
	case Power:
		return [...]string{"kW", "hp"}[u]
	case Torque:
		return [...]string{"N·m", "ft·lb"}[u]
	}
	return f.unit
}

// spanWords puts the range in words for files written in u.
func (f *Field) spanWords(u qty.Unit) string {
	lo, hi, open, ok := f.bounds(u)
	if !ok {
		return ""
	}
	s := PlainNumber(lo) + " to " + PlainNumber(hi)
	if open {
		s = "above " + s
	}
	return withUnit(s, f.unitName(u))
}

// withUnit puts a unit behind a figure.
func withUnit(s, unit string) string {
	if unit == "" || unit == "°" {
		return s + unit
	}
	return s + " " + unit
}

// PlainNumber prints a float as a person would write it.
func PlainNumber(v float64) string {
	if a := math.Abs(v); a >= 1e9 || a > 0 && a < 1e-6 {
		return strconv.FormatFloat(v, 'g', 6, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// kindWords says what to write for the field.
func (f *Field) kindWords(u qty.Unit) string {
	var single, lots string
	switch f.Kind {
	case Text, Name:
		single, lots = "a text in quotes", "texts in quotes"
	case Choice:
		single, lots = "one of "+source.Quoted(f.words), "of "+source.Quoted(f.words)
	case Flag:
		single, lots = "true or false", "true or false"
	case Number:
		single, lots = "a number", "numbers"
	case Count:
		single, lots = "a whole number", "whole numbers"
	case Length:
		single, lots = "a length", "lengths"
	case Diameter:
		single, lots = "a diameter", "diameters"
	case Rough:
		single, lots = "a roughness", "roughnesses"
	case Speed:
		single, lots = "a cutting speed", "cutting speeds"
	case Power:
		single, lots = "a power", "powers"
	case Torque:
		single, lots = "a torque", "torques"
	case Table, Sources:
		single, lots = "a table", "tables"
	}
	w := single
	if f.many() {
		w = "a list of " + lots
	}
	if n := f.unitName(u); n != "" {
		w += " (" + n + ")"
	}
	return w
}

// exampleFor is an example as it would stand in a file written in u.
func (f *Field) exampleFor(u qty.Unit) string {
	return f.Key + " = " + half(u, f.example)
}

// fail is a value that cannot be taken: what was found and what is allowed.
type fail struct{ what, allowed string }

// take converts a single value of a file to its type: string, bool, int,
// float64, qty.Length, qty.CuttingSpeed, qty.Power or qty.Torque. A nil value
// comes with the reason. With known false the file's units are in doubt, and
// ranges are not judged.
func (f *Field) take(v any, u qty.Unit, known bool) (any, *fail) {
	switch f.Kind {
	case Text, Name, Choice:
		return f.word(v, u)
	case Flag:
		if b, ok := v.(bool); ok {
			return b, nil
		}
		return nil, f.wrong(v, u)
	case Count:
		i, ok := v.(int64)
		if !ok {
			return nil, f.wrong(v, u)
		}
		if bad := f.outside(float64(i), u, PlainNumber(float64(i))); bad != nil {
			return nil, bad
		}
		return int(i), nil
	}
	return f.quantity(v, u, known)
}

func (f *Field) word(v any, u qty.Unit) (any, *fail) {
	s, ok := v.(string)
	if !ok {
		return nil, f.wrong(v, u)
	}
	if f.Kind == Choice {
		for _, c := range f.words {
			if s == c {
				return s, nil
			}
		}
		allowed := "write " + source.Quoted(f.words)
		if n := source.Nearest(s, f.words); n != "" && len(f.words) > 2 {
			allowed = "did you mean " + strconv.Quote(n) + "? Allowed are " + source.Quoted(f.words)
		}
		return nil, &fail{strconv.Quote(source.Show(s)) + " is not known here", allowed}
	}
	longest := source.LongestText
	if f.Kind == Name {
		longest = source.LongestName
	}
	if what, allowed := source.CheckText(s, longest); what != "" {
		return nil, &fail{what, allowed}
	}
	return strings.TrimSpace(s), nil
}

// quantity converts a number or a text with a unit. All ranges are in the unit
// that a bare number is in.
func (f *Field) quantity(v any, u qty.Unit, known bool) (any, *fail) {
	bare, isText := 0.0, false
	switch n := v.(type) {
	case int64:
		bare = float64(n)
	case float64:
		bare = n
	case string:
		isText = true
	default:
		return nil, f.wrong(v, u)
	}
	if !isText && (bare != bare || bare-bare != 0) { // NaN, infinities
		return nil, &fail{strings.ToLower(fmt.Sprint(bare)) + " cannot be measured", "write " + f.kindWords(u)}
	}
	written := PlainNumber(bare)
	switch f.Kind {
	case Number:
		if isText {
			return nil, f.wrong(v, u)
		}
		if bad := f.outside(bare, u, written); bad != nil {
			return nil, bad
		}
		return bare, nil
	case Length, Diameter, Rough:
		var l qty.Length
		if isText {
			var err error
			if bare := strings.TrimSpace(v.(string)); plainNumber.MatchString(bare) {
				return nil, &fail{strconv.Quote(source.Show(bare)) + " has no unit",
					fmt.Sprintf("write %s without quotes, or %q", source.Show(bare), source.Show(bare)+" "+f.unitName(u))}
			}
			if l, err = qty.ParseLength(source.Show(v.(string))); err != nil {
				what, allowed := source.Advice(err, "write "+f.kindWords(u)+" or a text with its unit")
				return nil, &fail{what, allowed}
			}
			written = strconv.Quote(v.(string))
		} else if l = u.Of(bare); f.Kind == Rough {
			l = u.RaOf(bare)
		}
		if known {
			if bad := f.outsideLength(l, u, written); bad != nil {
				bad.otherUnit(f, bare, u, isText)
				return nil, bad
			}
		}
		return l, nil
	}
	// Speeds, powers and torques: one unit each inside.
	units := f.units()
	factor := units[f.unitName(u)]
	if isText {
		num, unit := splitUnit(v.(string))
		x, err := strconv.ParseFloat(num, 64)
		k, ok := units[unit]
		if err != nil || !ok || x != x || x-x != 0 {
			return nil, &fail{strconv.Quote(source.Show(v.(string))) + " is not " + f.kindWords(u), "write it as " + half(u, f.example)}
		}
		bare, factor, written = x, k, strconv.Quote(v.(string))
	}
	if known {
		if bad := f.outside(bare*factor/units[f.unitName(u)], u, written); bad != nil {
			return nil, bad
		}
	}
	switch x := bare * factor; f.Kind {
	case Speed:
		return qty.CuttingSpeed(x), nil
	case Power:
		return qty.Power(x), nil
	default:
		return qty.Torque(x), nil
	}
}

// otherUnit adds what was probably meant when a bare length would be sound in
// the unit that the file is not written in.
func (bad *fail) otherUnit(f *Field, bare float64, u qty.Unit, isText bool) {
	other := qty.Inches - u
	of, name := other.Of, other.String()
	if f.Kind == Rough {
		of, name = other.RaOf, other.RaName()
	}
	if !isText && f.outsideLength(of(bare), u, "") == nil {
		bad.allowed += fmt.Sprintf("; if %s was meant, write %q", name, PlainNumber(bare)+" "+name)
	}
}

var plainNumber = regexp.MustCompile(`^[-+]?[0-9]+([.][0-9]*)?$`)

// units are the factors to m/min, W or N·m. The foot and the pound-force are
// exact by definition (0.3048 m; 4.4482216152605 N); 1 hp = 550 ft·lb/s.
func (f *Field) units() map[string]float64 {
	const footPound = 0.3048 * 4.4482216152605
	switch f.Kind {
	case Speed:
		return map[string]float64{"m/min": 1, "ft/min": 0.3048}
	case Power:
		return map[string]float64{"kW": 1000, "W": 1, "hp": 550 * footPound}
	}
	return map[string]float64{"N·m": 1, "N m": 1, "Nm": 1, "ft·lb": footPound, "ft lb": footPound, "ft-lb": footPound}
}

// splitUnit parts "15 hp" into number and unit.
func splitUnit(s string) (num, unit string) {
	s = strings.TrimSpace(s)
	i := 0
	for i < len(s) && strings.IndexByte("+-.0123456789", s[i]) >= 0 {
		i++
	}
	return s[:i], strings.TrimSpace(s[i:])
}

func (f *Field) outside(v float64, u qty.Unit, written string) *fail {
	lo, hi, open, ok := f.bounds(u)
	if !ok || v >= lo && v <= hi && !(open && v == lo) {
		return nil
	}
	return f.outOf(u, written)
}

func (f *Field) outsideLength(l qty.Length, u qty.Unit, written string) *fail {
	lo, hi, open, ok := f.bounds(u)
	if !ok {
		return nil
	}
	of := u.Of
	if f.Kind == Rough {
		of = u.RaOf
	}
	if a := of(lo); l >= a && l <= of(hi) && !(open && l == a) {
		return nil
	}
	return f.outOf(u, written)
}

func (f *Field) outOf(u qty.Unit, written string) *fail {
	if len(written) > 24 {
		written = written[:21] + "…"
	}
	if !strings.HasPrefix(written, `"`) {
		written = withUnit(written, f.unitName(u))
	}
	return &fail{written + " is out of range", "allowed is " + f.spanWords(u)}
}

// wrong is a value of the wrong type.
func (f *Field) wrong(v any, u qty.Unit) *fail {
	return &fail{found(v), "write " + f.kindWords(u) + ", as in " + f.exampleFor(u)}
}

// found names what stands in the file instead.
func found(v any) string {
	switch x := v.(type) {
	case string:
		return strconv.Quote(source.Show(x)) + " is a text"
	case bool:
		return strconv.FormatBool(x) + " is a yes or no"
	case int64:
		return strconv.FormatInt(x, 10) + " is a number"
	case float64:
		return strconv.FormatFloat(x, 'g', 6, 64) + " is a number"
	case []any, []map[string]any:
		return "a list stands here"
	case map[string]any:
		return "a table stands here"
	}
	return "a date stands here"
}
