package sheets

import (
	"fmt"
	"io"

	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// WriteLineUp prints what a terminal shows of the line-up and of the worn
// bores, at most 80 columns. size, over 0, adds the shadow that a bore of that
// diameter would leave.
func WriteLineUp(w io.Writer, p *plan.Plan, size qty.Diameter) error {
	b := newBuilder(p)
	t := b.terminal()
	if p.LineUp != nil {
		for _, h := range b.Sides() {
			one := *b
			if one.Head = h; h.Plan.LineUp != nil {
				t.Section("Line up for "+h.Plan.LineUp.Station+h.From(), one.LineUpBlocks())
			}
		}
	} else if why := p.NoLineUp(); !why.None() {
		t.Section("Line up", []page.Block{&page.Paragraph{Strong: true, Text: b.Words.Sentence(why)}})
	} else {
		t.Section("Line up", []page.Block{&page.Paragraph{Text: "The job holds no sweep: enter the dial's readings as [[sweep]] (borewright explain sweep). A form for them: borewright sheet JOB --only lineup."}})
	}
	for _, x := range p.Bores {
		if x.CleanUp == nil {
			continue
		}
		if size > 0 {
			c := *x.CleanUp
			c.Shadows = append([]place.Shadow{c.Shadow(size)}, c.Shadows...)
			x.CleanUp = &c
		}
		t.Section("Clean-up size of "+x.Station.Name, b.CleanUpBlocks(x))
	}
	_, err := t.WriteTo(w)
	return err
}

// WriteReach prints whether the bar gets to every bore, and the bars of the
// shop's list if any were tried.
func WriteReach(w io.Writer, p *plan.Plan, choices []place.Choice) error {
	b := newBuilder(p)
	t := b.terminal()
	for _, x := range p.Bores {
		for _, v := range x.Visits {
			name := x.Station.Name
			if len(x.Visits) > 1 {
				name += fmt.Sprintf(", visit %d of %d", v.N, len(x.Visits))
			}
			if !v.Title.None() {
				name += ": " + b.Words.Say(v.Title)
			}
			t.Section(name, b.ReachBlocks(v))
		}
	}
	if blocks := b.Stickouts(false); blocks != nil {
		t.Section("Stickout", blocks)
	}
	if blocks := b.Tools(); blocks != nil {
		t.Section("Bar and cutter", blocks)
	}
	switch {
	case len(choices) > 0:
		t.Section("Bars", b.Bars(choices))
	case len(p.Job.Shop) > 0 && p.Several():
		t.Section("Bars", []page.Block{&page.Paragraph{Text: "Nothing that is left is cut with the job's own bar, so none of the list is tried in its place."}})
	}
	_, err := t.WriteTo(w)
	return err
}

// terminal begins a page for the terminal with the job's name.
func (b *builder) terminal() *page.Printer {
	t := &page.Printer{}
	title := b.Name()
	if b.Job.Title != "" {
		title += ": " + b.Job.Title
	}
	t.Hang("", "  ", title)
	return t
}
