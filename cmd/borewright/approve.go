package main

import (
	"fmt"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/process/approval"
	"borewright/process/plan"
	"borewright/process/source"
	"borewright/sheets/report"
)

func approveCommand() *cobra.Command {
	var a approval.Approval
	var against string
	cmd := &cobra.Command{
		Use:   "approve JOB",
		Short: "Approve a revision by name, or say who did and whether it holds",
		Long: `approve adds an entry to the file of approvals beside the job
(JOB.approved.toml): who, when, and what was looked at, by the check sums of the
job file, of the files that it names, of the plan and of each program. Compare
the revisions first.

An approval lapses when one of these is otherwise; measured results do not touch
it. It stands in the record. The file is only ever added to; --withdraw adds an
entry that takes the approvals back. Check sums find what was changed, by
whomever; they are no signature.

Without --by it lists the approvals; the exit code is 1 where none holds.`,
		Example: "  borewright compare job-B.toml job-C.toml\n  borewright approve job-C.toml --by \"R. Dale\" --against job-B.toml\n  borewright approve job-C.toml",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if a.By != "" {
				return approve(cmd, args[0], against, &a, time.Now())
			}
			if against != "" || a.Remark != "" || a.Withdrawn || cmd.Flags().Changed("by") {
				return fmt.Errorf("approve: say who, with --by NAME")
			}
			r, err := jobfile.ReadRecord(args[0])
			if err != nil {
				return err
			}
			sayTorn(cmd, r.Now)
			if len(r.Approvals) == 0 {
				fmt.Fprintln(cmd.OutOrStdout(), "Nobody has approved it.")
			}
			for i := range r.Approvals {
				fmt.Fprintf(cmd.OutOrStdout(), "Approved: %s.\n", report.Approved(&r.Approvals[i]))
			}
			return answer(approval.Held(r.Approvals) != nil)
		},
	}
	cmd.Flags().StringVar(&a.By, "by", "", "who approves")
	cmd.Flags().StringVar(&against, "against", "", "what it was compared with: a job file, or a folder that make has written")
	cmd.Flags().StringVar(&a.Remark, "remark", "", "what else is to be said")
	cmd.Flags().BoolVar(&a.Withdrawn, "withdraw", false, "take the approvals of the job back")
	return cmd
}

// approve enters an approval.
func approve(cmd *cobra.Command, path, against string, a *approval.Approval, now time.Time) error {
	data, err := jobfile.Read(path)
	if err != nil {
		return err
	}
	src, err := jobfile.Sourced(path, data, jobfile.Beside(path))
	if err != nil {
		return err
	}
	for _, x := range []struct {
		flag, text string
		most       int
	}{{"--by", a.By, 60}, {"--remark", a.Remark, 200}} {
		if what, allowed := source.CheckText(x.text, x.most); x.text != "" && what != "" {
			return fmt.Errorf("approve: %s %s; %s", x.flag, what, allowed)
		}
	}
	first := plan.Make(src.Job)
	if !a.Withdrawn {
		if err := jobfile.Approvable(first); err != nil {
			return fmt.Errorf("approve: %w; see \"borewright plan %s\"", err, shown(path))
		}
	}
	if a.Work, err = src.Work(first); err != nil {
		return err
	}
	if against != "" {
		file := against
		if isFolder(against) {
			file = filepath.Join(against, "plan.json")
		}
		other, err := jobfile.Read(file)
		if err != nil {
			return err
		}
		a.Against, a.AgainstSum = shown(filepath.Base(against)), jobfile.SumOf(other)
	}
	for _, said := range jobfile.TornBeside(path) {
		fmt.Fprintln(cmd.ErrOrStderr(), said)
	}
	a.When = now.Format("2006-01-02 15:04")
	if err := jobfile.Approve(path, a); err != nil {
		return fmt.Errorf("approve: %w", err)
	}
	did := "Approved: " + report.Approved(&approval.Standing{Approval: *a})
	if a.Withdrawn {
		did = "Withdrawn by " + a.By
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s.\nKept in %s.\n", did, shown(jobfile.ApprovalsPath(path)))
	return err
}
