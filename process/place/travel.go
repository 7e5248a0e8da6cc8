package place

import (
	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// QuillShort says why a program cannot bring the cutter out of the work with
// the quill alone, or nothing. On a manual mill the table is moved by hand.
func QuillShort(job *process.Job) fact.Fact {
	home := job.Bar.TipHome()
	if job.Bar.FeedBy != process.QuillFeed || job.Machine.Control == nil || home <= -process.SetAhead {
		return fact.Fact{}
	}
	return fact.New(QuillCannotClear, fact.Figure(home), fact.Figure(-process.SetAhead), fact.Figure(job.SetStandoff()))
}

// travel holds what the table has to go against what it has. A program brings
// the tip out in front of the face to be set; a bar that runs in an outboard
// bearing only goes from where the feed of the first bore begins.
func (r *Reach) travel(job *process.Job, v *schedule.Visit) {
	if job.Bar.FeedBy != process.TableFeed {
		return
	}
	from := -qty.Length(process.SetAhead)
	if job.Bar.Outboard != nil {
		from = v.Clear
		for _, b := range job.Bores {
			if job.Here(b) {
				from = min(from, job.Stations[b.Station].From-(v.From-v.Clear))
			}
		}
	}
	r.Travel = max(v.End, v.To) - from
	axis, has := tableTravel(job.Machine)
	if has == 0 {
		return
	}
	r.TravelAxis, r.TravelHas = axis, has
	if r.Travel > has {
		r.Verdict = clearance.Blocked
		r.Why = append(r.Why, fact.New(TravelTooShort, fact.Name(axis), fact.Figure(r.Travel), fact.Figure(has)))
	}
}

// tableTravel is the travel of the slide that feeds along the spindle when the
// table (or column) does: the control's feed axis; without a control, of Z and
// W the one that is not the quill. 0: not stated.
func tableTravel(m *process.Machine) (string, qty.Length) {
	for _, t := range m.Travels {
		along := t.Axis == 'Z' || t.Axis == 'W'
		switch {
		case !along || t.Travel == 0:
		case m.Control != nil && t.Axis == m.Control.FeedAxis, m.Control == nil && t.Travel != m.QuillTravel:
			return t.Axis.String(), t.Travel
		}
	}
	return "", 0
}
