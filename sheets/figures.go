package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"borewright/process"

	"borewright/process/qty"
	"borewright/process/revision"
)

// fitName is "Ø3.1496 H7" as drawings write it, or "" without a fit.
func fitName(u qty.Unit, nominal qty.Diameter, fit string) string {
	switch {
	case fit == "":
		return ""
	case nominal > 0:
		return "Ø" + u.Bare(nominal) + " " + fit
	}
	return fit
}

// number prints a plain number.
func number(v float64) string { return bare(qty.KindNumber, v) }

// factor prints a number near 1.
func factor(v float64) string { return bare(qty.KindFactor, v) }

// bare prints a figure whose unit, if it has one, is the same in both systems,
// without it.
func bare(k qty.Kind, v float64) string { return qty.Metric.Bare(k.Of(v)) }

// say prints such a figure with its unit.
func say(k qty.Kind, v float64) string { return qty.Metric.Say(k.Of(v)) }

// change prints how far the cutter dial is turned from one setting to the
// next, in its graduations to a tenth, or as a length where the graduation is
// not known.
func change(u qty.Unit, from, to qty.Diameter, graduation qty.Length) string {
	d := to.Minus(from)
	sign := ""
	if d > 0 {
		sign = "+"
	}
	if graduation <= 0 {
		return sign + u.Format(d)
	}
	tenths := math.Round(float64(d) / float64(graduation) * 10)
	if tenths == 0 {
		return "0"
	}
	return sign + number(tenths/10)
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
func figure(u qty.Unit, v, beside revision.Figure) string {
	length := func(kind func(qty.Length) qty.Figure) string {
		other := kind(beside.Length)
		if beside.Is != v.Is {
			other = kind(v.Length)
		}
		s, _ := u.SayApart(kind(v.Length), other)
		return s
	}
	switch v.Is {
	case revision.FigureNone:
		return "none"
	case revision.FigureText:
		return v.Text
	case revision.FigureSize:
		return length(func(l qty.Length) qty.Figure { return qty.Diameter(l).Figure() })
	case revision.FigureLength:
		return length(qty.Length.Figure)
	case revision.FigureFine:
		return length(qty.Fine)
	case revision.FigureFeed:
		return length(qty.Feed)
	case revision.FigureRa:
		return length(qty.Roughness)
	case revision.FigureSurface:
		return u.Say(qty.KindExactCuttingSpeed.Of(v.Number))
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
