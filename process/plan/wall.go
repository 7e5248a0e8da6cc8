package plan

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/qty"
)

// leastHousing is the least metal round a bore of a size: 2 mm, and never under
// 3 % of the bore; 3 mm and 5 % in a metal that cracks instead of giving. Less
// gives way under the cutter and under any fit, and no formula for a fit holds
// for it. Common practice, no source.
func leastHousing(d qty.Diameter, brittle bool) qty.Length {
	least, part := 2.0, 0.03
	if brittle {
		least, part = 3, 0.05
	}
	return qty.FromMM(math.Max(least, part*d.MM()))
}

// tooLittleLeft says that boring a station to a size leaves too little metal
// round it, or "". It is judged where the job states the wall.
func tooLittleLeft(job *process.Job, st process.Station, to qty.Diameter, sleeved bool) string {
	if st.Wall == 0 {
		return ""
	}
	u := job.Units
	left, least := st.Wall-to.Minus(st.Diameter)/2, leastHousing(to, job.Material.Brittle)
	if left >= least {
		return ""
	}
	smaller := "a smaller size"
	if sleeved {
		smaller = "a smaller sleeve outside"
	}
	return fmt.Sprintf("boring to Ø%s leaves %s of the wall of %s; %s is the least for %s (common practice): %s, or metal built up outside and the new wall stated",
		u.Say(to.Length()), u.Say(left), u.Say(st.Wall), u.Say(u.Up(least)), job.Material.Name, smaller)
}
