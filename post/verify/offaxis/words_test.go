package offaxis

import (
	"testing"

	"borewright/post/rs274"
	"borewright/process/qty"
)

// Where a bar goes is said whole, also where its place is not known.
func TestWhereItGoes(t *testing.T) {
	w := &Way{say: func(l qty.Length) string { return qty.Metric.Format(l) }}
	known := rs274.Position{X: 2 * qty.Millimetre, Known: rs274.X | rs274.Y}
	for _, c := range []struct {
		at   rs274.Position
		want string
	}{{known, "goes across to X 2.000, Y 0.000"}, {rs274.Position{}, "goes across before X and Y are known"}} {
		if got := w.to(c.at); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
