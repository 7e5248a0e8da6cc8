package sheets

import (
	"borewright/process"
	"borewright/sheets/page"
)

// clocksToSweep are where a bore is read: an oval shows at eight places and not
// at four. The last one shows whether the dial came back.
var clocksToSweep = []string{"12 o'clock", "1:30", "3 o'clock", "4:30", "6 o'clock", "7:30", "9 o'clock", "10:30", "12 again"}

// toSweep adds a form for the dial's readings in every bore that is to be swept
// and has not been.
func (b *builder) toSweep() {
	done := map[string]bool{}
	if l := b.Plan.LineUp; l != nil {
		for _, s := range l.Swept {
			done[s.Station] = true
		}
	}
	var todo []process.Station
	swept := false
	for _, s := range b.Job.Stations {
		swept = swept || s.Swept
		if s.Swept && !done[s.Name] {
			todo = append(todo, s)
		}
	}
	switch {
	case !swept:
		b.Sheet.Add("Line up: readings to take", &page.Paragraph{Strong: true, Text: "No station of the job is swept: nothing shows where the true axis stands. Mark with swept = true the bores or the face that a dial can reach."})
		return
	case len(todo) == 0:
		return
	}
	unit := b.U.String()
	blocks := []page.Block{
		page.Ticks([]string{
			"Dial in the spindle, its plunger or stylus square to the wall. Most dials count up when pressed in; note it below if this one does not.",
			"Its hang: clamp the same arm and dial to a stiff round bar, zero it on top, roll all of it over together and read it underneath. Half of that is the hang.",
			"Zero at 12 o'clock. Turn the spindle by hand, always the same way, and read at every place as the dial shows it. Back at 12 o'clock it shows zero again, within what it repeats; if not, begin again.",
			"Sweep every bore near both its ends, or a face that was cut with it: one sweep shows where the bore stands, and no lean.",
		}),
		&page.Blanks{Items: []page.Blank{page.Fill("Graduation", unit), page.Fill("repeats within ±", unit), page.Fill("hang of the dial", unit), page.Fill("counts up pressed in, yes or no", "")}},
	}
	for _, s := range todo {
		t := &page.Table{
			Caption: s.Name + ", from " + b.U.SayRange(s.From, s.To) + ", " + b.U.Say(s.Diameter) + ":",
			Columns: []page.Column{{Head: []string{"o'clock"}, Align: page.Decimal}, {Head: []string{"bore,", "near end"}, Blank: true}, {Head: []string{"bore,", "far end"}, Blank: true}, {Head: []string{"face", "around it"}, Blank: true}},
			Rows:    []page.Row{{Cells: []string{"depth; circle Ø", "", "", ""}}},
		}
		for _, c := range clocksToSweep {
			t.Rows = append(t.Rows, page.Row{Cells: []string{c, "", "", ""}})
		}
		blocks = append(blocks, t)
	}
	blocks = append(blocks, &page.Paragraph{Text: "Enter each column as a [[sweep]] of the job; what to move, which way and how far follows from it."})
	b.Sheet.Add("Line up: readings to take", blocks...)
}
