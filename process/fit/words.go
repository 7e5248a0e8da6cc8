package fit

import (
	"fmt"
	"math"
	"strconv"

	"borewright/process/qty"
)

// words puts physics into sentences in the units of a job.
type words struct{ u qty.Unit }

func (w words) length(mm float64) string { return w.u.Say(qty.FromMM(mm)) }

func (w words) lengths(b Band) string {
	return w.u.Format(qty.FromMM(b.Least)) + " to " + w.length(b.Most)
}

func (w words) fine(mm float64) string {
	return w.u.Say(qty.Fine(qty.FromMM(mm)))
}

// stress prints whole MPa (one decimal below 20), or psi to the nearest 100.
func (w words) stress(mpa float64) string {
	if w.u == qty.Inches {
		return strconv.Itoa(int(math.Round(mpa*145.0377/100))*100) + " psi"
	}
	if math.Abs(mpa) < 20 {
		return fmt.Sprintf("%.1f MPa", mpa)
	}
	return fmt.Sprintf("%.0f MPa", mpa)
}

// force prints kN with one decimal, or lbf to three figures.
func (w words) force(n float64) string {
	if w.u == qty.Inches {
		return threeFigures(n/4.4482216) + " lbf"
	}
	if math.Abs(n) < 1000 {
		return fmt.Sprintf("%.0f N", n)
	}
	return fmt.Sprintf("%.1f kN", n/1000)
}

// degrees prints a temperature in whole degrees.
func (w words) degrees(c float64) string {
	if w.u == qty.Inches {
		return fmt.Sprintf("%.0f °F (%.0f °C)", c*1.8+32, c)
	}
	return fmt.Sprintf("%.0f °C", c)
}

func threeFigures(v float64) string {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	n := 2 - int(math.Floor(math.Log10(math.Abs(v))))
	if n >= 0 {
		return strconv.FormatFloat(v, 'f', min(n, 3), 64)
	}
	step := math.Pow(10, float64(-n))
	return strconv.FormatFloat(math.Round(v/step)*step, 'f', 0, 64)
}
