package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// Exit codes, one meaning each.
const (
	exitDone  = 0 // done
	exitNo    = 1 // done, and the answer is no: not feasible, not proven, revisions differ
	exitWrong = 2 // the input or the call is wrong
)

// errNo is the answer no. What there is to say has been said already.
var errNo = errors.New("the answer is no")

// answer is errNo unless the answer is yes.
func answer(yes bool) error {
	if yes {
		return nil
	}
	return errNo
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
