package ask

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"borewright/process/qty"
	"borewright/sheets/talk"
)

// What is asked about before it is taken: readings that can be, and are rarely meant. The
// planner judges them again, by its own way.
const (
	mostOff  = 1.016 // mm, 0.04 in, that work set up by eye stands off the spindle (common practice, no source)
	mostLean = 0.005 // radians that it leans
	mostWorn = 0.1   // of the radius that a bore is worn by, where its wall is not known
)

// unit is that of the figures of the job.
func (f *form) unit() qty.Unit {
	if f.answers["units"] == "mm" {
		return qty.Metric
	}
	return qty.Inches
}

// mm is a length as answered; NaN where it is none.
func (f *form) mm(s string) float64 {
	if s = strings.TrimSpace(s); plain.MatchString(s) {
		s += " " + f.unit().String()
	}
	l, err := qty.ParseLength(s)
	if err != nil {
		return math.NaN()
	}
	return l.MM()
}

// list are the lengths of an answer.
func (f *form) list(s string) (out []float64) {
	parts := strings.Split(s, ",")
	if len(parts) == 1 {
		parts = strings.Fields(s)
	}
	for _, p := range parts {
		out = append(out, f.mm(p))
	}
	return out
}

// degrees are clock positions round from 12, as answered; nil where they are none.
func degrees(s string) (out []float64) {
	parts := strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' })
	hours := strings.HasPrefix(clocks(append([]string(nil), parts...)), `["`)
	for _, p := range parts {
		h, m, _ := strings.Cut(strings.TrimSuffix(p, "°"), ":")
		a, err := strconv.ParseFloat(h, 64)
		if err != nil {
			return nil
		}
		if hours {
			minutes, _ := strconv.ParseFloat(m, 64)
			a = math.Mod(30*a+minutes/2, 360)
		}
		out = append(out, a)
	}
	return out
}

// swept is twice the first harmonic of readings round a circle, right and up: how far it stands
// off, in the sense that the dial counts. false where the positions are not even.
func swept(at, read []float64) (x, y float64, ok bool) {
	n := float64(len(at))
	if len(at) < 3 || len(at) != len(read) {
		return 0, 0, false
	}
	var c, s float64
	for i, a := range at {
		sin, cos := math.Sincos(a * math.Pi / 180)
		x, y, c, s = x+2*read[i]*sin/n, y+2*read[i]*cos/n, c+cos, s+sin
	}
	return x, y, math.Hypot(c, s) < 0.01*n && !math.IsNaN(x+y)
}

// dialDoubts are those of a sweep, the nth, whose dial read so.
func (f *form) dialDoubts(n int) func(string) []talk.Doubt {
	type sweep struct{ x, y, depth, span float64 } // span: of a face, on which it was swept
	of := func(i int, dial string) (s sweep, ok bool) {
		at := fmt.Sprintf("sweep[%d].", i)
		s.x, s.y, ok = swept(degrees(f.answers[at+"at"]), f.list(dial))
		if f.answers[at+"face"] == "yes" {
			s.span = f.mm(f.answers[at+"diameter"])
		}
		s.depth = f.mm(f.answers[at+"depth"])
		return s, ok
	}
	return func(dial string) (all []talk.Doubt) {
		doubt := func(format string, a ...any) {
			all = append(all, talk.Doubt{Say: fmt.Sprintf(format, a...) + ": are clock positions, units and the sign of the dial as they were read?"})
		}
		leans := func(tilt float64) {
			if tilt > mostLean {
				doubt("by these readings the work leans %.3g mrad, and work set up by eye comes within %.3g mrad", 1000*tilt, 1000*mostLean)
			}
		}
		s, ok := of(n, dial)
		switch off := math.Hypot(s.x, s.y); {
		case !ok:
		case s.span > 0:
			leans(2 * off / s.span)
		case off > mostOff:
			doubt("by these readings the work stands %s off the spindle, and work set up by eye comes within %s", f.says(off), f.says(mostOff))
		default:
			for i := range n {
				o, ok := of(i, f.answers[fmt.Sprintf("sweep[%d].dial", i)])
				if ok && o.span == 0 && math.Abs(o.depth-s.depth) > 0 {
					leans(math.Hypot(s.x-o.x, s.y-o.y) / math.Abs(o.depth-s.depth))
				}
			}
		}
		return all
	}
}

// wearDoubts are those of what a worn bore was read at: deeper than its wall, or than a bore
// usually wears. across: as diameters.
func (f *form) wearDoubts(bore string, across bool) func(string) []talk.Doubt {
	return func(read string) []talk.Doubt {
		for i := 0; f.answers[fmt.Sprintf("station[%d].name", i)] != ""; i++ {
			at := fmt.Sprintf("station[%d].", i)
			if f.answers[at+"name"] != f.answers[bore+"station"] {
				continue
			}
			radius, wall := f.mm(f.answers[at+"diameter"])/2, f.mm(f.answers[at+"wall"])
			for _, r := range f.list(read) {
				if across {
					r /= 2
				}
				switch worn := r - radius; {
				case wall > 0 && worn >= wall:
					return []talk.Doubt{{Say: fmt.Sprintf("that is %s deep in the wall, and %s of it was said to be there: is it as it was read?", f.says(worn), f.says(wall))}}
				case worn > mostWorn*radius && !(wall > 0):
					return []talk.Doubt{{Say: fmt.Sprintf("that is worn %s deep on the radius: is it as it was read?", f.says(worn))}}
				}
			}
		}
		return nil
	}
}

func (f *form) says(mm float64) string { return f.unit().Say(qty.Plain(qty.FromMM(mm))) }
