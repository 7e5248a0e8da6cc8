package place

import (
	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
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
		return fact.Fact{}
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
	case !e.Offset && !e.Inside:
		return fact.New(CutterHasNoWay, fails)
	case job.Machine.Control != nil:
		return fact.New(CutterByHand, fails, off, open, end)
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
