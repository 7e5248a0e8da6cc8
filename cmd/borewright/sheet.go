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

// paperFile is a sheet as one file.
type paperFile struct {
	name  string
	write func(io.Writer) error
}

// faces are files of a sheet, less the PDFs where they are not wanted.
func (c *sheetChoice) faces(all ...paperFile) ([]store.File, error) {
	var out []store.File
	for _, f := range all {
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

// sheets are the operation sheet as text (without the annex), HTML and PDF, and its cards alone.
func (c *sheetChoice) sheets(p *plan.Plan, say ...sheets.Option) ([]store.File, error) {
	say = append(say, sheets.WithCorrections(sheets.CorrectionsOf(p)))
	of := func(part sheets.Part) *page.Sheet { return sheets.Build(p, append(say, sheets.Only(part))...) }
	whole, card := of(sheets.WholeSheet), of(sheets.CardPart)
	all := []paperFile{{"sheet.txt", c.text(of(textPart(p)))}, {"sheet.html", whole.WriteHTML}, {"sheet.pdf", c.pdf(whole, p)}}
	if len(card.Sections) > 0 {
		all = append(all, paperFile{"card.pdf", c.pdf(card, p)})
	}
	return c.faces(all...)
}

// textPart is what the text has when no part is asked for: what hands work from. A plan that
// is not feasible has its reasons and figures alone.
func textPart(p *plan.Plan) sheets.Part {
	if p.Feasible {
		return sheets.OperatorPart
	}
	return sheets.WholeSheet
}

// sheetParts are the parts by name.
var sheetParts = map[string]sheets.Part{"": sheets.WholeSheet, "card": sheets.CardPart, "lineup": sheets.LineUpPart, "lathe": sheets.LathePart,
	"assembly": sheets.AssemblyPart, "sleeve": sheets.SleevePart, "annex": sheets.AnnexPart}

func sheetCommand() *cobra.Command {
	var as sheetChoice
	var html, pdf bool
	var only string
	cmd := &cobra.Command{
		Use:   "sheet JOB",
		Short: "Print the operation sheet of a job",
		Long: `sheet prints the operation sheet to standard output: as text of 80 columns, with
--html as one file for a browser to show and print, with --pdf as a PDF. First
comes a card for each visit, then set-up, hold forms, lathe and assembly; in HTML
and PDF an annex for programmer and reviewer follows.

--only prints a part: card; lineup, a form for the dial's readings, and once they
are in the job what to move; lathe, the sleeve to be turned; assembly, how it goes
in; sleeve, both with what they rest on; annex, the figures behind the passes.`,
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
				part = textPart(p)
			}
			all, _ := programs.Of(p) // whoever writes them says what is wrong
			s := sheets.Build(p, append(programsSaid(p, all), sheets.WithCorrections(sheets.CorrectionsOf(p)), sheets.Only(part))...)
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
	cmd.Flags().StringVar(&only, "only", "", "a part as a sheet of its own: card, lineup, lathe, assembly, sleeve or annex")
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
