// Command borewright plans the repair of worn bores on a horizontal boring
// mill. This folder turns verbs and flags into files and an exit code; it
// calculates nothing.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"borewright/cmd/store"
	"borewright/sheets/made"
)

func main() {
	made.ReadBuild()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the program as a function, so that tests run it as a process would. What cannot be printed
// is said once. A standard output that was closed by the caller is no fault that could be seen: the
// runtime of Go has opened the null device in its place before.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	root := rootCommand()
	root.SetArgs(args)
	root.SetIn(in)
	printed := &heeded{w: out}
	root.SetOut(printed)
	said := &heeded{w: errs}
	errs = &clean{said}
	root.SetErr(errs)
	err := root.Execute()
	if printed.err != nil && (err == nil || errors.Is(err, errNo) || errors.Is(err, errSaid)) {
		err = printed.err
	}
	switch {
	case err == nil && said.err == nil:
		return exitDone
	case errors.Is(err, errNo) && said.err == nil:
		return exitNo
	case err == nil, errors.Is(err, errNo), errors.Is(err, errSaid): // what there was to say was not all said
		return exitWrong
	default:
		fmt.Fprintln(errs, shownIn(store.InWords(err), args))
		return exitWrong
	}
}

// heeded is a writer whose first error is not lost, whoever prints to it.
type heeded struct {
	w   io.Writer
	err error
}

// Write prints.
func (h *heeded) Write(data []byte) (int, error) {
	n, err := h.w.Write(data)
	if err != nil && h.err == nil {
		h.err = err
	}
	return n, err
}

func rootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:   "borewright",
		Short: "Plan the repair of worn bores on a horizontal boring mill",
		Long: `borewright reads a description of a worn bore, the bar that can reach it and the
mill it hangs in, and works out the passes: what to set the cutter to, how fast
to turn and feed, what the bore gauge should say after each cut, and where to
stop and measure. It writes the operation sheet and, for a mill with a control,
a program that has been replayed against the plan before it is written.

Start with "borewright new job.toml" and "borewright make job.toml".

The tool plans; the person at the machine decides. Prove every program out
above the work, in single block, and follow your local codes.`,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          noVerb,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },

		SuggestionsMinimumDistance: 2,
	}
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return badFlag(err) })
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", ".FlagUsagesWrapped 80"))
	root.AddCommand(makeCommand(), planCommand(), reachCommand(), lineupCommand(), postCommand(), sheetCommand(), proveCommand(),
		compareCommand(), approveCommand(), measuredCommand(), recordCommand(), learnCommand(), newCommand(), editCommand(), explainCommand(), listCommand(),
		fitCommand(), sleeveCommand(), jobsCommand(), serveCommand(), versionCommand())
	return root
}

// noVerb refuses a word that is no verb, with the verbs that are near.
func noVerb(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	msg := fmt.Sprintf("borewright: there is no command %q", args[0])
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		msg += fmt.Sprintf("; did you mean %q?", near[0])
	}
	return errors.New(msg + "\nRun \"borewright --help\" for the commands.")
}
