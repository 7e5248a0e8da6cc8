package choice

import (
	"testing"

	"borewright/process/candidate"
)

// TestQuietBeforeALittleQuicker: of pairs that weigh nearly alike one that is quiet for certain is taken before
// one that may sing; not where it costs more than a little, nor where the lightest is quiet itself.
func TestQuietBeforeALittleQuicker(t *testing.T) {
	pairOf := func(minutes, sings, margin float64) *pair {
		return &pair{Candidate: candidate.Candidate{Planned: true, Feasible: true, Minutes: minutes, Sings: sings, Margin: [2]float64{margin, 6 * margin}}}
	}
	for _, row := range []struct {
		why  string
		all  []*pair // the lightest first
		want int
	}{
		{"a minute for a bar that does not sing", []*pair{pairOf(55, 0, 0.44), pairOf(55.5, 0, 0.9), pairOf(56, 0, 2.4)}, 2},
		{"five minutes are more than a little", []*pair{pairOf(55, 0, 0.44), pairOf(60, 0, 2.4)}, 0},
		{"the price of chatter is in what it weighs", []*pair{pairOf(52, 4, 0.2), pairOf(58, 0, 2.4)}, 1},
		{"quiet already", []*pair{pairOf(55, 0, 1.2), pairOf(56, 0, 2.4)}, 0},
		{"none is quiet", []*pair{pairOf(55, 0, 0.44), pairOf(56, 0, 0.95)}, 0},
	} {
		if got := quiet(row.all, 0); got != row.want {
			t.Errorf("%s: %d is taken, want %d", row.why, got, row.want)
		}
	}
}
