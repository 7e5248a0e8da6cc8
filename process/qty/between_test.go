package qty

import "testing"

// A chart of three points, read by hand: at them, half way, and level beyond the ends.
func TestBetween(t *testing.T) {
	xs, ys := []float64{3, 4, 6}, []float64{1, 0.5, 0.25}
	for x, want := range map[float64]float64{0: 1, 3: 1, 3.5: 0.75, 4: 0.5, 5: 0.375, 6: 0.25, 9: 0.25} {
		if got := Between(x, xs, ys); got != want {
			t.Errorf("at %g it is %g, by hand %g", x, got, want)
		}
	}
}
