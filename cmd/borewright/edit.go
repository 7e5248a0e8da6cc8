package main

import (
	"bufio"
	"bytes"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"borewright/cmd/ask"
	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/process/qty"
	"borewright/sheets"
	"borewright/sheets/talk"
)

func person(cmd *cobra.Command) *talk.Person {
	return &talk.Person{In: bufio.NewReader(cmd.InOrStdin()), Out: cmd.ErrOrStderr()}
}

// asked is a new file by asking: a job, or a machine from the one in data.
func asked(cmd *cobra.Command, path, machine string, data []byte, u qty.Unit) ([]byte, error) {
	if machine != "" {
		return ask.Machine(person(cmd), data)
	}
	return ask.Job(person(cmd), u, jobfile.Beside(path))
}

func editCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "edit JOB",
		Short: "Ask for a job again, with its present answers",
		Long: `edit asks for a job as "new --ask" does; an empty line keeps what stands in the
file. It shows the lines that change before it writes them. Remarks, order and
all that is not asked for stay as they are. A file that somebody changed
meanwhile is left alone.`,
		Example: "  borewright edit job.toml",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			path := args[0]
			was, err := jobfile.Read(path)
			if err != nil {
				return err
			}
			p := person(cmd)
			now, err := ask.Again(p, path, was, jobfile.Beside(path))
			if err != nil {
				return fmt.Errorf("edit: %w; nothing is written", err)
			}
			if bytes.Equal(was, now) {
				fmt.Fprintf(cmd.OutOrStdout(), "Nothing changes in %s.\n", path)
				return sayPlan(cmd, path)
			}
			fmt.Fprintf(p.Out, "\n%s", ask.Changes(was, now))
			if !p.Yes("Write this to " + path + "?") {
				return fmt.Errorf("edit: not confirmed; nothing is written")
			}
			if again, err := jobfile.Read(path); err != nil || !bytes.Equal(was, again) {
				return fmt.Errorf("edit: %s was changed by somebody meanwhile; nothing is written. Run edit again", path)
			}
			if err := store.Put(filepath.Dir(path), []store.File{{Name: filepath.Base(path), Data: now}}); err != nil {
				return err
			}
			return sayPlan(cmd, path)
		},
	}
}

// sayPlan says that a job is written, and prints its plan.
func sayPlan(cmd *cobra.Command, path string) error {
	fmt.Fprintf(cmd.ErrOrStderr(), "\n%s holds the job. Next: borewright make %s\n\n", path, path)
	p, err := jobfile.PlanOf(path)
	if err != nil {
		return err
	}
	if err := sheets.WritePasses(output{cmd.OutOrStdout()}, p); err != nil {
		return err
	}
	return answer(p.Feasible)
}
