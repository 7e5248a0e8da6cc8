package around

import (
	"strings"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Stand is a bore of the job that does not stand as found while a visit is cut.
type Stand struct {
	Bore    process.Bore
	Wide    qty.Diameter // the least
	Roughed bool         // and not finished yet
}

// Before are the bores that are cut before a visit to a station: those of its face that are begun
// before by the job, finished, or as roughing leaves them where the visit roughs, too; those of the other face
// that the plan has finished by then.
func Before(p *plan.Plan, v *plan.Visit, station int) (all []Stand) {
	j := p.Job
	own := max(j.BoreAt(station), 0)
	roughs := v != nil && v.Part == schedule.Roughing
	left := map[int]bool{} // stations of which the plan has something left then
	begun := false
	for _, at := range p.Turns() {
		b := &p.Bores[at[0]]
		begun = begun || v == &b.Visits[at[1]]
		left[b.Bore.Station] = left[b.Bore.Station] || begun
	}
	for i, b := range j.Bores {
		switch {
		case i == own || b.Station < 0:
		case b.Face != j.Bores[own].Face:
			if begun && !left[b.Station] {
				all = append(all, Stand{b, b.Finish.Low, false})
			}
		case j.Turn(i) > j.Turn(own) || j.Turn(i) == j.Turn(own) && i > own: // begun after it
		case roughs && !b.First:
			all = append(all, Stand{b, max(j.Stations[b.Station].Diameter, b.Finish.Low.Plus(-j.Limits.RestStock)), true})
		default:
			all = append(all, Stand{b, b.Finish.Low, false})
		}
	}
	return all
}

// WideAt is how wide a station is, the least, where some do not stand as found.
func WideAt(j *process.Job, before []Stand, station int) qty.Diameter {
	for _, b := range before {
		if b.Bore.Station == station && b.Wide > 0 {
			return b.Wide
		}
	}
	return j.Stations[station].Diameter
}

// Bored is what is taken for granted of bores that are cut before.
func Bored(j *process.Job, before []Stand) (all []string) {
	for _, roughed := range []bool{true, false} {
		var names []string
		for _, b := range before {
			if b.Roughed == roughed {
				names = append(names, j.Stations[b.Bore.Station].Name)
			}
		}
		if how := map[bool]string{true: "as roughing leaves them", false: "at their finished size"}[roughed]; len(names) > 0 {
			all = append(all, "Bored before this one, by the order of the job, and "+how+": "+strings.Join(names, ", ")+".")
		}
	}
	return all
}

// Held is what is taken for granted of what carries the end of the bar.
func Held(j *process.Job) string {
	switch g := j.Guide(); {
	case j.Bar.Inboard != nil:
		return "Both bearings of the line bar stand clear of all that moves; their bodies are not checked."
	case g != nil:
		return "The bush is in " + g.Name + ", and the end of the bar in the bush, before the program begins; its body is not checked."
	}
	return "The outboard support stands clear of all that moves; its body is not checked."
}
