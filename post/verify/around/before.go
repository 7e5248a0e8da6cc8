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
