package geom

import "math"

// Uneven sums up readings about the true axis for whoever plans the cuts: the
// least and the largest radius, how far the bore is out of round about its own
// axis (RONt from the least squares circle) and how far that axis stands from
// the true one. All in mm.
//
// Readings that no circle can be laid through (one or two, or all in a line)
// give the difference as out-of-round and half of it as offset: the worst of
// either. No readings, or one that is not a number over 0, give NaN.
func Uneven(readings []Point) (least, most, peakToValley, offset float64) {
	if _, err := places(readings, 1); err != nil {
		nan := math.NaN()
		return nan, nan, nan, nan
	}
	least, most = math.Inf(1), 0
	for _, p := range readings {
		least, most = math.Min(least, p.Radius), math.Max(most, p.Radius)
	}
	c, err := LeastSquares(readings)
	if err != nil {
		return least, most, most - least, (most - least) / 2
	}
	return least, most, c.RONt(), c.Offset()
}
