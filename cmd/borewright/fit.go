package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"borewright/process/fit/standard"
	"borewright/sheets/limits"
)

func fitCommand() *cobra.Command {
	var asJSON bool
	var advice limits.Ask
	cmd := &cobra.Command{
		Use:   "fit SIZE FIT",
		Short: "Give the limits of a fit, its clearance or interference, drawn",
		Long: `fit looks up the limits of size that ISO 286 or ANSI B4.1 gives a hole, a shaft
or both, and says how loose or tight the pair can be and what it is for. A size
without a unit is in millimetres with ISO 286 (50 H7/p6) and in inches with ANSI
B4.1 (2.125 RC4). Figures come from the standards' tables, never from between
two rows of them.

With --for it advises what to choose, of a size alone, by general
recommendations: the seat of a rolling bearing in a housing or on a shaft, or
the clearance of a running shaft. The drawing decides.`,
		Example: `  borewright fit "50 H7/p6"
  borewright fit "2.0000in H7/s6"
  borewright fit "2 1/8 H7"
  borewright fit "2.125 RC4"
  borewright fit "80 H7" --json
  borewright fit 110 --for housing --turns inner --load normal --split
  borewright fit "2 1/2 in" --for running --speed 300 --shaft-temp 140`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return fmt.Errorf("fit: give a size and a fit, as in borewright fit \"50 H7/p6\" or \"2.0000in H7/s6\"")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			given(cmd, &advice)
			if cmd.Flags().Changed("for") {
				return output{cmd.OutOrStdout()}.bytes(advice.Answer(strings.Join(args, " "), asJSON))
			}
			if len(advice.Given) > 0 {
				return fmt.Errorf("fit: --%s goes with --for, which takes housing, shaft or running", advice.Given[0])
			}
			f, err := standard.Parse(strings.Join(args, " ")) // without quotation marks the shell hands over the parts
			if err != nil {
				return fmt.Errorf("fit: %w", err)
			}
			if asJSON {
				return output{cmd.OutOrStdout()}.bytes(limits.WriteJSON(f))
			}
			_, err = io.WriteString(cmd.OutOrStdout(), limits.Report(f))
			return err
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "the limits as JSON, SI units")
	askFlags(cmd, &advice)
	return cmd
}
