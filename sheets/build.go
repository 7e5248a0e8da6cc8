// Package sheets lays a plan out for the person at the machine: the operation
// sheet, its parts for the line-up and the lathe, and what a terminal shows of a
// plan. It says what stands on the paper and in what order; how it looks is
// the room page's, what the drawings show is figure's, what changed between two
// revisions and what was built is report's, and the facts of the plan are put in
// words by words.
//
// Nothing is calculated here but counts of graduations, and no warning of the
// plan is left out.
package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/ways"
	"borewright/sheets/annex"
	"borewright/sheets/card"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/repair"
)

// Option says what a plan does not know.
type Option func(*builder)

// WithPrograms names the program files of the visits, in the order of bores
// and visits. Without it a sheet for a machine with a control says that no
// program goes with it.
func WithPrograms(names ...string) Option {
	return func(b *builder) { b.Programs = names }
}

// WithPlanes says how far in front of the face the clear plane of each program is, in the
// order of the programs: a program that says less leaves it to the sheet.
func WithPlanes(planes ...qty.Length) Option {
	return func(b *builder) { b.Planes = planes }
}

// WithSum gives the plan's check sum, so that it is not worked out again.
func WithSum(sum string) Option {
	return func(b *builder) { b.Known = sum }
}

// Build lays a plan out as an operation sheet: a card for every visit, then what the
// operator, the lathe and the bench work through, then an annex for programmer and reviewer.
// A plan that is not feasible has no cards: what stops it comes first.
func Build(p *plan.Plan, opts ...Option) *page.Sheet {
	b := newBuilder(p)
	for _, o := range opts {
		o(b)
	}
	if !b.Plan.Feasible {
		b.Sheet.Stamp = page.NotFeasible
		b.Sheet.Add("What stops this plan, and what would free it", b.stops()...)
	}
	switch b.part {
	case LineUpPart:
		b.Sheet.Kind = "Line-up sheet"
		b.AddJob()
		b.AddStations()
		b.AddLineUp()
		b.toSweep()
		b.AddReach()
		b.AddCleanUp()
		b.AddCautions()
	case SleevePart:
		b.Sheet.Kind = "Sleeve sheet"
		b.AddJob()
		b.eachSleeve(b.repair, b.lathe, b.assembled)
		b.AddCautions()
	case CardPart:
		b.Sheet.Kind = "Card"
		b.cards()
	case LathePart:
		b.Sheet.Kind = "Lathe sheet"
		b.eachSleeve(b.lathe)
	case AssemblyPart:
		b.Sheet.Kind = "Assembly sheet"
		b.eachSleeve(b.together)
	case AnnexPart:
		b.Sheet.Kind = "Annex"
		b.annex()
	case OperatorPart:
		b.operator()
	default:
		b.operator()
		n := len(b.Sheet.Sections)
		b.annex()
		if n > 0 && n < len(b.Sheet.Sections) {
			b.Sheet.Sections[n].OwnPage = true
		}
	}
	b.Sheet.Number()
	b.Sheet.Clean()
	return b.Sheet
}

// operator adds what is worked through at the mill, the lathe and the bench: nothing of a plan
// that is not feasible.
func (b *builder) operator() {
	if !b.Plan.Feasible {
		return
	}
	b.cards()
	if b.VisitsLeft() > 0 { // else nothing goes on the mill any more
		b.begin()
	}
	b.findings()
	b.holds()
	b.eachSleeve(b.lathe, b.together)
}

// annex adds what programmer and reviewer read.
func (b *builder) annex() {
	b.AddJob()
	if !b.Plan.Feasible {
		b.findings()
	}
	if b.VisitsLeft() > 0 || !b.Plan.Feasible {
		b.AddSetUp()
		b.AddTools()
		b.AddStations()
		b.AddLineUp()
		b.AddReach()
		b.AddCleanUp()
	}
	for i, x := range b.Plan.Bores {
		b.AddBore(i)
		b.Sheet.Add(b.BoreTitle(x)+", ways to repair it", repair.Ways(b.Plan, x))
	}
	if !b.Plan.Feasible { // nobody works from it, and it is read all the same
		b.eachSleeve(b.lathe, b.together)
	}
	b.AddCautions()
}

// Part is a part of the sheet that goes to somebody else than the operator.
type Part int

// The parts.
const (
	WholeSheet   Part = iota
	OperatorPart      // all but the annex
	CardPart          // page one of every visit
	LineUpPart        // the dial's readings to fill in, what to move, reach, clean-up sizes
	SleevePart        // the sleeve for the lathe and the bench, with what it rests on
	LathePart         // the sleeve for the lathe
	AssemblyPart      // how the sleeve goes in
	AnnexPart         // for programmer and reviewer
)

// Only lays out one part as a sheet of its own.
func Only(part Part) Option { return func(b *builder) { b.part = part } }

// builder holds what the parts of a sheet are built from.
type builder struct {
	annex.Annex
	part        Part
	corrections Corrections
}

func newBuilder(p *plan.Plan) *builder {
	h := head.Of(p)
	return &builder{Annex: annex.Annex{Hand: card.Hand{Head: h}, Sheet: &page.Sheet{Kind: "Operation sheet", Job: h.Name(), Title: h.Job.Title}}}
}

// stops prints the reasons of a plan that is not feasible.
func (b *builder) stops() []page.Block {
	out := []page.Block{&page.Paragraph{Strong: true, Text: page.NotFeasible + ". This plan does not meet the drawing. What follows is for study; nothing is to be cut from it."}}
	if len(b.Plan.Reasons) == 0 {
		out = append(out, &page.Paragraph{Text: "The plan gives no reason."})
	}
	kv := &page.KeyValues{}
	add := func(k, v string) { kv.Items = append(kv.Items, page.KV(k, v)) }
	for i, r := range b.Plan.Reasons {
		what := b.Words.Say(r.What)
		if r.Where != "" {
			what += " [" + r.Where + "]"
		}
		add(fmt.Sprintf("%d)", i+1), what)
	}
	free := b.Plan.Free()
	switch {
	case len(free) > 0:
		add("", "What would free it, each worked out anew:")
	case len(b.Plan.Reasons) > 0 && b.Plan.Seek != nil:
		add("", "Nothing that was tried would free it.")
	}
	for k, w := range free {
		add("  "+annex.Letters(k)+")", b.Words.Say(w.Fact()))
	}
	if none := b.Plan.NoBar(); !none.None() {
		add("", b.Words.Sentence(none))
	}
	if len(kv.Items) > 0 {
		out = append(out, kv)
	}
	out = append(out, toAdd(free)...)
	if t := b.metals(); t != nil {
		out = append(out, t)
	}
	return out
}

// metals is what the bar to make would give of dearer metals; nil where none gives more.
func (b *builder) metals() page.Block {
	all := b.Plan.Metals()
	if len(all) == 0 {
		return nil
	}
	t := &page.Table{Caption: "The bar to make, where a dearer metal gives more:", Columns: []page.Column{{Head: []string{"material"}},
		{Head: []string{"passes"}, Align: page.Decimal}, {Head: []string{"min"}, Align: page.Decimal}, {Head: []string{"land", "in 100"}, Align: page.Decimal}, {Head: []string{"chatter"}}}}
	if of := all[0].Instead; of != "" {
		t.Caption = strings.Replace(t.Caption, "make,", "make in the place of "+of+",", 1)
	}
	for _, m := range all {
		t.Rows = append(t.Rows, page.Row{Cells: []string{m.ID, strconv.Itoa(m.Passes), qty.KindWholeMinutes.Bare(m.Minutes), qty.KindChance.Bare(m.Chance), b.Words.Say(fact.New(m.Voice()))}})
	}
	return t
}

// toAdd are the bars and cutters of ways as they go into the shop's lists.
func toAdd(found []ways.Way) (out []page.Block) {
	for _, l := range []struct {
		caption string
		entry   func(ways.Way) string
	}{{"To add to the list of bars:", ways.Way.Entry}, {"To add to the list of cutters:", ways.Way.CutterEntry}} {
		t := &page.Table{Caption: l.caption, Small: true, Columns: []page.Column{{}}}
		for _, w := range found {
			for line := range strings.Lines(l.entry(w)) {
				t.Rows = append(t.Rows, page.Row{Cells: []string{strings.TrimRight(line, "\n")}})
			}
		}
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}
