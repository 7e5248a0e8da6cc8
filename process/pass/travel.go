package pass

import (
	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

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
