package around

import (
	"slices"

	"borewright/process"
)

// BoredBefore are the bores of a job that are cut before the one at a station.
func BoredBefore(j *process.Job, station int) []process.Bore {
	own := max(j.BoreAt(station), 0)
	return slices.DeleteFunc(slices.Clone(j.Bores[:own]), func(b process.Bore) bool { return b.Face != j.Bores[own].Face })
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
