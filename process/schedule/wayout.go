package schedule

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// WayOut is how the cutter comes out of the bore after a pass.
type WayOut struct {
	By    process.OutBy // DrawOut, ShiftOut or FeedOut
	Clock float64       // where the tip stands as it comes out stopped, degrees clockwise from 12 o'clock, seen from the spindle; with an oriented stop: where the control stops it
	Shift qty.Length    // how far the bar is moved off the wall, opposite to the tip; 0 but for ShiftOut
	Why   fact.Fact
}

// Describe says what a comparison has of a way out of a visit.
func (o *WayOut) Describe(d *field.Desc) {
	field.Word(d, &o.By, "by", process.DrawOut, process.ShiftOut, process.FeedOut).Weighs(process.SpoilsSize, "cutter comes out")
	d.Figure(&o.Clock, qty.KindClock, "tip_at").Weighs(process.SpoilsSetting, "tip as it comes out").ZeroIsNone()
	d.Length(&o.Shift, "shift_mm").Weighs(process.SpoilsSize, "shift off the wall").ZeroIsNone()
	d.Fact(&o.Why, "why").Weighs(process.SpoilsWords, "why it comes out so")
}

// wayOut is what documents have of the way out of one pass. How it comes out is
// compared once for the visit.
func (p *Pass) wayOut(d *field.Desc) {
	o := &p.Out
	field.Word(d, &o.By, "by", process.DrawOut, process.ShiftOut, process.FeedOut)
	d.Figure(&o.Clock, qty.KindClock, "tip_at").Decimals(0).NullUnless(o.stopped)
	d.Length(&o.Shift, "shift_mm").NullUnless(func() bool { return o.By == process.ShiftOut })
	d.Fact(&o.Why, "why")
	d.Length(&p.OutDepth, "depth_of_cut_mm").Decimals(4).Weighs(process.SpoilsSetting, "depth of cut on the way out").ZeroIsNone()
	d.Newtons(&p.OutRadial, "radial_force_n").Decimals(1)
}

// stopped is whether the spindle stands as the cutter comes out.
func (o *WayOut) stopped() bool { return o.By != process.FeedOut }

// How the cutter comes out (WayOut.Why).
const (
	OutDrawn      fact.Kind = "schedule.out, drawn"           // the next pass cuts the line away
	OutLine       fact.Kind = "schedule.out, line allowed"    // by the job
	OutShifted    fact.Kind = "schedule.out, shifted"         // after an oriented stop
	OutByHand     fact.Kind = "schedule.out, shifted by hand" // by the dial of the cross slide
	OutAsked      fact.Kind = "schedule.out, as asked"        // fed, by the job
	OutKeepsLine  fact.Kind = "schedule.out, keeps a line"    // a pass, the size that its line would reach, the least size after the next
	LineMayStay   fact.Kind = "schedule.line may stay"        // pass measured, the size that its line reaches, the next pass, its least size
	OutNoStop     fact.Kind = "schedule.out, no oriented stop"
	OutTight      fact.Kind = "schedule.out, tight" // between bar and bore
	OutInOutboard fact.Kind = "schedule.out, in outboard bearing"
	NoShift       fact.Kind = "schedule.no shift" // the job asks for one; what stands against it: one of the above
)

// OutAfter is the way out after a pass of a kind.
func (v *Visit) OutAfter(k Kind) WayOut {
	if k <= Rough {
		return v.RoughOut
	}
	return v.LastOut
}

// Shift is how far the bar moves off the wall after those passes of the visit that
// come out so; 0 where none does.
func (v *Visit) Shift() qty.Length {
	most := qty.Length(0)
	for i := range v.Passes {
		most = max(most, v.Passes[i].Out.Shift)
	}
	return most
}
