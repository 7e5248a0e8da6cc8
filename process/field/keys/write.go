package keys

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"borewright/process/field"
	"borewright/process/qty"
)

// WriteTOML gives the keys of x as they stand in a file, one a line, without
// those that are left out: zero, empty or Unset. A list of tables has one table a
// line. Every length carries its unit and all its digits, so that the file means
// the same whatever it is read in; the unit is that of u where that is exact.
// name gives the text of a Link by its pointer; "" leaves it out.
func WriteTOML(x field.Described, u qty.Unit, name func(to any) string) []byte {
	var b bytes.Buffer
	for _, f := range keysOf(field.Of(x)) {
		if f.isUnset() || f.Link && name(f.To) == "" {
			continue
		}
		if f.Kind == field.Table && !f.Many() {
			if inside := written(keysOf(f.Inside()), u, name); inside != "" {
				fmt.Fprintf(&b, "%s = { %s }\n", f.Key, inside)
			}
			continue
		}
		if f.Kind == field.Table {
			fmt.Fprintf(&b, "%s = [\n", f.Key)
			for i := range f.Len() {
				fmt.Fprintf(&b, "  { %s },\n", written(keysOf(f.Element(i)), u, name))
			}
			b.WriteString("]\n")
			continue
		}
		fmt.Fprintf(&b, "%s = %s\n", f.Key, f.written(u, f.To, name))
	}
	return b.Bytes()
}

// written is a table in one line, without its braces.
func written(all []key, u qty.Unit, name func(to any) string) string {
	var keys []string
	for _, f := range all {
		if !f.isUnset() && !(f.Link && name(f.To) == "") {
			keys = append(keys, f.Key+" = "+f.written(u, f.To, name))
		}
	}
	return strings.Join(keys, ", ")
}

// isUnset reports a key that is left out.
func (f key) isUnset() bool {
	if f.Unset != nil {
		return reflect.ValueOf(f.To).Elem().Interface() == f.Unset
	}
	return !f.Link && f.Empty()
}

// written is what p holds, as a file has it.
func (f key) written(u qty.Unit, p any, name func(to any) string) string {
	if f.Link {
		return TOMLText(name(p))
	}
	v := reflect.ValueOf(p).Elem()
	if v.Kind() == reflect.Slice || v.Kind() == reflect.Array {
		all := make([]string, v.Len())
		for i := range all {
			all[i] = f.written(u, v.Index(i).Addr().Interface(), name)
		}
		return "[" + strings.Join(all, ", ") + "]"
	}
	switch f.Kind {
	case field.Text, field.Name:
		return TOMLText(v.String())
	case field.Choice:
		return TOMLText(fmt.Sprint(f.Figure(p)))
	case field.Flag:
		return strconv.FormatBool(v.Bool())
	case field.Count:
		return strconv.FormatInt(v.Int(), 10)
	case field.Length, field.Diameter:
		return exact(u, qty.Length(v.Int()))
	case field.Rough:
		return TOMLText(PlainNumber(qty.Length(v.Int()).Microns()) + " µm")
	case field.Temperature:
		return TOMLText(PlainNumber(degrees(u, qty.Temperature(v.Float()))) + " " + f.unitName(u))
	case field.Speed:
		unit := f.unitName(u)
		return TOMLText(PlainNumber(math.Round(v.Float()/f.units()[unit]*1e6)/1e6) + " " + unit)
	case field.Number:
		x := v.Float()
		if f.Times != 0 {
			x /= f.Times
		}
		return PlainNumber(x)
	}
	panic("field: " + f.Key + " is of a kind that no file is written with") // our own bug: a test writes every entry
}

// exact prints a length with its unit and every digit that it has, down to a
// millionth of the unit, and never fewer than the usual ones.
func exact(u qty.Unit, l qty.Length) string {
	if back, _ := strconv.ParseFloat(u.Decimals(l, 6), 64); u.Of(back) != l {
		u = qty.Metric // whole nanometres: exact
	}
	s, usual := u.Decimals(l, 6), u.Format(l)
	for len(s) > len(usual) && strings.HasSuffix(s, "0") {
		s = s[:len(s)-1]
	}
	return TOMLText(s + " " + u.String())
}

// TOMLText is a text as TOML writes it. Controls never reach it: the reader
// refuses them, and what is written is read back first.
func TOMLText(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\r", `\r`, "\t", `\t`).Replace(s) + `"`
}
