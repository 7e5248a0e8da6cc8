package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/process/qty"
	"borewright/sheets"
	"borewright/sheets/document"
)

func lineupCommand() *cobra.Command {
	var asJSON bool
	var at string
	cmd := &cobra.Command{
		Use:   "lineup JOB",
		Short: "Say what to move to line up, and at what size the bore cleans up",
		Long: `lineup works out from the dial sweeps of JOB where the line of bores stands
against the spindle, at every station and how surely, and says what to shim,
turn and move, which way and by how much. From the readings of the worn bore it
works out the clean-up diameter about the true axis and about the bore's own
axis, and what each pass leaves of the old bore.

The exit code is 1 when the job holds neither sweeps nor readings.`,
		Example: "  borewright lineup job.toml\n  borewright lineup job.toml --size \"3.17 in\"\n  borewright lineup job.toml --json",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			job, err := jobfile.Load(args[0])
			if err != nil {
				return err
			}
			var size qty.Diameter
			if at != "" {
				l, err := qty.ParseLength(at)
				if err != nil || l <= 0 {
					return fmt.Errorf("lineup: --size is %q; write a diameter with its unit, as \"80.5 mm\" or \"3.17 in\"", at)
				}
				size = qty.Diameter(l)
			}
			p, err := jobfile.PlanNow(job, args[0])
			if err != nil {
				return err
			}
			sayTorn(cmd, p)
			if out := (output{cmd.OutOrStdout()}); asJSON {
				err = out.bytes(document.WriteLineUp(p, size))
			} else {
				err = sheets.WriteLineUp(out, p, size)
			}
			if err != nil {
				return err
			}
			return answer(p.Measured())
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "the answer as JSON, SI units")
	cmd.Flags().StringVar(&at, "size", "", "a diameter with its unit: show what it would leave uncut")
	return cmd
}
