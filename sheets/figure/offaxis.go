package figure

import (
	"fmt"
	"math"

	"borewright/sheets/draw"
)

// offAxis draws the bar dashed as it stands in the first station that its cutter does not
// pass on the axis: the tip up, the bar moved down, away from it. What it says of that is
// empty where nothing is drawn.
func (d *setupDrawing) offAxis() string {
	if d.visit < 0 {
		return ""
	}
	o := d.Plan.Bores[d.bore].Visits[d.visit].OffAxis
	if o == nil {
		return ""
	}
	for _, s := range o.Sides {
		if !s.Cutter {
			continue
		}
		tip := (s.From + s.To).MM() / 2
		by, r := o.Shift.MM(), d.barAt(d.Job.Bar.CutterAt)
		end := tip + (d.Job.Bar.Stickout() - d.Job.Bar.CutterAt).MM()
		from := math.Max(d.lo, math.Min(tip, s.From.MM())-r)
		d.s.Line(draw.Hidden(), d.pt(from, r-by), d.pt(end, r-by), d.pt(end, -r-by), d.pt(from, -r-by))
		back := math.Max(0.12*r, 2.2*d.scale)
		d.s.Line(draw.Hidden(), d.pt(tip, r-by), d.pt(tip, d.set/2-by), d.pt(tip-back, d.set/2-by), d.pt(tip-back, r-by))
		return fmt.Sprintf("Dashed: the bar in %s as it goes in and comes out, spindle stopped, %s off its axis away from the tip; %s at the tip, %s behind the bar.",
			s.Station, d.U.Say(o.Shift), d.U.Say(s.Tip), d.U.Say(s.Back))
	}
	return ""
}
