package passes

import (
	"math"
	"testing"
)

// What a pass leaves of an uneven bore is λ = c·k/(1 + c·k) of it while force
// rises straight with depth; n passes leave λⁿ. For a cut of 5 N/µm on a bar of
// 20.6 N/µm λ is 0.195: of 200 µm out of round one pass leaves 39 µm, a second
// 7.6 µm. Source: Koenigsberger & Tlusty, Machine Tool Structures 1 (1970), after
// Sokolovskii; from memory, the figures computed.
func TestLeftBy(t *testing.T) {
	const c, k = 0.4e-3, 150.0
	straight := func(a float64) float64 { return k * math.Max(0, a) }
	left := LeftBy(40.0, 40.2, 40.5, c, straight) - 40.5
	if want := c * k / (1 + c*k) * 0.2; math.Abs(left-want) > 1e-4*0.2 {
		t.Errorf("leaves %.6f, λ·0.2 = %.6f", left, want)
	}
	const soft, stiff = 1 / 20600.0, 5000.0
	firm := func(a float64) float64 { return stiff * math.Max(0, a) }
	once := LeftBy(40.0, 40.2, 40.5, soft, firm) - 40.5
	twice := LeftBy(40.5, 40.5+once, 41, soft, firm) - 41
	if math.Abs(once-0.039) > 1e-4 || math.Abs(twice-0.0076) > 5e-5 {
		t.Errorf("of 0.2 mm one pass leaves %.5f, the second %.5f", once, twice)
	}
	if got := LeftBy(40, 41, 40.5, c, straight); got != 41 {
		t.Errorf("a place that the cutter does not reach stays as it was: %v", got)
	}
}
