package qty

import "sort"

// Between is y at x by straight lines between places of rising x, level beyond the ends. xs and
// ys are as many, and at least one.
func Between(x float64, xs, ys []float64) float64 {
	i := sort.Search(len(xs), func(i int) bool { return x <= xs[i] })
	switch i {
	case 0:
		return ys[0]
	case len(xs):
		return ys[i-1]
	}
	return ys[i-1] + (x-xs[i-1])/(xs[i]-xs[i-1])*(ys[i]-ys[i-1])
}
