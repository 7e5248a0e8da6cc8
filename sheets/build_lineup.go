package sheets

import (
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/sheets/page"
)

// lineUpShort is the line-up as it is worked at the machine: what is assumed, what to move,
// what the dial shows before and after. The annex has the rest.
func (b *builder) lineUpShort(l *place.LineUp) []page.Block {
	var out []page.Block
	if !l.Assumption.None() && !l.Confirmed {
		out = append(out, &page.Paragraph{Strong: true, Text: b.toConfirm(l)})
	}
	if l.Made {
		out = append(out, &page.Paragraph{Strong: true, Text: "Made before the first cut: do not move the work or the spindle by these sweeps again. Sweep as a check only."})
	} else {
		out = append(out, page.Ticks(b.Moves(l)))
	}
	out = append(out, &page.Paragraph{Text: "Left, right, up, down as seen from the spindle. Come to every dial figure from the same side."})
	for i, s := range l.Swept {
		out = append(out, b.SweepTable(s, i, true))
	}
	return out
}

// toConfirm is what a witness cut has to show where the lean was not swept; the annex has the
// figures behind it.
func (b *builder) toConfirm(l *place.LineUp) string {
	s := "Assumed, not swept: the line is parallel to the spindle. "
	if agree, ok := fact.AsFigure(l.Confirm.Nth(2)); ok && l.Confirm.Kind == place.WitnessMustShow {
		return s + "The witness band shows it; after the next cut wall or pitch at both ends agree within " + b.U.Say(agree) + ". If not, it leans: stop, sweep a second bore or the face."
	}
	return s + b.Words.Sentence(l.Confirm)
}
