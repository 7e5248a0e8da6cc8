package place

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// LeastHousing is the least metal round a bore of a size: 2 mm, and never under
// 3 % of the bore; 3 mm and 5 % in a metal that cracks instead of giving. Less
// gives way under the cutter and under any fit, and no formula for a fit holds
// for it. Common practice, no source.
func LeastHousing(d qty.Diameter, brittle bool) qty.Length {
	least, part := 2.0, 0.03
	if brittle {
		least, part = 3, 0.05
	}
	return qty.FromMM(math.Max(least, part*d.MM()))
}

// TooLittleLeft says that boring a station to a size leaves too little metal
// round it, or nothing. It is judged where the job states the wall.
func TooLittleLeft(job *process.Job, st process.Station, to qty.Diameter, sleeved bool) fact.Fact {
	if st.Wall == 0 {
		return fact.Fact{}
	}
	left, least := st.Wall-to.Minus(st.Diameter)/2, LeastHousing(to, job.Material.Brittle)
	if left >= least {
		return fact.Fact{}
	}
	instead := SmallerSize
	if sleeved {
		instead = SmallerSleeve
	}
	return fact.New(WallTooThin, fact.Figure(to), fact.Figure(left), fact.Figure(st.Wall), fact.Figure(job.Units.Up(least)), fact.Name(job.Material.Name), fact.New(instead))
}
