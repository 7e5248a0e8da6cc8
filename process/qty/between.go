package qty

// Between is y at x by straight lines between places of rising x, level beyond the ends. xs and
// ys are as many, and at least one.
func Between(x float64, xs, ys []float64) float64 {
	if x <= xs[0] {
		return ys[0]
	}
	for i := 1; i < len(xs); i++ {
		if x <= xs[i] {
			return ys[i-1] + (x-xs[i-1])/(xs[i]-xs[i-1])*(ys[i]-ys[i-1])
		}
	}
	return ys[len(ys)-1]
}
