package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"borewright/cmd/store"
	"borewright/post"
	"borewright/post/verify"
	"borewright/process/plan"
	"borewright/sheets"
	"borewright/sheets/document"
	"borewright/sheets/programs"
	"borewright/sheets/proof"
)

func makeCommand() *cobra.Command {
	var dir string
	var anyway bool
	var as sheetChoice
	cmd := &cobra.Command{
		Use:   "make JOB",
		Short: "Plan a job, prove it, and write its programs, sheet and plan.json",
		Long: `make does the main job: it plans JOB, writes a program for each visit to a mill
with a control, replays every program against the plan, and when all is proven
puts them into a folder with the operation sheet (as text, HTML and PDF), its
cards alone (card.pdf) and plan.json.

Nothing is written when the plan is not feasible or a program is not proven.
--not-proven writes the sheet and plan.json all the same, marked NOT PROVEN on
every page; programs are never written then.`,
		Example: "  borewright make job.toml\n  borewright make job.toml --out /media/floor/WG-204",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := as.check(); err != nil {
				return err
			}
			p, err := planOf(args[0])
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
			if err := keepWorkedTo(p, dir); err != nil {
				return err
			}
			return makeFolder(cmd, p, dir, anyway, as)
		},
	}
	cmd.Flags().StringVarP(&dir, "out", "o", "", "folder to write to (default out/NUMBER-REVISION)")
	cmd.Flags().BoolVar(&anyway, "not-proven", false, "write sheet and plan.json of a plan that is not feasible, marked so")
	cmd.Flags().BoolVar(&as.ascii, "ascii", false, "sheet.txt in plain ASCII, for an old printer")
	cmd.Flags().BoolVar(&as.noPDF, "no-pdf", false, "leave sheet.pdf and card.pdf out, which take the longest")
	as.paperFlag(cmd)
	return cmd
}

// makeFolder proves what a plan says and writes it.
func makeFolder(cmd *cobra.Command, p *plan.Plan, dir string, anyway bool, as sheetChoice) error {
	out, errs := cmd.OutOrStdout(), cmd.ErrOrStderr()
	if err := sheets.WritePasses(out, p); err != nil {
		return err
	}
	if !p.Feasible && !anyway {
		fmt.Fprintf(errs, "not feasible: nothing is written (--not-proven writes the sheet, marked so)\n")
		warnOfOld(errs, dir)
		return errNo
	}
	var all []programs.Program
	if p.Feasible {
		var bad bool
		var err error
		if all, bad, err = provenPrograms(p, func(r verify.Report, name string) { proof.WriteFindings(out, r, name) }); err != nil {
			return err
		}
		if bad {
			fmt.Fprintln(errs, "not proven: nothing is written")
			warnOfOld(errs, dir)
			return errNo
		}
	}
	files, err := sheetFiles(p, all, as)
	if err != nil {
		return err
	}
	files = append(files, filesOf(all)...)
	left, err := store.Write(dir, p.Job.Number, p.Job.Revision, files)
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
	others, err := strangers(dir, p, files)
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
		fmt.Fprintf(out, "%s is worked by hand: there is no program, the sheet is the work order.\n", p.Job.Machine.Name)
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

// strangers are files in a folder that have a name as programs of this job have, and that the
// plan just written does not have: they may be of another revision, or of another hand.
func strangers(dir string, p *plan.Plan, written []store.File) (names []string, err error) {
	entries, err := os.ReadDir(dir)
	for _, e := range entries {
		if !e.IsDir() && post.Alike(p, e.Name()) && !slices.ContainsFunc(written, func(f store.File) bool { return f.Name == e.Name() }) {
			names = append(names, e.Name())
		}
	}
	return names, err
}

// sheetFiles is the operation sheet in its three faces, and plan.json.
func sheetFiles(p *plan.Plan, all []programs.Program, as sheetChoice) ([]store.File, error) {
	data, sum, err := document.WithSum(p)
	if err != nil {
		return nil, err
	}
	faces, err := as.sheets(p, append(programsSaid(p, all), sheets.WithSum(sum))...)
	return append([]store.File{{Name: "plan.json", Data: data}}, faces...), err
}

// filesOf are the files of programs, each once.
func filesOf(all []programs.Program) (files []store.File) {
	for i, w := range all {
		if i == 0 || w.Name != all[i-1].Name {
			files = append(files, store.File{Name: w.Name, Data: w.Data})
		}
	}
	return files
}

// provenPrograms writes every program of a plan and replays each. bad is
// whether one of them failed; say is given those that did.
func provenPrograms(p *plan.Plan, say func(verify.Report, string)) (all []programs.Program, bad bool, err error) {
	all, err = programs.Of(p)
	for _, f := range all {
		if r := verify.Check(f.Data, f.Name, p, f.Bore, f.Visit); !r.Proven {
			say(r, f.Name)
			bad = true
		}
	}
	return all, bad, err
}
