package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/sheets/report"
)

func compareCommand() *cobra.Command {
	var in face
	var git, edited, all bool
	var as string
	cmd := &cobra.Command{
		Use:   "compare OLD NEW",
		Short: "Say what changed between two revisions of a job",
		Long: `compare says in a few lines what was edited, what it does to the plan, the worst
first, and which programs are to be proven anew. --all lists all of it: what was
edited and what is filled in by it; every result, what can spoil the bore before
what cannot; the programs by what the machine does, new block numbers and
comments passed over; the sheet line by line. A figure that prints alike is no
difference. The exit code is 0 when nothing differs, 1 when something does, 2 in
trouble.

OLD and NEW are job files, folders that make has written, or REVISION:PATH of a
job file under git. With --git it is a driver for git's external diff: it takes
the arguments that git gives, and its exit code is 0 unless it failed, as git
asks for.`,
		Example: "  borewright compare job-B.toml job-C.toml\n  borewright compare HEAD~1:job.toml job.toml\n  borewright compare out/WG-204-B out/WG-204-C",
		Args: func(cmd *cobra.Command, args []string) error {
			if git {
				if len(args) == 7 || len(args) == 9 {
					return nil
				}
				return fmt.Errorf("compare --git: git gives 7 or 9 arguments (found %d); to compare by hand leave --git away", len(args))
			}
			return need(cmd, args, "OLD", "NEW")
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if git {
				return compareForGit(cmd, args, in, all)
			}
			old, err := jobfile.ReadRevision(args[0], as, edited)
			if err != nil {
				return err
			}
			new, err := jobfile.ReadRevision(args[1], as, edited)
			if err != nil {
				return err
			}
			new.Twin = jobfile.TwinOf(args[0], args[1])
			if in.html {
				jobfile.Draw(&old, &new)
			}
			if err := jobfile.Alike(&old, &new); err != nil {
				return err
			}
			differ, err := sayCompared(cmd, old, new, in, all)
			if err == nil && differ {
				err = errNo
			}
			return err
		},
	}
	cmd.Flags().BoolVar(&in.json, "json", false, "the report as JSON, SI units")
	cmd.Flags().BoolVar(&in.html, "html", false, "the report as one HTML file, setups and programs drawn old and new")
	cmd.MarkFlagsMutuallyExclusive("json", "html")
	cmd.Flags().BoolVar(&all, "all", false, "list all of it, line by line")
	cmd.Flags().BoolVar(&edited, "edited", false, "take folders with what was changed in them by hand since make wrote them")
	cmd.Flags().BoolVar(&git, "git", false, "driver for git's external diff")
	cmd.Flags().StringVar(&as, "as", "", "where the files stand in truth: files beside the job are looked for there (difftool: \"$MERGED\")")
	return cmd
}

// face is how a report is wanted: as text, JSON or HTML.
type face struct{ json, html bool }

// sayCompared prints a report.
func sayCompared(cmd *cobra.Command, old, new report.Revision, in face, all bool) (differ bool, err error) {
	if in.html {
		s, differ := report.CompareSheet(old, new)
		return differ, s.WriteHTML(cmd.OutOrStdout())
	}
	if in.json {
		data, differ, err := report.CompareJSON(old, new)
		if err == nil {
			_, err = cmd.OutOrStdout().Write(data)
		}
		return differ, err
	}
	return report.WriteCompare(cmd.OutOrStdout(), old, new, all)
}

// compareForGit takes path old-file old-hex old-mode new-file new-hex new-mode
// [new-path note], as gitattributes(5) and git(1), GIT_EXTERNAL_DIFF, give
// them. A side that is no job, or not there, is shown line by line: a driver
// that fails would end the whole of git's diff.
func compareForGit(cmd *cobra.Command, args []string, in face, all bool) error {
	path, oldFile, newFile := args[0], args[1], args[4]
	as := path
	if len(args) == 9 {
		as = args[7]
	}
	out := cmd.OutOrStdout()
	fmt.Fprintf(out, "borewright compare %s\n", shown(as))
	old, errOld := jobfile.ReadRevision(oldFile, path, false)
	new, errNew := jobfile.ReadRevision(newFile, as, false)
	old.Name, new.Name = shown("a/"+path), shown("b/"+as)
	if errOld == nil && errNew == nil {
		if in.html {
			jobfile.Draw(&old, &new)
		}
		_, err := sayCompared(cmd, old, new, in, all)
		fmt.Fprintln(out)
		return err
	}
	var text [2][]byte
	for i, side := range []struct {
		file string
		err  error
	}{{oldFile, errOld}, {newFile, errNew}} {
		if side.file == os.DevNull {
			continue
		}
		if side.err != nil {
			first, _, _ := strings.Cut(side.err.Error(), "\n")
			fmt.Fprintf(out, "%s does not read as a job: %s\n", []string{old.Name, new.Name}[i], shown(first))
		}
		var err error
		if text[i], err = jobfile.Read(side.file); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(out, "%s\n", report.Lines(old.Name, new.Name, text[0], text[1]))
	return err
}
