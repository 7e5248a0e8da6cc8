package card

import (
	"fmt"
	"strings"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/page"
)

// mouthShort is what is cut at the mouth after the last pass, in few words: a line for the
// counterbore, one for the lead-in.
func (b Hand) mouthShort(v plan.Visit) (kv []page.KeyValue) {
	var set []string
	for _, m := range v.Mouth {
		set = append(set, b.U.Bare(m.Setting))
		if !m.Last {
			continue
		}
		how := "square bit"
		if m.Kind == schedule.LeadIn {
			how = "edge at " + qty.KindAngle.Say(m.Angle)
		}
		s := fmt.Sprintf("after the last pass, %s, set Ø%s; ", how, strings.Join(set, ", then "))
		if m.Kind == schedule.LeadIn {
			s += fmt.Sprintf("touches at %s, ", b.U.Format(m.Touch))
		}
		s += fmt.Sprintf("STOP at %s; S %s, F %s", b.U.Format(m.End), b.U.Bare(m.Speed), b.U.Format(m.Feed))
		kv = append(kv, page.KV(strings.ToUpper(m.Kind.String()[:1])+m.Kind.String()[1:], s))
		set = nil
	}
	return kv
}

// Mouth are the cuts at the mouth of the housing, each with its bit.
func (b Hand) Mouth(v plan.Visit) []page.Block {
	if len(v.Mouth) == 0 {
		return nil
	}
	num := func(head ...string) page.Column { return page.Column{Head: head, Align: page.Decimal} }
	t := &page.Table{Columns: []page.Column{{Head: []string{"cut"}}, {Head: []string{"bit"}}, num("bit set", "to Ø"), num("feed", "from"), num("edge", "touches"), num("feed", "ends"), num("leaves", "Ø"), num("rev/", "min"), num("feed", "a rev")}}
	for _, m := range v.Mouth {
		bit, touch := "square corner", ""
		if m.Kind == schedule.LeadIn {
			bit, touch = fmt.Sprintf("edge at %s to the axis, %s long or more", qty.KindAngle.Say(m.Angle), b.U.Say(qty.Plain(m.Edge))), b.U.Format(m.Touch)
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{m.Kind.String(), bit, b.U.Bare(m.Setting), b.U.Format(m.Begin), touch, b.U.Format(m.End), b.U.Bare(m.Leaves), b.U.Bare(m.Speed), b.U.Format(m.Feed)}})
	}
	how := "Depths are of the outer end of the edge, which stands along the bar where the tip of the last bit stood. Dwell a turn at the end, feed out turning. A wide edge sings sooner than a point: slow down, never dwell on it longer. Clean the edge, no burr, then gauge the bore once more."
	if v.Mouth[0].Hand && b.Machine.Control != nil {
		how = "Cut by hand: the program does not say it. " + how
	}
	return []page.Block{page.Head("At the mouth, after the last pass, in " + b.U.Word()), t, &page.Paragraph{Text: how}}
}
