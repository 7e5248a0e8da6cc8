package keys

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// key is a field as a file has it.
type key struct{ *field.Spec }

func keysOf(fields []*field.Spec) []key {
	all := make([]key, len(fields))
	for i, f := range fields {
		all[i] = key{f}
	}
	return all
}

// Half picks the half of an "inch|metric" text that belongs to u.
func Half(u qty.Unit, both string) string {
	inch, metric, two := strings.Cut(both, "|")
	if two && u == qty.Metric {
		return metric
	}
	return inch
}

// bounds parses the range of a field for files written in u.
func (f key) bounds(u qty.Unit) (lo, hi float64, open, ok bool) {
	s := Half(u, f.Span)
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
func (f key) unitName(u qty.Unit) string {
	switch f.Kind {
	case field.Length, field.Diameter:
		return f.per(u)
	case field.Rough:
		return u.RaName()
	case field.Speed:
		return u.SpeedName()
	case field.Power:
		return [...]string{"kW", "hp"}[u]
	case field.Torque:
		return [...]string{"N·m", "ft·lb"}[u]
	case field.Temperature:
		return u.Name(qty.KindRead)
	}
	return f.Unit
}

// per is the unit of a length of the field in u.
func (f key) per(u qty.Unit) string {
	if f.Per != "" {
		return u.String() + "/" + f.Per
	}
	return u.String()
}

// spanWords puts the range in words for files written in u.
func (f key) spanWords(u qty.Unit) string {
	lo, hi, open, ok := f.bounds(u)
	if !ok {
		return ""
	}
	s := PlainNumber(lo) + " to " + PlainNumber(hi)
	if open {
		s = "above " + s
	}
	return qty.Join(s, f.unitName(u))
}

// PlainNumber prints a float as a person would write it.
func PlainNumber(v float64) string {
	if a := math.Abs(v); a >= 1e9 || a > 0 && a < 1e-6 {
		return strconv.FormatFloat(v, 'g', 6, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// PlainNumbers prints several, with commas.
func PlainNumbers(list []float64) string {
	var s []string
	for _, v := range list {
		s = append(s, PlainNumber(v))
	}
	return strings.Join(s, ", ")
}

// kindWords says what to write for the field.
func (f key) kindWords(u qty.Unit) string {
	var single, lots string
	switch f.Kind {
	case field.Text, field.Name:
		single, lots = "a text in quotes", "texts in quotes"
	case field.Choice:
		single, lots = "one of "+source.Quoted(f.Words), "of "+source.Quoted(f.Words)
	case field.Flag:
		single, lots = "true or false", "true or false"
	case field.Number:
		single, lots = "a number", "numbers"
	case field.Count:
		single, lots = "a whole number", "whole numbers"
	case field.Length:
		single, lots = "a length", "lengths"
	case field.Diameter:
		single, lots = "a diameter", "diameters"
	case field.Rough:
		single, lots = "a roughness", "roughnesses"
	case field.Speed:
		single, lots = "a cutting speed", "cutting speeds"
	case field.Power:
		single, lots = "a power", "powers"
	case field.Torque:
		single, lots = "a torque", "torques"
	case field.Temperature:
		single = "a temperature"
	case field.Table, field.Sources:
		single, lots = "a table", "tables"
	}
	w := single
	if f.Many() {
		w = "a list of " + lots
	}
	if n := f.unitName(u); n != "" {
		w += " (" + n + ")"
	}
	if f.Clock {
		w += ` or hours in quotes, as "4:30"`
	}
	return w
}

// exampleFor is an example as it would stand in a file written in u.
func (f key) exampleFor(u qty.Unit) string {
	return f.Key + " = " + Half(u, f.Example)
}

// fail is a value that cannot be taken: what was found and what is allowed.
type fail struct{ what, allowed string }

// take converts a single value of a file to its type: string, bool, int,
// float64, qty.Length, qty.CuttingSpeed, qty.Power, qty.Torque or qty.Temperature. A nil value
// comes with the reason. With known false the file's units are in doubt, and
// ranges are not judged.
func (f key) take(v any, u qty.Unit, known bool) (any, *fail) {
	switch f.Kind {
	case field.Text, field.Name, field.Choice:
		return f.word(v, u)
	case field.Flag:
		if b, ok := v.(bool); ok {
			return b, nil
		}
		return nil, f.wrong(v, u)
	case field.Count:
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

func (f key) word(v any, u qty.Unit) (any, *fail) {
	s, ok := v.(string)
	if !ok {
		return nil, f.wrong(v, u)
	}
	if f.Kind == field.Choice {
		for _, c := range f.Words {
			if s == c {
				return s, nil
			}
		}
		allowed := "write " + source.Quoted(f.Words)
		if n := source.Nearest(s, f.Words); n != "" && len(f.Words) > 2 {
			allowed = "did you mean " + strconv.Quote(n) + "? Allowed are " + source.Quoted(f.Words)
		}
		return nil, &fail{strconv.Quote(source.Show(s)) + " is not known here", allowed}
	}
	longest := source.LongestText
	if f.Kind == field.Name {
		longest = source.LongestName
	}
	if what, allowed := source.CheckText(s, longest); what != "" {
		return nil, &fail{what, allowed}
	}
	return strings.TrimSpace(s), nil
}

// quantity converts a number or a text with a unit. All ranges are in the unit
// that a bare number is in.
func (f key) quantity(v any, u qty.Unit, known bool) (any, *fail) {
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
	case field.Number:
		if isText && f.Clock {
			return hour(v.(string))
		}
		if isText {
			return nil, f.wrong(v, u)
		}
		if bad := f.outside(bare, u, written); bad != nil {
			return nil, bad
		}
		return bare, nil
	case field.Length, field.Diameter, field.Rough:
		var l qty.Length
		if isText {
			var err error
			if bare := strings.TrimSpace(v.(string)); plainNumber.MatchString(bare) {
				return nil, &fail{strconv.Quote(source.Show(bare)) + " has no unit",
					fmt.Sprintf("write %s without quotes, or %q", source.Show(bare), source.Show(bare)+" "+f.unitName(u))}
			}
			length := source.Show(v.(string))
			if f.Per != "" {
				length = strings.TrimSuffix(strings.TrimSpace(length), "/"+f.Per)
			}
			if l, err = qty.ParseLength(length); err != nil {
				what, allowed := source.Advice(err, "write "+f.kindWords(u)+" or a text with its unit")
				return nil, &fail{what, allowed}
			}
			written = strconv.Quote(v.(string))
		} else if l = u.Of(bare); f.Kind == field.Rough {
			l = u.RaOf(bare)
		}
		if known {
			if bad := f.outsideLength(l, u, written); bad != nil {
				bad.otherUnit(f, bare, u, isText)
				return nil, bad
			}
		}
		return l, nil
	case field.Temperature:
		text := written
		if isText {
			text = v.(string)
			written = strconv.Quote(source.Show(text))
		}
		t, err := qty.ParseTemperature(u, text)
		if err != nil {
			return nil, &fail{source.Found(v), "write " + f.kindWords(u) + ", as in " + f.exampleFor(u)}
		}
		if bad := f.outside(degrees(u, t), u, written); known && bad != nil {
			return nil, bad
		}
		return t, nil
	}
	// Speeds, powers and torques: one unit each inside.
	units := f.units()
	factor := units[f.unitName(u)]
	if isText {
		num, unit := splitUnit(v.(string))
		x, err := strconv.ParseFloat(num, 64)
		k, ok := units[unit]
		if err != nil || !ok || x != x || x-x != 0 {
			return nil, &fail{strconv.Quote(source.Show(v.(string))) + " is not " + f.kindWords(u), "write it as " + Half(u, f.Example)}
		}
		bare, factor, written = x, k, strconv.Quote(v.(string))
	}
	if known {
		if bad := f.outside(bare*factor/units[f.unitName(u)], u, written); bad != nil {
			return nil, bad
		}
	}
	switch x := bare * factor; f.Kind {
	case field.Speed:
		return qty.CuttingSpeed(x), nil
	case field.Power:
		return qty.Power(x), nil
	default:
		return qty.Torque(x), nil
	}
}

var clockHour = regexp.MustCompile(`^([0-9]{1,2})(?::([0-5][0-9]))?$`)

// hour is a clock position written as the hour that the clock shows, "4:30", in degrees.
func hour(s string) (any, *fail) {
	m := clockHour.FindStringSubmatch(strings.TrimSpace(s))
	h, min := 0, 0
	if m != nil {
		h, _ = strconv.Atoi(m[1])
		min, _ = strconv.Atoi("0" + m[2])
	}
	if h < 1 || h > 12 {
		return nil, &fail{strconv.Quote(source.Show(s)) + " is no clock position", `write an hour from "1" to "12", with minutes as in "4:30", or degrees as a number`}
	}
	return float64(h%12)*30 + float64(min)/2, nil
}

// degrees is a temperature on the reader's thermometer, without the dust of binary fractions.
func degrees(u qty.Unit, t qty.Temperature) float64 {
	x, _ := u.Plain(t)
	return math.Round(x*1e6) / 1e6
}

// otherUnit adds what was probably meant when a bare length would be sound in
// the unit that the file is not written in.
func (bad *fail) otherUnit(f key, bare float64, u qty.Unit, isText bool) {
	other := qty.Inches - u
	of, name := other.Of, f.per(other)
	if f.Kind == field.Rough {
		of, name = other.RaOf, other.RaName()
	}
	if !isText && f.outsideLength(of(bare), u, "") == nil {
		bad.allowed += fmt.Sprintf("; if %s was meant, write %q", name, PlainNumber(bare)+" "+name)
	}
}

var plainNumber = regexp.MustCompile(`^[-+]?[0-9]+([.][0-9]*)?$`)

// units are the factors to m/min, W or N·m. The foot and the pound-force are
// exact by definition (0.3048 m; 4.4482216152605 N); 1 hp = 550 ft·lb/s.
func (f key) units() map[string]float64 {
	const footPound = 0.3048 * 4.4482216152605
	switch f.Kind {
	case field.Speed:
		return map[string]float64{"m/min": 1, "ft/min": 0.3048}
	case field.Power:
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

func (f key) outside(v float64, u qty.Unit, written string) *fail {
	lo, hi, open, ok := f.bounds(u)
	if !ok || v >= lo && v <= hi && !(open && v == lo) {
		return nil
	}
	return f.outOf(u, written)
}

func (f key) outsideLength(l qty.Length, u qty.Unit, written string) *fail {
	lo, hi, open, ok := f.bounds(u)
	if !ok {
		return nil
	}
	of := u.Of
	if f.Kind == field.Rough {
		of = u.RaOf
	}
	if a := of(lo); l >= a && l <= of(hi) && !(open && l == a) {
		return nil
	}
	return f.outOf(u, written)
}

func (f key) outOf(u qty.Unit, written string) *fail {
	if len(written) > 24 {
		written = written[:21] + "…"
	}
	if !strings.HasPrefix(written, `"`) {
		written = qty.Join(written, f.unitName(u))
	}
	allowed := "allowed is " + f.spanWords(u)
	if f.Beyond != "" {
		allowed += "; " + f.Beyond
	}
	return &fail{written + " is out of range", allowed}
}

// wrong is a value of the wrong type.
func (f key) wrong(v any, u qty.Unit) *fail {
	return &fail{source.Found(v), "write " + f.kindWords(u) + ", as in " + f.exampleFor(u)}
}
