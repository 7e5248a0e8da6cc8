package place

import (
	"math"

	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// entry is how the cutter of one pass comes to its bore, by the figures that are
// printed. A shift is told no wider than it is.
func entry(job *process.Job, e clearance.Entry) clearance.Entry {
	u := job.Units
	if job.Bar.Outboard != nil { // the bearing holds it on the axis
		e.Offset, e.Shifts = false, nil
	}
	e.Setting = near(u, e.Setting)
	var shifts []clearance.Shift
	for _, x := range e.Shifts {
		shifts = append(shifts, clearance.Shift{From: near(u, x.From), To: near(u, x.To), Least: up(u, x.Least), Most: down(u, x.Most)})
	}
	e.Shifts = shifts
	return e
}

// BringIn settles how the cutter of a visit comes to its bore, or says why it
// cannot. What a program of ours does not do, the sheet of a manual mill can.
func (r *Reach) BringIn(job *process.Job, v *schedule.Visit) fact.Fact {
	worst := -1
	for i, e := range r.Entries {
		if !e.OnAxis && (worst < 0 || e.Setting > r.Entries[worst].Setting) {
			worst = i
		}
	}
	if worst < 0 {
		takes(v, 0)
		return fact.Fact{}
	}
	if r.offAxis == nil {
		takes(v, 0)
	}
	e := r.Entries[worst]
	fails := fact.New(CutterTooLarge, fact.Figure(qty.DiameterMM(e.Setting)), fact.Name(e.Name))
	var off, open, end fact.Arg
	if e.Offset {
		off = shifts(e.Shifts)
	}
	if e.Inside {
		open, end = fact.MM(e.OpenFrom), fact.MM(e.OpenFrom+e.Open)
	}
	switch {
	case r.offAxis != nil:
		r.goOffAxis(job, v)
		o := v.OffAxis
		tip := fact.Value(qty.KindClock, o.Clock)
		v.Before = append(v.Before, fact.New(EnterByProgram, fails, fact.Figure(o.Shift), fact.Figure(o.Level), tip), fact.New(RoomOffAxis, sides(o.Sides), tip, fact.Figure(o.Wide)))
	case !e.Offset && !e.Inside && r.notOff.None():
		return fact.New(CutterHasNoWay, fails)
	case job.Machine.Control != nil:
		return fact.New(CutterByHand, fails, off, open, end, r.notOff)
	case e.Offset:
		v.Before = append(v.Before, fact.New(EnterOffAxis, fails, off))
	default:
		v.SetInside = true
		kind := EnterBare
		if job.Bar.Outboard != nil {
			kind = ThreadBare
		}
		v.Before = append(v.Before, fact.Fact{Kind: kind, Args: []fact.Arg{fails, fact.Figure(v.Clear), open, end}})
	}
	return fact.Fact{}
}

// shifts are told one after the other.
func shifts(all []clearance.Shift) fact.Arg {
	var out []fact.Fact
	for _, x := range all {
		out = append(out, fact.New(ShiftedBy, fact.MM(x.Least), fact.MM(x.Most), fact.MM(x.From), fact.MM(x.To)))
	}
	return fact.List(out...)
}

// asideMinutes is what going in and out off the axis takes of a pass: an oriented stop and
// two moves across, each way. Common practice, no source; it only weighs time.
const asideMinutes = 0.4

// WayIn is what going in and out off the axis will take of each pass of a visit that is not
// planned yet, minutes, so that the search weighs it; 0 where its cutter passes on the axis.
func WayIn(s *setup.Setup, l *LineUp, bore int, v *schedule.Visit) float64 {
	if s.Job.Machine.Control == nil || !s.Job.Machine.Control.OrientedStop {
		return 0
	}
	narrow := func(i int) bool {
		return s.Job.Stations[i].From < v.From && NarrowAt(s.Job, bore, i, v) < v.Limits.High
	}
	for i := range s.Job.Stations {
		if !narrow(i) {
			continue
		}
		empty := *v
		empty.Passes = nil
		if r, err := NewReach(s, l, bore, &empty); err == nil && r.offAxis != nil {
			return asideMinutes
		}
		return 0
	}
	return 0
}

// takes puts the time of the way in, as it is settled, in the place of the one that the
// passes were planned by.
func takes(v *schedule.Visit, minutes float64) {
	for i := range v.Passes {
		v.Passes[i].Minutes += minutes - v.WayIn
	}
	v.WayIn = minutes
}

// goOffAxis has a program take the cutter of a visit in off the axis.
func (r *Reach) goOffAxis(job *process.Job, v *schedule.Visit) {
	o, u := r.offAxis, job.Units
	way := &schedule.OffAxis{
		Clock: r.way.TipClock, Shift: u.Round(qty.FromMM(o.Shift)), Wide: u.Down(qty.FromMM(r.way.Wide)), Level: u.Down(qty.FromMM(o.Level)),
		Least: u.Up(qty.FromMM(o.Least)), Most: u.Down(qty.FromMM(o.Most)),
	}
	if v.Clear-way.Level < qty.Micrometre {
		way.Level = v.Clear
	}
	for _, s := range o.Sides {
		x := schedule.Sides{Station: s.Name, Cutter: !math.IsInf(s.Tip, 1), Bar: !math.IsInf(s.Back, 1)}
		if x.Cutter {
			x.From, x.To, x.Tip = u.Round(qty.FromMM(s.From)), u.Round(qty.FromMM(s.To)), u.Down(qty.FromMM(s.Tip))
		}
		if x.Bar {
			x.Back = u.Down(qty.FromMM(s.Back))
		}
		way.Sides = append(way.Sides, x)
	}
	v.OffAxis = way
	takes(v, asideMinutes)
}

// wellRead is the figure nearest to the middle of two, in steps as coarse as leave it in
// the middle half of them; where none do, in the finest. 0: none lies between.
func wellRead(u qty.Unit, least, most qty.Length) qty.Length {
	steps := []qty.Length{qty.Millimetre, qty.Millimetre / 2, qty.Millimetre / 10, qty.Millimetre / 100, qty.Micrometre}
	if u == qty.Inches {
		steps = []qty.Length{50 * qty.Thou, 10 * qty.Thou, 5 * qty.Thou, qty.Thou, qty.Thou / 10}
	}
	middle, half := (least+most)/2, (most-least)/2
	for i, step := range steps {
		at := (middle + step/2) / step * step
		off := (at - middle).Abs()
		if last := i == len(steps)-1; at > 0 && (off <= half/2 || last && off <= half) {
			return at
		}
	}
	return 0
}

// sides are told one after the other.
func sides(all []schedule.Sides) fact.Arg {
	var out []fact.Fact
	for _, s := range all {
		switch {
		case s.Cutter && s.Bar:
			out = append(out, fact.New(RoomBothSides, fact.Name(s.Station), fact.Figure(s.Tip), fact.Figure(s.Back)))
		case s.Cutter:
			out = append(out, fact.New(RoomAtTip, fact.Name(s.Station), fact.Figure(s.Tip)))
		default:
			out = append(out, fact.New(RoomBehind, fact.Name(s.Station), fact.Figure(s.Back)))
		}
	}
	return fact.List(out...)
}
