package post

import (
	"bytes"
	"fmt"
	"strings"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/qty"
)

// Act is one thing that a program makes the machine do, in words that hang on
// neither block numbers nor comments nor how the words are spaced.
type Act struct {
	Line int // of the block
	Text string
}

// Acts replays a program and lists what the machine does, in order. c is the
// control it is written for; nil takes decimal points and every common word.
// read is false where the program does not read without a fault: then nothing
// is to be concluded from the list.
func Acts(program []byte, c *process.Control) (acts []Act, comments []string, read bool) {
	unknown := c == nil
	if unknown {
		c = &process.Control{DecimalPoint: true, PartPlaces: 6, BlockNumbers: true, FeedPerRev: true, Cycles: true, ReturnWords: true,
			DwellWord: 'P', OrientedStop: true, Comments: true, SpaceWords: true, LineMost: 250, WorkOffset: 54}
	}
	d, bad := dialect(c)
	if len(bad) > 0 {
		return nil, nil, false
	}
	if unknown {
		d.Percent, d.Numbers, d.Lacks = rs274.Optional, rs274.PointMay, 0
	}
	if unknown && !bytes.Contains(program, []byte("\n")) {
		d.LineEnd = rs274.EndCR
	}
	read = true
	parts := programsIn(program)
	for _, part := range parts {
		if len(parts) > 1 {
			d.Percent = rs274.Optional
		}
		faults, err := rs274.Replay(bytes.NewReader(part.text), d, func(e rs274.Event) error {
			if e.Kind == rs274.Message {
				comments = append(comments, e.Text)
			} else {
				acts = append(acts, Act{part.line + e.Line, act(e)})
			}
			return nil
		})
		read = read && err == nil && len(faults) == 0
	}
	return acts, comments, read
}

// part is one program of a file; line is how many lines stand before it.
type part struct {
	text []byte
	line int
}

// programsIn takes a file apart into its programs: one begins at each line with an O word,
// but for the first. Percent lines of a file of several are left out.
func programsIn(file []byte) (parts []part) {
	begin, line, seen := 0, 0, false
	for at, n := 0, 0; at < len(file); at, n = at+len(nextLine(file[at:])), n+1 {
		if text := bytes.TrimLeft(file[at:], "\x00 "); len(text) > 0 && text[0] == 'O' {
			if seen {
				parts = append(parts, part{file[begin:at], line})
				begin, line = at, n
			}
			seen = true
		}
	}
	if parts = append(parts, part{file[begin:], line}); len(parts) > 1 {
		for i := range parts {
			parts[i].text = bytes.ReplaceAll(parts[i].text, []byte("%"), nil) // no comment has one
		}
	}
	return parts
}

// nextLine is the first line of a text, with its end.
func nextLine(text []byte) []byte {
	n := bytes.IndexAny(text, "\r\n") + 1
	switch {
	case n == 0:
		return text
	case text[n-1] == '\r' && n < len(text) && text[n] == '\n':
		n++
	}
	return text[:n]
}

func act(e rs274.Event) string {
	size := func(l qty.Length) string { return e.Units.Format(l) }
	axes := map[rune]rs274.Axes{'X': rs274.X, 'Y': rs274.Y, 'Z': rs274.Z, 'U': rs274.U, 'V': rs274.V, 'W': rs274.W}
	switch e.Kind {
	case rs274.Move:
		var to []string
		for _, letter := range "XYZUVW" {
			if e.From.Moved(e.To)&axes[letter] != 0 {
				to = append(to, string(letter)+size(e.To.Linear(byte(letter))))
			}
		}
		for _, r := range []struct {
			name string
			axis rs274.Axes
			v    float64
		}{{"A", rs274.A, e.To.A}, {"B", rs274.B, e.To.B}, {"C", rs274.C, e.To.C}} {
			if e.From.Moved(e.To)&r.axis != 0 {
				to = append(to, fmt.Sprintf("%s%g", r.name, r.v))
			}
		}
		s := fmt.Sprintf("%s to %s", e.Motion, strings.Join(to, " "))
		if len(to) == 0 {
			s = fmt.Sprintf("%s, staying", e.Motion)
		}
		if e.Motion == rs274.Rapid {
			return s
		}
		per := "min"
		if e.PerRev {
			per = "rev"
		}
		s += fmt.Sprintf(", %s %s/%s, %g rev/min %s", size(e.Feed), e.Units, per, e.Speed, e.Spindle)
		if e.Motion == rs274.Arc {
			s += ", radius " + size(e.Radius)
		}
		return s
	case rs274.Dwell:
		if e.Seconds > 0 {
			return fmt.Sprintf("dwell %.3g s", e.Seconds)
		}
		return fmt.Sprintf("dwell %.3g turns", e.Revs)
	case rs274.Stop:
		if e.Optional {
			return "optional stop"
		}
		return "stop"
	case rs274.SpindleOn:
		return fmt.Sprintf("spindle on, %s, %g rev/min", e.Spindle, e.Speed)
	case rs274.Coolant, rs274.Gear, rs274.ToolChange:
		return fmt.Sprintf("%s %d", e.Kind, e.Code)
	case rs274.Return:
		var to []string
		for _, letter := range "XYZUVW" {
			switch at := e.Center.Linear(byte(letter)); {
			case e.Axes&axes[letter] == 0:
			case e.Code == 53:
				to = append(to, string(letter)+size(at))
			default:
				to = append(to, string(letter))
			}
		}
		return fmt.Sprintf("home by G%d: %s", e.Code, strings.Join(to, " "))
	case rs274.LengthOffset:
		if e.Code == 0 {
			return "no length offset"
		}
		return fmt.Sprintf("length offset H%d", e.Code)
	case rs274.Orient:
		if e.Angle >= 0 {
			return fmt.Sprintf("oriented stop at %g deg", e.Angle)
		}
		return "oriented stop"
	}
	return e.Kind.String()
}
