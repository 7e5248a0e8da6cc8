package card

import (
	"fmt"
	"strconv"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/page"
)

// WaysOut says how the cutter comes out after each pass, like ones together.
func (b Hand) WaysOut(v plan.Visit) *page.KeyValues {
	kv := &page.KeyValues{}
	for i := 0; i < len(v.Passes); {
		out, j := v.Passes[i].Out, i
		least, most := v.Passes[i].OutDepth, v.Passes[i].OutDepth
		for j < len(v.Passes) && v.Passes[j].Out.By == out.By {
			least, most = min(least, v.Passes[j].OutDepth), max(most, v.Passes[j].OutDepth)
			j++
		}
		span := "Pass " + strconv.Itoa(v.Passes[i].N)
		if j > i+1 {
			span = fmt.Sprintf("Passes %d to %d", v.Passes[i].N, v.Passes[j-1].N)
		}
		text := b.wayOut(out)
		if most > 0 {
			takes := b.U.Say(qty.Fine(most))
			if takes != b.U.Say(qty.Fine(least)) {
				takes = b.U.SayRange(qty.Fine(least), qty.Fine(most))
			}
			text += " It takes another " + takes + " on radius."
		}
		if out.By == process.ShiftOut && v.Back > 0 {
			text += " It comes back within ±" + b.U.Say(v.Back) + " (common practice, no source)."
		}
		if !out.Why.None() {
			text += " Why: " + b.Words.Sentence(out.Why)
		}
		kv.Items = append(kv.Items, page.KV(span, text))
		i = j
	}
	return kv
}

// wayOut is one way out as the person at the machine does it, or sees the program
// do it.
func (b Hand) wayOut(out schedule.WayOut) string {
	u, tip := b.U, qty.KindClock.Say(out.Clock)
	byHand := b.Machine.Control == nil
	switch {
	case out.By == process.DrawOut:
		return "Stop the spindle, turn the tip by hand to " + tip + ", and draw out by hand, the tip along the wall: it leaves a line there."
	case out.By == process.ShiftOut && byHand:
		by := ""
		if dial := b.Machine.Dial; dial > 0 {
			by = ", " + b.Graduations(float64(out.Shift/dial))
		}
		return fmt.Sprintf("Stop the spindle and turn the tip by hand to %s. Write down where the cross slide stands, free it, and move X minus %s%s: the spindle goes left, or the work right, and the tip is off the wall. Draw out by hand. "+
			"Bring X back to that figure from the side from which it was set, so that the screw's play does not count, and clamp it before the next cut.",
			tip, u.SayBoth(qty.Plain(out.Shift)), by)
	case out.By == process.ShiftOut:
		return fmt.Sprintf("The spindle stops with the tip at %s, the bar moves %s away from the tip, and then it comes out.", tip, u.SayBoth(qty.Plain(out.Shift)))
	}
	return "Feed out turning, at the same setting, feed and speed. It cuts a second time: the sizes to expect are those when the cutter is out."
}
