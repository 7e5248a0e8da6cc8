package sheets

import (
	"fmt"
	"strings"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

const notProven = "NOT PROVEN"

// Option says what a plan does not know.
type Option func(*builder)

// WithPrograms names the program files of the visits, in the order of bores
// and visits. Without it a sheet for a machine with a control says that no
// program goes with it.
func WithPrograms(names ...string) Option {
	return func(b *builder) { b.programs = names }
}

// Build lays a plan out as an operation sheet, in the order of the work: the
// job, what stops it (if anything does), setting up, stations, checks, each
// bore visit by visit, cautions and signatures.
func Build(p *plan.Plan, opts ...Option) *Sheet {
	b := newBuilder(p)
	for _, o := range opts {
		o(b)
	}
	if !b.plan.Feasible {
		b.sheet.Stamp = notProven
		b.sheet.section("What stops this plan, and what would free it", stops(b.plan)...)
	}
	b.job()
	switch b.part {
	case LineUpPart:
		b.sheet.Kind = "Line-up sheet"
		b.stations()
		b.lineUp()
		b.toSweep()
		b.reach()
		b.cleanUp()
	case SleevePart:
		b.sheet.Kind = "Sleeve sheet"
		for i := range b.plan.Bores {
			b.sleeve(i)
		}
	default:
		b.whole()
	}
	b.cautions()
	b.signatures()

	for i := range b.sheet.Sections {
		s := &b.sheet.Sections[i]
		s.Title = fmt.Sprintf("%d. %s", i+1, s.Title)
	}
	b.sheet.eachText(func(s *string) { *s = clean(*s) })
	return b.sheet
}

// whole adds the operation sheet's own sections.
func (b *builder) whole() {
	b.sofar()
	if b.visits() > 0 || !b.plan.Feasible { // else nothing goes on the mill any more
		b.setUp()
		b.stations()
		b.lineUp()
		b.reach()
		b.cleanUp()
		b.checks()
	}
	for i := range b.plan.Bores {
		b.bore(i)
	}
}

// Part is a part of the sheet that goes to somebody else than the operator.
type Part int

// The parts.
const (
	WholeSheet Part = iota
	LineUpPart      // the dial's readings to fill in, what to move, reach, clean-up sizes
	SleevePart      // the sleeve for the lathe and the bench
)

// Only lays out one part as a sheet of its own.
func Only(part Part) Option { return func(b *builder) { b.part = part } }

// builder holds what the parts of a sheet are built from. Everything a job may
// lack is filled in, so that no part needs to ask.
type builder struct {
	sheet    *Sheet
	plan     *plan.Plan
	in       *process.Job
	machine  *process.Machine
	u        qty.Unit
	programs []string
	visit    int // counts visits over all bores, for the programs
	part     Part
}

func newBuilder(p *plan.Plan) *builder {
	if p == nil {
		p = &plan.Plan{Reasons: []plan.Reason{{What: "There is no plan."}}}
	}
	b := &builder{plan: p, in: p.JobNow()}
	if b.in == nil {
		b.in = &process.Job{}
	}
	b.machine = b.in.Machine
	if b.machine == nil {
		b.machine = &process.Machine{Name: "not stated"}
	}
	b.u = b.in.Units
	b.sheet = &Sheet{Kind: "Operation sheet", Job: jobName(b.in), Title: b.in.Title}
	return b
}

func jobName(j *process.Job) string {
	s := j.Number
	if s == "" {
		s = "job without number"
	}
	if j.Revision != "" {
		s += ", revision " + j.Revision
	}
	return s
}

func materialName(m *process.Material) string {
	switch {
	case m == nil:
		return "not stated"
	case m.Name != "":
		return m.Name
	}
	return m.ID
}

// stops prints the reasons of a plan that is not feasible.
func stops(p *plan.Plan) []Block {
	out := []Block{&Paragraph{Strong: true, Text: notProven + ". This plan does not meet the drawing. What follows is for study; nothing is to be cut from it."}}
	if len(p.Reasons) == 0 {
		out = append(out, &Paragraph{Text: "The plan gives no reason."})
	}
	kv := &KeyValues{}
	add := func(k, v string) { kv.Items = append(kv.Items, KeyValue{k, v}) }
	for i, r := range p.Reasons {
		what := r.What
		if r.Where != "" {
			what += " [" + r.Where + "]"
		}
		add(fmt.Sprintf("%d)", i+1), what)
		if len(r.Free) == 0 {
			add("", "Nothing that was tried would free it.")
			continue
		}
		add("", "What would free it, each worked out anew:")
		for k, f := range r.Free {
			add("  "+letters(k)+")", f)
		}
	}
	if len(kv.Items) > 0 {
		out = append(out, kv)
	}
	return out
}

// job says what the job is.
func (b *builder) job() {
	kv := &KeyValues{}
	add := func(k, v string) {
		if v != "" {
			kv.Items = append(kv.Items, KeyValue{k, v})
		}
	}
	add("Job", b.in.Number)
	add("Revision", b.in.Revision)
	add("Work", b.in.Title)
	add("Customer", b.in.Customer)
	add("Machine", b.machineName())
	add("Material", materialName(b.in.Material))
	for _, bore := range b.plan.Bores {
		add(fmt.Sprintf("Bore %d", b.boreNumber(bore)), b.boreLine(bore))
	}
	if b.in.Sleeve != nil {
		add("Sleeve", b.sleeveLine(b.in.Sleeve)+b.sleeveFinish())
	}
	if b.plan.Feasible {
		add("Time", say(qty.KindTime, b.plan.Minutes)+", stops to measure included")
	}
	add("Units", b.u.Word()+"; sizes are diameters; depths count inward from the face")
	blocks := []Block{kv, &Paragraph{Text: b.programWords()}}
	for _, n := range b.in.Notes {
		blocks = append(blocks, &Paragraph{Text: "Note: " + n})
	}
	b.sheet.section("The job", blocks...)
}

func (b *builder) machineName() string {
	if b.machine.Name != "" {
		return b.machine.Name
	}
	return b.machine.ID
}

func (b *builder) boreLine(x plan.Bore) string {
	f := x.Bore.Finish
	s := x.Station.Name + ": " + x.Bore.Repair.String() + ", to land " + b.u.SayLimitsOfSize(f.Low, f.High)
	if n := fitName(b.u, f.Nominal, f.Fit); n != "" {
		s += " (" + n + ")"
	}
	return s
}

func (b *builder) sleeveLine(s *process.Sleeve) string {
	out := materialName(s.Material) + ", outside " + b.u.SayBoth(s.Outside)
	if s.Hold == process.Bond {
		out += ", bonded"
		if s.Gap > 0 {
			out += " with a gap of " + b.u.Say(qty.Plain(s.Gap)) + " on diameter"
		}
	} else {
		out += ", pressed or shrunk in"
	}
	if s.Fit != "" {
		out += ", " + s.Fit
	}
	if s.Length > 0 {
		out += ", " + b.u.Say(qty.Plain(s.Length)) + " long"
	}
	return out
}

func (b *builder) programWords() string {
	switch {
	case b.plan.Feasible && b.visits() == 0:
		return "Nothing is left for the mill."
	case b.machine.Control == nil && !b.plan.Feasible:
		return "There is no program: this machine has no control. Nothing is to be cut from this sheet by hand either."
	case b.machine.Control == nil:
		return "There is no program: this machine has no control. The passes are worked by hand, from this sheet."
	case !b.plan.Feasible && len(b.programs) > 0:
		return "Programs, NOT PROVEN like this sheet: " + strings.Join(b.programs, ", ")
	case !b.plan.Feasible:
		return "There is no program: none is written for a plan that does not meet the drawing."
	case len(b.programs) == 0:
		return "No program goes with this sheet: none was asked for. The machine has a control."
	}
	return "Programs, one a visit: " + strings.Join(b.programs, ", ")
}

// setUp says what to put in the spindle and where zero is.
func (b *builder) setUp() {
	bar, cut := b.in.Bar, b.in.Cutter
	steps := &Table{
		Caption: "Bar" + quoted(bar.Name) + ", from the spindle nose outward:",
		Columns: []Column{{Head: []string{"step"}, Align: Decimal}, {Head: []string{"diameter"}, Align: Decimal}, {Head: []string{"length"}, Align: Decimal},
			{Head: []string{"ends", "from nose"}, Align: Decimal}, {Head: []string{"hole"}, Align: Decimal}, {Head: []string{"made of"}}},
	}
	var end qty.Length
	for i, s := range bar.Steps {
		end += s.Length
		hole := "solid"
		if s.Hole > 0 {
			hole = b.u.Bare(s.Hole)
		}
		steps.Rows = append(steps.Rows, Row{Cells: []string{fmt.Sprint(i + 1), b.u.Bare(s.Diameter), b.u.Format(s.Length), b.u.Format(end), hole, s.Material.Name}})
	}
	kv := &KeyValues{Items: []KeyValue{
		{"Stickout", b.u.SayBoth(qty.Plain(bar.Stickout())) + " from the nose to the end of the bar"},
	}}
	add := func(k, v string) { kv.Items = append(kv.Items, KeyValue{k, v}) }
	if bar.CutterAt > 0 {
		add("Cutter", b.u.SayBoth(qty.Plain(bar.CutterAt))+" from the nose to the tip")
	}
	if bar.FeedBy == process.QuillFeed {
		rest := "The rest stays clamped."
		if b.machine.Control != nil {
			rest = "The table stays clamped; X and Y are free for the program."
		}
		add("Feed by", "quill: the stickout grows as it feeds. "+rest)
		if bar.Standoff > 0 {
			add("Nose to face", b.u.SayBoth(qty.Plain(bar.Standoff))+"; it stays while the quill feeds")
		}
	} else {
		add("Feed by", "table: the quill stays clamped, the stickout as it is")
	}
	if o := bar.Outboard; o != nil {
		s := "middle of the bearing " + b.u.Say(qty.Plain(o.At)) + " from the nose"
		if o.Clearance > 0 {
			s += "; running clearance " + b.u.Say(qty.Plain(o.Clearance)) + " on diameter"
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
	add("Nose radius", b.u.SayBoth(qty.Plain(cut.NoseRadius)))
	if cut.Lead != 0 {
		add("Lead", say(qty.KindAngle, cut.Lead)+" from the direction of feed; trail "+say(qty.KindAngle, cut.Trail)+"; rake "+say(qty.KindAngle, cut.Rake))
	}
	if cut.Most > 0 {
		add("Cutter sets from", b.u.SayRange(cut.Least, cut.Most)+", in this bar")
	}
	if b.machine.SetDial > 0 {
		add("Cutter dial", "1 graduation = "+b.u.SayBoth(qty.Plain(b.machine.SetDial))+" on diameter")
	}
	if b.machine.Dial > 0 {
		add("Axis dials", "1 graduation = "+b.u.SayBoth(qty.Plain(b.machine.Dial)))
	}
	zero := &KeyValues{Items: []KeyValue{
		{"X0 Y0", "the true axis of the line of bores, found from the swept stations, not from the worn bore"},
		{b.in.FeedLetter() + "0", "the face that the spindle enters, with the cutter's tip; depths count inward from it"},
	}}
	var blocks []Block
	if f := b.setupFigure(); f != nil {
		blocks = append(blocks, f)
	}
	if len(bar.Steps) > 0 {
		blocks = append(blocks, steps)
	}
	b.sheet.section("Set up", append(blocks, kv, &Heading{"Work zero"}, zero)...)
}

// slides says which stay free: a program cannot move one that is clamped.
func (b *builder) slides() string {
	if b.machine.Control == nil {
		return "Slides that do not feed are clamped."
	}
	aside := ""
	for _, bore := range b.plan.Bores {
		for _, v := range bore.Visits {
			if tip := b.machine.Control.TipAtStop; v.Retract.Shift > 0 && tip != "" {
				aside = ", and " + strings.Trim(tip, "+-") + " off the wall before the cutter comes out"
			}
		}
	}
	return fmt.Sprintf("Slides that the program moves are free: X and Y (to X0 Y0%s) and %s (feeds). All others are clamped.", aside, b.in.FeedLetter())
}

func quoted(s string) string {
	if s == "" {
		return ""
	}
	return ` "` + s + `"`
}

// checks are ticked off before anything turns.
func (b *builder) checks() {
	bar := b.in.Bar
	items := []string{
		"Job number, revision and casting agree with this sheet.",
		"Casting on clean, flat supports near the clamps; clamping it does not move a dial on the face or the bore.",
		"Taper and socket clean, drawbar or key tight; bar runs true.",
		"Stickout measured: " + b.u.Say(qty.Plain(bar.Stickout())) + ".",
	}
	if bar.Outboard != nil {
		items = append(items, "Outboard bearing in line, bar turns in it freely by hand, oiled.")
	}
	items = append(items, "Cutter sharp, tight in the bar, its edge on centre; setting proved with a gauge or by a trial cut.")
	noted := "below"
	if b.plan.LineUp != nil { // which has a form of its own
		noted = "under line-up"
	}
	for _, s := range b.in.Stations {
		if s.Swept {
			items = append(items, "Dial swept in "+s.Name+"; X and Y set; reading noted "+noted+".")
		}
	}
	items = append(items, b.slides(),
		"Bar run in to full depth with the spindle stopped and the cutter drawn in or out of the bar: nothing touches.")
	for _, s := range b.in.Stations {
		if s.Blind {
			items = append(items, "Stop or mark set for the closed end of "+s.Name+" at depth "+b.u.Say(s.To)+reliefWords(b.u, s)+".")
		}
	}
	items = append(items,
		"Gauge set to its master; gauge, master and casting have lain together long enough to be at one temperature.",
		"Guards in place, stop button within reach.")
	sweep := &Table{Columns: []Column{{Head: []string{"dial swept in"}}, {Head: []string{"12 o'clock"}, Blank: true}, {Head: []string{"3 o'clock"}, Blank: true},
		{Head: []string{"6 o'clock"}, Blank: true}, {Head: []string{"9 o'clock"}, Blank: true}}}
	for _, s := range b.in.Stations {
		if s.Swept {
			sweep.Rows = append(sweep.Rows, Row{Cells: []string{s.Name, "", "", "", ""}})
		}
	}
	blocks := []Block{&Checklist{items}}
	if len(sweep.Rows) > 0 && b.plan.LineUp == nil { // else the line-up has its own
		blocks = append(blocks, sweep)
	}
	deg := b.u.Name(qty.KindTemperature)
	blocks = append(blocks, &Blanks{[]Blank{{"Bar runout", b.u.String()}, {"Casting", deg}, {"Gauge master", deg}}})
	b.sheet.section("Check before starting", blocks...)
}

func reliefWords(u qty.Unit, s process.Station) string {
	if s.Relief <= 0 {
		return ", no relief behind it"
	}
	return ", relief to " + u.Say(s.To+s.Relief)
}

// stations is the line of bores as it stands.
func (b *builder) stations() {
	t := &Table{Columns: []Column{{Head: []string{"no."}, Align: Decimal}, {Head: []string{"station"}}, {Head: []string{"from"}, Align: Decimal},
		{Head: []string{"to"}, Align: Decimal}, {Head: []string{"diameter", "now"}, Align: Decimal}, {Head: []string{"what"}}}}
	for i, s := range b.in.Stations {
		var what []string
		if s.Swept {
			what = append(what, "sweep")
		}
		for _, bore := range b.plan.Bores {
			if bore.Bore.Station == i {
				what = append(what, fmt.Sprintf("bore %d, %s", b.boreNumber(bore), bore.Bore.Repair))
			}
		}
		if s.Blind {
			what = append(what, "blind")
		}
		if s.Relief > 0 {
			what = append(what, "relief "+b.u.Format(s.Relief))
		}
		if len(what) == 0 {
			what = append(what, "pass through")
		}
		t.Rows = append(t.Rows, Row{Cells: []string{fmt.Sprint(i + 1), s.Name, b.u.Format(s.From), b.u.Format(s.To), b.u.Bare(s.Diameter), strings.Join(what, "; ")}})
	}
	b.sheet.section("Stations, inward from the face, in "+b.u.Word(), t)
}
