package entry

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"

	"borewright/process"
	"borewright/process/qty"
)

// lengthOf reads a length with or without its unit.
func lengthOf(u qty.Unit, s string) (qty.Length, error) {
	s = strings.TrimSpace(s)
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		s += " " + u.String()
	}
	l, err := qty.ParseLength(s)
	if err == nil && l <= 0 {
		err = fmt.Errorf("%q is not a size", s)
	}
	return l, err
}

func diameterOf(u qty.Unit, s string) (qty.Diameter, error) {
	l, err := lengthOf(u, s)
	return qty.Diameter(l), err
}

// raOf reads a roughness with or without its unit.
func raOf(u qty.Unit, s string) (qty.Length, error) {
	if _, err := strconv.ParseFloat(strings.TrimSpace(s), 64); err == nil {
		s += " " + u.Name(qty.KindRoughness)
	}
	return lengthOf(u, s)
}

// landOf reads the width of a worn land.
func landOf(u qty.Unit, s string) (qty.Length, error) {
	l, err := lengthOf(u, s)
	if err == nil && l > qty.Millimetre {
		err = fmt.Errorf("%q is wider than any worn land; up to %s", s, u.Say(qty.Millimetre))
	}
	return l, err
}

// temperatureOf reads the temperature of work or gauge: -20 to 60 °C, as a results file
// takes it.
func temperatureOf(u qty.Unit, s string) (qty.Temperature, error) {
	t, err := qty.ParseTemperature(u, s)
	if c := t.Celsius(); err == nil && (c < -20 || c > 60) {
		err = fmt.Errorf("%q is out of range; from %s to %s is gauged", s, u.Say(qty.FromCelsius(-20)), u.Say(qty.FromCelsius(60)))
	}
	return t, err
}

// minute is how a time is written.
const minute = "2006-01-02 15:04"

// whenOf reads a time as it is kept: the clock's where there is none, a time of the clock's
// day where the day is not given. What is no time but words stays as it is: "2nd shift".
func whenOf(now time.Time, s string) (string, error) {
	s = strings.TrimSpace(s)
	if s == "" {
		return now.Format(minute), nil
	}
	for _, layout := range []string{minute, "2006-01-02 15:04:05", "2006-01-02T15:04", "2006-01-02T15:04:05"} {
		if t, err := time.Parse(layout, s); err == nil {
			return t.Format(minute), nil
		}
	}
	if t, err := time.Parse("15:04", s); err == nil {
		return now.Format("2006-01-02 ") + t.Format("15:04"), nil
	}
	if t, err := time.Parse("2006-01-02", s); err == nil {
		return t.Format("2006-01-02"), nil
	}
	words := func(r rune) bool { return unicode.IsLetter(r) && r != 'T' }
	if strings.ContainsFunc(s, words) {
		return nameOf(s)
	}
	return "", fmt.Errorf("%q is not a time; write it as \"%s\", or \"14:20\" for today", s, minute)
}

// nameOf reads a name or a mark as a results file takes it.
func nameOf(s string) (string, error) {
	s = strings.TrimSpace(s)
	if n := len([]rune(s)); n > 60 {
		return "", fmt.Errorf("%d characters; up to 60 are kept", n)
	}
	return s, nil
}

// sizeOf reads DIAMETER, DEPTH=DIAMETER or DEPTH@CLOCK=DIAMETER.
func sizeOf(job *process.Job, station int, s string) (process.Size, error) {
	size := process.Size{Depth: process.Unplaced, At: -1}
	place, d, placed := strings.Cut(s, "=")
	if !placed {
		d = s
	} else {
		depth, at, clocked := strings.Cut(place, "@")
		var err error
		if clocked {
			if size.At, err = clockOf(at); err != nil {
				return size, err
			}
		}
		st := job.Stations[station]
		switch strings.TrimSpace(depth) {
		case "near":
			size.Depth = st.From
		case "middle":
			size.Depth = st.From + st.Length()/2
		case "far":
			size.Depth = st.To
		case "":
		default:
			if _, bare := strconv.ParseFloat(strings.TrimSpace(depth), 64); bare == nil {
				depth += " " + job.Units.String()
			}
			if size.Depth, err = qty.ParseLength(depth); err != nil {
				return size, fmt.Errorf("depth: %w", err)
			}
			if size.Depth < 0 {
				return size, fmt.Errorf("depth: %s lies outside of the work", depth)
			}
		}
	}
	var err error
	size.Diameter, err = diameterOf(job.Units, d)
	return size, err
}

func fieldsOf(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' })
}

// clocksOf reads clock positions.
func clocksOf(list []string) ([]float64, error) {
	var out []float64
	for _, s := range list {
		a, err := clockOf(s)
		if err != nil {
			return nil, err
		}
		out = append(out, a)
	}
	return out, nil
}

// clockOf reads "12", "1:30" or "90°" as degrees from 12 o'clock. Of a pair
// as sheets print it, "12 - 6", the first counts.
func clockOf(s string) (float64, error) {
	t := strings.TrimSpace(s)
	bad := fmt.Errorf("%q is not a clock position; write 12, 1:30, 3 and so on, or degrees as 90°", s)
	for _, mark := range []string{"°", "deg"} {
		if d, ok := strings.CutSuffix(t, mark); ok {
			v, err := strconv.ParseFloat(strings.TrimSpace(d), 64)
			if err != nil || v < 0 || v > 360 {
				return 0, bad
			}
			return math.Mod(v, 360), nil
		}
	}
	t, _, _ = strings.Cut(t, "-")
	hour, minute, _ := strings.Cut(strings.TrimSpace(t), ":")
	h, err := strconv.Atoi(hour)
	if err != nil || h < 1 || h > 12 {
		return 0, bad
	}
	m := 0
	if minute != "" {
		if m, err = strconv.Atoi(minute); err != nil || m < 0 || m > 59 {
			return 0, bad
		}
	}
	return math.Mod(float64(h)*30+float64(m)/2, 360), nil
}
