package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"borewright/cmd/jobfile"
	"borewright/process/plan"
	"borewright/sheets"
	"borewright/sheets/programs"
)

// paperFlag asks for the paper.
func paperFlag(cmd *cobra.Command, paper *string) {
	cmd.Flags().StringVar(paper, "paper", "", "paper of the PDF, a4 or letter (default: letter for a job in inches, else a4)")
}

// sheetParts are the parts by name.
var sheetParts = map[string]sheets.Part{"": sheets.WholeSheet, "card": sheets.CardPart, "lineup": sheets.LineUpPart, "lathe": sheets.LathePart,
	"assembly": sheets.AssemblyPart, "sleeve": sheets.SleevePart, "annex": sheets.AnnexPart}

func sheetCommand() *cobra.Command {
	var as jobfile.Choice
	var html, pdf bool
	var only string
	cmd := &cobra.Command{
		Use:   "sheet JOB",
		Short: "Print the operation sheet of a job",
		Long: `sheet prints the operation sheet to standard output: as text of 80 columns, with
--html as one file for a browser to show and print, with --pdf as a PDF. First
comes a card for each visit, then set-up, hold forms, lathe and assembly; in
HTML and PDF an annex for programmer and reviewer follows.

--only prints a part: card; lineup, a form for the dial's readings, and once
they are in the job what to move; lathe, the sleeve to be turned; assembly, how
it goes in; sleeve, both with what they rest on; annex, the figures behind the
passes.`,
		Example: "  borewright sheet job.toml\n  borewright sheet job.toml --pdf > sheet.pdf",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := as.Check(); err != nil {
				return err
			}
			p, err := jobfile.PlanOf(args[0])
			if err != nil {
				return err
			}
			part, ok := sheetParts[only]
			sleeve := part == sheets.SleevePart || part == sheets.LathePart || part == sheets.AssemblyPart
			switch {
			case !ok:
				return fmt.Errorf("--only: there is no part %q; give card, lineup, lathe, assembly, sleeve or annex", only)
			case sleeve && !hasSleeve(p):
				return fmt.Errorf("--only %s: no bore of %s gets a sleeve, or none that is not finished", only, args[0])
			case part == sheets.CardPart && !p.Feasible:
				return fmt.Errorf("--only card: nothing is to be cut from a plan that is not feasible; borewright plan %s says what stops it", args[0])
			case only == "" && !html && !pdf:
				part = jobfile.TextPart(p)
			}
			all, _ := programs.Of(p) // whoever writes them says what is wrong
			s := sheets.Build(p, append(jobfile.ProgramsSaid(p, all), sheets.WithCorrections(jobfile.CorrectionsOf(p)), sheets.Only(part))...)
			write := as.Text(s)
			switch {
			case html:
				write = s.WriteHTML
			case pdf:
				write = as.PDF(s, p)
			}
			if err := write(cmd.OutOrStdout()); err != nil {
				return err
			}
			return answer(p.Feasible)
		},
	}
	cmd.Flags().BoolVar(&as.ASCII, "ascii", false, "text in plain ASCII, for an old printer")
	cmd.Flags().BoolVar(&html, "html", false, "one HTML file, drawings inside")
	cmd.Flags().BoolVar(&pdf, "pdf", false, "a PDF, fonts inside")
	cmd.Flags().StringVar(&only, "only", "", "a part as a sheet of its own: card, lineup, lathe, assembly, sleeve or annex")
	paperFlag(cmd, &as.Paper)
	cmd.MarkFlagsMutuallyExclusive("ascii", "html", "pdf")
	return cmd
}

func hasSleeve(p *plan.Plan) bool {
	for _, b := range p.Bores {
		if b.Sleeve != nil {
			return true
		}
	}
	return false
}
