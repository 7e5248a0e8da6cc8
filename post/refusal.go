package post

import (
	"fmt"
	"strings"
)

// Refusal is why no program is written: all reasons at once.
type Refusal struct{ Reasons []Reason }

// Reason is one thing that stands against a program.
type Reason struct {
	Kind Kind
	What string // what is wrong and what to do, for a person
}

// Kind is what sort of thing stands against a program.
type Kind int

// The kinds of reason.
const (
	NoVisit    Kind = iota // no plan, none that is feasible, no such visit, or a mill without a control
	BadVisit               // the visit asks for what no program may be made of
	BadControl             // a property of the control for which no program can be written
	NoWord                 // the control's words cannot say a depth, feed, speed or dwell
	NoTravel               // a slide or the quill does not go as far as the program needs
	NoRoom                 // with the quill home, bar and cutter are not out of the work
	Unread                 // what was written would not read back: a fault of ours
)

func (r *Refusal) Error() string {
	var all []string
	for _, x := range r.Reasons {
		all = append(all, "no program: "+x.What)
	}
	return strings.Join(all, "\n")
}

func (r *Refusal) add(k Kind, format string, a ...any) {
	r.Reasons = append(r.Reasons, Reason{k, fmt.Sprintf(format, a...)})
}
