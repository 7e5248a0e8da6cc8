package jobfile

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"borewright/cmd/store"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets"
	"borewright/sheets/page"
	"borewright/sheets/programs"
)

// Choice is how a sheet is wanted.
type Choice struct {
	ASCII, NoPDF bool
	Paper        string
}

// Check refuses a paper that there is not.
func (c *Choice) Check() error {
	switch c.Paper {
	case "", "a4", "letter":
		return nil
	}
	return fmt.Errorf("--paper: there is no paper %q; give a4 or letter", c.Paper)
}

// Text is the text face as asked for.
func (c *Choice) Text(s *page.Sheet) func(io.Writer) error {
	if c.ASCII {
		return s.WriteASCII
	}
	return s.WriteText
}

// PDF is the PDF face on the paper asked for.
func (c *Choice) PDF(s *page.Sheet, p *plan.Plan) func(io.Writer) error {
	paper := page.A4
	if c.Paper == "letter" || c.Paper == "" && p.Job.Units == qty.Inches {
		paper = page.Letter
	}
	return func(w io.Writer) error { return s.WritePDF(w, paper) }
}

// PaperFile is a sheet as one file.
type PaperFile struct {
	Name  string
	Write func(io.Writer) error
}

// Faces are files of a sheet, less the PDFs where they are not wanted.
func (c *Choice) Faces(all ...PaperFile) ([]store.File, error) {
	var out []store.File
	for _, f := range all {
		if c.NoPDF && strings.HasSuffix(f.Name, ".pdf") {
			continue
		}
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name, err)
		}
		out = append(out, store.File{Name: f.Name, Data: b.Bytes()})
	}
	return out, nil
}

// CorrectionsOf works out the tables beside the hold points; a test that asks for many sheets of
// one plan keeps them.
var CorrectionsOf = sheets.CorrectionsOf

// Sheets are the operation sheet as text (without the annex), HTML and PDF, and its cards alone.
func (c *Choice) Sheets(p *plan.Plan, say ...sheets.Option) ([]store.File, error) {
	say = append(say, sheets.WithCorrections(CorrectionsOf(p)))
	of := func(part sheets.Part) *page.Sheet { return sheets.Build(p, append(say, sheets.Only(part))...) }
	whole, card := of(sheets.WholeSheet), of(sheets.CardPart)
	all := []PaperFile{{"sheet.txt", c.Text(of(TextPart(p)))}, {"sheet.html", whole.WriteHTML}, {"sheet.pdf", c.PDF(whole, p)}}
	if len(card.Sections) > 0 {
		all = append(all, PaperFile{"card.pdf", c.PDF(card, p)})
	}
	return c.Faces(all...)
}

// TextPart is what the text has when no part is asked for: what hands work from. A plan that
// is not feasible has its reasons and figures alone.
func TextPart(p *plan.Plan) sheets.Part {
	if p.Feasible {
		return sheets.OperatorPart
	}
	return sheets.WholeSheet
}

// Card is the cards of a plan alone, as make writes them to card.pdf.
func Card(p *plan.Plan, say ...sheets.Option) (*page.Sheet, error) {
	all, err := programs.Of(p)
	if err != nil {
		return nil, err
	}
	return sheets.Build(p, append(append(ProgramsSaid(p, all), sheets.Only(sheets.CardPart)), say...)...), nil
}
