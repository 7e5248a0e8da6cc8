package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"borewright/cmd/folder"
	"borewright/cmd/jobfile"
)

func jobsCommand() *cobra.Command {
	var asJSON, check bool
	cmd := &cobra.Command{
		Use:   "jobs FOLDER [WORD...]",
		Short: "List the jobs of a folder and where each stands",
		Long: `jobs lists the job files in FOLDER and below it, and where each stands: not
planned, planned, changed since planned, pass 3 of 5 cut, held, finished, out.
WORDs list those jobs alone that have them in number, title, file name or state.

Nothing is planned for it. Planned is a job of which make has written a folder
in FOLDER or below. Held is one whose last size lies outside what the sheet
said: look before going on. Out is a bore that no cut brings back into its
limits.

Each file is read to its end for mistakes of writing; --check checks every
figure of every job as well, as plan does. The exit code is 2 when a file does
not read.`,
		Example: "  borewright jobs .\n  borewright jobs . held\n  borewright jobs jobs --json",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return need(cmd, args, "FOLDER")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			jobs, err := folder.Find(args[0], folder.Options{Whole: check})
			if err != nil {
				return fmt.Errorf("jobs: %w", err)
			}
			jobs = slices.DeleteFunc(jobs, func(j folder.Job) bool { return !j.Fits(args[1:]) })
			write := folder.WriteText
			if asJSON {
				write = folder.WriteJSON
			}
			if err := write(cmd.OutOrStdout(), jobs); err != nil {
				return err
			}
			if slices.ContainsFunc(jobs, func(j folder.Job) bool { return j.State == folder.NotRead }) {
				return errSaid
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "the list as JSON")
	cmd.Flags().BoolVar(&check, "check", false, "check every figure of every job")
	return cmd
}

// allJobs does something with every job of a folder, a line each; the exit code is the worst.
// do is made of the jobs that were found.
func allJobs(cmd *cobra.Command, dir string, do func(jobs []folder.Job) func(*folder.Job) folder.Answer) error {
	jobs, err := folder.Find(dir, folder.Options{})
	if err != nil {
		return fmt.Errorf("%s: %w", cmd.Name(), err)
	}
	if len(jobs) == 0 {
		return fmt.Errorf("%s: %s holds no job file; one ends in .toml and states its number", cmd.Name(), dir)
	}
	var progress io.Writer
	if isTerminal(os.Stderr) {
		progress = os.Stderr
	}
	worst, err := folder.All(jobs, &clean{cmd.OutOrStdout()}, progress, do(jobs))
	switch {
	case err != nil:
		return err
	case worst == exitWrong:
		return errSaid
	}
	return answer(worst == exitDone)
}

// planAll plans every job of a folder.
func planAll(cmd *cobra.Command, dir string) error {
	return allJobs(cmd, dir, func([]folder.Job) func(*folder.Job) folder.Answer { return folder.Plan })
}

// makeAll makes every job of a folder, each into a folder of its own.
func makeAll(cmd *cobra.Command, dir, out string, as jobfile.Choice) error {
	if out == "" {
		out = filepath.Join(dir, "out")
	}
	return allJobs(cmd, dir, func(jobs []folder.Job) func(*folder.Job) folder.Answer {
		return folder.Maker{Out: out, As: as, Twice: folder.Twice(jobs)}.Make
	})
}
