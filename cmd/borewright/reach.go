package main

import (
	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"

	"borewright/process/files"
	"borewright/sheets"
	"borewright/sheets/document"
)

func reachCommand() *cobra.Command {
	var asJSON bool
	var list string
	cmd := &cobra.Command{
		Use:   "reach JOB",
		Short: "Say whether the bar gets to its bore, and which bar would",
		Long: `reach holds nose, quill, bar and cutter against every station of JOB at every
depth, with the cutter set as each pass sets it: clear, tight (how much room,
and where) or does not pass. It says what largest bar and shortest stickout
would pass, and with --bars (or the job's own key bars) tries every bar the shop
owns, the stiffest that passes first.

The exit code is 1 when the job's bar does not pass.`,
		Example: "  borewright reach job.toml\n  borewright reach job.toml --bars shop-bars.toml\n  borewright reach job.toml --json",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			job, err := jobfile.Load(args[0])
			if err != nil {
				return err
			}
			if list != "" {
				shop, err := loadBars(list)
				if err != nil {
					return err
				}
				job.Shop = shop.Bars
			}
			p, err := jobfile.PlanNow(job, args[0])
			if err != nil {
				return err
			}
			choices, err := p.Choose(job.Shop)
			if err != nil {
				return err
			}
			sayTorn(cmd, p)
			if out := (output{cmd.OutOrStdout()}); asJSON {
				err = out.bytes(document.WriteReach(p, choices))
			} else {
				err = sheets.WriteReach(out, p, choices)
			}
			if err != nil {
				return err
			}
			return answer(p.Passes())
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "the answer as JSON, SI units")
	cmd.Flags().StringVar(&list, "bars", "", "a TOML file that lists the bars of the shop (borewright explain bars)")
	return cmd
}

// loadBars reads a list of bars and the files it names, which stand relative
// to it.
func loadBars(path string) (*files.Shop, error) {
	data, err := jobfile.Read(path)
	if err != nil {
		return nil, err
	}
	return files.Bars(path, data, jobfile.Beside(path))
}
