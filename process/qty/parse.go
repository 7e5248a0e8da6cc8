package qty

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strings"
)

// lengthUnits are the units that a length may carry, each in nanometres.
var lengthUnits = map[string]string{
	"mm": "1000000", "in": "25400000", "inch": "25400000", "inches": "25400000", `"`: "25400000",
	"µm": "1000", "μm": "1000", "um": "1000", "µin": "25.4", "μin": "25.4", "uin": "25.4",
	"cm": "10000000", "m": "1000000000",
}

// fractional is a number with a fraction: 5/8, 2 1/8, 2-1/8.
var fractional = regexp.MustCompile(`^([+-]?)(?:([0-9]+)[ -]+)?([0-9]+)/([0-9]+)$`)

// ParseLength reads a length that carries its own unit: "80 mm", "3.150 in",
// "0.0004in", "12 µm", "16 µin" (um and uin are taken too), "2.125 inch"; and a fraction
// of an inch, with the unit or without: "2 1/8 in", "3-1/2", "5/8". A bare decimal number
// is an error: only a job file has units of its own to lend. The text is
// converted exactly and rounded once, to the nanometre.
func ParseLength(s string) (Length, error) {
	t := strings.TrimSpace(s)
	i := strings.LastIndexAny(t, "0123456789.")
	num, unit := strings.TrimSpace(t[:i+1]), strings.TrimSpace(t[i+1:])
	parts := fractional.FindStringSubmatch(num)
	if parts != nil && unit == "" {
		unit = "in"
	}
	nm, ok := lengthUnits[unit]
	switch {
	case num == "":
		return 0, fmt.Errorf("%q is not a length; write a number and a unit, as in \"80 mm\" or \"3.150 in\"", s)
	case len(num) > 32:
		return 0, fmt.Errorf("%q: more digits than a length can have", s[:32]+"…")
	case decimalComma(num) && unit == "":
		return 0, fmt.Errorf("%q has a decimal comma and no unit; write \"%[2]s mm\" or \"%[2]s in\"", s, strings.Replace(num, ",", ".", 1))
	case decimalComma(num):
		return 0, fmt.Errorf("%q has a decimal comma; write \"%s %s\"", s, strings.Replace(num, ",", ".", 1), unit)
	case unit == "":
		return 0, fmt.Errorf("%q has no unit; write \"%s mm\" or \"%s in\"", s, num, num)
	case !ok:
		return 0, fmt.Errorf("%q: unknown unit %q; use mm, in, µm or µin", s, unit)
	}
	var v *big.Rat
	if parts != nil {
		if nm != lengthUnits["in"] {
			return 0, fmt.Errorf("%q: fractions are of an inch; write a decimal number of %s", s, unit)
		}
		if v = fraction(parts); v == nil {
			return 0, fmt.Errorf("%q is no fraction of an inch; write it below one, in halves to 128ths, as in \"2 1/8 in\"", s)
		}
	} else {
		for i, c := range num {
			if c >= '0' && c <= '9' || c == '.' || i == 0 && (c == '+' || c == '-') {
				continue
			}
			return 0, fmt.Errorf("%q: %q is not a plain decimal number", s, num)
		}
		if v, ok = new(big.Rat).SetString(num); !ok {
			return 0, fmt.Errorf("%q: %q is not a plain decimal number", s, num)
		}
	}
	scale, _ := new(big.Rat).SetString(nm)
	f, _ := v.Mul(v, scale).Float64()
	if math.Abs(f) > 1e15 { // 1000 km: nothing on a boring mill
		return 0, fmt.Errorf("%q is too long for any machine", s)
	}
	return round(f), nil
}

// decimalComma is whether a number has a comma where the point belongs.
func decimalComma(num string) bool {
	whole, part, ok := strings.Cut(num, ",")
	return ok && whole != "" && part != "" && strings.Trim(whole[1:]+part, "0123456789") == ""
}

// fraction is the number that fractional found; nil where no rule has such a line: rules
// are divided in halves of halves, to 128ths at most.
func fraction(parts []string) *big.Rat {
	whole := func(s string) *big.Int { n, _ := new(big.Int).SetString("0"+s, 10); return n }
	over, under := whole(parts[3]), whole(parts[4])
	if !under.IsInt64() || under.Int64() > 128 || under.Int64() < 2 || under.Int64()&(under.Int64()-1) != 0 || over.Cmp(under) >= 0 {
		return nil
	}
	v := new(big.Rat).SetFrac(over, under)
	v.Add(v, new(big.Rat).SetInt(whole(parts[2])))
	if parts[1] == "-" {
		v.Neg(v)
	}
	return v
}

// ParseDiameter reads a diameter that carries its own unit, as ParseLength.
func ParseDiameter(s string) (Diameter, error) {
	l, err := ParseLength(s)
	return Diameter(l), err
}
