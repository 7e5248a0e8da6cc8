package schedule

import "borewright/process"

// Leads is whether the cutter is set for the bore of a station in a visit: it is cut alone, or it
// is the first of those that are cut through at one setting.
func (v *Visit) Leads(station string) bool {
	return len(v.Together) == 0 || v.Together[0] == station
}

// Alike has the cutter come out of all bores as it can come out of each: it is drawn back through
// all of them at once.
func Alike(all []*Visit) {
	rough, last := all[0].RoughOut, all[0].LastOut
	stands := all[0].Stands
	for _, v := range all[1:] {
		if v.RoughOut.By == process.FeedOut || v.RoughOut.By == rough.By && v.RoughOut.Shift < rough.Shift {
			rough = v.RoughOut
		}
		if v.LastOut.By == process.FeedOut || v.LastOut.By == last.By && v.LastOut.Shift < last.Shift {
			last = v.LastOut
		}
		if v.Stands.At != stands.At { // it was set otherwise than planned: where it stands is not known
			stands = Stands{}
		}
	}
	for i := range all {
		all[i].RoughOut, all[i].LastOut = rough, last
		if stands.At == 0 {
			all[i].Stands = stands
		}
	}
}

// OutOfLine has the roughing passes of all come out as the last ones do, where drawn out along the
// wall a line of theirs would stay in one of the bores; false where none would.
func OutOfLine(all []*Visit) bool {
	for i := range all {
		if pass, kept := all[i].LineKept(); kept && pass >= 0 {
			all[i].OutOfLine(pass)
			out := all[i].RoughOut
			for n := range all {
				all[n].RoughOut = out
			}
			return true
		}
	}
	return false
}
