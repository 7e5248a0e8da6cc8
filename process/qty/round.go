package qty

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// The roundings of the table of kinds. A figure that rounds to nothing has no
// sign, and what is no number, or beyond any machine, prints as "-".

// decimals prints v with n decimals.
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

// places rounds to n decimals.
func places(n int) func(float64) string {
	return func(v float64) string { return decimals(v, n) }
}

// upTo rounds to n decimals and drops the zeros behind.
func upTo(n int) func(float64) string {
	return func(v float64) string {
		s := decimals(v, n)
		if strings.Contains(s, ".") {
			s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
		}
		return s
	}
}

// threeFigures rounds to three figures, small ones to two decimals at most:
// more is not known of a friction or a stiffness.
func threeFigures(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return decimals(v, 0)
	}
	n := 2 - int(math.Floor(math.Log10(math.Abs(v))))
	if n >= 0 {
		return decimals(v, min(n, 2))
	}
	step := math.Pow(10, float64(-n))
	return decimals(math.Round(v/step)*step, 0)
}

// twoFigures rounds to two figures.
func twoFigures(v float64) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 2, 64), 64)
	if err != nil || math.IsNaN(r) || math.Abs(r) > 1e12 {
		return decimals(v, 0)
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}

// margin rounds to two figures. Below 1 the bar sings: what falls short of it is not told as 1.
func margin(v float64) string {
	if s := twoFigures(v); v >= 1 || s != "1" {
		return s
	}
	return "0.99"
}

// newtons is a force of newtons or, from a thousand of them, of kilonewtons.
func newtons(v float64) string {
	if math.Abs(v) < 1000 {
		return decimals(v, 0) + " N"
	}
	return decimals(v/1000, 1) + " kN"
}

// clock names a clock position to the nearest quarter of an hour, as a person
// at the spindle would: "3 o'clock", "4:30". 0° is 12 o'clock.
func clock(deg float64) string {
	if deg = math.Mod(deg, 360); !(deg >= 0) {
		deg = 0
	}
	h, m := onClock(int(math.Round(deg*2/15)) * 15)
	if m == 0 {
		return fmt.Sprintf("%d o'clock", h)
	}
	return fmt.Sprintf("%d:%02d", h, m)
}

// exactClock tells a clock position apart from every other: in words where they
// are exact, else to the minute of the clock (half a degree) with its degrees.
func exactClock(deg float64) string {
	minutes := math.Mod(deg*2, 720)
	if minutes < 0 {
		minutes += 720
	}
	if math.Abs(minutes-15*math.Round(minutes/15)) < 1e-6 {
		return clock(deg)
	}
	h, m := onClock(int(math.Round(minutes)))
	return fmt.Sprintf("%d:%02d (%s°)", h, m, strconv.FormatFloat(deg, 'f', -1, 64))
}

// onClock turns minutes after 12, not below 0, into hour and minute.
func onClock(minutes int) (h, m int) {
	if h = minutes / 60 % 12; h == 0 {
		h = 12
	}
	return h, minutes % 60
}

// almost is by how much a time may be above a whole minute and still be that one, min: sums of decimals
// are not exact.
const almost = 1e-9

// upToMinute rounds a time up to the minute, as hoursAndMinutes does.
func upToMinute(m float64) string { return decimals(math.Ceil(m-almost), 0) }

// hoursAndMinutes rounds a time up to the minute: a shift is planned by it.
func hoursAndMinutes(m float64) string {
	if math.IsNaN(m) || m < 0 || m > 1e6 {
		return "-"
	}
	n := int(math.Ceil(m - almost))
	if n < 60 {
		return fmt.Sprintf("%d min", n)
	}
	return fmt.Sprintf("%d h %02d min", n/60, n%60)
}
