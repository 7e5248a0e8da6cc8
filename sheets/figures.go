package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// figures prints quantities in the units of the job: inches to 4 decimals with
// lbf, hp and ft/min, or mm to 3 with N, kW and m/min.
type figures struct{ qty.Unit }

// other is the system the job is not written in.
func (f figures) other() figures {
	if f.Unit == qty.Inches {
		return figures{qty.Metric}
	}
	return figures{qty.Inches}
}

func (f figures) len(l qty.Length) string { return f.Format(l) + " " + f.String() }

// short leaves off zeros behind, for lengths that nobody holds to the last
// digit (a stickout, a nose radius), and takes more decimals for what would
// print as nothing (a fine graduation).
func (f figures) short(l qty.Length) string {
	n, unit := 3, qty.Millimetre
	if f.Unit == qty.Inches {
		n, unit = 4, qty.Inch
	}
	least := unit // half a unit of the last decimal, times 25: 2 % of l
	for range n {
		least /= 10
	}
	for ; l != 0 && l.Abs() < 25*least && n < 6; n++ {
		least /= 10
	}
	s := f.Decimals(l, n)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " " + f.String()
}

func (f figures) size(d qty.Diameter) string     { return f.Format(d.Length()) }
func (f figures) fullSize(d qty.Diameter) string { return "Ø" + f.size(d) + " " + f.String() }
func (f figures) fine(l qty.Length) string       { return f.FormatFine(l) + " " + f.String() }
func (f figures) ra(l qty.Length) string         { return f.FormatRa(l) + " " + f.RaName() }

// both prints a diameter in the job's units and, in brackets, in the other.
func (f figures) both(d qty.Diameter) string {
	return f.fullSize(d) + " (" + f.other().fullSize(d) + ")"
}

// bothShort prints a length in both systems.
func (f figures) bothShort(l qty.Length) string {
	return f.short(l) + " (" + f.other().short(l) + ")"
}

// limits prints limits of size rounded inward, so that nothing on the paper
// lies outside what was asked for. A tolerance finer than the usual decimals
// gets more of them.
func (f figures) limits(low, high qty.Diameter) string {
	unit, n := qty.Millimetre, 3
	if f.Unit == qty.Inches {
		unit, n = qty.Inch, 4
	}
	step := unit
	for range n {
		step /= 10
	}
	lo, hi := -floor(-low.Length(), step), floor(high.Length(), step)
	for lo >= hi && step%10 == 0 && low < high {
		step, n = step/10, n+1
		lo, hi = -floor(-low.Length(), step), floor(high.Length(), step)
	}
	if lo > hi { // the tolerance is under a hundred nanometres, or upside down
		lo, hi, n = low.Length(), high.Length(), 6
	}
	return fmt.Sprintf("Ø%s to Ø%s %s", f.Decimals(lo, n), f.Decimals(hi, n), f)
}

// floor is the largest multiple of step that is not above l.
func floor(l, step qty.Length) qty.Length {
	q := l / step
	if l%step != 0 && l < 0 {
		q--
	}
	return q * step
}

// fitName is "Ø3.1496 H7" as drawings write it, or "" without a fit.
func (f figures) fitName(nominal qty.Diameter, fit string) string {
	switch {
	case fit == "":
		return ""
	case nominal > 0:
		return "Ø" + f.size(nominal) + " " + fit
	}
	return fit
}

// The conversions below are exact by definition of the pound and the inch
// (international yard and pound agreement, 1959; standard gravity 9.80665 m/s²).
const (
	newtonsPerLbf = 4.4482216152605
	wattsPerHP    = 550 * 0.3048 * newtonsPerLbf // 550 ft·lbf/s
	nmPerFtLbf    = 0.3048 * newtonsPerLbf
	mpaPerKsi     = 1000 * newtonsPerLbf / (25.4 * 25.4)
)

func (f figures) force(v qty.Force) string {
	return f.pick(float64(v), newtonsPerLbf, 0, 0)
}
func (f figures) forceName() string { return f.name("N", "lbf") }
func (f figures) power(p qty.Power) string {
	if f.Unit == qty.Inches {
		return decimals(float64(p)/wattsPerHP, 2)
	}
	return decimals(float64(p)/1000, 2)
}
func (f figures) powerName() string          { return f.name("kW", "hp") }
func (f figures) torque(t qty.Torque) string { return f.pick(float64(t), nmPerFtLbf, 0, 0) }
func (f figures) torqueName() string         { return f.name("N·m", "ft·lbf") }
func (f figures) stress(mpa float64) string  { return f.pick(mpa, mpaPerKsi, 0, 1) }
func (f figures) stressName() string         { return f.name("MPa", "ksi") }
func (f figures) degreesName() string        { return f.name("°C", "°F") }
func (f figures) unitWord() string           { return f.name("mm", "inches") }
func (f figures) name(metric, inches string) string {
	if f.Unit == qty.Inches {
		return inches
	}
	return metric
}

func (f figures) pick(si, perInchUnit float64, metric, inches int) string {
	if f.Unit == qty.Inches {
		return decimals(si/perInchUnit, inches)
	}
	return decimals(si, metric)
}

// decimals prints v with n decimals; what is no number, or beyond any machine,
// prints as "-".
func decimals(v float64, n int) string {
	if math.IsNaN(v) || math.Abs(v) > 1e12 {
		return "-"
	}
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return s
}

// number prints v with up to 4 decimals and no zeros behind.
func number(v float64) string {
	s := decimals(v, 4)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// speed prints rev/min as they stand on the machine's plate: 90, 22.4.
func speed(n qty.RevPerMin) string {
	s := decimals(float64(n), 1)
	return strings.TrimSuffix(s, ".0")
}

func minutes(m float64) string { return decimals(m, 1) }

// span prints a time for a person: "45 min", "3 h 20 min".
func span(m float64) string {
	if math.IsNaN(m) || m < 0 || m > 1e6 {
		return "-"
	}
	n := int(math.Ceil(m - 1e-9))
	if n < 60 {
		return fmt.Sprintf("%d min", n)
	}
	return fmt.Sprintf("%d h %02d min", n/60, n%60)
}

// change prints how far the cutter dial is turned from one setting to the
// next, in its graduations to a tenth, or as a length where the graduation is
// not known.
func (f figures) change(from, to qty.Diameter, graduation qty.Length) string {
	d := to.Minus(from)
	sign := ""
	if d > 0 {
		sign = "+"
	}
	if graduation <= 0 {
		return sign + f.Format(d)
	}
	tenths := math.Round(float64(d) / float64(graduation) * 10)
	if tenths == 0 {
		return "0"
	}
	if math.Mod(tenths, 10) == 0 {
		return sign + decimals(tenths/10, 0)
	}
	return sign + decimals(tenths/10, 1)
}

// step says where v stands in a ladder of gears: "step 5 of 12". Plates are
// rounded, so a value within half a percent is the step.
func step(r process.Range, v float64) (words string, on bool) {
	for i, s := range r.Steps {
		if math.Abs(s-v) <= 0.005*s {
			return fmt.Sprintf("step %d of %d", i+1, len(r.Steps)), true
		}
	}
	return "not a step of this machine", false
}

// figure prints one side of a change. Old and new are given together, so that
// both carry enough decimals to be told apart.
func (f figures) figure(v, beside plan.Figure) string {
	fixed := func(prefix string, n int, unit string) string {
		s := f.Decimals(v.Length, n)
		for v.Length != beside.Length && beside.Is == v.Is && n < 6 && s == f.Decimals(beside.Length, n) {
			n++
			s = f.Decimals(v.Length, n)
		}
		if v.Length != beside.Length && beside.Is == v.Is && s == f.Decimals(beside.Length, n) {
			return number(v.Length.Microns()) + " µm" // finer than the unit's decimals tell
		}
		return strings.TrimSpace(prefix + s + " " + unit)
	}
	n := 3
	if f.Unit == qty.Inches {
		n = 4
	}
	switch v.Is {
	case plan.FigureNone:
		return "none"
	case plan.FigureText:
		return v.Text
	case plan.FigureSize:
		return fixed("Ø", n, f.String())
	case plan.FigureLength:
		return fixed("", n, f.String())
	case plan.FigureFine:
		return fixed("", n+1, f.String())
	case plan.FigureFeed:
		return fixed("", n, f.String()+"/rev")
	case plan.FigureRa:
		if a, b := f.ra(v.Length), f.ra(beside.Length); a == b && v.Length != beside.Length && beside.Is == v.Is {
			return number(float64(v.Length)/1000) + " µm"
		}
		return f.ra(v.Length)
	case plan.FigureSurface:
		n := v.Number
		if f.Unit == qty.Inches {
			n = qty.CuttingSpeed(n).FeetPerMin()
		}
		return decimals(n, 1) + " " + f.SpeedName()
	}
	s := number(v.Number)
	if beside.Is == v.Is && beside.Number != v.Number && s == number(beside.Number) {
		s = strconv.FormatFloat(v.Number, 'g', -1, 64)
	} else if v.Number != 0 && math.Abs(v.Number) < 0.001 {
		s = strconv.FormatFloat(v.Number, 'g', 4, 64)
	}
	if v.Text == "°" || v.Text == "%" {
		return s + v.Text
	}
	return strings.TrimSpace(s + " " + v.Text)
}
