package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"borewright/cmd/store"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets"
	"borewright/sheets/page"
	"borewright/sheets/programs"
)

// sheetChoice is how a sheet is wanted.
type sheetChoice struct {
	ascii, noPDF bool
	paper        string
}

func (c *sheetChoice) paperFlag(cmd *cobra.Command) {
	cmd.Flags().StringVar(&c.paper, "paper", "", "paper of the PDF, a4 or letter (default: letter for a job in inches, else a4)")
}

func (c *sheetChoice) check() error {
	switch c.paper {
	case "", "a4", "letter":
		return nil
	}
	return fmt.Errorf("--paper: there is no paper %q; give a4 or letter", c.paper)
}

// text is the text face as asked for.
func (c *sheetChoice) text(s *page.Sheet) func(io.Writer) error {
	if c.ascii {
		return s.WriteASCII
	}
	return s.WriteText
}

// pdf is the PDF face on the paper asked for.
func (c *sheetChoice) pdf(s *page.Sheet, p *plan.Plan) func(io.Writer) error {
	paper := page.A4
	if c.paper == "letter" || c.paper == "" && p.Job.Units == qty.Inches {
		paper = page.Letter
	}
	return func(w io.Writer) error { return s.WritePDF(w, paper) }
}

// faces are the three faces as files, less the PDF where it is not wanted.
func (c *sheetChoice) faces(name string, s *page.Sheet, p *plan.Plan) ([]store.File, error) {
	var out []store.File
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{{name + ".txt", c.text(s)}, {name + ".html", s.WriteHTML}, {name + ".pdf", c.pdf(s, p)}} {
		if c.noPDF && strings.HasSuffix(f.name, ".pdf") {
			continue
		}
		var b bytes.Buffer
		if err := f.write(&b); err != nil {
			return nil, fmt.Errorf("%s: %w", f.name, err)
		}
		out = append(out, store.File{Name: f.name, Data: b.Bytes()})
	}
	return out, nil
}

func sheetCommand() *cobra.Command {
	var as sheetChoice
	var html, pdf bool
	var only string
	cmd := &cobra.Command{
		Use:   "sheet JOB",
		Short: "Print the operation sheet of a job",
		Long: `sheet prints the operation sheet to standard output: as text of 80 columns, with
--html as one file for a browser to show and print, with --pdf as a PDF.

--only lineup prints the line-up sheet: a form for the dial's readings, and once
they are in the job what to move. --only sleeve prints the sleeve's sheet for the
lathe and the bench.`,
		Example: "  borewright sheet job.toml\n  borewright sheet job.toml --pdf > sheet.pdf",
		Args:    oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := as.check(); err != nil {
				return err
			}
			p, err := planOf(args[0])
			if err != nil {
				return err
			}
			part, ok := map[string]sheets.Part{"": sheets.WholeSheet, "lineup": sheets.LineUpPart, "sleeve": sheets.SleevePart}[only]
			switch {
			case !ok:
				return fmt.Errorf("--only: there is no part %q; give lineup or sleeve", only)
			case part == sheets.SleevePart && !hasSleeve(p):
				return fmt.Errorf("--only sleeve: no bore of %s gets a sleeve, or none that is not finished", args[0])
			}
			all, _ := programs.Of(p) // whoever writes them says what is wrong
			s := sheets.Build(p, append(programsSaid(p, all), sheets.Only(part))...)
			write := as.text(s)
			switch {
			case html:
				write = s.WriteHTML
			case pdf:
				write = as.pdf(s, p)
			}
			if err := write(cmd.OutOrStdout()); err != nil {
				return err
			}
			return answer(p.Feasible)
		},
	}
	cmd.Flags().BoolVar(&as.ascii, "ascii", false, "text in plain ASCII, for an old printer")
	cmd.Flags().BoolVar(&html, "html", false, "one HTML file, drawings inside")
	cmd.Flags().BoolVar(&pdf, "pdf", false, "a PDF, fonts inside")
	cmd.Flags().StringVar(&only, "only", "", "a part as a sheet of its own: lineup or sleeve")
	as.paperFlag(cmd)
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
