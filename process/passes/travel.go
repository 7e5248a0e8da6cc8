package passes

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// Clearance is how far in front of the bore the feed begins: the tip stands
// clear of the mouth and of the chips in it.
const Clearance = 3 * qty.Millimetre

// FillTravel fills in where the visit's feed begins and how the cutter comes out.
func (s *Planning) FillTravel(v *Visit, st process.Station) {
	u := s.Job.Units
	v.From, v.To = st.From, st.To
	gap := qty.Length(Clearance)
	if u == qty.Inches {
		gap = qty.Inch / 8
	}
	v.Clear = st.From - gap
	v.Retract = s.retract(v)
}

// retract decides how the cutter comes out: shifted off the wall after an
// oriented stop where the control has one and the bar leaves room, else fed
// out as it went in.
func (s *Planning) retract(v *Visit) Retract {
	c := s.Job.Machine.Control
	if c == nil {
		return Retract{Why: fact.New(OutByHand)}
	}
	if !c.OrientedStop {
		return Retract{Why: fact.New(OutNoStop)}
	}
	// The bar moves away from the tip, so its far side comes nearer to the
	// wall by the shift: half the room there, a millimetre at most.
	room := (v.Start.Length() - s.barAtCutter().Length()) / 2
	shift := min(qty.Length(qty.Millimetre), s.Job.Units.Round(room/2))
	if shift < qty.Millimetre/5 {
		return Retract{Why: fact.New(OutTight, fact.Figure(room))}
	}
	if s.Job.Bar.Outboard != nil {
		return Retract{Why: fact.New(OutInOutboard)}
	}
	if s.Job.Units == qty.Inches {
		shift = shift / (qty.Inch / 1000) * (qty.Inch / 1000)
	}
	return Retract{Shift: shift, Why: fact.New(OutShifted)}
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
