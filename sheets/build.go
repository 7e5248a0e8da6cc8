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
	"strings"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/card"
	"borewright/sheets/figure"
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
	return func(b *builder) { b.programs = names }
}

// WithPlanes says how far in front of the face the clear plane of each program is, in the
// order of the programs: a program that says less leaves it to the sheet.
func WithPlanes(planes ...qty.Length) Option {
	return func(b *builder) { b.planes = planes }
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
		b.sheet.Stamp = page.NotProven
		b.sheet.Add("What stops this plan, and what would free it", b.stops()...)
	}
	switch b.part {
	case LineUpPart:
		b.sheet.Kind = "Line-up sheet"
		b.job()
		b.stations()
		b.lineUp()
		b.toSweep()
		b.reach()
		b.cleanUp()
		b.cautions()
	case SleevePart:
		b.sheet.Kind = "Sleeve sheet"
		b.job()
		b.eachSleeve(b.repair, b.lathe, b.assembled)
		b.cautions()
	case CardPart:
		b.sheet.Kind = "Card"
		b.cards()
	case LathePart:
		b.sheet.Kind = "Lathe sheet"
		b.eachSleeve(b.lathe)
	case AssemblyPart:
		b.sheet.Kind = "Assembly sheet"
		b.eachSleeve(b.together)
	case AnnexPart:
		b.sheet.Kind = "Annex"
		b.annex()
	case OperatorPart:
		b.operator()
	default:
		b.operator()
		n := len(b.sheet.Sections)
		b.annex()
		if n > 0 && n < len(b.sheet.Sections) {
			b.sheet.Sections[n].OwnPage = true
		}
	}
	b.sheet.Number()
	b.sheet.Clean()
	return b.sheet
}

// operator adds what is worked through at the mill, the lathe and the bench: nothing of a plan
// that is not feasible.
func (b *builder) operator() {
	if !b.Plan.Feasible {
		return
	}
	b.cards()
	if b.visits() > 0 { // else nothing goes on the mill any more
		b.begin()
	}
	b.findings()
	b.holds()
	b.eachSleeve(b.lathe, b.together)
}

// annex adds what programmer and reviewer read.
func (b *builder) annex() {
	b.job()
	if !b.Plan.Feasible {
		b.findings()
	}
	if b.visits() > 0 || !b.Plan.Feasible {
		b.setUp()
		b.stations()
		b.lineUp()
		b.reach()
		b.cleanUp()
	}
	for i, x := range b.Plan.Bores {
		b.bore(i)
		b.sheet.Add(b.boreHead(x)+", ways to repair it", repair.Ways(b.Plan, x))
	}
	if !b.Plan.Feasible { // nobody works from it, and it is read all the same
		b.eachSleeve(b.lathe, b.together)
	}
	b.cautions()
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
	card.Hand
	sheet    *page.Sheet
	programs []string
	planes   []qty.Length // of the programs
	visit    int          // counts visits over all bores, for the programs
	part     Part
}

func newBuilder(p *plan.Plan) *builder {
	h := head.Of(p)
	return &builder{Hand: card.Hand{Head: h}, sheet: &page.Sheet{Kind: "Operation sheet", Job: h.Name(), Title: h.Job.Title}}
}

// stops prints the reasons of a plan that is not feasible.
func (b *builder) stops() []page.Block {
	out := []page.Block{&page.Paragraph{Strong: true, Text: page.NotProven + ". This plan does not meet the drawing. What follows is for study; nothing is to be cut from it."}}
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
		add("  "+letters(k)+")", b.Words.Say(w.Fact()))
	}
	if len(kv.Items) > 0 {
		out = append(out, kv)
	}
	return out
}

// job says what the job is.
func (b *builder) job() {
	time := ""
	if b.Plan.Feasible {
		time = qty.KindTime.Say(b.Plan.Minutes) + ", stops to measure included"
	}
	blocks := []page.Block{page.KVs(b.Lines(b.sleeveFinish(), time)), &page.Paragraph{Text: b.programWords()}}
	for _, n := range b.Job.Notes {
		blocks = append(blocks, &page.Paragraph{Text: "Note: " + n})
	}
	b.sheet.Add("The job", blocks...)
}

func (b *builder) programWords() string {
	switch {
	case b.Plan.Feasible && b.visits() == 0:
		return "Nothing is left for the mill."
	case b.Machine.Control == nil && !b.Plan.Feasible:
		return "There is no program: this machine has no control. Nothing is to be cut from this sheet by hand either."
	case b.Machine.Control == nil:
		return "There is no program: this machine has no control. The passes are worked by hand, from this sheet."
	case !b.Plan.Feasible && len(b.programs) > 0:
		return "Programs, NOT PROVEN like this sheet: " + strings.Join(b.programs, ", ")
	case !b.Plan.Feasible:
		return "There is no program: none is written for a plan that does not meet the drawing."
	case len(b.programs) == 0:
		return "No program goes with this sheet: none was asked for. The machine has a control."
	}
	return "Programs, one a visit: " + strings.Join(b.programs, ", ")
}

// setUp says what to put in the spindle and where zero is.
func (b *builder) setUp() {
	bar, cut := b.Job.Bar, b.Job.Cutter
	steps := &page.Table{
		Caption: "Bar" + quoted(bar.Name) + ", from the spindle nose outward:",
		Columns: []page.Column{{Head: []string{"step"}, Align: page.Decimal}, {Head: []string{"diameter"}, Align: page.Decimal}, {Head: []string{"length"}, Align: page.Decimal},
			{Head: []string{"ends", "from nose"}, Align: page.Decimal}, {Head: []string{"hole"}, Align: page.Decimal}, {Head: []string{"made of"}}},
	}
	var end qty.Length
	for i, s := range bar.Steps {
		end += s.Length
		hole := "solid"
		if s.Hole > 0 {
			hole = b.U.Bare(s.Hole)
		}
		steps.Rows = append(steps.Rows, page.Row{Cells: []string{fmt.Sprint(i + 1), b.U.Bare(s.Diameter), b.U.Format(s.Length), b.U.Format(end), hole, s.Material.Name}})
	}
	kv := &page.KeyValues{Items: []page.KeyValue{
		page.KV("Stickout", b.U.SayBoth(qty.Plain(bar.Stickout()))+" from the nose to the end of the bar"),
	}}
	add := func(k, v string) { kv.Items = append(kv.Items, page.KV(k, v)) }
	if bar.CutterAt > 0 {
		add("Cutter", b.U.SayBoth(qty.Plain(bar.CutterAt))+" from the nose to the tip")
	}
	if bar.FeedBy == process.QuillFeed {
		rest := "The rest stays clamped."
		if b.Machine.Control != nil {
			rest = b.still("The table") + "; X and Y are free for the program."
		}
		add("Feed by", "quill: the stickout grows as it feeds. "+rest)
		if bar.Standoff > 0 {
			add("Nose to face", b.U.SayBoth(qty.Plain(bar.Standoff))+"; it stays while the quill feeds")
		}
	} else {
		add("Feed by", "table: "+b.still("the quill")+", the stickout as it is")
	}
	if o := bar.Outboard; o != nil {
		s := "middle of the bearing " + b.U.Say(qty.Plain(o.At)) + " from the nose"
		if o.Clearance > 0 {
			s += "; running clearance " + b.U.Say(qty.Plain(o.Clearance)) + " on diameter"
		}
		add("Outboard support", s)
	} else {
		add("Outboard support", "none: the bar ends in the air")
	}

	edge := "not stated"
	if cut.Material != nil {
		edge = cut.Material.Name
	}
	add("Cutter material", edge)
	add("Nose radius", b.U.SayBoth(qty.Plain(cut.NoseRadius)))
	if cut.Lead != 0 {
		add("Lead", qty.KindAngle.Say(cut.Lead)+" from the direction of feed; trail "+qty.KindAngle.Say(cut.Trail)+"; rake "+qty.KindAngle.Say(cut.Rake))
	}
	if cut.Most > 0 {
		add("Cutter sets from", b.U.SayRange(cut.Least, cut.Most)+", in this bar")
	}
	if b.Machine.SetDial > 0 {
		turn := ""
		if b.Machine.DialTurn > 0 {
			turn = ", " + qty.KindNumber.Bare(float64(b.Machine.DialTurn)/float64(b.Machine.SetDial)) + " to a turn"
		}
		add("Cutter dial", "1 graduation = "+b.U.Say(qty.Graduation(b.Machine.SetDial))+" on diameter"+turn)
	}
	if b.Machine.Dial > 0 {
		add("Axis dials", "1 graduation = "+b.U.Say(qty.Graduation(b.Machine.Dial)))
	}
	face := "the face that the spindle enters, with the cutter's tip; depths count inward from it"
	if c := b.Machine.Control; c != nil && c.Tool > 0 {
		switch tool := fmt.Sprintf("T%d, called by the program at its start", c.Tool); {
		case bar.Outboard != nil:
			add("Tool", "none is called: the bar runs in an outboard support and is put in by hand")
		case c.HomeWord == 0:
			add("Tool", tool+": bar out of the work first, the slides do not go home before it")
		default:
			add("Tool", tool)
		}
	}
	if h, long := b.lengthOffset(); h != "" {
		add("Length offset", h+": "+b.U.SayBoth(qty.Plain(long))+" from the gauge line to the tip by these figures. A bar held by its stickout has another length each time it is clamped: measure it as it is held, and enter that")
		face = "the face that the spindle enters: the work offset is set with the gauge line at it, and " + h + " adds the bar, so that positions are of the tip; depths count inward from it"
	}
	zero := &page.KeyValues{Items: []page.KeyValue{
		page.KV("X0 Y0", "the true axis of the line of bores, found from the swept stations, not from the worn bore"),
		page.KV(b.Job.FeedLetter().String()+"0", face),
	}}
	var blocks []page.Block
	if f := figure.Setup(b.Head); f != nil {
		blocks = append(blocks, f)
	}
	if len(bar.Steps) > 0 {
		blocks = append(blocks, steps)
	}
	b.sheet.Add("Set up", append(blocks, kv, page.Head("Work zero"), zero)...)
}

// lengthOffset is the offset that the program calls, and the length by the job: from the
// line that the machine measures tools from to the tip. "": none is called.
func (b *builder) lengthOffset() (h string, long qty.Length) {
	c := b.Machine.Control
	if c == nil || c.LengthOffset == 0 || b.Job.FeedLetter() != 'Z' {
		return "", 0
	}
	return fmt.Sprintf("H%d", c.LengthOffset), b.Job.Bar.CutterAt - b.Job.QuillOut() + c.GaugeLine
}

// slides says which stay free: a program cannot move one that is clamped.
func (b *builder) slides() string {
	if b.Machine.Control == nil {
		for _, bore := range b.Plan.Bores {
			for _, v := range bore.Visits {
				if v.Shift() > 0 {
					return "Slides that do not feed are clamped; X is freed only to bring the cutter out."
				}
			}
		}
		return "Slides that do not feed are clamped."
	}
	placed := strings.Join(b.Placed(), " and ")
	if placed != "" {
		placed = ", " + placed + " (placed before the first pass)"
	}
	return fmt.Sprintf("Slides that the program moves are free: X and Y (to X0 Y0%s) and %s (feeds)%s. All others are clamped.", b.Across(), b.Job.FeedLetter(), placed)
}

// still says how a slide along the bore that does not feed stays.
func (b *builder) still(slide string) string {
	if c := b.Machine.Control; c != nil && c.OtherSlide == process.OtherPlaced && len(b.Placed()) > 0 {
		return slide + " stays where the program puts it"
	}
	return slide + " stays clamped"
}

func quoted(s string) string {
	if s == "" {
		return ""
	}
	return ` "` + s + `"`
}

// stations is the line of bores as it stands.
func (b *builder) stations() {
	t := &page.Table{Columns: []page.Column{{Head: []string{"no."}, Align: page.Decimal}, {Head: []string{"station"}}, {Head: []string{"from"}, Align: page.Decimal},
		{Head: []string{"to"}, Align: page.Decimal}, {Head: []string{"diameter", "now"}, Align: page.Decimal}, {Head: []string{"what"}}}}
	for i, s := range b.Job.Stations {
		var what []string
		if s.Swept {
			what = append(what, "sweep")
		}
		for _, bore := range b.Plan.Bores {
			if bore.Bore.Station == i {
				what = append(what, fmt.Sprintf("bore %d, %s", b.BoreNumber(bore), bore.Bore.Repair))
			}
		}
		if s.Blind {
			what = append(what, "blind")
		}
		if s.Relief > 0 {
			what = append(what, "relief "+b.U.Format(s.Relief))
		}
		if len(what) == 0 {
			what = append(what, "pass through")
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(i + 1), s.Name, b.U.Format(s.From), b.U.Format(s.To), b.U.Bare(s.Diameter), strings.Join(what, "; ")}})
	}
	b.sheet.Add("Stations, inward from the face, in "+b.U.Word(), t)
}
