package sheets

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// cards adds page one of every visit.
func (b *builder) cards() {
	n := 0
	for i := range b.Plan.Bores {
		for k := range b.Plan.Bores[i].Visits {
			program := ""
			if len(b.programs) == b.visits() && n < len(b.programs) {
				program = b.programs[n]
			}
			n++
			b.sheet.Sections = append(b.sheet.Sections, b.Hand.Visit(i, k, program)...)
		}
	}
}

// begin adds the page that is worked through before anything turns: tools, what is checked,
// how the work is lined up.
func (b *builder) begin() {
	blocks := []page.Block{&page.KeyValues{Items: b.tools()}}
	if kv := b.controlOfAll(); len(kv) > 0 {
		blocks = append(blocks, page.Head("At the control"), &page.KeyValues{Items: kv})
	}
	blocks = append(blocks, page.Head("Before anything turns"), page.Ticks(b.checkList()))
	deg := b.U.Name(qty.KindTemperature)
	blocks = append(blocks, &page.Blanks{Items: []page.Blank{page.Fill("Bar runout", b.U.String()), page.Fill("Casting", deg), page.Fill("Gauge master", deg), page.Fill("Ask", "")}})
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
	b.own("Set up and line up", blocks)
}

// controlOfAll is what whoever stands at the control is to know, each once.
func (b *builder) controlOfAll() (kv []page.KeyValue) {
	n := 0
	for _, x := range b.Plan.Bores {
		for k := range x.Visits {
			for _, l := range b.control(x, k, n) {
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
	b.sheet.Add(title, blocks...)
	b.sheet.Sections[len(b.sheet.Sections)-1].OwnPage = true
}

// tools are what is laid out before the work begins.
func (b *builder) tools() []page.KeyValue {
	bar, cut := b.Job.Bar, b.Job.Cutter
	var kv []page.KeyValue
	add := func(k, v string) { kv = append(kv, page.KV(k, v)) }
	if s := b.Sum(); s != "" {
		add("Plan", b.Name()+" (check sum "+s+"), on "+b.MachineName())
	}
	add("Bar", strings.TrimSpace(bar.Name+" "+b.steps())+"; stickout "+b.U.Say(qty.Plain(bar.Stickout()))+", nose to tip "+b.U.Say(qty.Plain(bar.CutterAt)))
	if o := bar.Outboard; o != nil {
		add("Outboard", "middle of the bearing "+b.U.Say(qty.Plain(o.At))+" from the nose")
	}
	edge := "bit"
	if cut.Material != nil {
		edge = cut.Material.Name
	}
	add("Cutter", edge+", nose radius "+b.U.Say(qty.Plain(cut.NoseRadius))+", lead "+qty.KindAngle.Say(cut.Lead)+", rake "+qty.KindAngle.Say(cut.Rake))
	least, most, deep := qty.Diameter(0), qty.Diameter(0), qty.Length(0)
	over := [2]qty.Length{}
	for _, x := range b.Plan.Bores {
		deep = max(deep, x.Station.To)
		for _, v := range x.Visits {
			for _, p := range v.Passes {
				if least == 0 || p.Low < least {
					least = p.Low
				}
				most = max(most, p.High)
				if o := p.Set.OverBar; o > 0 {
					if over[0] == 0 || o < over[0] {
						over[0] = o
					}
					over[1] = max(over[1], o)
				}
			}
		}
	}
	if most > 0 {
		add("Bore gauge", "Ø"+b.U.Bare(least)+" to "+b.U.Say(most)+", with a reach of "+b.U.Say(deep)+" from the face; its setting ring or micrometer")
	}
	if over[1] > 0 {
		add("Micrometer", "over bar and tip, "+b.U.SayRange(over[0], over[1]))
	}
	for _, s := range b.Job.Stations {
		if s.Swept {
			add("Dial", "test indicator on an arm that reaches "+s.Name+", at the spindle")
			break
		}
	}
	add("To gauge", "spindle stopped, the bar drawn back in front of the face; the setting, X and Y stay as they are")
	return kv
}

// steps are the bar in a line, from the nose outward.
func (b *builder) steps() string {
	var s []string
	for _, t := range b.Job.Bar.Steps {
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
		"Job, revision and casting agree. Casting on clean flat supports; clamping moves no dial.",
		"Spindle square to the table, " + still + ". " + b.slides(),
		"Taper clean, drawbar tight. Turn the spindle by hand, dial on the bar at the cutter: over " + b.U.Say(qty.Plain(b.runout())) + ", clean the taper and seat the bar again. What is left shows in the first cut: gauge it before the next setting.",
		b.EdgeFirst() + ", tight in the bar, on centre.",
	}
	if h, _ := b.lengthOffset(); h != "" {
		items = append(items, h+" holds the length of this bar as it is held, measured today.")
	}
	if bar.Outboard != nil {
		items = append(items, "Outboard bearing in line and oiled; the bar turns in it by hand.")
	}
	run := "Spindle stopped, cutter drawn in: bar run to full depth by hand, nothing touches"
	for _, s := range b.Job.Stations {
		if s.Blind {
			run += "; stop set for the closed end of " + s.Name + " at " + b.U.Say(s.To) + b.Relief(s)
		}
	}
	items = append(items, run+".", "Gauge set to its master; gauge, master and casting at one temperature.")
	prove := "First cut with a hand on the feed lever."
	if b.Machine.Control != nil {
		prove = "First run clear of the work, in single block, feed turned down, a hand on the stop."
	}
	return append(items,
		"Guards shut, stop in reach, eye protection, no gloves or loose sleeves; chips out by brush, never by air. "+prove,
		"Clamps checked after the first pass and at every hold. Lifting gear rated for the load, nobody under it.",
		"Local codes and licensed practice come first where the part carries load, pressure or a lift. If it looks, sounds or measures wrong: stop and ask.")
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

// holds adds the forms of the stops, visit by visit, and what is done between visits.
func (b *builder) holds() {
	first := true
	for i, x := range b.Plan.Bores {
		for k, v := range x.Visits {
			var blocks []page.Block
			if len(v.Before) > 0 {
				blocks = append(blocks, page.Head("Before this visit"), page.Ticks(b.Words.Sentences(v.Before)))
			}
			blocks = append(blocks, b.BarMeasured(v)...)
			for _, p := range v.Passes {
				if p.Hold != nil {
					blocks = append(blocks, b.hold(p)...)
				}
			}
			if len(v.Passes) > 0 {
				blocks = append(blocks, b.final(x, k)...)
			}
			if after := b.after(x, v); len(after) > 0 {
				blocks = append(blocks, page.Head("After this visit"), page.Ticks(after))
			}
			if len(blocks) == 0 {
				continue
			}
			title := "Hold forms: " + x.Station.Name
			if len(x.Visits) > 1 {
				title += fmt.Sprintf(", visit %d of %d", k+1, len(x.Visits))
			}
			b.sheet.Add(title, blocks...)
			b.sheet.Sections[len(b.sheet.Sections)-1].OwnPage = first
			first = false
		}
		if x.Home != nil {
			b.sheet.Add(b.boreHead(b.Plan.Bores[i])+": measure the sleeve when it is in", b.hold(*x.Home)...)
		}
	}
	if !first {
		var who []page.Blank
		for _, w := range []string{"Set up by", "Checked by", "Bored by", "Measured by", "Released by"} {
			who = append(who, page.Fill(w, ""))
		}
		last := &b.sheet.Sections[len(b.sheet.Sections)-1]
		last.Blocks = append(last.Blocks, page.Head("Signed"), &page.Blanks{Items: who})
	}
}

func (b *builder) after(x plan.Bore, v plan.Visit) []string {
	after := b.Words.Sentences(v.After)
	if len(after) > 0 && x.Home != nil {
		after = append(after, fmt.Sprintf("Enter what it measures as pass %d (%s): the record of the bore is not whole without it.", x.Home.N, x.Home.Kind))
	}
	return after
}
