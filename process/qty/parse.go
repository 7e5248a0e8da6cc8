package qty

import (
	"fmt"
	"math"
	"math/big"
	"strings"
)

// ParseLength reads a length that carries its own unit: "80 mm", "3.150 in",
// "0.0004in", "12 µm", "16 µin" (um and uin are taken too). A bare number is
// an error: only a job file has units of its own to lend. The decimal text is
// converted exactly and rounded once, to the nanometre.
func ParseLength(s string) (Length, error) {
	t := strings.TrimSpace(s)
	i := strings.LastIndexAny(t, "0123456789.")
	num, unit := strings.TrimSpace(t[:i+1]), strings.TrimSpace(t[i+1:])
	nm, ok := map[string]string{
		"mm": "1000000", "in": "25400000", "µm": "1000", "μm": "1000", "um": "1000",
		"µin": "25.4", "μin": "25.4", "uin": "25.4", "cm": "10000000", "m": "1000000000",
	}[unit]
	switch {
	case num == "":
		return 0, fmt.Errorf("%q is not a length; write a number and a unit, as in \"80 mm\" or \"3.150 in\"", s)
	case unit == "":
		return 0, fmt.Errorf("%q has no unit; write \"%s mm\" or \"%s in\"", s, num, num)
	case !ok:
		return 0, fmt.Errorf("%q: unknown unit %q; use mm, in, µm or µin", s, unit)
	}
	for i, c := range num {
		if c >= '0' && c <= '9' || c == '.' || i == 0 && (c == '+' || c == '-') {
			continue
		}
		return 0, fmt.Errorf("%q: %q is not a plain decimal number", s, num)
	}
	if len(num) > 32 {
		return 0, fmt.Errorf("%q: more digits than a length can have", s[:32]+"…")
	}
	v, ok := new(big.Rat).SetString(num)
	if !ok {
		return 0, fmt.Errorf("%q: %q is not a plain decimal number", s, num)
	}
	scale, _ := new(big.Rat).SetString(nm)
	f, _ := v.Mul(v, scale).Float64()
	if math.Abs(f) > 1e15 { // 1000 km: nothing on a boring mill
		return 0, fmt.Errorf("%q is too long for any machine", s)
	}
	return round(f), nil
}

// ParseDiameter reads a diameter that carries its own unit, as ParseLength.
func ParseDiameter(s string) (Diameter, error) {
	l, err := ParseLength(s)
	return Diameter(l), err
}
