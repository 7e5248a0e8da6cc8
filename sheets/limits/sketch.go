package limits

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"borewright/process/fit/iso286"
	"borewright/process/fit/standard"
	"borewright/process/qty"
)

// Sketch draws the tolerance zones of a fit along a scale of deviations, at
// most 80 columns wide, with the limits of size below. Sizes written in inches
// are drawn on a scale of ten-thousandths and told in inches.
func Sketch(f standard.Fit) string {
	type bar struct {
		name string
		l    iso286.Limits
	}
	var bars []bar
	if f.HoleLimits != nil {
		bars = append(bars, bar{"hole  " + f.Hole, *f.HoleLimits})
	}
	if f.ShaftLimits != nil {
		bars = append(bars, bar{"shaft " + f.Shaft, *f.ShaftLimits})
	}
	name, unit, per := "µm", "µm", qty.Micrometre
	value := func(l qty.Length) string { return signed(l.Microns(), 2) }
	if f.Units == qty.Inches {
		name, unit, per = "0.0001 in", "in", 2540*qty.Nanometre
		value = func(l qty.Length) string { return deviation(qty.Inches, l) }
	}

	low, high := qty.Length(0), qty.Length(0)
	for _, b := range bars {
		low, high = min(low, b.l.Lower), max(high, b.l.Upper)
	}
	step := niceStep(float64(high-low)/float64(per), 7)
	first := int(math.Floor(float64(low) / float64(per) / step))
	last := int(math.Ceil(float64(high) / float64(per) / step))
	if last == first {
		last++
	}
	const left = 14
	division := 60 / (last - first) // whole columns, so that the marks stand evenly
	wide := division * (last - first)
	column := func(units float64) int { // 0 .. wide
		return int(math.Round((units/step - float64(first)) * float64(division)))
	}
	var out strings.Builder
	line := func(s string) { out.WriteString(strings.TrimRight(s, " ") + "\n") }
	line(f.String() + "   (" + heading(f) + ")")
	line("")

	marks, ticks := blank(left+wide+6), blank(left+wide+1)
	end := 0
	for i := first; i <= last; i++ {
		c := left + column(float64(i)*step)
		label := []rune(signed(float64(i)*step, 6))
		at := max(0, c-len(label)/2)
		if at > end || i == first {
			copy(marks[at:], label)
			end = at + len(label)
		}
	}
	for c := left; c <= left+wide; c++ {
		ticks[c] = '─'
	}
	for i := first; i <= last; i++ {
		ticks[left+column(float64(i)*step)] = '┴'
	}
	zero := left + column(0)
	ticks[zero] = '┼'
	copy(marks, []rune(name))
	line(string(marks))
	line(string(ticks))
	for _, b := range bars {
		row := blank(left + wide + 1)
		copy(row, []rune(b.name))
		row[zero] = '│'
		from, to := left+column(float64(b.l.Lower)/float64(per)), left+column(float64(b.l.Upper)/float64(per))
		if to == from { // too narrow to draw: a mark all the same
			to = min(from+1, left+wide)
			from = to - 1
		}
		for c := from; c <= to; c++ {
			row[c] = '█'
		}
		line(string(row))
	}
	line("")
	for _, b := range bars {
		lo, hi := b.l.Sizes(f.Nominal)
		line(fmt.Sprintf("%-13s %s %s   (%s / %s %s)", b.name, sizes(f.Units, lo, hi), f.Units, value(b.l.Lower), value(b.l.Upper), unit))
	}
	if c, ok := f.Clearance(); ok {
		line(fmt.Sprintf("%-13s %s", c.Kind(), sayRange(c, func(l qty.Length) string {
			return strings.TrimPrefix(value(l), "+")
		}, unit)))
	}
	return out.String()
}

// sayRange tells a clearance range in words.
func sayRange(c iso286.Range, say func(qty.Length) string, unit string) string {
	switch c.Kind() {
	case iso286.ClearanceFit:
		return fmt.Sprintf("%s to %s %s loose, on diameter", say(c.Least), say(c.Most), unit)
	case iso286.InterferenceFit:
		return fmt.Sprintf("%s to %s %s tight, on diameter", say(-c.Most), say(-c.Least), unit)
	}
	return fmt.Sprintf("%s %s tight to %s %s loose, on diameter", say(-c.Least), unit, say(c.Most), unit)
}

// sizes prints limits of size: 4 decimals of a millimetre where the half µm of
// a js class or limits in inches need it, 5 of an inch; what is cut off is cut inward.
func sizes(u qty.Unit, low, high qty.Diameter) string {
	n := 3
	if u == qty.Inches {
		const step = qty.Diameter(qty.Inch / 100_000)
		n = 5
		low, high = (low+step-1)/step*step, high/step*step
	} else if (low.Length()%qty.Micrometre != 0) || (high.Length()%qty.Micrometre != 0) {
		const step = qty.Diameter(qty.Micrometre / 10)
		n = 4
		low, high = (low+step-1)/step*step, high/step*step
	}
	return u.Decimals(low.Length(), n) + " to " + u.Decimals(high.Length(), n)
}

// signed prints +25, 0, −6.5 with up to n decimals and a true minus sign.
func signed(v float64, n int) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', n, 64)
	s = trimZeros(s)
	switch {
	case s == "0":
		return s
	case v < 0:
		return "−" + s
	}
	return "+" + s
}

// niceStep is 1, 2 or 5 times a power of ten that cuts span into at most n.
func niceStep(span float64, n int) float64 {
	if span <= 0 {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(span/float64(n))))
	for _, k := range []float64{1, 2, 5, 10} {
		if span/(k*p) <= float64(n) {
			return k * p
		}
	}
	return 10 * p
}

func blank(n int) []rune { return []rune(strings.Repeat(" ", n)) }

// heading is the standard, what a class is in its symbols, and the range of sizes that
// share the limits.
func heading(f standard.Fit) string {
	size := func(u qty.Unit, d qty.Diameter) string { return trimZeros(u.Decimals(d.Length(), 6)) }
	if f.Class == "" {
		return fmt.Sprintf("ISO 286-1, sizes over %s up to %s mm", size(qty.Metric, f.Over), size(qty.Metric, f.Upto))
	}
	is := ""
	if f.Symbols[1] != "" {
		is = strings.Join(f.Symbols[:], "/") + ", "
	}
	return fmt.Sprintf("ANSI B4.1, %ssizes over %s up to %s in", is, size(qty.Inches, f.Over), size(qty.Inches, f.Upto))
}

func trimZeros(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}
