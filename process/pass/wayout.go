package pass

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// chooseOut fills in how the cutter comes out of a visit's bore: after roughing,
// where the next pass cuts a line away, and after semi-finish and finish, which
// always come out alike, so that what the gauge learns after the one holds for the
// other.
func chooseOut(s *setup.Setup, v *schedule.Visit, st process.Station) {
	asked, line := process.OutAsFits, 0.0
	for _, b := range s.Job.Bores {
		if s.Job.Here(b) && s.Job.Stations[b.Station].Name == st.Name {
			asked, line = b.WayOut, b.LineAt
		}
	}
	fed := schedule.WayOut{By: process.FeedOut, Why: fact.New(schedule.OutAsked)}
	shifted, not := shift(s, v)
	v.NoWayOut = fact.Fact{}
	byHand := s.Job.Machine.Control == nil
	switch asked {
	case process.DrawOut:
		v.RoughOut = schedule.WayOut{By: process.DrawOut, Clock: line, Why: fact.New(schedule.OutLine)}
		v.LastOut = v.RoughOut
		return
	case process.FeedOut:
		v.RoughOut, v.LastOut = fed, fed
		return
	case process.ShiftOut:
		if !not.None() {
			v.NoWayOut = fact.New(schedule.NoShift, not)
		}
	}
	v.LastOut = shifted
	if !not.None() {
		v.LastOut = schedule.WayOut{By: process.FeedOut, Why: not}
	}
	v.RoughOut = v.LastOut
	if byHand && asked == process.OutAsFits {
		v.RoughOut = schedule.WayOut{By: process.DrawOut, Clock: line, Why: fact.New(schedule.OutDrawn)}
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
func shift(s *setup.Setup, v *schedule.Visit) (schedule.WayOut, fact.Fact) {
	c, u := s.Job.Machine.Control, s.Job.Units
	bar := barAtCutter(s)
	room := (v.Start - bar).Length() / 2
	out := schedule.WayOut{By: process.ShiftOut, Why: fact.New(schedule.OutShifted)}
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
		out.Shift, out.Clock, out.Why = most/s.Job.Machine.Dial*s.Job.Machine.Dial, tipByHand, fact.New(schedule.OutByHand)
	case !c.OrientedStop:
		return schedule.WayOut{}, fact.New(schedule.OutNoStop)
	default:
		out.Clock = c.TipAtStop.Clock()
		out.Shift = min(shiftMost, u.Round(room/2))
		if u == qty.Inches && out.Shift >= shiftLeast {
			out.Shift = out.Shift / qty.Thou * qty.Thou
		}
	}
	if out.Shift < shiftLeast {
		return schedule.WayOut{}, fact.New(schedule.OutTight, fact.Figure(room))
	}
	if s.Job.Bar.Outboard != nil {
		return schedule.WayOut{}, fact.New(schedule.OutInOutboard)
	}
	return out, fact.Fact{}
}

// barAtCutter is the fattest part of the bar that follows the tip into the
// bore.
func barAtCutter(s *setup.Setup) qty.Diameter {
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

// Minutes that the ways out take. Common practice, no source; they only weigh time.
const (
	rapid         = 1500.0 // mm/min: a traverse rate that every mill of this kind reaches
	orientMinutes = 0.2    // oriented stop and shift
	turnMinutes   = 0.5    // stop, and turn the tip to its clock position by hand
	asideMinutes  = 1.0    // free the cross slide, move it by its dial, and back to its figure when the cutter is out
)

// MinutesOf is the time for one pass over the bore, without the stop: the cut,
// the way back and the approach.
func (r *Judge) MinutesOf(feed, rpm float64, out schedule.WayOut) float64 {
	return r.minutesTo(r.Visit.End, feed, rpm, out)
}

// WitnessMinutes is the same for a witness cut.
func (r *Judge) WitnessMinutes(feed, rpm float64, out schedule.WayOut) float64 {
	return r.minutesTo(r.Band().To, feed, rpm, out)
}

// ThroughMinutes is the time that a pass takes more for this bore, where it is cut through at
// the setting of another in front of it, by hand: the cut, the way back through it, and the gap to
// the bore in front, mm, both ways by hand.
func (r *Judge) ThroughMinutes(gap, feed, rpm float64, out schedule.WayOut) float64 {
	travel, hand := (r.Visit.End - r.Visit.Clear).MM(), r.Job.Limits.HandRate.MM()
	cut := travel / (feed * rpm)
	back := cut
	if out.By != process.FeedOut {
		back = travel / hand
	}
	return cut + back + 2*max(0, gap)/hand
}

// minutesTo is the time of a pass whose feed ends at a depth.
func (r *Judge) minutesTo(end qty.Length, feed, rpm float64, out schedule.WayOut) float64 {
	travel := (end - r.Visit.Clear).MM()
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
	return cut + back + 2*max(0, r.Visit.Clear.MM())/rapid + r.Visit.WayIn + 0.3
}

// SlideBack is how well a cross slide comes back to the figure that it stood at, from
// the side from which it was set, ±: 0.0002 in or 0.005 mm (common practice, no source).
// Where the tip is moved off the wall by it, the next pass is cut about an axis that is
// off by as much; its size and its roundness are not. 0: the slide is not moved before
// the last pass.
func SlideBack(job *process.Job, v *schedule.Visit) qty.Length {
	n := len(v.Passes)
	moved := n > 1 && v.Passes[n-2].Out.By == process.ShiftOut || n == 1 && v.Behind > 0 && v.LastOut.By == process.ShiftOut
	if job.Machine.Control != nil || !moved {
		return 0
	}
	return job.Round(0.005, 0.0002)
}

// Clearance is how far in front of the bore the feed begins: the tip stands
// clear of the mouth and of the chips in it.
const Clearance = 3 * qty.Millimetre

// Travel fills in where the visit's feed begins and how the cutter comes out.
func Travel(s *setup.Setup, v *schedule.Visit, st process.Station) {
	u := s.Job.Units
	v.From, v.To = st.From-v.Out[0], st.To+v.Out[1]
	gap := qty.Length(Clearance)
	if u == qty.Inches {
		gap = qty.Inch / 8
	}
	v.Clear = v.From - gap
	chooseOut(s, v, st)
}
