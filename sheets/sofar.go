package sheets

import (
	"fmt"
	"io"

	"borewright/process/measured"
	"borewright/process/plan"
	"borewright/process/qty"
)

// WriteSofar prints what was measured before a plan was made and what follows
// from it, at most 80 columns; nothing where nothing was measured.
func WriteSofar(w io.Writer, p *plan.Plan) error {
	b := newBuilder(p)
	blocks := b.sofarBlocks()
	if len(blocks) == 0 {
		return nil
	}
	t := &printer{}
	t.line("Measured so far, in " + b.u.Word())
	t.rule("-")
	for i, x := range blocks {
		if i > 0 {
			t.line("")
		}
		t.block(x)
	}
	t.line("")
	_, err := io.WriteString(w, t.b.String())
	return err
}

// sofar says on a sheet for the rest what the gauge said before it.
func (b *builder) sofar() {
	if blocks := b.sofarBlocks(); len(blocks) > 0 {
		b.sheet.section("Measured so far, in "+b.u.Word(), blocks...)
	}
}

// setTo is what the cutter was set to, "" where nothing was cut.
func (b *builder) setTo(c measured.Cut) string {
	if c.Setting == 0 {
		return ""
	}
	return b.u.Bare(c.Setting)
}

func (b *builder) sofarBlocks() []Block {
	s := b.plan.Findings
	if s == nil {
		return nil
	}
	t := &Table{Columns: []Column{{Head: []string{"bore"}}, {Head: []string{"no"}, Align: Decimal}, {Head: []string{"pass"}}, {Head: []string{"set"}, Align: Decimal},
		{Head: []string{"found", "least"}, Align: Decimal}, {Head: []string{"found", "most"}, Align: Decimal},
		{Head: []string{"spring", "seen"}, Align: Decimal}, {Head: []string{"spring", "predicted"}, Align: Decimal}}}
	for _, c := range s.Cuts {
		seen, predicted := "", ""
		if c.Counts {
			seen, predicted = b.u.Bare(qty.Fine(c.Seen)), b.u.Bare(qty.Fine(c.Predicted))
		}
		t.Rows = append(t.Rows, Row{Cells: []string{c.Station, fmt.Sprint(c.Pass), c.Kind, b.setTo(c), b.u.Bare(c.Least), b.u.Bare(c.Most), seen, predicted}})
	}
	blocks := []Block{t}
	for _, x := range s.Says {
		blocks = append(blocks, &Paragraph{Text: x})
	}
	return blocks
}
