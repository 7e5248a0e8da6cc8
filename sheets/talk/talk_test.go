package talk

import (
	"bufio"
	"errors"
	"io"
	"strings"
	"testing"
)

// again gives the same text for ever, and counts what was taken of it.
type again struct {
	text  string
	taken int
}

func (a *again) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = a.text[a.taken%len(a.text)]
		a.taken++
	}
	return len(b), nil
}

// A talk ends where its answers do not: a device that has no lines, a program that repeats a wrong
// answer, goes back, asks for help, or answers no to a doubt.
func TestAnswersWithoutEnd(t *testing.T) {
	for text, want := range map[string]string{
		"\x00": "an answer of more than 4096 characters", "y\n": "more than 2000 answers", "<\n": "more than 2000 answers", "1\n<\n": "more than 2000 answers",
		"?\n": "more than 2000 answers", "2\nno\n": "more than 2000 answers", "2\nn": "an answer of more than 4096 characters",
	} {
		in := &again{text: text}
		p := Person{In: bufio.NewReader(in), Out: io.Discard}
		questions := func() []Question {
			q := Question{Key: "pass", Check: func(s string) error {
				if s == "1" || s == "2" {
					return nil
				}
				return errors.New("no number of a pass")
			}, Doubts: func(s string) []Doubt { return []Doubt{{Say: "that is not the next pass"}}[:len(strings.Trim(s, "1"))] }}
			last := q
			last.Key = "size"
			return []Question{q, last}
		}
		if text == "2\nn" { // what comes behind is one line without end
			in.text += strings.Repeat("o", 5000)
		}
		err := p.Ask(questions, map[string]string{}, true)
		if err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
		if in.taken > 20_000 {
			t.Errorf("%q: %d bytes were read", text, in.taken)
		}
	}
}
