package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/post"
	"borewright/post/verify"
	"borewright/process/plan"
	"borewright/sheets"
	"borewright/sheets/programs"
	"borewright/sheets/proof"
)

func makeCommand() *cobra.Command {
	var dir string
	var anyway bool
	var as jobfile.Choice
	cmd := &cobra.Command{
		Use:   "make JOB|FOLDER",
		Short: "Plan a job, prove it, and write its programs, sheet and plan.json",
		Long: `make does the main job: it plans JOB, writes a program for each visit to a mill
with a control, replays every program against the plan, and when all is proven
puts them into a folder with the operation sheet (as text, HTML and PDF), its
cards alone (card.pdf) and plan.json.

Nothing is written when the plan is not feasible or a program is not proven.
--not-feasible writes sheet and plan.json of such a plan all the same, marked
NOT FEASIBLE on every page; programs are never written then.

Of a FOLDER it makes every job in it and below, on all cores, a line each, every
job into a folder of its own in FOLDER/out; the exit code is the worst.`,
		Example: "  borewright make job.toml\n  borewright make job.toml --out /media/floor/WG-204",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := as.Check(); err != nil {
				return err
			}
			if isFolder(args[0]) {
				if anyway {
					return fmt.Errorf("make: --not-feasible is of one job; leave it out, or name a job in %s", args[0])
				}
				return makeAll(cmd, args[0], dir, as)
			}
			data, err := jobfile.Read(args[0])
			if err != nil {
				return err
			}
			p, err := jobfile.PlanOf(args[0])
			if err != nil {
				return err
			}
			if p.Feasible && p.Findings != nil && len(p.Bores) == 0 {
				fmt.Fprintf(cmd.OutOrStdout(), "Every bore is finished: there is nothing left to make. borewright record %s writes the record.\n", shown(args[0]))
				return nil
			}
			if dir == "" {
				dir = filepath.Join("out", post.FolderName(p))
			}
			if err := jobfile.KeepWorkedTo(p, dir); err != nil {
				return err
			}
			return makeFolder(cmd, p, jobfile.NoteOf(p, data), dir, anyway, as)
		},
	}
	cmd.Flags().StringVarP(&dir, "out", "o", "", "folder to write to (default out/NUMBER-REVISION); of a FOLDER, what holds the folders of its jobs (default FOLDER/out)")
	cmd.Flags().BoolVar(&anyway, "not-feasible", false, "write sheet and plan.json of a plan that is not feasible, marked so")
	cmd.Flags().BoolVar(&anyway, "not-proven", false, "as --not-feasible")
	_ = cmd.Flags().MarkHidden("not-proven") // as it was called at first
	cmd.Flags().BoolVar(&as.ASCII, "ascii", false, "sheet.txt in plain ASCII, for an old printer")
	cmd.Flags().BoolVar(&as.NoPDF, "no-pdf", false, "leave sheet.pdf and card.pdf out, which take the longest")
	paperFlag(cmd, &as.Paper)
	return cmd
}

// makeFolder proves what a plan says and writes it.
func makeFolder(cmd *cobra.Command, p *plan.Plan, note store.Note, dir string, anyway bool, as jobfile.Choice) error {
	out, errs := cmd.OutOrStdout(), cmd.ErrOrStderr()
	if err := sheets.WritePasses(out, p); err != nil {
		return err
	}
	if !p.Feasible && !anyway {
		fmt.Fprintf(errs, "not feasible: nothing is written (--not-feasible writes the sheet, marked so)\n")
		warnOfOld(errs, dir)
		return errNo
	}
	var all []programs.Program
	if p.Feasible {
		var bad bool
		var err error
		if all, bad, err = jobfile.Proven(p, func(r verify.Report, name string) { proof.WriteFindings(out, r, name) }); err != nil {
			return err
		}
		if bad {
			fmt.Fprintln(errs, "not proven: nothing is written")
			warnOfOld(errs, dir)
			return errNo
		}
	}
	files, err := jobfile.SheetFiles(p, all, as)
	if err != nil {
		return err
	}
	files = append(files, jobfile.FilesOf(all)...)
	left, err := store.WriteNoted(dir, p.Job.Number, p.Job.Revision, note, files)
	if err != nil {
		return err
	}
	for _, l := range left {
		if l.Kept == "" {
			fmt.Fprintf(errs, "removed %s: it belongs to an earlier plan of this revision\n", shown(filepath.Join(dir, l.Name)))
		} else {
			fmt.Fprintf(errs, "%s belongs to an earlier plan and was changed by hand: it is %s now\n", shown(filepath.Join(dir, l.Name)), shown(l.Kept))
		}
	}
	others, err := jobfile.Strangers(dir, p, files)
	if err != nil {
		return err
	}
	for _, name := range others {
		fmt.Fprintf(errs, "%s is not of this plan: do not cut from it before you know what it is\n", shown(filepath.Join(dir, name)))
	}
	fmt.Fprintf(out, "\nWritten to %s:\n", shown(dir))
	for _, f := range files {
		fmt.Fprintf(out, "  %s\n", f.Name)
	}
	if p.Job.Machine.Control == nil {
		fmt.Fprintf(out, "%s is worked by hand:\nthere is no program, the sheet is the work order.\n", p.Job.Machine.Name)
	}
	return answer(p.Feasible)
}

// warnOfOld says that files of an earlier plan stand where nothing was written:
// the next person to look would take them for the new ones.
func warnOfOld(errs io.Writer, dir string) {
	if _, err := os.Stat(filepath.Join(dir, "plan.json")); err == nil {
		fmt.Fprintf(errs, "%s holds files of an earlier plan: do not work from them\n", shown(dir))
	}
}
