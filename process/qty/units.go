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
func (u Unit) Format(l Length) string {
	if u == Inches {
		return fixed(l, Inch, 4)
	}
	return fixed(l, Millimetre, 3)
}

// FormatFine prints with one decimal more, for spring: 5 of an inch, 4 of a mm.
func (u Unit) FormatFine(l Length) string {
	if u == Inches {
		return fixed(l, Inch, 5)
	}
	return fixed(l, Millimetre, 4)
}

// Decimals prints a length with the given number of decimals, 0 to 6.
func (u Unit) Decimals(l Length, n int) string {
	if u == Inches {
		return fixed(l, Inch, n)
	}
	return fixed(l, Millimetre, n)
}

// FormatRa prints a roughness in whole microinches or in µm to 2 decimals,
// without its unit.
func (u Unit) FormatRa(l Length) string {
	if u == Inches {
		return strconv.Itoa(int(math.Round(l.MicroInches())))
	}
	return strconv.FormatFloat(l.Microns(), 'f', 2, 64)
}

// FormatSpeed prints a cutting speed in whole m/min or ft/min, without unit.
func (u Unit) FormatSpeed(v CuttingSpeed) string {
	f := float64(v)
	if u == Inches {
		f = v.FeetPerMin()
	}
	return strconv.Itoa(int(math.Round(f)))
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

// Say prints a length with its unit, for sentences: "0.0040 in".
func (u Unit) Say(l Length) string { return u.Format(l) + " " + u.String() }

// SayRa prints a roughness with its unit.
func (u Unit) SayRa(l Length) string { return u.FormatRa(l) + " " + u.RaName() }

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

// SayLimits prints a low and a high limit with the unit, rounded inward:
// "3.1497 to 3.1508 in".
func (u Unit) SayLimits(low, high Diameter) string {
	return u.Format(u.Up(low.Length())) + " to " + u.Say(u.Down(high.Length()))
}

// step is the least that Format prints.
func (u Unit) step() Length {
	if u == Inches {
		return 2540 * Nanometre
	}
	return Micrometre
}
