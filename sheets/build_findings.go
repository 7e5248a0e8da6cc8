package sheets

import (
	"fmt"
	"io"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// WriteFindings prints what was measured before a plan was made and what follows
// from it, at most 80 columns; nothing where nothing was measured.
func WriteFindings(w io.Writer, p *plan.Plan) error {
	b := newBuilder(p)
	blocks := b.findingBlocks()
	if len(blocks) == 0 {
		return nil
	}
	t := &page.Printer{}
	t.Line("Measured so far, in " + b.U.Word())
	t.Rule("-")
	t.Blocks(blocks)
	t.Line("")
	_, err := t.WriteTo(w)
	return err
}

// findings says on a sheet for the rest what the gauge said before it.
func (b *builder) findings() {
	if blocks := b.findingBlocks(); len(blocks) > 0 {
		b.Sheet.Add("Measured so far, in "+b.U.Word(), blocks...)
	}
}

func (b *builder) findingBlocks() []page.Block {
	s := b.Plan.Findings
	if s == nil {
		return nil
	}
	t := &page.Table{Columns: []page.Column{{Head: []string{"bore"}}, {Head: []string{"no"}, Align: page.Decimal}, {Head: []string{"pass"}}, {Head: []string{"set"}, Align: page.Decimal},
		{Head: []string{"found", "least"}, Align: page.Decimal}, {Head: []string{"found", "most"}, Align: page.Decimal},
		{Head: []string{"spring", "seen"}, Align: page.Decimal}, {Head: []string{"spring", "predicted"}, Align: page.Decimal}}}
	for _, c := range s.Cuts {
		seen, predicted := "", ""
		if c.Counts {
			seen, predicted = b.U.Bare(qty.Fine(c.Seen)), b.U.Bare(qty.Fine(c.Predicted))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{c.Station, fmt.Sprint(c.Pass), c.Kind.String(), b.SetTo(c), b.U.Bare(c.Least), b.U.Bare(c.Most), seen, predicted}})
	}
	blocks := []page.Block{t}
	for _, x := range b.Words.Sentences(s.Says) {
		blocks = append(blocks, &page.Paragraph{Text: x})
	}
	return blocks
}
