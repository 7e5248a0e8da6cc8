package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/process/plan"
	"borewright/sheets"
	"borewright/sheets/document"
)

func sleeveCommand() *cobra.Command {
	var asJSON, why bool
	cmd := &cobra.Command{
		Use:   "sleeve JOB",
		Short: "Work out a sleeve: fit, lathe sheet, assembly, final clearance",
		Long: `sleeve prints the sleeves of a job: where the inside comes to size and what the
other way would need, the lathe's own sheet, how the sleeve is held and put in
with its cautions, and the clearance that the mating part finds. Every figure
that a tolerance moves is given with its range. --why puts the ways to repair
the bore side by side: larger part, sleeve, bush, build-up.`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			p, err := jobfile.PlanOf(args[0])
			if err != nil {
				return err
			}
			sayTorn(cmd, p)
			switch {
			case p.Feasible && !slices.ContainsFunc(p.Bores, func(b plan.Bore) bool { return b.Sleeve != nil }):
				err = sheets.ErrNoSleeve
			case asJSON:
				err = output{cmd.OutOrStdout()}.bytes(document.WriteSleeves(p))
			default:
				err = sheets.WriteSleeves(cmd.OutOrStdout(), p, why)
			}
			switch {
			case errors.Is(err, sheets.ErrNoSleeve):
				return fmt.Errorf("sleeve: %s: %w; write repair = \"sleeve\" at the bore, and a [sleeve]", p.Job.Where("bore"), err)
			case err != nil:
				return err
			}
			return answer(p.Feasible)
		},
	}
	cmd.Flags().BoolVar(&why, "why", false, "the other ways to repair the bore as well, by its own figures")
	cmd.Flags().BoolVar(&asJSON, "json", false, "the sleeves as JSON, SI units")
	return cmd
}
