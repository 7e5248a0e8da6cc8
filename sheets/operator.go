package sheets

import (
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// cards adds page one of every visit.
func (b *builder) cards() {
	for _, t := range b.Plan.Turns() {
		if x := &b.Plan.Bores[t[0]]; !x.Visits[t[1]].Leads(x.Station.Name) { // it stands on the card of the first
			continue
		}
		program := ""
		if n := b.Nth(t[0], t[1]); len(b.Programs) == b.VisitsLeft() && n < len(b.Programs) {
			program = b.Programs[n]
		}
		b.Sheet.Sections = append(b.Sheet.Sections, b.Hand.Visit(t[0], t[1], program)...)
	}
}

// turns are the visits in the order of the work, and bores of which only a sleeve at home is left
// to be measured, with no visit (-1), in the place of their last.
func (b *builder) turns() (all []at) {
	for _, t := range b.Plan.Turns() {
		all = append(all, at{t[0], t[1], -1})
	}
	for i, x := range b.Plan.Bores {
		if len(x.Visits) == 0 {
			all = append(all, at{i, -1, -1})
		}
	}
	return all
}

// begin adds the page that is worked through before anything turns: tools, what is checked,
// how the work is lined up.
func (b *builder) begin() {
	for n, h := range b.Sides() {
		one := *b
		one.Head = h
		one.beginAt(n > 0)
	}
}

// beginAt is the same for the face that its head is of; again where the work was at the other.
func (b *builder) beginAt(again bool) {
	if again {
		kv := append([]page.KeyValue{page.KV("Face", b.FaceMeans())}, b.bearings()...)
		b.own("Set up and line up"+b.From(), append([]page.Block{&page.KeyValues{Items: kv}, page.Ticks(b.turnOver())}, b.line()...))
		return
	}
	blocks := []page.Block{&page.KeyValues{Items: b.tools()}}
	if kv := b.controlOfAll(); len(kv) > 0 {
		blocks = append(blocks, page.Head("At the control"), &page.KeyValues{Items: kv})
	}
	blocks = append(blocks, page.Ticks(b.checkList()))
	blanks := []page.Blank{page.Fill("Bar runout", b.U.String())}
	if b.overBar()[1] > 0 {
		blanks = append(blanks, page.Fill("Bar Ø at the tip", b.U.String()))
	}
	blocks = append(blocks, &page.Blanks{Items: append(blanks, page.Fill("Gauge no.", ""), page.Fill("Master no.", ""), page.Fill("Ask", ""))})
	b.own("Set up and line up"+b.From(), append(blocks, b.line()...))
}

// line is how the work is lined up.
func (b *builder) line() (blocks []page.Block) {
	switch l := b.Plan.LineUp; {
	case l != nil:
		blocks = append(blocks, page.Head("Line up"))
		blocks = append(blocks, b.lineUpShort(l)...)
	case b.FindAxis() != "":
		blocks = append(blocks, page.Head("Line up"), &page.Paragraph{Strong: true, Text: "First " + b.FindAxis()})
		if t := b.sweepForm(); t != nil {
			blocks = append(blocks, t)
		}
	}
	return blocks
}

// turnOver is what is ticked off as the other face comes to the spindle.
func (b *builder) turnOver() []string {
	turn := b.halfTurn()
	turn[0] = "Before the turn: a bore that was cut from the other face, or a test bar set in it, swept at two depths; X and Y written down."
	switch o, in := b.Job.Bar.Outboard, b.Job.Bar.Inboard; {
	case in != nil:
		turn[0] += " Then driver loose, cutter out, bar out of both bearings and of the work. The work swings clear of both, or what is in the way is taken away."
		turn[2] = "Bar through the work into both bearings, their line as it was; one that was taken away in line anew. " + turn[2]
		turn = append(turn, "Cutter in between bearing and work, driver coupled last.")
	case o != nil && o.Station == "":
		turn[0] += " Then bar out of its bearing and of the work. The work swings clear of the bearing, or that is taken away."
		turn = append(turn, "Bar through the work into its bearing; one that was taken away in line with the spindle anew; the bar turns in it by hand.")
	}
	return append(turn, "Spindle stopped: bar run to full depth by hand touches nothing. First run clear of the work again.", "Clamps checked: the turn has shaken them.")
}

// bearings are those that the bar runs in and that stand on the machine, whatever face is in use.
func (b *builder) bearings() (kv []page.KeyValue) {
	stays := func(where string) string {
		if b.FaceSaid() == "" {
			return ""
		}
		return "; on the machine, " + where + ", it stays when the table turns"
	}
	if o := b.Job.Bar.Inboard; o != nil {
		kv = append(kv, page.KV("Inboard", "middle of the bearing "+b.U.Say(qty.Plain(o.At))+" from the nose"+stays("between spindle and work")+"; driver that floats"))
	}
	if o := b.Job.Bar.Outboard; o != nil && o.Station == "" {
		kv = append(kv, page.KV("Outboard", "middle of the bearing "+b.U.Say(qty.Plain(o.At))+" from the nose"+stays("beyond the work")))
	}
	return kv
}

// controlOfAll is what whoever stands at the control is to know, each once.
func (b *builder) controlOfAll() (kv []page.KeyValue) {
	n := 0
	for i, x := range b.Plan.Bores {
		for k := range x.Visits {
			one := b.Annex
			one.Head = b.For(i, k)
			for _, l := range one.AtControlOf(x, k, n) {
				if l.Key != "Program" && !slices.Contains(kv, l) { // which stands on the card
					kv = append(kv, l)
				}
			}
			n++
		}
	}
	return kv
}

// own adds a section that begins a page.
func (b *builder) own(title string, blocks []page.Block) {
	b.Sheet.Add(title, blocks...)
	b.Sheet.Sections[len(b.Sheet.Sections)-1].OwnPage = true
}

// tools are what is laid out before the work begins.
func (b *builder) tools() []page.KeyValue {
	bar := b.Job.Bar
	var kv []page.KeyValue
	add := func(k, v string) { kv = append(kv, page.KV(k, v)) }
	plan := b.MachineName()
	if s := b.Sum(); s != "" {
		plan += " (check sum " + s + ")"
	}
	add("Plan", plan)
	if f := b.FaceMeans(); f != "" {
		add("Face", f)
	} else if b.Job.FromFar() {
		add("Face", "the far one, after half a turn of the table: depths, left and right are as seen from it")
	}
	var said []string
	for _, t := range b.eachTools() {
		job := b.Job.Using(t)
		bar, cut := job.Bar, job.Cutter
		if say := strings.TrimSpace(bar.Name+" "+b.steps(bar)) + "; nose to tip " + b.U.Say(qty.Plain(bar.CutterAt)); !slices.Contains(said, say) {
			said = append(said, say)
			add("Bar", say)
		}
		if h, long := b.With(t).LengthOffset(); h != "" && len(b.eachTools()) > 1 {
			add(h, "the length of "+bar.Called()+" with "+cut.Called()+", "+b.U.Say(qty.Plain(long))+" by these figures")
		}
	}
	kv = append(kv, b.bearings()...)
	for _, k := range b.bushes() {
		add("Bush", k.say(b.Head)+"; it goes with the work")
	}
	for _, t := range b.eachTools() {
		cut := b.Job.Using(t).Cutter
		edge := "bit"
		if cut.Material != nil {
			edge = cut.Material.Name
		}
		if cut.Name != "" {
			edge = cut.Name + ": " + edge
		}
		if say := edge + ", nose radius " + b.U.Say(qty.Plain(cut.NoseRadius)) + ", lead " + qty.KindAngle.Say(cut.Lead) + ", rake " + qty.KindAngle.Say(cut.Rake); !slices.Contains(said, say) {
			said = append(said, say)
			add("Bit", say)
		}
	}
	least, most, deep := qty.Diameter(0), qty.Diameter(0), qty.Length(0)
	for _, x := range b.Plan.Bores {
		if b.Job.Here(x.Bore) {
			deep = max(deep, x.Station.To)
		} else { // gauged from the other face
			deep = max(deep, b.Job.Through-x.Station.From)
		}
		for _, v := range x.Visits {
			for _, p := range v.Passes {
				if least == 0 || p.Low < least {
					least = p.Low
				}
				most = max(most, p.High)
			}
		}
	}
	if most > 0 {
		add("Bore gauge", "Ø"+b.U.Bare(least)+" to "+b.U.Say(most)+", reach "+b.U.Say(deep)+" from the face, with its master")
	}
	switch over := b.overBar(); {
	case over[0] < over[1]:
		add("Micrometer", "over bar and tip, "+b.U.SayRange(over[0], over[1]))
	case over[1] > 0:
		add("Micrometer", "over bar and tip, "+b.U.Say(over[1]))
	}
	for _, s := range b.Job.Stations {
		if s.Swept {
			in := "in the spindle"
			if bar.Inboard != nil {
				in = "on the bar"
			}
			add("Dial", "test indicator "+in+", to reach "+s.Name)
			break
		}
	}
	if bar.Inboard != nil {
		add("To gauge", "spindle stopped; the bar stays in its bearings: a gauge that measures beside it, or the bar drawn out, marked, to go back as it was")
	} else {
		add("To gauge", "spindle stopped, bar back in front of the face; cutter, X and Y stay as set")
	}
	return kv
}

// eachTools are the tools that are laid out; those of the job where there are no visits.
func (b *builder) eachTools() []*process.Tools {
	if all := b.Plan.Tools(); len(all) > 0 {
		return all
	}
	return []*process.Tools{nil}
}

// overBar are the least and the most that the micrometer is to read over bar and tip; zero where
// it is not used.
func (b *builder) overBar() (over [2]qty.Length) {
	for _, x := range b.Plan.Bores {
		for _, v := range x.Visits {
			for _, p := range v.Passes {
				if o := p.Set.OverBar; o > 0 {
					if over[0] == 0 || o < over[0] {
						over[0] = o
					}
					over[1] = max(over[1], o)
				}
			}
		}
	}
	return over
}

// steps are the bar in a line, from the nose outward.
func (b *builder) steps(bar process.Bar) string {
	var s []string
	for _, t := range bar.Steps {
		s = append(s, "Ø"+b.U.Bare(t.Diameter)+" × "+b.U.Format(t.Length))
	}
	return strings.Join(s, ", then ")
}

// checkList is ticked off before anything turns: what saves the work, and what saves people.
func (b *builder) checkList() []string {
	bar := b.Job.Bar
	still := "quill clamped, table feeds"
	if bar.FeedBy == process.QuillFeed {
		still = "table clamped, quill feeds"
	}
	items := []string{
		"Job, revision and casting agree. Clean supports; clamping moves no dial.",
		"Spindle square to the table, " + still + ". " + b.Slides(),
	}
	if bar.Inboard != nil {
		items = append(items, b.lineBar()...)
	} else {
		items = append(items, "Taper clean, drawbar tight. Dial on the bar at the tip, spindle turned by hand: over "+b.U.Say(qty.Plain(b.runout()))+", clean, seat again; write down what is left. "+b.EdgeFirst()+", tight, on centre.")
	}
	if bar.Drawn > 0 {
		items = append(items, "Quill drawn out "+b.U.Say(qty.Plain(bar.Drawn))+" and clamped.")
	}
	if bar.Stands[1] > 0 {
		items = append(items, "Bar stands out "+b.U.Say(qty.Plain(bar.Stickout()))+" from the nose to its free end, by rule within "+b.U.Say(qty.Plain(b.Job.Round(1, 1.0/32)))+"; clamp tight, shank marked where it goes in.")
	}
	for _, t := range b.eachTools() {
		if h, _ := b.With(t).LengthOffset(); h != "" {
			items = append(items, h+" holds the length of "+map[bool]string{true: b.Job.Using(t).Bar.Called(), false: "this bar"}[b.Plan.Several()]+" as it is held, measured today.")
		}
	}
	if len(b.bushes()) > 0 {
		items = append(items, "Play of the bar in its bush by dial, no more than stated; the cutter passes no bush. After the last cut the bar comes out first, then the bush.")
	}
	if o := bar.Outboard; o != nil && o.Station == "" && bar.Inboard == nil {
		items = append(items, "Outboard bearing in line and oiled; the bar turns in it by hand.")
	}
	if b.Job.FromFar() && b.FaceSaid() == "" {
		items = append(items, b.halfTurn()...)
	}
	run := "Spindle stopped: bar run to full depth by hand touches nothing"
	for _, s := range b.Job.Stations {
		if s.Blind {
			run += "; stop set before the end of " + s.Name
		}
	}
	items = append(items, run+".", "Gauge set to its master, both as warm as the casting.")
	prove := "First cut with a hand on the feed lever."
	if b.Machine.Control != nil {
		prove = "First run clear of the work, single block, feed turned down, a hand on the stop."
	}
	return append(items,
		"Guards shut, stop in reach, eyes protected, no gloves or loose sleeves; chips out by brush, never by air. "+prove,
		"Clamps checked after the first pass and at every hold. Lifting gear rated for the load, nobody under it.",
		"Local codes and licensed practice come first. If it looks, sounds or measures wrong: stop and ask.")
}

// lineBar is what is ticked off of a bar in two bearings, in the order in which it is put in.
func (b *builder) lineBar() []string {
	in, out := b.Job.Bar.Inboard, b.Job.Bar.Outboard
	still := b.U.Say(qty.Plain(b.runout()))
	line := "Bearings in line with the bore, not the bore with the spindle: dial on the bar, bar turned by hand; move the work or, alike the other way, both bearings."
	if b.Job.Bar.FeedBy == process.TableFeed {
		line = "Bearings in line with the travel of the table, which makes the line of the bore: dial along the bar, on top and at the side, over the whole feed within " + still + "."
	}
	return []string{
		"Bar through the work without its cutter, into both bearings: middles " + b.U.Say(qty.Plain(in.At)) + " and " + b.U.Say(qty.Plain(out.At)) + " from the nose, doweled or stopped. Play of each by dial, bar lifted by hand: no more than " + b.U.Say(qty.Plain(max(in.Clearance, out.Clearance))) + ".",
		line,
		"Bearings oiled, bar turns by hand. Driver coupled last: a dial on the bar beside each bearing moves less than " + still + " as it is tightened and turned, else it does not float.",
		b.EdgeFirst() + ", tight, on centre, put in between bearing and work: it passes no bearing.",
	}
}

// halfTurn is what is ticked off as the work comes to its far face, and how the turn is checked.
func (b *builder) halfTurn() []string {
	span := 300 * qty.Millimetre
	if b.U == qty.Inches {
		span = 12 * qty.Inch
	}
	lean := b.U.Up(qty.Length(float64(span) * b.Machine.IndexAngle / 1e3))
	return []string{
		"Before the turn: a bore that was cut from the near face, or a test bar set in it, swept at two depths; X and Y written down.",
		"Half turn: slides and bar back and clear, nobody in the swing; table on its stop or pin, then clamped; a dial on the work does not move as it is clamped.",
		"After the turn the same swept from this face: X at its mirrored place within " + b.U.Say(qty.Plain(b.Machine.IndexPlace)) + ", Y as it was, the two depths alike within " + b.U.Say(qty.Plain(lean)) + " over " + b.U.Say(qty.Plain(span)) + ". More: seat the table anew. X0 Y0 goes by this sweep.",
	}
}

// runout is the most that a bar should run out by at the cutter before it is seated anew
// (common practice, no source).
func (b *builder) runout() qty.Length {
	if b.U == qty.Inches {
		return qty.FromMM(0.0254)
	}
	return qty.FromMM(0.02)
}

// sweepForm is room for the readings of the bores that are to be swept, nil where none is.
func (b *builder) sweepForm() *page.Table {
	t := &page.Table{Columns: []page.Column{{Head: []string{"dial swept in"}}, {Head: []string{"12 o'clock"}, Blank: true}, {Head: []string{"3 o'clock"}, Blank: true},
		{Head: []string{"6 o'clock"}, Blank: true}, {Head: []string{"9 o'clock"}, Blank: true}}}
	for _, s := range b.Job.Stations {
		if s.Swept {
			t.Rows = append(t.Rows, page.Row{Cells: []string{s.Name, "", "", "", ""}})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}
