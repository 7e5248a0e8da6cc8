package head

import (
	"borewright/process"
	"borewright/process/place"
	"borewright/process/plan"
)

// Across says where the slides across the bore go besides X0 Y0; "": nowhere.
func (h Head) Across() (aside string) {
	tip := h.Machine.Control.TipAtStop
	if tip == process.TipUnknown {
		return ""
	}
	shifts, enters := false, false
	for _, bore := range h.Plan.Bores {
		for _, v := range bore.Visits {
			shifts, enters = shifts || v.Shift() > 0, enters || v.OffAxis != nil
		}
	}
	axis := tip.String()[1:]
	if enters {
		aside += ", " + axis + " off the axis as the bar goes in and out"
	}
	if shifts {
		aside += ", and " + axis + " off the wall before the cutter comes out"
	}
	return aside
}

// OffAxis says how the program of a visit takes a bar in that does not pass on its axis, and
// with what room; nothing where it passes.
func (h Head) OffAxis(v plan.Visit) (said []string) {
	for _, f := range v.Before {
		if f.Kind == place.EnterByProgram || f.Kind == place.RoomOffAxis {
			said = append(said, h.Words.Sentence(f))
		}
	}
	return said
}
