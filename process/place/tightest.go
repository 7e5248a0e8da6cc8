package place

import (
	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/passes"
)

// Tightest finds the narrowest place on the way to, in and out of the cut of
// one visit, over its passes; false when the visit has none or cannot be
// looked at. Depths, diameters and need of room as in geom.
func Tightest(job *process.Job, station int, v *passes.Visit) (clearance.Gap, bool) {
	if len(v.Passes) == 0 || job == nil || job.Machine == nil {
		return clearance.Gap{}, false
	}
	w := clearance.ReachInput{
		Spindle: clearance.Spindle{Nose: job.Machine.Nose.MM(), Quill: job.Machine.Quill.MM(), Travel: job.Machine.QuillTravel.MM()},
		Bore:    station, Needs: roomOf(job),
		Bar: clearance.Bar{CutterAt: job.Bar.CutterAt.MM(), QuillFeed: job.Bar.FeedBy == process.QuillFeed, Standoff: job.Bar.Standoff.MM()},
	}
	for _, s := range job.Bar.Steps {
		w.Bar.Steps = append(w.Bar.Steps, clearance.Step{Diameter: s.Diameter.MM(), Length: s.Length.MM()})
	}
	for _, s := range job.Stations {
		w.Stations = append(w.Stations, clearance.Station{Name: s.Name, From: s.From.MM(), To: s.To.MM(), Diameter: s.Diameter.MM(), Blind: s.Blind, Relief: s.Relief.MM()})
	}
	before := v.Start
	for _, q := range v.Passes {
		w.Passes = append(w.Passes, clearance.Pass{Setting: q.Setting.MM(), Before: before.MM(), Clear: v.Clear.MM(), End: v.End.MM(), Retract: v.Retract.Shift.MM()})
		before = q.Low
	}
	r, err := clearance.NewReach(w)
	if err != nil || len(r.Gaps) == 0 {
		return clearance.Gap{}, false
	}
	return r.Least, true
}
