package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/process/files"
	"borewright/process/measured"
	"borewright/process/plate"
	"borewright/process/qty"
	"borewright/sheets/report"
)

func learnCommand() *cobra.Command {
	var out, machine string
	cmd := &cobra.Command{
		Use:   "learn FOLDER",
		Short: "Learn the mill from finished jobs: spring predicted and seen",
		Long: `learn goes through every job in FOLDER that has a results file, sets the spring
predicted beside the spring seen by bar and stickout, and fits the cutting force
and the stiffness of the spindle nose to it, each with the range it lies in 19
times in 20. Bars that are alike do not tell the two apart: the nose stays as
stated then.

--out writes a machine file with those figures. Nothing uses it until a job says
machine = "that-file.toml": read it, and adopt it if you trust it.`,
		Example: "  borewright learn jobs\n  borewright learn jobs --out our-mill.toml",
		Args:    func(cmd *cobra.Command, args []string) error { return need(cmd, args, "FOLDER") },
		RunE: func(cmd *cobra.Command, args []string) error {
			found, err := finishedJobs(args[0])
			if err != nil {
				return err
			}
			var cuts []measured.ShopCut
			units := qty.Metric
			beside := map[string]string{} // machine -> folder of a job that names it
			for i, path := range found {
				job, err := jobfile.Load(path)
				if err != nil {
					return err
				}
				if i == 0 {
					units = job.Units
				}
				beside[job.Machine.ID] = filepath.Dir(path)
				p, err := jobfile.PlanNow(job, path)
				if err != nil {
					return err
				}
				cuts = append(cuts, measured.ShopCuts(p.Job, p.Findings)...)
			}
			fits := measured.FitShop(cuts)
			if len(fits) == 0 {
				return fmt.Errorf("learn: no job in %s has a measured cut to learn from; enter them with \"borewright measured JOB\"", args[0])
			}
			if err := report.WriteShop(cmd.OutOrStdout(), units, len(found), fits); err != nil || out == "" {
				return err
			}
			return writeLearned(cmd, fits, beside, machine, out)
		},
	}
	cmd.Flags().StringVarP(&out, "out", "o", "", "machine file to write, which must not exist")
	cmd.Flags().StringVar(&machine, "machine", "", "the machine that it is for, where the jobs name more than one")
	return cmd
}

// finishedJobs are the job files under a folder that have results beside them,
// by name.
func finishedJobs(dir string) ([]string, error) {
	var out []string
	if !isFolder(dir) {
		return nil, fmt.Errorf("learn: %s is no folder; give the folder that holds finished jobs and their results", dir)
	}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if job, ok := strings.CutSuffix(path, ".results.toml"); ok {
			if _, err := os.Stat(job + ".toml"); err == nil {
				out = append(out, job+".toml")
			}
		}
		return nil
	})
	return out, err
}

// writeLearned writes the machine file.
func writeLearned(cmd *cobra.Command, fits []measured.ShopFit, beside map[string]string, machine, out string) error {
	var names []string
	var fit *measured.ShopFit
	for i := range fits {
		names = append(names, fits[i].Machine)
		if fits[i].Machine == machine || machine == "" && len(fits) == 1 {
			fit = &fits[i]
		}
	}
	if fit == nil {
		return fmt.Errorf("learn: which machine is %s for? Give --machine: %s", out, strings.Join(names, ", "))
	}
	if _, err := os.Lstat(out); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("learn: %s is there already; name a new file, or move it away", out)
	}
	data, err := files.BuiltIn("machines", fit.Machine)
	if err != nil {
		if data, err = jobfile.Read(filepath.Join(beside[fit.Machine], fit.Machine+".toml")); err != nil {
			return fmt.Errorf("learn: the file of machine %q is not beside the job: %w", fit.Machine, err)
		}
	}
	said := fmt.Sprintf("own cuts, %d measured: force %.2f (%.2f to %.2f)", fit.Cuts, fit.Force, fit.ForceWithin[0], fit.ForceWithin[1])
	if fit.Apart {
		said += fmt.Sprintf(", nose %.2f (%.2f to %.2f) of what was stated", fit.Root, fit.RootWithin[0], fit.RootWithin[1])
	}
	text, err := plate.WithLearned(out, data, plate.Learned{Root: fit.Root, Force: fit.Force, Remark: said + ", 19 times in 20"})
	if err != nil {
		return err
	}
	if err := store.Put(filepath.Dir(out), []store.File{{Name: filepath.Base(out), Data: text}}); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "Written: %s. Read it; a job adopts it with machine = %q.\n", shown(out), filepath.Base(out))
	return nil
}
