package pass

import "math"

// GridFor gives the radii between the bore as found and the aim at which a
// roughing pass may end, rising, all whole pitches of diameter.
func (r *Judge) GridFor(from, to float64) (grid []float64, pitch float64) {
	const most = 120
	for _, p := range Pitches(r.Job.Units) {
		pitch = p / 2
		if (to-from)/pitch <= most {
			break
		}
	}
	pitch = math.Max(pitch, (to-from)/20/most) // of no bore that can be: the grid stays a grid
	for k := math.Floor(from/pitch) + 1; k*pitch < to; k++ {
		grid = append(grid, k*pitch)
	}
	return grid, pitch
}
