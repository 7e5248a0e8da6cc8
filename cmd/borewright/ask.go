package main

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"borewright/process"
	"borewright/process/qty"
)

// questions asks a person. Questions go to standard error, so that results
// alone stand in standard output.
type questions struct {
	in  *bufio.Reader
	out io.Writer
	end bool // no more answers come
}

func newQuestions(cmd *cobra.Command) *questions {
	return &questions{in: bufio.NewReader(cmd.InOrStdin()), out: cmd.ErrOrStderr()}
}

// ask gives the answer, or usual where there is none.
func (q *questions) ask(what, usual string) string {
	if q.end {
		return usual
	}
	if usual != "" {
		what += " [" + usual + "]"
	}
	fmt.Fprintf(q.out, "%s: ", what)
	line, err := q.in.ReadString('\n')
	q.end = err != nil
	if line = strings.TrimSpace(line); line == "" {
		return usual
	}
	return line
}

func (q *questions) number(what string, usual int) (int, error) {
	s := q.ask(what, strconv.Itoa(usual))
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 {
		return 0, fmt.Errorf("%q is not the number of a pass", s)
	}
	return n, nil
}

func (q *questions) yes(what string) bool {
	s := strings.ToLower(q.ask(what+" (yes or no)", "no"))
	return s == "y" || s == "yes"
}

func fieldsOf(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' })
}

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
