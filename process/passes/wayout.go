package passes

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
	OutDrawn      fact.Kind = "passes.out, drawn"           // the next pass cuts the line away
	OutLine       fact.Kind = "passes.out, line allowed"    // by the job
	OutShifted    fact.Kind = "passes.out, shifted"         // after an oriented stop
	OutByHand     fact.Kind = "passes.out, shifted by hand" // by the dial of the cross slide
	OutAsked      fact.Kind = "passes.out, as asked"        // fed, by the job
	OutNoStop     fact.Kind = "passes.out, no oriented stop"
	OutTight      fact.Kind = "passes.out, tight" // between bar and bore
	OutInOutboard fact.Kind = "passes.out, in outboard bearing"
	NoShift       fact.Kind = "passes.no shift" // the job asks for one; what stands against it: one of the above
)

// chooseOut fills in how the cutter comes out of a visit's bore: after roughing,
// where the next pass cuts a line away, and after semi-finish and finish, which
// always come out alike, so that what the gauge learns after the one holds for the
// other.
func (s *Planning) chooseOut(v *Visit, st process.Station) {
	asked, line := process.OutAsFits, 0.0
	for _, b := range s.Job.Bores {
		if s.Job.Stations[b.Station].Name == st.Name {
			asked, line = b.WayOut, b.LineAt
		}
	}
	fed := WayOut{By: process.FeedOut, Why: fact.New(OutAsked)}
	shifted, not := s.shift(v)
	v.NoWayOut = fact.Fact{}
	byHand := s.Job.Machine.Control == nil
	switch asked {
	case process.DrawOut:
		v.RoughOut = WayOut{By: process.DrawOut, Clock: line, Why: fact.New(OutLine)}
		v.LastOut = v.RoughOut
		return
	case process.FeedOut:
		v.RoughOut, v.LastOut = fed, fed
		return
	case process.ShiftOut:
		if !not.None() {
			v.NoWayOut = fact.New(NoShift, not)
		}
	}
	v.LastOut = shifted
	if !not.None() {
		v.LastOut = WayOut{By: process.FeedOut, Why: not}
	}
	v.RoughOut = v.LastOut
	if byHand && asked == process.OutAsFits {
		v.RoughOut = WayOut{By: process.DrawOut, Clock: line, Why: fact.New(OutDrawn)}
	}
}

// Moving off the wall. The bar moves away from the tip, so its far side comes
// nearer to the wall by the shift: half the room there at most, and no more than
// is needed to be clear of it. By hand it is half of what the narrowest place that
// the bar stands in has over the room for chips. Less than shiftLeast does not lift
// the tip off the wall for certain. Common practice, no source.
const (
	shiftMost       = qty.Millimetre
	shiftMostByHand = qty.Millimetre / 2 // less to count on a dial
	shiftLeast      = qty.Millimetre / 5
	tipByHand       = 90.0 // 3 o'clock: the cross slide moves along X
)

// shift is the way out by moving off the wall, or why there is none.
func (s *Planning) shift(v *Visit) (WayOut, fact.Fact) {
	c, u := s.Job.Machine.Control, s.Job.Units
	bar := s.barAtCutter()
	room := (v.Start - bar).Length() / 2
	out := WayOut{By: process.ShiftOut, Why: fact.New(OutShifted)}
	switch {
	case c == nil:
		for _, other := range s.Job.Stations {
			if other.From < v.From {
				room = min(room, (other.Diameter-bar).Length()/2)
			}
		}
		most := shiftMostByHand
		if u == qty.Inches {
			most = 20 * qty.Thou
		}
		// Whole graduations of the dial that the slide is moved by.
		most = max(0, min(most, (room-s.Job.Limits.ChipRoom)/2))
		out.Shift, out.Clock, out.Why = most/s.Job.Machine.Dial*s.Job.Machine.Dial, tipByHand, fact.New(OutByHand)
	case !c.OrientedStop:
		return WayOut{}, fact.New(OutNoStop)
	default:
		out.Clock = map[process.TipSide]float64{process.TipPlusX: 90, process.TipMinusX: 270, process.TipMinusY: 180}[c.TipAtStop] // +Y: 0
		out.Shift = min(shiftMost, u.Round(room/2))
		if u == qty.Inches && out.Shift >= shiftLeast {
			out.Shift = out.Shift / qty.Thou * qty.Thou
		}
	}
	if out.Shift < shiftLeast {
		return WayOut{}, fact.New(OutTight, fact.Figure(room))
	}
	if s.Job.Bar.Outboard != nil {
		return WayOut{}, fact.New(OutInOutboard)
	}
	return out, fact.Fact{}
}

// barAtCutter is the fattest part of the bar that follows the tip into the
// bore.
func (s *Planning) barAtCutter() qty.Diameter {
	at := qty.Length(0)
	d := s.Job.Bar.Steps[0].Diameter
	for _, st := range s.Job.Bar.Steps {
		if at < s.Job.Bar.CutterAt {
			d = st.Diameter
		}
		at += st.Length
	}
	return d
}

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

// Minutes that the ways out take. Common practice, no source; they only weigh time.
const (
	rapid         = 1500.0 // mm/min: a traverse rate that every mill of this kind reaches
	orientMinutes = 0.2    // oriented stop and shift
	turnMinutes   = 0.5    // stop, and turn the tip to its clock position by hand
	asideMinutes  = 1.0    // free the cross slide, move it by its dial, and back to its figure when the cutter is out
)

// minutesOf is the time for one pass over the bore, without the stop: the cut,
// the way back and the approach.
func (r *Planner) minutesOf(feed, rpm float64, out WayOut) float64 {
	travel := (r.v.End - r.v.Clear).MM()
	cut := travel / (feed * rpm)
	back := cut
	byHand := r.Job.Machine.Control == nil
	switch {
	case out.By == process.FeedOut:
	case !byHand:
		back = travel/rapid + orientMinutes
	default:
		back = travel/r.Job.Limits.HandRate.MM() + turnMinutes
		if out.By == process.ShiftOut {
			back += asideMinutes
		}
	}
	return cut + back + 2*max(0, r.v.Clear.MM())/rapid + 0.3
}
