package qty

import (
	"math"
	"strconv"
	"strings"
)

// Unit is the system a job is written and printed in.
type Unit int

// The two systems.
const (
	Metric Unit = iota // mm, µm, m/min
	Inches             // in, µin, ft/min
)

// String is the name used in a job file: "mm" or "in".
func (u Unit) String() string {
	if u == Inches {
		return "in"
	}
	return "mm"
}

// Word is the system as a person would name it: "mm" or "inches".
func (u Unit) Word() string {
	if u == Inches {
		return "inches"
	}
	return "mm"
}

// Number is a length as a number of this system, for the axis of a chart.
func (u Unit) Number(l Length) float64 {
	if u == Inches {
		return l.Inches()
	}
	return l.MM()
}

// RaName is the unit of roughness: "µin" or "µm".
func (u Unit) RaName() string {
	if u == Inches {
		return "µin"
	}
	return "µm"
}

// SpeedName is the unit of cutting speed: "ft/min" or "m/min".
func (u Unit) SpeedName() string {
	if u == Inches {
		return "ft/min"
	}
	return "m/min"
}

// Of turns a bare number of a file written in u into a length.
func (u Unit) Of(v float64) Length {
	if u == Inches {
		return FromInches(v)
	}
	return FromMM(v)
}

// RaOf turns a bare roughness (µin or µm) into a length.
func (u Unit) RaOf(v float64) Length {
	if u == Inches {
		return FromMicroInches(v)
	}
	return FromMM(v / 1000)
}

// Format prints a length without its unit: 4 decimals of an inch, 3 of a
// millimetre. Rounding is half away from zero, in whole nanometres, so the
// text does not depend on floating point.
func (u Unit) Format(l Length) string { return fixed(l, u.one(), u.decimals()) }

// FormatFine prints with one decimal more, for spring: 5 of an inch, 4 of a mm.
func (u Unit) FormatFine(l Length) string { return fixed(l, u.one(), u.decimals()+1) }

// Decimals prints a length with the given number of decimals, 0 to 6.
func (u Unit) Decimals(l Length, n int) string { return fixed(l, u.one(), n) }

// FormatRa prints a roughness in whole microinches or in µm to 2 decimals,
// without its unit.
func (u Unit) FormatRa(l Length) string {
	if u == Inches {
		return strconv.Itoa(int(math.Round(l.MicroInches())))
	}
	return strconv.FormatFloat(l.Microns(), 'f', 2, 64)
}

// fixed prints l/unit with n decimals, half away from zero, exactly. A value
// that rounds to nothing has no sign.
func fixed(l, unit Length, n int) string {
	neg := l < 0
	v := uint64(l.Abs())
	scale := uint64(1)
	for range n {
		scale *= 10
	}
	whole, rest := v/uint64(unit), v%uint64(unit)
	// rest < 25.4e6 and scale <= 1e6: the product stays far below 2^63.
	frac := (rest*scale + uint64(unit)/2) / uint64(unit)
	if frac >= scale {
		whole, frac = whole+1, frac-scale
	}
	var b strings.Builder
	if neg && (whole != 0 || frac != 0) {
		b.WriteByte('-')
	}
	b.WriteString(strconv.FormatUint(whole, 10))
	if n > 0 {
		b.WriteByte('.')
		s := strconv.FormatUint(frac, 10)
		b.WriteString(strings.Repeat("0", n-len(s)))
		b.WriteString(s)
	}
	return b.String()
}

// Round rounds a length to what Format prints: 0.0001 in or 0.001 mm. Sizes
// that a person sets or a program says are rounded so once, in the plan, and
// every page then says the same.
func (u Unit) Round(l Length) Length {
	step := u.step()
	half := step / 2
	if l < 0 {
		return -((-l + half) / step * step)
	}
	return (l + half) / step * step
}

// formatPlain leaves off zeros behind, and takes more decimals for what would
// print as nothing (a fine graduation).
func (u Unit) formatPlain(l Length) string {
	n, unit := u.decimals(), u.one()
	least := unit // half a unit of the last decimal, times 25: 2 % of l
	for range n {
		least /= 10
	}
	for ; l != 0 && l.Abs() < 25*least && n < 6; n++ {
		least /= 10
	}
	return strings.TrimSuffix(strings.TrimRight(u.Decimals(l, n), "0"), ".")
}

// decimals is how many Format prints of a length.
func (u Unit) decimals() int {
	if u == Inches {
		return 4
	}
	return 3
}

// one is one unit of length.
func (u Unit) one() Length {
	if u == Inches {
		return Inch
	}
	return Millimetre
}

// Up rounds a length up to what Format prints, Down rounds it down. A low limit
// goes up and a high limit down, so that a size within what is printed is
// within what was asked for.
func (u Unit) Up(l Length) Length {
	r := u.Round(l)
	if r < l {
		r += u.step()
	}
	return r
}

// Down rounds a length down to what Format prints.
func (u Unit) Down(l Length) Length {
	r := u.Round(l)
	if r > l {
		r -= u.step()
	}
	return r
}

// SayLimits prints a low and a high limit of size with the unit, rounded
// inward, so that nothing that is printed lies outside what was asked for:
// "3.1497 to 3.1507 in"; equal ones once. A tolerance finer than the usual decimals gets more of
// them.
func (u Unit) SayLimits(low, high Diameter) string { return u.sayLimits("", low, high) }

// SayLimitsOfSize prints them as diameters: "Ø3.1497 to Ø3.1507 in".
func (u Unit) SayLimitsOfSize(low, high Diameter) string { return u.sayLimits("Ø", low, high) }

func (u Unit) sayLimits(prefix string, low, high Diameter) string {
	n, step := u.decimals(), u.step()
	lo, hi := -floor(-low.Length(), step), floor(high.Length(), step)
	for lo >= hi && step%10 == 0 && low < high {
		step, n = step/10, n+1
		lo, hi = -floor(-low.Length(), step), floor(high.Length(), step)
	}
	if lo > hi { // the tolerance is under a hundred nanometres, or upside down
		lo, hi, n = low.Length(), high.Length(), 6
	}
	if lo == hi {
		return prefix + u.Decimals(lo, n) + " " + u.String()
	}
	return prefix + u.Decimals(lo, n) + " to " + prefix + u.Decimals(hi, n) + " " + u.String()
}

// floor is the largest multiple of step that is not above l.
func floor(l, step Length) Length {
	q := l / step
	if l%step != 0 && l < 0 {
		q--
	}
	return q * step
}

// step is the least that Format prints.
func (u Unit) step() Length {
	if u == Inches {
		return 2540 * Nanometre
	}
	return Micrometre
}
