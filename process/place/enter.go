package place

import (
	"fmt"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/geom"
	"borewright/process/passes"
	"borewright/process/qty"
)

// Entry is how the cutter of one pass comes to its bore.
type Entry struct {
	Pass    int
	Setting qty.Diameter
	Way     string // "on the axis", "bar shifted", "put in inside", noWay
	OnAxis  bool
	Offset  bool // passes with the bar shifted away from the tip, spindle stopped
	Inside  bool // the bare bar passes and there is room to put the cutter in inside
	Blocked string
	Shifts  []EntryShift
	Open    [2]qty.Length // where it can be put in: from, to
}

// noWay is an Entry's way when there is none.
const noWay = "no way"

// EntryShift is how far the bar stands off its axis, away from the tip, while
// the tip goes from one depth to another.
type EntryShift struct{ From, To, Least, Most qty.Length }

// entry puts how a cutter gets in into words and lengths.
func entry(job *process.Job, w geom.ReachInput, e geom.Entry) Entry {
	u := job.Units
	out := Entry{Pass: e.N, Setting: qty.Diameter(u.Round(qty.FromMM(e.Setting))), OnAxis: e.OnAxis, Offset: e.Offset, Inside: e.Inside}
	if e.Blocked >= 0 {
		out.Blocked = w.Stations[e.Blocked].Name
	}
	if job.Bar.Outboard != nil { // the bearing holds it on the axis
		out.Offset, e.Shifts = false, nil
	}
	switch {
	case e.OnAxis:
		out.Way = "on the axis"
	case out.Offset:
		out.Way = "bar shifted"
	case e.Inside:
		out.Way = "put in inside"
	default:
		out.Way = noWay
	}
	for _, x := range e.Shifts {
		out.Shifts = append(out.Shifts, EntryShift{u.Round(qty.FromMM(x.From)), u.Round(qty.FromMM(x.To)), u.Up(qty.FromMM(x.Least)), u.Down(qty.FromMM(x.Most))})
	}
	if e.Inside {
		out.Open = [2]qty.Length{qty.FromMM(e.OpenFrom), qty.FromMM(e.OpenFrom + e.Open)}
	}
	return out
}

// BringIn settles how the cutter of a visit comes to its bore, or says why it
// cannot. What a program of ours does not do, the sheet of a manual mill can.
func (r *Reach) BringIn(job *process.Job, v *passes.Visit) string {
	worst := -1
	for i, e := range r.Entries {
		if !e.OnAxis && (worst < 0 || e.Setting > r.Entries[worst].Setting) {
			worst = i
		}
	}
	if worst < 0 {
		return ""
	}
	e := r.Entries[worst]
	u := job.Units
	what := fmt.Sprintf("the cutter, set to Ø%s, does not pass %q on the axis", u.Say(e.Setting.Length()), e.Blocked)
	var can []string
	if e.Offset {
		can = append(can, "enter with the spindle stopped and the bar shifted away from the tip by "+shiftWords(u, e.Shifts))
	}
	if e.Inside {
		can = append(can, fmt.Sprintf("be put in inside, where the line is open from %s to %s deep", u.Format(e.Open[0]), u.Say(e.Open[1])))
	}
	switch {
	case len(can) == 0:
		return what + "; it does not pass with the bar shifted either, and nowhere in front of the bore is there room to put it in by hand"
	case job.Machine.Control != nil:
		return what + fmt.Sprintf("; it could %s, which is work for the sheet and not for a program: plan it on a mill without control", strings.Join(can, ", or "))
	case e.Offset:
		v.Before = append(v.Before, fact.AsWritten(fmt.Sprintf("The cutter goes in off the axis (%s). Stop the spindle with the tip up, lock it, and lower the spindle by %s. Then bring it back to the axis, and take the same way out.",
			what, shiftWords(u, e.Shifts))))
	default:
		v.SetInside = true
		first := "The bar goes in"
		if job.Bar.Outboard != nil {
			first = "Thread the bar through"
		}
		v.Before = append(v.Before, fact.AsWritten(fmt.Sprintf("%s with the cutter out (%s). Bring it to %s, lock the spindle, put the cutter in and set it there; take it out there again before the bar is moved back. The line is open from %s to %s deep: see first that a hand and the wrench get there.",
			first, what, u.Say(v.Clear), u.Format(e.Open[0]), u.Say(e.Open[1]))))
	}
	return ""
}

func shiftWords(u qty.Unit, shifts []EntryShift) string {
	var out []string
	for _, x := range shifts {
		out = append(out, fmt.Sprintf("%s to %s while the tip goes from %s to %s", u.Format(x.Least), u.Say(x.Most), u.Format(x.From), u.Say(x.To)))
	}
	return strings.Join(out, ", then ")
}
