package main

import (
	"cmp"
	"fmt"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/sheets"
	"borewright/sheets/document"
)

func planCommand() *cobra.Command {
	var asJSON, why, better bool
	cmd := &cobra.Command{
		Use:   "plan JOB|FOLDER",
		Short: "Show the passes of a job, or why there are none",
		Long: `plan shows the passes of a job: what to set the cutter to, how to turn and feed,
what the gauge should say, and what limited each. When there are none it says
what stops them and which changes would free them, each tried.

--why holds every choice against the rules of thumb of the trade and explains
those that differ, and lists how much of each limit every pass takes.

--better searches what would better a plan that stands: one that sings or may
miss its size, else one that could be quicker. Each change is tried, alone and
together with others, and the keys to write are named. With --json they stand
under "ways", and so does what would free a plan that something stops.

Of a FOLDER it plans every job in it and below, on all cores, a line each; the
exit code is the worst.`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if isFolder(args[0]) {
				if asJSON || why || better {
					return fmt.Errorf("plan: --json, --why and --better are of one job; leave them out, or name a job in %s", args[0])
				}
				return planAll(cmd, args[0])
			}
			p, err := jobfile.PlanOf(args[0])
			if err != nil {
				return err
			}
			if out := (output{cmd.OutOrStdout()}); asJSON && better {
				err = out.bytes(document.WriteWays(p, p.Ways()))
			} else if asJSON {
				err = out.bytes(document.Write(p))
			} else if err = sheets.WritePasses(out, p); err == nil && why {
				err = sheets.WriteWhy(out, p)
			}
			if err == nil && better && p.Feasible && !asJSON {
				err = sheets.WriteBetter(output{cmd.OutOrStdout()}, p)
			}
			return cmp.Or(err, answer(p.Feasible))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "the plan as JSON, SI units")
	cmd.Flags().BoolVar(&better, "better", false, "search what would quieten a plan that stands, make it surer or quicker")
	cmd.Flags().BoolVar(&why, "why", false, "explain where the plan leaves the rules of thumb, and list every limit")
	return cmd
}

func postCommand() *cobra.Command {
	var visit int
	var station, part string
	cmd := &cobra.Command{
		Use:   "post JOB",
		Short: "Print the program of one visit to the mill, proven",
		Long: `post prints the program of one visit to standard output. A job with more than
one visit needs --station, --visit and --part, as far as each is needed, to say
which.`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			p, err := jobfile.PlanOf(args[0])
			if err != nil {
				return err
			}
			if !p.Feasible {
				sheets.WritePasses(cmd.ErrOrStderr(), p)
				return errNo
			}
			if p.Job.Machine.Control == nil {
				return fmt.Errorf("%s: machine: %s is worked by hand and takes no program; print the sheet instead (borewright sheet %s)",
					p.Job.Where("machine"), p.Job.Machine.Name, args[0])
			}
			b, v, err := visitOf(p, station, visit, part)
			if err != nil {
				return fmt.Errorf("post: %w", err)
			}
			sayTorn(cmd, p)
			return printProven(cmd, p, b, v)
		},
	}
	cmd.Flags().StringVar(&station, "station", "", "the bore, by its station's name")
	cmd.Flags().IntVar(&visit, "visit", 0, "the work on the bore, 1 or 2")
	cmd.Flags().StringVar(&part, "part", "", "of a work that is roughed apart: rough or finish")
	return cmd
}
