package setup

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What a pass leaves of an uneven bore is λ = c·k/(1 + c·k) of it while force
// rises straight with depth; n passes leave λⁿ. For a cut of 5 N/µm on a bar of
// 20.6 N/µm λ is 0.195: of 200 µm out of round one pass leaves 39 µm, a second
// 7.6 µm. Source: Koenigsberger & Tlusty, Machine Tool Structures 1 (1970), after
// Sokolovskii; from memory, the figures computed.
func TestLeftBy(t *testing.T) {
	const c, k = 0.4e-3, 150.0
	straight := Push(func(a float64) float64 { return c * k * a })
	left := straight.LeftBy(40.0, 40.2, 40.5) - 40.5
	if want := c * k / (1 + c*k) * 0.2; math.Abs(left-want) > 1e-4*0.2 {
		t.Errorf("leaves %.6f, λ·0.2 = %.6f", left, want)
	}
	const soft, stiff = 1 / 20600.0, 5000.0
	firm := Push(func(a float64) float64 { return soft * stiff * a })
	once := firm.LeftBy(40.0, 40.2, 40.5) - 40.5
	twice := firm.LeftBy(40.5, 40.5+once, 41) - 41
	if math.Abs(once-0.039) > 1e-4 || math.Abs(twice-0.0076) > 5e-5 {
		t.Errorf("of 0.2 mm one pass leaves %.5f, the second %.5f", once, twice)
	}
	if got := straight.LeftBy(40, 41, 40.5); got != 41 {
		t.Errorf("a place that the cutter does not reach stays as it was: %v", got)
	}
}

// The two ways undo each other, whatever the bar, and also where the cut pulls the
// tip into the wall.
func TestSetting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0, 50).Draw(t, "push, mm/mm")
		p := rapid.Float64Range(0.2, 1.5).Draw(t, "power")
		pull := rapid.Float64Range(0, 0.9).Draw(t, "pull, mm/mm")
		depth := rapid.Float64Range(1e-4, 5).Draw(t, "depth")
		push := Push(func(a float64) float64 { return k*math.Pow(a, p) - pull*a })
		if setting := push.SettingFor(depth); setting > 0 {
			if got := push.DepthFor(setting); math.Abs(got-depth) > 1e-9*max(depth, setting) {
				t.Fatalf("depth %g, set to %g, comes back as %g", depth, setting, got)
			}
		}
	})
	// A straight push: depth = setting/(1 + k), also where it pulls.
	for _, k := range []float64{0.2, 0, -0.3, -0.9} {
		push := Push(func(a float64) float64 { return k * a })
		if got, want := push.DepthFor(0.12), 0.12/(1+k); math.Abs(got/want-1) > 1e-9 {
			t.Errorf("pushed off by %g of the depth: %g deep, %g by hand", k, got, want)
		}
		if push.DepthFor(-1) != -1 || push.DepthFor(0) != 0 || push.SettingFor(0) != 0 {
			t.Error("nothing set, nothing cut")
		}
	}
}

// A push that falls as the depth grows turns the shape round: the bore is out of
// round all the same. Closed form: with push(a) = −g·a the other place comes out at
// made − g·(rMost − rLeast)/(1 − g).
func TestTheShapeTurnedRoundIsOutOfRound(t *testing.T) {
	const g = 0.2
	falls := Push(func(a float64) float64 { return -g * a })
	left := falls.LeftBy(50, 50.1, 51) - 51
	if want := g * 0.1 / (1 - g); math.Abs(left-want) > 0.002*want {
		t.Errorf("%.6f left, %.6f by the closed form", left, want)
	}
}
