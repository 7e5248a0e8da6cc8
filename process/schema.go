package process

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"borewright/process/qty"
)

// kind is what a value of a file may be.
type kind int

const (
	aText     kind = iota // to 200 characters
	aName                 // to 60 characters
	aChoice               // one of a few words
	aFlag                 // true or false
	aNumber               // a plain number, its unit in the table
	aCount                // a whole number
	aLength               // in or mm
	aDiameter             // in or mm
	aRough                // µin or µm
	aSpeed                // ft/min or m/min
	aPower                // hp or kW
	aTorque               // ft·lb or N·m
	aTable                // keys of its own
	aSources              // a table of remarks: figure = where it comes from
)

// field is one row of the tables of keys: what the reader checks by and what
// explain prints.
type field struct {
	path    string  // "bore.finish.diameter", without the numbers of list elements
	kind    kind    //
	list    *[2]int // a list with least and most elements; nil: one value
	unit    string  // unit of a plain number
	need    bool    // must be given
	def     string  // default as it would be written, "inch|metric" where they differ
	worked  string  // the default in words where it is worked out
	span    string  // allowed range, "inch|metric" where they differ; a leading > leaves the end out
	choices []string
	example string // value as written in an inch file
	text    string // what it is
}

// many is a list of the number of elements given.
func many(least, most int) *[2]int { return &[2]int{least, most} }

func (f *field) parent() string {
	if i := strings.LastIndexByte(f.path, '.'); i >= 0 {
		return f.path[:i]
	}
	return ""
}

func (f *field) last() string { return f.path[strings.LastIndexByte(f.path, '.')+1:] }

// in picks the half of an "inch|metric" text that belongs to u.
func in(u qty.Unit, both string) string {
	inch, metric, two := strings.Cut(both, "|")
	if two && u == qty.Metric {
		return metric
	}
	return inch
}

// bounds parses the range of a field for files written in u.
func (f *field) bounds(u qty.Unit) (lo, hi float64, open, ok bool) {
	s := in(u, f.span)
	if s == "" {
		return 0, 0, false, false
	}
	open = strings.HasPrefix(s, ">")
	a, b, _ := strings.Cut(strings.TrimPrefix(s, ">"), "..")
	lo, err1 := strconv.ParseFloat(a, 64)
	hi, err2 := strconv.ParseFloat(b, 64)
	if err1 != nil || err2 != nil {
		panic("process: range of " + f.path + " does not parse: " + s) // our own table; a test reads every row
	}
	return lo, hi, open, true
}

// unitName is the unit that a bare number of the field is in.
func (f *field) unitName(u qty.Unit) string {
	switch f.kind {
	case aLength, aDiameter:
		return u.String()
	case aRough:
		return u.RaName()
	case aSpeed:
		return u.SpeedName()
	case aPower:
		return [...]string{"kW", "hp"}[u]
	case aTorque:
		return [...]string{"N·m", "ft·lb"}[u]
	}
	return f.unit
}

// spanWords puts the range in words for files written in u.
func (f *field) spanWords(u qty.Unit) string {
	lo, hi, open, ok := f.bounds(u)
	if !ok {
		return ""
	}
	s := number(lo) + " to " + number(hi)
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

// number prints a float as a person would write it.
func number(v float64) string {
	if a := math.Abs(v); a >= 1e9 || a > 0 && a < 1e-6 {
		return strconv.FormatFloat(v, 'g', 6, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// kindWords says what to write for the field.
func (f *field) kindWords(u qty.Unit) string {
	var one, lots string
	switch f.kind {
	case aText, aName:
		one, lots = "a text in quotes", "texts in quotes"
	case aChoice:
		one, lots = "one of "+quoted(f.choices), "of "+quoted(f.choices)
	case aFlag:
		one, lots = "true or false", "true or false"
	case aNumber:
		one, lots = "a number", "numbers"
	case aCount:
		one, lots = "a whole number", "whole numbers"
	case aLength:
		one, lots = "a length", "lengths"
	case aDiameter:
		one, lots = "a diameter", "diameters"
	case aRough:
		one, lots = "a roughness", "roughnesses"
	case aSpeed:
		one, lots = "a cutting speed", "cutting speeds"
	case aPower:
		one, lots = "a power", "powers"
	case aTorque:
		one, lots = "a torque", "torques"
	case aTable, aSources:
		one, lots = "a table", "tables"
	}
	w := one
	if f.list != nil {
		w = "a list of " + lots
	}
	if n := f.unitName(u); n != "" {
		w += " (" + n + ")"
	}
	return w
}

func quoted(words []string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = strconv.Quote(w)
	}
	if len(q) < 2 {
		return strings.Join(q, "")
	}
	return strings.Join(q[:len(q)-1], ", ") + " or " + q[len(q)-1]
}

// exampleFor is an example as it would stand in a file written in u.
func (f *field) exampleFor(u qty.Unit) string {
	return f.last() + " = " + in(u, f.example)
}

// fail is a value that cannot be taken: what was found and what is allowed.
type fail struct{ what, allowed string }

// one converts a single value of a file to its type: string, bool, int,
// float64, qty.Length, qty.CuttingSpeed, qty.Power or qty.Torque. A nil value
// comes with the reason. With known false the file's units are in doubt, and
// ranges are not judged.
func (f *field) one(v any, u qty.Unit, known bool) (any, *fail) {
	switch f.kind {
	case aText, aName, aChoice:
		return f.words(v, u)
	case aFlag:
		if b, ok := v.(bool); ok {
			return b, nil
		}
		return nil, f.wrong(v, u)
	case aCount:
		i, ok := v.(int64)
		if !ok {
			return nil, f.wrong(v, u)
		}
		if bad := f.outside(float64(i), u, number(float64(i))); bad != nil {
			return nil, bad
		}
		return int(i), nil
	}
	return f.quantity(v, u, known)
}

func (f *field) words(v any, u qty.Unit) (any, *fail) {
	s, ok := v.(string)
	if !ok {
		return nil, f.wrong(v, u)
	}
	if f.kind == aChoice {
		for _, c := range f.choices {
			if s == c {
				return s, nil
			}
		}
		allowed := "write " + quoted(f.choices)
		if n := nearest(s, f.choices); n != "" && len(f.choices) > 2 {
			allowed = "did you mean " + strconv.Quote(n) + "? Allowed are " + quoted(f.choices)
		}
		return nil, &fail{strconv.Quote(show(s)) + " is not known here", allowed}
	}
	longest := longestText
	if f.kind == aName {
		longest = longestName
	}
	if what, allowed := checkText(s, longest); what != "" {
		return nil, &fail{what, allowed}
	}
	return strings.TrimSpace(s), nil
}

// quantity converts a number or a text with a unit. All ranges are in the unit
// that a bare number is in.
func (f *field) quantity(v any, u qty.Unit, known bool) (any, *fail) {
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
	written := number(bare)
	switch f.kind {
	case aNumber:
		if isText {
			return nil, f.wrong(v, u)
		}
		if bad := f.outside(bare, u, written); bad != nil {
			return nil, bad
		}
		return bare, nil
	case aLength, aDiameter, aRough:
		var l qty.Length
		if isText {
			var err error
			if bare := strings.TrimSpace(v.(string)); plainNumber.MatchString(bare) {
				return nil, &fail{strconv.Quote(show(bare)) + " has no unit",
					fmt.Sprintf("write %s without quotes, or %q", show(bare), show(bare)+" "+f.unitName(u))}
			}
			if l, err = qty.ParseLength(show(v.(string))); err != nil {
				what, allowed := advice(err, "write "+f.kindWords(u)+" or a text with its unit")
				return nil, &fail{what, allowed}
			}
			written = strconv.Quote(v.(string))
		} else if l = u.Of(bare); f.kind == aRough {
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
			return nil, &fail{strconv.Quote(show(v.(string))) + " is not " + f.kindWords(u), "write it as " + in(u, f.example)}
		}
		bare, factor, written = x, k, strconv.Quote(v.(string))
	}
	if known {
		if bad := f.outside(bare*factor/units[f.unitName(u)], u, written); bad != nil {
			return nil, bad
		}
	}
	switch x := bare * factor; f.kind {
	case aSpeed:
		return qty.CuttingSpeed(x), nil
	case aPower:
		return qty.Power(x), nil
	default:
		return qty.Torque(x), nil
	}
}

// otherUnit adds what was probably meant when a bare length would be sound in
// the unit that the file is not written in.
func (bad *fail) otherUnit(f *field, bare float64, u qty.Unit, isText bool) {
	other := qty.Inches - u
	of, name := other.Of, other.String()
	if f.kind == aRough {
		of, name = other.RaOf, other.RaName()
	}
	if !isText && f.outsideLength(of(bare), u, "") == nil {
		bad.allowed += fmt.Sprintf("; if %s was meant, write %q", name, number(bare)+" "+name)
	}
}

var plainNumber = regexp.MustCompile(`^[-+]?[0-9]+([.][0-9]*)?$`)

// units are the factors to m/min, W or N·m. The foot and the pound-force are
// exact by definition (0.3048 m; 4.4482216152605 N); 1 hp = 550 ft·lb/s.
func (f *field) units() map[string]float64 {
	const footPound = 0.3048 * 4.4482216152605
	switch f.kind {
	case aSpeed:
		return map[string]float64{"m/min": 1, "ft/min": 0.3048}
	case aPower:
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

func (f *field) outside(v float64, u qty.Unit, written string) *fail {
	lo, hi, open, ok := f.bounds(u)
	if !ok || v >= lo && v <= hi && !(open && v == lo) {
		return nil
	}
	return f.outOf(u, written)
}

func (f *field) outsideLength(l qty.Length, u qty.Unit, written string) *fail {
	lo, hi, open, ok := f.bounds(u)
	if !ok {
		return nil
	}
	of := u.Of
	if f.kind == aRough {
		of = u.RaOf
	}
	if a := of(lo); l >= a && l <= of(hi) && !(open && l == a) {
		return nil
	}
	return f.outOf(u, written)
}

func (f *field) outOf(u qty.Unit, written string) *fail {
	if len(written) > 24 {
		written = written[:21] + "…"
	}
	if !strings.HasPrefix(written, `"`) {
		written = withUnit(written, f.unitName(u))
	}
	return &fail{written + " is out of range", "allowed is " + f.spanWords(u)}
}

// wrong is a value of the wrong type.
func (f *field) wrong(v any, u qty.Unit) *fail {
	return &fail{found(v), "write " + f.kindWords(u) + ", as in " + f.exampleFor(u)}
}

// found names what stands in the file instead.
func found(v any) string {
	switch x := v.(type) {
	case string:
		return strconv.Quote(show(x)) + " is a text"
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
