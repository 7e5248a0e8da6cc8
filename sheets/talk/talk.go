// Package talk asks a person at a terminal. Each answer is checked as it is given; one
// that cannot be taken is asked for again, and those before it stay. "?" explains a
// question, "<" goes back to the one before, "-" takes an answer away.
//
// What belongs here: how a talk goes. What does not: what is asked, and what an answer
// means (sheets/entry of a measurement, cmd/ask of a job or a machine).
package talk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Person is somebody at a terminal. Questions go to Out, which is not where results go.
type Person struct {
	In  *bufio.Reader
	Out io.Writer

	From string // the key of the question that the next Ask begins at; "": the first

	end       bool  // no more answers come
	lines     int   // that were read
	endless   error // what was read is no talk of a person; nil: it may be
	confirmed map[string]bool
}

// Question is one of a talk.
type Question struct {
	Key         string // what its answer is kept by
	What, Usual string // as it is asked, and the answer that an empty line gives
	Help        string // what "?" says
	Before      string // what is shown before it is asked, as a drawing
	Check       func(answer string) error
	Doubts      func(answer string) []Doubt
}

// Doubt is why an answer, though it can be, looks like a slip. It is asked about, or
// refused.
type Doubt struct {
	Say    string
	Refuse bool
}

// ErrEnd is a talk whose answers ended before its questions.
var ErrEnd = errors.New("the answers ended before the questions")

// What a person answers is within these. A device, or a program that repeats a line, would go on for
// ever.
const (
	mostBytes = 4096 // of an answer
	mostLines = 2000 // of a talk
)

// Line reads an answer.
func (p *Person) Line(what, usual string) string {
	if p.end {
		return ""
	}
	if usual != "" {
		what += " [" + usual + "]"
	}
	fmt.Fprintf(p.Out, "%s: ", what)
	var s []byte
	err := bufio.ErrBufferFull
	for errors.Is(err, bufio.ErrBufferFull) && len(s) <= mostBytes {
		var part []byte
		part, err = p.In.ReadSlice('\n')
		s = append(s, part...)
	}
	p.lines++
	switch {
	case len(s) > mostBytes:
		p.endless = fmt.Errorf("an answer of more than %d characters", mostBytes)
	case p.lines > mostLines:
		p.endless = fmt.Errorf("more than %d answers", mostLines)
	}
	if p.end = err != nil || p.endless != nil; p.end {
		fmt.Fprintln(p.Out)
	}
	if p.endless != nil {
		return ""
	}
	return strings.TrimSpace(string(s))
}

// Yes asks whether it is so; no answer is no.
func (p *Person) Yes(what string) bool {
	s := strings.ToLower(p.Line(what+" (yes or no)", "no"))
	return s == "y" || s == "yes"
}

// Confirmed is whether the person was asked about a doubt, and said that it is so.
func (p *Person) Confirmed(say string) bool { return p.confirmed[say] }

// Ask asks what is to be asked by what was answered so far: questions gives the list, and
// answers gets each by its key. It is left where the answers end: err is that of the last,
// or ErrEnd where strict; and where they do not end.
func (p *Person) Ask(questions func() []Question, answers map[string]string, strict bool) error {
	if p.confirmed == nil {
		p.confirmed = map[string]bool{}
	}
	shown := ""
	for i := 0; ; {
		all := questions()
		for k := range all {
			if all[k].Key == p.From {
				i = k
			}
		}
		p.From = ""
		if i >= len(all) {
			return nil
		}
		q := all[i]
		usual := q.Usual
		if was, again := answers[q.Key]; again {
			usual = was
		}
		if q.Before != "" && q.Before != shown {
			fmt.Fprintf(p.Out, "\n%s\n", q.Before)
			shown = q.Before
		}
		s := p.Line(q.What, usual)
		switch {
		case p.endless != nil:
			return p.endless
		case strict && p.end && s == "":
			return ErrEnd
		case s == "?":
			fmt.Fprintf(p.Out, "  %s\n", q.Help)
			continue
		case s == "<" || strings.EqualFold(s, "back"):
			i = max(0, i-1)
			continue
		case s == "":
			s = usual
		}
		if s == "-" {
			s = ""
		}
		if err := p.taken(q, s); err != nil {
			if p.endless != nil {
				return p.endless
			}
			fmt.Fprintf(p.Out, "  %s\n", err)
			if p.end {
				return err
			}
			continue
		}
		answers[q.Key] = s
		i++
	}
}

// taken is why an answer cannot be taken; nil where it can.
func (p *Person) taken(q Question, s string) error {
	if q.Check != nil {
		if err := q.Check(s); err != nil {
			return err
		}
	}
	if s == "" || q.Doubts == nil {
		return nil
	}
	for _, d := range q.Doubts(s) {
		if p.confirmed[d.Say] {
			continue
		}
		if d.Refuse {
			return errors.New(d.Say)
		}
		fmt.Fprintf(p.Out, "  %s\n", d.Say)
		if !p.Yes("  Enter it all the same?") {
			return errors.New("then once more")
		}
		p.confirmed[d.Say] = true
	}
	return nil
}
