// Package path is the way of the tip through a program, step by step, for those who
// draw it. It judges nothing; post/verify does.
package path

import (
	"bytes"
	"errors"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process/plan"
	"borewright/process/qty"
)

// Kind is what a step does.
type Kind int

// The kinds of step.
const (
	Rapid Kind = iota // along the bore
	Feed
	Across // across it, by either
	Dwell
	Stop
	Home // a slide goes to its own place, which the program does not know
	End
)

// Step is one thing that a program has the machine do.
type Step struct {
	Line     int
	Kind     Kind
	From, To qty.Length // depth of the tip, along the feed; the same where it does not move so
	Known    bool       // From is known; before the first move it is wherever the operator left it
}

// stepsMost are the steps that are kept: more than anybody looks at.
const stepsMost = 4000

// far bounds depths, so that sums of them do not overflow.
const far = 1000 * 1000 * qty.Millimetre

var errEnough = errors.New("enough seen")

// Of gives the steps of the program of p.Bores[bore].Visits[visit], in their order; in a
// file of several, of the one with its number. whole is false where it has more than are kept.
func Of(program []byte, p *plan.Plan, bore, visit int) (steps []Step, whole bool) {
	if p == nil || p.Job == nil || p.Job.Machine == nil || p.Job.Machine.Control == nil {
		return nil, true
	}
	if p.Job.Machine.Control.OneFile {
		program = script.Alone(program, script.NumberOf(p, bore, visit))
	}
	letter := byte(p.Job.FeedLetter())
	axis := rs274.Z
	if letter == 'W' {
		axis = rs274.W
	}
	depth := func(at rs274.Position) qty.Length { return min(max(-at.Linear(letter), -far), far) }
	var at qty.Length
	known := false
	_, err := rs274.Replay(bytes.NewReader(program), script.Dialect(p.Job.Machine.Control), func(e rs274.Event) error {
		s := Step{Line: e.Line, From: at, To: at, Known: known}
		switch e.Kind {
		case rs274.Move:
			moved := e.From.Moved(e.To)
			switch {
			case moved&axis != 0:
				if s.To = depth(e.To); !known {
					s.From = s.To
				}
				if s.Kind = Rapid; e.Motion != rs274.Rapid {
					s.Kind = Feed
				}
				at, known = s.To, true
			case moved&(rs274.X|rs274.Y) != 0:
				s.Kind = Across
			default:
				return nil
			}
		case rs274.Dwell:
			s.Kind = Dwell
		case rs274.Stop:
			if s.Kind = Stop; e.Optional {
				return nil
			}
		case rs274.Return:
			s.Kind, known = Home, known && e.Axes&axis == 0
		case rs274.End:
			s.Kind = End
		default:
			return nil
		}
		if len(steps) == stepsMost {
			return errEnough
		}
		steps = append(steps, s)
		return nil
	})
	return steps, err == nil
}
