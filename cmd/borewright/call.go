package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"borewright/process/source"
)

// Exit codes, one meaning each.
const (
	exitDone  = 0 // done
	exitNo    = 1 // done, and the answer is no: not feasible, not proven, revisions differ
	exitWrong = 2 // the input or the call is wrong
)

// errNo is the answer no. What there is to say has been said already.
var errNo = errors.New("the answer is no")

// errSaid is an input that is wrong, and what is wrong with it has been printed already.
var errSaid = errors.New("the input is wrong")

// answer is errNo unless the answer is yes.
func answer(yes bool) error {
	if yes {
		return nil
	}
	return errNo
}

// shown is a name from the command line or from the disk as it may be printed: on one line,
// and without what would drive a terminal.
func shown(name string) string { return source.Clip(name, longestPath) }

// longestPath is the longest path of the systems that this runs on, in characters, and more.
const longestPath = 5000

// shownIn is what is to be said of a call, its words as they may be printed.
func shownIn(said string, args []string) string {
	for _, a := range args {
		// In parts: a path may be said without its end, a value without its flag.
		for _, part := range strings.FieldsFunc(a, func(r rune) bool { return strings.ContainsRune(`/\:=`, r) }) {
			if s := shown(part); s != part {
				said = strings.ReplaceAll(said, part, s)
			}
		}
	}
	return said
}

// clean prints lines of text without what would drive a terminal, wherever it comes from.
type clean struct{ w io.Writer }

// Write prints.
func (c *clean) Write(text []byte) (int, error) {
	said := strings.Map(func(r rune) rune {
		if r != '\n' && source.Unprintable(r) {
			return '·'
		}
		return r
	}, string(text))
	_, err := io.WriteString(c.w, said)
	return len(text), err
}

// badFlag is what is wrong with the flags of a call, without the names of the parser's functions.
func badFlag(err error) error {
	said, how, ok := strings.Cut(err.Error(), ": strconv.")
	switch {
	case ok && strings.HasPrefix(how, "ParseBool"):
		return errors.New(said + ": true or false is wanted")
	case ok && strings.HasPrefix(how, "ParseFloat"):
		return errors.New(said + ": a number is wanted")
	case ok:
		return errors.New(said + ": a whole number is wanted")
	case strings.HasPrefix(said, "unknown shorthand flag") && strings.Contains(said, "."):
		_, name, _ := strings.Cut(said, " in ")
		return errors.New(said + "; a file of that name is ./" + name)
	}
	return err
}

// oneJob asks for exactly one job file, in words.
func oneJob(cmd *cobra.Command, args []string) error { return need(cmd, args, "JOB") }

// need asks for the named arguments.
func need(cmd *cobra.Command, args []string, names ...string) error {
	if len(args) == len(names) {
		return nil
	}
	return fmt.Errorf("%s: give %s (found %d of %d)\nusage: %s", cmd.CommandPath(),
		strings.Join(names, " and "), len(args), len(names), cmd.UseLine())
}
